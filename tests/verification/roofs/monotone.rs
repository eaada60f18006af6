//! Stiffer never sags more; heavier never sags less.

use bracewright_tests::roof::{MAP_ROOM, answer, number, run_name, runs, with};

use super::busy;

/// Largest sag of every two-way run must be smaller in `stiffer`, run by run.
#[track_caller]
fn sags_less(stiffer: &str, than: &str) {
    let (stiffer, than) = (answer(stiffer), answer(than));
    let mut compared = 0;
    for run in runs(&stiffer) {
        let name = run_name(run);
        if let Some(other) = runs(&than).iter().find(|other| run_name(other) == name) {
            let (a, b) = (number(run, "/sag_max/value"), number(other, "/sag_max/value"));
            // A roof thrown up may lie without load for a moment.
            assert!(a < b || (a == 0.0 && b == 0.0), "{name}: {a} is not below {b}");
            compared += usize::from(a > 0.0);
        }
    }
    assert!(compared > 3, "only {compared} runs to compare");
}

#[test]
fn stiffer_skins_sag_less() {
    sags_less(&with(MAP_ROOM, "E = \"7.0 GPa\"", "E = \"9.0 GPa\""), MAP_ROOM);
}

#[test]
fn stiffer_foam_sags_less() {
    sags_less(&with(MAP_ROOM, "E = \"30 MPa\"", "E = \"40 MPa\""), MAP_ROOM);
}

#[test]
fn a_shorter_span_sags_less() {
    sags_less(&with(MAP_ROOM, "span   = \"1524\"", "span   = \"1400\""), MAP_ROOM);
}

#[test]
fn a_heavier_person_sags_it_more() {
    let (light, heavy) = (answer(MAP_ROOM), answer(&with(MAP_ROOM, "mass = \"80\"", "mass = \"100\"")));
    let mut compared = 0;
    for run in runs(&heavy).iter().filter(|run| run["load"] == "person") {
        let other = runs(&light).iter().find(|other| run_name(other) == run_name(run)).expect("the same run");
        assert!(number(run, "/sag_max/value") > number(other, "/sag_max/value"), "{}", run_name(run));
        compared += 1;
    }
    assert!(compared > 0, "no person was solved");
}

/// Under the same weight: a tube is itself a load, and its slot costs foam.
#[test]
fn a_brace_takes_sag_away() {
    let document = answer(&busy());
    let sag = |bracing: &str| {
        let run = runs(&document).iter().find(|run| {
            run["load"] == "test weight"
                && run["bracing"] == bracing
                && (run["bond"] == "full" || bracing == "without")
        });
        number(run.unwrap_or_else(|| panic!("no test weight {bracing}")), "/readings/0/sag")
    };
    assert!(sag("with") < sag("without"), "{} and {}", sag("with"), sag("without"));
}
