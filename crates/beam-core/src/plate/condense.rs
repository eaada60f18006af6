//! The panel condensed onto the lines where braces may go: one more candidate costs a small dense solve.
//!
//! Once per panel: `F`, the movements of the lines' unknowns under unit forces on each, and `q0`, those under
//! the loads. A candidate of condensed stiffness `Kb = L L'` and own force `fb` (from strains it has of its own)
//! then moves by `q = q0 + F (fb - Kb q)`, solved as `(I + L'F L) y = L'(q0 + F fb)`, `q = q0 + F (fb - L y)`,
//! so that `F`, which is nearly singular where lines are close, is never inverted.

use std::borrow::Cow;

use faer::Mat;

use super::brace::{Along, Bond, Brace};
use super::error::{PlateError, checked};
use super::lay::{Laid, OwnShares, Tried};
use super::layout::piece_place;
use super::loads::LoadVector;
use super::member::Member;
use super::output::Output;
use super::recover::{BraceForces, Response};
use super::system::PlateSystem;

/// Coupled unknowns at a node of a line: movement along, deflection, rotation, twist.
pub(crate) const COUPLED: usize = 4;
/// Which of them is the deflection.
pub(super) const DEFLECTION: usize = 1;

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
    pub(super) first: usize,
    pub(crate) nodes: usize,
}

/// A panel condensed onto brace lines, for a set of loads and outputs.
pub struct CondensedPanel {
    pub(super) lines: Vec<Line>,
    /// `F`.
    pub(super) compliance: Mat<f64>,
    /// `q0`, one column a load.
    pub(super) unbraced: Mat<f64>,
    /// Outputs under unit forces on the coupled unknowns, one row an output.
    pub(super) output_per_force: Mat<f64>,
    /// Outputs of the panel without candidates, one column a load.
    pub(super) outputs: Mat<f64>,
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
