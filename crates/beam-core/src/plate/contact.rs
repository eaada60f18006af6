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
use super::recover::Response;
use super::system::PlateSystem;

/// A pull below this part of the whole load is rounding.
const PULL: f64 = 1e-9;
/// Block pivots without progress before single pivots are taken.
const PATIENCE: usize = 8;

/// Stiffness of the roof seen from its one-way supports.
#[derive(Debug)]
pub(crate) struct SupportStiffness(DMatrix<f64>);

impl SupportStiffness {
    fn new(system: &PlateSystem) -> Self {
        let layout = &system.layout;
        let supports = &layout.supports.one_way;
        let elements = layout.support_elements();
        let force_of = |u: &[f64]| {
            let mut force = vec![0.0; layout.full + 1];
            for &element in &elements {
                layout.add_element_force(element, &system.matrices, u, &mut force);
            }
            force
        };
        let moved = |support: usize| {
            let mut u = vec![0.0; layout.full + 1];
            u[support] = 1.0;
            u
        };
        // On one thread: another thread may be waiting for this very matrix.
        let columns = system.factor.solve_in_turn(
            supports.len(),
            |k, x| {
                let force = force_of(&moved(supports[k]));
                for (value, &f) in x.iter_mut().zip(&layout.full_of) {
                    *value = -force[f as usize];
                }
            },
            |k, x| {
                let mut u = system.full_vector(x);
                u[supports[k]] = 1.0;
                let force = force_of(&u);
                supports.iter().map(|&s| force[s]).collect::<Vec<_>>()
            },
        );
        Self(DMatrix::from_fn(supports.len(), supports.len(), |row, column| {
            (columns[column][row] + columns[row][column]) / 2.0
        }))
    }
}

/// Full movements when the supports move as in `held` and `load` acts on the rest.
fn release(system: &PlateSystem, mut held: Vec<f64>, load: &[f64]) -> Vec<f64> {
    let mut rhs = system.internal_force(&held);
    for (value, l) in rhs.iter_mut().zip(load) {
        *value = l - *value;
    }
    let mut x = system.unknown_part(&rhs);
    system.factor.solve_in_place(&mut x, 1);
    for (&f, &value) in system.layout.full_of.iter().zip(&x) {
        held[f as usize] = value;
    }
    held
}

impl PlateSystem {
    /// Turns the solution with every support held into the response with one-way supports.
    pub(crate) fn settle(&self, u: Vec<f64>, load: &LoadVector) -> Result<Response<'_>, PlateError> {
        let supports = &self.layout.supports.one_way;
        let first = Response::new(self, u, load.clone());
        let push: Vec<f64> = supports.iter().map(|&s| first.reaction(s)).collect();
        let whole: f64 = first.load_size();
        if push.iter().all(|&r| r >= -PULL * whole) {
            return Ok(first);
        }
        let stiffness = &self.support_stiffness.get_or_init(|| SupportStiffness::new(self)).0;
        let moves = complementary(stiffness, &push, PULL * whole).ok_or_else(|| {
            let released = push.iter().filter(|&&r| r < -PULL * whole).count();
            PlateError::LiftsOff { released, supports: supports.len() }
        })?;
        let mut held = vec![0.0; self.layout.full + 1];
        for (&support, &w) in supports.iter().zip(&moves) {
            held[support] = w;
        }
        Ok(Response::new(self, release(self, held, &load.force), load.clone()))
    }
}

/// `w >= 0` with `r0 + s w >= 0` and no index at which both are positive; `None` if nothing holds the roof.
fn complementary(s: &DMatrix<f64>, r0: &[f64], tolerance: f64) -> Option<Vec<f64>> {
    let n = r0.len();
    let mut open: Vec<bool> = r0.iter().map(|&r| r < -tolerance).collect();
    let mut best = n + 1;
    let mut patience = PATIENCE;
    for _ in 0..20 * (n + 5) {
        let free: Vec<usize> = (0..n).filter(|&k| open[k]).collect();
        let block = DMatrix::from_fn(free.len(), free.len(), |i, j| s[(free[i], free[j])]);
        let stiffest = block.diagonal().iter().copied().fold(0.0, f64::max);
        let factor = block.cholesky()?;
        if factor.l_dirty().diagonal().iter().any(|&d| d * d <= 1e-9 * stiffest) {
            return None;
        }
        let moved = factor.solve(&DVector::from_fn(free.len(), |i, _| -r0[free[i]]));
        let mut w = vec![0.0; n];
        for (&k, &value) in free.iter().zip(moved.iter()) {
            w[k] = value;
        }
        let wrong: Vec<usize> = (0..n)
            .filter(|&k| {
                if open[k] {
                    w[k] < 0.0
                } else {
                    r0[k] + free.iter().map(|&j| s[(k, j)] * w[j]).sum::<f64>() < -tolerance
                }
            })
            .collect();
        if wrong.is_empty() {
            return Some(w);
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
