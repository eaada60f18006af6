//! Joints in a skin that pass no force.

use super::{APART, SKIN, SPAN, answer, near, roof, sag_at, solve, study, survey, uses_no_less};
use crate::check::{Bond, Check, Verdict};
use crate::loads::{Basis, BasisLoad};
use crate::model::{Hold, IdealRoof, Role};

const PRESSURE: f64 = 100.0;

fn joint(layer: &str, at: &str, kind: &str) -> String {
    format!("[[joint]]\nlayer = \"{layer}\"\n{at}\nkind = \"{kind}\"\n")
}

fn butt(at: &str) -> IdealRoof {
    roof(&survey("0", "300", &joint("outer skin", at, "butt")), Bond::None)
}

/// Sag in the middle, and the stresses at mid-thickness and from its own bending of the inner skin over the gap.
fn under_pressure(roof: &IdealRoof) -> (f64, f64, f64) {
    let (layout, r) = solve(roof, (Basis::Snow, BasisLoad::Pressure(PRESSURE)));
    let inner = roof.layers.iter().position(|l| l.role == Role::Inner).unwrap();
    let most = |of: fn(&crate::response::SkinStress) -> f64| {
        let skins = layout.skins.iter().zip(&r.skins).filter(|(p, _)| p.layer == inner);
        skins.map(|(_, s)| of(s).abs()).fold(0.0, f64::max)
    };
    (sag_at(&layout, &r, (SPAN / 2.0, 0.15)), most(|s| s.middle[0]), most(|s| s.bending[0]))
}

/// A gap in the outer skin in the middle of a strip that bends one way. Statics: no force in the plane, so the inner
/// skin bends by itself with all of `M = q L^2/8`. Thick faces (Allen 1969, from memory): the kink is
/// `2 M/sqrt(EI S)`, which adds a quarter of the span times as much to the sag.
#[test]
fn a_gap_in_the_middle_of_a_strip() {
    let sound = under_pressure(&roof(&survey("0", "300", ""), Bond::None));
    let open = under_pressure(&butt("across = \"1000\""));
    let moment = PRESSURE * SPAN * SPAN / 8.0;
    let [e, t] = SKIN;
    near("bending of the inner skin", open.2, 6.0 * moment / (t * t), 0.01);
    // The largest force in the plane is beside the gap, as in the sound strip.
    near("middle of the inner skin", open.1, moment / (APART * t), 0.03);
    let shear = 30e6 / 2.6 * APART * APART / 0.05;
    let kink = 2.0 * moment / (2.0 * e * t.powi(3) / 12.0 * shear).sqrt();
    near("what the gap adds to the sag", open.0 - sound.0, kink * SPAN / 4.0, 0.04);
}

/// Beside the gap the foam takes `N = M/d` out of the skin over its own depth: `M/(d c)`, where nothing else shears it.
#[test]
fn the_foam_beside_a_gap() {
    let survey = survey("0", "300", &joint("outer skin", "across = \"1000\"", "butt"));
    let found = study(&survey, Bond::None, Hold { walls: false, joints: false }).found.findings;
    let of = |load: &str| found.iter().find(|f| f.check == Check::CoreShear && f.load == load);
    let day = of("own weight, first day").expect("core shear");
    let weight = (600.0 * 0.006 + 60.0 * 0.05) * 9.80665;
    near("core shear", day.demand, weight * SPAN * SPAN / 8.0 / (APART * 0.05), 0.04);
    assert!((day.x - SPAN / 2.0).abs() < 0.05);
}

/// The width of the zone that stands for the gap decides the kink alone: the stress in a strip is statics.
#[test]
fn the_stress_does_not_hang_on_the_width() {
    let of = |times: f64| {
        let mut roof = butt("across = \"1000\"");
        for zone in &mut roof.zones {
            let (middle, half) = (zone.rect.centre().0, times * (zone.rect.x1 - zone.rect.x0) / 2.0);
            (zone.rect.x0, zone.rect.x1) = (middle - half, middle + half);
        }
        for joint in &mut roof.joints {
            joint.rect = roof.zones[0].rect;
        }
        under_pressure(&roof)
    };
    let (narrow, as_is, wide) = (of(0.5), of(1.0), of(2.0));
    near("half as wide", narrow.2, as_is.2, 2e-3);
    near("twice as wide", wide.2, as_is.2, 2e-3);
    assert!(narrow.0 < as_is.0 && as_is.0 < wide.0);
}

#[test]
fn left_and_right_are_alike() {
    let (left, right) =
        (under_pressure(&butt("across = \"700\"")), under_pressure(&butt("across = \"1300\"")));
    near("sag", left.0, right.0, 1e-6);
    near("bending", left.2, right.2, 1e-6);
    let sound = under_pressure(&roof(&survey("0", "300", ""), Bond::None));
    assert!(left.0 > sound.0);
}

/// A gap along the force path of a strip cuts nothing.
#[test]
fn a_gap_that_runs_across_leaves_a_strip_as_it_is() {
    let sound = under_pressure(&roof(&survey("0", "300", ""), Bond::None));
    near("sag", under_pressure(&butt("along = \"150\"")).0, sound.0, 5e-3);
}

/// No check uses less for a joint, butt or backed; scarfed changes nothing.
#[test]
fn a_joint_never_makes_a_roof_hold_better() {
    let of = |more: &str| answer("0", "1200", more);
    let sound = of("");
    assert_eq!(sound.verdict, Verdict::Holds);
    for at in ["across = \"1000\"", "across = \"400\"", "along = \"600\""] {
        let open = of(&joint("outer skin", at, "butt"));
        uses_no_less(&open, &sound);
        let backed = of(&joint("outer skin", at, "backed"));
        assert_eq!(backed.verdict, open.verdict);
        let told = |d: &crate::check::CheckDocument| d.assumptions.iter().any(|a| a.code == "joint-backed");
        assert!(told(&backed) && !told(&open));
    }
    let scarfed = of(&joint("outer skin", "across = \"1000\"", "scarfed"));
    for (a, b) in sound.checks.iter().zip(&scarfed.checks) {
        assert_eq!((&a.check, a.ratio.get()), (&b.check, b.ratio.get()));
    }
}

/// In the middle of the span the skin that is left breaks, and the foam beside the gap is sheared harder.
#[test]
fn a_gap_in_the_middle_does_not_hold() {
    let (sound, open) =
        (answer("0", "1200", ""), answer("0", "1200", &joint("outer skin", "across = \"1000\"", "butt")));
    let most = |d: &crate::check::CheckDocument, check: &str| {
        d.checks.iter().filter(|r| r.check == check).map(|r| r.ratio.get()).fold(0.0, f64::max)
    };
    assert!(most(&open, "inner skin") > 3.0 * most(&sound, "inner skin"));
    assert!(most(&open, "core shear") > 1.5 * most(&sound, "core shear"));
}
