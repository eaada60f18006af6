//! A walk against the check that it takes its limits from, and against itself.

use super::super::check::{CheckOptions, check};
use super::super::places::{PersonPlace, edge_strip, patch, person_places};
use super::super::study::{Job, Variant};
use super::ground::{Found, Ground, SolvedRoof, joints_by};
use super::judge::worst_places;
use super::raster::{Raster, Stance};
use super::scan::Worst;
use super::{WalkOptions, walk};
use crate::check::{Bracing, Check, Verdict};
use crate::loads::{Factors, Footing};
use crate::model::{Hold, IdealRoof, LayerState, Rect, idealise};
use crate::plate::Layouts;
use crate::survey::{Survey, read_text};
use section_tables::Tables;

fn ground<'a>(survey: &'a Survey, factors: &'a Factors, roof: &'a IdealRoof, v: &Variant) -> Ground<'a> {
    let solved =
        SolvedRoof::new(survey, factors, roof, v, &Layouts::default()).unwrap_or_else(|e| panic!("{e:?}"));
    Ground::new(survey, factors, roof, v, solved.into(), Default::default())
        .unwrap_or_else(|e| panic!("{e:?}"))
}

/// A van's roof with a hole in its middle and a brace each side; the heavy ends of the unit make it lie unevenly.
fn reading_van(more: &str) -> Survey {
    van_held("", more)
}

fn van_held(wall: &str, more: &str) -> Survey {
    let text = format!(
        r#"
survey = 1
title = "Seed library van, roof over the reading bay"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "30"
length = "2000"
front = "cross wall"
rear = "cross wall"
[[layer]]
name = "outer skin"
material = "tropical plywood, equal plies"
thickness = "3"
grain = "across"
[[layer]]
name = "core"
material = "EPS 25"
thickness = "50"
[[layer]]
name = "inner skin"
material = "tropical plywood, equal plies"
thickness = "3"
grain = "across"
[[opening]]
name = "hatch"
across = ["820", "1180"]
along = ["820", "1180"]
frame = {{ width = "25", material = "softwood" }}
[wall]
material = "softwood"
depth = "40"
condition = "sound"
{wall}
[person]
mass = "90"
{more}
"#
    );
    read_text("van.toml", &text, Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}"))
}

const DAMAGE: &str = r#"
way = "on a board"
[[damage]]
name = "soft corner"
layer = "core"
across = ["300", "700"]
along = ["1400", "1800"]
remaining = { stiffness = 0.5, strength = 0.5 }
[[brace]]
name = "front"
tube = "1 1/2 x 1 1/2 x 1/8"
alloy = "6061-T6"
along = "700"
glued = ["outer skin"]
glue = { product = "rigid polyurethane", width = "38", bed = "0.3", coverage = 0.7 }
seat = { bearing_length = "38", screws = 3, screw = "5", edge = "20" }
[[slot]]
across = ["1500", "1580"]
along = ["200", "1900"]
depth = "25"
"#;

/// Glued at the heat of the roof: what heat strains is not on a map, and not in its way here.
const NO_STRAIN: &str = "[conditions]\nglued_at = \"70 C\"\n";

fn variant(bracing: Bracing) -> Variant {
    Variant::finished(bracing, Hold { walls: false, joints: false })
}

fn roof_of(survey: &Survey, v: &Variant) -> IdealRoof {
    idealise(survey, v.configuration(), v.materials, v.grain_across).unwrap_or_else(|e| panic!("{e:?}"))
}

/// The same person at the same place on the same patch uses the same share in both, check by check the worst: where
/// walls hold the roof down, and where corners let go.
#[test]
#[ignore = "takes a minute: .ci/deep runs it"]
fn a_person_of_the_check_uses_the_same_on_a_walk() {
    for (wall, footing) in [
        ("hold_down = \"5 kN/m\"", Footing::OnABoard),
        ("hold_down = \"5 kN/m\"", Footing::Bare),
        ("", Footing::OnABoard),
    ] {
        let survey = van_held(wall, &format!("{DAMAGE}{NO_STRAIN}"));
        let factors = Factors::of(&survey, Tables::shipped()).unwrap();
        let v = variant(Bracing::With);
        let roof = roof_of(&survey, &v);
        let people = person_places(&survey, &roof, &factors, footing);
        let ground = ground(&survey, &factors, &roof, &v);
        assert!(people.len() >= 6, "{}", people.len());
        // Each is a whole study: every other place.
        for place in people.into_iter().step_by(2) {
            let PersonPlace { x, y, patch, .. } = place;
            let job = Job::new(&survey, &factors, "finished".to_owned(), vec![place]);
            let studied = job.study(v).unwrap_or_else(|e| panic!("{e:?}"));
            let by_person = studied.found.findings.iter().filter(|f| f.person == Some(0));
            let by_check = by_person.map(|f| f.ratio).fold(0.0, f64::max);
            let stance = Stance { survey: &survey, footing, patch };
            let Some(way) = stance.at(&roof, &factors, 0, (x, y)).into_iter().next() else {
                // A check tries bare feet right up to a hole; a walk does not step into its edge strip.
                let by =
                    |o: &Rect| [x - o.x1, o.x0 - x, y - o.y1, o.y0 - y].into_iter().fold(f64::MIN, f64::max);
                let nearest = roof.openings.iter().map(by).fold(f64::INFINITY, f64::min);
                assert!(footing == Footing::Bare && nearest < edge_strip(&roof) + patch[1], "{x} {y}");
                continue;
            };
            let let_go = ground.settled(&way).unwrap();
            let away = |ratio: f64| (ratio - by_check).abs() / by_check;
            assert!(away(let_go.ratio) < 1e-9, "{footing:?} at {x} {y}: walk {let_go:?}, check {by_check}");
            if wall.is_empty() {
                continue;
            }
            let (hot, _) = ground.full_and_quick(&way).unwrap();
            assert!(away(hot.ratio) < 1e-9, "{footing:?} at {x} {y}: walk {hot:?}, check {by_check}");
        }
    }
}

/// A butt joint in the outer skin, clear of the hatch.
const JOINT: &str =
    "way = \"on a board\"\n[[joint]]\nlayer = \"outer skin\"\nalong = \"1600\"\nkind = \"butt\"\n";

/// Skins four times as thick, so that the foam governs.
fn thicken(survey: &mut Survey) {
    for skin in [0, 2] {
        survey.layers[skin].thickness.wall *= 4.0;
        survey.layers[skin].thickness.crown *= 4.0;
    }
}

/// A person beside a butt joint shears the foam there as much as in the check.
#[test]
fn a_person_by_a_joint_uses_the_same_on_a_walk() {
    let mut survey = van_held("hold_down = \"5 kN/m\"", JOINT);
    thicken(&mut survey);
    let factors = Factors::of(&survey, Tables::shipped()).unwrap();
    let v = variant(Bracing::Without);
    let roof = roof_of(&survey, &v);
    let ground = ground(&survey, &factors, &roof, &v);
    let footing = Footing::OnABoard;
    let patch = patch(&survey, &roof, &factors, footing);
    // Clear of the hatch with the board's long side along.
    let (x, y) = (0.32, 1.38);
    let job = Job::new(&survey, &factors, "finished".to_owned(), vec![PersonPlace { x, y, patch, footing }]);
    let studied = job.study(v).unwrap_or_else(|e| panic!("{e:?}"));
    let by_person = studied.found.findings.iter().filter(|f| f.person == Some(0));
    let worst = by_person.max_by(|a, b| a.ratio.total_cmp(&b.ratio)).expect("a finding");
    let way = Stance { survey: &survey, footing, patch }.at(&roof, &factors, 0, (x, y)).swap_remove(0);
    let (full, quick) = ground.full_and_quick(&way).unwrap();
    assert_eq!((worst.check, full.check), (Check::CoreShear, Check::CoreShear));
    for one in [full, quick, ground.settled(&way).unwrap()] {
        assert!((one.ratio - worst.ratio).abs() < 1e-9 * worst.ratio, "walk {one:?}, check {worst:?}");
    }
}

/// A foot meets the joint as far off as an edge would be felt, and no farther.
#[test]
fn a_foot_near_a_joint_meets_the_cut_skin() {
    let survey = reading_van(JOINT);
    let roof = roof_of(&survey, &variant(Bracing::Without));
    let half = 0.1;
    let reach = half + super::edge_strip(&roof);
    let edge = roof.joints[0].rect.y0;
    for y in [1.6, edge - 0.99 * reach] {
        let met = joints_by(&roof, (0.3, y), half);
        let [(x, y)] = met[..] else { panic!("{y}: {met:?}") };
        assert!(roof.state_at(x, y).iter().any(LayerState::is_cut), "{x} {y}");
    }
    assert_eq!(joints_by(&roof, (0.3, edge - 1.01 * reach), half), []);
}

/// Cells that are not read hold nothing worse: against reading every cell, at places all over the roof.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn the_quick_reading_misses_nothing() {
    let survey = reading_van(DAMAGE);
    let factors = Factors::of(&survey, Tables::shipped()).unwrap();
    for v in [variant(Bracing::With), variant(Bracing::Without)] {
        let roof = roof_of(&survey, &v);
        let ground = ground(&survey, &factors, &roof, &v);
        for footing in [Footing::OnABoard, Footing::Bare] {
            let patch = patch(&survey, &roof, &factors, footing);
            let stance = Stance { survey: &survey, footing, patch };
            let mut compared = 0;
            for k in 0..120u32 {
                let share = |step: f64| (f64::from(k) * step).fract();
                let at = (2.0 * share(0.618_033_988_749_895), 2.0 * share(0.754_877_666_246_693));
                for person in stance.at(&roof, &factors, 0, at) {
                    let (full, quick) = ground.full_and_quick(&person).unwrap();
                    assert!(
                        (full.ratio - quick.ratio).abs() <= 1e-9 * full.ratio,
                        "{footing:?} {at:?}: {full:?} {quick:?}"
                    );
                    compared += 1;
                }
            }
            assert!(compared > 150, "{compared}");
        }
    }
}

/// Left and right alike, front and rear alike: so is the map.
#[test]
fn a_symmetric_roof_has_a_symmetric_map() {
    let survey = reading_van("way = \"bare\"\n");
    let factors = Factors::of(&survey, Tables::shipped()).unwrap();
    let v = variant(Bracing::Without);
    let roof = roof_of(&survey, &v);
    let ground = ground(&survey, &factors, &roof, &v);
    let raster = Raster::over(&roof, &factors, 200);
    let patch = patch(&survey, &roof, &factors, Footing::Bare);
    let stance = Stance { survey: &survey, footing: Footing::Bare, patch };
    let found = ground.tread(&stance, &raster.places(), &raster.in_tiles()).found;
    let (columns, rows) = (raster.across.len(), raster.along.len());
    for j in 0..rows {
        for i in 0..columns {
            let one = found[j * columns + i].ratio();
            for mirrored in [found[j * columns + columns - 1 - i], found[(rows - 1 - j) * columns + i]] {
                match (one, mirrored.ratio()) {
                    (Some(a), Some(b)) => assert!((a - b).abs() < 2e-3 * a, "{i} {j}: {a} {b}"),
                    (a, b) => assert_eq!(a.is_some(), b.is_some(), "{i} {j}"),
                }
            }
        }
    }
    // Nobody stands in the hole or its edge strip; everywhere else somebody does.
    let strip = super::edge_strip(&roof);
    for ((x, y), one) in raster.places().into_iter().zip(&found) {
        let reach = strip + patch[0].min(patch[1]) / 2.0;
        let inside = |v: f64| v > 0.82 - reach + 1e-9 && v < 1.18 + reach - 1e-9;
        let by_hole = inside(x) && inside(y);
        if by_hole {
            assert_eq!(*one, Found::NoPlace, "{x} {y}");
        }
        let far = strip + patch[0].max(patch[1]) / 2.0;
        let outside = |v: f64| v < 0.82 - far || v > 1.18 + far;
        if outside(x) || outside(y) {
            assert!(one.ratio().is_some(), "{x} {y}: {one:?}");
        }
    }
}

/// Of mirrored places, which differ by rounding, the first is the worst, and no check is left out.
#[test]
fn the_first_of_mirrored_places_is_the_worst() {
    let of = |check, ratio| Found::Worst(Worst::of(check, ratio, 0.0, 0.0));
    let found = [
        Found::NoPlace,
        of(Check::Sag, 0.3),
        of(Check::CoreShear, 0.6),
        of(Check::CoreShear, 0.6 + 1e-13),
        Found::NotChecked,
        of(Check::CoreShear, 0.5),
    ];
    assert_eq!(worst_places(&found, 3), [2, 1, 3]);
    assert_eq!(worst_places(&[of(Check::Sag, 0.9), of(Check::Sag, f64::NAN)], 1), [1]);
}

#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn the_map_is_whole_and_as_found_is_answered() {
    let survey = reading_van(DAMAGE);
    let tables = Tables::shipped();
    let answer = walk(&survey, tables, WalkOptions::default()).unwrap();
    let stages: Vec<&str> = answer.answers.iter().map(|a| a.stage.as_str()).collect();
    assert_eq!(stages, ["as found", "finished"]);
    let places = &answer.places;
    let (columns, rows) = (places.across.len(), places.along.len());
    assert!(columns * rows >= 1500, "{columns} x {rows}");
    assert!(answer.unknowns >= 20_000, "{}", answer.unknowns);
    assert_eq!((places.ratio.len(), places.check.len(), places.unknown.len()), (rows, rows, rows));
    let mut worst: f64 = 0.0;
    for (ratios, checks) in places.ratio.iter().zip(&places.check) {
        assert_eq!((ratios.len(), checks.len()), (columns, columns));
        for (ratio, check) in ratios.iter().zip(checks) {
            assert_eq!(ratio.is_some(), check.is_some());
            assert!(check.is_none_or(|c| c < places.checks.len()));
            worst = worst.max(ratio.map_or(0.0, |r| r.get()));
        }
    }
    let told = answer.worst.unwrap();
    assert!((told.ratio.get() - worst).abs() < 2e-9 * worst, "{} {worst}", told.ratio.get());
    // It is one of the places that every bracket was tried at.
    assert!(told.ratio_by_materials.iter().all(Option::is_some), "{:?}", told.ratio_by_materials);
    let as_found = walk(&survey, tables, WalkOptions { stage: Some("as found".to_owned()) }).unwrap();
    assert_eq!(as_found.answers.len(), 1);
    assert_eq!(as_found.stage, "as found");
}

/// Feet that fail by themselves fail everywhere: a heavy bare foot on thin skin and soft foam.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn a_foot_that_dents_needs_a_board() {
    let survey = reading_van("way = \"bare\"\n");
    let tables = Tables::shipped();
    let answer = walk(&survey, tables, WalkOptions::default()).unwrap();
    let judged = check(&survey, tables, CheckOptions::default()).unwrap();
    let foot = judged
        .checks
        .iter()
        .filter(|c| c.counts && (c.check == "dent" || c.check == "heel"))
        .map(|c| c.ratio_by_materials[1].get())
        .fold(0.0, f64::max);
    let least = answer.places.ratio.iter().flatten().flatten().map(|r| r.get()).fold(f64::INFINITY, f64::min);
    assert!(least >= foot * (1.0 - 1e-9), "{least} {foot}");
    assert_ne!(answer.verdict, Verdict::Holds);
    assert!(answer.places.checks.iter().any(|c| c == Check::Dent.name() || c == Check::Heel.name()));
}

#[test]
fn a_stage_that_is_not_there_is_named() {
    let survey = reading_van("way = \"bare\"\n");
    let wrong = walk(&survey, Tables::shipped(), WalkOptions { stage: Some("half way".to_owned()) });
    assert!(wrong.unwrap_err().to_string().contains("half way"));
}
