//! What bends the skins besides the panel: the foam's shear strain, where it changes from place to place.
//!
//! A skin follows the sag, `-w'' = b' - g'`, with `b` the turning of the panel and `g = w' + b` its shear strain. The
//! panel's own bending `b'` is read from the cell; this is the reading of `g'`. A skin cannot be kinked: where a line
//! load steps the shear strain by `dg`, its curvature is `dg/(2 l)` at the line and dies away as `exp(-s/l)`, with
//! `l = sqrt(D_f/S)`, `D_f` the skins' own bending stiffness and `S` the panel's shear stiffness (thick faces, Allen
//! 1969, from memory, with `D_f` small beside the panel's). A difference over `l` to both sides has just that peak, and
//! is the gradient wherever the strain changes evenly.
//!
//! At a line where something may step (another make-up, a member) each side goes on evenly up to the line, and both
//! cells beside it read what is at the line. Where a slot, a joint or an opening begins, the strain is read on one side:
//! slots and joints bend the skins by statics, which their own checks tell, and no moment acts on a skin's free edge.

use super::{PlateShape, ZoneReading};

/// Share of the shear strain of other cells in how it changes at one, 1/m.
pub(super) type Change = Vec<(usize, f64)>;

/// A row of cells without a gap, and what lies between them.
struct Row<'a> {
    /// Cells, in order.
    cells: &'a [usize],
    /// Lines that bound them: one more than cells.
    lines: &'a [f64],
    /// Reach `l` in each.
    reach: &'a [f64],
    /// Whether the strain may step at each inner line.
    steps: &'a [bool],
}

impl Row<'_> {
    fn middle(&self, k: usize) -> f64 {
        (self.lines[k] + self.lines[k + 1]) / 2.0
    }

    /// First and last cell of the even stretch that a cell lies in.
    fn stretch(&self, k: usize) -> (usize, usize) {
        let first = (0..k).rev().take_while(|i| !self.steps[*i]).last().unwrap_or(k);
        let last = (k..self.steps.len()).take_while(|i| !self.steps[*i]).last().map_or(k, |i| i + 1);
        (first, last)
    }

    /// The strain at a place of the stretch that a cell lies in, as shares: between the middles of two cells.
    fn value(&self, k: usize, at: f64, share: f64, out: &mut Vec<(usize, f64)>) {
        let (first, last) = self.stretch(k);
        if first == last {
            out.push((k, share));
            return;
        }
        let right = (first + 1..last).find(|i| self.middle(*i) >= at).unwrap_or(last);
        let (a, b) = (self.middle(right - 1), self.middle(right));
        let part = (at - a) / (b - a);
        out.push((right - 1, share * (1.0 - part)));
        out.push((right, share * part));
    }

    /// Its even change in a cell over the reach to both sides, as far as there are cells.
    fn even(&self, k: usize, out: &mut Vec<(usize, f64)>) {
        let (first, last) = self.stretch(k);
        let from = (self.middle(k) - self.reach[k]).max(self.middle(first));
        let to = (self.middle(k) + self.reach[k]).min(self.middle(last));
        if to > from {
            self.value(k, to, 1.0 / (to - from), out);
            self.value(k, from, -1.0 / (to - from), out);
        }
    }

    /// Its change at the line before a cell where it may step: the even changes of both sides, and the step.
    fn stepped(&self, right: usize, out: &mut Vec<(usize, f64)>) {
        let left = right - 1;
        let mut even = Vec::new();
        self.even(left, &mut even);
        self.even(right, &mut even);
        out.extend(even.into_iter().map(|(k, share)| (k, share / 2.0)));
        let over = 1.0 / (self.reach[left] + self.reach[right]);
        self.value(right, self.lines[right], over, out);
        self.value(left, self.lines[right], -over, out);
    }

    /// What each cell reads.
    fn changes(&self, mut take: impl FnMut(usize, Change)) {
        for k in 0..self.cells.len() {
            let mut shares = Vec::new();
            if k > 0 && self.steps[k - 1] {
                self.stepped(k, &mut shares);
            } else if self.steps.get(k).is_some_and(|s| *s) {
                self.stepped(k + 1, &mut shares);
            } else {
                self.even(k, &mut shares);
            }
            let mut change: Change = Vec::new();
            for (at, share) in shares {
                match change.iter_mut().find(|(cell, _)| *cell == self.cells[at]) {
                    Some((_, sum)) => *sum += share,
                    None => change.push((self.cells[at], share)),
                }
            }
            change.retain(|(_, share)| share.abs() > 1e-12);
            take(self.cells[k], change);
        }
    }
}

/// How the shear strain changes across and along at every cell of the grid, from that of the cells round it.
pub(super) fn changes(shape: &PlateShape, readings: &[ZoneReading]) -> Vec<[Change; 2]> {
    let grid = &shape.grid;
    let counts = [grid.x().len() - 1, grid.y().len() - 1];
    let mut out: Vec<[Change; 2]> = vec![Default::default(); grid.cells()];
    for (direction, all) in [grid.x(), grid.y()].into_iter().enumerate() {
        let (count, across) = (counts[direction], counts[1 - direction]);
        let cell =
            |lane: usize, k: usize| if direction == 0 { lane * count + k } else { k * counts[0] + lane };
        let bends = |c: usize| grid.zone(c).and_then(|zone| readings[zone].reach.map(|l| l[direction]));
        for lane in 0..across {
            let mut from = 0;
            while from < count {
                if bends(cell(lane, from)).is_none() {
                    from += 1;
                    continue;
                }
                let to = (from..count).find(|k| bends(cell(lane, *k)).is_none()).unwrap_or(count);
                let cells: Vec<usize> = (from..to).map(|k| cell(lane, k)).collect();
                let reach: Vec<f64> = cells.iter().filter_map(|c| bends(*c)).collect();
                let steps: Vec<bool> = (cells.windows(2).zip(from + 1..))
                    .map(|(pair, line)| {
                        grid.zone(pair[0]) != grid.zone(pair[1]) || shape.member_lines[direction][line]
                    })
                    .collect();
                let row = Row { cells: &cells, lines: &all[from..=to], reach: &reach, steps: &steps };
                row.changes(|at, change| out[at][direction] = change);
                from = to;
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::Row;
    use approx::assert_relative_eq;

    const LINES: [f64; 7] = [0.0, 0.05, 0.08, 0.12, 0.17, 0.20, 0.25];

    /// The change that each of six cells reads of a strain.
    fn read(reach: f64, steps: [bool; 5], strain: impl Fn(usize, f64) -> f64) -> Vec<f64> {
        let row = Row { cells: &[0, 1, 2, 3, 4, 5], lines: &LINES, reach: &[reach; 6], steps: &steps };
        let mut out = vec![f64::NAN; 6];
        row.changes(|k, change| {
            out[k] = change.iter().map(|(c, share)| share * strain(*c, row.middle(*c))).sum();
        });
        out
    }

    #[test]
    fn an_even_change_is_read_everywhere() {
        for steps in [[false; 5], [false, true, false, false, true], [true; 5]] {
            for reach in [0.004, 0.016, 0.09] {
                let got = read(reach, steps, |_, x| 3.0 * x - 1.0);
                // A cell between two lines that step has no neighbour to tell an even change by.
                let alone = |k: usize| (k == 0 || steps[k - 1]) && (k == 5 || steps[k]);
                for (k, value) in got.iter().enumerate().filter(|(k, _)| !alone(*k) && steps != [true; 5]) {
                    let beside_alone = (k > 0 && alone(k - 1)) || (k < 5 && alone(k + 1));
                    if !beside_alone {
                        assert_relative_eq!(*value, 3.0, max_relative = 1e-9);
                    }
                }
            }
        }
    }

    /// A line load that steps the strain by 1: `1/(2 l)` at the line (thick faces), read on both sides of it.
    #[test]
    fn a_step_is_read_at_its_line() {
        let step = |k: usize, _| f64::from(u8::from(k >= 3));
        let got = read(0.016, [false, false, true, false, false], step);
        assert_relative_eq!(got[2], 1.0 / 0.032, max_relative = 1e-12);
        assert_relative_eq!(got[3], 1.0 / 0.032, max_relative = 1e-12);
        assert!(got[0].abs() < 1e-12 && got[5].abs() < 1e-12, "{got:?}");
    }
}
