//! The panel condensed onto the lines where braces may go: one more candidate costs a small dense solve.
//!
//! Once per panel: `F`, the movements of the lines' unknowns under unit forces on each, and `q0`, those under
//! the loads. A candidate of condensed stiffness `Kb = L L'` and own force `fb` (from strains it has of its own)
//! then moves by `q = q0 + F (fb - Kb q)`, solved as `(I + L'F L) y = L'(q0 + F fb)`, `q = q0 + F (fb - L y)`,
//! so that `F`, which is nearly singular where lines are close, is never inverted.

use faer::linalg::solvers::{Llt, Solve};
use faer::{Mat, Side};

use super::brace::{Along, Bond, Brace};
use super::error::{PlateError, checked};
use super::layout::piece_place;
use super::loads::LoadVector;
use super::member::Member;
use super::output::Output;
use super::recover::BraceForces;
use super::system::PlateSystem;

/// Coupled unknowns at a node of a line: movement along, deflection, rotation, twist.
pub(crate) const COUPLED: usize = 4;
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
        let functionals =
            outputs.iter().map(|o| system.functional(o)).collect::<Result<Vec<_>, PlateError>>()?;
        let read = |x: &[f64]| {
            let u = system.full_vector(x);
            let at_lines: Vec<f64> = coupled.iter().map(|&f| u[f]).collect();
            let values: Vec<f64> =
                functionals.iter().map(|row| row.iter().map(|&(f, c)| c * u[f]).sum()).collect();
            (at_lines, values)
        };
        let mut unknown_of = vec![None; system.layout.full + 1];
        for (unknown, &full) in system.layout.full_of.iter().enumerate() {
            unknown_of[full as usize] = Some(unknown);
        }
        let unit = system.factor.solve_each(
            coupled.len(),
            |k, side| {
                if let Some(unknown) = unknown_of[coupled[k]] {
                    side.put(unknown, 1.0);
                }
            },
            |_, x, ()| read(x),
        );
        let loaded = system.factor.solve_each(
            loads.len(),
            |k, side| system.put_unknowns(|f| loads[k].force[f], side),
            |_, x, ()| read(x),
        );
        let m = coupled.len();
        Ok(Self {
            lines: condensed_lines,
            compliance: Mat::from_fn(m, m, |i, j| (unit[j].0[i] + unit[i].0[j]) / 2.0),
            unbraced: Mat::from_fn(m, loads.len(), |i, j| loaded[j].0[i]),
            output_per_force: Mat::from_fn(outputs.len(), m, |i, j| unit[j].1[i]),
            outputs: Mat::from_fn(outputs.len(), loads.len(), |i, j| loaded[j].1[i]),
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
        let present: Vec<(&Line, &Member)> =
            self.lines.iter().zip(&members).filter_map(|(line, m)| Some((line, m.as_ref()?))).collect();
        let used: Vec<usize> =
            present.iter().flat_map(|(line, m)| m.used.iter().map(|i| line.first + i)).collect();
        let loads = self.unbraced.ncols();
        let (root, own_force) = stack(&present, used.len(), loads);

        let compliance = Mat::from_fn(used.len(), used.len(), |i, j| self.compliance[(used[i], used[j])]);
        let softened = &compliance * &root;
        let mut inner = root.transpose() * &softened;
        for k in 0..inner.nrows() {
            inner[(k, k)] += 1.0;
        }
        let factor = Llt::new(inner.as_ref(), Side::Lower).map_err(|_| PlateError::BadNumber {
            what: "stiffness of a candidate brace".into(),
            value: f64::NAN,
            allowed: "finite and positive",
        })?;
        let unbraced = Mat::from_fn(used.len(), loads, |i, load| self.unbraced[(used[i], load)]);
        let free = unbraced + &compliance * &own_force;
        let y = factor.solve(root.transpose() * &free);
        let force = &own_force - &root * &y;
        let moved = &free - &softened * &y;
        let per_force =
            Mat::from_fn(self.outputs.nrows(), used.len(), |k, i| self.output_per_force[(k, used[i])]);
        let outputs = &self.outputs + &per_force * &force;

        let trial = |load: usize| {
            let mut from = 0;
            let forces = self.lines.iter().zip(&members).map(|(line, member)| {
                member.as_ref().map_or_else(Vec::new, |member| {
                    let mut q = vec![0.0; COUPLED * line.nodes];
                    for (&i, row) in member.used.iter().zip(from..) {
                        q[i] = moved[(row, load)];
                    }
                    from += member.used.len();
                    member.forces(line, &q)
                })
            });
            let forces = forces.collect();
            Trial { outputs: (0..outputs.nrows()).map(|k| outputs[(k, load)]).collect(), forces }
        };
        Ok((0..loads).map(trial).collect())
    }
}

/// Roots of the members side by side, and their own forces below one another, the same for every load.
fn stack(present: &[(&Line, &Member)], rows: usize, loads: usize) -> (Mat<f64>, Mat<f64>) {
    let rank = present.iter().map(|(_, m)| m.root.ncols()).sum();
    let mut root = Mat::zeros(rows, rank);
    let mut own_force = Mat::zeros(rows, loads);
    let (mut row, mut column) = (0, 0);
    for (_, member) in present {
        for i in 0..member.used.len() {
            for j in 0..member.root.ncols() {
                root[(row + i, column + j)] = member.root[(i, j)];
            }
            for load in 0..loads {
                own_force[(row + i, load)] = member.force[i];
            }
        }
        row += member.used.len();
        column += member.root.ncols();
    }
    (root, own_force)
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
