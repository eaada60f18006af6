//! The panel condensed onto the lines where braces may go: one more candidate costs a small dense solve.
//!
//! Once per panel: `F`, the movements of the lines' unknowns under unit forces on each, and `q0`, those under
//! the loads. A candidate of condensed stiffness `Kb = L L'` and own force `fb` (from strains it has of its own)
//! then moves by `q = q0 + F (fb - Kb q)`, solved as `(I + L'F L) y = L'(q0 + F fb)`, `q = q0 + F (fb - L y)`,
//! so that `F`, which is nearly singular where lines are close, is never inverted.

use std::borrow::Cow;

use faer::linalg::matmul::matmul;
use faer::linalg::solvers::{Llt, Solve};
use faer::{Accum, Mat, Par, Side};

use super::brace::{Along, Bond, Brace};
use super::error::{PlateError, checked};
use super::layout::piece_place;
use super::loads::LoadVector;
use super::member::Member;
use super::output::Output;
use super::recover::{BraceForces, Response};
use super::system::PlateSystem;

/// Coupled unknowns at a node of a line: movement along, deflection, rotation, twist.
pub(crate) const COUPLED: usize = 4;
/// Which of them is the deflection.
const DEFLECTION: usize = 1;

/// A line on which a brace may go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BraceLine {
    /// Direction.
    pub along: Along,
    /// Coordinate of the line, m.
    pub line: f64,
    /// Start and end, m.
    pub ends: [f64; 2],
}

/// A brace tried on a line. Its own line and ends are taken from the line it is tried on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The brace; one that rests is tried as one that is loose.
    pub brace: Brace,
    /// Free axial strain.
    pub free_axial: f64,
    /// Free curvature, 1/m, positive where the brace alone would sag.
    pub free_curvature: f64,
}

/// What a set of candidates does, one entry a load.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// The outputs asked for, in their order.
    pub outputs: Vec<f64>,
    /// Forces in the pieces of the brace on each line; empty where there is none.
    pub forces: Vec<Vec<BraceForces>>,
}

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

/// A line as it falls on the grid.
pub(crate) struct Line {
    pub(crate) place: BraceLine,
    /// Length and crown slope of each piece.
    pub(crate) pieces: Vec<[f64; 2]>,
    /// First coupled unknown in `F`.
    first: usize,
    pub(crate) nodes: usize,
}

/// A panel condensed onto brace lines, for a set of loads and outputs.
pub struct CondensedPanel {
    lines: Vec<Line>,
    /// `F`.
    compliance: Mat<f64>,
    /// `q0`, one column a load.
    unbraced: Mat<f64>,
    /// Outputs under unit forces on the coupled unknowns, one row an output.
    output_per_force: Mat<f64>,
    /// Outputs of the panel without candidates, one column a load.
    outputs: Mat<f64>,
}

impl CondensedPanel {
    /// Condenses `system`, which holds no brace on these lines, for `loads` and `outputs`.
    ///
    /// # Valid for
    /// Every one-way support closed; the chosen design is to be solved once more as a whole.
    ///
    /// # Errors
    /// A line that is not on the grid or crosses an opening, an output that is not there.
    pub fn new(
        system: &PlateSystem,
        lines: &[BraceLine],
        loads: &[LoadVector],
        outputs: &[Output],
    ) -> Result<Self, PlateError> {
        let functionals =
            outputs.iter().map(|o| system.functional(o)).collect::<Result<Vec<_>, PlateError>>()?;
        Self::reading(system, lines, loads, |r| {
            functionals.iter().map(|row| row.iter().map(|&(f, c)| c * r.u[f]).sum()).collect()
        })
    }

    /// The same for whatever `read` takes off a response, as long as it is linear in the load.
    ///
    /// # Errors
    /// As [`CondensedPanel::new`].
    pub(crate) fn reading(
        system: &PlateSystem,
        lines: &[BraceLine],
        loads: &[LoadVector],
        read: impl Fn(&Response<'_>) -> Vec<f64> + Sync,
    ) -> Result<Self, PlateError> {
        let grid = &system.model.grid;
        let mut coupled = Vec::new();
        let mut condensed_lines = Vec::new();
        for place in lines {
            let probe = probe(place);
            let nodes = probe.nodes(grid, &system.layout.active)?;
            let first = coupled.len();
            coupled.extend(nodes.iter().flat_map(|n| probe.panel_unknowns().map(|k| 5 * n + k)));
            let pieces = nodes.windows(2).map(|p| piece_place(grid, &system.model.rise, place.along, p));
            condensed_lines.push(Line { place: *place, pieces: pieces.collect(), first, nodes: nodes.len() });
        }
        let both = |r: &Response<'_>| -> (Vec<f64>, Vec<f64>) {
            (coupled.iter().map(|&f| r.u[f]).collect(), read(r))
        };
        let mut unknown_of = vec![None; system.layout.full + 1];
        for (unknown, &full) in system.layout.full_of.iter().enumerate() {
            unknown_of[full as usize] = Some(unknown);
        }
        let unit = system.factor.solve_each(
            coupled.len(),
            |k, side| {
                let mut load = system.no_load();
                load.force[coupled[k]] = 1.0;
                if let Some(unknown) = unknown_of[coupled[k]] {
                    side.put(unknown, 1.0);
                }
                load
            },
            |_, x, load| both(&Response::new(system, system.full_vector(x), Cow::Owned(load))),
        );
        let loaded = system.solve_held_each(loads, |_, r| both(r));
        let m = coupled.len();
        let read_off = unit.first().or(loaded.first()).map_or(0, |(_, outputs)| outputs.len());
        Ok(Self {
            lines: condensed_lines,
            compliance: Mat::from_fn(m, m, |i, j| (unit[j].0[i] + unit[i].0[j]) / 2.0),
            unbraced: Mat::from_fn(m, loads.len(), |i, j| loaded[j].0[i]),
            output_per_force: Mat::from_fn(read_off, m, |i, j| unit[j].1[i]),
            outputs: Mat::from_fn(read_off, loads.len(), |i, j| loaded[j].1[i]),
        })
    }

    /// Number of coupled unknowns.
    pub fn coupled(&self) -> usize {
        self.compliance.nrows()
    }

    /// The response with a candidate, or none, on each line; one [`Trial`] a load.
    ///
    /// # Errors
    /// A number of candidates that is not that of the lines, a brace that is not stiff or not finite.
    pub fn with(&self, candidates: &[Option<Candidate>]) -> Result<Vec<Trial>, PlateError> {
        let lines = self.lines.len();
        checked("number of candidates", candidates.len() as f64, "one, or none, per line", |v| {
            v == lines as f64
        })?;
        let members = self
            .lines
            .iter()
            .zip(candidates)
            .map(|(line, c)| c.map(|c| Member::new(line, c)).transpose())
            .collect::<Result<Vec<_>, PlateError>>()?;
        let laid: Vec<Laid<'_>> = members
            .iter()
            .enumerate()
            .filter_map(|(line, m)| Some(Laid { line, member: m.as_ref()?, weight: 0.0 }))
            .collect();
        let loads: Vec<(usize, OwnShares)> = (0..self.unbraced.ncols()).map(|k| (k, [1.0, 0.0])).collect();
        let trial = |tried: Tried| {
            let mut forces = vec![Vec::new(); self.lines.len()];
            laid.iter().zip(tried.forces).for_each(|(l, own)| forces[l.line] = own);
            Trial { outputs: tried.outputs, forces }
        };
        Ok(self.lay(&laid, &loads)?.into_iter().map(trial).collect())
    }

    /// A member ready to be laid on a line, or on any other with the same pieces.
    ///
    /// # Errors
    /// A brace that is not stiff or not finite.
    pub(crate) fn member(&self, line: usize, candidate: Candidate) -> Result<Member, PlateError> {
        Member::new(&self.lines[line], candidate)
    }

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

/// A brace that stands for its line where only the place matters.
fn probe(line: &BraceLine) -> Brace {
    Brace {
        along: line.along,
        line: line.line,
        ends: line.ends,
        ea: 1.0,
        ei: 1.0,
        gas: 1.0,
        gj: 0.0,
        z_axis: 0.0,
        z_glue: 0.0,
        bond: Bond::Loose,
    }
}
