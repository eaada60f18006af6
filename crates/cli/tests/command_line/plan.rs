//! `plan`: the roof as it was read, for people and for programs.

use serde_json::Value;

use super::{bracewright, demo, output};

#[test]
fn a_survey_from_a_file_and_from_standard_input_is_the_same_roof() {
    let path = demo("puppet-theatre-braced.toml");
    let from_file = output(&["plan", &path]);
    let text = std::fs::read_to_string(&path).expect("a demo survey");
    let run = bracewright().args(["plan", "-"]).write_stdin(text).assert().code(0);
    assert_eq!(String::from_utf8_lossy(&run.get_output().stdout), from_file);
}

#[test]
fn the_json_has_every_value_as_typed_and_in_si() {
    let text = output(&["plan", &demo("puppet-theatre-braced.toml"), "--format", "json"]);
    assert!(text.starts_with("{\n  \"schema\": 1,"), "{text}");
    let document: Value = serde_json::from_str(&text).expect("JSON");
    for key in ["made_with", "assumptions", "not_checked", "cautions", "survey", "values"] {
        assert!(!document[key].is_null(), "{key}");
    }
    let values = document["values"].as_array().expect("values");
    let span = values.iter().find(|value| value["key"] == "roof.span").expect("the span");
    assert_eq!(span["typed"], "92 1/2");
    assert_eq!(span["unit"], "m");
    // 92.5 in of exactly 25.4 mm.
    let metres = span["si"].as_f64().expect("a number");
    assert!((metres - 2.3495).abs() < 1e-12, "{metres}");
    assert!(document["survey"]["braces"].as_array().is_some_and(|braces| braces.len() == 2));
}

#[test]
fn what_was_not_given_is_listed_as_assumed_once() {
    let text = output(&["plan", &demo("puppet-theatre-braced.toml"), "--format", "json"]);
    let document: Value = serde_json::from_str(&text).expect("JSON");
    let assumptions = document["assumptions"].as_array().expect("assumptions");
    assert!(assumptions.iter().any(|assumption| assumption["code"] == "default-road"), "{assumptions:?}");
    for (i, assumption) in assumptions.iter().enumerate() {
        assert!(!assumptions[..i].contains(assumption), "twice: {assumption}");
    }
}

#[test]
fn every_demo_roof_is_drawn_between_its_walls() {
    for name in std::fs::read_dir(demo("")).expect("the demo surveys") {
        let path = name.expect("a demo survey").path();
        if path.extension().is_none_or(|ending| ending != "toml") {
            continue;
        }
        let text = output(&["plan", &path.display().to_string()]);
        let rows: Vec<&str> = text.lines().filter(|line| line.ends_with('|')).collect();
        assert!(rows.len() >= 4, "{}", path.display());
        let walls = |row: &&str| (row.find('|'), row.chars().count());
        assert!(rows.iter().all(|row| walls(row) == walls(&rows[0])), "{}:\n{text}", path.display());
    }
}
