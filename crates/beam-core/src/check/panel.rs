//! The panel as a whole: skins, wrinkling, core shear.
//!
//! Lasting and passing parts of a demand use up their own limits, and the used parts add.

use super::context::{CaseState, Context, basis};
use super::finding::{Check, Finding, Numbers};
use super::panel_limits::{PanelLimits, Used};
use crate::model::{Role, Time};
use crate::quantity::si;
use crate::response::{LayerPlace, Layout, SlotPlace, is_worse};
use crate::strength::Basis;
use crate::strength::void::skin_moments;

/// How far round an opening's corner only the corner's own check speaks, in half core thicknesses.
const CORNER_REACH: f64 = 3.0;
/// How far out that check is read.
const CORNER_READ: f64 = 2.0;

/// A strength that a check needs and nobody knows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Unknown {
    pub check: Check,
    pub part: String,
    pub what: String,
}

/// Findings of one case, and what could not be judged for want of a strength.
pub(crate) fn panel_findings(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
) -> (Vec<Finding>, Vec<Unknown>) {
    let mut worst = Worst::default();
    let mut unknown: Vec<Unknown> = Vec::new();
    for (place, (years, top)) in layout.skins.iter().zip(case.years.skins.iter().zip(&case.top.skins)) {
        let top = &top.judged(limits.by_a_bare_foot(case, place.x, place.y));
        let near = limits.corner_distance(place);
        if near < CORNER_REACH {
            // The stress there grows without end: it is judged by its own check, read a little farther out.
            if (1.0..CORNER_READ).contains(&near)
                && let Ok(skin) = &limits.of(place.state, place.layer, case).skin
            {
                let used = skin.used(case, years, top);
                let ratio = used.ratio * limits.corner_factor(near);
                worst.keep(Check::OpeningCorner, place, &Used { ratio, ..used }, &limits.corner_basis);
            }
            continue;
        }
        let own = limits.of(place.state, place.layer, case);
        match &own.skin {
            Ok(skin) => worst.keep(skin.check, place, &skin.used(case, years, top), &skin.basis),
            Err(what) if !unknown.contains(what) => unknown.push(what.clone()),
            Err(_) => {}
        }
        if let Some(w) = &own.wrinkling {
            worst.keep(Check::Wrinkling, place, &w.used(case, years, top), &limits.wrinkling_basis);
        }
    }
    for (place, (years, top)) in layout.cores.iter().zip(case.years.cores.iter().zip(&case.top.cores)) {
        // Round a foot the plate is no picture of the core: that is checked by itself.
        let by_a_foot = case.feet.iter().any(|f| limits.near_foot(f, place.x, place.y));
        if by_a_foot || limits.corner_distance(place) < CORNER_REACH {
            continue;
        }
        match &limits.of(place.state, place.layer, case).core {
            Some(Ok(core)) => worst.keep(Check::CoreShear, place, &core.used(case, years, top), &core.basis),
            Some(Err(what)) if !unknown.contains(what) => unknown.push(what.clone()),
            _ => {}
        }
    }
    let mut found = worst.findings(context, case);
    for (place, (years, top)) in layout.slots.iter().zip(case.years.slots.iter().zip(&case.top.slots)) {
        match slot(context, layout, case, place, years, top) {
            Ok(findings) => findings.into_iter().for_each(|f| keep(&mut found, f)),
            Err(what) if !unknown.contains(&what) => unknown.push(what),
            Err(_) => {}
        }
    }
    (found, unknown)
}

fn keep(kept: &mut Vec<Finding>, finding: Finding) {
    match kept.iter_mut().find(|w| w.check == finding.check && w.part == finding.part) {
        Some(k) if !is_worse(finding.ratio, k.ratio) => {}
        Some(k) => *k = finding,
        None => kept.push(finding),
    }
}

/// The worst place of each check and layer.
#[derive(Default)]
pub(super) struct Worst<'a>(Vec<(Check, LayerPlace, Used, &'a Basis)>);

impl<'a> Worst<'a> {
    pub(super) fn keep(&mut self, check: Check, place: &LayerPlace, used: &Used, basis: &'a Basis) {
        match self.0.iter_mut().find(|(c, p, ..)| *c == check && p.layer == place.layer) {
            Some((_, _, kept, _)) if !is_worse(used.ratio, kept.ratio) => {}
            Some(entry) => *entry = (check, *place, *used, basis),
            None => self.0.push((check, *place, *used, basis)),
        }
    }

    pub(super) fn findings(self, context: &Context<'_>, case: &CaseState<'_>) -> Vec<Finding> {
        self.0
            .into_iter()
            .map(|(check, place, used, basis)| {
                finding(context, case, check, (place.layer, place.x, place.y), used, basis.clone())
            })
            .collect()
    }
}

fn finding(
    context: &Context<'_>,
    case: &CaseState<'_>,
    check: Check,
    (layer, x, y): (usize, f64, f64),
    used: Used,
    basis: Basis,
) -> Finding {
    case.finding(
        check,
        context.roof.layers[layer].name.clone(),
        (x, y),
        Numbers {
            demand: used.demand,
            limit: used.limit(),
            si: "Pa",
            ratio: used.ratio * context.model_factor,
        },
        basis,
    )
}

/// Bending of each skin at the sides of a slot that it bridges, by the shear force it passes on.
fn slot(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    place: &SlotPlace,
    years: &[f64; 2],
    top: &[f64; 2],
) -> Result<Vec<Finding>, Unknown> {
    let state = &layout.states[place.state];
    let levels = context.roof.levels(place.x);
    let side = |role: Role, d: usize| -> (f64, f64, Option<usize>) {
        let mut rigidity = 0.0;
        let mut depth = 0.0;
        let mut last = None;
        for (i, _) in context.roof.layers.iter().enumerate().filter(|(_, l)| l.role == role) {
            let (t, m) = (levels[i].1 - levels[i].0, context.moduli(i, Time::Fresh));
            let e = if d == 0 { m.e_x_flexural } else { m.e_y_flexural };
            if state[i].stiffness > 0.0 {
                rigidity += e * state[i].stiffness * t.powi(3) / 12.0;
                depth += t;
                last = Some(i);
            }
        }
        (rigidity, depth, last)
    };
    let mut found = Vec::new();
    for d in 0..2 {
        let (outer, inner) = (side(Role::Outer, d), side(Role::Inner, d));
        let lacking = |part: &str, what: &str| Unknown {
            check: Check::Slot,
            part: part.to_owned(),
            what: what.to_owned(),
        };
        let moments = |q: f64| {
            skin_moments(si(q), si(outer.0), si(inner.0), si(place.size[d]))
                .map_err(|_| lacking("panel", "skin on one side of a slot"))
        };
        let (long, short) = (moments(years[d])?, moments(case.dynamic * top[d])?);
        for (n, (_, depth, layer)) in [outer, inner].into_iter().enumerate() {
            let Some(layer) = layer else { continue };
            let name = &context.roof.layers[layer].name;
            let known = context.strengths[layer].bending[d]
                .as_ref()
                .ok_or_else(|| lacking(name, "bending strength"))?;
            let duration = context.skin_duration(layer, case.lasting, case.hot);
            let (gamma, why) = context.gamma_skin(layer);
            let limit = known.value * state[layer].strength / (context.factors.panel * gamma);
            let stress = |m: f64| 6.0 * m.abs() / (depth * depth);
            let (s_long, s_short) = (stress(long[n].value), stress(short[n].value));
            let ratio = s_long / (limit * duration.years) + s_short / (limit * duration.top);
            let used = Used { demand: s_long + s_short, ratio, passing: limit * duration.top };
            let at = (layer, place.x, place.y);
            found.push(finding(context, case, Check::Slot, at, used, basis(known, why)));
        }
    }
    Ok(found)
}
