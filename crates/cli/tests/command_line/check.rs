//! `check` on the demo roofs: the exit status follows the verdict, in text and in JSON.

use std::collections::BTreeMap;

use serde_json::Value;

use super::{bracewright, demo, ran};

const DEMOS: [&str; 5] =
    ["film-archive", "mobile-darkroom", "puppet-theatre-bare", "puppet-theatre-braced", "seed-library"];

/// Exit status and standard output.
fn check(demo_name: &str, more: &[&str]) -> (i32, String) {
    let path = demo(&format!("{demo_name}.toml"));
    let run = ran(&[&["check", path.as_str()], more].concat());
    let told = String::from_utf8_lossy(&run.stderr).into_owned();
    assert_eq!(told, "", "{demo_name}: an answer goes to standard output alone");
    (run.status.code().unwrap_or(-1), String::from_utf8(run.stdout.clone()).expect("UTF-8"))
}

#[test]
fn the_exit_status_follows_the_verdict() {
    let mut seen = BTreeMap::new();
    for name in DEMOS {
        let (status, text) = check(name, &["--format", "json"]);
        let document: Value = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        let verdict = document["verdict"].as_str().unwrap_or_default().to_owned();
        let expected = match verdict.as_str() {
            "holds" => 0,
            "brace needed" | "brace too weak" | "does not hold" => 1,
            "cannot say" => 2,
            other => panic!("{name}: the verdict is \"{other}\""),
        };
        assert_eq!(status, expected, "{name}: {verdict}");
        let (as_text, answer) = check(name, &[]);
        assert_eq!(as_text, status, "{name}");
        assert!(answer.starts_with(&format!("{}. ", verdict.to_uppercase())), "{name}: {verdict}\n{answer}");
        seen.insert(status, name);
    }
    assert_eq!(
        seen.keys().copied().collect::<Vec<_>>(),
        [0, 1, 2],
        "the demo roofs show all three: {seen:?}"
    );
}

#[test]
fn every_answer_has_its_cautions_and_keeps_to_its_columns() {
    for name in DEMOS {
        let (_, text) = check(name, &[]);
        assert!(text.contains("\nCautions\n"), "{name}\n{text}");
        for line in text.lines() {
            assert!(line.chars().count() <= 100, "{name}, {} columns: {line}", line.chars().count());
        }
    }
}

#[test]
fn no_number_in_the_json_is_missing() {
    fn walk(value: &Value, path: &str) {
        match value {
            // The contract lets these be null: nobody could say.
            Value::Null => {
                let may_be = ["brace_needed", ".ratio", ".check", "governing", "sag."];
                assert!(may_be.iter().any(|name| path.contains(name)), "{path} is null");
            }
            Value::Array(items) => {
                items.iter().enumerate().for_each(|(i, item)| walk(item, &format!("{path}.{i}")));
            }
            Value::Object(keys) => keys.iter().for_each(|(key, item)| walk(item, &format!("{path}.{key}"))),
            _ => {}
        }
    }
    for name in DEMOS {
        let (_, text) = check(name, &["--format", "json"]);
        walk(&serde_json::from_str(&text).expect("JSON"), "");
    }
}

#[test]
fn a_stage_that_the_survey_does_not_have_is_3() {
    let path = demo("puppet-theatre-braced.toml");
    let run = bracewright().args(["check", &path, "--stage", "varnished"]).assert().code(3);
    let told = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert!(told.contains("varnished"), "{told}");
    assert!(run.get_output().stdout.is_empty());
}
