//! How a brace fits the roof: core, openings, ends, the other braces.

use super::layer;
use crate::quantity::{Length, si};
use crate::survey::take::{Context, Items, Table};
use crate::survey::{Brace, Interval, Opening, Sits};

/// Rounding, not measuring.
const SLACK: f64 = 1e-6;

/// Records what does not fit. A brace that ends inside an opening, or was there before it, is cut at its edge, and
/// that is said.
pub(super) fn fit(
    cx: &mut Context<'_>,
    table: &Table<'_>,
    brace: Brace,
    core: Option<f64>,
    openings: &Items<Opening>,
    earlier: &Items<Brace>,
) -> Brace {
    in_core(cx, table, &brace, core);
    on_roof(cx, table, &brace);
    welds(cx, table, &brace);
    apart(cx, table, &brace, earlier);
    openings.values().fold(brace, |brace, (_, _, opening)| clear_of(cx, table, brace, opening))
}

/// The brace from face to face, along.
fn strip(brace: &Brace) -> Interval {
    let half = brace.section.width() / 2.0;
    Interval { from: brace.along - half, to: brace.along + half }
}

fn share_more_than_an_edge(one: &Interval, other: &Interval) -> bool {
    let slack: Length = si(SLACK);
    one.from + slack < other.to && other.from + slack < one.to
}

fn in_core(cx: &mut Context<'_>, table: &Table<'_>, brace: &Brace, core: Option<f64>) {
    let Some(core) = core else {
        return;
    };
    if brace.sits != Sits::UnderTheCeiling && brace.section.depth().value > core + SLACK {
        let key = ["tube", "outside", "solid"].into_iter().find(|key| table.holds(key)).unwrap_or("tube");
        cx.fault(
            "tube-deeper-than-core",
            table.span_of(key),
            format!("the brace \"{}\" is deeper than the core it is let into", brace.name),
            layer::up_to_core(core),
            "a lower section; or sits = \"under the ceiling\"",
        );
    }
}

fn on_roof(cx: &mut Context<'_>, table: &Table<'_>, brace: &Brace) {
    let strip = strip(brace);
    let past_the_end = cx.length.as_ref().is_some_and(|length| strip.to.value > length.si + SLACK);
    if strip.from.value < -SLACK || past_the_end {
        cx.fault(
            "off-the-roof",
            table.span_of(place_key(table)),
            format!("the brace \"{}\" reaches past the end of the roof", brace.name),
            "a centre line at least half the brace's width from either end",
            "the centre line measured again from the front mark; or a larger roof.length",
        );
    }
}

fn place_key(table: &Table<'_>) -> &'static str {
    if table.holds("beside") { "beside" } else { "along" }
}

fn welds(cx: &mut Context<'_>, table: &Table<'_>, brace: &Brace) {
    if brace.welds.iter().any(|weld| *weld < brace.across.from || *weld > brace.across.to) {
        cx.fault(
            "weld-off-brace",
            table.span_of("welds"),
            format!("a weld lies past the end of the brace \"{}\"", brace.name),
            "places between the ends of the brace, measured from the left wall",
            "the weld's place measured again",
        );
    }
}

fn apart(cx: &mut Context<'_>, table: &Table<'_>, brace: &Brace, earlier: &Items<Brace>) {
    let let_in = |brace: &Brace| brace.sits != Sits::UnderTheCeiling;
    let meets = |other: &Brace| {
        let_in(other) == let_in(brace)
            && share_more_than_an_edge(&strip(other), &strip(brace))
            && share_more_than_an_edge(&other.across, &brace.across)
    };
    if let Some((_, item, _)) = earlier.values().find(|(_, _, other)| meets(other)) {
        cx.fault(
            "braces-overlap",
            table.span_of(place_key(table)),
            format!("the braces \"{}\" and \"{}\" lie in the same place", brace.name, item.name),
            "centre lines at least a brace's width apart",
            "the centre lines measured again; or one brace with the section of both",
        );
    }
}

/// Holds a brace against one opening, and cuts it where it may be cut.
fn clear_of(cx: &mut Context<'_>, table: &Table<'_>, mut brace: Brace, opening: &Opening) -> Brace {
    let hole = &opening.patch;
    if !share_more_than_an_edge(&strip(&brace), &hole.along)
        || !share_more_than_an_edge(&brace.across, &hole.across)
    {
        return brace;
    }
    let left = Interval { from: brace.across.from, to: hole.across.from };
    let right = Interval { from: hole.across.to, to: brace.across.to };
    let none: Length = si(SLACK);
    let kept = match (left.size() > none, right.size() > none) {
        (true, false) => Some(left),
        (false, true) => Some(right),
        (true, true) if brace.existing => Some(if left.size() < right.size() { right } else { left }),
        _ => None,
    };
    let Some(kept) = kept else {
        let opening = &opening.name;
        cx.fault(
            "brace-through-opening",
            table.span_of(place_key(table)),
            format!("the brace \"{}\" runs through the opening \"{opening}\"", brace.name),
            "a brace beside the opening, one that ends at its edge, or one already there and cut (existing = true)",
            format!("beside = {{ opening = \"{opening}\", front = \"2 in\" }}; or across = [from, to] up to the edge"),
        );
        return brace;
    };
    let words = if left.size() > none && right.size() > none {
        format!(
            "the opening \"{}\" cuts the brace \"{}\": its longer piece is counted",
            opening.name, brace.name
        )
    } else {
        format!(
            "the brace \"{}\" ends in the opening \"{}\": it is cut at the edge",
            brace.name, opening.name
        )
    };
    for (end, at) in [("across.1", kept.from), ("across.2", kept.to)] {
        cx.default(&table.path_of(end), Some((at.value, "m")), "brace-cut-at-opening", words.clone());
    }
    brace.across = kept;
    brace
}
