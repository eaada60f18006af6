//! The structured grid of rectangles: lines on every edge that matters, finer where asked.

use super::error::{PlateError, checked};

/// How fast the cell size grows with the distance from a finer stretch.
const GROWTH: f64 = 0.25;
/// Lines nearer than this are one line, m.
const SAME_LINE: f64 = 1e-6;

/// A stretch along one axis where the grid is finer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finer {
    /// Start, m.
    pub from: f64,
    /// End, m.
    pub to: f64,
    /// Cell size inside the stretch, m.
    pub size: f64,
}

/// Grid lines from 0 to `length` that fall on all of `must_hit` and whose spacing is at most `size`, less in
/// and near the `finer` stretches.
///
/// # Units
/// All lengths in m. Lines outside `0..=length` are ignored; lines nearer than a micrometre are one.
///
/// # Errors
/// A length or size that is not a positive number, or a size so small that there would be thousands of
/// lines.
pub fn graded_lines(
    length: f64,
    must_hit: &[f64],
    size: f64,
    finer: &[Finer],
) -> Result<Vec<f64>, PlateError> {
    checked("grid length (m)", length, "positive", |v| v > 0.0)?;
    checked("cell size (m)", size, "at least a thousandth of the length", |v| v >= length / 1000.0)?;
    for f in finer {
        checked("start of a finer stretch (m)", f.from, "finite", |_| true)?;
        checked("end of a finer stretch (m)", f.to, "not before its start", |v| v >= f.from)?;
        checked("finer cell size (m)", f.size, "at least 1/2000 of the length", |v| v >= length / 2000.0)?;
    }
    let mut fixed = vec![0.0, length];
    for &line in must_hit {
        checked("grid line (m)", line, "finite", |_| true)?;
        if line > SAME_LINE && line < length - SAME_LINE {
            fixed.push(line);
        }
    }
    fixed.sort_by(f64::total_cmp);
    fixed.dedup_by(|b, a| *b - *a < SAME_LINE);

    let local_size = |x: f64| {
        finer.iter().fold(size, |least, f| {
            let distance = (f.from - x).max(x - f.to).max(0.0);
            least.min(f.size + GROWTH * distance)
        })
    };
    let mut lines = vec![0.0];
    for pair in fixed.windows(2) {
        subdivide(pair[0], pair[1], &local_size, &mut lines);
    }
    Ok(lines)
}

/// Divides `a..b` so that every cell holds the same share of the integral of 1/size.
fn subdivide(a: f64, b: f64, local_size: &impl Fn(f64) -> f64, lines: &mut Vec<f64>) {
    const STEPS: usize = 64;
    let step = (b - a) / STEPS as f64;
    let mut cumulative = [0.0; STEPS + 1];
    for k in 0..STEPS {
        cumulative[k + 1] = cumulative[k] + step / local_size(a + (k as f64 + 0.5) * step);
    }
    let total = cumulative[STEPS];
    let cells = (total - 1e-9).ceil().max(1.0);
    let mut k = 0;
    for cell in 1..cells as usize {
        let wanted = total * cell as f64 / cells;
        while cumulative[k + 1] < wanted {
            k += 1;
        }
        let part = (wanted - cumulative[k]) / (cumulative[k + 1] - cumulative[k]);
        lines.push(a + (k as f64 + part) * step);
    }
    lines.push(b);
}

/// A grid of rectangles over the roof, each with the zone (laminate) it belongs to, or none in an opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    x: Vec<f64>,
    y: Vec<f64>,
    zone: Vec<Option<usize>>,
}

impl Grid {
    /// A grid on the lines `x` and `y` (m, ascending from 0); `zone_of` is asked for the zone at each cell's
    /// centre, `None` meaning that there is no panel.
    ///
    /// # Errors
    /// Fewer than two lines, or lines that do not ascend.
    pub fn new(
        x: Vec<f64>,
        y: Vec<f64>,
        zone_of: impl Fn(f64, f64) -> Option<usize>,
    ) -> Result<Self, PlateError> {
        for lines in [&x, &y] {
            checked("number of grid lines", lines.len() as f64, "at least 2", |v| v >= 2.0)?;
            for pair in lines.windows(2) {
                checked("grid spacing (m)", pair[1] - pair[0], "positive", |v| v > 0.0)?;
            }
        }
        let mut zone = Vec::with_capacity((x.len() - 1) * (y.len() - 1));
        for row in y.windows(2) {
            for column in x.windows(2) {
                zone.push(zone_of((column[0] + column[1]) / 2.0, (row[0] + row[1]) / 2.0));
            }
        }
        Ok(Self { x, y, zone })
    }

    /// Lines across, m.
    pub fn x(&self) -> &[f64] {
        &self.x
    }

    /// Lines along, m.
    pub fn y(&self) -> &[f64] {
        &self.y
    }

    /// Number of nodes, those in openings included.
    pub fn nodes(&self) -> usize {
        self.x.len() * self.y.len()
    }

    /// Number of cells, absent ones included.
    pub fn cells(&self) -> usize {
        self.zone.len()
    }

    /// Zone of a cell, `None` where there is no panel.
    pub fn zone(&self, cell: usize) -> Option<usize> {
        self.zone[cell]
    }

    /// Node at line `i` across and `j` along.
    pub fn node(&self, i: usize, j: usize) -> usize {
        j * self.x.len() + i
    }

    /// Place of a node, m.
    pub fn place(&self, node: usize) -> (f64, f64) {
        (self.x[node % self.x.len()], self.y[node / self.x.len()])
    }

    /// Column and row of a cell.
    pub fn column_row(&self, cell: usize) -> (usize, usize) {
        (cell % (self.x.len() - 1), cell / (self.x.len() - 1))
    }

    /// Size of a cell across and along, m.
    pub fn size(&self, cell: usize) -> (f64, f64) {
        let (i, j) = self.column_row(cell);
        (self.x[i + 1] - self.x[i], self.y[j + 1] - self.y[j])
    }

    /// Centre of a cell, m.
    pub fn centre(&self, cell: usize) -> (f64, f64) {
        let (i, j) = self.column_row(cell);
        ((self.x[i] + self.x[i + 1]) / 2.0, (self.y[j] + self.y[j + 1]) / 2.0)
    }

    /// The four nodes of a cell, anticlockwise from the left front corner.
    pub fn corners(&self, cell: usize) -> [usize; 4] {
        let (i, j) = self.column_row(cell);
        [self.node(i, j), self.node(i + 1, j), self.node(i + 1, j + 1), self.node(i, j + 1)]
    }

    /// Cells that hold panel.
    pub fn present(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.zone.iter().enumerate().filter_map(|(cell, zone)| zone.map(|z| (cell, z)))
    }

    /// Cell that holds a point, `None` outside the roof; a point on a line goes to the cell before it, unless
    /// only the cell after it holds panel.
    pub fn cell_at(&self, x: f64, y: f64) -> Option<usize> {
        let (columns, rows) = (intervals_at(&self.x, x), intervals_at(&self.y, y));
        let mut first = None;
        for &j in rows.iter().flatten() {
            for &i in columns.iter().flatten() {
                let cell = j * (self.x.len() - 1) + i;
                if self.zone[cell].is_some() {
                    return Some(cell);
                }
                first = first.or(Some(cell));
            }
        }
        first
    }

    /// Index of the line across (`x`) at this coordinate.
    pub(crate) fn x_line(&self, what: &str, at: f64) -> Result<usize, PlateError> {
        line_at(&self.x, what, at)
    }

    /// Index of the line along (`y`) at this coordinate.
    pub(crate) fn y_line(&self, what: &str, at: f64) -> Result<usize, PlateError> {
        line_at(&self.y, what, at)
    }
}

fn line_at(lines: &[f64], what: &str, at: f64) -> Result<usize, PlateError> {
    checked(&format!("{what} (m)"), at, "finite", |_| true)?;
    let after = lines.partition_point(|&l| l < at);
    let nearest = match after {
        0 => 0,
        n if n == lines.len() => n - 1,
        n if at - lines[n - 1] < lines[n] - at => n - 1,
        n => n,
    };
    if (lines[nearest] - at).abs() <= SAME_LINE {
        Ok(nearest)
    } else {
        Err(PlateError::OffTheGrid { what: what.to_owned(), at, nearest: lines[nearest] })
    }
}

/// The interval or the two intervals that hold `at`.
fn intervals_at(lines: &[f64], at: f64) -> [Option<usize>; 2] {
    let last = lines.len() - 1;
    if !(lines[0] - SAME_LINE..=lines[last] + SAME_LINE).contains(&at) {
        return [None, None];
    }
    let after = lines.partition_point(|&l| l < at - SAME_LINE).clamp(1, last);
    let on_line = (lines[after] - at).abs() <= SAME_LINE && after < last;
    [Some(after - 1), on_line.then_some(after)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_hit_what_they_must_and_grow_slowly() {
        let finer = [Finer { from: 0.95, to: 1.35, size: 0.02 }];
        let lines = graded_lines(2.3, &[0.95, 1.35, 1.15], 0.1, &finer).unwrap();
        for wanted in [0.0, 0.95, 1.15, 1.35, 2.3] {
            assert!(lines.iter().any(|l| (l - wanted).abs() < 1e-12), "{wanted} missing");
        }
        let sizes: Vec<f64> = lines.windows(2).map(|p| p[1] - p[0]).collect();
        assert!(sizes.iter().all(|&s| s > 0.0 && s <= 0.1 + 1e-12));
        assert!(sizes.windows(2).all(|p| p[1] / p[0] < 1.5 && p[0] / p[1] < 1.5), "{sizes:?}");
        let inside = lines.windows(2).filter(|p| p[0] >= 0.95 - 1e-9 && p[1] <= 1.35 + 1e-9);
        assert!(inside.clone().count() >= 20);
        assert!(inside.map(|p| p[1] - p[0]).all(|s| (s - 0.02).abs() < 1e-9));
    }

    #[test]
    fn a_mirrored_roof_has_a_mirrored_grid() {
        let finer = [Finer { from: 0.9, to: 1.4, size: 0.03 }];
        let lines = graded_lines(2.3, &[0.9, 1.4], 0.12, &finer).unwrap();
        for (a, b) in lines.iter().zip(lines.iter().rev()) {
            assert!((a + b - 2.3).abs() < 1e-12);
        }
    }

    #[test]
    fn an_opening_has_no_cells_and_its_edge_belongs_to_the_panel() {
        let lines: Vec<f64> = (0..=6).map(f64::from).collect();
        let hole = |x: f64, y: f64| ((x - 3.0).abs() < 1.0 && (y - 3.0).abs() < 1.0).then_some(());
        let grid = Grid::new(lines.clone(), lines, |x, y| hole(x, y).is_none().then_some(0)).unwrap();
        assert_eq!(grid.present().count(), 32);
        let edge = grid.cell_at(4.0, 3.0).unwrap();
        assert_eq!(grid.column_row(edge), (4, 2));
        assert_eq!(grid.zone(grid.cell_at(3.0, 3.0).unwrap()), None);
        assert_eq!(grid.cell_at(6.5, 1.0), None);
    }

    #[test]
    fn a_line_that_is_not_there_is_named() {
        let grid = Grid::new(vec![0.0, 1.0, 2.0], vec![0.0, 1.0], |_, _| Some(0)).unwrap();
        assert_eq!(grid.x_line("brace", 1.0).unwrap(), 1);
        let error = grid.x_line("brace", 1.2).unwrap_err();
        assert_eq!(error, PlateError::OffTheGrid { what: "brace".into(), at: 1.2, nearest: 1.0 });
        assert!(graded_lines(f64::NAN, &[], 0.1, &[]).is_err());
        assert!(graded_lines(2.0, &[], 1e-9, &[]).is_err());
    }
}
