//! Two weights together do what each does alone, added up; twice the weight does twice as much.
//!
//! Walls are given enough hold-down that no corner lifts: only then is the roof linear.

use bracewright_tests::roof::{MAP_ROOM, answer, number, runs, with};

use super::same;

const READINGS: usize = 2;

fn weight(name: &str, kg: f64, x: [u32; 2], y: [u32; 2]) -> String {
    format!(
        "
[[load]]
name = \"{name}\"
weight = \"{kg}\"
across = [\"{}\", \"{}\"]
along  = [\"{}\", \"{}\"]
kind = \"test\"
",
        x[0], x[1], y[0], y[1]
    )
}

/// Sags at the readings under the test weights, two-way.
fn sags(weights: &[String]) -> [f64; READINGS] {
    let held = with(MAP_ROOM, "condition = \"sound\"", "condition = \"sound\"\nhold_down = \"20 kN/m\"");
    let quiet = with(&held, "way  = \"on a board\"", "way  = \"nobody\"");
    let text = format!(
        "{quiet}{}
[[reading]]
name   = \"left\"
across = \"500\"
along  = \"400\"

[[reading]]
name   = \"right\"
across = \"1000\"
along  = \"700\"
",
        weights.concat()
    );
    let document = answer(&text);
    let run = runs(&document)
        .iter()
        .find(|run| run["load"] == "test weight" && run["model"] == "plate")
        .expect("a run of the test weights");
    [0, 1].map(|i| number(run, &format!("/readings/{i}/sag")))
}

/// Both weights are always there, so that the grid is the same.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn sags_add_up() {
    let both = |a: f64, b: f64| {
        sags(&[weight("sandbag", a, [400, 600], [300, 500]), weight("water can", b, [900, 1100], [600, 800])])
    };
    let (one, other, sum, twice) = (both(40.0, 5.0), both(10.0, 25.0), both(50.0, 30.0), both(100.0, 60.0));
    for i in 0..READINGS {
        assert!(one[i] > 0.0 && other[i] > 0.0);
        same("sum", one[i] + other[i], sum[i], 1e-9, 0.0);
        same("twice", 2.0 * sum[i], twice[i], 1e-9, 0.0);
    }
}
