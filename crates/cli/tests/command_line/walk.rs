//! `walk`: the answer first, the map, its JSON, its exit status.

use super::{bracewright, demo};

#[test]
fn the_answer_comes_first_and_as_found_is_in_it() {
    let run = bracewright().args(["walk", &demo("puppet-theatre-braced.toml")]).assert();
    let text = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    assert!(text.starts_with("As found: "), "{text}");
    assert!(text.contains("\nFinished: "), "{text}");
    let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words:?} in {text}"));
    assert!(place("Finished: ") < place("Where a person may stand"));
    assert!(place("Where a person may stand") < place("Cautions"));
    assert!(text.contains("from the left wall"));
    // The hole is drawn, and the legend says what the letters mean.
    assert!(text.contains('#') && text.contains("  # opening"));
    for line in text.lines() {
        assert!(line.chars().count() <= 100, "{line}");
    }
}

#[test]
fn the_json_has_what_programs_are_promised() {
    let run = bracewright().args(["walk", &demo("seed-library.toml"), "--format", "json"]).assert();
    let code = run.get_output().status.code();
    assert!(matches!(code, Some(0..=2)), "{code:?}");
    let json: serde_json::Value = serde_json::from_slice(&run.get_output().stdout).expect("JSON");
    for key in ["schema", "made_with", "assumptions", "not_checked", "cautions", "places", "worst", "board"] {
        assert!(json.get(key).is_some(), "no {key}");
    }
    let places = &json["places"];
    let lengths = ["across", "along", "ratio", "check"].map(|k| places[k].as_array().expect(k).len());
    assert!(lengths[0] * lengths[1] >= 1500);
    assert_eq!((lengths[2], lengths[3]), (lengths[1], lengths[1]));
    assert!(places["checks"].as_array().is_some_and(|c| !c.is_empty()));
    assert!(json["worst"]["ratio"].as_f64().is_some_and(|r| r > 0.0));
}

#[test]
fn a_roof_that_is_not_modelled_cannot_be_walked_on() {
    let run = bracewright().args(["walk", &demo("film-archive.toml")]).assert().code(2);
    let text = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    assert!(text.starts_with("As found: nobody can say"), "{text}");
}

#[test]
fn some_place_that_fails_on_every_board_is_1() {
    bracewright().args(["walk", &demo("puppet-theatre-bare.toml")]).assert().code(1);
}

#[test]
fn a_stage_that_is_not_there_is_3() {
    let run =
        bracewright().args(["walk", &demo("seed-library.toml"), "--stage", "half way"]).assert().code(3);
    assert!(run.get_output().stdout.is_empty());
    assert!(String::from_utf8_lossy(&run.get_output().stderr).contains("half way"));
}
