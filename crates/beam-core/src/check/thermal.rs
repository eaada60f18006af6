//! Heat and cold in a brace glued to a skin: the ends of the glue, the tube, and the skin beside it.
//!
//! Metal lengthens more than ply. In the middle of a brace both are held to one length, and the tube, the skin and the
//! distance between them pay for it; at the ends the difference comes out as slip, and the glue takes all of it there.
//!
//! The end's flow is an elastic peak held against a strength that was tested as a mean. Below it the ends hold; beyond
//! it nobody can say: glue creeps and a peak is short, but a brittle line may also open from its ends.

use super::context::{CaseState, Context};
use super::finding::{Check, Finding, Numbers, RATIO_CAP};
use super::panel_limits::PanelLimits;
use super::tube::factored;
use super::{Materials, TubeStrength, Unknown, panel_findings};
use crate::model::{IdealBrace, IdealRoof, MemberKind, Role, Time};
use crate::quantity::si;
use crate::response::{BraceForces, BracePlace, Layout, Response, SkinStress, is_worse};
use crate::strength::thermal_joint::{Partner, ThermalJoint};
use crate::strength::{Basis, BasisKind};
use crate::survey::LayerMaterial;
use section_tables::Property;

/// How near to an end the load's own flow is added to that of heat, as a share of the brace's length.
const NEAR_END: f64 = 0.1;
/// How far to each side a skin is strained with its brace, as a share of the brace's length (shear lag, EN 1995-1-1 Table
/// 9.1, from memory).
const BESIDE: f64 = 0.1;

/// What unlike strains do to one brace.
pub(super) struct Strained {
    /// Flow in the glue at both ends, N/m.
    flow: f64,
    /// Axial force in the tube, tension positive, N.
    axial: f64,
    /// Moment in the tube, N m: as if the tube alone bent.
    moment: f64,
    /// Strain of the skin beside it.
    skin: f64,
    /// Whether the skin is the outer one, the inner one.
    skins: [bool; 2],
}

/// Findings of heat or cold in every glued brace, in one case.
pub(crate) fn thermal_findings(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
    tubes: &[Result<TubeStrength, String>],
) -> (Vec<Finding>, Vec<Unknown>) {
    let (mut found, mut unknown) = (Vec::new(), Vec::new());
    let Some((load, warmer)) = temperature(context, case) else { return (found, unknown) };
    for (index, brace) in context.roof.braces.iter().enumerate().filter(|(_, b)| b.bonded) {
        if !matches!(brace.kind, MemberKind::AluminiumTube { .. }) {
            continue;
        }
        let strained = match &of_braces(context, case.hot, warmer)[index] {
            Ok(strained) => strained,
            Err(what) => {
                let part = format!("brace {}", brace.name);
                unknown.push(Unknown { check: Check::GlueEnds, part, what: what.clone() });
                continue;
            }
        };
        let told = CaseState { name: load, ..*case };
        found.extend(ends(context, layout, &told, index, strained));
        if let Ok(tube) = &tubes[index] {
            found.extend(tube_finding(context, layout, &told, index, tube, strained));
        }
        found.extend(skin_findings(context, limits, layout, &told, brace, strained));
    }
    (found, unknown)
}

/// Axial force in the tube of a glued brace, and the size of its moment, by the heat or cold of a case.
pub(crate) fn heat_in_tube(context: &Context<'_>, case: &CaseState<'_>, brace: usize) -> Option<BraceForces> {
    let (_, warmer) = temperature(context, case).filter(|_| context.roof.braces[brace].bonded)?;
    let strained = of_braces(context, case.hot, warmer)[brace].as_ref().ok()?;
    Some(BraceForces { axial: strained.axial, moment: strained.moment, ..BraceForces::default() })
}

/// The load's name and how much warmer than at gluing; a cold case is any that is not hot, where a cold is surveyed.
fn temperature<'a>(context: &Context<'_>, case: &CaseState<'a>) -> Option<(&'a str, f64)> {
    if case.hot {
        Some((case.name, context.roof_hot - context.glued_at))
    } else {
        context.cold.map(|cold| ("cold", cold - context.glued_at))
    }
}

/// Strain per kelvin of a layer, as far from the tube's as the bracket has it.
fn expansion(context: &Context<'_>, layer: usize) -> Result<f64, String> {
    let of_tube = context.factors.expansion_aluminium;
    let material = &context.roof.layers[layer].material;
    let LayerMaterial::Table(row) = material else {
        return Err(format!("thermal expansion of {}", material.id()));
    };
    let v = row
        .get(Property::ThermalExpansion)
        .ok_or_else(|| format!("thermal expansion of {}", material.id()))?;
    Ok(match context.materials {
        Materials::Default => v.default,
        _ if (v.low - of_tube).abs() > (v.high - of_tube).abs() => v.low,
        _ => v.high,
    })
}

/// Which skins a brace is glued to: outer, inner.
fn glued_to(roof: &IdealRoof, brace: &IdealBrace) -> [bool; 2] {
    if (brace.z_glue - brace.z_axis).abs() < 1e-9 {
        return [true, true];
    }
    let cores: Vec<(f64, f64)> = roof
        .layers
        .iter()
        .zip(roof.levels(roof.span / 2.0))
        .filter(|(l, _)| l.role == Role::Core)
        .map(|(_, level)| level)
        .collect();
    let (Some(top), Some(bottom)) = (cores.first(), cores.last()) else { return [true, false] };
    let outer = brace.z_glue > (top.1 + bottom.0) / 2.0;
    [outer, !outer]
}

/// What heat, or cold, does to every brace: found once, the same in every case.
fn of_braces<'c>(context: &'c Context<'_>, hot: bool, warmer: f64) -> &'c [Result<Strained, String>] {
    let all = || context.roof.braces.iter().map(|brace| strained(context, brace, warmer)).collect();
    context.strained[usize::from(hot)].get_or_init(all)
}

fn strained(context: &Context<'_>, brace: &IdealBrace, warmer: f64) -> Result<Strained, String> {
    let roof = context.roof;
    let skins = glued_to(roof, brace);
    let levels = roof.levels(roof.span / 2.0);
    let (mut sheet, mut stretch, mut stiff, mut gives, mut arm) = (0.0, 0.0, 0.0, 0.0, 0.0_f64);
    for (role, _) in [Role::Outer, Role::Inner].into_iter().zip(skins).filter(|(_, glued)| *glued) {
        let of_role = || (0..roof.layers.len()).filter(|i| roof.layers[*i].role == role);
        for i in of_role() {
            let m = context.moduli(i, Time::Fresh);
            let t = levels[i].1 - levels[i].0;
            sheet += 2.0 * t * (m.e_x * m.g_xy).sqrt();
            stretch += m.e_x * t * expansion(context, i)?;
            stiff += m.e_x * t;
        }
        let beside = if role == Role::Outer { of_role().next_back() } else { of_role().next() };
        if let Some(i) = beside {
            // The skin shears through its own thickness over the glue: Tsai, Oplinger and Morton 1998, from memory.
            let t = levels[i].1 - levels[i].0;
            gives += 3.0 * context.moduli(i, Time::Fresh).g_xz * brace.width / t;
            arm = ((levels[i].0 + levels[i].1) / 2.0 - brace.z_axis).abs();
        }
    }
    if skins == [true, true] {
        arm = 0.0;
    }
    let strain = (context.factors.expansion_aluminium - stretch / stiff) * warmer;
    let joint = ThermalJoint {
        length: si(brace.x1 - brace.x0),
        slip: si(1.0 / (1.0 / brace.slip + 1.0 / gives)),
        bar: si(brace.ea),
        partner: Partner::Sheet(si(sheet)),
    };
    let one = joint.mismatch(si(strain)).map_err(|e| e.to_string())?;
    let force = one.middle_force.value;
    Ok(Strained {
        flow: one.end_flow.value.abs(),
        axial: -force,
        moment: force.abs() * arm,
        skin: strain - force / brace.ea,
        skins,
    })
}

/// The glue at both ends: what heat or cold puts there with what the loads do near it.
fn ends(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    index: usize,
    strained: &Strained,
) -> Vec<Finding> {
    let brace = &context.roof.braces[index];
    let Some(glue) = &brace.glue else { return Vec::new() };
    let left = if case.hot && context.roof_hot > glue.heat_limit_c { 0.0 } else { 1.0 };
    let share = |flow: f64, strength: f64| {
        if flow == 0.0 { 0.0 } else { flow / (brace.glue_width * strength * left) }
    };
    let reach = NEAR_END * (brace.x1 - brace.x0);
    let basis = Basis {
        source: format!(
            "elastic peak at the end of a long joint (Volkersen 1938, Kuhn 1956, from memory) over the adhesives table: {}",
            glue.source
        )
        .into(),
        kind: Ord::max(glue.kind, BasisKind::Memory),
    };
    let at = |end: f64| {
        let near = |p: &BracePlace| p.brace == index && (p.x - end).abs() <= reach;
        let flows = layout.braces.iter().zip(case.years.braces.iter().zip(&case.top.braces));
        let (years, top) = flows.filter(|(p, _)| near(p)).fold((0.0_f64, 0.0_f64), |(a, b), (_, (y, t))| {
            (a.max(y.flow.abs()), b.max(case.dynamic * t.flow.abs()))
        });
        let short = top + strained.flow;
        let used = share(years, glue.lasting) + share(short, glue.short);
        let demand = (years + short) / brace.glue_width;
        let limit = if used > 0.0 && used.is_finite() { demand / used } else { glue.short * left };
        let numbers = Numbers { demand, limit, si: "Pa", ratio: used * context.model_factor };
        let part = format!("brace {}, ends", brace.name);
        case.finding(Check::GlueEnds, part, (end, brace.y), numbers, basis.clone())
    };
    [brace.x0, brace.x1].map(at).into()
}

/// The tube with what heat or cold puts on it all along, at its worst place.
fn tube_finding(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    index: usize,
    tube: &TubeStrength,
    strained: &Strained,
) -> Option<Finding> {
    let brace = &context.roof.braces[index];
    let aluminium = &context.factors.aluminium;
    let forces = layout.braces.iter().zip(case.years.braces.iter().zip(&case.top.braces));
    let mut worst: Option<(f64, Numbers)> = None;
    for (place, (years, top)) in forces.filter(|(place, _)| place.brace == index) {
        let used = factored(aluminium, case.kind, years, top, case.dynamic)
            .map(|f| BraceForces {
                axial: f.axial + aluminium.variable * strained.axial,
                moment: f.moment.abs() + aluminium.variable * strained.moment,
                ..f
            })
            .map(|f| tube.used(&f, place.x).map_or(RATIO_CAP, |used| used.bending))
            .into_iter()
            .fold(0.0, f64::max);
        let limit = tube.at(place.x).bending;
        let ratio = used * context.model_factor;
        if worst.is_none_or(|(_, kept)| is_worse(ratio, kept.ratio)) {
            worst = Some((place.x, Numbers { demand: used * limit, limit, si: "N m", ratio }));
        }
    }
    let (x, numbers) = worst?;
    let part = format!("brace {}", brace.name);
    Some(case.finding(Check::Brace, part, (x, brace.y), numbers, tube.basis.clone()))
}

/// The skin beside the brace, strained with it.
fn skin_findings(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
    brace: &IdealBrace,
    strained: &Strained,
) -> Vec<Finding> {
    let reach = BESIDE * (brace.x1 - brace.x0);
    let mut only = Layout { states: layout.states.clone(), ..Layout::default() };
    let (mut years, mut top) = (Response::default(), Response::default());
    for (i, place) in layout.skins.iter().enumerate() {
        let glued = match context.roof.layers[place.layer].role {
            Role::Outer => strained.skins[0],
            Role::Inner => strained.skins[1],
            Role::Core => false,
        };
        if !glued || (place.y - brace.y).abs() > reach {
            continue;
        }
        let own = case.top.skins[i];
        let pulled = context.moduli(place.layer, Time::Fresh).e_x * strained.skin;
        only.skins.push(*place);
        years.skins.push(case.years.skins[i]);
        let [sx, sy, sxy] = own.middle;
        top.skins.push(SkinStress { middle: [sx + pulled / case.dynamic, sy, sxy], ..own });
    }
    let state = CaseState { years: &years, top: &top, ..*case };
    panel_findings(context, limits, &only, &state).0
}
