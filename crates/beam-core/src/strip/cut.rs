//! One strip cut out of an idealised roof, solved for a set of basis loads.
//!
//! ```text
//!   y1 +---------+------------+---------+   lanes: the roof between the along-edges of
//!      |  lane   |            |         |   openings, damage and slots; an opening has none
//!      +---------+  opening   +---------+
//!   y0 |  lane   |            |         |   braces whose centre line lies between y0 and y1
//!      +---------+------------+---------+   are in the strip, whole
//!      0         zones along the span   L
//! ```

use std::sync::Arc;

use super::solver::{FactoredStrip, Lane, Load, Response as Solved, StripBrace, StripModel, Thrust, Zone};
use crate::check::Materials;
use crate::loads::{Basis, BasisLoad};
use crate::model::{
    IdealRoof, LayUp, Moduli, PanelState, Rect, Role, Time, lay_up, moduli, nearest_corner, panel_weight,
    slot_size,
};
use crate::response::{
    BraceForces, BracePlace, LayerPlace, Layout, Response, SkinStress, SlotPlace, WallForces,
};

/// Elements over the span: sag within 1e-6 of the closed forms needs no more.
const ELEMENTS: usize = 64;
/// Slices over half a span that stand for a tapered core.
const TAPER_SLICES: usize = 8;
/// A wall that does not give, N/m2 per metre of wall: a thousand times what a roof edge can push.
const RIGID_WALL: f64 = 1e9;

/// A strip and what its loads do.
#[derive(Debug, Clone)]
pub(crate) struct CutStrip {
    pub layout: Arc<Layout>,
    pub responses: Vec<(Basis, Response)>,
}

/// Where a strip lies along the vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct StripPlace {
    pub y0: f64,
    pub y1: f64,
}

impl StripPlace {
    pub(crate) fn middle(&self) -> f64 {
        (self.y0 + self.y1) / 2.0
    }
}

/// A lane of a zone: what it is made of and where.
struct LanePlace {
    y: f64,
    width: f64,
    state: usize,
    lay_up: Arc<LayUp>,
    /// Size of a slot cut there.
    slot: Option<[f64; 2]>,
    /// Weight of the panel there, N/m2.
    weight: f64,
}

struct ZonePlaces {
    x0: f64,
    x1: f64,
    lanes: Vec<LanePlace>,
}

/// Cuts and solves.
///
/// # Errors
/// In words, what keeps the strip from being solved: nothing that carries, an unknown modulus.
pub(crate) fn cut_strip(
    roof: &IdealRoof,
    place: StripPlace,
    materials: Materials,
    time: Time,
    loads: &[(Basis, BasisLoad)],
) -> Result<CutStrip, String> {
    let moduli: Vec<Moduli> = roof
        .layers
        .iter()
        .map(|l| moduli(&l.material, l.grain_across, materials, time, roof.creep_hours))
        .collect::<Result<_, _>>()?;
    let mut states: Vec<PanelState> = Vec::new();
    let zones = zones(roof, place, &moduli, time, &mut states)?;
    let in_strip: Vec<usize> = (0..roof.braces.len())
        .filter(|&j| place.y0 <= roof.braces[j].y && roof.braces[j].y <= place.y1)
        .collect();
    let width = place.y1 - place.y0;
    let inner = roof.levels(0.0).last().map_or(0.0, |l| l.0);
    let model = StripModel {
        span: roof.span,
        zones: zones
            .iter()
            .map(|z| Zone {
                from: z.x0,
                to: z.x1,
                lanes: z
                    .lanes
                    .iter()
                    .map(|l| Lane { laminate: Arc::new(l.lay_up.laminate.clone()), width: l.width })
                    .collect(),
            })
            .collect(),
        braces: in_strip.iter().map(|&j| strip_brace(&roof.braces[j])).collect(),
        rise: roof.rise,
        thrust: match roof.thrust {
            Some(0.0) => None,
            Some(k) => Some(Thrust { left: k * width, right: k * width, z: inner }),
            None => Some(Thrust { left: RIGID_WALL * width, right: RIGID_WALL * width, z: inner }),
        },
        breaks: loads.iter().flat_map(|(_, l)| edges(l)).collect(),
        elements: ELEMENTS,
    };
    let factored: FactoredStrip = model.factor().map_err(|e| e.to_string())?;
    let mut responses = Vec::with_capacity(loads.len());
    let mut layout = None;
    for (basis, load) in loads {
        let solved =
            factored.solve(&line_loads(roof, place, &zones, &in_strip, load)).map_err(|e| e.to_string())?;
        let layout = layout.get_or_insert_with(|| lay_out(roof, place, &zones, &in_strip, &solved, &states));
        responses.push((*basis, read(&zones, &model.zones, &solved, layout, roof)));
    }
    Ok(CutStrip { layout: Arc::new(layout.unwrap_or_default()), responses })
}

fn strip_brace(b: &crate::model::IdealBrace) -> StripBrace {
    StripBrace {
        from: b.x0,
        to: b.x1,
        axial: b.ea,
        bending: b.ei,
        shear: b.gas,
        z_axis: b.z_axis,
        z_glue: b.z_glue,
        bond: b.slip,
        seat_hold: 0.0,
    }
}

fn edges(load: &BasisLoad) -> Vec<f64> {
    match load {
        BasisLoad::Patches(patches) => patches.iter().flat_map(|(r, _)| [r.x0, r.x1]).collect(),
        BasisLoad::OwnWeight | BasisLoad::Pressure(_) | BasisLoad::SprungIn => Vec::new(),
    }
}

/// Cuts the strip into zones across and lanes along, one laminate a lane.
fn zones(
    roof: &IdealRoof,
    place: StripPlace,
    moduli: &[Moduli],
    time: Time,
    states: &mut Vec<PanelState>,
) -> Result<Vec<ZonePlaces>, String> {
    let rects = || roof.zones.iter().map(|z| z.rect).chain(roof.openings.iter().copied());
    let mut x = vec![0.0, roof.span];
    x.extend(rects().filter(|r| r.y0 < place.y1 && r.y1 > place.y0).flat_map(|r| [r.x0, r.x1]));
    if roof.is_tapered() {
        let n = 2 * TAPER_SLICES;
        x.extend((1..n).map(|i| roof.span * i as f64 / n as f64));
    }
    let x = cuts(x, 0.0, roof.span);
    let mut y = vec![place.y0, place.y1];
    y.extend(rects().flat_map(|r| [r.y0, r.y1]));
    let y = cuts(y, place.y0, place.y1);
    let mut made: Vec<(usize, usize, Option<Arc<LayUp>>)> = Vec::new();
    let mut zones = Vec::new();
    for (column, pair) in x.windows(2).enumerate() {
        let xm = (pair[0] + pair[1]) / 2.0;
        let mut lanes = Vec::new();
        for row in y.windows(2) {
            let ym = (row[0] + row[1]) / 2.0;
            if roof.is_open(xm, ym) {
                continue;
            }
            let state = roof.state_at(xm, ym);
            let index = states.iter().position(|s| *s == state).unwrap_or_else(|| {
                states.push(state.clone());
                states.len() - 1
            });
            let taper = if roof.is_tapered() { column } else { 0 };
            let slot = slot_size(roof, xm, ym);
            let lay_up = match made.iter().find(|(s, c, _)| *s == index && *c == taper && slot.is_none()) {
                Some((_, _, made)) => made.clone(),
                None => {
                    let new = lay_up(roof, moduli, &state, xm, time, slot)
                        .map_err(|e| e.to_string())?
                        .map(Arc::new);
                    if slot.is_none() {
                        made.push((index, taper, new.clone()));
                    }
                    new
                }
            };
            let Some(lay_up) = lay_up else { continue };
            let weight = panel_weight(roof, &state, xm);
            lanes.push(LanePlace { y: ym, width: row[1] - row[0], state: index, lay_up, slot, weight });
        }
        zones.push(ZonePlaces { x0: pair[0], x1: pair[1], lanes });
    }
    Ok(zones)
}

/// Cuts in order, none nearer than a tenth of a millimetre to the next.
fn cuts(mut at: Vec<f64>, from: f64, to: f64) -> Vec<f64> {
    at.retain(|v| (from..=to).contains(v));
    at.sort_by(f64::total_cmp);
    at.dedup_by(|next, kept| *next - *kept < 1e-4);
    if let Some(last) = at.last_mut() {
        *last = to;
    }
    at
}

/// The line loads on the strip. A patch that reaches beyond the strip puts on it the share that lies on it.
fn line_loads(
    roof: &IdealRoof,
    place: StripPlace,
    zones: &[ZonePlaces],
    in_strip: &[usize],
    load: &BasisLoad,
) -> Vec<Load> {
    match load {
        BasisLoad::OwnWeight => {
            let panel = zones.iter().map(|z| Load::Uniform {
                per_length: z.lanes.iter().map(|l| l.weight * l.width).sum(),
                from: z.x0,
                to: z.x1,
            });
            let braces = in_strip.iter().map(|&j| {
                let b = &roof.braces[j];
                Load::Uniform { per_length: b.weight, from: b.x0, to: b.x1 }
            });
            panel.chain(braces).collect()
        }
        BasisLoad::Pressure(p) => zones
            .iter()
            .map(|z| Load::Uniform {
                // Snow lies on the unit over an opening too: the whole width.
                per_length: p * (place.y1 - place.y0),
                from: z.x0,
                to: z.x1,
            })
            .collect(),
        BasisLoad::SprungIn => in_strip
            .iter()
            .enumerate()
            .map(|(brace, &j)| Load::Free { brace, strain: 0.0, curvature: roof.braces[j].sprung })
            .collect(),
        BasisLoad::Patches(patches) => patches
            .iter()
            .map(|(r, force): &(Rect, f64)| {
                Load::patch(force * r.share_along(place.y0, place.y1), r.x0, r.x1)
            })
            .collect(),
    }
}

fn lay_out(
    roof: &IdealRoof,
    place: StripPlace,
    zones: &[ZonePlaces],
    in_strip: &[usize],
    solved: &Solved,
    states: &[PanelState],
) -> Layout {
    let mut layout = Layout {
        sag: solved.sag.iter().map(|s| (s[0], place.middle())).collect(),
        ends: in_strip.to_vec(),
        states: states.to_vec(),
        ..Layout::default()
    };
    for station in &solved.stations {
        for lane in &zones[station.zone].lanes {
            let to_corner = nearest_corner(&roof.openings, station.x, lane.y);
            for &layer in &lane.lay_up.layer_of {
                let at = LayerPlace { layer, x: station.x, y: lane.y, state: lane.state, to_corner };
                match roof.layers[layer].role {
                    Role::Core if lane.slot.is_some() => {}
                    Role::Core => layout.cores.push(at),
                    Role::Outer | Role::Inner => layout.skins.push(at),
                }
            }
            if let Some(size) = lane.slot {
                layout.slots.push(SlotPlace { x: station.x, y: lane.y, state: lane.state, size });
            }
        }
    }
    for (brace, response) in in_strip.iter().zip(&solved.braces) {
        layout.braces.extend(response.stations.iter().map(|s| BracePlace { brace: *brace, x: s.x }));
    }
    layout
}

fn read(
    zones: &[ZonePlaces],
    model: &[Zone],
    solved: &Solved,
    layout: &Layout,
    roof: &IdealRoof,
) -> Response {
    let mut out = Response::zero(layout);
    out.sag = solved.sag.iter().map(|s| s[1]).collect();
    let (mut skin, mut core, mut slot) = (0, 0, 0);
    for station in &solved.stations {
        for (index, lane) in zones[station.zone].lanes.iter().enumerate() {
            let Some(layers) = model[station.zone].layers(index, station) else { continue };
            for (&layer, stress) in lane.lay_up.layer_of.iter().zip(&layers) {
                if roof.layers[layer].role == Role::Core {
                    if lane.slot.is_none() {
                        out.cores[core] = [stress.shear, 0.0];
                        core += 1;
                    }
                } else {
                    out.skins[skin] = SkinStress {
                        middle: [stress.across[1], stress.along[1], 0.0],
                        bending: [
                            stress.across[2] - stress.across[1],
                            stress.along[2] - stress.along[1],
                            0.0,
                        ],
                        sheared: [0.0; 2],
                    };
                    skin += 1;
                }
            }
            if lane.slot.is_some() {
                let force = model[station.zone].lane_shear(index, station).unwrap_or(0.0);
                out.slots[slot] = [force / lane.width, 0.0];
                slot += 1;
            }
        }
    }
    out.braces = solved
        .braces
        .iter()
        .flat_map(|b| &b.stations)
        .map(|s| BraceForces {
            axial: s.force,
            moment: s.moment,
            shear: s.shear,
            flow: s.slip_flow,
            torsion: 0.0,
        })
        .collect();
    out.ends = solved.braces.iter().map(|b| b.end_force).collect();
    out.walls = WallForces {
        left: solved.reaction[0],
        right: solved.reaction[1],
        front: 0.0,
        rear: 0.0,
        left_thrust: solved.thrust[0],
        right_thrust: solved.thrust[1],
    };
    out.load = solved.load;
    out.residual = solved.residual;
    out
}
