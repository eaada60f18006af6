//! Two numberings of what moves: the *full* one, with what is held, and that of the *unknowns*, in elimination order.

use super::scatter::NONE;

/// What turns one numbering into the other.
#[derive(Debug)]
pub(crate) struct Numbering {
    /// Full number of each unknown.
    pub(crate) full_of: Vec<u32>,
    /// Unknown of each full number, [`NONE`] where it is held; one more for what elements do not use.
    pub(crate) unknown_of: Vec<u32>,
    /// Full numbers that are no unknowns.
    held: Vec<u32>,
}

impl Numbering {
    pub(crate) fn new(full_of: Vec<u32>, unknown_of: Vec<u32>) -> Self {
        let held =
            unknown_of.iter().zip(0..).filter(|(unknown, _)| **unknown == NONE).map(|(_, f)| f).collect();
        Self { full_of, unknown_of, held }
    }

    /// Length of a vector by full numbers.
    pub(crate) fn full(&self) -> usize {
        self.unknown_of.len()
    }

    /// The unknown of a full number.
    pub(crate) fn unknown(&self, full: usize) -> Option<usize> {
        Some(self.unknown_of[full]).filter(|u| *u != NONE).map(|u| u as usize)
    }

    /// The unknowns of a vector by full numbers.
    #[cfg(test)]
    pub(crate) fn unknown_part(&self, full: &[f64]) -> Vec<f64> {
        self.full_of.iter().map(|&f| full[f as usize]).collect()
    }

    /// A vector by full numbers from its unknowns.
    pub(crate) fn full_vector(&self, x: &[f64]) -> Vec<f64> {
        let mut full = vec![0.0; self.full()];
        for (&f, &value) in self.full_of.iter().zip(x) {
            full[f as usize] = value;
        }
        full
    }

    /// Writes `columns` vectors of unknowns, stored by rows, one after the other by full numbers into `to`; in tiles that
    /// stay in the cache.
    pub(crate) fn spread(&self, rows: &[f64], columns: usize, to: &mut [f64]) {
        const TILE: usize = 32;
        for (tile, rows) in self.full_of.chunks(TILE).zip(rows.chunks(TILE * columns)) {
            for (j, column) in to.chunks_exact_mut(self.full()).enumerate() {
                for (&f, value) in tile.iter().zip(rows[j..].iter().step_by(columns)) {
                    column[f as usize] = *value;
                }
            }
        }
        for column in to.chunks_exact_mut(self.full()) {
            self.held.iter().for_each(|&f| column[f as usize] = 0.0);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn solutions_side_by_side_are_written_one_after_the_other() {
        let numbering = Numbering::new(vec![3, 0, 4], vec![1, NONE, NONE, 0, 2, NONE]);
        let rows = [1.0, 10.0, 2.0, 20.0, 3.0, 30.0];
        let mut to = [f64::NAN; 12];
        numbering.spread(&rows, 2, &mut to);
        assert_eq!(to, [2.0, 0.0, 0.0, 1.0, 3.0, 0.0, 20.0, 0.0, 0.0, 10.0, 30.0, 0.0]);
        assert_eq!(numbering.full_vector(&[1.0, 2.0, 3.0]), to[..6]);
        assert_eq!(numbering.unknown_part(&to[6..]), [10.0, 20.0, 30.0]);
    }
}
