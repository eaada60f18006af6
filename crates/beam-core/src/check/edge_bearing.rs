//! The panel's edge on its ledger: the foam over the landing is pressed by what the wall pushes back.

use super::context::{CaseState, Context, basis};
use super::finding::{Check, Finding};
use crate::model::Role;
use crate::response::Layout;
use section_tables::Property;

/// The pressure spreads by this share of the core's depth beyond the landing: `0.5 k e` with `k = 0.5` at an end support
/// (EN 14509, E.4.3, from memory).
const SPREAD: f64 = 0.25;

/// One wall under the edge, by the way its shear runs.
struct Landing {
    name: &'static str,
    /// 0: the wall runs along, 1: across.
    axis: usize,
    /// Distance of a place from the wall.
    from: fn(&Context<'_>, f64, f64) -> f64,
}

const LANDINGS: [Landing; 4] = [
    Landing { name: "left wall", axis: 0, from: |_, x, _| x },
    Landing { name: "right wall", axis: 0, from: |c, x, _| c.roof.span - x },
    Landing { name: "front wall", axis: 1, from: |_, _, y| y },
    Landing { name: "rear wall", axis: 1, from: |c, _, y| c.roof.length - y },
];

/// Findings of one case; none where the depth of the ledger is not known, which is told as a gap.
pub(crate) fn edge_findings(context: &Context<'_>, layout: &Layout, case: &CaseState<'_>) -> Vec<Finding> {
    let Some(landing) = context.landing else { return Vec::new() };
    let Some(core) = context.roof.layers.iter().rposition(|l| l.role == Role::Core) else {
        return Vec::new();
    };
    let Some(known) = &context.strengths[core].crush else { return Vec::new() };
    let held = [true, true, context.roof.front_held, context.roof.rear_held];
    let short_share = context.heat_strength(core, case.hot);
    let long_share = context.ratio(core, Property::LongTermCrush, context.factors.long_term_core_crush);
    // Foam that gives over the ledger is pressed flat and goes on bearing: a dent, not a collapse, so without the 1.5.
    let safe = context.factors.gamma_core_crush;
    let mut out: Vec<Finding> = Vec::new();
    for (place, (years, top)) in layout.cores.iter().zip(case.years.cores.iter().zip(&case.top.cores)) {
        let levels = context.roof.levels(place.x);
        let depth = levels[core].1 - levels[core].0;
        // From the middle of the skins above to the middle of those below.
        let lever =
            (levels[0].1 + levels[core].1) / 2.0 - (levels[levels.len() - 1].0 + levels[core].0) / 2.0;
        for wall in LANDINGS.iter().zip(held).filter(|(_, held)| *held).map(|(wall, _)| wall) {
            if (wall.from)(context, place.x, place.y) > depth {
                continue;
            }
            let state = &layout.states[place.state][core];
            let limit = known.value * state.crush / safe;
            let pressure = |tau: f64| tau.abs() * lever / (landing + SPREAD * depth);
            let (stays, passes) = (pressure(years[wall.axis]), pressure(case.dynamic * top[wall.axis]));
            let used = stays / (limit * long_share) + passes / (limit * short_share);
            if !used.is_finite() || used <= 0.0 {
                continue;
            }
            let part = format!("{} on the {}", context.roof.layers[core].name, wall.name);
            let finding = Finding {
                check: Check::CoreCrush,
                part,
                load: case.name.to_owned(),
                footing: case.footing,
                person: None,
                x: place.x,
                y: place.y,
                demand: stays + passes,
                limit: (stays + passes) / used,
                si: "Pa",
                ratio: used * context.model_factor,
                basis: basis(
                    known,
                    "landing and a quarter of the core's depth, gamma_M 1.4, lasting share (EN 14509, from memory)",
                ),
            };
            match out.iter_mut().find(|k| k.part == finding.part) {
                Some(k) if k.ratio >= finding.ratio => {}
                Some(k) => *k = finding,
                None => out.push(finding),
            }
        }
    }
    out
}
