//! The slot against what nobody here wrote, and against its own finer self.

use super::*;
use crate::local::{FootCase, Patch, indent};
use approx::assert_relative_eq;

/// 1/8 in lauan plywood, face grain along the slot: 1.2 and 8 GPa flexural, rolling shear of 120 MPa.
const PLY: PlateD = PlateD {
    shear: [5.0 / 6.0 * 120e6 * 0.003_175; 2],
    over: 0.003_175 / 2.0,
    ..PlateD::thin(3.2037, 21.358, 0.2563, 1.3336)
};
const FOAM: Layer = Layer { e: 5e6, nu: 0.1, depth: 0.050 };

fn patch(across: f64, along: f64, middle: f64) -> SlotPatch {
    SlotPatch { load: 1000.0, across, along, middle }
}

const FULL: [f64; 2] = [0.0, 1.0];
const NO_SLOT: Void = Void { width: 0.0, cut: FULL };

fn one(plate: PlateD, below: Below, width: f64, cut: [f64; 2], patch: SlotPatch) -> SlotDent {
    let case = SlotCase { plates: &[plate], foam: FOAM, below, void: Void { width, cut } };
    dents(&case, &[patch]).unwrap().remove(0)
}

/// Without a slot it is the foot on an endless skin: foam within 0.2 percent, bending within 3; under a shoe over a lower
/// skin that moves, where bending is small and the panel's sway slow to fade, within 5.
#[test]
fn no_slot_is_the_foot_on_sound_foam() {
    for below in [Below::Rigid, Below::Skin(PLY), Below::Nothing] {
        for (across, along, least) in [(0.05, 0.05, 0.98), (0.1, 0.18, 0.95), (0.18, 0.1, 0.95)] {
            let got = one(PLY, below, 0.0, FULL, patch(across, along, 0.0));
            let patch = Patch { load: 1000.0, across, along };
            let sound = indent(&FootCase { plates: &[PLY], foam: FOAM, below, patch }).unwrap();
            assert_relative_eq!(got.foam_stress, sound.foam_stress, max_relative = 2e-3);
            for (got, sound) in got.moments[0].iter().zip(sound.moments[0].largest()) {
                let over = got / sound;
                assert!(over > least && over < 1.03, "{below:?} {across} {along}: {over}");
            }
        }
    }
}

/// A saw cut is no sound foam: nothing pulls across it, and the skin over it bends up to a seventh more. It comes to that as
/// it narrows, each half width by half of the step before.
#[test]
fn a_narrow_slot_is_a_cut() {
    let heel = patch(0.05, 0.05, 0.0);
    let [none, wide, narrow, less] =
        [0.0, 0.0005, 0.00025, 0.000125].map(|width| one(PLY, Below::Rigid, width, FULL, heel));
    for d in 0..2 {
        let [before, step] =
            [(&wide, &narrow), (&narrow, &less)].map(|(a, b)| a.moments[0][d] - b.moments[0][d]);
        assert!(
            step > 0.4 * before && step < 0.6 * before && step < 0.02 * less.moments[0][d],
            "{before} {step}"
        );
        let over = less.moments[0][d] / none.moments[0][d];
        assert!(over > 1.0 && over < 1.15, "{over}");
    }
}

/// Lips that do not give: a strip clamped at both, `P` per length over `a` in the middle of `w`. At the lips
/// `P (3 w^2 - a^2)/(24 w)`, in the middle `P w/4 - P a/8` less that (beam with fixed ends, Roark's Formulas, from memory).
#[test]
fn stiff_foam_clamps_the_skin() {
    let skin = PlateD::thin(4.0, 4.0, 0.0, 2.0);
    for (w, a) in [(0.080, 0.010), (0.080, 0.060), (0.200, 0.040)] {
        let foam = Layer { e: 2e10, ..FOAM };
        let case =
            SlotCase { plates: &[skin], foam, below: Below::Rigid, void: Void { width: w, cut: FULL } };
        // So long that its ends are not felt in its middle.
        let long = SlotPatch { load: 1000.0, across: a, along: 1.0, middle: 0.0 };
        let got = dents(&case, &[long]).unwrap().remove(0);
        let lip = 1000.0 * (3.0 * w * w - a * a) / (24.0 * w);
        let middle = 1000.0 * (w / 4.0 - a / 8.0) - lip;
        assert_relative_eq!(got.moments[0][0], lip.max(middle), max_relative = 0.03);
    }
}

/// Solids (`tests/second_route/slots.py`), whose own cells move them by less than 1 percent: foam within 3 percent, or 6
/// where it is read in the wall under the roof of a part slot, bending up to 3 percent below.
#[test]
fn solid_models_of_feet_at_slots() {
    let solid = include_str!("../../../../../data/second_route/slots.csv");
    let section = 0.003_175f64.powi(2) / 6.0;
    for (id, width, cut, below, [across, along], middle) in [
        ("heel_25", 0.025, FULL, Below::Rigid, [0.05, 0.05], 0.0),
        ("shoe_25", 0.025, FULL, Below::Rigid, [0.1, 0.18], 0.0),
        ("heel_40_top", 0.040, [0.5, 1.0], Below::Rigid, [0.05, 0.05], 0.0),
        ("heel_80", 0.080, FULL, Below::Rigid, [0.05, 0.05], 0.0),
        ("shoe_80", 0.080, FULL, Below::Rigid, [0.1, 0.18], 0.0),
        ("heel_80_lip", 0.080, FULL, Below::Rigid, [0.05, 0.05], 0.040),
        ("heel_25_beside", 0.025, FULL, Below::Rigid, [0.05, 0.05], 0.0375),
        ("heel_40_bottom", 0.040, [0.0, 0.6], Below::Rigid, [0.05, 0.05], 0.0),
        ("hung_heel_25", 0.025, FULL, Below::Skin(PLY), [0.05, 0.05], 0.0),
        ("hung_shoe_80", 0.080, FULL, Below::Skin(PLY), [0.1, 0.18], 0.0),
    ] {
        let value = |what: &str| -> f64 {
            let row = solid.lines().find(|l| l.starts_with(&format!("{id},{what},")));
            row.map_or(0.0, |row| row.rsplit(',').next().unwrap().parse().unwrap())
        };
        let got = one(PLY, below, width, cut, patch(across, along, middle));
        let part = cut[1] < 1.0;
        let foam =
            ["foam_away", "foam_5mm", "wall_over", "wall_under"].map(value).into_iter().fold(0.0, f64::max);
        let off = if part { 0.06 } else { 0.03 };
        assert_relative_eq!(got.foam_stress, foam, max_relative = off);
        for (d, what) in [(0, "bend_x"), (1, "bend_y")] {
            let over = got.moments[0][d] / section / value(what);
            assert!(over > 0.97 && over < 1.01, "{id} {what}: {over}");
        }
        if part {
            // There at the corners, here up to them.
            let over = got.stretch / value("stretch");
            assert!(over > 0.97 && over < 1.3, "{id}: stretch {over}");
        }
    }
}

/// Where the slot ends the skin finds a third side to rest on: bent across and pressed at the lips less than over a slot
/// without end, and along no more than over one turned, as wide as this is long (80 mm either way).
#[test]
fn ends_of_a_slot_help() {
    let solid = include_str!("../../../../../data/second_route/slots.csv");
    let section = 0.003_175f64.powi(2) / 6.0;
    let heel = patch(0.05, 0.05, 0.0);
    let across = one(PLY, Below::Rigid, 0.080, FULL, heel);
    let along = one(PLY.turned(), Below::Rigid, 0.080, FULL, heel);
    let value = |what: &str| -> f64 {
        let row = solid.lines().find(|l| l.starts_with(&format!("heel_80_ends,{what},"))).unwrap();
        row.rsplit(',').next().unwrap().parse().unwrap()
    };
    assert!(across.moments[0][0] > section * value("bend_x"));
    assert!(along.moments[0][0].max(across.moments[0][1]) > section * value("bend_y"));
    assert!(across.foam_stress > value("foam_5mm") && along.foam_stress > value("foam_5mm_end"));
}

/// Finer cells, shorter waves and more of them, a wider section: foam moves by less than 2 percent, bending by less than 3.
#[test]
fn finer_is_alike() {
    let fine = Fineness { waves: 19, shortest: 12.0, cells: 2.0, fade: 24.0 };
    for (width, cut) in [(0.025, FULL), (0.080, [0.5, 1.0])] {
        for below in [Below::Rigid, Below::Skin(PLY)] {
            let case = SlotCase { plates: &[PLY], foam: FOAM, below, void: Void { width, cut } };
            let patches = [patch(0.05, 0.05, 0.0), patch(0.05, 0.05, width / 2.0), patch(0.1, 0.18, 0.0)];
            let [coarse, finer] = [FINENESS, fine].map(|f| dents_by(&case, &patches, f).unwrap());
            for (c, f) in coarse.iter().zip(&finer) {
                assert_relative_eq!(c.foam_stress, f.foam_stress, max_relative = 0.02);
                for d in 0..2 {
                    assert_relative_eq!(c.moments[0][d], f.moments[0][d], max_relative = 0.03);
                }
            }
        }
    }
}

/// A board on the skin takes part of the bending; a wider slot bends more; what is no plate or no number is refused.
#[test]
fn laws_and_nonsense() {
    let heel = patch(0.05, 0.05, 0.0);
    let board = PlateD { shear: [4e6; 2], ..PlateD::thin(654.0, 1308.0, 65.0, 97.0) };
    let of = |plates: &[PlateD], width: f64| {
        let void = Void { width, cut: FULL };
        dents(&SlotCase { plates, foam: FOAM, below: Below::Rigid, void }, &[heel]).unwrap().remove(0)
    };
    let (bare, boarded) = (of(&[PLY], 0.05), of(&[PLY, board], 0.05));
    assert!(
        boarded.moments[0][0] < 0.2 * bare.moments[0][0] && boarded.moments[1][0] > boarded.moments[0][0]
    );
    assert!(boarded.foam_stress < 0.5 * bare.foam_stress);
    assert!(of(&[PLY], 0.1).moments[0][0] > bare.moments[0][0]);
    let none = SlotCase { plates: &[], foam: FOAM, below: Below::Rigid, void: NO_SLOT };
    assert!(dents(&none, &[heel]).is_err());
    let case = SlotCase { plates: &[PLY], ..none };
    assert!(dents(&case, &[patch(0.05, f64::NAN, 0.0)]).is_err());
}
