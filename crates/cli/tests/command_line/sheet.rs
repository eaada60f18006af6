//! The sheet to fill in on the roof.

use super::output;

#[test]
fn the_blank_sheet_fits_one_printed_side() {
    for unit in ["--inch", "--metric"] {
        let sheet = output(&["survey", "--blank", unit]);
        assert!(sheet.lines().count() <= 60, "{unit}: {} lines", sheet.lines().count());
        assert!(sheet.lines().all(|line| line.chars().count() <= 80), "{unit}");
    }
}

#[test]
fn the_sheet_is_in_the_quantities_asked_for() {
    let inch = output(&["survey", "--blank"]);
    assert_eq!(inch, output(&["survey", "--blank", "--inch"]));
    assert!(inch.contains("lengths: in   weights: lb"), "{inch}");
    let metric = output(&["survey", "--blank", "--metric"]);
    assert!(metric.contains("lengths: mm   weights: kg") && !metric.contains("lb"), "{metric}");
}

#[test]
fn the_sheet_warns_before_it_asks() {
    let sheet = output(&["survey", "--blank"]);
    let place = |words: &str| sheet.find(words).unwrap_or_else(|| panic!("{words} is missing in\n{sheet}"));
    assert!(place("DO NOT CLIMB") < place("SPAN"));
    assert!(place("PROP IT FIRST") < place("SPAN"));
    assert!(place("left is left") < place("SPAN"));
}
