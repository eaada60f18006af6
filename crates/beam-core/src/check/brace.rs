//! Braces in one case: bending with axial force, shear with torsion, fatigue, glue line; their ends beside this file.

use super::brace_ends::end_findings;
use super::context::{CaseState, Context};
use super::fatigue::fatigue_used;
use super::finding::{Check, Finding, Numbers, RATIO_CAP};
use super::tube::{TubeStrength, Used, factored};
use crate::response::{Layout, is_worse};
use crate::strength::Basis;

/// The worst place of each check along one brace.
#[derive(Default)]
pub(super) struct WorstAlong<'a>(Vec<(Check, f64, Numbers, &'a Basis)>);

impl<'a> WorstAlong<'a> {
    /// Keeps what a check says at `x`, if it is the worst so far.
    pub(super) fn keep(&mut self, check: Check, x: f64, numbers: Numbers, basis: &'a Basis) {
        match self.0.iter_mut().find(|kept| kept.0 == check) {
            Some(kept) if !is_worse(numbers.ratio, kept.2.ratio) => {}
            Some(kept) => *kept = (check, x, numbers, basis),
            None => self.0.push((check, x, numbers, basis)),
        }
    }
}

/// Findings of all braces in one case: of each check the worst place along each brace.
pub(crate) fn brace_findings(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    strengths: &[Result<TubeStrength, String>],
) -> Vec<Finding> {
    let factor = context.model_factor;
    let glued: Vec<Option<Basis>> = context
        .roof
        .braces
        .iter()
        .map(|b| {
            let glue = b.glue.as_ref().filter(|_| b.bonded)?;
            Some(Basis { source: format!("adhesives table: {}", glue.source).into(), kind: glue.kind })
        })
        .collect();
    let mut worst: Vec<WorstAlong<'_>> = context.roof.braces.iter().map(|_| WorstAlong::default()).collect();
    for (place, (years, top)) in layout.braces.iter().zip(case.years.braces.iter().zip(&case.top.braces)) {
        let brace = &context.roof.braces[place.brace];
        let worst = &mut worst[place.brace];
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
            let numbers =
                |used: f64, limit, si| Numbers { demand: used * limit, limit, si, ratio: used * factor };
            worst.keep(Check::Brace, place.x, numbers(used.bending, moment, "N m"), &s.basis);
            worst.keep(Check::BraceShear, place.x, numbers(used.shear, shear, "N"), &s.shear_basis);
            if let Some((numbers, basis)) = fatigue_used(context, case, place, top, s) {
                worst.keep(Check::Fatigue, place.x, numbers, basis);
            }
        }
        if let Some(rafter) = &context.rafters[place.brace] {
            for (check, numbers) in rafter.used(context, case, [years, top]) {
                worst.keep(check, place.x, numbers, rafter.basis());
            }
        }
        if let (Some(basis), Some(glue)) = (&glued[place.brace], &brace.glue) {
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
            let numbers = Numbers { demand, limit, si: "Pa", ratio: used * factor };
            worst.keep(Check::GlueLine, place.x, numbers, basis);
        }
    }
    let mut out = Vec::new();
    for (brace, worst) in context.roof.braces.iter().zip(worst) {
        out.extend(worst.0.into_iter().map(|(check, x, numbers, basis)| {
            let part = format!("brace {}", brace.name);
            case.finding(check, part, (x, brace.y), numbers, basis.clone())
        }));
    }
    out.extend(end_findings(context, layout, case, strengths));
    out
}
