//! Walls that hold the roof's edges sideways, and may not.

use super::{answer, study, survey, uses_no_less};
use crate::check::{Bond, Verdict};
use crate::model::Hold;

const SNOW: &str = "[conditions]\nsnow = \"0.5 kPa\"\n";

fn held(thrust: &str) -> String {
    format!(
        "{SNOW}[wall]\nmaterial = \"softwood\"\ndepth = \"40\"\ncondition = \"sound\"\nthrust = \"{thrust}\"\n"
    )
}

/// A crowned roof between walls that hold is told twice, and uses what the worse of the two does.
#[test]
fn judged_with_and_without() {
    let (full, none) = (answer("40", "1200", &held("full")), answer("40", "1200", &held("none")));
    for run in &none.runs {
        assert!(!run.thrust);
    }
    for load in ["own weight, first day", "own weight, service life", "snow"] {
        let runs = |thrust: bool| {
            let mut one = full.runs.iter().filter(|r| r.load == load && r.thrust == thrust);
            let pushes = one.next().unwrap_or_else(|| panic!("{load}")).walls.left_thrust.get();
            (pushes, one.count())
        };
        assert!(runs(true).0 > 0.0 && runs(false).0 == 0.0, "{load}");
    }
    uses_no_less(&full, &none);
    let survey = survey("40", "1200", &held("full"));
    let alone = study(&survey, Bond::None, Hold { walls: true, joints: false });
    for f in &alone.found.findings {
        let row = full.checks.iter().find(|r| r.check == f.check.name() && r.part == f.part);
        let used = row.unwrap_or_else(|| panic!("no row {}", f.check.name())).ratio.get();
        assert!(used >= f.ratio * 0.999_999, "{}: {used} and {}", f.check.name(), f.ratio);
    }
    let most = |d: &crate::check::CheckDocument| d.checks.iter().map(|r| r.ratio.get()).fold(0.0, f64::max);
    assert!(most(&full) >= 0.99 * most(&none));
}

/// What the walls must hold is told; it is no limit, and the roof that holds without them is not kept from holding.
#[test]
fn what_the_walls_must_hold_is_told() {
    let full = answer("40", "1200", &held("full"));
    let told = full.answers.iter().find(|a| a.question == "wall thrust").expect("an answer");
    assert!(told.words.contains("N on each metre") && told.words.contains("outward"), "{}", told.words);
    let gap = full.not_checked.iter().find(|n| n.check == "wall thrust").expect("a gap");
    assert!(!gap.blocks);
    assert_eq!(full.verdict, answer("40", "1200", &held("none")).verdict);
    assert_eq!(full.verdict, Verdict::Holds);
    assert!(answer("40", "1200", &held("none")).answers.iter().all(|a| a.question != "wall thrust"));
}

/// The push of a flat arch: `q L^2/8h` on rigid walls at the axis; a spring takes less.
#[test]
fn the_push_is_that_of_an_arch() {
    let of = |thrust: &str| {
        let survey = survey("100", "1200", &held(thrust));
        study(&survey, Bond::None, Hold { walls: true, joints: false }).push.expect("a push")
    };
    let (full, spring) = (of("full"), of("2000 kN/m2"));
    assert!(spring.whole < full.whole && spring.whole > 0.0);
    // Upper bound: all of the load as an arch, none bent. Snow 0.5 kPa and about 0.07 kPa of its own.
    assert!(full.per_length < 600.0 * 4.0 / (8.0 * 0.1) && full.per_length > 0.5 * 500.0 * 4.0 / (8.0 * 0.1));
    assert!(full.share > 0.0 && full.share < 1.0);
}
