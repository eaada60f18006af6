//! Symmetric banded matrices and their Cholesky factor.

/// Upper half of a symmetric banded matrix, row by row: row `i` holds columns `i ..= i + half`.
#[derive(Debug, Clone)]
pub(crate) struct Banded {
    size: usize,
    half: usize,
    rows: Vec<f64>,
}

/// A pivot that is not above zero: unknown `.0` meets no resistance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Singular(pub(crate) usize);

impl Banded {
    /// Zeros; `half` counts the places to the right of the diagonal.
    pub(crate) fn zeros(size: usize, half: usize) -> Self {
        Self { size, half, rows: vec![0.0; size * (half + 1)] }
    }

    /// Adds `value` at (`i`, `j`) and, by symmetry, at (`j`, `i`).
    pub(crate) fn add(&mut self, i: usize, j: usize, value: f64) {
        let (low, high) = (i.min(j), i.max(j));
        self.rows[low * (self.half + 1) + high - low] += value;
    }

    /// Replaces row and column `i` by those of the unit matrix: the unknown is held at zero.
    pub(crate) fn hold(&mut self, i: usize) {
        let width = self.half + 1;
        self.rows[i * width..(i + 1) * width].fill(0.0);
        for row in i.saturating_sub(self.half)..i {
            self.rows[row * width + i - row] = 0.0;
        }
        self.rows[i * width] = 1.0;
    }

    /// The matrix times `x`.
    pub(crate) fn times(&self, x: &[f64]) -> Vec<f64> {
        let mut y = vec![0.0; self.size];
        for i in 0..self.size {
            let row = self.row(i);
            y[i] += dot(row, &x[i..i + row.len()]);
            less(&mut y[i + 1..i + row.len()], -x[i], &row[1..]);
        }
        y
    }

    /// Factors the matrix as `U' U`.
    ///
    /// A pivot that has lost thirteen digits against its diagonal is taken for none.
    pub(crate) fn cholesky(mut self) -> Result<Cholesky, Singular> {
        let width = self.half + 1;
        let diagonal: Vec<f64> = self.rows.iter().copied().step_by(width).collect();
        for (i, diagonal) in diagonal.into_iter().enumerate() {
            let length = width.min(self.size - i);
            let (done, below) = self.rows.split_at_mut((i + 1) * width);
            let row = &mut done[i * width..i * width + length];
            let resists = row[0] > 1e-13 * diagonal;
            if !resists {
                return Err(Singular(i));
            }
            let scale = 1.0 / row[0].sqrt();
            row.iter_mut().for_each(|value| *value *= scale);
            for (k, other) in (1..length).zip(below.chunks_exact_mut(width)) {
                if row[k] != 0.0 {
                    less(&mut other[..length - k], row[k], &row[k..]);
                }
            }
        }
        Ok(Cholesky(self))
    }

    fn row(&self, i: usize) -> &[f64] {
        let width = self.half + 1;
        &self.rows[i * width..i * width + width.min(self.size - i)]
    }
}

/// A factored [`Banded`] matrix.
#[derive(Debug, Clone)]
pub(crate) struct Cholesky(Banded);

impl Cholesky {
    /// Solves in place.
    pub(crate) fn solve(&self, x: &mut [f64]) {
        for i in 0..self.0.size {
            let row = self.0.row(i);
            let value = x[i] / row[0];
            x[i] = value;
            less(&mut x[i + 1..i + row.len()], value, &row[1..]);
        }
        for i in (0..self.0.size).rev() {
            let row = self.0.row(i);
            x[i] = (x[i] - dot(&row[1..], &x[i + 1..i + row.len()])) / row[0];
        }
    }
}

/// `y -= factor x`.
fn less(y: &mut [f64], factor: f64, x: &[f64]) {
    for (y, x) in y.iter_mut().zip(x) {
        *y -= factor * x;
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// The second difference matrix: u'' = -1 with u = 0 at both ends gives i (n+1-i)/2 exactly.
    #[test]
    fn second_difference() {
        let n = 50;
        let mut matrix = Banded::zeros(n, 3);
        for i in 0..n {
            matrix.add(i, i, 2.0);
            if i > 0 {
                matrix.add(i - 1, i, -1.0);
            }
        }
        let mut x = vec![1.0; n];
        matrix.clone().cholesky().unwrap().solve(&mut x);
        for (i, value) in x.iter().enumerate() {
            let place = i as f64 + 1.0;
            assert_relative_eq!(*value, place * (n as f64 + 1.0 - place) / 2.0, max_relative = 1e-12);
        }
        for value in matrix.times(&x) {
            assert_relative_eq!(value, 1.0, max_relative = 1e-10);
        }
    }

    #[test]
    fn a_chain_held_nowhere_is_singular() {
        let n = 10;
        let mut matrix = Banded::zeros(n, 1);
        for i in 1..n {
            matrix.add(i, i, 1.0);
            matrix.add(i - 1, i - 1, 1.0);
            matrix.add(i - 1, i, -1.0);
        }
        assert_eq!(matrix.clone().cholesky().unwrap_err(), Singular(n - 1));
        matrix.hold(0);
        assert!(matrix.cholesky().is_ok());
    }
}
