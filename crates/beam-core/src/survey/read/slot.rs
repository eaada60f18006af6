//! `[[slot]]` in the core and `[[joint]]` in the skins.

use super::layer::{core_depth, up_to_core};
use super::material;
use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Items, Naming, Table, Words, patch, point};
use crate::survey::tree::Node;
use crate::survey::{Joint, JointKind, JointLine, Layer, Slot, SlotFrom};

const DEPTH: Bound = Bound::above_zero(Measure::Length);
const FROM: Words<SlotFrom> = Words(&[("top", SlotFrom::Top), ("bottom", SlotFrom::Bottom)]);
const KIND: Words<JointKind> =
    Words(&[("butt", JointKind::Butt), ("backed", JointKind::Backed), ("scarfed", JointKind::Scarfed)]);

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>, layers: &Items<Layer>) -> Items<Slot> {
    Items::read(cx, root, "slot", Naming::None, |cx, table, _, _| slot(cx, table, layers))
}

fn slot(cx: &mut Context<'_>, table: &mut Table<'_>, layers: &Items<Layer>) -> Option<Slot> {
    // A slot may carry a name for the reader's sake.
    table.optional(cx, "name", &crate::survey::take::Text);
    let patch = patch(cx, table);
    let depth = table.optional(cx, "depth", &DEPTH);
    if depth == Some(None) {
        let words = "no depth is given: the foam is taken as missing over its full depth";
        cx.default(&table.path_of("depth"), None, "default-slot-depth", words);
    }
    if let (Some(Some(depth)), Some(core)) = (depth, core_depth(layers))
        && depth > core + 1e-6
    {
        let span = table.span_of("depth");
        cx.fault(
            "slot-deeper-than-core",
            span,
            "the slot is deeper than the core it is cut into",
            up_to_core(core),
            "the depth measured again, or leave `depth` out for a slot right through the core",
        );
    }
    let from = match depth {
        Some(Some(_)) => {
            let words = "it is not said from which face the slot is cut: from the ceiling side";
            table.or(cx, "from", &FROM, (SlotFrom::Bottom, "default-slot-from", words))
        }
        _ => table.optional(cx, "from", &FROM).map(|from| from.unwrap_or(SlotFrom::Bottom)),
    };
    let filled = table.optional(cx, "filled", &material::find);
    Some(Slot { patch: patch?, depth: depth?.map(si), from: from?, filled: filled? })
}

pub(super) fn joints(cx: &mut Context<'_>, root: &mut Table<'_>, layers: &Items<Layer>) -> Items<Joint> {
    Items::read(cx, root, "joint", Naming::None, |cx, table, _, _| joint(cx, table, layers))
}

fn joint(cx: &mut Context<'_>, table: &mut Table<'_>, layers: &Items<Layer>) -> Option<Joint> {
    table.optional(cx, "name", &crate::survey::take::Text);
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| layers.find(cx, path, node);
    let layer = table.required(cx, "layer", &find, "\"outer skin\"");
    table.not_both(cx, "along", "across");
    let line = if table.has("across") {
        let extent = cx.span.clone();
        point(cx, table, "across", extent).map(|at| JointLine::AtAcross(si(at)))
    } else {
        let extent = cx.length.clone();
        point(cx, table, "along", extent).map(|at| JointLine::AtAlong(si(at)))
    };
    let words = "it is not said what joint this is: taken as a butt joint, which carries no force";
    let kind = table.or(cx, "kind", &KIND, (JointKind::Butt, "default-joint", words));
    Some(Joint { layer: layer?, line: line?, kind: kind? })
}
