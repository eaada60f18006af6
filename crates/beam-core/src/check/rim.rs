//! What the unit presses on the core: its weight through the gasket rim, and its bolts.

use super::context::{Context, basis};
use super::finding::{Check, Finding};
use crate::loads::Footing;
use crate::model::{Rect, Role};
use crate::quantity::STANDARD_GRAVITY;
use crate::survey::Survey;
use section_tables::Property;

/// Share of torque that stretches a dry bolt: `T = 0.2 F d`, textbook, from memory.
const NUT_FACTOR: f64 = 0.2;
/// The heavy half of the rim carries this over its even share.
const HEAVY: f64 = 1.2;

/// Findings on the foam under the rim of an unframed opening; none where the opening is framed or there is no unit.
pub(crate) fn rim_findings(context: &Context<'_>, survey: &Survey) -> Vec<Finding> {
    let Some(unit) = &survey.unit else { return Vec::new() };
    let Some(opening) = unit.opening.map(|o| &survey.openings[o]).filter(|o| o.frame.is_none()) else {
        return Vec::new();
    };
    let hole = Rect::of(&opening.patch);
    let g = unit.gasket_width.value;
    let (w, l) = (hole.x1 - hole.x0, hole.y1 - hole.y0);
    let area = (w + 2.0 * g) * (l + 2.0 * g) - w * l;
    let Some(core) = context.roof.layers.iter().position(|l| l.role == Role::Core) else { return Vec::new() };
    let Some(known) = &context.strengths[core].crush else { return Vec::new() };
    let (x, y) = (hole.x0 - g / 2.0, hole.y0 - g / 2.0);
    let state = context.roof.state_at(x, y);
    let share = if state[core].slot > 0.0 { 0.0 } else { state[core].crush };
    // A dent, not a collapse: without the 1.5. Standing weight is judged by creep, weight on the road by crushing.
    let crush = known.value * share / context.factors.gamma_core_crush;
    let short = crush * context.heat_strength(core, true);
    let lasting = crush * context.ratio(core, Property::LongTermCrush, context.factors.long_term_core_crush);
    let on_rim = 1.0 - unit.pads.iter().map(|p| p.share).sum::<f64>();
    let pressure = HEAVY * unit.mass.value * STANDARD_GRAVITY * on_rim.max(0.0) / area;
    let finding = |check, load: &str, demand: f64, ratio: f64, limit: f64| Finding {
        check,
        part: format!("{} under the unit's rim", context.roof.layers[core].name),
        load: load.to_owned(),
        footing: Footing::NotAFoot,
        person: None,
        x,
        y,
        demand,
        limit,
        si: "Pa",
        ratio: ratio * context.model_factor,
        basis: basis(
            known,
            "lasting share and gamma_M 1.4 from memory; on the road hot, and 0.35 over 1.25 under repeated load",
        ),
    };
    let shaken = pressure * context.factors.road;
    // Again and again for years: foam that is pressed harder than this goes on sinking.
    let swings = known.value * share * context.factors.cyclic_core_crush;
    let road = short.min(swings);
    let mut out = vec![
        finding(Check::CoreCrush, "unit parked, service life", pressure, pressure / lasting, lasting),
        finding(Check::CoreCrush, "unit on the road", shaken, shaken / road, road),
    ];
    if let Some(bolts) = &unit.bolts {
        let force = f64::from(bolts.count) * bolts.torque.value / (NUT_FACTOR * bolts.size.value);
        let clamp = force / area;
        out.push(finding(Check::Clamp, "unit parked, service life", clamp, clamp / lasting, lasting));
    }
    out
}
