//! The section and material of a brace or trimmer.

use section_tables::{Tube, TubeSystem};

use super::material;
use crate::quantity::{INCH, Measure, si};
use crate::survey::take::{Bound, Context, Pair, Table, Take, Text};
use crate::survey::tree::Node;
use crate::survey::{ListedAlloy, MemberMaterial, MemberSection};

const SIDE: Bound = Bound::above_zero(Measure::Length).plausible(
    0.005..0.2,
    "5 mm to 200 mm (1/4 in to 7 7/8 in)",
    "smaller than any brace",
    "larger than any brace of a roof",
);
const WALL: Bound = Bound::above_zero(Measure::Length).plausible(
    0.5e-3..0.02,
    "0.5 mm to 20 mm (1/32 in to 25/32 in)",
    "thinner than any tube wall",
    "thicker than any tube wall",
);
const CORNER: Bound = Bound::zero_or_more(Measure::Length);

/// `tube`, or `outside` and `wall`, or `solid`; `alloy` or `material`.
pub(super) fn read(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
) -> (Option<MemberSection>, Option<MemberMaterial>) {
    (section(cx, table), stuff(cx, table))
}

fn section(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<MemberSection> {
    table.not_both(cx, "tube", "outside");
    table.not_both(cx, "tube", "solid");
    table.not_both(cx, "outside", "solid");
    if table.has("solid") {
        let [width, depth] = table.required(cx, "solid", &Pair(SIDE), "[\"40 mm\", \"60 mm\"]")?;
        return Some(MemberSection::Solid { width: si(width), depth: si(depth) });
    }
    if table.has("outside") || table.has("wall") {
        return own_tube(cx, table);
    }
    // Asked for, so that they are known keys.
    table.has("corner");
    table.required(cx, "tube", &tube, "\"1 x 1 x 1/8\"")
}

fn own_tube(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<MemberSection> {
    let outside = table.required(cx, "outside", &Pair(SIDE), "[\"25.4 mm\", \"25.4 mm\"]");
    let wall = table.required(cx, "wall", &WALL, "\"3.175 mm\"");
    let words = "no corner radius is given: a sharp corner is taken";
    let corner = table.or_si(cx, "corner", &CORNER, (0.0, "m", "default-corner", words));
    let ([width, depth], wall, corner) = (outside?, wall?, corner?);
    let least = width.min(depth);
    if 2.0 * wall >= least || 2.0 * corner > least {
        let span = table.span_of(if 2.0 * wall >= least { "wall" } else { "corner" });
        cx.fault(
            "tube-impossible",
            span,
            "the wall or corner leaves no tube",
            "a wall of less than half the outside, a corner radius of at most half",
            "the size measured again; or solid = [width, depth] for a bar",
        );
        return None;
    }
    Some(MemberSection::Tube {
        id: None,
        width: si(width),
        depth: si(depth),
        wall: si(wall),
        corner: si(corner),
    })
}

fn tube(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<MemberSection> {
    let name = Text.take(cx, path, node)?;
    match cx.tables.tube(&name) {
        Ok(row) => Some(from_row(row)),
        Err(error) => {
            cx.row_unknown(path, node, &name, "tube", error.near, &error.known);
            None
        }
    }
}

fn from_row(row: &Tube) -> MemberSection {
    let metres = |size: f64| match row.system {
        TubeSystem::Inch => si(size * INCH),
        TubeSystem::Metric => si(size / 1000.0),
    };
    MemberSection::Tube {
        id: Some(row.id.clone()),
        width: metres(row.width),
        depth: metres(row.depth),
        wall: metres(row.wall),
        corner: metres(row.corner),
    }
}

fn stuff(cx: &mut Context<'_>, table: &mut Table<'_>) -> Option<MemberMaterial> {
    table.not_both(cx, "alloy", "material");
    if table.has("material") {
        return table.required(cx, "material", &material::find, "\"softwood\"").map(MemberMaterial::Other);
    }
    table.required(cx, "alloy", &alloy, "\"6061-T6\"")
}

fn alloy(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<MemberMaterial> {
    let name = Text.take(cx, path, node)?;
    match ListedAlloy::find(&name, cx.tables) {
        Ok(alloy) => Some(MemberMaterial::Alloy(Box::new(alloy))),
        Err(error) => {
            cx.row_unknown(path, node, &name, "alloy", error.near, &error.known);
            None
        }
    }
}
