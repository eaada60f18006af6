//! A symmetric matrix whose rows end where their unknowns' cells end, and its Cholesky factor.
//!
//! As [`crate::strip::banded`], but a row is no longer than it need be: nodes inside a cell reach half as far as those
//! between two, which more than halves the work.

/// Upper half, row by row, each from the diagonal to its end; no row ends before the one above it.
#[derive(Debug, Clone)]
pub(super) struct Profile {
    starts: Vec<usize>,
    values: Vec<f64>,
}

impl Profile {
    /// Zeros; `ends`: one past the last column of each row, not falling.
    pub(super) fn zeros(ends: &[usize]) -> Profile {
        let mut starts = Vec::with_capacity(ends.len() + 1);
        let mut at = 0;
        for (i, end) in ends.iter().enumerate() {
            starts.push(at);
            at += end - i;
        }
        starts.push(at);
        Profile { starts, values: vec![0.0; at] }
    }

    fn size(&self) -> usize {
        self.starts.len() - 1
    }

    /// Adds `value` at (`i`, `j`) and, by symmetry, at (`j`, `i`).
    pub(super) fn add(&mut self, i: usize, j: usize, value: f64) {
        let (low, high) = (i.min(j), i.max(j));
        self.values[self.starts[low] + high - low] += value;
    }

    /// The unknown is held at zero: its row and column become those of the unit matrix.
    pub(super) fn hold(&mut self, i: usize) {
        let (from, to) = (self.starts[i], self.starts[i + 1]);
        self.values[from..to].fill(0.0);
        self.values[from] = 1.0;
        for row in (0..i).rev() {
            if self.starts[row] + i - row >= self.starts[row + 1] {
                break;
            }
            self.values[self.starts[row] + i - row] = 0.0;
        }
    }

    /// Factors it as `U' U`; `None` where a pivot has lost thirteen digits against its diagonal.
    pub(super) fn cholesky(mut self) -> Option<Factor> {
        let size = self.size();
        let diagonal: Vec<f64> = (0..size).map(|i| self.values[self.starts[i]]).collect();
        let mut i = 0;
        while i < size {
            // Two rows that end alike at a time.
            let pair = i + 1 < size
                && self.starts[i + 2] - self.starts[i + 1] + 1 == self.starts[i + 1] - self.starts[i];
            let (done, below) = self.values.split_at_mut(self.starts[i + if pair { 2 } else { 1 }]);
            let (first, second) = done[self.starts[i]..].split_at_mut(self.starts[i + 1] - self.starts[i]);
            scale(first, diagonal[i])?;
            if pair {
                let factor = first[1];
                second.iter_mut().zip(&first[1..]).for_each(|(y, x)| *y -= factor * x);
                scale(second, diagonal[i + 1])?;
            }
            let (next, reach) = if pair { (i + 2, second.len() - 1) } else { (i + 1, first.len() - 1) };
            let base = self.starts[next];
            for k in 0..reach {
                let row = &mut below[self.starts[next + k] - base..][..reach - k];
                if pair {
                    let (a, b) = (&first[2 + k..], &second[1 + k..]);
                    let (fa, fb) = (a[0], b[0]);
                    row.iter_mut().zip(a.iter().zip(b)).for_each(|(y, (x, z))| *y -= fa * x + fb * z);
                } else {
                    let a = &first[1 + k..];
                    let fa = a[0];
                    row.iter_mut().zip(a).for_each(|(y, x)| *y -= fa * x);
                }
            }
            i = next;
        }
        Some(Factor(self))
    }
}

fn scale(row: &mut [f64], diagonal: f64) -> Option<()> {
    if row[0] > 1e-13 * diagonal {
        let by = 1.0 / row[0].sqrt();
        row.iter_mut().for_each(|v| *v *= by);
        Some(())
    } else {
        None
    }
}

/// A factored [`Profile`].
pub(super) struct Factor(Profile);

impl Factor {
    /// Solves in place.
    pub(super) fn solve(&self, x: &mut [f64]) {
        let Profile { starts, values } = &self.0;
        for i in 0..starts.len() - 1 {
            let row = &values[starts[i]..starts[i + 1]];
            let value = x[i] / row[0];
            x[i] = value;
            x[i + 1..].iter_mut().zip(&row[1..]).for_each(|(y, r)| *y -= value * r);
        }
        for i in (0..starts.len() - 1).rev() {
            let row = &values[starts[i]..starts[i + 1]];
            let sum: f64 = row[1..].iter().zip(&x[i + 1..]).map(|(r, y)| r * y).sum();
            x[i] = (x[i] - sum) / row[0];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// The second difference matrix: u'' = -1 with u = 0 at both ends gives i (n+1-i)/2 exactly; rows of uneven length.
    #[test]
    fn second_difference() {
        let n = 50;
        let ends: Vec<usize> = (0..n).map(|i| (i / 4 * 4 + 6).min(n)).collect();
        let mut matrix = Profile::zeros(&ends);
        for i in 0..n {
            matrix.add(i, i, 2.0);
            if i > 0 {
                matrix.add(i, i - 1, -1.0);
            }
        }
        let mut held = matrix.clone();
        held.hold(20);
        let mut x = vec![1.0; n];
        matrix.cholesky().unwrap().solve(&mut x);
        for (i, value) in x.iter().enumerate() {
            let place = i as f64 + 1.0;
            assert_relative_eq!(*value, place * (n as f64 + 1.0 - place) / 2.0, max_relative = 1e-12);
        }
        let mut x = vec![1.0; n];
        x[20] = 0.0;
        held.cholesky().unwrap().solve(&mut x);
        assert_eq!(x[20], 0.0);
        assert_relative_eq!(x[9], 10.0 * 11.0 / 2.0, max_relative = 1e-12);
        let mut loose = Profile::zeros(&ends);
        loose.add(0, 0, 1.0);
        assert!(loose.cholesky().is_none());
    }
}
