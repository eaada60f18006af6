//! A roof condensed onto lines where braces may go: what the checks read, at chosen places, for one more set of braces.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use faer::Mat;

use super::super::condense::Coupling;
use super::super::lay::{OwnShares, Placed, Tried};
use super::super::member::Member;
use super::super::{BraceLine, Candidate, CondensedPanel};
use super::{Along, Grid, PlateRoof, Reader, both_ends, end_reactions, nearest, plate_brace, plate_trimmer};
use crate::loads::{Basis, BasisLoad};
use crate::model::{IdealBrace, IdealRoof};
use crate::response::{BraceForces, BracePlace, Layout, Response, SkinStress, TrimmerPlace};

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
    /// Places of the lines of braces on the grid: the first lines of the panel.
    lines: Vec<f64>,
    /// Those of trimmers, which follow.
    trimmer_lines: Vec<TrimmerLine>,
    bases: Vec<Basis>,
    /// What is read of the roof itself.
    layout: Layout,
    grid: Grid,
    /// Braces and trimmers of the roof itself.
    braces: usize,
    trimmers: usize,
}

/// Where a trimmer may lie: from the line of one brace to that of another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct TrimmerLine {
    pub x: f64,
    pub ends: [f64; 2],
}

/// A kind of brace: what is alike wherever it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BraceKind {
    brace: super::Brace,
    /// Curvature that it is sprung in by, 1/m.
    sprung: f64,
}

/// The kinds of members that a set is made of: one of braces, and where there are trimmers, one of those.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Kinds {
    brace: BraceKind,
    trimmer: Option<super::Brace>,
}

impl Kinds {
    /// Takes another set's kinds in where they are the same, as far as either has them; whether they were.
    pub(crate) fn take_in(&mut self, other: &Kinds) -> bool {
        let alike = self.brace == other.brace
            && self.trimmer.is_none_or(|own| other.trimmer.is_none_or(|its| own == its));
        if alike {
            self.trimmer = self.trimmer.or(other.trimmer);
        }
        alike
    }
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

/// Members with their own unknowns eliminated, the same in every state of the panel's materials: that of the braces, and
/// those of trimmers by line of the panel.
pub(crate) struct Members {
    brace: Arc<Member>,
    trimmers: BTreeMap<usize, Arc<Member>>,
}

/// Members of some kinds on lines of a condensed roof.
pub(crate) struct LaidBraces {
    kinds: Kinds,
    placed: Vec<Placed>,
}

/// Braces and trimmers of a roof beside those of the condensed one.
pub(crate) struct NewBraces {
    pub(crate) kinds: Kinds,
    /// Line and weight per length of each brace.
    places: Vec<(usize, f64)>,
    trimmers: Vec<NewTrimmer>,
}

/// One new trimmer.
struct NewTrimmer {
    /// Its line of the panel, and its weight per length.
    place: (usize, f64),
    /// Where it lies across.
    x: f64,
    /// The new braces that its ends are jointed to, by their order.
    between: [usize; 2],
}

impl NewBraces {
    /// The lines of the panel that they lie on.
    pub(crate) fn lines(&self) -> impl Iterator<Item = usize> {
        self.laid().map(|(line, _)| line)
    }

    /// Line and weight per length of each member, the braces first.
    fn laid(&self) -> impl Iterator<Item = (usize, f64)> {
        self.places.iter().copied().chain(self.trimmers.iter().map(|t| t.place))
    }
}

impl CondensedRoof {
    /// Condenses a roof that holds no member on these lines of braces and of trimmers.
    ///
    /// # Errors
    /// In words: a load with no panel under it, a line across an opening.
    pub(crate) fn new(
        plate: &PlateRoof,
        (lines, trimmers): (&[f64], &[TrimmerLine]),
        coupling: Coupling,
        loads: &[(Basis, BasisLoad)],
        kept: &Kept,
    ) -> Result<CondensedRoof, String> {
        let grid = &plate.makes.grid;
        let whole = [grid.x()[0], grid.x()[grid.x().len() - 1]];
        let lines: Vec<f64> = lines.iter().map(|y| nearest(grid.y(), *y)).collect();
        let trimmer_lines: Vec<TrimmerLine> = trimmers
            .iter()
            .map(|t| TrimmerLine { x: nearest(grid.x(), t.x), ends: t.ends.map(|y| nearest(grid.y(), y)) })
            .collect();
        let across = |&line: &f64| (BraceLine { along: Along::X, line, ends: whole }, coupling);
        let along =
            |t: &TrimmerLine| (BraceLine { along: Along::Y, line: t.x, ends: t.ends }, Coupling::Loose);
        let places: Vec<(BraceLine, Coupling)> =
            lines.iter().map(across).chain(trimmer_lines.iter().map(along)).collect();
        let vectors = loads.iter().map(|(_, load)| plate.vector(load)).collect::<Result<Vec<_>, String>>()?;
        let read = |r: &super::Response<'_>| kept.read(plate, r);
        let panel =
            CondensedPanel::reading(&plate.system, &places, &vectors, read).map_err(|e| e.to_string())?;
        Ok(CondensedRoof {
            panel,
            lines,
            trimmer_lines,
            bases: loads.iter().map(|(b, _)| *b).collect(),
            layout: kept.layout(plate),
            grid: grid.clone(),
            braces: plate.braces.len(),
            trimmers: plate.trimmers.len(),
        })
    }

    /// The braces and trimmers that a roof has beside those of the condensed one.
    ///
    /// # Errors
    /// In words: a member on no line, members of several kinds, none at all.
    pub(crate) fn new_braces(&self, roof: &IdealRoof) -> Result<NewBraces, String> {
        let mut kind: Option<BraceKind> = None;
        let mut places = Vec::new();
        for ideal in roof.braces.iter().skip(self.braces) {
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
        let mut trimmer_kind: Option<super::Brace> = None;
        let mut trimmers = Vec::new();
        for ideal in roof.trimmers.iter().skip(self.trimmers) {
            let trimmer = plate_trimmer(ideal, &self.grid);
            let line = TrimmerLine { x: trimmer.line, ends: trimmer.ends };
            let off = || format!("{} lies on no line of the panel", ideal.name);
            let at = self.trimmer_lines.iter().position(|t| *t == line).ok_or_else(off)?;
            let brace = |y: f64| places.iter().position(|(line, _)| self.lines[*line] == y).ok_or_else(off);
            let own = super::Brace { line: 0.0, ends: [0.0; 2], ..trimmer };
            if trimmer_kind.is_some_and(|kind| kind != own) {
                return Err(format!("{} is unlike the others", ideal.name));
            }
            trimmer_kind = Some(own);
            trimmers.push(NewTrimmer {
                place: (self.lines.len() + at, ideal.weight),
                x: ideal.x,
                between: [brace(line.ends[0])?, brace(line.ends[1])?],
            });
        }
        let kinds = Kinds { brace: kind.ok_or("no brace to lay")?, trimmer: trimmer_kind };
        Ok(NewBraces { kinds, places, trimmers })
    }

    /// Members of some kinds with their own unknowns eliminated, for the lines that sets of them use: the same in every
    /// state of the panel's materials.
    ///
    /// # Errors
    /// In words: a member that is not stiff.
    pub(crate) fn members(&self, kinds: &Kinds, sets: &[&NewBraces]) -> Result<Members, String> {
        let BraceKind { brace, sprung } = kinds.brace;
        let candidate = |brace, free_curvature| Candidate { brace, free_axial: 0.0, free_curvature };
        let read: Vec<usize> = self.read_pieces().collect();
        let member = |line: usize, candidate, read: &[usize]| {
            self.panel.member(line, candidate, read).map(Arc::new).map_err(|e| e.to_string())
        };
        let mut trimmers: BTreeMap<usize, Arc<Member>> = BTreeMap::new();
        for at in sets.iter().flat_map(|set| set.trimmers.iter().map(|t| t.place.0)) {
            let (Some(kind), false) = (kinds.trimmer, trimmers.contains_key(&at)) else { continue };
            let ends = |at: usize| self.trimmer_lines[at - self.lines.len()].ends;
            // On the other side of the opening lies the same member.
            let alike = trimmers.iter().find(|(other, _)| ends(**other) == ends(at)).map(|(_, m)| m.clone());
            let made = match alike {
                Some(member) => member,
                None => member(at, candidate(kind, 0.0), &self.trimmer_pieces(at).collect::<Vec<_>>())?,
            };
            trimmers.insert(at, made);
        }
        Ok(Members { brace: member(0, candidate(brace, sprung), &read)?, trimmers })
    }

    /// Makes members ready on every line that a set of them uses.
    pub(crate) fn ready(&self, kinds: &Kinds, members: &Members, sets: &[&NewBraces]) -> LaidBraces {
        let mut beside: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        for set in sets {
            for (at, line) in set.lines().enumerate() {
                beside.entry(line).or_default().extend(set.lines().skip(at + 1));
            }
        }
        let one = |(line, beside): (usize, BTreeSet<usize>)| {
            let member = members.trimmers.get(&line).unwrap_or(&members.brace).clone();
            self.panel.place(line, member, &beside.into_iter().collect::<Vec<_>>())
        };
        LaidBraces { kinds: *kinds, placed: beside.into_iter().map(one).collect() }
    }

    /// What is read with new members in.
    pub(crate) fn layout(&self, braces: &NewBraces) -> Layout {
        let mut layout = self.layout.clone();
        let x = self.grid.x();
        for brace in self.braces..self.braces + braces.places.len() {
            for piece in self.read_pieces() {
                layout.braces.extend([x[piece], x[piece + 1]].map(|x| BracePlace { brace, x }));
            }
            layout.ends.push(brace);
        }
        for (trimmer, new) in (self.trimmers..).zip(&braces.trimmers) {
            let place = |y: f64| TrimmerPlace { trimmer, x: new.x, y };
            let pieces = self.trimmer_nodes(new.place.0).windows(2).map(|y| [y[0], y[1]]);
            layout.trimmers.extend(pieces.flatten().map(place));
        }
        layout
    }

    fn read_pieces(&self) -> impl Iterator<Item = usize> {
        let pieces = self.grid.x().len() - 1;
        (0..pieces).filter(move |p| p % EVERY == 0 || p + 1 == pieces)
    }

    /// Grid lines that a trimmer's line of the panel runs through, ends and all.
    fn trimmer_nodes(&self, line: usize) -> &[f64] {
        let [from, to] = self.trimmer_lines[line - self.lines.len()].ends;
        let y = self.grid.y();
        &y[y.partition_point(|v| *v < from)..y.partition_point(|v| *v <= to)]
    }

    /// Every piece of a trimmer is read.
    fn trimmer_pieces(&self, line: usize) -> std::ops::Range<usize> {
        0..self.trimmer_nodes(line).len() - 1
    }

    /// Responses to the basis loads wanted, of those that it is condensed for, with new members in that were made ready.
    ///
    /// # Errors
    /// In words: a stiffness that is no number, a member that is not ready.
    pub(crate) fn with(
        &self,
        ready: &LaidBraces,
        braces: &NewBraces,
        wanted: &BTreeSet<Basis>,
    ) -> Result<BTreeMap<Basis, Response>, String> {
        let find = |line: usize| ready.placed.iter().find(|p| p.line == line).ok_or("a member is not ready");
        let laid = braces
            .laid()
            .map(|(line, weight)| Ok((find(line)?, weight)))
            .collect::<Result<Vec<_>, &str>>()?;
        let share = |basis: &Basis| -> OwnShares {
            [*basis == Basis::Sprung, *basis == Basis::SelfWeight].map(|own| f64::from(u8::from(own)))
        };
        let asked: Vec<(usize, Basis)> =
            self.bases.iter().copied().enumerate().filter(|(_, b)| wanted.contains(b)).collect();
        let loads: Vec<(usize, OwnShares)> = asked.iter().map(|(k, b)| (*k, share(b))).collect();
        let tried = self.panel.lay(&laid, &loads).map_err(|e| e.to_string())?;
        let response = |k: usize| {
            let mut out = unflat(&self.layout, &column(&tried.outputs, k));
            let pieces = |at: usize| laid[at].0.member.pieces(&column(&tried.forces[at], k));
            for at in 0..braces.places.len() {
                read_brace(&mut out, &pieces(at));
            }
            for at in braces.places.len()..laid.len() {
                out.trimmers.extend(pieces(at).into_iter().flat_map(|piece| {
                    let of = |moment| BraceForces { moment, shear: piece.shear, ..BraceForces::default() };
                    piece.moment.map(of)
                }));
            }
            out.pushes.extend(self.pushes(&ready.kinds, braces, &tried, k));
            out
        };
        Ok(asked.iter().enumerate().map(|(k, (_, basis))| (*basis, response(k))).collect())
    }

    /// What the contacts of new members push, those of the braces first. A brace that may part is pressed against the
    /// panel, or drawn off it, by what the joints of trimmers hang on it too.
    fn pushes(&self, kinds: &Kinds, braces: &NewBraces, tried: &Tried, k: usize) -> Vec<f64> {
        let side = |below: bool| if below { 1.0 } else { -1.0 };
        let brace = &kinds.brace.brace;
        let count = braces.places.len();
        let mut out: Vec<Vec<f64>> = Vec::new();
        if brace.may_part() {
            let below = side(brace.is_below());
            out.extend(tried.pushes[..count].iter().map(|p| p.col(k).iter().map(|v| below * v).collect()));
        }
        let Some(trimmer) = kinds.trimmer else { return out.concat() };
        let below = side(trimmer.is_below());
        for (at, new) in (count..).zip(&braces.trimmers) {
            let x = nearest(self.grid.x(), new.x);
            let node = self.grid.x().partition_point(|v| *v < x);
            if brace.may_part() && brace.is_below() == trimmer.is_below() {
                for (end, between) in new.between.into_iter().enumerate() {
                    // Between its ends every node of a brace is a contact.
                    let contact = node.checked_sub(1).and_then(|c| out[between].get_mut(c));
                    contact.into_iter().for_each(|p| *p += below * tried.joints[at][(end, k)]);
                }
            }
            out.push(tried.pushes[at].col(k).iter().map(|v| below * v).collect());
        }
        out.concat()
    }
}

fn column(of: &Mat<f64>, k: usize) -> Vec<f64> {
    of.col(k).iter().copied().collect()
}

/// Adds the forces in a new brace, and what its ends bear.
fn read_brace(out: &mut Response, pieces: &[super::super::BraceForces]) {
    out.braces.extend(pieces.iter().flat_map(both_ends));
    out.ends.extend(end_reactions(pieces));
}
