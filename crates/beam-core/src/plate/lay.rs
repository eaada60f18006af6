//! Members laid on a condensed panel: the small dense solve.
//!
//! What a member and the panel under it make of each other on one line, `I + L'F L` and `L'q0`, is found once and serves
//! every set that the member is laid in; a set costs the coupling of its lines and one small factor.

use std::borrow::Cow;
use std::ops::Range;
use std::sync::Arc;

use faer::linalg::matmul::matmul;
use faer::linalg::matmul::triangular::{self, BlockStructure};
use faer::linalg::solvers::{Llt, Solve};
use faer::{Accum, Mat, MatRef, Par, Side};

use super::condense::CondensedPanel;
use super::error::PlateError;
use super::member::Member;

/// Shares of the members' free strains and of their weight in a load.
pub(crate) type OwnShares = [f64; 2];

/// A member on one of the lines of a panel, ready to be laid beside others.
pub(crate) struct Placed {
    pub(super) line: usize,
    pub(crate) member: Arc<Member>,
    /// `L`, then the forces of the free strains and of 1 N/m of weight on the line's coupled unknowns.
    forces: Mat<f64>,
    /// `I + L'F L`.
    inner: Mat<f64>,
    /// `L'F` under the free strains and the weight.
    own: Mat<f64>,
    /// `L'q0`, one column a load.
    held: Mat<f64>,
    /// How some other lines move under them.
    beside: Vec<(usize, Mat<f64>)>,
}

/// What loads do with members laid on the lines, one column a load.
pub(crate) struct Tried {
    /// What is read of the panel.
    pub(crate) outputs: Mat<f64>,
    /// Numbers that tell the forces in the pieces of each member.
    pub(crate) forces: Vec<Mat<f64>>,
    /// What each member that lies loose pushes up on the panel with between its ends, N a node.
    pub(crate) pushes: Vec<Mat<f64>>,
    /// What each member pushes up with at its first and last node, free strains left out, N.
    pub(crate) joints: Vec<Mat<f64>>,
}

impl CondensedPanel {
    /// Makes a member ready on a line, with what it moves on some others: those that it is laid before.
    pub(crate) fn place(&self, line: usize, member: Arc<Member>, beside: &[usize]) -> Placed {
        let root = &member.root;
        let rank = root.ncols();
        // Columns of `L`, the free strains, the weight.
        let mut forces = Mat::zeros(root.nrows(), rank + 2);
        forces.as_mut().subcols_mut(0, rank).copy_from(root);
        for (i, force) in member.force.iter().enumerate() {
            forces[(i, rank)] = *force;
            forces[(i, rank + 1)] = -self.length_at(line, i);
        }
        let moved = self.between(line, line) * &forces;
        let mut inner = Mat::zeros(rank, rank);
        let (lower, whole) = (BlockStructure::TriangularLower, BlockStructure::Rectangular);
        triangular::matmul(
            inner.as_mut(),
            lower,
            Accum::Replace,
            root.transpose(),
            whole,
            moved.subcols(0, rank),
            whole,
            1.0,
            Par::Seq,
        );
        (0..rank).for_each(|k| inner[(k, k)] += 1.0);
        let own = root.transpose() * moved.subcols(rank, 2);
        let coupled = self.coupled_of(line);
        let held = root.transpose() * self.unbraced.subrows(coupled.start, coupled.len());
        let beside = beside.iter().filter(|other| **other != line);
        let beside = beside.map(|&other| (other, self.between(other, line) * &forces)).collect();
        Placed { line, inner, own, held, beside, forces, member }
    }

    /// What some of the loads do with members laid on the lines, no two on one line; each with its weight, N/m.
    ///
    /// # Errors
    /// Members whose stiffness is no number.
    pub(crate) fn lay(
        &self,
        laid: &[(&Placed, f64)],
        loads: &[(usize, OwnShares)],
    ) -> Result<Tried, PlateError> {
        let first: Vec<usize> = laid
            .iter()
            .scan(0, |at, (p, _)| Some(std::mem::replace(at, *at + p.member.root.ncols())))
            .collect();
        let rank = laid.iter().map(|(p, _)| p.member.root.ncols()).sum();
        let mut inner = Mat::zeros(rank, rank);
        let mut held = Mat::zeros(rank, loads.len());
        for ((placed, _), first) in laid.iter().zip(&first) {
            let own = placed.member.root.ncols();
            inner.as_mut().submatrix_mut(*first, *first, own, own).copy_from(&placed.inner);
            for (k, (load, _)) in loads.iter().enumerate() {
                held.as_mut().col_mut(k).subrows_mut(*first, own).copy_from(placed.held.col(*load));
            }
        }
        let shares = |weight: f64| -> Vec<(usize, OwnShares)> {
            let own = loads.iter().enumerate().map(|(k, (_, s))| (k, [s[0], s[1] * weight]));
            own.filter(|(_, s)| *s != [0.0; 2]).collect()
        };
        for (index, (placed, weight)) in laid.iter().enumerate() {
            let own = placed.member.root.ncols();
            let shares = shares(*weight);
            for (other, (beside, _)) in laid.iter().enumerate() {
                let root = beside.member.root.transpose();
                // Only the lower part of the inner matrix is read.
                let moved = (other > index).then(|| self.on_line(placed, beside.line));
                if let Some(moved) = &moved {
                    let out = inner.submatrix_mut(first[other], first[index], root.nrows(), own);
                    matmul(out, Accum::Replace, root, moved.subcols(0, own), 1.0, Par::Seq);
                }
                if shares.is_empty() {
                    continue;
                }
                let per_own = match &moved {
                    Some(moved) => root * moved.subcols(own, 2),
                    None if other == index => placed.own.clone(),
                    None => root * (self.between(beside.line, placed.line) * placed.forces.subcols(own, 2)),
                };
                for (k, [strained, weighed]) in &shares {
                    for i in 0..root.nrows() {
                        held[(first[other] + i, *k)] +=
                            strained * per_own[(i, 0)] + weighed * per_own[(i, 1)];
                    }
                }
            }
        }
        let factor = Llt::new(inner.as_ref(), Side::Lower).map_err(|_| PlateError::BadNumber {
            what: "stiffness of a candidate brace".into(),
            value: f64::NAN,
            allowed: "finite and positive",
        })?;
        let y = factor.solve(held);
        let outputs = Mat::from_fn(self.outputs.nrows(), loads.len(), |i, k| self.outputs[(i, loads[k].0)]);
        let mut tried = Tried { outputs, forces: Vec::new(), pushes: Vec::new(), joints: Vec::new() };
        for ((placed, weight), first) in laid.iter().zip(first) {
            let member = &placed.member;
            let own = member.root.ncols();
            let y = y.submatrix(first, 0, own, loads.len());
            let mut on_panel = member.root.as_ref() * y * faer::Scale(-1.0);
            let mut forces = &member.forces * y;
            let mut pushes = &member.pushes * y;
            for (k, [strained, weighed]) in shares(*weight) {
                for i in 0..on_panel.nrows() {
                    on_panel[(i, k)] +=
                        strained * placed.forces[(i, own)] + weighed * placed.forces[(i, own + 1)];
                }
                member.locked.iter().enumerate().for_each(|(i, f)| forces[(i, k)] += strained * f);
                member.locked_pushes.iter().enumerate().for_each(|(i, f)| pushes[(i, k)] += strained * f);
            }
            let coupled = self.coupled_of(placed.line);
            let read = self.output_per_force.subcols(coupled.start, coupled.len());
            matmul(tried.outputs.as_mut(), Accum::Add, read, on_panel.as_ref(), 1.0, Par::Seq);
            tried.forces.push(forces);
            tried.pushes.push(pushes);
            tried.joints.push(&member.joints * y);
        }
        Ok(tried)
    }

    /// What a member's forces move on another line.
    fn on_line<'a>(&self, placed: &'a Placed, line: usize) -> Cow<'a, Mat<f64>> {
        match placed.beside.iter().find(|(other, _)| *other == line) {
            Some((_, moved)) => Cow::Borrowed(moved),
            None => Cow::Owned(self.between(line, placed.line) * &placed.forces),
        }
    }

    fn coupled_of(&self, line: usize) -> Range<usize> {
        let line = &self.lines[line];
        line.first..line.first + line.coupling.each() * line.nodes
    }

    /// Compliance between the unknowns of two lines: how those of `on` move under forces on those of `by`.
    fn between(&self, on: usize, by: usize) -> MatRef<'_, f64> {
        let (on, by) = (self.coupled_of(on), self.coupled_of(by));
        self.compliance.submatrix(on.start, by.start, on.len(), by.len())
    }

    /// Length of line that hangs on one of its coupled unknowns, m: none but deflections carry weight.
    fn length_at(&self, line: usize, coupled: usize) -> f64 {
        let line = &self.lines[line];
        let node = coupled / line.coupling.each();
        if coupled % line.coupling.each() != line.coupling.deflection() {
            return 0.0;
        }
        let before = node.checked_sub(1).map_or(0.0, |p| line.pieces[p][0]);
        let after = line.pieces.get(node).map_or(0.0, |p| p[0]);
        (before + after) / 2.0
    }
}
