//! The panel condensed onto the lines where braces may go: one more candidate costs a small dense solve.
//!
//! Once per panel: `F`, the movements of the lines' unknowns under unit forces on each, and `q0`, those under
//! the loads. A candidate of condensed stiffness `Kb = L L'` and own force `fb` (from strains it has of its own)
//! then moves by `q = q0 + F (fb - Kb q)`, solved as `(I + L'F L) y = L'(q0 + F fb)`, `q = q0 + F (fb - L y)`,
//! so that `F`, which is nearly singular where lines are close, is never inverted.

use std::borrow::Cow;
use std::sync::Arc;

use faer::Mat;

use super::brace::{Along, Bond, Brace};
use super::error::{PlateError, checked};
use super::forces::Forces;
use super::lay::{OwnShares, Placed};
use super::layout::piece_place;
use super::loads::LoadVector;
use super::member::Member;
use super::output::Output;
use super::recover::{BraceForces, Response};
use super::system::{PlateSystem, put};

/// What members take hold of at every node of a line: some of the movement along it, the deflection, the rotation
/// along it and the twist about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Coupling {
    /// All four.
    Any,
    /// Members glued at this height, m: the movement along of that height, the deflection, the twist.
    GluedAt(f64),
    /// Loose members: the deflection.
    Loose,
}

/// The deflection among the four.
const DEFLECTION: usize = 1;

impl Coupling {
    /// Which of the four are coupled.
    pub(super) fn slots(self) -> &'static [usize] {
        match self {
            Coupling::Any => &[0, 1, 2, 3],
            Coupling::GluedAt(_) => &[0, 1, 3],
            Coupling::Loose => &[1],
        }
    }

    /// Coupled unknowns at a node.
    pub(super) fn each(self) -> usize {
        self.slots().len()
    }

    /// Where the deflection is among them.
    pub(super) fn deflection(self) -> usize {
        self.slots().iter().position(|s| *s == DEFLECTION).unwrap_or(0)
    }

    /// Whether a member takes hold of nothing else.
    pub(super) fn serves(self, brace: &Brace) -> bool {
        match self {
            Coupling::Any => true,
            Coupling::GluedAt(z) => !brace.is_bonded() || brace.z_glue == z,
            Coupling::Loose => !brace.is_bonded(),
        }
    }
}

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
    pub(super) coupling: Coupling,
}

impl Line {
    /// Number of a coupled unknown of the line, for one of the four at a node; `None` where it is not coupled.
    pub(super) fn coupled(&self, node: usize, slot: usize) -> Option<usize> {
        let at = self.coupling.slots().iter().position(|s| *s == slot)?;
        Some(self.coupling.each() * node + at)
    }
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
        let lines: Vec<(BraceLine, Coupling)> = lines.iter().map(|line| (*line, Coupling::Any)).collect();
        Self::reading(system, &lines, loads, |r| {
            functionals.iter().map(|row| row.iter().map(|&(f, c)| c * r.u[f]).sum()).collect()
        })
    }

    /// The same for whatever `read` takes off a response, as long as it is linear in the load; each line with what members
    /// take hold of on it.
    ///
    /// # Errors
    /// As [`CondensedPanel::new`].
    pub(crate) fn reading(
        system: &PlateSystem,
        lines: &[(BraceLine, Coupling)],
        loads: &[LoadVector],
        read: impl Fn(&Response<'_>) -> Vec<f64> + Sync,
    ) -> Result<Self, PlateError> {
        let grid = &system.model.grid;
        // Each coupled unknown as a sum of at most two of the panel's.
        let mut coupled: Vec<[(usize, f64); 2]> = Vec::new();
        let mut condensed_lines = Vec::new();
        for &(ref place, coupling) in lines {
            let probe = probe(place);
            let nodes = probe.nodes(grid, &system.layout.active)?;
            let first = coupled.len();
            let own = probe.panel_unknowns();
            for node in &nodes {
                let at = |slot: usize, share: f64| (5 * node + own[slot], share);
                coupled.extend(coupling.slots().iter().map(|&slot| match coupling {
                    Coupling::GluedAt(z) if slot == 0 => [at(0, 1.0), at(2, z)],
                    _ => [at(slot, 1.0), at(slot, 0.0)],
                }));
            }
            let pieces = nodes.windows(2).map(|p| piece_place(grid, &system.model.rise, place.along, p));
            let pieces = pieces.collect();
            condensed_lines.push(Line { place: *place, pieces, first, nodes: nodes.len(), coupling });
        }
        let both = |r: &Response<'_>| -> (Vec<f64>, Vec<f64>) {
            (coupled.iter().map(|of| of.iter().map(|(f, share)| share * r.u[*f]).sum()).collect(), read(r))
        };
        let unit = system.factor.solve_each(
            coupled.len(),
            |k, side| {
                let parts = coupled[k].into_iter().filter(|(_, share)| *share != 0.0);
                let parts = parts.map(|(full, share)| (full as u32, share)).collect();
                let load = LoadVector { force: Forces::sum_of(parts), ..system.no_load() };
                put(&load, side);
                load
            },
            |_, u, load| both(&Response::new(system, Cow::Borrowed(u), Cow::Owned(load))),
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
        let ready = candidates
            .iter()
            .enumerate()
            .filter_map(|(line, candidate)| Some(self.ready((*candidate)?, &[line])))
            .collect::<Result<Vec<_>, PlateError>>()?;
        self.with_ready(&ready.iter().map(|r| (r, r.placed[0].line)).collect::<Vec<_>>())
    }

    /// Makes a candidate ready on lines, for any number of sets: what it costs once does not depend on how many.
    ///
    /// # Errors
    /// No line, a line that there is not or whose pieces are not those of the first, a brace that is not stiff or not
    /// finite.
    pub fn ready(&self, candidate: Candidate, lines: &[usize]) -> Result<Ready, PlateError> {
        let number = |line: usize| {
            checked("line of a candidate", line as f64, "one of the panel's", |v| v < self.lines.len() as f64)
        };
        lines.iter().try_for_each(|&line| number(line).map(|_| ()))?;
        let Some(&first) = lines.first() else {
            return Err(PlateError::BadNumber {
                what: "lines of a candidate".into(),
                value: 0.0,
                allowed: "at least one",
            });
        };
        for &line in lines {
            let same = self.lines[line].pieces == self.lines[first].pieces;
            checked("pieces of a line unlike those of the first", f64::from(u8::from(!same)), "none", |v| {
                v == 0.0
            })?;
        }
        let all: Vec<usize> = (0..self.lines[first].pieces.len()).collect();
        let member = Arc::new(Member::new(&self.lines[first], candidate, &all)?);
        Ok(Ready { placed: lines.iter().map(|&line| self.place(line, member.clone(), lines)).collect() })
    }

    /// The response with ready candidates, each on one of its lines; one [`Trial`] a load.
    ///
    /// # Errors
    /// Two on one line, a line that a candidate is not ready on, braces that are stiff beyond all numbers.
    pub fn with_ready(&self, laid: &[(&Ready, usize)]) -> Result<Vec<Trial>, PlateError> {
        let mut placed: Vec<(&Placed, f64)> = Vec::new();
        for (ready, line) in laid {
            let taken = placed.iter().any(|(p, _)| p.line == *line);
            let own = ready.placed.iter().find(|p| p.line == *line && !taken);
            let own = own.ok_or(PlateError::BadNumber {
                what: "line of a candidate".into(),
                value: *line as f64,
                allowed: "one that it was made ready on, with no other candidate on it",
            })?;
            placed.push((own, 0.0));
        }
        let loads: Vec<(usize, OwnShares)> = (0..self.unbraced.ncols()).map(|k| (k, [1.0, 0.0])).collect();
        let tried = self.lay(&placed, &loads)?;
        let column = |of: &Mat<f64>, k: usize| -> Vec<f64> { of.col(k).iter().copied().collect() };
        let trial = |k: usize| {
            let mut forces = vec![Vec::new(); self.lines.len()];
            for ((placed, _), numbers) in placed.iter().zip(&tried.forces) {
                forces[placed.line] = placed.member.pieces(&column(numbers, k));
            }
            Trial { outputs: column(&tried.outputs, k), forces }
        };
        Ok((0..loads.len()).map(trial).collect())
    }

    /// A member ready to be laid on a line, or on any other with the same pieces; its forces are read in some of them.
    ///
    /// # Errors
    /// A brace that is not stiff or not finite.
    pub(crate) fn member(
        &self,
        line: usize,
        candidate: Candidate,
        read: &[usize],
    ) -> Result<Member, PlateError> {
        Member::new(&self.lines[line], candidate, read)
    }
}

/// A candidate made ready on lines of a panel.
pub struct Ready {
    placed: Vec<Placed>,
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
