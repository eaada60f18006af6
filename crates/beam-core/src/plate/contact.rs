//! Contacts that push only, walls, props and braces lying against the panel: which stay closed under a load.
//!
//! The roof is factorised with every contact closed. Condensed onto the one-way contacts it is a small dense
//! stiffness `S`: when they open by `w >= 0` their push is `r = r0 + S w >= 0`, and no contact does both.
//! That complementarity problem is solved by block pivoting; the plate itself is solved once more.
//!
//! # References
//! Judice and Pires (1994), block principal pivoting with a single-pivot safeguard (from memory).

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

/// Which contacts may let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Free {
    /// Every one that pushes only.
    All,
    /// Those of members that lie loose; walls and props are taken to hold.
    Members,
}

/// Stiffness of the roof seen from its one-way contacts.
#[derive(Debug)]
pub(crate) struct ContactStiffness(DMatrix<f64>);

impl ContactStiffness {
    fn new(system: &PlateSystem) -> Self {
        let contacts = &system.layout.supports.one_way;
        // On one thread: another thread may be waiting for this very matrix.
        let columns = system.factor.solve_in_turn(
            contacts.len(),
            |k, x| {
                let force = system.layout.force_of_contacts(&system.matrices, &[(k, 1.0)]);
                for (value, &f) in x.iter_mut().zip(&system.layout.full_of) {
                    *value = -force[f as usize];
                }
            },
            |k, x| {
                let mut u = system.full_vector(x);
                u[contacts[k]] = 1.0;
                system.layout.contact_force(&system.matrices, &u)
            },
        );
        Self(DMatrix::from_fn(contacts.len(), contacts.len(), |row, column| {
            (columns[column][row] + columns[row][column]) / 2.0
        }))
    }
}

impl PlateSystem {
    /// Movements of the contacts that open under `load`, on full unknowns, from the solution `u` with all of
    /// them closed; `None` if none opens. Those that are not `free` stay closed.
    pub(crate) fn openings(
        &self,
        u: &[f64],
        load: &LoadVector,
        free: Free,
    ) -> Result<Option<Vec<f64>>, PlateError> {
        let all = &self.layout.supports.one_way;
        let first = match free {
            Free::All => 0,
            Free::Members => self.contact_nodes().len(),
        };
        let contacts = &all[first..];
        let force = self.layout.contact_force(&self.matrices, u).into_iter().skip(first);
        let push: Vec<f64> = contacts.iter().zip(force).map(|(&c, force)| force - load.force[c]).collect();
        let whole: f64 = load.force.iter().chain(&push).map(|f| f.abs()).sum();
        let pulling = push.iter().filter(|&&r| r < -PULL * whole).count();
        if pulling == 0 {
            return Ok(None);
        }
        let stiffness = &self.contact_stiffness.get_or_init(|| ContactStiffness::new(self)).0;
        let stiffness = stiffness.view((first, first), (contacts.len(), contacts.len())).into_owned();
        let moves = complementary(&stiffness, &push, PULL * whole)
            .ok_or(PlateError::LiftsOff { pulling, contacts: contacts.len() })?;
        let mut opened = vec![0.0; self.layout.full + 1];
        for (&contact, &w) in contacts.iter().zip(&moves) {
            opened[contact] = w;
        }
        Ok(Some(opened))
    }
}

/// `w >= 0` with `r0 + s w >= 0` and no index at which both are positive; `None` if nothing holds the roof.
///
/// The search runs with a very soft spring at every contact, so that it can pass through states in which the roof
/// hangs free; the state it ends in is then solved without them, and refused if the roof does hang free in it.
fn complementary(s: &DMatrix<f64>, r0: &[f64], tolerance: f64) -> Option<Vec<f64>> {
    let stiffest = s.diagonal().iter().copied().fold(0.0, f64::max);
    let sprung = s + DMatrix::identity(r0.len(), r0.len()) * (SOFT * stiffest);
    movements(s, r0, &search(&sprung, r0, tolerance)?)
}

/// Which contacts open.
fn search(s: &DMatrix<f64>, r0: &[f64], tolerance: f64) -> Option<Vec<bool>> {
    let n = r0.len();
    let mut open: Vec<bool> = r0.iter().map(|&r| r < -tolerance).collect();
    let mut best = n + 1;
    let mut patience = PATIENCE;
    for _ in 0..20 * (n + 5) {
        let w = movements(s, r0, &open)?;
        let push = s * DVector::from_column_slice(&w) + DVector::from_column_slice(r0);
        let is_wrong = |&k: &usize| if open[k] { w[k] < 0.0 } else { push[k] < -tolerance };
        let wrong: Vec<usize> = (0..n).filter(is_wrong).collect();
        if wrong.is_empty() {
            return Some(open);
        }
        if wrong.len() < best {
            best = wrong.len();
            patience = PATIENCE;
        } else {
            patience = patience.saturating_sub(1);
        }
        let changed = if patience > 0 { &wrong[..] } else { &wrong[wrong.len() - 1..] };
        for &k in changed {
            open[k] = !open[k];
        }
    }
    None
}

/// How far the open contacts move so that none of them pushes; `None` if nothing resists some movement of them.
fn movements(s: &DMatrix<f64>, r0: &[f64], open: &[bool]) -> Option<Vec<f64>> {
    let free: Vec<usize> = (0..r0.len()).filter(|&k| open[k]).collect();
    let block = DMatrix::from_fn(free.len(), free.len(), |i, j| s[(free[i], free[j])]);
    let stiffest = block.diagonal().iter().copied().fold(0.0, f64::max);
    let factor = block.cholesky()?;
    if factor.l_dirty().diagonal().iter().any(|&d| d * d <= LEAST_PIVOT * stiffest) {
        return None;
    }
    let moved = factor.solve(&DVector::from_fn(free.len(), |i, _| -r0[free[i]]));
    let mut w = vec![0.0; r0.len()];
    for (&k, &value) in free.iter().zip(moved.iter()) {
        w[k] = value;
    }
    Some(w)
}

#[cfg(test)]
mod tests {
    use super::*;

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
            let w = complementary(&s, &r0, 1e-12).unwrap();
            let r = &s * DVector::from_column_slice(&w) + DVector::from_column_slice(&r0);
            for k in 0..n {
                assert!(w[k] >= 0.0 && r[k] >= -1e-9 && w[k] * r[k] < 1e-9, "{w:?} {r:?}");
            }
        }
    }

    #[test]
    fn what_nothing_holds_is_not_solved() {
        let s = DMatrix::from_row_slice(2, 2, &[1.0, -1.0, -1.0, 1.0]);
        assert_eq!(complementary(&s, &[-1.0, -1.0], 1e-12), None);
        assert!(complementary(&s, &[-1.0, 2.0], 1e-12).is_some());
    }

    /// A beam on four contacts: with all closed, three would pull, and opened at once they would leave it on one.
    /// It stands on its first two.
    #[test]
    fn the_search_passes_through_a_roof_that_hangs_free() {
        let (one, other) =
            (DVector::from_vec(vec![1.0, -2.0, 1.0, 0.0]), DVector::from_vec(vec![0.0, 1.0, -2.0, 1.0]));
        let s = &one * one.transpose() + &other * other.transpose();
        let r0 = [-0.5, -0.5, 5.0, -3.0];
        let w = complementary(&s, &r0, 1e-12).unwrap();
        for (found, wanted) in w.iter().zip([0.0, 0.0, 1.0, 5.0]) {
            assert!((found - wanted).abs() < 1e-9, "{w:?}");
        }
    }
}
