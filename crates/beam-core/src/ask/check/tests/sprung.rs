//! Straight tubes sprung into a crown.

use super::{SPAN, answer, near, roof, sag_at, solve, study, survey, uses_no_less};
use crate::check::{Bond, Check, CheckDocument};
use crate::loads::{Basis, BasisLoad};
use crate::model::Hold;

/// E of 6061 in ADM 2020 (10,100 ksi), and I of a 25 mm tube of 2 mm wall with sharp corners, `(25^4 - 21^4)/12`.
const EI: f64 = 69.637e9 * 16_345.33e-12;
/// `8 h/(L^2 + 4 h^2)` of a crown of 40 mm over 2 m: one over the radius by the chord theorem.
const CROWN: f64 = 8.0 * 0.04 / (SPAN * SPAN + 4.0 * 0.04 * 0.04);

fn brace(formed: &str, across: &str) -> String {
    format!(
        r#"
[[brace]]
name = "tube"
outside = ["25", "25"]
wall = "2"
corner = "0"
alloy = "6061-T6"
along = "150"
{across}
sits = "in the foam"
glued = ["outer skin"]
glue = {{ product = "rigid polyurethane", width = "25", bed = "0.3", coverage = 0.7 }}
seat = {{ bearing_length = "40", screws = 3, screw = "5", edge = "20" }}
formed = "{formed}"
[wall]
material = "softwood"
depth = "40"
condition = "sound"
"#
    )
}

/// Euler: a tube alone, held to the crown, bears `E I/R`.
#[test]
fn a_tube_held_to_the_crown() {
    let of = |formed: &str| {
        let studied =
            study(&survey("40", "300", &brace(formed, "")), Bond::Full, Hold { walls: false, joints: false });
        studied.found.findings.into_iter().find(|f| f.load == "springing in")
    };
    let found = of("sprung").expect("a finding");
    assert_eq!(found.check, Check::Brace);
    near("M = E I/R", found.demand, EI * CROWN, 1e-3);
    assert!(of("bent").is_none());
}

/// Loose under a panel that may bend: both take the curvature that their stiffnesses share out; the tube is left hogging
/// (tension on top) and the roof sags (two beams with one deflection, closed form).
#[test]
fn it_pulls_the_crown_flat() {
    let roof = roof(&survey("40", "300", &brace("sprung", "")), Bond::None);
    let (layout, response) = solve(&roof, (Basis::Sprung, BasisLoad::SprungIn));
    let [e, t] = super::SKIN;
    let foam = 30e6 * 0.05f64.powi(3) / 12.0;
    let panel = 0.3 * (e * t * super::APART.powi(2) / 2.0 + e * t.powi(3) / 6.0 + foam);
    let shared = CROWN * EI / (EI + panel);
    let middle: Vec<f64> = layout
        .braces
        .iter()
        .zip(&response.braces)
        .filter(|(p, _)| (p.x - SPAN / 2.0).abs() < 0.1)
        .map(|(_, f)| f.moment)
        .collect();
    let moment = middle.iter().sum::<f64>() / middle.len() as f64;
    near("moment left in the tube", moment, EI * (shared - CROWN), 0.02);
    assert!(sag_at(&layout, &response, (SPAN / 2.0, 0.15)) > 0.0);
    near("sag", sag_at(&layout, &response, (SPAN / 2.0, 0.15)), shared * SPAN * SPAN / 8.0, 0.1);
    assert!(
        response.walls.left.abs() + response.walls.right.abs() < 1e-6 * EI,
        "it is in balance with itself"
    );
}

#[test]
fn cut_short_on_the_left_or_on_the_right_is_the_same() {
    let of = |across: &str| {
        let roof = roof(&survey("40", "300", &brace("sprung", across)), Bond::Full);
        let (layout, response) = solve(&roof, (Basis::Sprung, BasisLoad::SprungIn));
        let most = response.braces.iter().map(|f| f.moment).fold(f64::INFINITY, f64::min);
        let at = if across.contains("200") { 0.6 } else { 1.4 };
        (most, sag_at(&layout, &response, (at, 0.15)))
    };
    let (one, other) = (of("across = [\"200\", \"1500\"]"), of("across = [\"500\", \"1800\"]"));
    assert!(one.0 < 0.0);
    near("moment", one.0, other.0, 1e-6);
    near("sag", one.1, other.1, 1e-6);
}

fn row(d: &CheckDocument, check: &str) -> f64 {
    d.checks.iter().filter(|r| r.check == check).map(|r| r.ratio.get()).fold(0.0, f64::max)
}

/// It is judged with and without: no check may gain by it, and years of its pull show in the sag.
#[test]
fn nothing_gains_by_springing_in() {
    let [sprung, bent] = ["sprung", "bent"].map(|formed| answer("40", "300", &brace(formed, "")));
    uses_no_less(&sprung, &bent);
    assert!(row(&sprung, "sag, lasting") > 1.05 * row(&bent, "sag, lasting"));
    assert!(row(&sprung, "brace") > row(&bent, "brace"));
    assert!(row(&sprung, "glue line") > row(&bent, "glue line"));
    assert!(sprung.not_checked.iter().any(|n| n.check == "glue line" && n.part == "brace tube" && n.blocks));
}
