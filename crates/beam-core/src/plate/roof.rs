//! An idealised roof as a two-way model: grid, zones, braces, loads, and the numbers the checks read.

mod cells;
mod lines;
mod stand;
#[cfg(test)]
mod tests;
mod turning;

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{
    Along, Bond, Brace, Edge, Finer, Free, Grid, Layouts, Load, LoadVector, PlateError, PlateLaminate,
    PlateModel, PlateSystem, Response, Supports, Thrust, arc_height, graded_lines,
};
use crate::check::Materials;
use crate::loads::{Basis, BasisLoad};
use crate::model::{
    IdealBrace, IdealRoof, IdealTrimmer, LayUp, Moduli, PanelState, Role, Time, lay_up, moduli,
    nearest_corner, panel_weight, slot_size,
};
use crate::response::{BraceForces, BracePlace, LayerPlace, Layout, SlotPlace, TrimmerPlace, WallForces};

use cells::{Cells, around};

pub(crate) use cells::CellPlace;
pub(crate) use lines::{CondensedRoof, Kept, Kinds, LaidBraces, NewBraces, TrimmerLine, coupling};
pub(crate) use stand::{Reader, Standing};
use stand::{ZoneReading, zone_reading};

/// Slices over half a span that stand for a tapered core.
const TAPER_SLICES: usize = 8;
/// How much finer the grid is round openings and damage.
const FINER: f64 = 0.6;
/// How far beyond an opening or damage it is finer, m.
const FINER_REACH: f64 = 0.1;
/// A wall that does not give, N/m2 per metre of wall.
const RIGID_WALL: f64 = 1e9;
/// Least shear stiffness per bending stiffness, 1/m2: a slot that no shear crosses would leave its cells loose.
const LEAST_SHEAR: f64 = 1e-3;
/// How fine the grid is: about this many nodes over the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct GridSize {
    pub nodes: f64,
}

impl GridSize {
    /// At least 20 000 unknowns on any roof.
    pub(crate) const DEFAULT: GridSize = GridSize { nodes: 4000.0 };
    /// Cells about twice as wide: what candidates are sorted out by before any is judged.
    pub(crate) const COARSE: GridSize = GridSize { nodes: 1000.0 };
    /// Cells half as wide: what the answer's grid is held against.
    pub(crate) const FINER: GridSize = GridSize { nodes: 16_000.0 };
}

/// Places that lines must meet beside those of the roof itself: readings.
#[derive(Debug, Clone, Default)]
pub(crate) struct Wanted {
    pub x: Vec<f64>,
    pub y: Vec<f64>,
}

/// One make-up of the panel.
struct ZoneMake {
    state: usize,
    x: f64,
    slot: Option<[f64; 2]>,
}

impl ZoneMake {
    /// Whether the skins bend there by statics alone: over a slot, or past a joint.
    fn bends_by_statics(&self, states: &[PanelState]) -> bool {
        self.slot.is_some() || states[self.state].iter().any(crate::model::LayerState::is_cut)
    }
}

/// Grid and zones of a roof, the same for every state of its materials.
pub(crate) struct PlateShape {
    grid: Grid,
    makes: Vec<ZoneMake>,
    rise: Vec<f64>,
    states: Vec<PanelState>,
    /// Cells whose shear force is averaged at each cell: those of its make-up within half a core thickness.
    around: Vec<Vec<(usize, f64)>>,
    /// Lines across and along on which a member lies or may be laid: there the shear strain may step.
    member_lines: [Vec<bool>; 2],
}

/// A roof factorised in one state of its materials.
pub(crate) struct PlateRoof {
    system: PlateSystem,
    lay_ups: Vec<LayUp>,
    readings: Vec<ZoneReading>,
    cells: Cells,
    makes: Arc<PlateShape>,
    braces: Vec<IdealBrace>,
    trimmers: Vec<IdealTrimmer>,
    weights: Vec<f64>,
    roles: Vec<Role>,
    openings: Vec<crate::model::Rect>,
    pub layout: Arc<Layout>,
}

/// Lays the grid over a roof. Zones on which nothing carries are left open.
///
/// # Errors
/// In words.
pub(crate) fn shape(roof: &IdealRoof, wanted: &Wanted, size: GridSize) -> Result<PlateShape, String> {
    let words = |e: PlateError| e.to_string();
    let rects = || roof.zones.iter().map(|z| z.rect).chain(roof.openings.iter().copied());
    let cell = (roof.span * roof.length / size.nodes).sqrt();
    let mut x: Vec<f64> = rects().flat_map(|r| [r.x0, r.x1]).collect();
    let mut y: Vec<f64> = rects().flat_map(|r| [r.y0, r.y1]).collect();
    x.extend(roof.braces.iter().flat_map(|b| [b.x0, b.x1]));
    x.extend(&wanted.x);
    y.extend(roof.braces.iter().map(|b| b.y));
    x.extend(roof.trimmers.iter().map(|t| t.x));
    y.extend(&wanted.y);
    if roof.is_tapered() {
        x.extend((1..2 * TAPER_SLICES).map(|i| roof.span * i as f64 / (2 * TAPER_SLICES) as f64));
    }
    let finer = |of: fn(&crate::model::Rect) -> (f64, f64)| -> Vec<Finer> {
        roof.openings
            .iter()
            .map(|r| {
                let (from, to) = of(r);
                Finer { from: from - FINER_REACH, to: to + FINER_REACH, size: cell * FINER }
            })
            .collect()
    };
    let x = graded_lines(roof.span, &merged(x, roof.span), cell, &finer(|r| (r.x0, r.x1))).map_err(words)?;
    let y =
        graded_lines(roof.length, &merged(y, roof.length), cell, &finer(|r| (r.y0, r.y1))).map_err(words)?;
    let mut states: Vec<PanelState> = Vec::new();
    let mut makes: Vec<ZoneMake> = Vec::new();
    let mut zone_of = BTreeMap::new();
    for (j, row) in y.windows(2).enumerate() {
        for (i, column) in x.windows(2).enumerate() {
            let (xm, ym) = ((column[0] + column[1]) / 2.0, (row[0] + row[1]) / 2.0);
            if roof.is_open(xm, ym) {
                continue;
            }
            let state = roof.state_at(xm, ym);
            let state = states.iter().position(|s| *s == state).unwrap_or_else(|| {
                states.push(state);
                states.len() - 1
            });
            let slice = roof.is_tapered().then(|| (xm / roof.span * (2 * TAPER_SLICES) as f64) as usize);
            let slot = slot_size(roof, xm, ym);
            let at =
                slice.map_or(roof.span / 2.0, |s| (s as f64 + 0.5) * roof.span / (2 * TAPER_SLICES) as f64);
            let make = makes
                .iter()
                .position(|m| m.state == state && m.slot == slot && m.x == at)
                .unwrap_or_else(|| {
                    makes.push(ZoneMake { state, x: at, slot });
                    makes.len() - 1
                });
            zone_of.insert((i, j), make);
        }
    }
    let find = |lines: &[f64], at: f64| lines.partition_point(|l| *l <= at).saturating_sub(1);
    let (gx, gy) = (x.clone(), y.clone());
    let grid =
        Grid::new(x, y, |xm, ym| zone_of.get(&(find(&gx, xm), find(&gy, ym))).copied()).map_err(words)?;
    let rise = if roof.rise > 0.0 {
        grid.x().iter().map(|x| arc_height(roof.span, roof.rise, *x)).collect()
    } else {
        Vec::new()
    };
    let around = around(&grid, core_depth(roof) / 2.0);
    let on = |lines: &[f64], members: &mut dyn Iterator<Item = f64>| -> Vec<bool> {
        let members: Vec<f64> = members.map(|at| nearest(lines, at)).collect();
        lines.iter().map(|line| members.contains(line)).collect()
    };
    let trimmers = roof.trimmers.iter().map(|t| t.x);
    let braces = roof.braces.iter().map(|b| b.y);
    let member_lines = [
        on(grid.x(), &mut trimmers.chain(wanted.x.iter().copied())),
        on(grid.y(), &mut braces.chain(wanted.y.iter().copied())),
    ];
    Ok(PlateShape { grid, makes, rise, states, around, member_lines })
}

/// Lines nearer than a millimetre are one: what a tape reads as the same edge must not leave a sliver.
fn merged(mut lines: Vec<f64>, to: f64) -> Vec<f64> {
    lines.retain(|l| *l > 1e-3 && *l < to - 1e-3);
    lines.sort_by(f64::total_cmp);
    lines.dedup_by(|next, kept| *next - *kept < 1e-3);
    lines
}

impl PlateRoof {
    /// Assembles and factorises a roof in one state of its materials. Its numbering is taken from a roof among `layouts`
    /// that differs only in how stiff it is, or added to them.
    ///
    /// # Errors
    /// In words: a mechanism, an unknown modulus.
    pub(crate) fn new(
        roof: &IdealRoof,
        shape: &Arc<PlateShape>,
        materials: Materials,
        time: Time,
        layouts: &Layouts,
    ) -> Result<PlateRoof, String> {
        let moduli: Vec<Moduli> = roof
            .layers
            .iter()
            .map(|l| moduli(&l.material, l.grain_across, materials, time, roof.creep_hours))
            .collect::<Result<_, _>>()?;
        let lay_ups: Vec<LayUp> = shape
            .makes
            .iter()
            .map(|make| {
                lay_up(roof, &moduli, &shape.states[make.state], make.x, time, make.slot)
                    .map_err(|e| e.to_string())?
                    .ok_or_else(|| {
                        "nothing is left that carries in a damaged patch: survey it as an opening".to_owned()
                    })
            })
            .collect::<Result<_, String>>()?;
        let laminates: Vec<PlateLaminate> = lay_ups.iter().map(plate_laminate).collect();
        let mut braces: Vec<Brace> = roof.braces.iter().map(|b| plate_brace(b, &shape.grid)).collect();
        braces.extend(roof.trimmers.iter().map(|t| plate_trimmer(t, &shape.grid)));
        let model = PlateModel {
            grid: shape.grid.clone(),
            laminates,
            rise: shape.rise.clone(),
            braces,
            supports: supports(roof),
        };
        let system = PlateSystem::laid_out(model, layouts).map_err(|e| e.to_string())?;
        let roles: Vec<Role> = roof.layers.iter().map(|l| l.role).collect();
        let readings: Vec<ZoneReading> = (lay_ups.iter().zip(&system.model.laminates).zip(&shape.makes))
            .map(|((lay_up, laminate), make)| {
                zone_reading(lay_up, laminate.ks, &roles, make.bends_by_statics(&shape.states))
            })
            .collect();
        let weights = shape.makes.iter().map(|m| panel_weight(roof, &shape.states[m.state], m.x)).collect();
        let cells = Cells::new(shape, &lay_ups, &readings, &roles, |cell| system.model.slope_of(cell));
        let mut made = PlateRoof {
            system,
            lay_ups,
            readings,
            cells,
            makes: shape.clone(),
            braces: roof.braces.clone(),
            trimmers: roof.trimmers.clone(),
            weights,
            roles,
            openings: roof.openings.clone(),
            layout: Arc::default(),
        };
        made.layout = Arc::new(made.lay_out());
        Ok(made)
    }

    /// Number of unknowns.
    pub(crate) fn unknowns(&self) -> usize {
        self.system.unknowns()
    }

    fn lay_out(&self) -> Layout {
        let grid = &self.makes.grid;
        let mut layout = Layout { states: self.makes.states.clone(), ..Layout::default() };
        let mut seen = vec![false; grid.nodes()];
        for (cell, zone) in grid.present() {
            for node in grid.corners(cell) {
                seen[node] = true;
            }
            let (x, y) = grid.centre(cell);
            let to_corner = nearest_corner(&self.openings, x, y);
            let make = &self.makes.makes[zone];
            for &layer in &self.lay_ups[zone].layer_of {
                let place = LayerPlace { layer, x, y, state: make.state, to_corner };
                if self.roles[layer] == Role::Core {
                    if make.slot.is_none() {
                        layout.cores.push(place);
                    }
                } else {
                    layout.skins.push(place);
                }
            }
            if let Some(size) = make.slot {
                layout.slots.push(SlotPlace { x, y, state: make.state, size });
            }
        }
        layout.wall_contacts = self.system.contact_nodes().len();
        layout.nodes = (0..grid.nodes()).filter(|n| seen[*n]).collect();
        layout.sag = layout.nodes.iter().map(|&n| grid.place(n)).collect();
        for (brace, ideal) in self.braces.iter().enumerate() {
            let mut lines: Vec<f64> = grid
                .x()
                .iter()
                .copied()
                .filter(|x| (ideal.x0 - 1e-3..=ideal.x1 + 1e-3).contains(x))
                .collect();
            lines.dedup();
            for pair in lines.windows(2) {
                layout.braces.extend([BracePlace { brace, x: pair[0] }, BracePlace { brace, x: pair[1] }]);
            }
            layout.ends.push(brace);
        }
        for (trimmer, ideal) in self.trimmers.iter().enumerate() {
            let on_it = |y: &f64| (ideal.y0 - 1e-3..=ideal.y1 + 1e-3).contains(y);
            let lines: Vec<f64> = grid.y().iter().copied().filter(on_it).collect();
            layout.trimmers.extend(lines.windows(2).flatten().map(|y| TrimmerPlace {
                trimmer,
                x: ideal.x,
                y: *y,
            }));
        }
        layout
    }

    /// Responses to basis loads, every contact closed.
    ///
    /// # Errors
    /// In words: a load with no panel under it.
    pub(crate) fn solve(
        &self,
        loads: &[(Basis, BasisLoad)],
    ) -> Result<Vec<crate::response::Response>, String> {
        let vectors: Vec<LoadVector> =
            loads.iter().map(|(_, load)| self.vector(load)).collect::<Result<_, String>>()?;
        // People are many and alike: the residual is measured on all else.
        let prove: Vec<bool> = loads.iter().map(|(b, _)| !matches!(b, Basis::Person(_))).collect();
        Ok(self.system.solve_held_each(&vectors, |k, r| self.read(r, prove[k])))
    }

    fn vector(&self, load: &BasisLoad) -> Result<LoadVector, String> {
        let list: Vec<Load> = match load {
            BasisLoad::OwnWeight => {
                let mut list = vec![Load::ZonePressure(self.weights.clone())];
                list.extend(
                    self.braces
                        .iter()
                        .enumerate()
                        .map(|(brace, b)| Load::OnBrace { brace, force: b.weight * (b.x1 - b.x0) }),
                );
                let trimmers = self.trimmers.iter().zip(self.braces.len()..);
                list.extend(
                    trimmers.map(|(t, brace)| Load::OnBrace { brace, force: t.weight * (t.y1 - t.y0) }),
                );
                list
            }
            BasisLoad::Pressure(p) => {
                let mut list = vec![Load::Pressure(*p)];
                // What lies on the unit over an opening comes down on the opening's rim.
                list.extend(self.openings.iter().map(|o| Load::Ring {
                    x: [o.x0, o.x1],
                    y: [o.y0, o.y1],
                    band: 0.03,
                    force: p * o.area(),
                    left: 0.5,
                    front: 0.5,
                }));
                list
            }
            BasisLoad::SprungIn => self
                .braces
                .iter()
                .enumerate()
                .map(|(brace, b)| Load::BraceStrain { brace, axial: 0.0, curvature: b.sprung })
                .collect(),
            BasisLoad::Patches(patches) => patches
                .iter()
                .map(|(r, force)| Load::Patch { x: [r.x0, r.x1], y: [r.y0, r.y1], force: *force })
                .collect(),
        };
        self.system.load(&list).map_err(|e| e.to_string())
    }

    /// Whether it has contacts that push only.
    pub(crate) fn lets_go(&self) -> bool {
        self.system.has_contacts()
    }

    /// What changes under each of many loads when those of its free contacts open that would have to pull, from the
    /// pushes of all contacts while they are closed, N; `None` where none would.
    ///
    /// # Errors
    /// In words: nothing holds the roof.
    pub(crate) fn let_go(
        &self,
        closed: &[(Vec<f64>, Free)],
    ) -> Result<Vec<Option<crate::response::Response>>, String> {
        self.system.let_go_each(closed, |r| self.read(r, false)).map_err(|e| e.to_string())
    }

    /// Forces in all trimmers, at both ends of each piece, in the order of the layout.
    fn trimmer_forces(&self, r: &Response<'_>) -> Vec<BraceForces> {
        let pieces = (0..self.trimmers.len()).flat_map(|t| r.brace(self.braces.len() + t));
        pieces
            .flat_map(|piece| {
                piece.moment.map(|moment| BraceForces {
                    moment,
                    shear: piece.shear,
                    ..BraceForces::default()
                })
            })
            .collect()
    }

    /// Forces in all braces, at both ends of each piece, in the order of the layout; and what their ends bear.
    fn brace_forces(&self, r: &Response<'_>) -> (Vec<BraceForces>, Vec<[f64; 2]>) {
        let mut forces = Vec::with_capacity(self.layout.braces.len());
        let mut ends = vec![[0.0; 2]; self.braces.len()];
        for (brace, ends) in ends.iter_mut().enumerate() {
            let pieces = r.brace(brace);
            forces.extend(pieces.iter().flat_map(both_ends));
            *ends = end_reactions(&pieces).unwrap_or(*ends);
        }
        (forces, ends)
    }

    /// What the walls bear, from the pushes of the contacts where there are any.
    fn wall_forces(&self, r: &Response<'_>, pushes: &[f64]) -> WallForces {
        let grid = &self.makes.grid;
        let (x_max, y_max) = (grid.x()[grid.x().len() - 1], grid.y()[grid.y().len() - 1]);
        let mut walls = WallForces::default();
        let mut add = |(x, y): (f64, f64), force: f64| {
            if x < 1e-9 {
                walls.left += force;
            } else if x > x_max - 1e-9 {
                walls.right += force;
            } else if y < 1e-9 {
                walls.front += force;
            } else if y > y_max - 1e-9 {
                walls.rear += force;
            }
        };
        let contacts = self.system.contact_nodes();
        if contacts.is_empty() {
            r.reactions().into_iter().for_each(|(at, force)| add(at, force));
        } else {
            contacts.iter().zip(pushes).for_each(|(node, force)| add(grid.place(*node), *force));
        }
        if let Some([left, right]) = r.thrust() {
            (walls.left_thrust, walls.right_thrust) = (left, right);
        }
        walls
    }

    /// The numbers the checks read. `prove` measures what is left over at every free unknown too: a pass over all cells.
    fn read(&self, r: &Response<'_>, prove: bool) -> crate::response::Response {
        let layout = &self.layout;
        let mut out = crate::response::Response {
            sag: layout.nodes.iter().map(|&node| r.sag_at_node(node).unwrap_or(0.0)).collect(),
            skins: Vec::with_capacity(layout.skins.len()),
            cores: Vec::with_capacity(layout.cores.len()),
            slots: Vec::with_capacity(layout.slots.len()),
            ..Default::default()
        };
        // Cells come in the order of the layout.
        let standing = Reader::new(self).standing(r);
        let all: Vec<_> = self.cells.places.iter().map(|place| standing.strains(place)).collect();
        for (place, strains) in self.cells.places.iter().zip(&all) {
            let shear = |other: usize| all[other].shear;
            standing.skins_by(place, strains, shear, |_, stress| out.skins.push(stress));
            standing.cores_by(place, strains.shear, shear, |_, stress| out.cores.push(stress));
            out.slots.extend(place.slot.map(|_| standing.slot(place, strains)));
        }
        (out.braces, out.ends) = self.brace_forces(r);
        out.trimmers = self.trimmer_forces(r);
        out.pushes = r.pushes();
        out.walls = self.wall_forces(r, &out.pushes);
        out.load = r.whole_load();
        if prove {
            out.residual = r.balance().residual;
        }
        out
    }
}

/// Forces at both ends of a piece of a brace.
fn both_ends(piece: &super::BraceForces) -> [BraceForces; 2] {
    let flow = piece.slip_flow.unwrap_or([0.0; 2]);
    [0, 1].map(|end| BraceForces {
        axial: piece.axial,
        moment: piece.moment[end],
        shear: piece.shear,
        flow: flow[end],
        torsion: piece.torsion,
    })
}

/// What the seats of a brace take, N: its own shear at its ends.
fn end_reactions(pieces: &[super::BraceForces]) -> Option<[f64; 2]> {
    Some([pieces.first()?.shear, -pieces.last()?.shear])
}

/// Thickness of all foam at the crown, m.
fn core_depth(roof: &IdealRoof) -> f64 {
    roof.layers.iter().filter(|l| l.role == Role::Core).map(|l| l.thickness[1]).sum()
}

fn supports(roof: &IdealRoof) -> Supports {
    let end = |held: bool| if held { Edge::Wall } else { Edge::Free };
    let z = roof.levels(0.0).last().map_or(0.0, |l| l.0);
    Supports {
        left: Edge::Wall,
        right: Edge::Wall,
        front: end(roof.front_held),
        rear: end(roof.rear_held),
        hold_down: roof.hold_down,
        thrust: match roof.thrust {
            Some(0.0) => None,
            Some(k) => Some(Thrust { stiffness: k, z }),
            None => Some(Thrust { stiffness: RIGID_WALL, z }),
        },
        props: Vec::new(),
    }
}

/// Lines nearer than a millimetre were merged: a member goes to the one that stayed.
fn nearest(lines: &[f64], at: f64) -> f64 {
    lines.iter().copied().min_by(|p, q| (p - at).abs().total_cmp(&(q - at).abs())).unwrap_or(at)
}

/// What is left of the stiffness of a member that lies loose and lands on fewer than two walls: where it can only
/// push one way, nothing balances it, and it carries nothing.
const IDLE: f64 = 1e-6;

fn plate_brace(b: &IdealBrace, grid: &Grid) -> Brace {
    let lands = b.x0 <= grid.x()[0] + 1e-3 && b.x1 >= grid.x()[grid.x().len() - 1] - 1e-3;
    let (bond, counts) = match (b.bonded, lands) {
        (true, _) => (Bond::Slip(b.slip), 1.0),
        (false, true) => (Bond::Resting, 1.0),
        (false, false) => (Bond::Loose, IDLE),
    };
    Brace {
        along: Along::X,
        line: nearest(grid.y(), b.y),
        ends: [nearest(grid.x(), b.x0), nearest(grid.x(), b.x1)],
        ea: b.ea,
        ei: counts * b.ei,
        gas: counts * b.gas,
        gj: counts * b.gj,
        z_axis: b.z_axis,
        z_glue: b.z_glue,
        bond,
    }
}

/// A trimmer has its own rotation, and its ends hang on its braces by joints that carry shear alone.
fn plate_trimmer(t: &IdealTrimmer, grid: &Grid) -> Brace {
    Brace {
        along: Along::Y,
        line: nearest(grid.x(), t.x),
        ends: [nearest(grid.y(), t.y0), nearest(grid.y(), t.y1)],
        ea: t.ea,
        ei: t.ei,
        gas: t.gas,
        gj: 0.0,
        z_axis: t.z_axis,
        z_glue: t.z_face,
        bond: Bond::Jointed,
    }
}

fn plate_laminate(lay_up: &LayUp) -> PlateLaminate {
    let [a, b, d] = lay_up.laminate.abd_si();
    let d = d.matrix();
    // A wide void passes next to no shear: what is kept leaves its cells just held.
    let least = LEAST_SHEAR * (d[0][0] + d[1][1]);
    PlateLaminate {
        a: a.matrix(),
        b: b.matrix(),
        d,
        ks: lay_up.laminate.shear_si().map(|ks| ks.max(least)),
        layers: Vec::new(),
    }
}
