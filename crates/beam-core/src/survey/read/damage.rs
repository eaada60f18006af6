//! `[[damage]]`.

use section_tables::DamagedLayer;

use super::layer::is_core;
use crate::survey::problem::Problem;
use crate::survey::take::{Context, Items, Naming, Number, Table, Take, Text, patch};
use crate::survey::tree::{Node, Value};
use crate::survey::{Damage, DamageState, Layer};

pub(super) fn read(
    cx: &mut Context<'_>,
    root: &mut Table<'_>,
    layers: &Items<Layer>,
    stages: &[String],
) -> Items<Damage> {
    Items::read(cx, root, "damage", Naming::Key, |cx, table, name, _| damage(cx, table, name, layers, stages))
}

fn damage(
    cx: &mut Context<'_>,
    table: &mut Table<'_>,
    name: &str,
    layers: &Items<Layer>,
    stages: &[String],
) -> Option<Damage> {
    let find = |cx: &mut Context<'_>, path: &str, node: &Node| layers.find(cx, path, node);
    let layer = table.required(cx, "layer", &find, "\"core\"");
    let patch = patch(cx, table);
    table.not_both(cx, "state", "remaining");
    let core = layer.and_then(|at| layers.list[at].value.as_ref()).map(is_core);
    let in_words = |cx: &mut Context<'_>, path: &str, node: &Node| state(cx, path, node, core);
    let state = match (table.has("state"), table.has("remaining")) {
        (false, true) => table.required(cx, "remaining", &remaining, "0.3"),
        _ => table.required(cx, "state", &in_words, "\"crushed\", or remaining = 0.3"),
    };
    let until = |cx: &mut Context<'_>, path: &str, node: &Node| until(cx, path, node, stages);
    let until = table.optional(cx, "until", &until);
    if until == Some(None) {
        let words =
            format!("nothing is said of mending the damage \"{name}\": it stays in the finished roof");
        cx.default(&table.path_of("until"), None, "default-until", words);
    }
    Some(Damage { name: name.to_string(), layer: layer?, patch: patch?, state: state?, until: until? })
}

fn state(cx: &mut Context<'_>, path: &str, node: &Node, core: Option<bool>) -> Option<DamageState> {
    let word = Text.take(cx, path, node)?;
    let tables = cx.tables;
    let state = match tables.damage_state(&word) {
        Ok(state) => state,
        Err(error) => {
            cx.row_unknown(path, node, &word, "state of damage", error.near, &error.known);
            return None;
        }
    };
    let kind = if core? { DamagedLayer::Core } else { DamagedLayer::Skin };
    if state.effect_on(kind).is_none() {
        let defined = |state: &&section_tables::DamageState| state.effect_on(kind).is_some();
        let words: Vec<String> =
            tables.damage.iter().filter(defined).map(|s| format!("\"{}\"", s.id)).collect();
        cx.problem(
            Problem::new(
                "state-not-for-layer",
                node.span.clone(),
                format!("a {kind} is never \"{}\"", state.id),
            )
            .value(&word)
            .allowed(words.join(", "))
            .write("one of the words above; or remaining = { stiffness, strength }"),
        );
        return None;
    }
    Some(DamageState::Table(Box::new(state.clone())))
}

/// One share for both, or `{ stiffness, strength }`, of which one serves both too.
fn remaining(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<DamageState> {
    let Value::Table(_) = node.value else {
        let share = Number::SHARE.take(cx, path, node)?;
        return Some(DamageState::Remaining { stiffness: share, strength: share });
    };
    let mut table = Table::open(cx, path, node)?;
    let stiffness = table.optional(cx, "stiffness", &Number::SHARE);
    let strength = table.optional(cx, "strength", &Number::SHARE);
    if (stiffness, strength) == (Some(None), Some(None)) {
        table.missing(cx, "stiffness", "0.3");
    }
    table.close(cx);
    let (stiffness, strength) = (stiffness?, strength?);
    Some(DamageState::Remaining { stiffness: stiffness.or(strength)?, strength: strength.or(stiffness)? })
}

/// A stage of the survey, "finished", or the common "re-skinned" for the finished roof.
fn until(cx: &mut Context<'_>, path: &str, node: &Node, stages: &[String]) -> Option<String> {
    let name = Text.take(cx, path, node)?;
    if name == "finished" || stages.contains(&name) {
        return Some(name);
    }
    if name == "re-skinned" {
        let words = "no stage is called \"re-skinned\": the damage is taken as mended in the finished roof";
        cx.default(path, None, "until-finished", words);
        return Some("finished".to_string());
    }
    let known = stages.iter().map(String::as_str).chain(["finished", "re-skinned"]).collect();
    cx.name_unknown(path, node, &name, "stage", known);
    None
}
