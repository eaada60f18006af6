//! `[[trimmer]]`.

use super::member;
use crate::quantity::si;
use crate::survey::take::{Context, Items, Naming, Table, Text, point};
use crate::survey::tree::Node;
use crate::survey::{Brace, Trimmer};

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>, braces: &Items<Brace>) -> Items<Trimmer> {
    Items::read(cx, root, "trimmer", Naming::None, |cx, table, _, _| trimmer(cx, table, braces))
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
    Some(trimmer)
}
