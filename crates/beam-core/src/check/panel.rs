//! The panel as a whole: skins, wrinkling, core shear.
//!
//! Lasting and passing parts of a demand use up their own limits, and the used parts add.

use super::context::{CaseState, Context, basis};
use super::finding::{Check, Finding};
use crate::loads::Footing;
use crate::model::{LayerState, Role, Time};
use crate::quantity::si;
use crate::response::{LayerPlace, Layout, SkinStress, SlotPlace};
use crate::strength::Basis;
use crate::strength::void::skin_moments;
use section_tables::Property;

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
    layout: &Layout,
    case: &CaseState<'_>,
) -> (Vec<Finding>, Vec<Unknown>) {
    let mut worst: Vec<Finding> = Vec::new();
    let mut unknown: Vec<Unknown> = Vec::new();
    let mut keep = |finding: Finding| match worst
        .iter_mut()
        .find(|w| w.check == finding.check && w.part == finding.part)
    {
        Some(kept) if kept.ratio >= finding.ratio => {}
        Some(kept) => *kept = finding,
        None => worst.push(finding),
    };
    for (place, (years, top)) in layout.skins.iter().zip(case.years.skins.iter().zip(&case.top.skins)) {
        let state = &layout.states[place.state][place.layer];
        match skin(context, case, place, state, years, top) {
            Ok(finding) => keep(finding),
            Err(what) if !unknown.contains(&what) => unknown.push(what),
            Err(_) => {}
        }
        if let Some(finding) = wrinkling(context, case, place, &layout.states[place.state], years, top) {
            keep(finding);
        }
    }
    for (place, (years, top)) in layout.cores.iter().zip(case.years.cores.iter().zip(&case.top.cores)) {
        let state = &layout.states[place.state][place.layer];
        match core_shear(context, case, place, state, years, top) {
            Ok(finding) => keep(finding),
            Err(what) if !unknown.contains(&what) => unknown.push(what),
            Err(_) => {}
        }
    }
    for (place, (years, top)) in layout.slots.iter().zip(case.years.slots.iter().zip(&case.top.slots)) {
        match slot(context, layout, case, place, years, top) {
            Ok(findings) => findings.into_iter().for_each(&mut keep),
            Err(what) if !unknown.contains(&what) => unknown.push(what),
            Err(_) => {}
        }
    }
    (worst, unknown)
}

fn finding(
    context: &Context<'_>,
    case: &CaseState<'_>,
    check: Check,
    place: &LayerPlace,
    used: Used,
    basis: Basis,
) -> Finding {
    Finding {
        check,
        part: context.roof.layers[place.layer].name.clone(),
        load: case.name.to_owned(),
        footing: case.footing,
        x: place.x,
        y: place.y,
        demand: used.demand,
        limit: used.limit(),
        si: "Pa",
        ratio: used.ratio * context.model_factor,
        basis,
    }
}

/// A demand and the share of the limits it uses up.
struct Used {
    demand: f64,
    ratio: f64,
    /// Limit under a passing load, told where nothing is demanded.
    passing: f64,
}

impl Used {
    fn limit(&self) -> f64 {
        if self.demand > 0.0 && self.ratio > 0.0 { self.demand / self.ratio } else { self.passing }
    }
}

/// Membrane and own bending per direction, shear by quadratic sum.
fn skin(
    context: &Context<'_>,
    case: &CaseState<'_>,
    place: &LayerPlace,
    state: &LayerState,
    years: &SkinStress,
    top: &SkinStress,
) -> Result<Finding, Unknown> {
    let strengths = &context.strengths[place.layer];
    let layer = &context.roof.layers[place.layer];
    let check = if layer.role == Role::Inner { Check::InnerSkin } else { Check::OuterSkin };
    let lacking = |what: &str| Unknown { check, part: layer.name.clone(), what: what.to_owned() };
    let duration = context.skin_duration(place.layer, case);
    let (gamma, gamma_basis) = context.gamma_skin(place.layer);
    let safe = context.factors.panel * gamma;
    let limits = |known: f64| {
        let k = known * state.strength / safe;
        (k * duration.years, k * duration.top)
    };
    let share = |stress: f64, limit: f64| if stress == 0.0 { 0.0 } else { stress.abs() / limit };
    let mut worst: Option<(Used, Basis)> = None;
    for d in 0..2 {
        let (my, mt) = (years.middle[d], case.dynamic * top.middle[d]);
        let (by, bt) = (years.bending[d], case.dynamic * top.bending[d]);
        let pulled = my + mt > 0.0;
        let direct = if pulled { &strengths.tension[d] } else { &strengths.compression[d] };
        let direct = direct
            .as_ref()
            .ok_or_else(|| lacking(if pulled { "tension strength" } else { "compression strength" }))?;
        let bending = strengths.bending[d].as_ref().ok_or_else(|| lacking("bending strength"))?;
        let (f_years, f_top) = limits(direct.value);
        let (b_years, b_top) = limits(bending.value);
        let ratio = share(my, f_years) + share(mt, f_top) + share(by, b_years) + share(bt, b_top);
        if worst.as_ref().is_none_or(|(w, _)| ratio > w.ratio) {
            let used = Used { demand: (my + mt).abs() + (by + bt).abs(), ratio, passing: f_top };
            worst = Some((used, basis(direct, gamma_basis)));
        }
    }
    let (mut used, why) = worst.ok_or_else(|| lacking("strength"))?;
    let (sy, st) = (years.middle[2], case.dynamic * top.middle[2]);
    if sy != 0.0 || st != 0.0 {
        let shear = strengths.shear_panel.as_ref().ok_or_else(|| lacking("shear strength in its plane"))?;
        let (s_years, s_top) = limits(shear.value);
        used.ratio = used.ratio.hypot(share(sy, s_years) + share(st, s_top));
    }
    Ok(finding(context, case, check, place, used, why))
}

/// Wrinkling of a skin that lies bonded on foam, by its flexural modulus in each direction:
/// `0.5 (E_f E_c G_c)^(1/3)`, `r_max + r_min^3 <= 1`. `None` where no bonded foam is beside it: it does not wrinkle
/// on foam there.
fn wrinkling(
    context: &Context<'_>,
    case: &CaseState<'_>,
    place: &LayerPlace,
    states: &[LayerState],
    years: &SkinStress,
    top: &SkinStress,
) -> Option<Finding> {
    let core = context.core_beside(place.layer)?;
    if core.abs_diff(place.layer) != 1 {
        return None;
    }
    let (skin_state, core_state) = (&states[place.layer], &states[core]);
    if !(skin_state.bonded && core_state.bonded && core_state.stiffness > 0.0 && core_state.slot < 1.0) {
        return None;
    }
    let critical = |time: Time| {
        let (f, c) = (context.moduli(place.layer, time), context.moduli(core, time));
        [f.e_x_flexural, f.e_y_flexural].map(|e| {
            let product = e * skin_state.stiffness * c.e_x * c.g_xz * core_state.stiffness.powi(2);
            0.5 * product.cbrt() / (context.factors.panel * context.factors.gamma_wrinkling)
        })
    };
    let (aged, fresh) = (critical(Time::Aged), critical(if case.hot { Time::Hot } else { Time::Fresh }));
    let compressed = |s: f64| (-s).max(0.0);
    let used: [f64; 2] = [0, 1].map(|d| {
        let faces = |s: &SkinStress| compressed(s.middle[d]);
        faces(years) / aged[d] + case.dynamic * faces(top) / fresh[d]
    });
    let (more, less) = if used[0] >= used[1] { (0, 1) } else { (1, 0) };
    let demand = compressed(years.middle[more]) + case.dynamic * compressed(top.middle[more]);
    let used = Used { demand, ratio: used[more] + used[less].powi(3), passing: fresh[more] };
    let why = Basis::published(
        "Hoff and Mautner 1945, 0.5 (Ef Ec Gc)^(1/3) with the flexural modulus of the skin; gamma_M 1.25 (EN 14509, from memory) and 1.5",
    );
    Some(finding(context, case, Check::Wrinkling, place, used, why))
}

/// Shear of the core: `tau_years/(k f) + tau_top/f`.
fn core_shear(
    context: &Context<'_>,
    case: &CaseState<'_>,
    place: &LayerPlace,
    state: &LayerState,
    years: &[f64; 2],
    top: &[f64; 2],
) -> Result<Finding, Unknown> {
    let layer = &context.roof.layers[place.layer];
    let Some(known) = &context.strengths[place.layer].shear_core else {
        return Err(Unknown {
            check: Check::CoreShear,
            part: layer.name.clone(),
            what: "shear strength".into(),
        });
    };
    let safe = context.factors.panel * context.factors.gamma_core_shear;
    let f = known.value * state.strength * context.heat_strength(place.layer, case.hot) / safe;
    let lasting = context.ratio(place.layer, Property::LongTermShear, context.factors.long_term_core_shear);
    let (long, short) = (years[0].hypot(years[1]), case.dynamic * top[0].hypot(top[1]));
    let ratio = if long + short == 0.0 { 0.0 } else { long / (lasting * f) + short / f };
    let used = Used { demand: long + short, ratio, passing: f };
    let why =
        basis(known, "gamma_M 1.5 (EN 14509) and 1.5, lasting part against a reduced strength, from memory");
    Ok(finding(context, case, Check::CoreShear, place, used, why))
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
        let lacking = |part: &str, what: &str| Unknown { check: Check::Slot, part: part.to_owned(), what: what.to_owned() };
        let moments = |q: f64| {
            skin_moments(si(q), si(outer.0), si(inner.0), si(place.size[d]))
                .map_err(|_| lacking("panel", "skin on one side of a slot"))
        };
        let (long, short) = (moments(years[d])?, moments(case.dynamic * top[d])?);
        for (n, (_, depth, layer)) in [outer, inner].into_iter().enumerate() {
            let Some(layer) = layer else { continue };
            let name = &context.roof.layers[layer].name;
            let known = context.strengths[layer].bending[d].as_ref().ok_or_else(|| lacking(name, "bending strength"))?;
            let duration = context.skin_duration(layer, case);
            let (gamma, why) = context.gamma_skin(layer);
            let limit = known.value * state[layer].strength / (context.factors.panel * gamma);
            let stress = |m: f64| 6.0 * m.abs() / (depth * depth);
            let (s_long, s_short) = (stress(long[n].value), stress(short[n].value));
            let ratio = s_long / (limit * duration.years) + s_short / (limit * duration.top);
            let used = Used { demand: s_long + s_short, ratio, passing: limit * duration.top };
            let at = LayerPlace { layer, x: place.x, y: place.y, state: place.state };
            found.push(finding(context, case, Check::Slot, &at, used, basis(known, why)));
        }
    }
    Ok(found)
}
