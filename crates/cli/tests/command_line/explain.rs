//! `explain`: what a code means; a code that is only near is named and not taken.

use serde_json::Value;

use super::{bracewright, demo, output, ran};

#[test]
fn a_check_is_explained_with_formula_source_and_range() {
    let text = output(&["explain", "core", "shear"]);
    assert!(text.starts_with("core shear (check)"), "{text}");
    for label in ["Means", "Formula", "Source", "Valid", "Do"] {
        assert!(text.contains(label), "{label}: {text}");
    }
    let document: Value =
        serde_json::from_str(&output(&["explain", "core-shear", "--format", "json"])).expect("JSON");
    for key in
        ["schema", "made_with", "assumptions", "not_checked", "cautions", "formula", "source", "range", "do"]
    {
        assert!(!document[key].is_null(), "{key}");
    }
    assert_eq!(document["code"], "core shear");
}

#[test]
fn an_unknown_code_is_3_with_what_is_near() {
    let run = bracewright().args(["explain", "fragil-roof"]).assert().code(3);
    assert!(run.get_output().stdout.is_empty());
    let note = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert!(note.contains("near it: fragile-roof"), "{note}");
    bracewright().arg("explain").assert().code(3);
    bracewright().args(["explain", "zzzzzz"]).assert().code(3);
}

/// What an answer says in brackets can be asked for.
#[test]
fn every_code_of_an_answer_is_explained() {
    let run = ran(&["check", &demo("seed-library.toml"), "--format", "json"]);
    let text = String::from_utf8_lossy(&run.stdout);
    let document: Value = serde_json::from_str(&text).expect("JSON");
    let told = |list: &str, key: &str| -> Vec<String> {
        let rows = document[list].as_array().cloned().unwrap_or_default();
        rows.iter().filter_map(|row| row[key].as_str().map(str::to_owned)).collect()
    };
    let mut codes =
        [told("cautions", "code"), told("assumptions", "code"), told("next_steps", "code")].concat();
    codes.extend([told("checks", "check"), told("not_checked", "check")].concat());
    codes.sort();
    codes.dedup();
    assert!(codes.len() > 20, "{codes:?}");
    for code in codes {
        output(&["explain", &code]);
    }
    let plan = output(&["plan", &demo("seed-library.toml"), "--format", "json"]);
    let document: Value = serde_json::from_str(&plan).expect("JSON");
    for caution in document["cautions"].as_array().expect("cautions") {
        output(&["explain", caution["code"].as_str().expect("a code")]);
    }
}
