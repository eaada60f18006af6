//! Our own past numbers of the demo surveys. Nothing outside this project says that they are right: they only show
//! that a change moved them. What holds the numbers up is in `validation/` and `verification/`.
//!
//! `BLESS=1` writes `data/regression/demos.csv` anew; look at what moved, and put it under "Numbers changed" in the
//! changelog.

use std::fmt::Write;

use bracewright_tests::{blessing, data, roof};
use serde::Deserialize;
use serde_json::Value;

const DEMOS: [&str; 5] =
    ["film-archive", "mobile-darkroom", "puppet-theatre-bare", "puppet-theatre-braced", "seed-library"];

/// What is kept of each answer, by its place in the document.
const KEPT: [&str; 8] = [
    "/verdict",
    "/brace_needed",
    "/governing/check",
    "/governing/ratio",
    "/sag/now_with",
    "/sag/now_without",
    "/sag/later_with",
    "/sag/later_without",
];

/// Solvers on other machines round differently; a change of method moves more.
const WITHIN: f64 = 1e-4;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    demo: String,
    place: String,
    was: String,
}

#[test]
fn demos_answer_as_they_did() {
    let answers: Vec<(&str, Value)> = DEMOS.iter().map(|demo| (*demo, answer(demo))).collect();
    let path = data("regression/demos.csv");
    if blessing() {
        std::fs::write(&path, written(&answers)).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        return;
    }
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(&path)
        .unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let rows: Vec<Row> = reader.deserialize().collect::<Result<_, _>>().unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(rows.len(), DEMOS.len() * KEPT.len(), "rows of {}", path.display());
    let moved: Vec<String> = rows.iter().filter_map(|row| moved(row, &answers)).collect();
    assert!(moved.is_empty(), "moved (BLESS=1 keeps the new numbers):\n{}", moved.join("\n"));
}

fn answer(demo: &str) -> Value {
    let path = data(&format!("{demo}.toml"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    roof::answer(&text)
}

fn kept(answer: &Value, place: &str) -> String {
    match answer.pointer(place) {
        None | Some(Value::Null) => "none".to_owned(),
        Some(Value::String(words)) => words.clone(),
        Some(Value::Number(number)) => number.as_f64().map_or("none".to_owned(), |v| format!("{v:.6e}")),
        Some(other) => other.to_string(),
    }
}

fn written(answers: &[(&str, Value)]) -> String {
    let mut text = String::from(
        "# Our own past numbers, SI; not evidence that they are right. Written by the regression test (BLESS=1).\n\
         demo,place,was\n",
    );
    for (demo, answer) in answers {
        for place in KEPT {
            let _ = writeln!(text, "{demo},{place},\"{}\"", kept(answer, place));
        }
    }
    text
}

fn moved(row: &Row, answers: &[(&str, Value)]) -> Option<String> {
    let is = match answers.iter().find(|(demo, _)| *demo == row.demo) {
        Some((_, answer)) if KEPT.contains(&row.place.as_str()) => kept(answer, &row.place),
        _ => return Some(format!("{} {}: no such demo or place", row.demo, row.place)),
    };
    let near = match (row.was.parse::<f64>(), is.parse::<f64>()) {
        (Ok(was), Ok(is)) => (is - was).abs() <= WITHIN * was.abs().max(is.abs()),
        _ => row.was == is,
    };
    (!near).then(|| format!("{} {}: was {}, is {is}", row.demo, row.place, row.was))
}
