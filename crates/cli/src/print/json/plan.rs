//! The roof as understood, and where every value came from.

use beam_core::check::{MadeWith, own_tables};
use beam_core::survey::{Given, Origin, Survey};
use section_tables::Tables;
use serde::Serialize;
use serde_json::{Value, json};

use super::survey::{number, survey as survey_value};
use super::{Unwritable, pretty};
use crate::print::PLAN_CAUTIONS;

/// The keys in the order in which a reader wants them.
#[derive(Debug, Serialize)]
struct PlanDocument<'a> {
    schema: u32,
    made_with: MadeWith,
    title: &'a str,
    survey: Value,
    values: Vec<Value>,
    assumptions: Vec<Value>,
    not_checked: [Value; 0],
    cautions: Vec<Value>,
}

/// The document of `plan`.
pub(crate) fn plan(survey: &Survey, tables: &Tables) -> Result<String, Unwritable> {
    let mut assumptions: Vec<Value> = Vec::new();
    for assumption in survey.givens.iter().filter_map(assumption) {
        if !assumptions.contains(&assumption) {
            assumptions.push(assumption);
        }
    }
    if let Some(own) = own_tables(tables) {
        assumptions.push(json!({ "code": own.code, "words": own.words }));
    }
    let caution = |(code, words): &(&str, &str)| json!({ "code": code, "words": words });
    pretty(&PlanDocument {
        schema: 1,
        made_with: MadeWith::new(tables, &[], Some(&survey.hash)),
        title: &survey.title,
        survey: survey_value(survey),
        values: survey.givens.iter().map(given).collect(),
        assumptions,
        not_checked: [],
        cautions: PLAN_CAUTIONS.iter().map(caution).collect(),
    })
}

fn given(given: &Given) -> Value {
    let mut value = json!({ "key": given.key, "typed": given.typed });
    if let Some(si) = given.si {
        value["si"] = number(si);
        value["unit"] = json!(given.unit);
    }
    match &given.from {
        Origin::Line(line) => {
            value["from"] = json!("survey");
            value["line"] = json!(line);
        }
        Origin::Default { code, words } => {
            value["from"] = json!("default");
            value["code"] = json!(code);
            value["words"] = json!(words);
        }
        Origin::BuildUp(id) => {
            value["from"] = json!("build-up");
            value["words"] = json!(id);
        }
    }
    value
}

fn assumption(given: &Given) -> Option<Value> {
    match &given.from {
        Origin::Line(_) => None,
        Origin::Default { code, words } => Some(json!({ "code": code, "words": words })),
        Origin::BuildUp(id) => Some(json!({
            "code": "from-build-up",
            "words": format!("{} is taken from the build-up {id}", given.key),
        })),
    }
}
