//! `[wall]`.

use super::material;
use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Table, Take, Words};
use crate::survey::tree::Node;
use crate::survey::{Condition, Thrust, Wall};

const DEPTH: Bound = Bound::above_zero(Measure::Length).plausible(
    0.005..0.3,
    "5 mm to 300 mm (1/4 in to 11 3/4 in)",
    "thinner than any ledger",
    "deeper than any ledger",
);
const CONDITION: Words<Condition> =
    Words(&[("sound", Condition::Sound), ("soft", Condition::Soft), ("not known", Condition::NotKnown)]);
const HOLD_DOWN: Bound = Bound::zero_or_more(Measure::LinePressure);
const THRUST: Words<Thrust> = Words(&[("none", Thrust::None), ("full", Thrust::Full)]);
const SPRING: Bound = Bound::above_zero(Measure::LineStiffness);

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>) -> Option<Wall> {
    let mut table = root.section(cx, "wall")?;
    let material = table.optional(cx, "material", &material::find);
    let depth = table.optional(cx, "depth", &DEPTH);
    let words = "nothing is said of what the braces and the panel land on: its condition is not known";
    let condition =
        table.or(cx, "condition", &CONDITION, (Condition::NotKnown, "default-wall-condition", words));
    let hold_down = table.optional(cx, "hold_down", &HOLD_DOWN);
    if hold_down == Some(None) {
        let words = "nothing is said of how the roof is held down: the walls only push up";
        cx.default(&table.path_of("hold_down"), None, "default-hold-down", words);
    }
    let words = "nothing is said of sideways hold: the walls are taken to give way";
    let thrust = table.or(cx, "thrust", &thrust, (Thrust::None, "default-thrust", words));
    table.close(cx);
    Some(Wall {
        material: material?,
        depth: depth?.map(si),
        condition: condition?,
        hold_down: hold_down?.map(si),
        thrust: thrust?,
    })
}

fn thrust(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Thrust> {
    if Bound::has_digits(node) {
        return SPRING.take(cx, path, node).map(|spring| Thrust::Spring(si(spring)));
    }
    THRUST.take(cx, path, node)
}
