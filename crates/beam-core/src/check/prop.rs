//! The pad of a prop on the roof: it presses the core together, and would punch through it.

use super::context::{Context, basis};
use super::finding::{Check, Finding};
use crate::loads::Footing;
use crate::model::{Rect, Role};
use crate::quantity::si;
use crate::strength::core::punch_through;
use section_tables::Property;

/// How hard one prop pushes in one load, N: with what stays on, and what the rest adds.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PropLoad {
    pub prop: usize,
    pub load: String,
    pub lasting: f64,
    pub passing: f64,
}

/// Findings on the core over the pad of a prop.
///
/// # Errors
/// In words, which strength is not known.
pub(crate) fn prop_findings(
    context: &Context<'_>,
    pad: &Rect,
    load: &PropLoad,
) -> Result<Vec<Finding>, String> {
    let (x, y) = pad.centre();
    let Some(core) = context.roof.layers.iter().position(|l| l.role == Role::Core) else {
        return Err("there is no foam over the prop".to_owned());
    };
    let layer = &context.roof.layers[core];
    let state = &context.roof.state_at(x, y)[core];
    let left = |share: f64| if state.slot > 0.0 { 0.0 } else { share };
    let crush = context.strengths[core]
        .crush
        .as_ref()
        .ok_or_else(|| format!("no crushing strength is known for the {}", layer.name))?;
    let shear = context.strengths[core]
        .shear_core
        .as_ref()
        .ok_or_else(|| format!("no shear strength is known for the {}", layer.name))?;
    // A dent, not a collapse: without the 1.5. What stands for days is judged as lasting.
    let short = crush.value * left(state.crush) / context.factors.gamma_core_crush;
    let lasting = short * context.ratio(core, Property::LongTermCrush, context.factors.long_term_core_crush);
    let area = pad.area();
    let pressure = (load.lasting + load.passing).max(0.0) / area;
    let share = |force: f64, limit: f64| if force > 0.0 { force / (area * limit) } else { 0.0 };
    // The prop may relieve under the passing part: that part then counts for nothing.
    let used = share(load.lasting, lasting) + share(load.passing, short);
    let finding = |check, demand: f64, limit: f64, si, ratio: f64, basis| Finding {
        check,
        part: format!("{} over a prop", layer.name),
        load: load.load.clone(),
        footing: Footing::NotAFoot,
        person: None,
        x,
        y,
        demand,
        limit,
        si,
        ratio: ratio * context.model_factor,
        basis,
    };
    let limit = if used > 0.0 && used.is_finite() { pressure / used } else { short };
    let mut out = vec![finding(
        Check::CoreCrush,
        pressure,
        limit,
        "Pa",
        used,
        basis(crush, "lasting share and gamma_M 1.4 from memory"),
    )];
    let depth: f64 = context.roof.levels(x)[core].1 - context.roof.levels(x)[core].0;
    let f = shear.value * left(state.strength) / (context.factors.panel * context.factors.gamma_core_shear);
    let force = (load.lasting + load.passing).max(0.0);
    // All of it as lasting as the foam's share of shear that lasts.
    let long = f * context.ratio(core, Property::LongTermShear, context.factors.long_term_core_shear);
    let limit = |f: f64| -> f64 {
        punch_through(si(f), si(depth), si(pad.x1 - pad.x0), si(pad.y1 - pad.y0))
            .map_or(0.0, |l| l.value.value)
    };
    let (short, lasting) = (limit(f), limit(long));
    let part = |force: f64, limit: f64| if force > 0.0 { force / limit } else { 0.0 };
    let used = part(load.lasting, lasting) + part(load.passing, short);
    let limit = if used > 0.0 && used.is_finite() { force / used } else { short };
    out.push(finding(
        Check::FootShear,
        force,
        limit,
        "N",
        used,
        basis(shear, "gamma_M 1.5 and 1.5 from memory; perimeter half a depth outside the pad"),
    ));
    Ok(out)
}
