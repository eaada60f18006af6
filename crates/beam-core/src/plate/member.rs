//! A brace on a line with its own unknowns eliminated: what it looks like from the panel.

use faer::linalg::solvers::{Llt, Solve};
use faer::{Mat, Side};

use super::brace::{Bond, Brace, PIECE_NODE, PIECE_UNKNOWNS, Piece};
use super::condense::{COUPLED, Candidate, Line};
use super::error::{PlateError, checked};
use super::recover::{BraceForces, piece_forces};

/// A pivot below this part of its diagonal entry is rounding: a movement that strains nothing.
const NO_STIFFNESS: f64 = 1e-13;

/// A member on a line, its own unknowns eliminated.
pub(crate) struct Member {
    brace: Brace,
    /// Free axial strain and curvature `th,x`.
    free: [f64; 2],
    /// Coupled unknowns of the line that it resists.
    pub(crate) used: Vec<usize>,
    /// `L` with `Kb = L L'`, a row for each used unknown.
    pub(crate) root: Mat<f64>,
    /// Force of the free strains on the used unknowns.
    pub(crate) force: Vec<f64>,
    /// Own unknowns: `o = own_force - own_per_coupled q`.
    own_per_coupled: Mat<f64>,
    own_force: Mat<f64>,
}

impl Member {
    pub(crate) fn new(line: &Line, candidate: Candidate) -> Result<Self, PlateError> {
        let mut brace = candidate.brace;
        brace.check()?;
        checked("free axial strain", candidate.free_axial, "finite", |_| true)?;
        checked("free curvature (1/m)", candidate.free_curvature, "finite", |_| true)?;
        (brace.along, brace.line, brace.ends) = (line.place.along, line.place.line, line.place.ends);
        if brace.may_part() {
            brace.bond = Bond::Loose;
        }
        let free = [candidate.free_axial, -candidate.free_curvature];
        let own = brace.own_unknowns();
        let (coupled, owned) = (COUPLED * line.nodes, own * line.nodes);
        let mut k = Mat::<f64>::zeros(coupled + owned, coupled + owned);
        let mut f = Mat::<f64>::zeros(coupled + owned, 1);
        for (index, &[length, slope]) in line.pieces.iter().enumerate() {
            let piece = Piece::new(&brace, length, slope);
            let stiffness = piece.stiffness(&brace);
            let force = piece.initial_strain_force(&brace, free[0], free[1]);
            let place = |local: usize| {
                let (node, slot) = (index + local / PIECE_NODE, local % PIECE_NODE);
                match slot {
                    s if s < COUPLED => Some(COUPLED * node + s),
                    s if s - COUPLED < own => Some(coupled + own * node + s - COUPLED),
                    _ => None,
                }
            };
            for (i, (own_force, own_row)) in
                force.into_iter().zip(stiffness.chunks(PIECE_UNKNOWNS)).enumerate()
            {
                let Some(row) = place(i) else { continue };
                f[(row, 0)] += own_force;
                for (j, value) in own_row.iter().enumerate() {
                    if let Some(column) = place(j) {
                        k[(row, column)] += value;
                    }
                }
            }
        }
        let coupling = k.submatrix(coupled, 0, owned, coupled).to_owned();
        let own_factor =
            Llt::new(k.submatrix(coupled, coupled, owned, owned), Side::Lower).map_err(|_| {
                PlateError::BadNumber {
                    what: "own stiffness of a candidate brace (N m2)".into(),
                    value: brace.ei,
                    allowed: "large enough to be factorised beside its shear stiffness",
                }
            })?;
        let own_per_coupled = own_factor.solve(&coupling);
        let own_force = own_factor.solve(f.submatrix(coupled, 0, owned, 1).to_owned());
        let condensed = k.submatrix(0, 0, coupled, coupled) - coupling.transpose() * &own_per_coupled;
        let force = f.submatrix(0, 0, coupled, 1) - coupling.transpose() * &own_force;
        let used: Vec<usize> = (0..coupled).filter(|&i| condensed[(i, i)] > 0.0).collect();
        let resisted = Mat::from_fn(used.len(), used.len(), |i, j| condensed[(used[i], used[j])]);
        Ok(Self {
            brace,
            free,
            root: semidefinite_root(resisted),
            force: used.iter().map(|&i| force[(i, 0)]).collect(),
            used,
            own_per_coupled,
            own_force,
        })
    }

    /// Forces in the pieces when the coupled unknowns move by `q`.
    pub(crate) fn forces(&self, line: &Line, q: &[f64]) -> Vec<BraceForces> {
        let own = self.brace.own_unknowns();
        let own_at = |k: usize| {
            let moved: f64 = q.iter().enumerate().map(|(j, v)| self.own_per_coupled[(k, j)] * v).sum();
            self.own_force[(k, 0)] - moved
        };
        let owned: Vec<f64> = (0..own * line.nodes).map(own_at).collect();
        let mut from = line.place.ends[0];
        line.pieces
            .iter()
            .enumerate()
            .map(|(index, &[length, slope])| {
                let mut nodal = [0.0; PIECE_UNKNOWNS];
                for (end, values) in nodal.chunks_exact_mut(PIECE_NODE).enumerate() {
                    let node = index + end;
                    values[..COUPLED].copy_from_slice(&q[COUPLED * node..COUPLED * (node + 1)]);
                    values[COUPLED..COUPLED + own].copy_from_slice(&owned[own * node..own * (node + 1)]);
                }
                let start = from;
                from += length;
                let piece = Piece::new(&self.brace, length, slope);
                piece_forces(&self.brace, &piece, &nodal, [start, from], self.free)
            })
            .collect()
    }
}

/// `L` with `k = L L'` for a stiffness that leaves some movements unstrained: Cholesky with the largest
/// remaining pivot first, rows scaled to a unit diagonal.
fn semidefinite_root(mut k: Mat<f64>) -> Mat<f64> {
    let n = k.nrows();
    let scale: Vec<f64> = (0..n).map(|i| k[(i, i)].max(0.0).sqrt()).collect();
    let inverse: Vec<f64> = scale.iter().map(|&s| if s > 0.0 { 1.0 / s } else { 0.0 }).collect();
    for j in 0..n {
        for i in 0..n {
            k[(i, j)] *= inverse[i] * inverse[j];
        }
    }
    let mut left: Vec<usize> = (0..n).filter(|&i| scale[i] > 0.0).collect();
    let mut columns: Vec<Vec<f64>> = Vec::new();
    while let Some((at, &pivot)) =
        left.iter().enumerate().max_by(|a, b| k[(*a.1, *a.1)].total_cmp(&k[(*b.1, *b.1)]))
    {
        let diagonal = k[(pivot, pivot)];
        if diagonal <= NO_STIFFNESS {
            break;
        }
        left.swap_remove(at);
        let root = diagonal.sqrt();
        let mut column = vec![0.0; n];
        column[pivot] = root;
        for &i in &left {
            column[i] = k[(i, pivot)] / root;
        }
        for &j in left.iter().filter(|&&j| column[j] != 0.0) {
            for &i in &left {
                k[(i, j)] -= column[i] * column[j];
            }
        }
        columns.push(column);
    }
    Mat::from_fn(n, columns.len(), |i, j| columns[j][i] * scale[i])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_of_a_stiffness_with_free_movements() {
        // Two springs in a row, free to move as a whole, beside an unknown without stiffness.
        let k = Mat::from_fn(4, 4, |i, j| match (i, j) {
            (3, _) | (_, 3) => 0.0,
            (1, 1) => 5e6,
            (0, 0) => 2e6,
            (2, 2) => 3e6,
            (0, 1) | (1, 0) => -2e6,
            (1, 2) | (2, 1) => -3e6,
            _ => 0.0,
        });
        let root = semidefinite_root(k.clone());
        assert_eq!(root.ncols(), 2);
        let product = &root * root.transpose();
        for i in 0..4 {
            for j in 0..4 {
                assert!((product[(i, j)] - k[(i, j)]).abs() < 1e-8, "{i} {j}");
            }
        }
    }
}
