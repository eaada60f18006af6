//! Weights by arithmetic: what a unit presses on its rim, what it weighs on the road, what soaked foam holds.

use bracewright_tests::roof::{MAP_ROOM, answer, number, runs, with};
use serde_json::Value;

use super::same;

const GRAVITY: f64 = 9.80665;

/// The map room on a smooth road: 40 mm of soaked foam, and a unit of 450 N over a hatch of 356 mm on a gasket of 25 mm.
fn wet_under_a_unit() -> String {
    let text = with(MAP_ROOM, "50.8", "40");
    let text = with(&text, "way  = \"on a board\"", "way  = \"nobody\"");
    format!(
        "{text}
[[opening]]
name = \"hatch\"
across = [\"584\", \"940\"]
along  = [\"330\", \"686\"]

[unit]
weight       = \"{}\"
opening      = \"hatch\"
gasket_width = \"25\"

[conditions]
road = \"smooth\"

[[damage]]
name   = \"leak\"
layer  = \"core\"
across = [\"0\", \"1524\"]
along  = [\"0\", \"1016\"]
state  = \"wet\"
",
        450.0 / GRAVITY
    )
}

/// The load of a run with the moduli to be expected.
fn load(answer: &Value, named: &str) -> f64 {
    let of = |run: &&Value| run["load"] == named && run["materials"] == "default" && run["model"] == "plate";
    number(runs(answer).iter().find(of).unwrap_or_else(|| panic!("no {named}")), "/balance/load")
}

/// LD5: a tenth of water by volume in 40 mm is 4 kg/m2. LD8: 450 N are 900 N under one more of gravity, the factor of a
/// smooth road. LD4: 450 N on the ring about 356 mm are 0.01181102 MPa; its heavy half carries six tenths, 1.2 of that.
#[test]
fn unit_and_water_weigh_what_arithmetic_says() {
    let answer = answer(&wet_under_a_unit());
    let area = 1.524 * 1.016 - 0.356 * 0.356;
    let dry = 2.0 * 0.00635 * 600.0 + 0.040 * 60.0;
    let own = load(&answer, "self-weight");
    same("LD5", own / (area * GRAVITY) - dry, 4.0, 1e-9, 0.0);
    same("LD8", load(&answer, "unit on the road") - 2.0 * own, 900.0, 1e-9, 0.0);
    let rows = answer["checks"].as_array().expect("a list");
    let rim =
        rows.iter().find(|r| r["part"] == "core under the unit's rim" && r["load"] == "unit on the road");
    let pressure = number(rim.expect("a rim"), "/demand") / (1.2 * 2.0);
    same("LD4", pressure, 0.01181102e6, 1e-6, 0.0);
}
