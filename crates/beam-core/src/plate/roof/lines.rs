//! A roof condensed onto lines where braces may go: what the checks read, at chosen places, for one more set of braces.

use std::collections::{BTreeMap, BTreeSet};

use super::super::lay::{Laid, OwnShares, Tried};
use super::super::member::Member;
use super::super::{BraceLine, Candidate, CondensedPanel};
use super::{Along, PlateRoof, nearest, plate_brace};
use crate::loads::{Basis, BasisLoad};
use crate::model::IdealBrace;
use crate::response::{BraceForces, BracePlace, Layout, Response, SkinStress};

/// Every so many pieces of a tried brace are read, and those at its ends.
const EVERY: usize = 4;

/// Places of a roof's layout that are read, by index.
#[derive(Debug, Clone, Default)]
pub(crate) struct Kept {
    sag: Vec<usize>,
    skins: Vec<usize>,
    cores: Vec<usize>,
    slots: Vec<usize>,
}

impl Kept {
    /// Every layer at some places of a layout.
    pub(crate) fn at(layout: &Layout, places: &[(f64, f64)]) -> Kept {
        let key = |x: f64, y: f64| (x.to_bits(), y.to_bits());
        let wanted: BTreeSet<(u64, u64)> = places.iter().map(|&(x, y)| key(x, y)).collect();
        let which = |all: &mut dyn Iterator<Item = (f64, f64)>| -> Vec<usize> {
            all.enumerate().filter(|(_, (x, y))| wanted.contains(&key(*x, *y))).map(|(i, _)| i).collect()
        };
        Kept {
            sag: which(&mut layout.sag.iter().copied()),
            skins: which(&mut layout.skins.iter().map(|p| (p.x, p.y))),
            cores: which(&mut layout.cores.iter().map(|p| (p.x, p.y))),
            slots: which(&mut layout.slots.iter().map(|p| (p.x, p.y))),
        }
    }

    fn layout(&self, full: &Layout) -> Layout {
        Layout {
            sag: self.sag.iter().map(|&i| full.sag[i]).collect(),
            skins: self.skins.iter().map(|&i| full.skins[i]).collect(),
            cores: self.cores.iter().map(|&i| full.cores[i]).collect(),
            slots: self.slots.iter().map(|&i| full.slots[i]).collect(),
            nodes: Vec::new(),
            ..full.clone()
        }
    }

    /// The numbers of a response in a row, those at the kept places only.
    pub(crate) fn flat(&self, r: &Response) -> Vec<f64> {
        let mut out: Vec<f64> = self.sag.iter().map(|&i| r.sag[i]).collect();
        for &i in &self.skins {
            out.extend(r.skins[i].middle.iter().chain(&r.skins[i].bending));
        }
        out.extend(self.cores.iter().flat_map(|&i| r.cores[i]));
        out.extend(self.slots.iter().flat_map(|&i| r.slots[i]));
        let members = r.braces.iter().chain(&r.trimmers);
        out.extend(members.flat_map(|f| [f.axial, f.moment, f.shear, f.flow, f.torsion]));
        out.extend(r.ends.iter().flatten());
        let w = &r.walls;
        out.extend([w.left, w.right, w.front, w.rear, w.left_thrust, w.right_thrust, r.load]);
        out.extend(&r.pushes);
        out
    }
}

/// The response that [`Kept::flat`] made a row of.
fn unflat(layout: &Layout, row: &[f64]) -> Response {
    let mut out = Response::zero(layout);
    let mut left = row.iter().copied();
    let mut next = || left.next().unwrap_or(f64::NAN);
    out.sag.iter_mut().for_each(|v| *v = next());
    for skin in &mut out.skins {
        let SkinStress { middle, bending } = skin;
        middle.iter_mut().chain(bending).for_each(|v| *v = next());
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
    grid_x: Vec<f64>,
    braces: usize,
}

/// Braces laid on lines of a condensed roof: the same in every state of the panel's materials.
pub(crate) struct LaidBraces {
    /// Line, member, weight per length.
    laid: Vec<(usize, std::sync::Arc<Member>, f64)>,
    /// Whether each lies under the face it touches, loose.
    loose: Vec<Option<bool>>,
}

impl CondensedRoof {
    /// Condenses a roof that holds no brace on these lines.
    ///
    /// # Errors
    /// In words: a load with no panel under it, a line across an opening.
    pub(crate) fn new(
        plate: &PlateRoof,
        lines: &[f64],
        loads: &[(Basis, BasisLoad)],
        kept: &Kept,
    ) -> Result<CondensedRoof, String> {
        let grid = &plate.makes.grid;
        let ends = [grid.x()[0], grid.x()[grid.x().len() - 1]];
        let lines: Vec<f64> = lines.iter().map(|y| nearest(grid.y(), *y)).collect();
        let places: Vec<BraceLine> =
            lines.iter().map(|&line| BraceLine { along: Along::X, line, ends }).collect();
        let vectors = loads.iter().map(|(_, load)| plate.vector(load)).collect::<Result<Vec<_>, String>>()?;
        let panel =
            CondensedPanel::reading(&plate.system, &places, &vectors, |r| kept.flat(&plate.read(r, false)))
                .map_err(|e| e.to_string())?;
        Ok(CondensedRoof {
            panel,
            lines,
            bases: loads.iter().map(|(b, _)| *b).collect(),
            layout: kept.layout(&plate.layout),
            grid_x: grid.x().to_vec(),
            braces: plate.braces.len(),
        })
    }

    /// Makes the braces ready that a roof has beside those of the condensed one.
    ///
    /// # Errors
    /// In words: a brace on no line, or from elsewhere than wall to wall.
    pub(crate) fn braces(&self, plate: &PlateRoof, braces: &[IdealBrace]) -> Result<LaidBraces, String> {
        let mut out = LaidBraces { laid: Vec::new(), loose: Vec::new() };
        let mut known: Vec<(super::Brace, f64, std::sync::Arc<Member>)> = Vec::new();
        for ideal in &braces[self.braces..] {
            let brace = plate_brace(ideal, &plate.makes.grid);
            let line = self.lines.iter().position(|y| *y == brace.line);
            let line = line.ok_or_else(|| format!("brace {} lies on no line of the panel", ideal.name))?;
            let alike = super::Brace { line: 0.0, ..brace };
            let member = match known.iter().find(|(b, sprung, _)| *b == alike && *sprung == ideal.sprung) {
                Some((.., member)) => member.clone(),
                None => {
                    let candidate = Candidate { brace, free_axial: 0.0, free_curvature: ideal.sprung };
                    let made = self.panel.member(line, candidate).map_err(|e| e.to_string())?;
                    let made = std::sync::Arc::new(made);
                    known.push((alike, ideal.sprung, made.clone()));
                    made
                }
            };
            out.laid.push((line, member, ideal.weight));
            out.loose.push(brace.may_part().then(|| brace.is_below()));
        }
        Ok(out)
    }

    /// What is read with those braces in.
    pub(crate) fn layout(&self, braces: &LaidBraces) -> Layout {
        let mut layout = self.layout.clone();
        for brace in self.braces..self.braces + braces.laid.len() {
            for piece in self.read_pieces() {
                let ends = [self.grid_x[piece], self.grid_x[piece + 1]];
                layout.braces.extend(ends.map(|x| BracePlace { brace, x }));
            }
            layout.ends.push(brace);
        }
        layout
    }

    fn read_pieces(&self) -> impl Iterator<Item = usize> {
        let pieces = self.grid_x.len() - 1;
        (0..pieces).filter(move |p| p % EVERY == 0 || p + 1 == pieces)
    }

    /// Responses to the basis loads wanted, of those that it is condensed for, with those braces in.
    ///
    /// # Errors
    /// In words: a stiffness that is no number.
    pub(crate) fn with(
        &self,
        braces: &LaidBraces,
        wanted: &BTreeSet<Basis>,
    ) -> Result<BTreeMap<Basis, Response>, String> {
        let laid: Vec<Laid<'_>> = (braces.laid.iter())
            .map(|(line, member, weight)| Laid { line: *line, member, weight: *weight })
            .collect();
        let share = |basis: &Basis| -> OwnShares {
            [*basis == Basis::Sprung, *basis == Basis::SelfWeight].map(|own| f64::from(u8::from(own)))
        };
        let asked: Vec<(usize, Basis)> =
            self.bases.iter().copied().enumerate().filter(|(_, b)| wanted.contains(b)).collect();
        let loads: Vec<(usize, OwnShares)> = asked.iter().map(|(k, b)| (*k, share(b))).collect();
        let tried = self.panel.lay(&laid, &loads).map_err(|e| e.to_string())?;
        let response = |tried: Tried| {
            let mut out = unflat(&self.layout, &tried.outputs);
            for (pieces, (pushes, loose)) in tried.forces.iter().zip(tried.pushes.iter().zip(&braces.loose)) {
                for piece in self.read_pieces().map(|p| &pieces[p]) {
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
                if let Some(below) = loose {
                    let sign = if *below { 1.0 } else { -1.0 };
                    out.pushes.extend(pushes.iter().map(|p| sign * p));
                }
            }
            out
        };
        Ok(asked.iter().map(|(_, b)| *b).zip(tried.into_iter().map(response)).collect())
    }
}
