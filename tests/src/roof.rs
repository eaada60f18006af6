//! Whole roofs through `ask::check`: surveys that differ in a line or two, and their answers as JSON.

use std::collections::HashMap;
use std::sync::{LazyLock, Mutex};

use beam_core::{ask, survey};
use section_tables::Tables;
use serde_json::Value;

/// A small flat roof of own materials that holds with room to spare.
pub const MAP_ROOM: &str = r#"survey  = 1
title   = "Map room trailer, roof over the plan chest"
lengths = "mm"
weights = "kg"

[roof]
kind   = "laminated"
span   = "1524"
rise   = "0"
length = "1016"
front  = "cross wall"
rear   = "cross wall"

[material.board]
E = "7.0 GPa"
nu = 0.25
strength = { tension = "25 MPa", compression = "25 MPa", shear = "8 MPa", bending = "30 MPa" }
strength_is = "5 percent"
density = "600 kg/m3"

[material.foam]
E = "30 MPa"
nu = 0.3
strength = { tension = "0.6 MPa", compression = "0.6 MPa", shear = "0.45 MPa", crush = "0.6 MPa" }
strength_is = "5 percent"
density = "60 kg/m3"

[[layer]]
name = "outer skin"
material = "board"
thickness = "6.35"

[[layer]]
name = "core"
material = "foam"
thickness = "50.8"

[[layer]]
name = "inner skin"
material = "board"
thickness = "6.35"

[wall]
material  = "softwood"
depth     = "45 mm"
condition = "sound"

[person]
mass = "80"
way  = "on a board"
"#;

/// The same text with one piece changed.
///
/// # Panics
/// Where the piece is not there just once: a test that changes nothing shows nothing.
pub fn with(text: &str, from: &str, to: &str) -> String {
    assert_eq!(text.matches(from).count(), 1, "\"{from}\" must be there once in\n{text}");
    text.replacen(from, to, 1)
}

/// The answer to a survey as JSON; the same text is solved once a run.
///
/// # Errors
/// Every problem of the survey, or why nothing could be answered.
pub fn check(text: &str) -> Result<Value, String> {
    check_as("roof.toml", text)
}

/// The same for a named file; the name tells TOML from JSON.
///
/// # Errors
/// As [`check`].
pub fn check_as(name: &str, text: &str) -> Result<Value, String> {
    check_in(name, text, None)
}

fn check_in(name: &str, text: &str, stage: Option<&str>) -> Result<Value, String> {
    static ANSWERS: LazyLock<Mutex<HashMap<String, Result<Value, String>>>> = LazyLock::new(Mutex::default);
    // Held while solving: the solver uses all processors itself.
    let mut answers = ANSWERS.lock().map_err(|e| e.to_string())?;
    let key = format!("{}\n{text}", stage.unwrap_or_default());
    if let Some(answer) = answers.get(&key) {
        return answer.clone();
    }
    let answer = solve(name, text, stage);
    answers.insert(key, answer.clone());
    answer
}

fn solve(name: &str, text: &str, stage: Option<&str>) -> Result<Value, String> {
    let tables = Tables::shipped();
    let survey = survey::read_text(name, text, tables).map_err(|problems| problems.to_string())?;
    let options = ask::CheckOptions { stage: stage.map(str::to_owned), ..ask::CheckOptions::default() };
    let document = ask::check(&survey, tables, options).map_err(|e| e.to_string())?;
    serde_json::to_value(&document).map_err(|e| e.to_string())
}

/// The answer to a survey that must have one.
///
/// # Panics
/// Where it has none.
pub fn answer(text: &str) -> Value {
    check(text).unwrap_or_else(|why| panic!("{why}"))
}

/// The answer to a stage of a survey that must have one.
///
/// # Panics
/// Where it has none.
pub fn answer_in(stage: &str, text: &str) -> Value {
    check_in("roof.toml", text, Some(stage)).unwrap_or_else(|why| panic!("{why}"))
}

/// The verdict's words.
///
/// # Panics
/// Where the document has none.
pub fn verdict(answer: &Value) -> &str {
    answer["verdict"].as_str().expect("a verdict in words")
}

/// A number of a document. Strict: what is no number fails.
///
/// # Panics
/// Where there is no number.
pub fn number(value: &Value, pointer: &str) -> f64 {
    value
        .pointer(pointer)
        .and_then(Value::as_f64)
        .unwrap_or_else(|| panic!("no number at {pointer}: {value}"))
}

/// The row that uses most of its limit among those of a check that `wanted` lets pass.
pub fn worst_row<'a>(answer: &'a Value, check: &str, wanted: impl Fn(&Value) -> bool) -> Option<&'a Value> {
    let rows = answer["checks"].as_array()?.iter().filter(|row| row["check"] == check && wanted(row));
    rows.max_by(|a, b| number(a, "/ratio").total_cmp(&number(b, "/ratio")))
}

/// Whether a gap of that check holds "holds" back.
///
/// # Panics
/// Where the document lists no gaps at all.
pub fn held_back_by(answer: &Value, check: &str) -> bool {
    let gaps = answer["not_checked"].as_array().expect("a list of gaps");
    gaps.iter().any(|gap| gap["check"] == check && gap["blocks"] == true)
}

/// The runs of a document.
///
/// # Panics
/// Where nothing ran.
pub fn runs(answer: &Value) -> &[Value] {
    let runs = answer["runs"].as_array().map_or(&[][..], Vec::as_slice);
    assert!(!runs.is_empty(), "nothing ran: {}", answer["not_checked"]);
    runs
}

/// What tells a run from the others.
pub fn run_name(run: &Value) -> String {
    ["stage", "load", "bracing", "bond", "materials", "model"]
        .map(|key| run[key].as_str().unwrap_or("?").to_owned())
        .join(", ")
}

/// Every number of a document with its place, and every null.
pub fn leaves(value: &Value) -> Vec<(String, &Value)> {
    fn walk<'a>(place: &str, value: &'a Value, out: &mut Vec<(String, &'a Value)>) {
        match value {
            Value::Array(items) => {
                for (i, item) in items.iter().enumerate() {
                    walk(&format!("{place}/{i}"), item, out);
                }
            }
            Value::Object(map) => {
                for (key, item) in map {
                    walk(&format!("{place}/{key}"), item, out);
                }
            }
            leaf => out.push((place.to_owned(), leaf)),
        }
    }
    let mut out = Vec::new();
    walk("", value, &mut out);
    out
}
