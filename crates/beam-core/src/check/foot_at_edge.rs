//! A foot right at the edge of an opening: the sole's dent, the heel, a stumble.
//!
//! The edge is taken as free. A frame holds it up, and bends the skin over its own edge no harder than a free edge is
//! bent along itself (for a strip on springs both are 0.32 P/beta, Hetenyi 1946, from memory): so a framed edge stands
//! no worse, and what holds free holds framed. Whoever goes bare steps there too; on a board nobody is asked to.

use super::context::Context;
use super::finding::Check;
use super::foot::{FootPlace, below, foam, skin_bending, skin_plate, stumble, weight, yielded};
use crate::local::{Below, Layer, Patch, dent_at_edge};
use crate::model::{LayerState, Rect, Time};
use crate::survey::Survey;

/// Places looked at along each side of an opening.
const LOOKS: usize = 12;
/// Of what a stumble takes inside the roof this share is left at its edge: half the sides and half the hinges (judged).
const AT_THE_EDGE: f64 = 0.5;
/// How far outside the side the make-up is read, m.
const BESIDE: f64 = 1e-3;

/// The most that a foot uses at an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct AtEdge {
    pub check: Check,
    pub ratio: f64,
    pub x: f64,
    pub y: f64,
}

/// The worst of a sole and a heel of the person, bare, at any place along the sides of an opening.
///
/// # Errors
/// Why one could not be judged.
pub(crate) fn foot_at_edge(
    context: &Context<'_>,
    survey: &Survey,
    opening: &Rect,
) -> Result<Option<AtEdge>, String> {
    let roof = context.roof;
    let mut worst: Option<AtEdge> = None;
    let mut seen = Vec::new();
    for look in 0..LOOKS {
        let part = (look as f64 + 0.5) / LOOKS as f64;
        let x = opening.x0 + part * (opening.x1 - opening.x0);
        let y = opening.y0 + part * (opening.y1 - opening.y0);
        for (x, y, turned) in [
            (opening.x0 - BESIDE, y, false),
            (opening.x1 + BESIDE, y, false),
            (x, opening.y0 - BESIDE, true),
            (x, opening.y1 + BESIDE, true),
        ] {
            if !(x > 0.0 && x < roof.span && y > 0.0 && y < roof.length) || roof.is_open(x, y) {
                continue;
            }
            let state = roof.state_at(x, y);
            let known = seen.contains(&(state.clone(), turned));
            if known && !roof.is_tapered() {
                continue;
            }
            if state.iter().any(LayerState::is_cut) {
                return Err("a joint of a skin runs out at the edge of the opening".to_owned());
            }
            let one = one_place(context, survey, &FootPlace { state: &state, x, y, curvature: 0.0 }, turned)?;
            if worst.is_none_or(|w| one.ratio > w.ratio) {
                worst = Some(one);
            }
            seen.push((state, turned));
        }
    }
    Ok(worst)
}

/// `turned`: the edge runs across, so that along is square to it.
fn one_place(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    turned: bool,
) -> Result<AtEdge, String> {
    let foam = foam(context, place)?;
    let Some((plate, lay_up)) = skin_plate(context, place, Time::Fresh)? else {
        return Err("no skin is left over the foam there".to_owned());
    };
    let facing = if turned { plate.turned() } else { plate };
    let below = match below(context, place)? {
        Below::Skin(lower) if turned => Below::Skin(lower.turned()),
        below => below,
    };
    let press = |below: Below, e: f64, load: f64, [across, along]: [f64; 2]| {
        let layer = Layer::new(e, foam.nu, foam.depth).map_err(|e| e.to_string())?;
        let patch = Patch { load, across, along };
        let dent = dent_at_edge(facing, &layer, below, patch, 0.0).map_err(|e| e.to_string())?;
        Ok::<_, String>((dent.foam_stress, [dent.moment_across, dent.moment_along]))
    };
    let limit = foam.crush * context.heat_strength(foam.layer, true) / context.factors.gamma_core_crush;
    let [a, b] = context.factors.sole;
    let heel_load = weight(survey).max(context.factors.heel_force);
    let through = worst_of(stumble(context, survey, place)?.iter().map(|f| f.ratio / AT_THE_EDGE));
    let side = [context.factors.heel_side; 2];
    let on_rigid = yielded(foam.e, foam.crush, |e| press(Below::Rigid, e, heel_load, side))?;
    let over = |below: Below| -> Result<AtEdge, String> {
        let mut dent: f64 = 0.0;
        for sole in [[a, b], [b, a]] {
            let (stress, _) = press(below, foam.e, weight(survey) * context.factors.walking, sole)?;
            dent = dent.max(stress / limit * context.model_factor);
        }
        let heel = if below == Below::Rigid {
            on_rigid.yielding
        } else {
            on_rigid.swayed(press(below, foam.e, heel_load, side)?.1)
        };
        let moments = if turned { [heel[1], heel[0]] } else { heel };
        let heel = worst_of(skin_bending(context, place, &plate, &lay_up, moments)?.iter().map(|f| f.ratio));
        let (check, ratio) = [(Check::Dent, dent), (Check::Heel, heel), (Check::FallThrough, through)]
            .into_iter()
            .fold((Check::Dent, 0.0), |most, one| if one.1 > most.1 { one } else { most });
        Ok(AtEdge { check, ratio, x: place.x, y: place.y })
    };
    // What fails on a bed that does not move fails; what a lower skin adds to that is not worked out.
    let rigid = over(Below::Rigid)?;
    if rigid.ratio > 1.0 {
        return Ok(rigid);
    }
    let moving = over(below)?;
    Ok(if moving.ratio > rigid.ratio { moving } else { rigid })
}

/// The largest ratio; what is no number is the worst there is.
fn worst_of(ratios: impl Iterator<Item = f64>) -> f64 {
    ratios.map(|r| if r.is_nan() { f64::INFINITY } else { r }).fold(0.0, f64::max)
}
