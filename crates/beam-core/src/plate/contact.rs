//! Contacts that push only, walls, props and braces lying against the panel: which stay closed under a load.
//!
//! The roof is factorised with every contact closed. Condensed onto the one-way contacts it is a small dense
//! stiffness `S`: when they open by `w >= 0` their push is `r = r0 + S w >= 0`, and no contact does both.
//! That complementarity problem is solved by block pivoting; the plate itself is solved once more. Of `S` only the
//! columns of contacts that open are ever needed, and each is made when its contact first opens.
//!
//! # References
//! Judice and Pires (1994), block principal pivoting with a single-pivot safeguard (from memory).

use std::sync::PoisonError;

use nalgebra::{DMatrix, DVector};

use super::error::PlateError;
use super::loads::LoadVector;
use super::system::PlateSystem;

/// A pull below this part of the whole load is rounding.
const PULL: f64 = 1e-9;
/// Stiffness of the springs that the search leans on, over the largest stiffness of a contact.
const SOFT: f64 = 1e-8;
/// A pivot below this part of the largest stiffness of a contact resists nothing.
const LEAST_PIVOT: f64 = 1e-9;
/// Block pivots without progress before single pivots are taken.
const PATIENCE: usize = 8;

/// Numbers of the contacts that open, and how far, m.
pub(crate) type Openings = Vec<(usize, f64)>;

/// Which contacts may let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Free {
    /// Every one that pushes only.
    All,
    /// Those of members that lie loose; walls and props are taken to hold.
    Members,
}

/// Stiffness of the roof seen from its one-way contacts: for each what all of them push when it alone opens by 1 m,
/// once that has been asked for.
#[derive(Debug)]
pub(crate) struct ContactStiffness(Vec<Option<DVector<f64>>>);

impl ContactStiffness {
    /// Nothing known yet of `contacts` contacts.
    pub(crate) fn new(contacts: usize) -> Self {
        Self(vec![None; contacts])
    }

    /// Columns of `contacts`; `make` makes those that are not known yet.
    fn columns(
        &mut self,
        contacts: &[usize],
        make: impl FnOnce(&[usize]) -> Vec<DVector<f64>>,
    ) -> Vec<&DVector<f64>> {
        let lacking: Vec<usize> = contacts.iter().copied().filter(|&c| self.0[c].is_none()).collect();
        if !lacking.is_empty() {
            let made = make(&lacking);
            lacking.into_iter().zip(made).for_each(|(c, column)| self.0[c] = Some(column));
        }
        contacts.iter().filter_map(|&c| self.0[c].as_ref()).collect()
    }
}

impl PlateSystem {
    /// Pushes of all contacts when one of `contacts` opens by 1 m, one column for each.
    fn contact_columns(&self, contacts: &[usize]) -> Vec<DVector<f64>> {
        // On one thread: another thread may be waiting for these very columns.
        self.factor.solve_in_turn(
            contacts.len(),
            |k, side| {
                let alone = std::iter::once((contacts[k], 1.0));
                self.layout.force_of_contacts(&self.matrices, alone, |full, force| side.add(full, -force));
            },
            |k, u, ()| {
                let mut u = u.to_vec();
                u[self.layout.supports.one_way[contacts[k]]] = 1.0;
                DVector::from_vec(self.layout.contact_force(&self.matrices, &u))
            },
        )
    }

    /// Movements of the contacts that open under `load`, from the solution `u` with all of them closed; `None` if none
    /// opens. Those that are not `free` stay closed.
    pub(crate) fn openings(
        &self,
        u: &[f64],
        load: &LoadVector,
        free: Free,
    ) -> Result<Option<Openings>, PlateError> {
        let contacts = &self.layout.supports.one_way;
        let force = self.layout.contact_force(&self.matrices, u);
        let push: Vec<f64> = contacts.iter().zip(force).map(|(&c, force)| force - load.force.at(c)).collect();
        let whole = load.force.iter().map(|(_, f)| f.abs()).sum();
        self.openings_from(&push, whole, free)
    }

    /// The same from the `push` of every contact while all are closed, N; `load` is the size of the whole load, N.
    pub(crate) fn openings_from(
        &self,
        push: &[f64],
        load: f64,
        free: Free,
    ) -> Result<Option<Openings>, PlateError> {
        let contacts = &self.layout.supports.one_way;
        let first = match free {
            Free::All => 0,
            Free::Members => self.contact_nodes().len(),
        };
        let whole = push[first..].iter().fold(load, |sum, f| sum + f.abs());
        let pulling = push[first..].iter().filter(|&&r| r < -PULL * whole).count();
        if pulling == 0 {
            return Ok(None);
        }
        let mut stiffness = self.contact_stiffness.lock().unwrap_or_else(PoisonError::into_inner);
        let make = |contacts: &[usize]| self.contact_columns(contacts);
        let moves = complementary(&mut stiffness, make, push, first, PULL * whole)
            .ok_or(PlateError::LiftsOff { pulling, contacts: contacts.len() - first })?;
        Ok(Some(moves.into_iter().enumerate().filter(|(_, moved)| *moved != 0.0).collect()))
    }
}

/// `w >= 0` with `r0 + s w >= 0` and no index at which both are positive, zero before `first`; `None` if nothing
/// holds the roof. `make` makes columns of `s`.
///
/// The search runs with a very soft spring at every contact, so that it can pass through states in which the roof
/// hangs free; the state it ends in is then solved without them, and refused if the roof does hang free in it.
fn complementary(
    s: &mut ContactStiffness,
    make: impl Fn(&[usize]) -> Vec<DVector<f64>>,
    r0: &[f64],
    first: usize,
    tolerance: f64,
) -> Option<Vec<f64>> {
    let mut open: Vec<usize> = (first..r0.len()).filter(|&k| r0[k] < -tolerance).collect();
    let mut best = r0.len() + 1;
    let mut patience = PATIENCE;
    for _ in 0..20 * (r0.len() + 5) {
        let columns = s.columns(&open, &make);
        let w = movements(&columns, r0, &open, SOFT)?;
        let mut push = DVector::from_column_slice(r0);
        columns.iter().zip(&w).for_each(|(column, &moved)| push.axpy(moved, column, 1.0));
        let mut moved = vec![None; r0.len()];
        open.iter().zip(&w).for_each(|(&k, &w)| moved[k] = Some(w));
        let is_wrong = |&k: &usize| moved[k].map_or(push[k] < -tolerance, |w| w < 0.0);
        let wrong: Vec<usize> = (first..r0.len()).filter(is_wrong).collect();
        if wrong.is_empty() {
            let mut all = vec![0.0; r0.len()];
            let settled = movements(&columns, r0, &open, 0.0)?;
            open.iter().zip(settled).for_each(|(&k, w)| all[k] = w);
            return Some(all);
        }
        if wrong.len() < best {
            best = wrong.len();
            patience = PATIENCE;
        } else {
            patience = patience.saturating_sub(1);
        }
        let changed = if patience > 0 { &wrong[..] } else { &wrong[wrong.len() - 1..] };
        open = (first..r0.len()).filter(|k| moved[*k].is_some() != changed.contains(k)).collect();
    }
    None
}

/// How far the open contacts move so that none of them pushes, each held by a spring of `soft` times the stiffest;
/// `None` if nothing resists some movement of them.
fn movements(columns: &[&DVector<f64>], r0: &[f64], open: &[usize], soft: f64) -> Option<Vec<f64>> {
    let mut block =
        DMatrix::from_fn(open.len(), open.len(), |i, j| (columns[j][open[i]] + columns[i][open[j]]) / 2.0);
    let stiffest = block.diagonal().iter().copied().fold(0.0, f64::max);
    (0..open.len()).for_each(|k| block[(k, k)] += soft * stiffest);
    let factor = block.cholesky()?;
    if factor.l_dirty().diagonal().iter().any(|&d| d * d <= LEAST_PIVOT * stiffest) {
        return None;
    }
    let moved = factor.solve(&DVector::from_fn(open.len(), |i, _| -r0[open[i]]));
    Some(moved.iter().copied().collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same for a stiffness that is known as a whole.
    fn of_known(s: &DMatrix<f64>, r0: &[f64], tolerance: f64) -> Option<Vec<f64>> {
        let make = |contacts: &[usize]| contacts.iter().map(|&c| s.column(c).into_owned()).collect();
        complementary(&mut ContactStiffness::new(r0.len()), make, r0, 0, tolerance)
    }

    /// Every index is closed or free of force, whatever the stiffness and the pull.
    #[test]
    fn no_contact_is_open_and_pushes() {
        let mut state = 0.3_f64;
        let mut next = || {
            state = (state * 9301.0 + 0.49297).fract();
            state - 0.5
        };
        for _ in 0..200 {
            let n = 7;
            let half = DMatrix::from_fn(n, n, |_, _| next());
            let s = &half * half.transpose() + DMatrix::identity(n, n) * 1e-3;
            let r0: Vec<f64> = (0..n).map(|_| next()).collect();
            let w = of_known(&s, &r0, 1e-12).unwrap();
            let r = &s * DVector::from_column_slice(&w) + DVector::from_column_slice(&r0);
            for k in 0..n {
                assert!(w[k] >= 0.0 && r[k] >= -1e-9 && w[k] * r[k] < 1e-9, "{w:?} {r:?}");
            }
        }
    }

    #[test]
    fn what_nothing_holds_is_not_solved() {
        let s = DMatrix::from_row_slice(2, 2, &[1.0, -1.0, -1.0, 1.0]);
        assert_eq!(of_known(&s, &[-1.0, -1.0], 1e-12), None);
        assert!(of_known(&s, &[-1.0, 2.0], 1e-12).is_some());
    }

    /// A beam on four contacts: with all closed, three would pull, and opened at once they would leave it on one.
    /// It stands on its first two.
    #[test]
    fn the_search_passes_through_a_roof_that_hangs_free() {
        let (one, other) =
            (DVector::from_vec(vec![1.0, -2.0, 1.0, 0.0]), DVector::from_vec(vec![0.0, 1.0, -2.0, 1.0]));
        let s = &one * one.transpose() + &other * other.transpose();
        let r0 = [-0.5, -0.5, 5.0, -3.0];
        let w = of_known(&s, &r0, 1e-12).unwrap();
        for (found, wanted) in w.iter().zip([0.0, 0.0, 1.0, 5.0]) {
            assert!((found - wanted).abs() < 1e-9, "{w:?}");
        }
    }
}
