//! `[[trimmer]]`.

use super::member;
use crate::quantity::{Length, si};
use crate::survey::take::{Context, Items, Naming, Table, Text, point};
use crate::survey::tree::Node;
use crate::survey::{Brace, Opening, Patch, Trimmer};

/// Nearer than this to an edge, a trimmer lies on it, m.
const ON_THE_EDGE: f64 = 1e-3;

pub(super) fn read(
    cx: &mut Context<'_>,
    root: &mut Table<'_>,
    braces: &Items<Brace>,
    openings: &Items<Opening>,
) -> Items<Trimmer> {
    Items::read(cx, root, "trimmer", Naming::None, |cx, table, _, _| {
        let trimmer = trimmer(cx, table, braces)?;
        fit(cx, table, &trimmer, braces, openings);
        Some(trimmer)
    })
}

/// Records two braces in one line, and an opening between them where the trimmer runs.
fn fit(
    cx: &mut Context<'_>,
    table: &Table<'_>,
    trimmer: &Trimmer,
    braces: &Items<Brace>,
    openings: &Items<Opening>,
) {
    let [Some(one), Some(other)] = trimmer.between.map(|b| braces.list[b].value.as_ref()) else { return };
    let near: Length = si(ON_THE_EDGE);
    let (front, rear) = (one.along.min(other.along), one.along.max(other.along));
    if rear - front <= near {
        cx.fault(
            "trimmer-between",
            table.span_of("between"),
            "the two braces of a trimmer lie in one line: there is nothing between them",
            "two braces with some length of the roof between them",
            "the braces it runs between",
        );
    }
    let crosses = |hole: &Patch| {
        hole.across.from + near < trimmer.across
            && trimmer.across + near < hole.across.to
            && hole.along.from + near < rear
            && front + near < hole.along.to
    };
    if let Some((_, item, _)) = openings.values().find(|(_, _, opening)| crosses(&opening.patch)) {
        cx.fault(
            "trimmer-through-opening",
            table.span_of("across"),
            format!("the trimmer runs through the opening \"{}\"", item.name),
            "a trimmer beside the opening or on its edge",
            "the trimmer's centre line measured again from the left wall",
        );
    }
}

fn trimmer(cx: &mut Context<'_>, table: &mut Table<'_>, braces: &Items<Brace>) -> Option<Trimmer> {
    table.optional(cx, "name", &Text);
    let between = |cx: &mut Context<'_>, path: &str, node: &Node| {
        let found = braces.find_all(cx, path, node)?;
        let Ok(two) = <[usize; 2]>::try_from(found) else {
            cx.fault(
                "trimmer-between",
                node.span.clone(),
                "a trimmer runs between two different braces",
                "the names of two braces",
                "between = [\"front\", \"rear\"]",
            );
            return None;
        };
        Some(two)
    };
    let between = table.required(cx, "between", &between, "[\"front\", \"rear\"]");
    let extent = cx.span.clone();
    let across = point(cx, table, "across", extent);
    let (section, material) = member::read(cx, table);
    let trimmer = Trimmer { between: between?, across: si(across?), section: section?, material: material? };
    let past_its_end = |index: &usize| {
        let brace = braces.list[*index].value.as_ref();
        brace.is_some_and(|brace| trimmer.across < brace.across.from || trimmer.across > brace.across.to)
    };
    if let Some(index) = trimmer.between.iter().find(|index| past_its_end(index)) {
        cx.fault(
            "trimmer-off-brace",
            table.span_of("across"),
            format!("the trimmer lies past the end of the brace \"{}\"", braces.list[*index].name),
            "a place across where both braces are",
            "the place measured again from the left wall",
        );
    }
    cx.default(
        &table.path_of("sits"),
        None,
        "default-trimmer-sits",
        "a trimmer is taken to sit as its braces do and to lie loose against the panel: its end joints carry shear alone",
    );
    Some(trimmer)
}
