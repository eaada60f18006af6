//! Under a foot: the dent that stays, the heel that cracks the skin, the stumble that goes through.
//!
//! The two-way roof and the strip do not see any of this. The lower skin moves as it likes, or does not where that is
//! worse. No edge, opening or joint is near: there a foot is not checked, and that is said. At a void: [`super::foot_over_void`].

use super::Materials;
use super::context::{Context, basis};
use super::finding::{Check, Finding};
use super::foot_over_void::{is_hollow, void_findings};
use super::pressed::Pressing;
use super::walk_board::walk_board;
use crate::loads::Footing;
use crate::local::{Below, FootCase, Layer, Patch, PlateD, foam_stress, indent};
use crate::model::{Known, LayUp, LayerState, PanelState, Role, Time};
use crate::quantity::{STANDARD_GRAVITY, si};
use crate::strength::Basis;
use crate::strength::core::punch_through;
use crate::strength::fall_through::{SkinUnderFoot, fall_through, strongest};
use crate::survey::Survey;

/// What the panel as a whole adds to the skin's stress under a heel, as a share of it: 1 kN on a panel 2.3 m wide bends
/// its skins of 3 mm by 2 to 4 MPa (Navier's series, thin and thick cores), a heel by 25 to 30 MPa (judged: it is not read
/// from the roof at the place).
pub(super) const WITH_THE_PANEL: f64 = 1.15;
/// Tries at the softened foam that yields under a heel.
const YIELD_STEPS: usize = 12;

/// All that is checked of a foot.
pub(super) const OF_A_FOOT: [(Check, Footing); 7] = [
    (Check::Dent, Footing::Bare),
    (Check::Dent, Footing::OnABoard),
    (Check::FootShear, Footing::Bare),
    (Check::FootShear, Footing::OnABoard),
    (Check::Heel, Footing::Bare),
    (Check::FallThrough, Footing::Bare),
    (Check::WalkBoard, Footing::OnABoard),
];

/// A place where a foot is tried: a state of the panel and one place that has it.
pub(crate) struct FootPlace<'a> {
    pub state: &'a PanelState,
    pub x: f64,
    pub y: f64,
    /// The most that the roof under a board is bent by somebody on it, 1/m.
    pub curvature: f64,
}

/// A foot that could not be checked, and why.
pub(crate) type Untried = (Check, Footing, String);

/// Findings about a foot at one place, bare and on the board; only those of which `asked` says so are made.
///
/// On a joint a foot stands worse than on the sound skin and no worse than with that skin gone: what holds so is told,
/// what does not was not tried.
pub(crate) fn foot_findings(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    spread: [f64; 2],
    asked: impl Fn(Check, Footing) -> bool,
) -> (Vec<Finding>, Vec<Untried>) {
    if is_hollow(place.state) {
        return void_findings(context, survey, place, spread, asked);
    }
    if !place.state.iter().any(LayerState::is_cut) {
        return sound_findings(context, survey, place, spread, asked);
    }
    let gone = |s: &LayerState| if s.is_cut() { LayerState { stiffness: 0.0, ..*s } } else { *s };
    let state: PanelState = place.state.iter().map(gone).collect();
    let (found, mut untried) =
        sound_findings(context, survey, &FootPlace { state: &state, ..*place }, spread, asked);
    let (holds, open): (Vec<_>, Vec<_>) = found.into_iter().partition(|f| f.ratio <= 1.0);
    let on_a_joint = "a foot on a joint of the skin is not worked out: keep off it, or lay a board across it";
    untried.extend(open.into_iter().map(|f| (f.check, f.footing, on_a_joint.to_owned())));
    (holds, untried)
}

/// Findings about a foot away from every joint.
fn sound_findings(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    spread: [f64; 2],
    asked: impl Fn(Check, Footing) -> bool,
) -> (Vec<Finding>, Vec<Untried>) {
    let sole = context.factors.sole;
    let make = |check, footing| match (check, footing) {
        (Check::Dent, _) => dent(context, survey, place, footing),
        (Check::FootShear, Footing::OnABoard) => punch(context, survey, place, footing, spread),
        (Check::FootShear, _) => punch(context, survey, place, footing, sole),
        (Check::Heel, _) => heel(context, survey, place),
        (Check::FallThrough, _) => stumble(context, survey, place),
        _ => walk_board(context, survey, place, [1.0; 2]),
    };
    let mut found = Vec::new();
    let mut untried = Vec::new();
    for (check, footing) in OF_A_FOOT.into_iter().filter(|(check, footing)| asked(*check, *footing)) {
        match make(check, footing) {
            Ok(list) => found.extend(list),
            Err(why) => untried.push((check, footing, why)),
        }
    }
    (found, untried)
}

/// Stack of skins over the core at a place, as one bending plate, with its lay-up for stresses.
pub(super) fn skin_plate(
    context: &Context<'_>,
    place: &FootPlace<'_>,
    time: Time,
) -> Result<Option<(PlateD, LayUp)>, String> {
    plate_of(context, place, time, Role::Outer)
}

/// What the foam lies on: the skins below it, free to move, or nothing where they are gone.
pub(super) fn below(context: &Context<'_>, place: &FootPlace<'_>) -> Result<Below, String> {
    let lower = plate_of(context, place, Time::Fresh, Role::Inner)?;
    Ok(lower.map_or(Below::Nothing, |(plate, _)| Below::Skin(plate)))
}

fn plate_of(
    context: &Context<'_>,
    place: &FootPlace<'_>,
    time: Time,
    role: Role,
) -> Result<Option<(PlateD, LayUp)>, String> {
    let moduli: Vec<_> = (0..context.roof.layers.len()).map(|i| *context.moduli(i, time)).collect();
    let alone: PanelState = place
        .state
        .iter()
        .zip(&context.roof.layers)
        .map(|(s, l)| if l.role == role { *s } else { LayerState { stiffness: 0.0, ..*s } })
        .collect();
    let lay_up = crate::model::lay_up(context.roof, &moduli, &alone, place.x, time, None)
        .map_err(|e| e.to_string())?;
    Ok(lay_up.map(|lay_up| {
        let d = lay_up.laminate.bending_free_si();
        let heights = lay_up.laminate.heights();
        let on_foam = if role == Role::Outer { heights.first() } else { heights.last() };
        let plate = PlateD {
            shear: lay_up.laminate.shear_si(),
            // Half the skin on the foam: of several the neutral plane lies farther off, and the foam would help more.
            over: on_foam.map_or(0.0, |z| z[1].value - z[0].value) / 2.0,
            ..PlateD::thin(d.xx, d.yy, d.xy, d.ss)
        };
        (plate, lay_up)
    }))
}

/// The foam right under the skins: its modulus, Poisson's ratio, depth, and what is left of its crush strength.
pub(super) struct Foam {
    pub layer: usize,
    pub e: f64,
    pub nu: f64,
    pub depth: f64,
    /// Characteristic crushing stress, what is left of it.
    pub crush: f64,
    /// The same of the sound foam, with its source.
    pub known: Known,
}

pub(super) fn foam(context: &Context<'_>, place: &FootPlace<'_>) -> Result<Foam, String> {
    let layer = (0..context.roof.layers.len())
        .find(|i| context.roof.layers[*i].role == Role::Core)
        .ok_or("there is no foam core under the skin")?;
    let name = &context.roof.layers[layer].name;
    let state = &place.state[layer];
    if state.slot >= 1.0 || state.stiffness <= 0.0 {
        return Err(format!("the {name} is missing there: what stands over a void is not worked out"));
    }
    if state.slot > 0.0 {
        return Err(format!("a slot is cut into the {name} there: what stands over it is not worked out"));
    }
    let known = context.strengths[layer]
        .crush
        .as_ref()
        .ok_or_else(|| format!("no crushing stress is known for the {name}"))?;
    let levels = context.roof.levels(place.x);
    Ok(Foam {
        layer,
        e: context.moduli(layer, Time::Fresh).e_x * state.stiffness,
        nu: context.moduli(layer, Time::Fresh).nu_xy,
        depth: levels[layer].1 - levels[layer].0,
        crush: known.value * state.crush,
        known: known.clone(),
    })
}

pub(super) fn board_plate(context: &Context<'_>, survey: &Survey) -> Result<PlateD, String> {
    board_of(survey, context.materials)
}

/// The walk board of a survey as a plate, its grain across.
pub(super) fn board_of(survey: &Survey, materials: Materials) -> Result<PlateD, String> {
    let board = &survey.person.board;
    let m = crate::model::moduli(&board.material, true, materials, Time::Fresh, 0.0)?;
    let t3 = board.thickness.value.powi(3) / 12.0;
    let (ex, ey) = (m.e_x_flexural, m.e_y_flexural);
    let nu = m.nu_xy * (m.e_y / m.e_x * ex / ey).sqrt();
    let nu_yx = nu * ey / ex;
    let q = 1.0 - nu * nu_yx;
    let shear = [m.g_xz, m.g_yz].map(|g| 5.0 / 6.0 * g * board.thickness.value);
    Ok(PlateD { shear, ..PlateD::thin(ex * t3 / q, ey * t3 / q, nu * ey * t3 / q, m.g_xy * t3) })
}

pub(super) fn weight(survey: &Survey) -> f64 {
    survey.person.mass.value * STANDARD_GRAVITY
}

pub(super) fn at(place: &FootPlace<'_>, check: Check, footing: Footing, part: String) -> Finding {
    Finding {
        check,
        part,
        load: "person".to_owned(),
        footing,
        person: None,
        x: place.x,
        y: place.y,
        demand: 0.0,
        limit: 0.0,
        si: "Pa",
        ratio: 0.0,
        basis: Basis::practice(""),
    }
}

/// Dent: the foam under a shoe sole of a walking person stays under its crushing stress over 1.4, on a hot roof.
fn dent(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    footing: Footing,
) -> Result<Vec<Finding>, String> {
    let foam = foam(context, place)?;
    let skin = skin_plate(context, place, Time::Fresh)?;
    let below = below(context, place)?;
    let load = weight(survey) * context.factors.walking;
    let [a, b] = context.factors.sole;
    let mut plates: Vec<PlateD> = skin.iter().map(|(d, _)| *d).collect();
    if footing == Footing::OnABoard {
        plates.push(board_plate(context, survey)?);
    }
    let stress = if plates.is_empty() {
        load / (a * b)
    } else {
        let layer = Layer::new(foam.e, foam.nu, foam.depth).map_err(|e| e.to_string())?;
        // A board dents in waves longer than the foam is deep: those press it hardest over a skin that does not move.
        let below = if footing == Footing::OnABoard { Below::Rigid } else { below };
        let patch = Patch { load, across: a, along: b };
        let foot = Pressing { plates, foam: layer, below, patch };
        context.pressed.dents.of(foot, dented)?
    };
    let limit = foam.crush * context.heat_strength(foam.layer, true) / context.factors.gamma_core_crush;
    let part = context.roof.layers[foam.layer].name.clone();
    let mut finding = at(place, Check::Dent, footing, part);
    finding.demand = stress;
    finding.limit = limit;
    finding.ratio = stress / limit * context.model_factor;
    finding.basis =
        basis(&foam.known, "compressive stress at 10 % strain over 1.4 (EN 14509, from memory), hot roof");
    Ok(vec![finding])
}

/// Largest stress in the foam under a sole, either way round, over what lies below and over a bed that does not move.
fn dented(foot: &Pressing) -> Result<f64, String> {
    let Patch { load, across: a, along: b } = foot.patch;
    let mut beds = vec![foot.below, Below::Rigid];
    beds.dedup();
    let mut worst: f64 = 0.0;
    for (across, along) in [(a, b), (b, a)] {
        for &below in &beds {
            let patch = Patch { load, across, along };
            let case = FootCase { plates: &foot.plates, foam: foot.foam, below, patch };
            worst = worst.max(foam_stress(&case).map_err(|e| e.to_string())?);
        }
    }
    Ok(worst)
}

/// Core shear round a foot: the load leaves over a perimeter half a depth outside its patch. The plate does not bear
/// patches as short as this.
fn punch(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    footing: Footing,
    patch: [f64; 2],
) -> Result<Vec<Finding>, String> {
    let foam = foam(context, place)?;
    let layer = &context.roof.layers[foam.layer];
    let known = context.strengths[foam.layer]
        .shear_core
        .as_ref()
        .ok_or_else(|| format!("no shear strength is known for the {}", layer.name))?;
    let state = &place.state[foam.layer];
    let f = known.value * state.strength * context.heat_strength(foam.layer, true)
        / (context.factors.panel * context.factors.gamma_core_shear);
    let load = weight(survey) * context.factors.walking;
    let limit =
        punch_through(si(f), si(foam.depth), si(patch[0]), si(patch[1])).map_err(|e| e.to_string())?;
    let mut finding = at(place, Check::FootShear, footing, format!("{} round the foot", layer.name));
    finding.si = "N";
    finding.demand = load;
    finding.limit = limit.value.value;
    finding.ratio = load / finding.limit * context.model_factor;
    finding.basis =
        basis(known, "perimeter half a depth outside the foot (practice), gamma_M 1.5 and 1.5, hot roof");
    Ok(vec![finding])
}

/// Heel: the skin's bending under a small hard foot, the foam yielding at its crushing stress, by as much more as a lower
/// skin that moves lets it bend while the foam is elastic ([`OnRigidBed::swayed`]).
///
/// Yielding is met by an evenly softened foam whose peak stress is just the crushing stress. That spreads the dent
/// wider and bends the skin more than foam that yields only where it must: on the safe side, by a fifth to not quite
/// twice on a bed of springs that yield.
fn heel(context: &Context<'_>, survey: &Survey, place: &FootPlace<'_>) -> Result<Vec<Finding>, String> {
    let bent = under_heel(context, place, weight(survey))?;
    let moments = bent.rigid.swayed(bent.moving);
    skin_bending(context, place, &bent.plate, &bent.lay_up, moments)
}

/// The skin under a heel, with what bends it.
pub(super) struct UnderHeel {
    pub plate: PlateD,
    pub lay_up: LayUp,
    pub rigid: OnRigidBed,
    /// Its moments on sound foam over a lower skin that moves, across and along.
    pub moving: [f64; 2],
}

/// The heel of somebody of this weight, N, pressed in.
///
/// # Errors
/// In words: no foam, no skin, foam that yields everywhere.
pub(super) fn under_heel(
    context: &Context<'_>,
    place: &FootPlace<'_>,
    weight: f64,
) -> Result<UnderHeel, String> {
    let foam = foam(context, place)?;
    let Some((plate, lay_up)) = skin_plate(context, place, Time::Fresh)? else {
        return Err("no skin is left over the foam there".to_owned());
    };
    let load = weight.max(context.factors.heel_force);
    let side = context.factors.heel_side;
    let patch = Patch { load, across: side, along: side };
    let layer = Layer::new(foam.e, foam.nu, foam.depth).map_err(|e| e.to_string())?;
    let below = below(context, place)?;
    let heel = Pressing { plates: vec![plate], foam: layer, below, patch };
    let (rigid, moving) = context.pressed.heels.of((heel, foam.crush), heel_pressed)?;
    Ok(UnderHeel { plate, lay_up, rigid, moving })
}

fn heel_pressed((heel, yields_at): &(Pressing, f64)) -> Result<(OnRigidBed, [f64; 2]), String> {
    let Pressing { plates, foam, below, patch } = heel;
    let press = |below: Below, e: f64| {
        let foam = Layer::new(e, foam.nu, foam.depth).map_err(|e| e.to_string())?;
        let dent = indent(&FootCase { plates, foam, below, patch: *patch }).map_err(|e| e.to_string())?;
        Ok((dent.foam_stress, dent.moments[0].largest()))
    };
    let (_, moving) = press(*below, foam.e)?;
    let rigid = yielded(foam.e, *yields_at, |e| press(Below::Rigid, e))?;
    Ok((rigid, moving))
}

/// The skin's moments under a heel on a bed that does not move, across and along.
#[derive(Debug, Clone, Copy)]
pub(super) struct OnRigidBed {
    /// On sound foam.
    pub sound: [f64; 2],
    /// On foam softened until it just yields.
    pub yielding: [f64; 2],
}

impl OnRigidBed {
    /// Raised by what the sound foam on a lower skin that moves bends the upper one by beside that: `moving` there. Only the
    /// foam under the heel yields; what shears between the skins lies round it, and stays elastic.
    pub(super) fn swayed(&self, moving: [f64; 2]) -> [f64; 2] {
        let more = self.sway(moving);
        [0, 1].map(|d| self.yielding[d] * more[d])
    }

    /// By how much: never less than one.
    pub(super) fn sway(&self, moving: [f64; 2]) -> [f64; 2] {
        // What is no number stays none.
        [0, 1].map(|d| if moving[d] <= self.sound[d] { 1.0 } else { moving[d] / self.sound[d] })
    }
}

/// The skin's moments on a foam of modulus `e`, Pa, softened until it just yields at `crush`, Pa; `press` gives foam stress
/// and moments for a modulus.
pub(super) fn yielded(
    mut e: f64,
    crush: f64,
    press: impl Fn(f64) -> Result<(f64, [f64; 2]), String>,
) -> Result<OnRigidBed, String> {
    let (mut stress, sound) = press(e)?;
    let mut moments = sound;
    for _ in 0..YIELD_STEPS {
        let over = stress / crush;
        if over <= 1.0 {
            break;
        }
        // The peak goes with the square root of the modulus, or less under a wide pad: each step falls a little short.
        e /= over.powi(2).min(100.0);
        (stress, moments) = press(e)?;
    }
    if stress > crush * 1.001 {
        // So soft a foam that no bed is left to speak of: the skin alone does not carry the heel.
        return Err("the foam yields everywhere under a heel".to_owned());
    }
    Ok(OnRigidBed { sound, yielding: moments })
}

/// Findings of the skins bent by these moments per width, across and along, and with the panel.
pub(super) fn skin_bending(
    context: &Context<'_>,
    place: &FootPlace<'_>,
    plate: &PlateD,
    lay_up: &LayUp,
    moments: [f64; 2],
) -> Result<Vec<Finding>, String> {
    let curvature = [moments[0] / plate.d11, moments[1] / plate.d22].map(|k| WITH_THE_PANEL * k);
    let mut findings = Vec::new();
    for (index, &layer) in lay_up.layer_of.iter().enumerate() {
        let Some(faces) = lay_up.laminate.layer_stress_si(
            index,
            neutral(lay_up, curvature),
            [curvature[0], curvature[1], 0.0],
        ) else {
            continue;
        };
        let (gamma, why) = context.gamma_skin(layer);
        for (d, known) in context.strengths[layer].bending.iter().enumerate() {
            let known = known.as_ref().ok_or_else(|| {
                format!("no bending strength is known for the {}", context.roof.layers[layer].name)
            })?;
            let demand = faces[0][d].abs().max(faces[2][d].abs());
            let limit = known.value * place.state[layer].strength * context.factors.k_mod_short / gamma;
            let mut finding = at(place, Check::Heel, Footing::Bare, context.roof.layers[layer].name.clone());
            finding.demand = demand;
            finding.limit = limit;
            finding.ratio = demand / limit * context.model_factor;
            finding.basis = basis(known, why);
            findings.push(finding);
        }
    }
    Ok(findings)
}

/// Strain at the reference plane that leaves no force in the skins: they bend about their own neutral plane.
pub(super) fn neutral(lay_up: &LayUp, curvature: [f64; 2]) -> [f64; 3] {
    let [a, b, _] = lay_up.laminate.abd_si();
    a.solve(b.times([curvature[0], curvature[1], 0.0])).map(|e| -e)
}

/// Fall through: punching and bending of the strongest skin that is there under a stumbling person.
pub(super) fn stumble(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
) -> Result<Vec<Finding>, String> {
    let foam = foam(context, place)?;
    let load = weight(survey) * context.factors.stumble;
    let [a, b] = context.factors.sole;
    let mut skins = Vec::new();
    let mut name = String::new();
    for (i, layer) in context.roof.layers.iter().enumerate().filter(|(_, l)| l.role != Role::Core) {
        let state = &place.state[i];
        if state.stiffness <= 0.0 || state.strength <= 0.0 {
            continue;
        }
        let s = &context.strengths[i];
        let (Some(shear), Some(bx), Some(by)) = (&s.shear_panel, &s.bending[0], &s.bending[1]) else {
            return Err(format!("no shear or bending strength is known for the {}", layer.name));
        };
        let (gamma, _) = context.gamma_skin(i);
        // A stumble is over in a moment.
        let safe = state.strength * context.factors.k_mod_instantaneous / (context.factors.panel * gamma);
        let levels = context.roof.levels(place.x);
        let skin = SkinUnderFoot {
            kind: context.skin_kind(i),
            thickness: si(levels[i].1 - levels[i].0),
            panel_shear: si(shear.value * safe),
            bending_across: si(bx.value * safe),
            bending_along: si(by.value * safe),
        };
        let crush = si(foam.crush / context.factors.gamma_core_crush);
        let result = fall_through(&skin, crush, si(a), si(b)).map_err(|e| e.to_string())?;
        if skins.iter().all(|k: &crate::strength::fall_through::FallThrough| {
            k.limit.value.value < result.limit.value.value
        }) {
            name.clone_from(&layer.name);
        }
        skins.push(result);
    }
    let mut finding = at(place, Check::FallThrough, Footing::Bare, String::new());
    finding.si = "N";
    finding.demand = load;
    match strongest(skins) {
        Ok(limit) => {
            finding.part = name;
            finding.limit = limit.limit.value.value;
            finding.ratio = load / finding.limit * context.model_factor;
            finding.basis = limit.limit.basis;
        }
        Err(_) => {
            finding.part = "panel".to_owned();
            finding.ratio = f64::INFINITY;
            finding.basis = Basis::computed("no skin is left there: nothing holds a foot");
        }
    }
    Ok(vec![finding])
}

#[cfg(test)]
mod tests;
