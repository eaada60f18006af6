//! The roof as understood, and where every value came from.

use beam_core::survey::{Given, Origin, Survey};
use section_tables::Tables;
use serde_json::{Value, json};

use super::survey::{number, survey as survey_value};
use super::{Unwritable, pretty};
use crate::print::PLAN_CAUTIONS;

/// The document of `plan`.
pub(crate) fn plan(survey: &Survey) -> Result<String, Unwritable> {
    let cautions: Vec<Value> =
        PLAN_CAUTIONS.iter().map(|(code, words)| json!({ "code": code, "words": words })).collect();
    pretty(&json!({
        "schema": 1,
        "made_with": {
            "version": env!("CARGO_PKG_VERSION"), "tables": Tables::version(), "rules": [],
            "survey_hash": survey.hash,
        },
        "title": survey.title,
        "survey": survey_value(survey),
        "values": survey.givens.iter().map(given).collect::<Vec<_>>(),
        "assumptions": survey.givens.iter().filter_map(assumption).collect::<Vec<_>>(),
        "not_checked": [],
        "cautions": cautions,
    }))
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
