//! Loads: pressures, exact patches, the ring round an opening, points, and strains of the braces.

use super::brace::Piece;
use super::error::{PlateError, checked};
use super::forces::Forces;
use super::system::PlateSystem;

/// One load. Forces and pressures act downwards when positive.
#[derive(Debug, Clone, PartialEq)]
pub enum Load {
    /// Pressure on the whole panel, Pa.
    Pressure(f64),
    /// Pressure by zone, Pa.
    ZonePressure(Vec<f64>),
    /// A force spread evenly over what panel there is inside a rectangle.
    Patch {
        /// Left and right edge, m.
        x: [f64; 2],
        /// Front and rear edge, m.
        y: [f64; 2],
        /// Force, N.
        force: f64,
    },
    /// A force on a band round an opening, shared between its four quarters.
    Ring {
        /// Left and right edge of the opening, m.
        x: [f64; 2],
        /// Front and rear edge of the opening, m.
        y: [f64; 2],
        /// Width of the band, m.
        band: f64,
        /// Force, N.
        force: f64,
        /// Share of the left half, 0 to 1.
        left: f64,
        /// Share of the front half, 0 to 1.
        front: f64,
    },
    /// A force at one point, N.
    Point {
        /// Across, m.
        x: f64,
        /// Along, m.
        y: f64,
        /// Force, N.
        force: f64,
    },
    /// A force spread evenly along a member: its own weight.
    OnBrace {
        /// Index of the member.
        brace: usize,
        /// Whole force, N.
        force: f64,
    },
    /// Strains that a member has of its own: heat, or a curvature sprung into it.
    BraceStrain {
        /// Index of the member.
        brace: usize,
        /// Free axial strain, extension positive.
        axial: f64,
        /// Free curvature, 1/m, positive where the member alone would sag.
        curvature: f64,
    },
}

/// Loads as forces on the unknowns of one roof.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadVector {
    /// Forces on the full unknowns, upwards positive.
    pub(crate) force: Forces,
    /// Free axial strain and curvature `th,x` of each member.
    pub(crate) brace_strain: Vec<[f64; 2]>,
}

impl LoadVector {
    /// This load times `factor`.
    pub fn scaled(mut self, factor: f64) -> Self {
        self.force.scale(factor);
        self.brace_strain.iter_mut().flatten().for_each(|v| *v *= factor);
        self
    }

    /// The whole downward force, N.
    pub fn total(&self, system: &PlateSystem) -> f64 {
        let panel = 5 * system.model.grid.nodes();
        -self.force.iter().filter(|(f, _)| *f < panel && f % 5 == 2).map(|(_, force)| force).sum::<f64>()
    }
}

/// Forces on full unknowns, upwards positive, as they come.
#[derive(Default)]
struct Parts(Vec<(u32, f64)>);

impl Parts {
    fn down(&mut self, node: usize, force: f64) {
        self.0.push((5 * node as u32 + 2, -force));
    }
}

impl PlateSystem {
    /// The sum of `loads` as a right-hand side of this roof.
    ///
    /// # Errors
    /// Numbers that are not finite, and a patch, band or point with no panel under it.
    pub fn load(&self, loads: &[Load]) -> Result<LoadVector, PlateError> {
        let mut parts = Parts::default();
        let mut brace_strain = vec![[0.0; 2]; self.model.braces.len()];
        for load in loads {
            self.add(load, &mut parts, &mut brace_strain)?;
        }
        Ok(LoadVector { force: Forces::sum_of(parts.0), brace_strain })
    }

    fn add(&self, load: &Load, parts: &mut Parts, brace_strain: &mut [[f64; 2]]) -> Result<(), PlateError> {
        let finite = |what: &str, value: f64| checked(what, value, "finite", |_| true);
        match load {
            Load::Pressure(pressure) => {
                finite("pressure (Pa)", *pressure)?;
                self.add_pressure(|_| *pressure, parts);
            }
            Load::ZonePressure(by_zone) => {
                let zones = self.model.laminates.len();
                checked("number of zone pressures", by_zone.len() as f64, "one per zone", |v| {
                    v == zones as f64
                })?;
                for &pressure in by_zone {
                    finite("pressure (Pa)", pressure)?;
                }
                self.add_pressure(|zone| by_zone[zone], parts);
            }
            Load::Patch { x, y, force } => self.add_patches(&[(*x, *y)], *force, parts)?,
            Load::Ring { x, y, band, force, left, front } => {
                checked("width of the ring's band (m)", *band, "positive", |v| v > 0.0)?;
                for share in [left, front] {
                    checked("share of the ring load", *share, "0 to 1", |v| (0.0..=1.0).contains(&v))?;
                }
                for (quarter, share) in ring_quarters(*x, *y, *band, *left, *front) {
                    if share != 0.0 {
                        self.add_patches(&quarter, force * share, parts)?;
                    }
                }
            }
            Load::Point { x, y, force } => {
                finite("point load (N)", *force)?;
                let cell = self.model.grid.cell_at(*x, *y).filter(|&c| self.model.grid.zone(c).is_some());
                let cell = cell.ok_or(PlateError::NoPanel { what: "a point load".into(), x: *x, y: *y })?;
                let shares = self.corner_shares(cell, *x, *y);
                for (node, share) in self.model.grid.corners(cell).into_iter().zip(shares) {
                    parts.down(node, force * share);
                }
            }
            Load::OnBrace { brace, force } => {
                self.known_brace(*brace)?;
                finite("weight of a brace (N)", *force)?;
                let [from, to] = self.model.braces[*brace].ends;
                let first = self.layout.first_piece[*brace] - self.layout.first_piece[0];
                for (pair, place) in
                    self.layout.brace_nodes[*brace].windows(2).zip(&self.layout.pieces[first..])
                {
                    for node in pair {
                        parts.down(*node, force * place.length / (to - from) / 2.0);
                    }
                }
            }
            Load::BraceStrain { brace, axial, curvature } => {
                finite("free axial strain", *axial)?;
                finite("free curvature (1/m)", *curvature)?;
                self.known_brace(*brace)?;
                brace_strain[*brace][0] += axial;
                brace_strain[*brace][1] -= curvature;
                self.add_brace_strain(*brace, *axial, -*curvature, parts);
            }
        }
        Ok(())
    }

    fn known_brace(&self, brace: usize) -> Result<(), PlateError> {
        let count = self.model.braces.len();
        checked("index of a brace", brace as f64, "below the number of braces", |v| v < count as f64)?;
        Ok(())
    }

    fn add_pressure(&self, pressure: impl Fn(usize) -> f64, parts: &mut Parts) {
        for (cell, zone) in self.model.grid.present() {
            let (dx, dy) = self.model.grid.size(cell);
            for node in self.model.grid.corners(cell) {
                parts.down(node, pressure(zone) * dx * dy / 4.0);
            }
        }
    }

    /// `total` spread evenly over the panel inside `rectangles`, which do not overlap.
    fn add_patches(
        &self,
        rectangles: &[([f64; 2], [f64; 2])],
        total: f64,
        parts: &mut Parts,
    ) -> Result<(), PlateError> {
        checked("force of a patch (N)", total, "finite", |_| true)?;
        for (x, y) in rectangles {
            checked("width of a patch (m)", x[1] - x[0], "positive", |v| v > 0.0)?;
            checked("length of a patch (m)", y[1] - y[0], "positive", |v| v > 0.0)?;
        }
        let grid = &self.model.grid;
        let mut area = 0.0;
        let mut shares = Vec::new();
        let met = |lines: &[f64], patch: [f64; 2]| {
            let first = lines.partition_point(|l| *l <= patch[0]).saturating_sub(1);
            first..lines.partition_point(|l| *l < patch[1]).min(lines.len() - 1)
        };
        let columns = grid.x().len() - 1;
        for (x, y) in rectangles {
            for j in met(grid.y(), *y) {
                for i in met(grid.x(), *x) {
                    let cell = j * columns + i;
                    if grid.zone(cell).is_none() {
                        continue;
                    }
                    let across = linear_shares(grid.x()[i], grid.x()[i + 1], *x);
                    let along = linear_shares(grid.y()[j], grid.y()[j + 1], *y);
                    let (Some(across), Some(along)) = (across, along) else { continue };
                    area += (across[0] + across[1]) * (along[0] + along[1]);
                    let corners = grid.corners(cell);
                    for (node, (a, b)) in corners.into_iter().zip([(0, 0), (1, 0), (1, 1), (0, 1)]) {
                        shares.push((node, across[a] * along[b]));
                    }
                }
            }
        }
        if area <= 0.0 {
            let (x, y) = rectangles[0];
            let (x, y) = ((x[0] + x[1]) / 2.0, (y[0] + y[1]) / 2.0);
            return Err(PlateError::NoPanel { what: "a patch load".into(), x, y });
        }
        for (node, share) in shares {
            parts.down(node, total * share / area);
        }
        Ok(())
    }

    fn add_brace_strain(&self, brace: usize, axial: f64, curvature: f64, parts: &mut Parts) {
        let layout = &self.layout;
        let member = &self.model.braces[brace];
        for element in layout.first_piece[brace]..layout.first_piece[brace + 1] {
            let place = &layout.pieces[element - layout.first_piece[0]];
            let piece = Piece::new(member, place.length, place.slope);
            let forces = piece.initial_strain_force(member, axial, curvature);
            let used =
                layout.element(element).iter().zip(forces).filter(|(f, _)| (**f as usize) < layout.full);
            parts.0.extend(used.map(|(&f, value)| (f, value)));
        }
    }

    /// Shares of the four corners of a cell in a value at a point.
    pub(crate) fn corner_shares(&self, cell: usize, x: f64, y: f64) -> [f64; 4] {
        let grid = &self.model.grid;
        let (i, j) = grid.column_row(cell);
        let (dx, dy) = grid.size(cell);
        let (a, b) = ((x - grid.x()[i]) / dx, (y - grid.y()[j]) / dy);
        [(1.0 - a) * (1.0 - b), a * (1.0 - b), a * b, (1.0 - a) * b]
    }
}

/// Integrals of the two linear shares over the part of `patch` inside `from..to`, `None` if there is none.
fn linear_shares(from: f64, to: f64, patch: [f64; 2]) -> Option<[f64; 2]> {
    let (a, b) = (patch[0].max(from), patch[1].min(to));
    if b <= a {
        return None;
    }
    let second = (b - a) * ((a + b) / 2.0 - from) / (to - from);
    Some([b - a - second, second])
}

/// The four quarters of a band round an opening, each as two rectangles, with their shares.
type Quarter = ([([f64; 2], [f64; 2]); 2], f64);

fn ring_quarters(x: [f64; 2], y: [f64; 2], band: f64, left: f64, front: f64) -> [Quarter; 4] {
    let (middle_x, middle_y) = ((x[0] + x[1]) / 2.0, (y[0] + y[1]) / 2.0);
    let quarter = |is_left: bool, is_front: bool| {
        let side = if is_left { [x[0] - band, x[0]] } else { [x[1], x[1] + band] };
        let end = if is_front { [y[0] - band, y[0]] } else { [y[1], y[1] + band] };
        let half_x = if is_left { [x[0], middle_x] } else { [middle_x, x[1]] };
        let whole_y = if is_front { [y[0] - band, middle_y] } else { [middle_y, y[1] + band] };
        let share_x = if is_left { left } else { 1.0 - left };
        let share_y = if is_front { front } else { 1.0 - front };
        ([(side, whole_y), (half_x, end)], share_x * share_y)
    };
    [quarter(true, true), quarter(false, true), quarter(true, false), quarter(false, false)]
}

#[cfg(test)]
mod tests {
    use super::super::validation::{panel_40, rectangle};
    use super::*;

    /// Force and its two first moments about the corner of the roof.
    fn resultant(load: Load) -> [f64; 3] {
        let fine = ([0.5, 0.7], [0.4, 0.9], 0.03);
        let system = PlateSystem::new(rectangle([2.3, 1.2], 0.09, &[fine], panel_40())).unwrap();
        let vector = system.load(&[load]).unwrap();
        let grid = &system.model.grid;
        (0..grid.nodes()).fold([0.0; 3], |[f, fx, fy], node| {
            let (x, y) = grid.place(node);
            let force = -vector.force.at(5 * node + 2);
            [f + force, fx + force * x, fy + force * y]
        })
    }

    #[track_caller]
    fn acts_at(load: Load, force: f64, x: f64, y: f64) {
        let [f, fx, fy] = resultant(load);
        for (found, wanted) in [(f, force), (fx, force * x), (fy, force * y)] {
            assert!((found - wanted).abs() < 1e-9 * wanted, "{found} {wanted}");
        }
    }

    #[test]
    fn loads_act_where_they_are_put() {
        acts_at(Load::Pressure(100.0), 276.0, 1.15, 0.6);
        acts_at(Load::Patch { x: [0.613, 0.777], y: [0.301, 0.45], force: 700.0 }, 700.0, 0.695, 0.3755);
        acts_at(Load::Point { x: 0.613, y: 0.301, force: 700.0 }, 700.0, 0.613, 0.301);
    }

    #[test]
    fn a_patch_over_the_edge_stands_on_what_is_there() {
        acts_at(Load::Patch { x: [-0.1, 0.1], y: [0.3, 0.4], force: 700.0 }, 700.0, 0.05, 0.35);
    }

    /// The centre of an even ring is that of the opening; 60/40 shifts it by a tenth of what lies between the
    /// centres of its halves.
    #[test]
    fn a_ring_shares_left_and_right() {
        let ring = |left: f64, front: f64| Load::Ring {
            x: [0.9, 1.3],
            y: [0.4, 0.8],
            band: 0.05,
            force: 450.0,
            left,
            front,
        };
        acts_at(ring(0.5, 0.5), 450.0, 1.1, 0.6);
        // Half a band: a side 0.05 by 0.25 at 0.225 and an end 0.2 by 0.05 at 0.1 from the middle.
        let arm = (0.05 * 0.25 * 0.225 + 0.2 * 0.05 * 0.1) / (0.05 * 0.25 + 0.2 * 0.05);
        let end_arm = (0.05 * 0.25 * 0.125 + 0.2 * 0.05 * 0.225) / (0.05 * 0.25 + 0.2 * 0.05);
        acts_at(ring(0.6, 0.3), 450.0, 1.1 - 0.2 * arm, 0.6 + 0.4 * end_arm);
    }
}
