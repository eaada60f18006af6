//! `[unit]`: the rooftop unit.

use super::opening::not_over_nothing;
use crate::quantity::{INCH, Measure, si};
use crate::survey::take::{Bound, Context, Items, Naming, Number, Pair, Table, Whole, Words, patch};
use crate::survey::tree::Node;
use crate::survey::{Bolts, HeavyEnd, Opening, Pad, Unit};

const WEIGHT: Bound = Bound::above_zero(Measure::Weight).plausible(
    5.0..150.0,
    "5 kg to 150 kg (11 lb to 330 lb)",
    "lighter than any rooftop unit",
    "heavier than any rooftop unit",
);
const GASKET: Bound = Bound::above_zero(Measure::Length).plausible(
    0.005..0.15,
    "5 mm to 150 mm (1/4 in to 5 7/8 in)",
    "narrower than any gasket",
    "wider than any gasket",
);
const HEIGHT: Bound = Bound::zero_or_more(Measure::Length).plausible(
    0.0..0.6,
    "0 to 600 mm (0 to 23 5/8 in)",
    "under the roof",
    "higher than the mass of any rooftop unit",
);
const BASE: Bound = Bound::above_zero(Measure::Length).plausible(
    0.1..2.0,
    "100 mm to 2 m (4 in to 78 in)",
    "smaller than any unit's base",
    "larger than any unit's base",
);
const BOLT: Bound = Bound::above_zero(Measure::Length).plausible(
    0.002..0.02,
    "2 mm to 20 mm (1/16 in to 3/4 in)",
    "thinner than any mounting bolt",
    "thicker than any mounting bolt",
);
const TORQUE: Bound = Bound::above_zero(Measure::Torque);
const BOLTS: Whole = Whole { from: 1, to: 24 };
const HEAVY_END: Words<HeavyEnd> = Words(&[
    ("front", HeavyEnd::Front),
    ("rear", HeavyEnd::Rear),
    ("left", HeavyEnd::Left),
    ("right", HeavyEnd::Right),
]);

/// The unit; the inner `None` where the survey has none.
pub(super) fn read(
    cx: &mut Context<'_>,
    root: &mut Table<'_>,
    openings: &Items<Opening>,
) -> Option<Option<Unit>> {
    let Some(node) = root.node("unit") else {
        return Some(None);
    };
    let mut table = Table::open(cx, "unit", node)?;
    let unit = unit(cx, &mut table, openings);
    table.close(cx);
    unit.map(Some)
}

fn unit(cx: &mut Context<'_>, table: &mut Table<'_>, openings: &Items<Opening>) -> Option<Unit> {
    let mass = table.required(cx, "weight", &WEIGHT, "\"100 lb\"");
    let pads = pads(cx, table, openings);
    let opening = opening(cx, table, openings, pads.as_ref().is_some_and(Vec::is_empty));
    let words = "no width of the gasket is given: 1 in is taken (common practice, no source)";
    let gasket_width = table.or_si(cx, "gasket_width", &GASKET, (INCH, "m", "default-gasket", words));
    let heavy_end = table.optional(cx, "heavy_end", &HEAVY_END);
    if heavy_end == Some(None) {
        let words = "the heavy end of the unit is not known: both ways are tried, 60/40";
        cx.default("unit.heavy_end", None, "default-heavy-end", words);
    }
    let height = table.optional(cx, "height", &HEIGHT);
    let base = table.optional(cx, "base", &Pair(BASE));
    let bolts = table.optional(cx, "bolts", &bolts);
    let on_pads: f64 = pads.iter().flatten().map(|p| p.share).sum();
    if let (Some(Some(opening)), Some(gasket), true) = (opening, gasket_width, on_pads < 1.0)
        && let Some((_, _, opening)) = openings.values().find(|(at, ..)| *at == opening)
    {
        ring_on_roof(cx, table, opening, gasket);
    }
    Some(Unit {
        mass: si(mass?),
        opening: opening?,
        gasket_width: si(gasket_width?),
        pads: pads?,
        heavy_end: heavy_end?,
        height: height?.map(si),
        base: base?.map(|base| base.map(si)),
        bolts: bolts?,
    })
}

/// Records a gasket that reaches past the roof's edge: nothing bears it there.
fn ring_on_roof(cx: &mut Context<'_>, table: &mut Table<'_>, opening: &Opening, gasket: f64) {
    // A thousandth of a millimetre: rounding, not measuring.
    const SLACK: f64 = 1e-6;
    let sides = [(&opening.patch.across, cx.span.clone()), (&opening.patch.along, cx.length.clone())];
    let past = sides.iter().find_map(|(side, extent)| {
        let extent = extent.as_ref()?;
        let room = side.from.value.min(extent.si - side.to.value);
        (gasket > room + SLACK).then(|| (extent.key, room.max(0.0)))
    });
    let Some((key, room)) = past else { return };
    // What is not given stands nowhere: then the unit's table is pointed at.
    let span = table.span_of(if table.holds("gasket_width") { "gasket_width" } else { "opening" });
    let room = format!("{:.0} mm ({:.2} in)", room * 1000.0, room / INCH);
    cx.fault(
        "off-the-roof",
        span,
        format!(
            "the gasket of the unit, {:.0} mm ({:.2} in) wide round the opening \"{}\", reaches past the edge of the roof",
            gasket * 1000.0,
            gasket / INCH,
            opening.name
        ),
        format!("a gasket no wider than the {room} of roof left between the opening and the nearest end of `{key}`"),
        "the opening's edges measured again, a narrower gasket, more of the roof's length where it runs on, or pads that carry the whole unit",
    );
}

/// The opening it hangs over: named, or the only one there is; none only where pads carry it.
fn opening(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    openings: &Items<Opening>,
    without_pads: bool,
) -> Option<Option<usize>> {
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| openings.find(cx, path, node);
    if let Some(given) = table.optional(cx, "opening", &find)? {
        return Some(Some(given));
    }
    match openings.list.as_slice() {
        [only] => {
            let words = format!("the unit is taken to hang over the only opening, \"{}\"", only.name);
            cx.default("unit.opening", None, "default-unit-opening", words);
            Some(Some(0))
        }
        _ if without_pads => {
            table.missing(cx, "opening", "the name of an [[opening]]; or pads that carry the unit");
            None
        }
        _ => Some(None),
    }
}

fn pads(cx: &mut Context<'_>, table: &mut Table<'_>, openings: &Items<Opening>) -> Option<Vec<Pad>> {
    let span = table.span_of("pads");
    let pads: Items<Pad> = Items::read(cx, table, "pads", Naming::None, |cx, table, _, _| {
        let place = patch(cx, table);
        let share = table.required(cx, "share", &Number::SHARE, "0.3");
        let place = place?;
        not_over_nothing(cx, "a pad of the unit", table.span_of("across"), &place, openings)?;
        Some(Pad { patch: place, share: share? })
    });
    let pads = pads.into_values()?;
    let carried: f64 = pads.iter().map(|pad| pad.share).sum();
    let all_on_pads = table.has("opening") || !openings.list.is_empty() || pads.is_empty();
    if carried > 1.0 + 1e-9 || (!all_on_pads && (carried - 1.0).abs() > 0.01) {
        let allowed =
            if all_on_pads { "at most 1: the rest is on the gasket" } else { "1: nothing else carries it" };
        cx.fault(
            "shares-do-not-add-up",
            span,
            format!("the pads carry {carried:.2} of the unit"),
            format!("shares whose sum is {allowed}"),
            "each pad's share of the whole weight",
        );
        return None;
    }
    Some(pads)
}

fn bolts(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Bolts> {
    let mut table = Table::open(cx, path, node)?;
    let count = table.required(cx, "n", &BOLTS, "4");
    let size = table.required(cx, "size", &BOLT, "\"1/4 in\"");
    let torque = table.required(cx, "torque", &TORQUE, "\"5 N m\"");
    table.close(cx);
    Some(Bolts { count: count?, size: si(size?), torque: si(torque?) })
}
