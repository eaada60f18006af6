//! The head of the file: schema, title, quantities of bare numbers, what the technician is sure of.

use crate::quantity::Family;
use crate::survey::problem::Problem;
use crate::survey::take::{Context, Table, Take, Text, Whole, Words, near, without_counters};
use crate::survey::tree::{Node, Value};

pub(super) struct Head {
    pub(super) title: Option<String>,
    /// The declared family.
    pub(super) family: Option<Family>,
}

const LENGTHS: Words<Family> = Words(&[("in", Family::Inch), ("mm", Family::Metric)]);
const WEIGHTS: Words<Family> = Words(&[("lb", Family::Inch), ("kg", Family::Metric)]);

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>, file: &str) -> Head {
    root.or(
        cx,
        "survey",
        &schema,
        ((), "default-schema", "the survey does not say its schema: schema 1 is taken"),
    );
    let title = (file.to_string(), "default-title", "the survey has no title: the name of the file is used");
    let title = root.or(cx, "title", &Text, title);
    let lengths = root.optional(cx, "lengths", &LENGTHS).flatten();
    cx.headers.lengths = lengths;
    cx.headers.weights = root.optional(cx, "weights", &WEIGHTS).flatten();
    root.optional(cx, "sure", &sure);
    Head { title, family: lengths }
}

fn schema(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<()> {
    const ANY: Whole = Whole { from: 0, to: u32::MAX };
    let schema = ANY.take(cx, path, node)?;
    if schema == 1 {
        return Some(());
    }
    cx.problem(
        Problem::new("schema-unknown", node.span.clone(), format!("schema {schema} is not known here"))
            .value(&schema.to_string())
            .allowed("survey = 1")
            .write("survey = 1, or use the version of the program that the survey was made for"),
    );
    None
}

fn sure(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<()> {
    for node in cx.list(path, node)? {
        match &node.value {
            Value::Text(key) => cx.sure.push((key.trim().to_string(), node.span.clone())),
            _ => cx.wrong_kind(path, node, "the dotted name of a key", "\"roof.span\""),
        }
    }
    Some(())
}

/// A key of `sure` that holds no quantity vouches for nothing.
pub(super) fn check_sure(cx: &mut Context<'_>) {
    for (key, span) in std::mem::take(&mut cx.sure) {
        let known = |path: &String| *path == key || without_counters(path) == key;
        if cx.quantity_keys.iter().any(known) {
            continue;
        }
        let guess = near(&key, cx.quantity_keys.iter().map(String::as_str));
        cx.problem(
            Problem::new("sure-unknown", span, format!("`sure` names `{key}`, and no quantity stands there"))
                .value(&key)
                .allowed(
                    "the dotted name of a key with a quantity, counted from 1: roof.span, layer.2.thickness",
                )
                .write(
                    guess
                        .map_or("the name as a message gives it".to_string(), |guess| format!("\"{guess}\"")),
                ),
        );
    }
}

/// Without a declared family, that of the span as typed.
pub(super) fn family_of(cx: &Context<'_>) -> Family {
    let metric = cx.span.as_ref().is_some_and(|span| span.typed.contains('m'));
    if metric { Family::Metric } else { Family::Inch }
}
