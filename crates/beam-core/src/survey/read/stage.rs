//! `[[stage]]`: the order of work.

use super::load::BUILT_IN;
use super::opening;
use crate::quantity::{Measure, si};
use crate::survey::take::{Bound, Context, Items, Naming, Number, Pair, Table, Take, Text, point};
use crate::survey::tree::{Node, Value};
use crate::survey::{Brace, Cure, Interval, Layer, Load, Opening, Patch, Prop, Stage};

const RAISE: Bound = Bound::zero_or_more(Measure::Length).plausible(
    0.0..0.2,
    "0 to 200 mm (0 to 7 7/8 in)",
    "no lift",
    "higher than any roof may be lifted",
);
const PAD: Bound = Bound::above_zero(Measure::Length).plausible(
    0.02..2.0,
    "20 mm to 2 m (3/4 in to 78 in)",
    "smaller than any prop",
    "larger than any prop's pad",
);
const HOURS: Number = Number::between(0.0, 10_000.0).in_unit("h");
const TEMPERATURE: Bound = Bound::any(Measure::Temperature).plausible(
    -30.0..80.0,
    "-30 to 80 C (-22 to 176 F)",
    "colder than anyone glues",
    "hotter than anyone glues",
);

/// Stages that every survey has.
const ALWAYS: [&str; 2] = ["as found", "finished"];

/// The names of the survey's own stages, before anything of them is read.
pub(super) fn names(root: &mut Table<'_>) -> Vec<String> {
    let nodes = match root.node("stage").map(|node| &node.value) {
        Some(Value::Array(nodes)) => nodes.as_slice(),
        _ => &[],
    };
    let name = |node: &Node| match &node.value {
        Value::Table(entries) => entries.iter().find(|entry| entry.key == "name").and_then(|entry| {
            if let Value::Text(name) = &entry.node.value { Some(name.trim().to_string()) } else { None }
        }),
        _ => None,
    };
    nodes.iter().filter_map(name).collect()
}

/// What a stage may name.
pub(super) struct Known<'a> {
    pub(super) layers: &'a Items<Layer>,
    pub(super) braces: &'a Items<Brace>,
    pub(super) loads: &'a Items<Load>,
    pub(super) openings: &'a Items<Opening>,
}

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>, known: &Known<'_>) -> Items<Stage> {
    Items::read(cx, root, "stage", Naming::Key, |cx, table, name, _| stage(cx, table, name, known))
}

fn stage(cx: &mut Context<'_>, table: &mut Table<'_>, name: &str, known: &Known<'_>) -> Option<Stage> {
    if ALWAYS.contains(&name) {
        let message = format!("the stage \"{name}\" is always there");
        cx.fault(
            "name-reserved",
            table.span_of("name"),
            message,
            "a name of its own",
            "another name, or leave it out",
        );
    }
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| known.layers.find_all(cx, path, node);
    let all = (0..known.layers.list.len()).collect();
    let words = format!("the layers of the stage \"{name}\" are not named: all are taken");
    let layers = table.or(cx, "layers", &find, (all, "default-stage-layers", &words));
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| known.braces.find_all(cx, path, node);
    let existing =
        known.braces.values().filter(|(_, _, brace)| brace.existing).map(|(at, _, _)| at).collect();
    let words =
        format!("the braces of the stage \"{name}\" are not named: only those already in the roof are taken");
    let braces = table.or(cx, "braces", &find, (existing, "default-stage-braces", &words));
    let cured = cured(cx, table, name);
    let raise = table.optional(cx, "raise", &RAISE);
    let props: Items<Prop> =
        Items::read(cx, table, "props", Naming::None, |cx, table, _, _| prop(cx, table, known.openings));
    let load_names = |cx: &mut Context<'_>, path: &str, node: &Node| load_names(cx, path, node, known.loads);
    let words = format!("no loads of the stage \"{name}\" are named: only the roof's own weight is taken");
    let loads = table.or(cx, "loads", &load_names, (Vec::new(), "default-stage-loads", &words));
    Some(Stage {
        name: name.to_string(),
        layers: layers?,
        braces: braces?,
        cured: cured?,
        raise: raise?.map(si),
        props: props.into_values()?,
        loads: loads?,
    })
}

/// `cured = { hours, at }`, or `bond` as a share of strength.
fn cured(cx: &mut Context<'_>, table: &mut Table<'_>, name: &str) -> Option<Cure> {
    table.not_both(cx, "cured", "bond");
    if let Some(share) = table.optional(cx, "bond", &Number::SHARE)? {
        return Some(Cure::Share(share));
    }
    let words = format!(
        "nothing is said of curing in the stage \"{name}\": what is new in it is taken as fully cured"
    );
    table.or(cx, "cured", &cure_time, (Cure::Full, "default-cured", &words))
}

fn cure_time(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Cure> {
    let mut table = Table::open(cx, path, node)?;
    if table.has("bond") {
        let share = table.required(cx, "bond", &Number::SHARE, "0.5");
        table.close(cx);
        return share.map(Cure::Share);
    }
    let hours = table.required(cx, "hours", &HOURS, "24");
    let at = table.required(cx, "at", &TEMPERATURE, "\"16 C\"");
    table.close(cx);
    Some(Cure::Time { hours: hours?, at: at? })
}

fn prop(cx: &mut Context<'_>, table: &mut Table<'_>, openings: &Items<Opening>) -> Option<Prop> {
    let (span, length) = (cx.span.clone(), cx.length.clone());
    let across = point(cx, table, "across", span);
    let along = point(cx, table, "along", length);
    let pad = table.optional(cx, "pad", &Pair(PAD));
    let (across, along, pad) = (across?, along?, pad?);
    let [wide, long] = pad.unwrap_or([0.0; 2]);
    let place = Patch {
        across: Interval { from: si(across - wide / 2.0), to: si(across + wide / 2.0) },
        along: Interval { from: si(along - long / 2.0), to: si(along + long / 2.0) },
    };
    opening::not_over_nothing(cx, "a prop", table.span_of("across"), &place, openings)?;
    Some(Prop { across: si(across), along: si(along), pad: pad.map(|pad| pad.map(si)) })
}

/// Names of the survey's own loads, or of those that every survey has.
fn load_names(cx: &mut Context<'_>, path: &str, node: &Node, loads: &Items<Load>) -> Option<Vec<String>> {
    let mut names = Some(Vec::new());
    for (index, node) in cx.list(path, node)?.iter().enumerate() {
        let path = format!("{path}.{}", index + 1);
        let name = Text.take(cx, &path, node).and_then(|name| {
            let known: Vec<&str> = loads.list.iter().map(|item| item.name.as_str()).chain(BUILT_IN).collect();
            if known.contains(&name.as_str()) {
                return Some(name);
            }
            cx.name_unknown(&path, node, &name, "load", known);
            None
        });
        names = names.zip(name).map(|(mut names, name)| {
            names.push(name);
            names
        });
    }
    names
}
