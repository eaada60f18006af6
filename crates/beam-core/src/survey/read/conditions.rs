//! `[conditions]`.

use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Number, Table, Take, Words};
use crate::survey::tree::{Node, Value};
use crate::survey::{Conditions, Road, Snow, SnowKind};

const ROAD: Words<Road> = Words(&[("smooth", Road::Smooth), ("mixed", Road::Mixed), ("rough", Road::Rough)]);
const ROAD_FACTOR: Number = Number::between(1.0, 6.0);
const SNOW: Words<Snow> = Words(&[("none", Snow::None)]);
const SNOW_PRESSURE: Bound = Bound::zero_or_more(Measure::Pressure).plausible(
    0.0..1e4,
    "0 to 10 kPa (0 to 209 psf)",
    "no snow",
    "more snow than any roof of a vehicle carries",
);
const SNOW_DEPTH: Bound = Bound::zero_or_more(Measure::Length).plausible(
    0.0..3.0,
    "0 to 3 m (0 to 118 in)",
    "no snow",
    "deeper than any snow on a vehicle",
);
const SNOW_KIND: Words<SnowKind> = Words(&[
    ("fluffy", SnowKind::Fluffy),
    ("average", SnowKind::Average),
    ("wet", SnowKind::Wet),
    ("fresh", SnowKind::Fluffy),
    ("settled", SnowKind::Average),
    ("packed", SnowKind::Wet),
]);
const WIND: Bound = Bound::zero_or_more(Measure::Pressure).plausible(
    0.0..5e3,
    "0 to 5 kPa (0 to 104 psf)",
    "no wind",
    "more uplift than any road gives",
);
const TEMPERATURE: Bound = Bound::any(Measure::Temperature).plausible(
    -60.0..100.0,
    "-60 to 100 C (-76 to 212 F)",
    "colder than any winter",
    "hotter than any roof in the sun",
);
const YEARS: Number = Number::between(0.1, 50.0).in_unit("years");

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>) -> Option<Conditions> {
    let mut table = root.section(cx, "conditions")?;
    let words =
        "no road is given: mixed, a total factor of 2.5 on all fixed mass (common practice, no source)";
    let road = table.or(cx, "road", &road, (Road::Mixed, "default-road", words));
    let snow = table.or(cx, "snow", &snow, (Snow::None, "default-snow", "no snow is given: clear all snow"));
    let wind = table.optional(cx, "wind", &WIND);
    let words = "no temperature of the roof in the sun is given: 70 C is taken (common practice, no source)";
    let roof_hot = table.or_si(cx, "roof_hot", &TEMPERATURE, (70.0, "C", "default-roof-hot", words));
    let cold = table.optional(cx, "cold", &TEMPERATURE);
    let glued_at = table.optional(cx, "glued_at", &TEMPERATURE);
    let words = "no years of service are given: 10 are taken";
    let years = table.or_si(cx, "years", &YEARS, (10.0, "years", "default-years", words));
    if let (Some(hot), Some(Some(cold))) = (roof_hot, cold)
        && cold >= hot
    {
        let span = table.span_of("cold");
        cx.fault(
            "colder-than-hot",
            span,
            "`conditions.cold` is not colder than `roof_hot`",
            "less than `roof_hot`",
            "the coldest the roof gets",
        );
    }
    table.close(cx);
    Some(Conditions {
        road: road?,
        snow: snow?,
        wind: wind?.map(si),
        roof_hot: roof_hot?,
        cold: cold?,
        glued_at: glued_at?,
        years: years?,
    })
}

fn road(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Road> {
    if Bound::has_digits(node) {
        return ROAD_FACTOR.take(cx, path, node).map(Road::Factor);
    }
    ROAD.take(cx, path, node)
}

/// "none", a pressure, or `{ depth, kind }`.
fn snow(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Snow> {
    if let Value::Table(_) = node.value {
        let mut table = Table::open(cx, path, node)?;
        let depth = table.required(cx, "depth", &SNOW_DEPTH, "\"8 in\"");
        let words = "it is not said what snow it is: wet, the heaviest";
        let kind = table.or(cx, "kind", &SNOW_KIND, (SnowKind::Wet, "default-snow-kind", words));
        table.close(cx);
        return Some(Snow::Depth { depth: si(depth?), kind: kind? });
    }
    if !Bound::has_digits(node) {
        return SNOW.take(cx, path, node);
    }
    let pressure = SNOW_PRESSURE.take(cx, path, node)?;
    Some(if pressure == 0.0 { Snow::None } else { Snow::Pressure(si(pressure)) })
}
