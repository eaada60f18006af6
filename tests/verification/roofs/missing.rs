//! What is not known never helps: no datum left out turns a failing roof into one that holds, and no strength that a
//! check needs may be missing from one that holds. And no number is ever null for want of being one.

use bracewright_tests::roof::{MAP_ROOM, check, leaves, verdict, with};
use serde_json::Value;

use super::busy;

/// Strengths and what they mean, as written in the map room.
const STRENGTHS: [&str; 8] = [
    "tension = \"25 MPa\", ",
    "compression = \"25 MPa\", ",
    ", bending = \"30 MPa\"",
    "shear = \"8 MPa\", ",
    "tension = \"0.6 MPa\", ",
    "compression = \"0.6 MPa\", ",
    "shear = \"0.45 MPa\", ",
    ", crush = \"0.6 MPa\"",
];

/// Those without which the roof may not hold.
const NEEDED: [usize; 5] = [0, 1, 3, 6, 7];

/// Other lines and tables that may be left out.
const OTHERS: [&str; 5] = [
    "condition = \"sound\"\n",
    "material  = \"softwood\"\n",
    "way  = \"on a board\"\n",
    "mass = \"80\"\n",
    "[person]\nmass = \"80\"\nway  = \"on a board\"\n",
];

/// The verdict, or that the survey is refused, which is no verdict.
fn words(text: &str) -> String {
    check(text).map_or_else(|_| "refused".to_owned(), |document| verdict(&document).to_owned())
}

#[test]
fn the_map_room_holds() {
    assert_eq!(words(MAP_ROOM), "holds");
}

#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn a_roof_without_a_needed_strength_does_not_hold() {
    let holding: Vec<_> = NEEDED
        .iter()
        .map(|&i| STRENGTHS[i])
        .filter(|cut| words(&with(MAP_ROOM, cut, "")) == "holds")
        .collect();
    assert!(holding.is_empty(), "holds without {holding:?}");
}

/// Foam so weak in shear that the roof fails; every other datum left out in turn.
#[test]
#[ignore = "takes a minute: .ci/deep runs it"]
fn nothing_left_out_saves_a_failing_roof() {
    let failing = with(MAP_ROOM, "shear = \"0.45 MPa\", ", "shear = \"0.004 MPa\", ");
    let was = words(&failing);
    assert!(!["holds", "cannot say", "refused"].contains(&was.as_str()), "it does not fail: {was}");
    let needed = NEEDED.iter().map(|&i| STRENGTHS[i]).filter(|cut| !cut.contains("0.45"));
    let cuts: Vec<_> = needed.chain(OTHERS).collect();
    let saved: Vec<_> = cuts.into_iter().filter(|cut| words(&with(&failing, cut, "")) == "holds").collect();
    assert!(saved.is_empty(), "holds without {saved:?}");
    assert_ne!(words(&with(&failing, "shear = \"0.004 MPa\", ", "")), "holds");
}

/// Null stands only where the contract lets it: an answer without a check, no governing check, sag not asked for.
#[test]
fn no_number_is_null() {
    for text in [MAP_ROOM.to_owned(), busy()] {
        let document = check(&text).unwrap_or_else(|why| panic!("{why}"));
        let nulls: Vec<_> = leaves(&document)
            .into_iter()
            .filter(|(place, leaf)| leaf.is_null() && !may_be_null(place))
            .map(|(place, _)| place)
            .collect();
        assert!(nulls.is_empty(), "{nulls:?}");
        assert!(numbers(&document) > 300, "hardly any numbers");
    }
}

fn may_be_null(place: &str) -> bool {
    let answer = place.starts_with("/answers/") && (place.ends_with("/check") || place.ends_with("/ratio"));
    answer || place == "/brace_needed" || place == "/governing" || place.starts_with("/sag/")
}

fn numbers(document: &Value) -> usize {
    leaves(document).iter().filter(|(_, leaf)| leaf.as_f64().is_some_and(f64::is_finite)).count()
}
