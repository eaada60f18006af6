//! `[[opening]]`.

use super::material;
use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Items, Naming, Table, patch};
use crate::survey::tree::Node;
use crate::survey::{Opening, OpeningFrame, Patch};

const FRAME_WIDTH: Bound = Bound::above_zero(Measure::Length).plausible(
    0.005..0.2,
    "5 mm to 200 mm (1/4 in to 7 7/8 in)",
    "narrower than any frame piece",
    "wider than any frame piece",
);

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>) -> Items<Opening> {
    Items::read(cx, root, "opening", Naming::Key, opening)
}

fn opening(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    name: &str,
    earlier: &Items<Opening>,
) -> Option<Opening> {
    let patch = patch(cx, table);
    let frame = table.optional(cx, "frame", &frame);
    if frame.as_ref().is_some_and(Option::is_none) {
        let words = format!("no frame is given for the opening \"{name}\": it is taken as unframed");
        cx.default(&table.path_of("frame"), None, "default-frame", words);
    }
    let opening = Opening { name: name.to_string(), patch: patch?, frame: frame? };
    if let Some((_, other, _)) = earlier.values().find(|(_, _, other)| other.patch.overlaps(&opening.patch)) {
        let span = table.span_of("across");
        cx.fault(
            "openings-overlap",
            span,
            format!("the openings \"{name}\" and \"{}\" overlap", other.name),
            "openings that share no area",
            "the edges measured again; or one opening that holds both",
        );
    }
    Some(opening)
}

fn frame(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<OpeningFrame> {
    let mut table = Table::open(cx, path, node)?;
    let width = table.required(cx, "width", &FRAME_WIDTH, "\"1 in\"");
    let material = table.required(cx, "material", &material::find, "\"softwood\"");
    table.close(cx);
    Some(OpeningFrame { width: si(width?), material: material? })
}

/// Records a place that lies wholly inside an opening: nothing is there.
pub(super) fn not_over_nothing(
    cx: &mut Context<'_>,
    what: &str,
    span: std::ops::Range<usize>,
    place: &Patch,
    openings: &Items<Opening>,
) -> Option<()> {
    let inside = |opening: &Opening| {
        let hole = &opening.patch;
        hole.across.from <= place.across.from
            && place.across.to <= hole.across.to
            && hole.along.from <= place.along.from
            && place.along.to <= hole.along.to
            && (hole.across.from < place.across.to && place.across.from < hole.across.to)
            && (hole.along.from < place.along.to && place.along.from < hole.along.to)
    };
    let Some((_, item, _)) = openings.values().find(|(_, _, opening)| inside(opening)) else {
        return Some(());
    };
    cx.fault(
        "over-nothing",
        span,
        format!("{what} lies over the opening \"{}\": nothing is there", item.name),
        "a place on the roof, at most at the edge of an opening",
        "the place measured again, from the left wall and the front mark",
    );
    None
}
