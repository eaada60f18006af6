//! One finding read again at its own place on another grid: what moves is the solution, not where it is sampled.

use super::evaluate::keep_worst;
use super::reading::weights;
use crate::check::{
    CaseState, Check, Context, Finding, PanelLimits, TubeStrength, beside_joints, brace_findings,
    joint_findings, panel_findings, trimmer_findings,
};
use crate::response::{Layout, Response};

/// Ratio of the check of `like` at the place of `like`; `None` where the check does not speak there.
pub(crate) fn probe(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
    tubes: &[Result<TubeStrength, String>],
    like: &Finding,
) -> Option<f64> {
    let at = (like.x, like.y);
    match like.check {
        Check::Sag | Check::SagLasting => {
            let response = if like.check == Check::Sag { case.top } else { case.years };
            let sag: f64 =
                weights(layout.sag.iter().copied(), at).into_iter().map(|(i, w)| w * response.sag[i]).sum();
            Some(sag * context.model_factor / like.limit)
        }
        Check::Brace
        | Check::BraceShear
        | Check::GlueLine
        | Check::SeatBearing
        | Check::SeatScrews
        | Check::WebCrippling
        | Check::Fatigue => {
            let mut kept = Vec::new();
            let found = brace_findings(context, layout, case, tubes).into_iter();
            let found = found.chain(trimmer_findings(context, layout, case));
            found.for_each(|f| keep_worst(&mut kept, f));
            kept.into_iter().find(|f| f.check == like.check && f.part == like.part).map(|f| f.ratio)
        }
        Check::CoreShear => {
            let read = [
                beside_joint(context, limits, layout, case, like),
                panel(context, limits, layout, case, like),
            ];
            read.into_iter().flatten().reduce(f64::max)
        }
        _ => panel(context, limits, layout, case, like),
    }
}

/// Core shear beside a joint at the place nearest to that of `like`; `None` where it lies farther off than the foam
/// is deep.
fn beside_joint(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
    like: &Finding,
) -> Option<f64> {
    let places = beside_joints(context, layout);
    let off = |f: &Finding| (f.x - like.x).hypot(f.y - like.y);
    let found = joint_findings(context, limits, layout, &places, case);
    let nearest =
        found.into_iter().filter(|f| f.part == like.part).min_by(|a, b| off(a).total_cmp(&off(b)))?;
    let deep = |(top, bottom): (f64, f64)| (top - bottom).abs();
    let layer = context.roof.layers.iter().position(|l| l.name == like.part)?;
    (off(&nearest) <= deep(context.roof.levels(like.x)[layer])).then_some(nearest.ratio)
}

fn panel(
    context: &Context<'_>,
    limits: &PanelLimits,
    layout: &Layout,
    case: &CaseState<'_>,
    like: &Finding,
) -> Option<f64> {
    let at = (like.x, like.y);
    let layer = context.roof.layers.iter().position(|l| l.name == like.part)?;
    let numbers = |places: &[crate::response::LayerPlace]| -> Vec<usize> {
        places.iter().enumerate().filter(|(_, p)| p.layer == layer).map(|(i, _)| i).collect()
    };
    let core = like.check == Check::CoreShear;
    let places = if core { &layout.cores } else { &layout.skins };
    let numbers = numbers(places);
    let near = weights(numbers.iter().map(|&i| (places[i].x, places[i].y)), at);
    let (mut sum, mut weight) = (0.0, 0.0);
    for (n, w) in near {
        let i = numbers[n];
        let mut one = Layout { states: layout.states.clone(), ..Layout::default() };
        let single = |r: &Response| {
            let mut out = Response::default();
            if core {
                out.cores.push(r.cores[i])
            } else {
                out.skins.push(r.skins[i])
            }
            out
        };
        if core {
            one.cores.push(places[i])
        } else {
            one.skins.push(places[i])
        }
        let (years, top) = (single(case.years), single(case.top));
        let state = CaseState { years: &years, top: &top, ..*case };
        let (found, _) = panel_findings(context, limits, &one, &state);
        if let Some(f) = found.iter().find(|f| f.check == like.check) {
            sum += w * f.ratio;
            weight += w;
        }
    }
    (weight > 0.0).then(|| sum / weight)
}
