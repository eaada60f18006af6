//! `size`: words first, never "enough" where something was not checked; its JSON, its cut list, its exit status.

use super::{bracewright, demo};

/// One tube, in one alloy, two braces: the search is short.
const SHORT: [&str; 6] = ["--tubes", "1-1/2 x 1-1/2 x 1/8", "--alloys", "6061-T6", "--count", "2"];

fn json(arguments: &[&str]) -> (Option<i32>, serde_json::Value) {
    let run = bracewright().args(arguments).args(["--format", "json"]).assert();
    let output = run.get_output();
    (output.status.code(), serde_json::from_slice(&output.stdout).expect("JSON"))
}

#[test]
fn the_chosen_one_comes_first_with_what_to_cut() {
    let folder = tempfile();
    let file = folder.join("cut.csv");
    let survey = demo("puppet-theatre-which-tube.toml");
    let path = file.to_str().expect("a path");
    let run = bracewright().args(["size", &survey, "--cut-list", path]).args(SHORT).assert();
    let text = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    match run.get_output().status.code() {
        Some(0) => assert!(text.starts_with("The lightest that holds: "), "{text}"),
        Some(2) => {
            assert!(text.starts_with("The lightest that fails nothing that was checked: "), "{text}");
            assert!(!text.contains("enough"), "{text}");
        }
        other => panic!("{other:?}\n{text}"),
    }
    for words in ["Cut list", "Foam channel", "Heights", "at its best place, lightest first", "Not checked"] {
        assert!(text.contains(words), "no {words:?} in {text}");
    }
    for line in text.lines() {
        assert!(line.chars().count() <= 100, "{line}");
    }
    let csv = std::fs::read_to_string(&file).expect("a cut list");
    let lines: Vec<&str> = csv.lines().collect();
    assert_eq!(lines.len(), 3, "{csv}");
    let cells = lines[0].split(',').count();
    assert!(lines.iter().all(|line| line.split(',').count() == cells), "{csv}");
    assert!(lines[1].starts_with("B1,1-1/2 x 1-1/2 x 1/8,6061-T6,"), "{csv}");
    std::fs::remove_dir_all(folder).expect("the folder can be removed");
}

/// A folder of its own for this run.
fn tempfile() -> std::path::PathBuf {
    let folder = std::env::temp_dir().join(format!("bracewright-size-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

#[test]
fn the_json_has_what_programs_are_promised() {
    let survey = demo("puppet-theatre-which-tube.toml");
    let (code, document) = json(&[&["size", survey.as_str()][..], &SHORT[..]].concat());
    assert!(matches!(code, Some(0 | 2)), "{code:?}");
    for key in
        ["schema", "made_with", "assumptions", "not_checked", "cautions", "searched", "chosen", "candidates"]
    {
        assert!(document.get(key).is_some(), "no {key}");
    }
    let rows = document["candidates"].as_array().expect("candidates");
    assert!(!rows.is_empty() && rows.len() <= 50);
    for row in rows {
        for key in [
            "tube", "alloy", "count", "along", "mass", "ratio", "check", "sag", "bendable", "verdict",
            "why_not",
        ] {
            assert!(row.get(key).is_some(), "no {key} in {row}");
        }
    }
    let masses: Vec<f64> = rows.iter().filter_map(|row| row["mass"].as_f64()).collect();
    assert!(masses.windows(2).all(|pair| pair[0] <= pair[1]), "lightest first");
    let chosen = &document["chosen"];
    assert_eq!(chosen["count"], 2);
    assert!(chosen["ratio"].as_f64().is_some_and(|r| r <= 1.0));
    assert!(chosen["why_not"].is_null());
    assert_eq!(code == Some(0), chosen["verdict"] == "holds");
}

/// Nobody knows the strength of trimmers' end joints: with them the answer is never "holds".
#[test]
fn with_trimmers_nobody_says_that_it_holds() {
    let survey = demo("puppet-theatre-which-tube.toml");
    let asked = [&["size", survey.as_str(), "--trimmers", "with"][..], &SHORT[..]].concat();
    let (code, document) = json(&asked);
    assert_eq!(code, Some(2));
    let chosen = &document["chosen"];
    assert_eq!(chosen["verdict"], "cannot say");
    assert_eq!(chosen["trimmers"].as_array().map(Vec::len), Some(2));
    let rows = document["candidates"].as_array().expect("candidates");
    assert!(rows.iter().all(|row| row["verdict"] != "holds"));
    let joints = document["not_checked"].as_array().expect("gaps").iter().filter(|gap| {
        gap["blocks"] == true && gap["part"].as_str().is_some_and(|part| part.starts_with("trimmer"))
    });
    assert_eq!(joints.count(), 2, "one for each trimmer");
    let cut = document["cut_list"].as_array().expect("a cut list");
    let marks: Vec<&str> = cut.iter().filter_map(|row| row["mark"].as_str()).collect();
    assert_eq!(marks, ["B1", "B2", "T1", "T2"]);
    assert_eq!(cut[2]["between"], serde_json::json!(["B1", "B2"]));
    assert_eq!(cut[2]["holes_each_end"], 0);
    let mass = |row: &serde_json::Value| row["mass"].as_f64().expect("a mass");
    let all: f64 = cut.iter().map(mass).sum();
    assert!((all / mass(chosen) - 1.0).abs() < 1e-9, "{all} {chosen}");
}

#[test]
fn a_roof_that_holds_needs_no_brace() {
    let (code, document) = json(&["size", &demo("seed-library.toml")]);
    assert_eq!(code, Some(0));
    assert!(document["chosen"].is_null());
    assert_eq!(document["brace_needed"], false);
}

#[test]
fn a_roof_that_is_not_modelled_gets_no_tube() {
    let (code, document) = json(&["size", &demo("film-archive.toml")]);
    assert_eq!(code, Some(2));
    assert!(document["chosen"].is_null());
}

#[test]
fn a_tube_alone_is_found_without_a_survey() {
    let alone = ["size", "--span", "92 1/2 in", "--rise", "1 3/4 in", "--load", "100 lbf"];
    let (code, document) = json(&alone);
    assert_eq!(code, Some(0));
    assert!(document["chosen"]["ratio"].as_f64().is_some_and(|r| r <= 1.0));
    assert!(document["cautions"].to_string().contains("sized alone"));
    let run = bracewright().args(alone).assert().code(0);
    let text = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    assert!(text.starts_with("The lightest stocked tube that carries this alone: "), "{text}");
    let heavy = ["size", "--span", "3 m", "--rise", "40 mm", "--load", "40 kN"];
    assert_eq!(json(&heavy).0, Some(1));
}

#[test]
fn a_wrong_question_is_3() {
    let survey = demo("puppet-theatre-which-tube.toml");
    for wrong in [
        vec!["size"],
        vec!["size", "--span", "2 m"],
        vec!["size", "--span", "2 m", "--rise", "50 mm"],
        vec!["size", &survey, "--span", "2 m", "--rise", "50 mm"],
        vec!["size", &survey, "--count", "9"],
        vec!["size", &survey, "--tubes", "no such tube"],
        vec!["size", &survey, "--cover", "1"],
    ] {
        let run = bracewright().args(&wrong).assert().code(3);
        assert!(run.get_output().stdout.is_empty(), "{wrong:?}");
    }
}
