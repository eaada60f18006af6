//! What the walls must pull down where the roof would lift: in rebound, and in wind.

use super::context::Context;
use super::finding::{Check, Finding};
use crate::loads::{Footing, unit_rect};
use crate::model::{Rect, panel_weight};
use crate::quantity::{STANDARD_GRAVITY, si};
use crate::strength::hold_down::{concentrated, uniform};
use crate::strength::{Basis, OutOfRange};
use crate::survey::{LoadKind, Survey};

/// Share of the roof's own weight that is counted on against wind (ASCE 7, 0.6 D, from memory).
const COUNTED_ON: f64 = 0.6;
/// Places looked at each way for the heaviest and the lightest make-up.
const LOOKS: usize = 24;

/// Findings where the survey says how hard the walls hold.
///
/// # Errors
/// [`OutOfRange`]: a load beyond the walls.
pub(crate) fn hold_down_findings(context: &Context<'_>, survey: &Survey) -> Result<Vec<Finding>, OutOfRange> {
    let Some(limit) = survey.wall.hold_down else { return Ok(Vec::new()) };
    let roof = context.roof;
    let (span, middle) = (roof.span, roof.length / 2.0);
    let [lightest, _] = weights(context);
    let (lifted, x, y) = rebound_pull(context, survey)?;
    let finding = |load: &str, x: f64, y: f64, demand: f64| Finding {
        check: Check::HoldDown,
        part: "walls".to_owned(),
        load: load.to_owned(),
        footing: Footing::NotAFoot,
        person: None,
        x,
        y,
        demand,
        limit: limit.value,
        si: "N/m",
        // A hold of none holds nothing, and never comes out as no number.
        ratio: if demand > 0.0 { demand * context.model_factor / limit.value } else { 0.0 },
        basis: Basis::practice(
            "the survey's own hold-down; uplift to the side walls alone, a concentrated one by the long strip (Timoshenko and Woinowsky-Krieger 1959, from memory)",
        ),
    };
    let name = if survey.unit.is_some() { "unit rebound" } else { "own weight rebound" };
    let mut out = vec![finding(name, x, y, lifted)];
    if let Some(wind) = survey.conditions.wind {
        let net = (wind.value - COUNTED_ON * lightest).max(0.0);
        out.push(finding("wind", 0.0, middle, uniform(si(net), si(span))?.value));
    }
    Ok(out)
}

/// What a metre of the side walls must pull down in rebound, N/m, and the place on a wall where a load pulls most.
///
/// # Errors
/// [`OutOfRange`]: a load beyond the walls.
pub(crate) fn rebound_pull(context: &Context<'_>, survey: &Survey) -> Result<(f64, f64, f64), OutOfRange> {
    let roof = context.roof;
    let (span, middle) = (roof.span, roof.length / 2.0);
    let [_, heaviest] = weights(context);
    let rebound = context.factors.rebound;
    let mut lifted = uniform(si(rebound * heaviest), si(span))?.value;
    let mut worst = (0.0, 0.0, middle);
    let unit = survey.unit.as_ref().and_then(|u| Some((unit_rect(u, survey)?, u.mass.value)));
    let fixed = survey.loads.iter().filter(|l| l.kind == LoadKind::Fixed);
    for (rect, mass) in fixed.map(|l| (Rect::of(&l.patch), l.mass.value)).chain(unit) {
        // To the nearer wall, and for the sum as if all came down at one place along it.
        let (x, y) = rect.centre();
        let near = x.min(span - x);
        let pull = concentrated(si(rebound * mass * STANDARD_GRAVITY), si(near), si(span))?.value;
        lifted += pull;
        if pull > worst.0 {
            worst = (pull, if x < span / 2.0 { 0.0 } else { span }, y);
        }
    }
    Ok((lifted, worst.1, worst.2))
}

/// Lightest and heaviest make-up with the braces spread over the roof, N/m2; the lightest without them.
fn weights(context: &Context<'_>) -> [f64; 2] {
    let roof = context.roof;
    let at = |i: usize, to: f64| (i as f64 + 0.5) / LOOKS as f64 * to;
    let places = (0..LOOKS).flat_map(|i| (0..LOOKS).map(move |j| (at(i, roof.span), at(j, roof.length))));
    let panel: Vec<f64> = places
        .filter(|(x, y)| !roof.is_open(*x, *y))
        .map(|(x, y)| panel_weight(roof, &roof.state_at(x, y), x))
        .collect();
    let braces: f64 = roof.braces.iter().map(|b| b.weight * (b.x1 - b.x0)).sum();
    let lightest = panel.iter().copied().fold(f64::INFINITY, f64::min).min(1e9);
    let heaviest = panel.iter().copied().fold(0.0, f64::max);
    [lightest, heaviest + braces / (roof.span * roof.length)]
}
