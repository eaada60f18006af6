//! The panel's edge on its ledger: the foam over the landing is pressed by what the wall pushes back.

use super::context::{CaseState, Context, basis};
use super::finding::{Check, Finding, Numbers, RATIO_CAP};
use crate::model::Role;
use crate::response::{LayerPlace, Layout};
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

/// What is asked of the foam at one place by a wall.
#[derive(Debug, Clone)]
pub(crate) struct EdgeAsked {
    /// The walls near: which way the shear runs into each, and its name.
    walls: Vec<(usize, &'static str)>,
    /// Pressure over the landing per shear stress beside it.
    per_shear: f64,
    /// Limits on pressure that stays, and that passes, Pa.
    lasting: f64,
    short: f64,
}

/// What one wall asks.
pub(crate) struct EdgeUsed {
    wall: &'static str,
    demand: f64,
    /// Without the model factor.
    pub ratio: f64,
}

impl EdgeAsked {
    /// What is asked at a place; nothing away from walls, and where the depth of the ledger is not known, which is told
    /// as a gap.
    pub(crate) fn at(context: &Context<'_>, layout: &Layout, place: &LayerPlace, hot: bool) -> Option<Self> {
        let landing = context.landing?;
        let core = lowest_core(context)?;
        let known = context.strengths[core].crush.as_ref()?;
        let levels = context.roof.levels(place.x);
        let depth = levels[core].1 - levels[core].0;
        let held = [true, true, context.roof.front_held, context.roof.rear_held];
        let walls: Vec<_> = LANDINGS
            .iter()
            .zip(held)
            .filter(|(wall, held)| *held && (wall.from)(context, place.x, place.y) <= depth)
            .map(|(wall, _)| (wall.axis, wall.name))
            .collect();
        if walls.is_empty() {
            return None;
        }
        // From the middle of the skins above to the middle of those below.
        let lever =
            (levels[0].1 + levels[core].1) / 2.0 - (levels[levels.len() - 1].0 + levels[core].0) / 2.0;
        // Foam that gives over the ledger is pressed flat and goes on bearing: a dent, not a collapse, so without the 1.5.
        let limit = known.value * layout.states[place.state][core].crush / context.factors.gamma_core_crush;
        let share = context.ratio(core, Property::LongTermCrush, context.factors.long_term_core_crush);
        Some(Self {
            walls,
            per_shear: lever / (landing + SPREAD * depth),
            lasting: limit * share,
            short: limit * context.heat_strength(core, hot),
        })
    }

    /// The worst wall under shear stresses that stay and that pass.
    pub(crate) fn used(&self, dynamic: f64, years: &[f64; 2], top: &[f64; 2]) -> Option<EdgeUsed> {
        let one = |&(axis, wall): &(usize, &'static str)| {
            let pressure = |tau: f64| tau.abs() * self.per_shear;
            let (stays, passes) = (pressure(years[axis]), pressure(dynamic * top[axis]));
            // Foam of which nothing is left bears nothing.
            let share = |pressure: f64, limit: f64| if pressure > 0.0 { pressure / limit } else { 0.0 };
            let ratio = (share(stays, self.lasting) + share(passes, self.short)).min(RATIO_CAP);
            EdgeUsed { wall, demand: stays + passes, ratio }
        };
        self.walls.iter().map(one).max_by(|a, b| a.ratio.total_cmp(&b.ratio))
    }
}

fn lowest_core(context: &Context<'_>) -> Option<usize> {
    context.roof.layers.iter().rposition(|l| l.role == Role::Core)
}

/// The places of a layout that walls press on, by number among its cores: cold and hot.
pub(crate) struct EdgePlaces([Vec<(usize, EdgeAsked)>; 2]);

impl EdgePlaces {
    pub(crate) fn new(context: &Context<'_>, layout: &Layout) -> Self {
        let asked = |hot: bool| {
            let cores = layout.cores.iter().enumerate();
            cores.filter_map(|(i, p)| Some((i, EdgeAsked::at(context, layout, p, hot)?))).collect()
        };
        Self([false, true].map(asked))
    }
}

/// Findings of one case: the worst place of each wall.
pub(crate) fn edge_findings(
    context: &Context<'_>,
    layout: &Layout,
    places: &EdgePlaces,
    case: &CaseState<'_>,
) -> Vec<Finding> {
    let Some(core) = lowest_core(context) else { return Vec::new() };
    let Some(known) = &context.strengths[core].crush else { return Vec::new() };
    let mut worst: Vec<(usize, EdgeUsed)> = Vec::new();
    for (place, asked) in &places.0[usize::from(case.hot)] {
        let (years, top) = (&case.years.cores[*place], &case.top.cores[*place]);
        let Some(used) = asked.used(case.dynamic, years, top).filter(|used| used.ratio > 0.0) else {
            continue;
        };
        match worst.iter_mut().find(|(_, kept)| kept.wall == used.wall) {
            Some((_, kept)) if kept.ratio >= used.ratio => {}
            Some(kept) => *kept = (*place, used),
            None => worst.push((*place, used)),
        }
    }
    let finding = |(place, used): (usize, EdgeUsed)| {
        let at = &layout.cores[place];
        case.finding(
            Check::CoreCrush,
            format!("{} on the {}", context.roof.layers[core].name, used.wall),
            (at.x, at.y),
            Numbers {
                demand: used.demand,
                limit: used.demand / used.ratio,
                si: "Pa",
                ratio: used.ratio * context.model_factor,
            },
            basis(
                known,
                "landing and a quarter of the core's depth, gamma_M 1.4, lasting share (EN 14509, from memory)",
            ),
        )
    };
    worst.into_iter().map(finding).collect()
}
