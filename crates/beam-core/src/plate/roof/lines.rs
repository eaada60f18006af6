//! A roof condensed onto lines where braces may go: what the checks read, at chosen places, for one more set of braces.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use faer::Mat;

use super::super::condense::Coupling;
use super::super::lay::{OwnShares, Placed};
use super::super::member::Member;
use super::super::{BraceLine, Candidate, CondensedPanel};
use super::{Along, Grid, PlateRoof, Reader, nearest, plate_brace};
use crate::loads::{Basis, BasisLoad};
use crate::model::IdealBrace;
use crate::response::{BraceForces, BracePlace, Layout, Response, SkinStress};

/// Every so many pieces of a tried brace are read, and those at its ends.
const EVERY: usize = 4;

/// Places of a roof's layout that are read.
#[derive(Debug, Clone, Default)]
pub(crate) struct Kept {
    /// Indices into the layout's sags.
    sag: Vec<usize>,
    /// Cells with panel, by number; every layer in each.
    cells: Vec<usize>,
    /// Whether walls and contacts are read.
    walls: bool,
}

impl Kept {
    /// Every layer at some places of a roof.
    pub(crate) fn at(plate: &PlateRoof, places: &[(f64, f64)]) -> Kept {
        let key = |x: f64, y: f64| (x.to_bits(), y.to_bits());
        let wanted: BTreeSet<(u64, u64)> = places.iter().map(|&(x, y)| key(x, y)).collect();
        let which = |all: &mut dyn Iterator<Item = (f64, f64)>| -> Vec<usize> {
            all.enumerate().filter(|(_, (x, y))| wanted.contains(&key(*x, *y))).map(|(i, _)| i).collect()
        };
        Kept {
            sag: which(&mut plate.layout.sag.iter().copied()),
            cells: which(&mut plate.cells.places.iter().map(|c| (c.x, c.y))),
            walls: true,
        }
    }

    /// The same without what walls and contacts push: walls are then no number.
    pub(crate) fn without_walls(&self) -> Kept {
        Kept { walls: false, ..self.clone() }
    }

    fn layout(&self, plate: &PlateRoof) -> Layout {
        let (full, cells) = (&plate.layout, || self.cells.iter().map(|&c| &plate.cells.places[c]));
        Layout {
            sag: self.sag.iter().map(|&i| full.sag[i]).collect(),
            skins: cells().flat_map(|c| full.skins[c.skins.clone()].iter().copied()).collect(),
            cores: cells().flat_map(|c| full.cores[c.cores.clone()].iter().copied()).collect(),
            slots: cells().filter_map(|c| Some(full.slots[c.slot?])).collect(),
            nodes: Vec::new(),
            ..Layout::clone(full)
        }
    }

    /// The numbers of a response in a row, those at the kept places only; nothing else is made.
    fn read(&self, plate: &PlateRoof, r: &super::Response<'_>) -> Vec<f64> {
        let sag = |&i: &usize| r.sag_at_node(plate.layout.nodes[i]).unwrap_or(0.0);
        let mut out: Vec<f64> = self.sag.iter().map(sag).collect();
        let standing = Reader::new(plate).standing(r);
        let (mut cores, mut slots) = (Vec::new(), Vec::new());
        for place in self.cells.iter().map(|&cell| &plate.cells.places[cell]) {
            let strains = standing.strains(place);
            standing.skins(place, &strains, |_, s| {
                out.extend(s.middle.iter().chain(&s.bending).chain(&s.sheared))
            });
            standing.cores(place, &strains, |_, stress| cores.extend(stress));
            if place.slot.is_some() {
                slots.extend(standing.slot(place, &strains));
            }
        }
        out.extend(cores);
        out.extend(slots);
        let (braces, ends) = plate.brace_forces(r);
        let members = braces.iter().chain(&plate.trimmer_forces(r)).copied().collect::<Vec<_>>();
        out.extend(members.iter().flat_map(|f| [f.axial, f.moment, f.shear, f.flow, f.torsion]));
        out.extend(ends.iter().flatten());
        let pushes = if self.walls { r.pushes() } else { Vec::new() };
        if self.walls {
            let w = plate.wall_forces(r, &pushes);
            out.extend([w.left, w.right, w.front, w.rear, w.left_thrust, w.right_thrust]);
        } else {
            out.extend([f64::NAN; 6]);
        }
        out.push(r.whole_load());
        out.extend(pushes);
        out
    }
}

/// The response that [`Kept::read`] made a row of.
fn unflat(layout: &Layout, row: &[f64]) -> Response {
    let mut out = Response::zero(layout);
    let mut left = row.iter().copied();
    let mut next = || left.next().unwrap_or(f64::NAN);
    out.sag.iter_mut().for_each(|v| *v = next());
    for skin in &mut out.skins {
        let SkinStress { middle, bending, sheared } = skin;
        middle.iter_mut().chain(bending).chain(sheared).for_each(|v| *v = next());
    }
    out.cores.iter_mut().chain(&mut out.slots).flatten().for_each(|v| *v = next());
    for f in out.braces.iter_mut().chain(&mut out.trimmers) {
        *f = BraceForces { axial: next(), moment: next(), shear: next(), flow: next(), torsion: next() };
    }
    out.ends.iter_mut().flatten().for_each(|v| *v = next());
    let w = &mut out.walls;
    for v in [&mut w.left, &mut w.right, &mut w.front, &mut w.rear, &mut w.left_thrust, &mut w.right_thrust] {
        *v = next();
    }
    out.load = next();
    out.pushes = left.collect();
    out
}

/// A roof in one state of its materials, condensed for a set of basis loads.
pub(crate) struct CondensedRoof {
    panel: CondensedPanel,
    /// Places of the lines on the grid.
    lines: Vec<f64>,
    bases: Vec<Basis>,
    /// What is read of the roof itself.
    layout: Layout,
    grid: Grid,
    braces: usize,
}

/// A kind of brace: what is alike wherever it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BraceKind {
    brace: super::Brace,
    /// Curvature that it is sprung in by, 1/m.
    sprung: f64,
}

/// What new braces take hold of: as little as serves all of them.
pub(crate) fn coupling(braces: impl IntoIterator<Item = IdealBrace>) -> Coupling {
    let glued = braces.into_iter().filter(|b| b.bonded).map(|b| b.z_glue);
    let mut out = Coupling::Loose;
    for z in glued {
        match out {
            Coupling::Loose => out = Coupling::GluedAt(z),
            Coupling::GluedAt(other) if other == z => {}
            Coupling::GluedAt(_) | Coupling::Any => return Coupling::Any,
        }
    }
    out
}

/// Braces of one kind on lines of a condensed roof.
pub(crate) struct LaidBraces {
    kind: BraceKind,
    placed: Vec<Placed>,
}

/// Braces of a roof beside those of the condensed one.
pub(crate) struct NewBraces {
    pub(crate) kind: BraceKind,
    /// Line and weight per length of each.
    places: Vec<(usize, f64)>,
}

impl NewBraces {
    /// The lines they lie on.
    pub(crate) fn lines(&self) -> impl Iterator<Item = usize> {
        self.places.iter().map(|(line, _)| *line)
    }
}

impl CondensedRoof {
    /// Condenses a roof that holds no brace on these lines.
    ///
    /// # Errors
    /// In words: a load with no panel under it, a line across an opening.
    pub(crate) fn new(
        plate: &PlateRoof,
        lines: &[f64],
        coupling: Coupling,
        loads: &[(Basis, BasisLoad)],
        kept: &Kept,
    ) -> Result<CondensedRoof, String> {
        let grid = &plate.makes.grid;
        let ends = [grid.x()[0], grid.x()[grid.x().len() - 1]];
        let lines: Vec<f64> = lines.iter().map(|y| nearest(grid.y(), *y)).collect();
        let places: Vec<BraceLine> =
            lines.iter().map(|&line| BraceLine { along: Along::X, line, ends }).collect();
        let vectors = loads.iter().map(|(_, load)| plate.vector(load)).collect::<Result<Vec<_>, String>>()?;
        let read = |r: &super::Response<'_>| kept.read(plate, r);
        let panel = CondensedPanel::reading(&plate.system, &places, coupling, &vectors, read)
            .map_err(|e| e.to_string())?;
        Ok(CondensedRoof {
            panel,
            lines,
            bases: loads.iter().map(|(b, _)| *b).collect(),
            layout: kept.layout(plate),
            grid: grid.clone(),
            braces: plate.braces.len(),
        })
    }

    /// The braces that a roof has beside those of the condensed one.
    ///
    /// # Errors
    /// In words: a brace on no line, braces of several kinds, none at all.
    pub(crate) fn new_braces(&self, braces: &[IdealBrace]) -> Result<NewBraces, String> {
        let mut kind: Option<BraceKind> = None;
        let mut places = Vec::new();
        for ideal in braces.iter().skip(self.braces) {
            let brace = plate_brace(ideal, &self.grid);
            let line = self.lines.iter().position(|y| *y == brace.line);
            places.push((
                line.ok_or_else(|| format!("brace {} lies on no line of the panel", ideal.name))?,
                ideal.weight,
            ));
            let own = BraceKind { brace: super::Brace { line: 0.0, ..brace }, sprung: ideal.sprung };
            if kind.is_some_and(|kind| kind != own) {
                return Err(format!("brace {} is unlike the others", ideal.name));
            }
            kind = Some(own);
        }
        Ok(NewBraces { kind: kind.ok_or("no brace to lay")?, places })
    }

    /// A brace of one kind with its own unknowns eliminated: the same in every state of the panel's materials.
    ///
    /// # Errors
    /// In words: a brace that is not stiff.
    pub(crate) fn member(&self, kind: &BraceKind) -> Result<Arc<Member>, String> {
        let candidate = Candidate { brace: kind.brace, free_axial: 0.0, free_curvature: kind.sprung };
        let read: Vec<usize> = self.read_pieces().collect();
        self.panel.member(0, candidate, &read).map(Arc::new).map_err(|e| e.to_string())
    }

    /// Makes braces of one kind ready on every line that a set of them uses.
    pub(crate) fn ready(&self, kind: &BraceKind, member: &Arc<Member>, sets: &[&NewBraces]) -> LaidBraces {
        let mut beside: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        for set in sets {
            for (at, line) in set.lines().enumerate() {
                beside.entry(line).or_default().extend(set.lines().skip(at + 1));
            }
        }
        let one = |(line, beside): (usize, BTreeSet<usize>)| {
            self.panel.place(line, member.clone(), &beside.into_iter().collect::<Vec<_>>())
        };
        LaidBraces { kind: *kind, placed: beside.into_iter().map(one).collect() }
    }

    /// What is read with new braces in.
    pub(crate) fn layout(&self, braces: &NewBraces) -> Layout {
        let mut layout = self.layout.clone();
        let x = self.grid.x();
        for brace in self.braces..self.braces + braces.places.len() {
            for piece in self.read_pieces() {
                layout.braces.extend([x[piece], x[piece + 1]].map(|x| BracePlace { brace, x }));
            }
            layout.ends.push(brace);
        }
        layout
    }

    fn read_pieces(&self) -> impl Iterator<Item = usize> {
        let pieces = self.grid.x().len() - 1;
        (0..pieces).filter(move |p| p % EVERY == 0 || p + 1 == pieces)
    }

    /// Responses to the basis loads wanted, of those that it is condensed for, with new braces in that were made ready.
    ///
    /// # Errors
    /// In words: a stiffness that is no number, a brace that is not ready.
    pub(crate) fn with(
        &self,
        ready: &LaidBraces,
        braces: &NewBraces,
        wanted: &BTreeSet<Basis>,
    ) -> Result<BTreeMap<Basis, Response>, String> {
        let find = |line: usize| ready.placed.iter().find(|p| p.line == line).ok_or("a brace is not ready");
        let laid = (braces.places.iter())
            .map(|(line, weight)| Ok((find(*line)?, *weight)))
            .collect::<Result<Vec<_>, &str>>()?;
        let share = |basis: &Basis| -> OwnShares {
            [*basis == Basis::Sprung, *basis == Basis::SelfWeight].map(|own| f64::from(u8::from(own)))
        };
        let asked: Vec<(usize, Basis)> =
            self.bases.iter().copied().enumerate().filter(|(_, b)| wanted.contains(b)).collect();
        let loads: Vec<(usize, OwnShares)> = asked.iter().map(|(k, b)| (*k, share(b))).collect();
        let tried = self.panel.lay(&laid, &loads).map_err(|e| e.to_string())?;
        let column = |of: &Mat<f64>, k: usize| -> Vec<f64> { of.col(k).iter().copied().collect() };
        let below = if ready.kind.brace.is_below() { 1.0 } else { -1.0 };
        let response = |k: usize| {
            let mut out = unflat(&self.layout, &column(&tried.outputs, k));
            for ((placed, _), (forces, pushes)) in laid.iter().zip(tried.forces.iter().zip(&tried.pushes)) {
                let pieces = placed.member.pieces(&column(forces, k));
                for piece in &pieces {
                    let flow = piece.slip_flow.unwrap_or([0.0; 2]);
                    out.braces.extend(piece.moment.into_iter().zip(flow).map(|(moment, flow)| BraceForces {
                        axial: piece.axial,
                        moment,
                        shear: piece.shear,
                        flow,
                        torsion: piece.torsion,
                    }));
                }
                if let (Some(first), Some(last)) = (pieces.first(), pieces.last()) {
                    out.ends.push([first.shear, -last.shear]);
                }
                if ready.kind.brace.may_part() {
                    out.pushes.extend(pushes.col(k).iter().map(|p| below * p));
                }
            }
            out
        };
        Ok(asked.iter().enumerate().map(|(k, (_, basis))| (*basis, response(k))).collect())
    }
}
