//! `seat`: the gap first, the packing where it is needed, its exit status.

use super::{bracewright, demo};

#[test]
fn a_gentle_crown_needs_no_packing() {
    let run = bracewright().args(["seat", &demo("puppet-theatre-bare.toml")]).assert().code(0);
    let text = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    assert!(text.starts_with("The gasket takes up the curve"), "{text}");
    assert!(text.contains("Bolts") && text.contains("at least"), "{text}");
}

/// A thin gasket takes up less than the gap.
#[test]
fn a_thin_gasket_needs_packing() {
    let arguments = ["seat", &demo("puppet-theatre-bare.toml"), "--gasket", "4 mm", "--format", "json"];
    let run = bracewright().args(arguments).assert().code(1);
    let json: serde_json::Value = serde_json::from_slice(&run.get_output().stdout).expect("JSON");
    for key in ["schema", "made_with", "assumptions", "not_checked", "cautions", "sits"] {
        assert!(json.get(key).is_some(), "no {key}");
    }
    assert_eq!(json["sits"]["pulls_flat"], true);
    // Half width 8 1/8 in on a radius of 612.04 in: 0.0539 in (segment height, by hand).
    let gap = json["sits"]["gap"].as_f64().expect("a gap") / 0.0254;
    assert!((gap - 0.0539).abs() < 2e-4, "{gap}");
    assert!(json["answer"].as_str().is_some_and(|words| words.contains("pull the roof flat")));
}

#[test]
fn without_a_unit_nobody_can_say() {
    bracewright().args(["seat", &demo("seed-library.toml")]).assert().code(2);
}
