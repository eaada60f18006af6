//! `[[brace]]`.

use super::layer::core_depth;
use super::{brace_fit, member};
use crate::quantity::{Length, Measure, si};
use crate::survey::problem::Problem;
use crate::survey::take::{
    Bound, Context, Items, Naming, Number, Table, Take, Text, Whole, Words, YesNo, interval, on_roof, point,
};
use crate::survey::tree::Node;
use crate::survey::{Brace, Formed, Glue, Interval, Layer, MemberSection, Opening, Seat, Sides, Sits};

const SITS: Words<Sits> = Words(&[
    ("in the foam", Sits::InTheFoam),
    ("under the ceiling", Sits::UnderTheCeiling),
    ("on the inner skin", Sits::OnTheInnerSkin),
]);
const SIDES: Words<Sides> =
    Words(&[("foam glued", Sides::FoamGlued), ("slot left open", Sides::SlotLeftOpen)]);
const FORMED: Words<Formed> = Words(&[("bent", Formed::Bent), ("sprung", Formed::Sprung)]);
const GAP: Bound = Bound::zero_or_more(Measure::Length);
const BED: Bound = Bound::above_zero(Measure::Length).plausible(
    0.02e-3..0.01,
    "0.02 mm to 10 mm",
    "thinner than any glue bed",
    "thicker than any glue bed",
);
const SMALL: Bound = Bound::above_zero(Measure::Length).plausible(
    0.5e-3..0.3,
    "0.5 mm to 300 mm",
    "smaller than any seat or screw",
    "larger than any seat or screw",
);
const SCREWS: Whole = Whole { from: 0, to: 50 };

/// Rounding, not measuring.
const SLACK: f64 = 1e-6;

pub(super) fn read(
    cx: &mut Context<'_>,
    root: &mut Table<'_>,
    layers: &Items<Layer>,
    openings: &Items<Opening>,
) -> Items<Brace> {
    Items::read(cx, root, "brace", Naming::Key, |cx, table, name, earlier| {
        let brace = brace(cx, table, name, layers, openings)?;
        Some(brace_fit::fit(cx, table, brace, core_depth(layers), openings, earlier))
    })
}

fn brace(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    name: &str,
    layers: &Items<Layer>,
    openings: &Items<Opening>,
) -> Option<Brace> {
    let (section, material) = member::read(cx, table);
    let along = along(cx, table, section.as_ref(), openings);
    let across = across(cx, table);
    let foam = (Sits::InTheFoam, "default-sits", "it is not said where the brace sits: let into the foam");
    let sits = table.or(cx, "sits", &SITS, foam);
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| layers.find_all(cx, path, node);
    let loose = (Vec::new(), "default-glued", "no layer is named that the brace is glued to: it lies loose");
    let glued = table.or(cx, "glued", &find, loose);
    let glue = table.optional(cx, "glue", &|cx: &mut Context<'_>, path: &str, node: &Node| {
        glue(cx, path, node, section.as_ref())
    });
    if let (Some(true), Some(Some(_))) = (glued.as_ref().map(Vec::is_empty), &glue) {
        let span = table.span_of("glue");
        cx.problem(
            Problem::new(
                "glue-without-layer",
                span,
                "a glue is given, and no layer that the brace is glued to",
            )
            .value("glued = []")
            .allowed("`glued` with the layers whose faces the brace is bonded to")
            .write("glued = [\"outer skin\"], or leave `glue` out"),
        );
    }
    let lies_loose = glued.as_ref().is_none_or(Vec::is_empty);
    let sides = if lies_loose {
        (
            Sides::SlotLeftOpen,
            "default-sides",
            "the brace lies loose: the slot beside it is taken as left open",
        )
    } else {
        (
            Sides::FoamGlued,
            "default-sides",
            "nothing is said of its sides: the foam is taken as glued against the brace",
        )
    };
    let sides = table.or(cx, "sides", &SIDES, sides);
    let bent =
        (Formed::Bent, "default-formed", "it is not said how the brace got its curve: bent to the crown");
    let formed = table.or(cx, "formed", &FORMED, bent);
    let new =
        (false, "default-existing", "it is not said that the brace is already in the roof: taken as new");
    let existing = table.or(cx, "existing", &YesNo, new);
    let seat = table.optional(cx, "seat", &seat);
    let none = (Vec::new(), "default-welds", "no welds are given: none are taken");
    let extent = cx.span.clone();
    let welds = |cx: &mut Context<'_>, path: &str, node: &Node| {
        let mut places = Some(Vec::new());
        for (index, node) in cx.list(path, node)?.iter().enumerate() {
            let path = format!("{path}.{}", index + 1);
            let at = Bound::any(Measure::Length).take(cx, &path, node);
            let at = at.and_then(|at| on_roof(cx, &path, node, at, at, extent.as_ref()).map(|()| at));
            places = places.zip(at).map(|(mut places, at)| {
                places.push(si(at));
                places
            });
        }
        places
    };
    let welds: Option<Vec<Length>> = table.or(cx, "welds", &welds, none);
    Some(Brace {
        name: name.to_string(),
        section: section?,
        material: material?,
        along: si(along?),
        across: across?,
        sits: sits?,
        glued: glued?,
        glue: glue?,
        sides: sides?,
        formed: formed?,
        existing: existing?,
        seat: seat?,
        welds: welds?,
    })
}

/// The centre line: `along`, or `beside` an opening.
fn along(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    section: Option<&MemberSection>,
    openings: &Items<Opening>,
) -> Option<f64> {
    table.not_both(cx, "along", "beside");
    if !table.has("beside") {
        let extent = cx.length.clone();
        return point(cx, table, "along", extent);
    }
    let from_opening =
        |cx: &mut Context<'_>, path: &str, node: &Node| beside(cx, path, node, section, openings);
    let along =
        table.required(cx, "beside", &from_opening, "{ opening = \"unit opening\", front = \"2 in\" }")?;
    let words = "the gap of `beside` is taken from the edge of the opening to the near face of the brace";
    cx.default(&table.path_of("along"), Some((along, "m")), "brace-beside", words);
    Some(along)
}

/// Where the centre line lies for a gap between an opening's edge and the near face of the brace.
fn beside(
    cx: &mut Context<'_>,
    path: &str,
    node: &Node,
    section: Option<&MemberSection>,
    openings: &Items<Opening>,
) -> Option<f64> {
    let mut table = Table::open(cx, path, node)?;
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| openings.find(cx, path, node);
    let opening = table.required(cx, "opening", &find, "\"unit opening\"");
    table.not_both(cx, "front", "rear");
    let rear = table.has("rear");
    let gap = table.required(cx, if rear { "rear" } else { "front" }, &GAP, "\"2 in\"");
    let span = table.span_of(if rear { "rear" } else { "front" });
    table.close(cx);
    let hole = openings.list[opening?].value.as_ref()?.patch.along;
    let half = section?.width().value / 2.0;
    let along = if rear { hole.to.value + gap? + half } else { hole.from.value - gap? - half };
    let place = Node { span, value: node.value.clone() };
    let length = cx.length.clone();
    on_roof(cx, path, &place, along, along, length.as_ref())?;
    Some(along)
}

fn across(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<Interval> {
    let extent = cx.span.clone();
    let take = |cx: &mut Context<'_>, path: &str, node: &Node| interval(cx, path, node, extent.as_ref());
    if let Some(given) = table.optional(cx, "across", &take)? {
        return Some(given);
    }
    let span = extent?.si;
    let words = "it is not said that the brace is cut short: it runs from wall to wall";
    cx.default(&table.path_of("across"), Some((span, "m")), "default-across", words);
    Some(Interval { from: si(0.0), to: si(span) })
}

fn glue(cx: &mut Context<'_>, path: &str, node: &Node, section: Option<&MemberSection>) -> Option<Glue> {
    let mut table = Table::open(cx, path, node)?;
    let product = |cx: &mut Context<'_>, path: &str, node: &Node| {
        let name = Text.take(cx, path, node)?;
        match cx.tables.adhesive(&name) {
            Ok(row) => Some(row.clone()),
            Err(error) => {
                cx.row_unknown(path, node, &name, "glue", error.near, &error.known);
                None
            }
        }
    };
    let product = table.required(cx, "product", &product, "\"rigid polyurethane\"");
    let width = match section {
        Some(section) => {
            let words = "no width of the glue bed is given: the whole face of the brace is taken";
            table.or_si(cx, "width", &SMALL, (section.width().value, "m", "default-glue-width", words))
        }
        None => table.optional(cx, "width", &SMALL).flatten(),
    };
    let words = "no thickness of the glue bed is given: 0.3 mm is taken (common practice, no source)";
    let bed = table.or_si(cx, "bed", &BED, (0.3e-3, "m", "default-glue-bed", words));
    let words = "no coverage of the glue is given: 0.7 of the face is taken (common practice, no source)";
    let coverage = table.or_si(cx, "coverage", &Number::SHARE, (0.7, "", "default-glue-coverage", words));
    if let (Some(section), Some(width)) = (section, width)
        && width > section.width().value + SLACK
    {
        let span = table.span_of("width");
        cx.fault(
            "glue-wider-than-brace",
            span,
            "the glue bed is wider than the face of the brace",
            format!("up to {:.1} mm, the width of the brace", section.width().value * 1000.0),
            "the width of the face that is glued",
        );
    }
    table.close(cx);
    Some(Glue { product: product?, width: si(width?), bed: si(bed?), coverage: coverage? })
}

fn seat(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Seat> {
    let mut table = Table::open(cx, path, node)?;
    let bearing_length = table.required(cx, "bearing_length", &SMALL, "\"40 mm\"");
    let screws = table.optional(cx, "screws", &SCREWS);
    let screw = table.optional(cx, "screw", &SMALL);
    let edge = table.optional(cx, "edge", &SMALL);
    table.close(cx);
    Some(Seat {
        bearing_length: si(bearing_length?),
        screws: screws?,
        screw: screw?.map(si),
        edge: edge?.map(si),
    })
}
