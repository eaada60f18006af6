//! Cholesky factor of a symmetric sparse matrix, and blocks of right-hand sides solved with it.
//!
//! The unknowns come in elimination order, so nothing is permuted here. The symbolic analysis is kept apart
//! and serves every numeric factorisation of the same pattern. Everything runs on one thread; blocks of
//! right-hand sides run side by side.

use std::ops::Range;
use std::sync::Arc;

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::{LltError, LltRegularization};
use faer::linalg::matmul::matmul;
use faer::linalg::triangular_solve::{solve_lower_triangular_in_place, solve_upper_triangular_in_place};
use faer::perm::PermRef;
use faer::sparse::linalg::SupernodalThreshold;
use faer::sparse::linalg::cholesky::supernodal::{self, SupernodalLltRef, SymbolicSupernodalCholesky};
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, SymbolicCholesky, SymbolicCholeskyRaw, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Accum, MatMut, MatRef, Par, Side as Triangle};
use rayon::prelude::*;

use super::numbering::Numbering;
use super::room::Room;

/// Right-hand sides solved together.
const BLOCK: usize = 32;
/// Largest accepted relative residual of the probe solve.
const PROBE_RESIDUAL: f64 = 1e-10;
/// A pivot below this part of its diagonal entry means that nothing resists the unknown.
const LEAST_PIVOT: f64 = 1e-13;

/// Pattern of the lower triangle of a symmetric matrix, columns compressed, rows ascending.
#[derive(Debug, PartialEq)]
pub(crate) struct Pattern {
    pub(crate) column_start: Vec<usize>,
    pub(crate) rows: Vec<usize>,
}

impl Pattern {
    pub(crate) fn size(&self) -> usize {
        self.column_start.len() - 1
    }

    /// `a x` for the symmetric matrix with the lower triangle `values`, and the largest row sum of `|a|`.
    fn multiply(&self, values: &[f64], x: &[f64]) -> (Vec<f64>, f64) {
        let mut product = vec![0.0; x.len()];
        let mut row_sum = vec![0.0; x.len()];
        for column in 0..self.size() {
            let own = self.column_start[column]..self.column_start[column + 1];
            for (&row, &value) in self.rows[own.clone()].iter().zip(&values[own]) {
                product[row] += value * x[column];
                row_sum[row] += value.abs();
                if row != column {
                    product[column] += value * x[row];
                    row_sum[column] += value.abs();
                }
            }
        }
        (product, row_sum.into_iter().fold(0.0, f64::max))
    }
}

/// Why there is no factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum FactorFailure {
    /// Nothing resists this unknown once those before it are fixed.
    NotStable { unknown: usize },
    /// The probe solve left this relative residual.
    Residual { residual: f64, allowed: f64 },
}

/// The symbolic analysis of one pattern.
#[derive(Debug)]
pub(crate) struct Symbolic {
    pattern: Pattern,
    cholesky: SymbolicCholesky<usize>,
    /// What the unknowns are: right-hand sides are given and solutions handed out by full numbers.
    pub(crate) numbering: Numbering,
    room: Arc<Room>,
}

impl Symbolic {
    /// Analyses a pattern whose unknowns already come in elimination order.
    pub(crate) fn new(pattern: Pattern, numbering: Numbering, room: Arc<Room>) -> Self {
        let n = pattern.size();
        let identity: Vec<usize> = (0..n).collect();
        let matrix = SymbolicSparseColMatRef::new_checked(n, n, &pattern.column_start, None, &pattern.rows);
        let parameters = CholeskySymbolicParams {
            supernodal_flop_ratio_threshold: SupernodalThreshold::FORCE_SUPERNODAL,
            ..Default::default()
        };
        let order = SymmetricOrdering::Custom(PermRef::new_checked(&identity, &identity, n));
        let cholesky = factorize_symbolic_cholesky(matrix, Triangle::Lower, order, parameters)
            .expect("the index type holds every matrix that fits into memory");
        Self { pattern, cholesky, numbering, room }
    }

    fn supernodes(&self) -> &SymbolicSupernodalCholesky<usize> {
        match self.cholesky.raw() {
            SymbolicCholeskyRaw::Supernodal(supernodal) => supernodal,
            SymbolicCholeskyRaw::Simplicial(_) => unreachable!("the supernodal form was asked for"),
        }
    }
}

/// A numeric factor.
#[derive(Debug)]
pub(crate) struct Factor {
    symbolic: Arc<Symbolic>,
    values: Vec<f64>,
}

impl Factor {
    /// As [`Factor::new`], of values that `assemble` writes: those of the lower triangle, and one more for what is unused.
    pub(crate) fn of(
        symbolic: &Arc<Symbolic>,
        assemble: impl FnOnce(&mut [f64]),
    ) -> Result<Self, FactorFailure> {
        let entries = symbolic.pattern.rows.len();
        let mut values = symbolic.room.blocks.take(entries + 1);
        assemble(&mut values);
        let factor = Self::new(symbolic, &values[..entries]);
        symbolic.room.blocks.leave(values);
        factor
    }

    /// Factorises the matrix with the lower triangle `values`, then checks the residual of one probe solve.
    pub(crate) fn new(symbolic: &Arc<Symbolic>, values: &[f64]) -> Result<Self, FactorFailure> {
        let pattern = &symbolic.pattern;
        let n = pattern.size();
        let matrix = SparseColMatRef::new(
            SymbolicSparseColMatRef::new_checked(n, n, &pattern.column_start, None, &pattern.rows),
            values,
        );
        let supernodes = symbolic.supernodes();
        let values_of_factor = symbolic.room.factors.take(supernodes.len_val());
        let mut factor = Self { symbolic: symbolic.clone(), values: values_of_factor };
        let parameters = Default::default();
        let scratch = supernodal::factorize_supernodal_numeric_llt_scratch::<usize, f64>(
            supernodes,
            Par::Seq,
            parameters,
        );
        supernodal::factorize_supernodal_numeric_llt(
            &mut factor.values,
            matrix,
            LltRegularization::default(),
            supernodes,
            Par::Seq,
            MemStack::new(&mut MemBuffer::new(scratch)),
            parameters,
        )
        .map_err(|LltError::NonPositivePivot { index }| FactorFailure::NotStable {
            unknown: index.min(n.saturating_sub(1)),
        })?;
        factor.refuse_vanishing_pivots(values)?;
        factor.refuse_residual(values)?;
        Ok(factor)
    }

    fn supernodes(&self) -> SupernodalLltRef<'_, usize, f64> {
        SupernodalLltRef::new(self.symbolic.supernodes(), &self.values)
    }

    fn refuse_vanishing_pivots(&self, values: &[f64]) -> Result<(), FactorFailure> {
        let factor = self.supernodes();
        let pattern = &self.symbolic.pattern;
        for s in 0..factor.symbolic().n_supernodes() {
            let node = factor.supernode(s);
            for local in 0..node.val().ncols() {
                let unknown = node.start() + local;
                let diagonal = values[pattern.column_start[unknown]];
                let pivot = node.val()[(local, local)].powi(2);
                if pivot.is_nan() || pivot <= LEAST_PIVOT * diagonal {
                    return Err(FactorFailure::NotStable { unknown });
                }
            }
        }
        Ok(())
    }

    fn refuse_residual(&self, values: &[f64]) -> Result<(), FactorFailure> {
        // A fixed, rough right-hand side: the digits of the golden ratio's multiples.
        let probe: Vec<f64> =
            (1..=self.size()).map(|k| (k as f64 * 0.618_033_988_749_895).fract() - 0.5).collect();
        let mut x = probe.clone();
        self.solve_in_place(&mut x, 1);
        let (product, norm) = self.symbolic.pattern.multiply(values, &x);
        let largest =
            |v: &[f64]| v.iter().fold(0.0, |m: f64, &a| if a.is_nan() { a } else { m.max(a.abs()) });
        let difference: Vec<f64> = product.iter().zip(&probe).map(|(a, b)| a - b).collect();
        let residual = largest(&difference) / (norm * largest(&x) + largest(&probe));
        if residual <= PROBE_RESIDUAL || self.size() == 0 {
            Ok(())
        } else {
            Err(FactorFailure::Residual { residual, allowed: PROBE_RESIDUAL })
        }
    }

    pub(crate) fn size(&self) -> usize {
        self.symbolic.pattern.size()
    }

    /// Number of entries of the factor.
    pub(crate) fn entries(&self) -> usize {
        self.values.len()
    }

    /// Additions and multiplications that made the factor: for each column the square of its length.
    pub(crate) fn operations(&self) -> f64 {
        let factor = self.supernodes();
        let of_supernode = |s: usize| -> f64 {
            let value = factor.supernode(s).val();
            (0..value.ncols()).map(|k| ((value.nrows() - k) as f64).powi(2)).sum()
        };
        (0..factor.symbolic().n_supernodes()).map(of_supernode).sum()
    }

    /// Solves for `columns` right-hand sides stored by rows: the values of one unknown lie side by side.
    pub(crate) fn solve_in_place(&self, x: &mut [f64], columns: usize) {
        let factor = self.supernodes();
        let count = factor.symbolic().n_supernodes();
        let mut gathered = Vec::new();
        for s in 0..count {
            let node = factor.supernode(s);
            let (start, size) = (node.start(), node.val().ncols());
            let (top, bottom) = node.val().split_at_row(size);
            let (head, tail) = x.split_at_mut((start + size) * columns);
            let own = &mut head[start * columns..];
            if own.iter().all(|v| *v == 0.0) {
                // No load has come down to here: loads in one place leave most of the roof untouched on the way up.
                continue;
            }
            let mut own = MatMut::from_row_major_slice_mut(own, size, columns);
            solve_lower_triangular_in_place(top, own.as_mut(), Par::Seq);
            let below = node.pattern();
            gathered.resize(below.len() * columns, 0.0);
            let product = MatMut::from_row_major_slice_mut(&mut gathered, below.len(), columns);
            matmul(product, Accum::Replace, bottom, own.as_ref(), 1.0, Par::Seq);
            for (&row, part) in below.iter().zip(gathered.chunks_exact(columns)) {
                let at = (row - start - size) * columns;
                for (value, change) in tail[at..at + columns].iter_mut().zip(part) {
                    *value -= change;
                }
            }
        }
        for s in (0..count).rev() {
            let node = factor.supernode(s);
            let (start, size) = (node.start(), node.val().ncols());
            let (top, bottom) = node.val().split_at_row(size);
            let (head, tail) = x.split_at_mut((start + size) * columns);
            let below = node.pattern();
            gathered.resize(below.len() * columns, 0.0);
            for (&row, part) in below.iter().zip(gathered.chunks_exact_mut(columns)) {
                let at = (row - start - size) * columns;
                part.copy_from_slice(&tail[at..at + columns]);
            }
            let mut own = MatMut::from_row_major_slice_mut(&mut head[start * columns..], size, columns);
            let others = MatRef::from_row_major_slice(&gathered, below.len(), columns);
            matmul(own.as_mut(), Accum::Add, bottom.transpose(), others, -1.0, Par::Seq);
            solve_upper_triangular_in_place(top.transpose(), own, Par::Seq);
        }
    }

    /// Solution by full numbers for the one right-hand side that `fill` fills.
    pub(crate) fn solve_one(&self, fill: impl FnOnce(&mut Side<'_>)) -> Vec<f64> {
        let numbering = &self.symbolic.numbering;
        let mut x = vec![0.0; self.size()];
        fill(&mut Side { rows: &mut x, numbering, columns: 1, column: 0 });
        self.solve_in_place(&mut x, 1);
        numbering.full_vector(&x)
    }

    /// Solves `count` right-hand sides in blocks on all threads and reduces each solution at once.
    ///
    /// `fill(k, side)` puts what is not zero into right-hand side `k`; `reduce(k, u, filled)` takes its solution by full
    /// numbers and what `fill` returned.
    pub(crate) fn solve_each<F, T: Send>(
        &self,
        count: usize,
        fill: impl Fn(usize, &mut Side<'_>) -> F + Sync,
        reduce: impl Fn(usize, &[f64], F) -> T + Sync,
    ) -> Vec<T> {
        let blocks: Vec<Vec<T>> = (0..count.div_ceil(BLOCK))
            .into_par_iter()
            .map_init(
                || Scratch::of(&self.symbolic.room),
                |scratch, block| {
                    self.solve_block(block * BLOCK..count.min((block + 1) * BLOCK), scratch, &fill, &reduce)
                },
            )
            .collect();
        blocks.into_iter().flatten().collect()
    }

    /// As [`Factor::solve_each`], on the calling thread alone.
    pub(crate) fn solve_in_turn<F, T>(
        &self,
        count: usize,
        fill: impl Fn(usize, &mut Side<'_>) -> F,
        reduce: impl Fn(usize, &[f64], F) -> T,
    ) -> Vec<T> {
        let mut scratch = Scratch::of(&self.symbolic.room);
        let mut all = Vec::with_capacity(count);
        for block in 0..count.div_ceil(BLOCK) {
            let sides = block * BLOCK..count.min((block + 1) * BLOCK);
            all.extend(self.solve_block(sides, &mut scratch, &fill, &reduce));
        }
        all
    }

    fn solve_block<F, T>(
        &self,
        sides: Range<usize>,
        scratch: &mut Scratch<'_>,
        fill: impl Fn(usize, &mut Side<'_>) -> F,
        reduce: impl Fn(usize, &[f64], F) -> T,
    ) -> Vec<T> {
        let numbering = &self.symbolic.numbering;
        let (columns, full) = (sides.len(), numbering.full());
        let Scratch { by_rows, by_columns, room } = scratch;
        if by_rows.is_empty() {
            *by_rows = room.blocks.take(self.size() * BLOCK);
            *by_columns = room.blocks.take(full * BLOCK);
        }
        let by_rows = &mut by_rows[..self.size() * columns];
        let by_columns = &mut by_columns[..full * columns];
        by_rows.fill(0.0);
        let filled: Vec<F> = sides
            .clone()
            .enumerate()
            .map(|(column, side)| fill(side, &mut Side { rows: by_rows, numbering, columns, column }))
            .collect();
        self.solve_in_place(by_rows, columns);
        numbering.spread(by_rows, columns, by_columns);
        let solved = sides.zip(by_columns.chunks_exact(full));
        solved.zip(filled).map(|((side, own), filled)| reduce(side, own, filled)).collect()
    }
}

impl Drop for Factor {
    fn drop(&mut self) {
        self.symbolic.room.factors.leave(std::mem::take(&mut self.values));
    }
}

/// One right-hand side among those of a block.
pub(crate) struct Side<'a> {
    rows: &'a mut [f64],
    numbering: &'a Numbering,
    columns: usize,
    column: usize,
}

impl Side<'_> {
    /// Adds a force on a full unknown; on what is held it does nothing.
    pub(crate) fn add(&mut self, full: usize, force: f64) {
        if let Some(unknown) = self.numbering.unknown(full) {
            self.rows[unknown * self.columns + self.column] += force;
        }
    }
}

/// Room for a block of right-hand sides, used again for the next one.
struct Scratch<'a> {
    by_rows: Vec<f64>,
    by_columns: Vec<f64>,
    room: &'a Room,
}

impl<'a> Scratch<'a> {
    fn of(room: &'a Room) -> Self {
        Self { by_rows: Vec::new(), by_columns: Vec::new(), room }
    }
}

impl Drop for Scratch<'_> {
    fn drop(&mut self) {
        for values in [&mut self.by_rows, &mut self.by_columns] {
            self.room.blocks.leave(std::mem::take(values));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A chain of springs between walls, unknowns in natural order.
    fn chain(n: usize, ground: f64) -> (Arc<Symbolic>, Vec<f64>) {
        let (mut column_start, mut rows, mut values) = (vec![0], vec![], vec![]);
        for c in 0..n {
            rows.push(c);
            let neighbours = f64::from(u8::from(c > 0)) + f64::from(u8::from(c + 1 < n));
            values.push(neighbours + if c == 0 || c + 1 == n { ground } else { 0.0 });
            if c + 1 < n {
                rows.push(c + 1);
                values.push(-1.0);
            }
            column_start.push(rows.len());
        }
        let all = || (0..n as u32).collect::<Vec<_>>();
        let numbering = Numbering::new(all(), all());
        (Arc::new(Symbolic::new(Pattern { column_start, rows }, numbering, Arc::default())), values)
    }

    /// Plain banded Cholesky, the independent route.
    fn banded_solve(pattern: &Pattern, values: &[f64], b: &[f64]) -> Vec<f64> {
        let n = pattern.size();
        let mut l = vec![vec![0.0; n]; n];
        for (c, own) in pattern.column_start.windows(2).enumerate() {
            for at in own[0]..own[1] {
                l[pattern.rows[at]][c] = values[at];
            }
        }
        for j in 0..n {
            for i in j..n {
                let dot: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
                l[i][j] = if i == j { (l[i][j] - dot).sqrt() } else { (l[i][j] - dot) / l[j][j] };
            }
        }
        let mut x = b.to_vec();
        for i in 0..n {
            x[i] = (x[i] - (0..i).map(|k| l[i][k] * x[k]).sum::<f64>()) / l[i][i];
        }
        for i in (0..n).rev() {
            x[i] = (x[i] - (i + 1..n).map(|k| l[k][i] * x[k]).sum::<f64>()) / l[i][i];
        }
        x
    }

    #[test]
    fn the_factor_agrees_with_a_plain_cholesky() {
        let n = 70;
        let (symbolic, values) = chain(n, 1.0);
        let factor = Factor::new(&symbolic, &values).unwrap();
        let rhs = |k: usize, row: usize| ((k + 1) as f64 * (row as f64 + 0.3)).sin();
        let solved = factor.solve_each(
            45,
            |k, side| (0..n).for_each(|row| side.add(row, rhs(k, row))),
            |_, x, ()| x.to_vec(),
        );
        for (k, x) in solved.iter().enumerate() {
            let b: Vec<f64> = (0..n).map(|row| rhs(k, row)).collect();
            let wanted = banded_solve(&symbolic.pattern, &values, &b);
            for (a, b) in x.iter().zip(&wanted) {
                assert!((a - b).abs() < 1e-9 * b.abs().max(1.0), "{a} {b}");
            }
        }
    }

    #[test]
    fn a_chain_without_a_wall_is_named_not_stable() {
        let (symbolic, values) = chain(20, 0.0);
        assert_eq!(Factor::new(&symbolic, &values).unwrap_err(), FactorFailure::NotStable { unknown: 19 });
    }

    #[test]
    fn a_wall_softer_than_rounding_is_none() {
        let (symbolic, values) = chain(20, 1e-15);
        assert_eq!(Factor::new(&symbolic, &values).unwrap_err(), FactorFailure::NotStable { unknown: 19 });
    }

    #[test]
    fn a_factor_of_another_matrix_is_noticed() {
        let (symbolic, values) = chain(20, 1.0);
        let (_, other) = chain(20, 1.0001);
        let factor = Factor::new(&symbolic, &values).unwrap();
        assert!(matches!(factor.refuse_residual(&other), Err(FactorFailure::Residual { .. })));
    }

    #[test]
    fn a_number_that_is_none_is_refused() {
        let (symbolic, mut values) = chain(20, 1.0);
        values[12] = f64::NAN;
        assert!(Factor::new(&symbolic, &values).is_err());
    }
}
