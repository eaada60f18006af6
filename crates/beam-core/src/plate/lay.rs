//! Members laid on a condensed panel: the small dense solve.

use faer::linalg::matmul::matmul;
use faer::linalg::solvers::{Llt, Solve};
use faer::{Accum, Mat, Par, Side};

use super::condense::{COUPLED, CondensedPanel, DEFLECTION};
use super::error::PlateError;
use super::member::Member;
use super::recover::BraceForces;

/// A member laid on one of the lines.
pub(crate) struct Laid<'a> {
    pub(crate) line: usize,
    pub(crate) member: &'a Member,
    /// Weight per length, N/m.
    pub(crate) weight: f64,
}

/// Shares of the members' free strains and of their weight in a load.
pub(crate) type OwnShares = [f64; 2];

/// What one load does with members laid on the lines.
pub(crate) struct Tried {
    pub(crate) outputs: Vec<f64>,
    /// Forces in the pieces of each member.
    pub(crate) forces: Vec<Vec<BraceForces>>,
    /// What each member pushes up on the panel with between its ends, N a node.
    pub(crate) pushes: Vec<Vec<f64>>,
}

impl CondensedPanel {
    /// What some of the loads do with members laid on the lines, no two on one line.
    ///
    /// # Errors
    /// Members whose stiffness is no number.
    pub(crate) fn lay(
        &self,
        laid: &[Laid<'_>],
        loads: &[(usize, OwnShares)],
    ) -> Result<Vec<Tried>, PlateError> {
        let blocks = blocks(laid);
        let used: Vec<usize> =
            laid.iter().flat_map(|l| l.member.used.iter().map(|i| self.lines[l.line].first + i)).collect();
        let (size, rank) = blocks.last().map_or((0, 0), |b| (b.row + b.rows, b.column + b.columns));
        let compliance = Mat::from_fn(size, size, |i, j| self.compliance[(used[i], used[j])]);
        let mut free = Mat::from_fn(size, loads.len(), |i, k| self.unbraced[(used[i], loads[k].0)]);
        let mut force = Mat::zeros(size, loads.len());
        for (k, (_, shares)) in loads.iter().enumerate().filter(|(_, (_, s))| *s != [0.0; 2]) {
            for (l, block) in laid.iter().zip(&blocks) {
                let own = self.own_force(l, *shares);
                own.into_iter().enumerate().for_each(|(i, f)| force[(block.row + i, k)] = f);
            }
            let moved = &compliance * force.col(k);
            (0..size).for_each(|i| free[(i, k)] += moved[i]);
        }

        // Only the blocks that are there are multiplied, and of the inner matrix only its lower part.
        let mut softened = Mat::zeros(size, rank);
        let mut inner = Mat::zeros(rank, rank);
        let mut held = Mat::zeros(rank, loads.len());
        for (l, b) in laid.iter().zip(&blocks) {
            let columns = compliance.submatrix(0, b.row, size, b.rows);
            let out = softened.submatrix_mut(0, b.column, size, b.columns);
            matmul(out, Accum::Replace, columns, l.member.root.as_ref(), 1.0, Par::Seq);
        }
        for (l, b) in laid.iter().zip(&blocks) {
            let root = l.member.root.transpose();
            let upto = b.column + b.columns;
            let out = inner.submatrix_mut(b.column, 0, b.columns, upto);
            matmul(out, Accum::Replace, root, softened.submatrix(b.row, 0, b.rows, upto), 1.0, Par::Seq);
            let out = held.submatrix_mut(b.column, 0, b.columns, loads.len());
            let moved = free.submatrix(b.row, 0, b.rows, loads.len());
            matmul(out, Accum::Replace, root, moved, 1.0, Par::Seq);
        }
        (0..rank).for_each(|k| inner[(k, k)] += 1.0);
        let factor = Llt::new(inner.as_ref(), Side::Lower).map_err(|_| PlateError::BadNumber {
            what: "stiffness of a candidate brace".into(),
            value: f64::NAN,
            allowed: "finite and positive",
        })?;
        let y = factor.solve(held);
        for (l, b) in laid.iter().zip(&blocks) {
            let out = force.submatrix_mut(b.row, 0, b.rows, loads.len());
            let own = y.submatrix(b.column, 0, b.columns, loads.len());
            matmul(out, Accum::Add, l.member.root.as_ref(), own, -1.0, Par::Seq);
        }
        let moved = &free - &softened * &y;
        let per_force = Mat::from_fn(self.outputs.nrows(), size, |k, i| self.output_per_force[(k, used[i])]);
        let outputs = &per_force * &force;

        let tried = |(k, &(load, [_, weighed])): (usize, &(usize, OwnShares))| {
            let (forces, pushes) = laid
                .iter()
                .zip(&blocks)
                .map(|(l, b)| {
                    let line = &self.lines[l.line];
                    let mut q = vec![0.0; COUPLED * line.nodes];
                    let mut pushes = Vec::new();
                    for (row, &i) in (b.row..).zip(&l.member.used) {
                        q[i] = moved[(row, k)];
                        let inside = (1..line.nodes - 1).contains(&(i / COUPLED));
                        if inside && i % COUPLED == DEFLECTION {
                            pushes.push(force[(row, k)] + weighed * self.own_weight(l, i));
                        }
                    }
                    (l.member.forces(line, &q), pushes)
                })
                .unzip();
            let outputs = (0..outputs.nrows()).map(|i| self.outputs[(i, load)] + outputs[(i, k)]).collect();
            Tried { outputs, forces, pushes }
        };
        Ok(loads.iter().enumerate().map(tried).collect())
    }

    /// Forces on the used unknowns of a line by what a member has of its own.
    fn own_force(&self, laid: &Laid<'_>, [strained, weighed]: OwnShares) -> Vec<f64> {
        let own = laid.member.used.iter().zip(&laid.member.force);
        own.map(|(&i, force)| strained * force - weighed * self.own_weight(laid, i)).collect()
    }

    /// What of a member's weight hangs on one coupled unknown of its line, N.
    fn own_weight(&self, laid: &Laid<'_>, coupled: usize) -> f64 {
        if coupled % COUPLED != DEFLECTION {
            return 0.0;
        }
        let pieces = &self.lines[laid.line].pieces;
        let node = coupled / COUPLED;
        let before = node.checked_sub(1).map_or(0.0, |p| pieces[p][0]);
        let after = pieces.get(node).map_or(0.0, |p| p[0]);
        laid.weight * (before + after) / 2.0
    }
}

/// Where a member's used unknowns and the columns of its root begin among those of all, and how many there are.
struct Block {
    row: usize,
    rows: usize,
    column: usize,
    columns: usize,
}

fn blocks(laid: &[Laid<'_>]) -> Vec<Block> {
    let (mut row, mut column) = (0, 0);
    let mut out = Vec::new();
    for l in laid {
        let (rows, columns) = (l.member.used.len(), l.member.root.ncols());
        out.push(Block { row, rows, column, columns });
        row += rows;
        column += columns;
    }
    out
}
