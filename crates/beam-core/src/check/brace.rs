//! Braces in one case: bending with axial force, shear with torsion, fatigue, glue line; their ends beside this file.

use super::brace_ends::end_findings;
use super::context::{CaseState, Context};
use super::fatigue::fatigue_finding;
use super::finding::{Check, Finding, Numbers, RATIO_CAP};
use super::tube::{TubeStrength, Used, factored};
use crate::response::Layout;
use crate::strength::Basis;

/// Findings of all braces in one case.
pub(crate) fn brace_findings(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    strengths: &[Result<TubeStrength, String>],
) -> Vec<Finding> {
    let mut out = Vec::new();
    let factor = context.model_factor;
    for (place, (years, top)) in layout.braces.iter().zip(case.years.braces.iter().zip(&case.top.braces)) {
        let brace = &context.roof.braces[place.brace];
        let finding = |check, demand: f64, limit: f64, si, ratio: f64, basis: &Basis| {
            case.finding(
                check,
                format!("brace {}", brace.name),
                (place.x, brace.y),
                Numbers { demand, limit, si, ratio },
                basis.clone(),
            )
        };
        if let Ok(s) = &strengths[place.brace] {
            let used = factored(&context.factors.aluminium, case.kind, years, top, case.dynamic)
                .map(|forces| s.used(&forces, place.x))
                .into_iter()
                // What is no number uses all there is.
                .map(|u| u.unwrap_or(Used { bending: RATIO_CAP, shear: RATIO_CAP }))
                .reduce(|a, b| Used { bending: a.bending.max(b.bending), shear: a.shear.max(b.shear) })
                .unwrap_or(Used { bending: RATIO_CAP, shear: RATIO_CAP });
            // One number beside another: the moment, and the shear, that alone would use as much.
            let [moment, shear] = [s.at(place.x).bending, s.at(place.x).shear];
            let bent = used.bending * moment;
            out.push(finding(Check::Brace, bent, moment, "N m", used.bending * factor, &s.basis));
            let sheared = used.shear * shear;
            out.push(finding(Check::BraceShear, sheared, shear, "N", used.shear * factor, &s.shear_basis));
            out.extend(fatigue_finding(context, case, place, top, s));
        }
        if let Some(rafter) = &context.rafters[place.brace] {
            out.extend(rafter.findings(context, case, place, [years, top]));
        }
        if let (true, Some(glue)) = (brace.bonded, &brace.glue) {
            // Softer than its limit allows, a glue is not counted on at all.
            let left = if case.hot && context.roof_hot > glue.heat_limit_c { 0.0 } else { 1.0 };
            let share = |flow: f64, strength: f64| {
                if flow == 0.0 { 0.0 } else { flow.abs() / (brace.glue_width * strength * left) }
            };
            let lasting = share(years.flow, glue.lasting);
            let short = share(case.dynamic * top.flow, glue.short);
            let demand = (years.flow + case.dynamic * top.flow).abs() / brace.glue_width;
            let used = lasting + short;
            let limit = if used > 0.0 && used.is_finite() { demand / used } else { glue.short * left };
            let basis = Basis { source: format!("adhesives table: {}", glue.source).into(), kind: glue.kind };
            out.push(finding(Check::GlueLine, demand, limit, "Pa", used * factor, &basis));
        }
    }
    out.extend(end_findings(context, layout, case, strengths));
    out
}
