//! A brace on a line with its own unknowns eliminated: what it looks like from the panel.
//!
//! Its stiffness `Kb = L L'` and `y = L'q` of the line's movements `q` are all that is needed of it: movements that
//! strain nothing leave `y` and every force in the member at zero, so that its forces are linear in `y` alone.

use faer::linalg::solvers::{Llt, Solve};
use faer::linalg::triangular_solve::solve_lower_triangular_in_place;
use faer::{Mat, Par, Side};

use super::brace::{Bond, Brace, PIECE_NODE, PIECE_UNKNOWNS, Piece};
use super::condense::{Candidate, Line};
use super::error::{PlateError, checked};
use super::recover::{BraceForces, piece_forces};

/// A pivot below this part of its diagonal entry is rounding: a movement that strains nothing.
const NO_STIFFNESS: f64 = 1e-13;
/// Numbers that tell the forces in one piece: axial, moments, shear, flows, torsion.
pub(super) const FORCES: usize = 7;
/// Unknowns of the panel at each node of a piece; the member's own follow.
const PANEL: usize = 4;

/// A member on a line, its own unknowns eliminated.
pub(crate) struct Member {
    brace: Brace,
    /// `L` with `Kb = L L'`, a row for each coupled unknown of the line.
    pub(super) root: Mat<f64>,
    /// Force of the free strains on the coupled unknowns.
    pub(super) force: Vec<f64>,
    /// Forces in the pieces that are read, under `y`; [`FORCES`] rows a piece.
    pub(super) forces: Mat<f64>,
    /// The same under the free strains while the line is held.
    pub(super) locked: Vec<f64>,
    /// Start and end of the pieces that are read, m.
    spans: Vec<[f64; 2]>,
    /// What it pushes up on the panel with between its ends, under `y`, a row a node; none where it is bonded.
    pub(super) pushes: Mat<f64>,
    /// The same under the free strains.
    pub(super) locked_pushes: Vec<f64>,
    /// What it pushes up with at its first and last node, under `y`: what joints there carry.
    pub(super) joints: Mat<f64>,
}

impl Member {
    /// A member whose forces are read in some of its pieces.
    ///
    /// # Errors
    /// A brace that is not stiff or not finite.
    pub(crate) fn new(line: &Line, candidate: Candidate, read: &[usize]) -> Result<Self, PlateError> {
        let mut brace = candidate.brace;
        brace.check()?;
        checked("free axial strain", candidate.free_axial, "finite", |_| true)?;
        checked("free curvature (1/m)", candidate.free_curvature, "finite", |_| true)?;
        (brace.along, brace.line, brace.ends) = (line.place.along, line.place.line, line.place.ends);
        if brace.may_part() {
            brace.bond = Bond::Loose;
        }
        let here = line.coupling.serves(&brace);
        checked("height of the glue (m)", brace.z_glue, "that which the panel is condensed for", |_| here)?;
        let free = [candidate.free_axial, -candidate.free_curvature];
        let (k, f) = stiffness(line, &brace, free);
        let own = brace.own_unknowns();
        let each = line.coupling.each();
        let (coupled, owned) = (each * line.nodes, own * line.nodes);
        let coupling = k.submatrix(coupled, 0, owned, coupled).to_owned();
        let own_factor =
            Llt::new(k.submatrix(coupled, coupled, owned, owned), Side::Lower).map_err(|_| {
                PlateError::BadNumber {
                    what: "own stiffness of a candidate brace (N m2)".into(),
                    value: brace.ei,
                    allowed: "large enough to be factorised beside its shear stiffness",
                }
            })?;
        let owned = Owned {
            each: own,
            per_coupled: own_factor.solve(&coupling),
            force: own_factor.solve(f.submatrix(coupled, 0, owned, 1).to_owned()),
        };
        let condensed = k.submatrix(0, 0, coupled, coupled) - coupling.transpose() * &owned.per_coupled;
        let force = f.submatrix(0, 0, coupled, 1) - coupling.transpose() * &owned.force;
        let (root, pivots) = semidefinite_root(condensed);
        let recovery = Recovery { brace: &brace, line, read, owned: &owned };
        let inside: Vec<usize> = if brace.bond == Bond::Loose {
            (1..line.nodes - 1).map(|n| each * n + line.coupling.deflection()).collect()
        } else {
            Vec::new()
        };
        let ends = [0, line.nodes - 1].map(|n| each * n + line.coupling.deflection());
        Ok(Self {
            joints: Mat::from_fn(2, root.ncols(), |i, j| -root[(ends[i], j)]),
            forces: recovery.under_root(&root, &pivots),
            locked: recovery.locked(free),
            spans: recovery.spans(),
            pushes: Mat::from_fn(inside.len(), root.ncols(), |i, j| -root[(inside[i], j)]),
            locked_pushes: inside.iter().map(|&i| force[(i, 0)]).collect(),
            force: (0..coupled).map(|i| force[(i, 0)]).collect(),
            brace,
            root,
        })
    }

    /// Forces in the pieces that are read, from the numbers that tell them.
    pub(crate) fn pieces(&self, numbers: &[f64]) -> Vec<BraceForces> {
        let on_a_bed = matches!(self.brace.bond, Bond::Slip(_));
        let piece = |(span, numbers): (&[f64; 2], &[f64])| BraceForces {
            span: *span,
            axial: numbers[0],
            moment: [numbers[1], numbers[2]],
            shear: numbers[3],
            slip_flow: on_a_bed.then_some([numbers[4], numbers[5]]),
            torsion: numbers[6],
        };
        self.spans.iter().zip(numbers.chunks_exact(FORCES)).map(piece).collect()
    }
}

/// Stiffness and forces of the free strains: coupled unknowns first, then the member's own.
fn stiffness(line: &Line, brace: &Brace, free: [f64; 2]) -> (Mat<f64>, Mat<f64>) {
    let own = brace.own_unknowns();
    let coupled = line.coupling.each() * line.nodes;
    let size = coupled + own * line.nodes;
    let mut k = Mat::<f64>::zeros(size, size);
    let mut f = Mat::<f64>::zeros(size, 1);
    for (index, &[length, slope]) in line.pieces.iter().enumerate() {
        let piece = Piece::new(brace, length, slope);
        let stiffness = piece.stiffness(brace);
        let force = piece.initial_strain_force(brace, free[0], free[1]);
        let place = |local: usize| {
            let (node, slot) = (index + local / PIECE_NODE, local % PIECE_NODE);
            match slot.checked_sub(PANEL) {
                None => line.coupled(node, slot),
                Some(own_slot) => (own_slot < own).then_some(coupled + own * node + own_slot),
            }
        };
        for (i, (own_force, own_row)) in force.into_iter().zip(stiffness.chunks(PIECE_UNKNOWNS)).enumerate() {
            let Some(row) = place(i) else { continue };
            f[(row, 0)] += own_force;
            for (j, value) in own_row.iter().enumerate() {
                if let Some(column) = place(j) {
                    k[(row, column)] += value;
                }
            }
        }
    }
    (k, f)
}

/// A member's own unknowns `o = force - per_coupled q`, so many at `each` node.
struct Owned {
    each: usize,
    per_coupled: Mat<f64>,
    force: Mat<f64>,
}

/// What reads the forces in a member's pieces.
struct Recovery<'a> {
    brace: &'a Brace,
    line: &'a Line,
    read: &'a [usize],
    owned: &'a Owned,
}

impl Recovery<'_> {
    fn piece(&self, index: usize) -> Piece {
        let [length, slope] = self.line.pieces[index];
        Piece::new(self.brace, length, slope)
    }

    fn numbers(&self, piece: &Piece, nodal: &[f64; PIECE_UNKNOWNS], free: [f64; 2]) -> [f64; FORCES] {
        let f = piece_forces(self.brace, piece, nodal, [0.0; 2], free);
        let [flow, next] = f.slip_flow.unwrap_or([0.0; 2]);
        [f.axial, f.moment[0], f.moment[1], f.shear, flow, next, f.torsion]
    }

    fn spans(&self) -> Vec<[f64; 2]> {
        let start = |index: usize| {
            let before: f64 = self.line.pieces[..index].iter().map(|p| p[0]).sum();
            self.line.place.ends[0] + before
        };
        self.read.iter().map(|&index| [start(index), start(index + 1)]).collect()
    }

    fn locked(&self, free: [f64; 2]) -> Vec<f64> {
        let one = |&index: &usize| {
            let mut nodal = [0.0; PIECE_UNKNOWNS];
            for (end, values) in nodal.chunks_exact_mut(PIECE_NODE).enumerate() {
                let first = self.owned.each * (index + end);
                (0..self.owned.each).for_each(|k| values[PANEL + k] = self.owned.force[(first + k, 0)]);
            }
            self.numbers(&self.piece(index), &nodal, free)
        };
        self.read.iter().flat_map(one).collect()
    }

    /// The forces under `y`: of all movements with this `y`, the one in which only the pivots' unknowns move.
    fn under_root(&self, root: &Mat<f64>, pivots: &[usize]) -> Mat<f64> {
        let rank = pivots.len();
        let mut per_pivot = Mat::<f64>::zeros(rank, FORCES * self.read.len());
        for (at, &index) in self.read.iter().enumerate() {
            let piece = self.piece(index);
            for local in 0..PIECE_UNKNOWNS {
                let (node, slot) = (index + local / PIECE_NODE, local % PIECE_NODE);
                let own = slot.checked_sub(PANEL);
                let coupled = self.line.coupled(node, slot);
                if own.map_or(coupled.is_none(), |k| k >= self.owned.each) {
                    continue;
                }
                let mut nodal = [0.0; PIECE_UNKNOWNS];
                nodal[local] = 1.0;
                let numbers = self.numbers(&piece, &nodal, [0.0; 2]);
                for (row, &unknown) in pivots.iter().enumerate() {
                    let moves = match own {
                        Some(k) => -self.owned.per_coupled[(self.owned.each * node + k, unknown)],
                        None if coupled == Some(unknown) => 1.0,
                        None => continue,
                    };
                    for (k, number) in numbers.iter().enumerate() {
                        per_pivot[(row, FORCES * at + k)] += number * moves;
                    }
                }
            }
        }
        let of_pivots = Mat::from_fn(rank, rank, |i, j| root[(pivots[i], j)]);
        solve_lower_triangular_in_place(of_pivots.as_ref(), per_pivot.as_mut(), Par::Seq);
        per_pivot.transpose().to_owned()
    }
}

/// `L` with `k = L L'` for a stiffness that leaves some movements unstrained, and the unknown that each column was
/// taken for: Cholesky with the largest remaining pivot first, rows scaled to a unit diagonal.
fn semidefinite_root(mut k: Mat<f64>) -> (Mat<f64>, Vec<usize>) {
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
    let mut pivots = Vec::new();
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
        pivots.push(pivot);
    }
    (Mat::from_fn(n, columns.len(), |i, j| columns[j][i] * scale[i]), pivots)
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
        let (root, pivots) = semidefinite_root(k.clone());
        assert_eq!((root.ncols(), pivots.len()), (2, 2));
        let product = &root * root.transpose();
        for i in 0..4 {
            for j in 0..4 {
                assert!((product[(i, j)] - k[(i, j)]).abs() < 1e-8, "{i} {j}");
            }
        }
    }
}
