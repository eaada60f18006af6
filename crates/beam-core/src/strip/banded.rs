//! Symmetric banded matrices and their Cholesky factor.

/// Lower half of a symmetric banded matrix, row by row: row `i` holds columns `i - half ..= i`.
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
    /// Zeros; `half` counts the places to the left of the diagonal.
    pub(crate) fn zeros(size: usize, half: usize) -> Self {
        Self { size, half, rows: vec![0.0; size * (half + 1)] }
    }

    /// Adds `value` at (`i`, `j`) and, by symmetry, at (`j`, `i`).
    pub(crate) fn add(&mut self, i: usize, j: usize, value: f64) {
        let (low, high) = (i.min(j), i.max(j));
        self.rows[high * (self.half + 1) + self.half - (high - low)] += value;
    }

    /// Replaces row and column `i` by those of the unit matrix: the unknown is held at zero.
    pub(crate) fn hold(&mut self, i: usize) {
        let width = self.half + 1;
        self.rows[i * width..(i + 1) * width].fill(0.0);
        for row in i + 1..(i + width).min(self.size) {
            self.rows[row * width + self.half - (row - i)] = 0.0;
        }
        self.rows[i * width + self.half] = 1.0;
    }

    /// The matrix times `x`.
    pub(crate) fn times(&self, x: &[f64]) -> Vec<f64> {
        let mut y = vec![0.0; self.size];
        for i in 0..self.size {
            let first = i.saturating_sub(self.half);
            let row = self.row(i, first);
            let mut sum = 0.0;
            for (j, value) in (first..i).zip(row) {
                sum += value * x[j];
                y[j] += value * x[i];
            }
            y[i] += sum + row[i - first] * x[i];
        }
        y
    }

    /// Factors the matrix as `L L'`.
    ///
    /// A pivot that has lost thirteen digits against its diagonal is taken for none.
    pub(crate) fn cholesky(mut self) -> Result<Cholesky, Singular> {
        let (half, width) = (self.half, self.half + 1);
        for i in 0..self.size {
            let first = i.saturating_sub(half);
            let (done, rest) = self.rows.split_at_mut(i * width);
            let row = &mut rest[half - (i - first)..width];
            let diagonal = row[i - first];
            for j in first..i {
                let from = first.max(j.saturating_sub(half));
                let other = &done[j * width + half - (j - from)..(j + 1) * width];
                let sum = dot(&row[from - first..j - first], &other[..j - from]);
                row[j - first] = (row[j - first] - sum) / other[j - from];
            }
            let pivot = diagonal - dot(&row[..i - first], &row[..i - first]);
            let resists = pivot > 1e-13 * diagonal;
            if !resists {
                return Err(Singular(i));
            }
            row[i - first] = pivot.sqrt();
        }
        Ok(Cholesky(self))
    }

    fn row(&self, i: usize, first: usize) -> &[f64] {
        let width = self.half + 1;
        &self.rows[i * width + self.half - (i - first)..(i + 1) * width]
    }
}

/// A factored [`Banded`] matrix.
#[derive(Debug, Clone)]
pub(crate) struct Cholesky(Banded);

impl Cholesky {
    /// Solves in place.
    pub(crate) fn solve(&self, x: &mut [f64]) {
        let Banded { size, half, .. } = self.0;
        for i in 0..size {
            let first = i.saturating_sub(half);
            let row = self.0.row(i, first);
            x[i] = (x[i] - dot(&row[..i - first], &x[first..i])) / row[i - first];
        }
        for i in (0..size).rev() {
            let first = i.saturating_sub(half);
            let row = self.0.row(i, first);
            let value = x[i] / row[i - first];
            x[i] = value;
            for (place, factor) in x[first..i].iter_mut().zip(row) {
                *place -= factor * value;
            }
        }
    }
}

/// Four running sums, so that the compiler may use the whole width of the machine.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (a4, b4) = (a.chunks_exact(4), b.chunks_exact(4));
    let tail: f64 = a4.remainder().iter().zip(b4.remainder()).map(|(x, y)| x * y).sum();
    let mut sums = [0.0; 4];
    for (x, y) in a4.zip(b4) {
        for k in 0..4 {
            sums[k] += x[k] * y[k];
        }
    }
    sums[0] + sums[1] + (sums[2] + sums[3]) + tail
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
