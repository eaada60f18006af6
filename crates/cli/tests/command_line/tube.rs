//! `tube`: what a tube is worth, by which clause, and when that cannot be said.

use serde_json::Value;

use super::{bracewright, output};

const TUBE: [&str; 7] = ["tube", "--tube", "1-1/2 x 1-1/2 x 1/8", "--alloy", "6061-T6", "--length", "90 in"];

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&output(&[arguments, &["--format", "json"]].concat())).expect("JSON")
}

/// Moments over 90 in computed apart from this program, kip-in: yield 7.5402, rupture 6.9271, local 7.5553,
/// lateral-torsional 6.3380. Area 0.6875 in2, second moment 0.21842 in4.
#[test]
fn the_document_has_the_promised_keys() {
    let document = json(&TUBE);
    for key in
        ["schema", "made_with", "assumptions", "not_checked", "cautions", "properties", "strength", "basis"]
    {
        assert!(!document[key].is_null(), "{key}");
    }
    for key in [
        "area",
        "second_moment",
        "elastic_modulus",
        "plastic_modulus",
        "radius_of_gyration",
        "torsion_constant",
        "shear_area",
        "mass_per_length",
    ] {
        assert!(document["properties"][key].as_f64().is_some_and(|v| v > 0.0), "{key}");
    }
    let close = |value: &Value, wanted: f64| {
        let value = value.as_f64().expect("a number");
        assert!((value / wanted - 1.0).abs() < 1e-4, "{value} against {wanted}");
    };
    close(&document["properties"]["area"], 0.6875 * 0.0254f64.powi(2));
    close(&document["properties"]["second_moment"], 0.21842 * 0.0254f64.powi(4));
    let bending = &document["strength"]["bending"];
    for (key, kip_in) in [
        ("yield", 7.5402),
        ("rupture", 6.9271),
        ("local", 7.5553),
        ("lateral_torsional", 6.3380),
        ("least", 6.3380),
    ] {
        close(&bending[key], kip_in * 112.984829);
    }
    for key in ["tension", "compression", "shear"] {
        assert!(document["strength"][key].as_f64().is_some_and(|v| v > 0.0), "{key}");
    }
    assert!(document.get("class").is_none(), "classes are EN 1999-1-1's");
}

/// 40 x 40 x 3 of 6061-T6 over 2 m: class 2, 1347 N m, 14.66 kN; computed apart from this program.
#[test]
fn the_european_book_has_a_class_and_no_key_without_meaning() {
    let tube = ["tube", "--outside", "40 x 40 mm", "--wall", "3 mm", "--alloy", "6061-T6", "--length", "2 m"];
    let document = json(&[&tube[..], &["--rules", "EN 1999-1-1"]].concat());
    assert_eq!(document["class"], 2);
    let bending = &document["strength"]["bending"];
    assert!((bending["least"].as_f64().unwrap_or_default() - 1347.05).abs() < 0.1);
    assert!((document["strength"]["compression"].as_f64().unwrap_or_default() - 14663.0).abs() < 2.0);
    assert!(bending.get("rupture").is_none() && bending.get("lateral_torsional").is_none());
}

#[test]
fn the_text_answers_first_and_names_the_clause() {
    let text = output(&TUBE);
    let first = text.lines().next().unwrap_or_default();
    assert!(first.starts_with("The tube carries a moment of 6340 lbf in"), "{first}");
    assert!(text.contains("F.4.2.3") && text.contains("governs"), "{text}");
    assert!(text.contains("wall is taken as given"), "{text}");
}

/// ADM lists 6082-T6 from 0.2 in only; a temper that is not named has no strength; a book without a row has no number.
#[test]
fn what_a_rule_does_not_speak_about_is_2_with_the_clause() {
    for (tube, alloy, rules, clause) in [
        ("2 x 2 x 1/8", "6082-T6", "ADM 2020 ASD", "ADM 2020 A.3"),
        ("2 x 2 x 1/8", "6061-T4", "ADM 2020 LRFD", "ADM 2020 A.3"),
        ("2 x 2 x 1/8", "6063-T52", "EN 1999-1-1", "Table 3.2"),
    ] {
        let arguments = ["tube", "--tube", tube, "--alloy", alloy, "--length", "1 m", "--rules", rules];
        for format in ["text", "json"] {
            let run = bracewright().args(arguments).args(["--format", format]).assert().code(2);
            let told = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
            assert!(told.contains(clause), "{alloy}: {told}");
            if format == "json" {
                let document: Value = serde_json::from_str(&told).expect("JSON");
                assert_eq!(document["strength"], serde_json::json!({}), "{alloy}");
            }
        }
    }
}

#[test]
fn wrong_input_is_3_with_an_empty_standard_output() {
    let tube = |rest: &[&'static str]| [&["tube", "--alloy", "6061-T6"][..], rest].concat();
    for arguments in [
        tube(&["--tube", "1 x 1 x 1/8", "--length", "90"]),
        tube(&["--tube", "1 x 1 x 1/9", "--length", "90 in"]),
        tube(&["--tube", "1 x 1 x 1/8", "--length", "0 in"]),
        tube(&["--tube", "1 x 1 x 1/8", "--length", "90 lb"]),
        tube(&["--tube", "1 x 1 x 1/8", "--length", "90 in", "--held-every", "91 in"]),
        tube(&["--tube", "1 x 1 x 1/8", "--length", "90 in", "--weld-at", "95 in"]),
        tube(&["--tube", "1 x 1 x 1/8", "--length", "90 in", "--wall", "1/8 in"]),
        tube(&["--tube", "1 x 1 x 1/8", "--length", "90 in", "--rules", "ADM 2005"]),
        tube(&["--outside", "1 in x 1 in", "--length", "90 in"]),
        tube(&["--outside", "1 x 1", "--wall", "1/8 in", "--length", "90 in"]),
        tube(&["--outside", "1 in x 1 in", "--wall", "0.5 in", "--length", "90 in"]),
        tube(&["--length", "90 in"]),
        ["tube", "--tube", "1 x 1 x 1/8", "--alloy", "titanium", "--length", "90 in"].to_vec(),
    ] {
        let run = bracewright().args(&arguments).assert().code(3);
        assert!(run.get_output().stdout.is_empty(), "{arguments:?}");
        assert!(!run.get_output().stderr.is_empty(), "{arguments:?}");
    }
}

#[test]
fn a_closer_held_length_carries_more() {
    let least = |more: &[&str]| {
        json(&[&TUBE[..], more].concat())["strength"]["bending"]["least"].as_f64().expect("a number")
    };
    assert!(least(&["--held-every", "12 in"]) > least(&[]));
    assert!(least(&["--weld-at", "45 in"]) < 0.6 * least(&[]));
}
