//! One roof written in two ways is one roof.

use bracewright_tests::roof::{MAP_ROOM, answer, check_as, leaves, with};
use serde_json::{Value, json};

use super::same;

/// Keys whose words may differ: the hash of the text, what it is read in, and sentences that quote lengths.
fn words(place: &str) -> bool {
    ["/made_with/survey_hash", "/read_in", "/words", "/why", "/scope"].iter().any(|end| place.ends_with(end))
}

/// Every number equal but for rounding, every other word equal, nothing more and nothing less.
#[track_caller]
fn same_document(one: &Value, other: &Value) {
    let (ours, theirs) = (leaves(one), leaves(other));
    let places = |leaves: &[(String, &Value)]| leaves.iter().map(|l| l.0.clone()).collect::<Vec<_>>();
    assert_eq!(places(&ours), places(&theirs));
    for ((place, a), (_, b)) in ours.iter().zip(&theirs) {
        match (a.as_f64(), b.as_f64()) {
            // What is left when large forces cancel is compared with the forces, not with itself.
            (Some(a), Some(b)) => same(place, a, b, 1e-9, scale(place)),
            _ => assert!(words(place) || a == b, "{place}: {a} and {b}"),
        }
    }
}

/// Below this a number is rounding alone, SI: 1e-9 of it is far below what anyone can measure.
fn scale(place: &str) -> f64 {
    match place {
        p if p.ends_with("/residual") => 1e3,
        p if ["/sx", "/sy", "/sxy", "/xz", "/yz"].iter().any(|end| p.ends_with(end)) => 1e6,
        p if p.contains("/walls/") => 1e3,
        _ => 0.0,
    }
}

#[test]
fn inches_and_millimetres_are_one_roof() {
    let inches = [
        ("lengths = \"mm\"", "lengths = \"in\""),
        ("weights = \"kg\"", "weights = \"lb\""),
        ("span   = \"1524\"", "span   = \"60\""),
        ("length = \"1016\"", "length = \"40\""),
        ("thickness = \"50.8\"", "thickness = \"2\""),
        ("depth     = \"45 mm\"", "depth     = \"1.5 in\""),
        ("mass = \"80\"", "mass = \"176\""),
    ]
    .iter()
    .fold(MAP_ROOM.to_owned(), |text, (from, to)| with(&text, from, to))
    .replace("thickness = \"6.35\"", "thickness = \"1/4\"");
    let metric = with(MAP_ROOM, "mass = \"80\"", "mass = \"79.83225712 kg\"");
    let metric = with(&metric, "depth     = \"45 mm\"", "depth     = \"38.1 mm\"");
    same_document(&answer(&metric), &answer(&inches));
}

#[test]
fn toml_and_json_are_one_survey() {
    let survey = json!({
        "survey": 1,
        "title": "Map room trailer, roof over the plan chest",
        "lengths": "mm",
        "weights": "kg",
        "roof": {
            "kind": "laminated", "span": "1524", "rise": "0", "length": "1016",
            "front": "cross wall", "rear": "cross wall"
        },
        "material": {
            "board": {
                "E": "7.0 GPa", "nu": 0.25, "strength_is": "5 percent", "density": "600 kg/m3",
                "strength": {
                    "tension": "25 MPa", "compression": "25 MPa", "shear": "8 MPa", "bending": "30 MPa"
                }
            },
            "foam": {
                "E": "30 MPa", "nu": 0.3, "strength_is": "5 percent", "density": "60 kg/m3",
                "strength": {
                    "tension": "0.6 MPa", "compression": "0.6 MPa", "shear": "0.45 MPa", "crush": "0.6 MPa"
                }
            }
        },
        "layer": [
            { "name": "outer skin", "material": "board", "thickness": "6.35" },
            { "name": "core", "material": "foam", "thickness": "50.8" },
            { "name": "inner skin", "material": "board", "thickness": "6.35" }
        ],
        "wall": { "material": "softwood", "depth": "45 mm", "condition": "sound" },
        "person": { "mass": "80", "way": "on a board" }
    });
    let from_json = check_as("roof.json", &survey.to_string()).unwrap_or_else(|why| panic!("{why}"));
    same_document(&answer(MAP_ROOM), &from_json);
}
