//! Statics: what pushes down is held up.

use bracewright_tests::roof::{MAP_ROOM, answer, number, run_name, runs, with};

use super::{busy, same};

/// About what the roof weighs, N.
const WEIGHT: f64 = 100.0;

/// Sum of the reactions is the load in every run, and the walls take it all where nothing else holds the roof.
#[test]
fn reactions_carry_the_load() {
    let document = answer(&busy());
    let mut loaded = 0;
    for run in runs(&document) {
        let name = run_name(run);
        let load = number(run, "/balance/load");
        // A roof thrown up may weigh nothing for a moment: then nothing may hold it either.
        same(&name, number(run, "/balance/reaction"), load, 1e-9, WEIGHT);
        assert!(number(run, "/balance/residual") < 1e-8, "{name}: residual");
        if load.abs() < 1e-6 {
            continue;
        }
        loaded += 1;
        let walls: f64 = ["left", "right", "front", "rear"]
            .map(|wall| number(run, &format!("/walls/{wall}")))
            .iter()
            .sum();
        let ends: f64 = run["braces"].as_array().map_or(0.0, |braces| {
            braces.iter().map(|b| number(b, "/end_reactions/0") + number(b, "/end_reactions/1")).sum()
        });
        assert!(
            (walls / load - 1.0).abs() < 1e-6 || ((walls + ends) / load - 1.0).abs() < 1e-6,
            "{name}: walls {walls}, brace ends {ends}, load {load}"
        );
    }
    assert!(loaded > 20, "only {loaded} runs with a load");
}

/// Loads of the test weight alone: 60 kg under standard gravity.
#[test]
fn a_test_weight_weighs_what_it_weighs() {
    let document = answer(&busy());
    let mut seen = 0;
    for run in runs(&document).iter().filter(|r| r["load"] == "test weight" && r["model"] == "plate") {
        same(&run_name(run), number(run, "/balance/load"), 60.0 * 9.80665, 1e-9, 0.0);
        seen += 1;
    }
    assert!(seen > 0, "no test weight was solved");
}

/// The foam over the ledger is pressed by what the wall pushes back: on a roof that runs on both ways its even share,
/// statics, over the landing and a quarter of the core's depth. A plate's free corners draw a little more.
#[test]
fn the_landing_bears_what_the_wall_pushes_back() {
    let text = with(MAP_ROOM, "front  = \"cross wall\"", "front  = \"runs on\"");
    let text = with(&text, "rear   = \"cross wall\"", "rear   = \"runs on\"");
    let answer = answer(&with(&text, "way  = \"on a board\"", "way  = \"nobody\""));
    let rows = answer["checks"].as_array().expect("a list");
    let row = rows.iter().find(|r| r["part"] == "core on the left wall").expect("the left wall");
    let run = runs(&answer)
        .iter()
        .find(|r| r["load"] == row["load"] && r["materials"] == row["materials"] && r["model"] == "plate")
        .expect("its run");
    let even = number(run, "/walls/left") / 1.016 / (0.045 + 0.25 * 0.0508);
    let ratio = number(row, "/demand") / even;
    assert!((1.0..1.12).contains(&ratio), "{ratio}");
}
