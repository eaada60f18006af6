//! Roofs that must fail by a check of the road, by heat or by wind, and their like that pass.

use super::super::check::{CheckOptions, check};
use super::super::evaluate::Findings;
use super::super::gaps::gaps;
use super::super::study::{Job, Variant};
use crate::check::{
    Bracing, Check, Context, Cure, Finding, Materials, NotChecked, Verdict, hold_down_findings,
};
use crate::loads::Factors;
use crate::model::{Hold, LayerState, StageChoice, Time, idealise, lay_up, moduli, panel_weight};
use crate::quantity::STANDARD_GRAVITY;
use crate::survey::{Survey, read_text};
use section_tables::Tables;
use std::f64::consts::PI;

fn roof(span: &str, foam: &str, ends: &str, more: &str) -> Survey {
    let text = format!(
        r#"
survey = 1
title = "Seed library van, roof over the reading bay"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "{span}"
rise = "0"
length = "1600"
front = "{ends}"
rear = "{ends}"
[[layer]]
name = "outer skin"
material = "birch plywood"
thickness = "4"
grain = "across"
[[layer]]
name = "core"
material = "XPS 30"
thickness = "{foam}"
[[layer]]
name = "inner skin"
material = "birch plywood"
thickness = "4"
grain = "across"
[person]
way = "nobody"
{more}
"#
    );
    read_text("van.toml", &text, Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}"))
}

fn with_defaults(bracing: Bracing) -> Variant {
    Variant::finished(bracing, Hold { walls: false, joints: false })
}

/// What is found on a roof of default materials, and its factors.
fn studied(survey: &Survey, bracing: Bracing) -> Findings {
    let factors = Factors::of(survey, Tables::shipped()).unwrap();
    let job = Job::new(survey, &factors, "finished".to_owned(), Vec::new());
    job.study(with_defaults(bracing)).unwrap_or_else(|e| panic!("{e:?}")).found
}

/// The worst of one check of one part.
fn worst<'a>(found: &'a Findings, check: Check, part: &str) -> &'a Finding {
    let of = found.findings.iter().filter(|f| f.check == check && f.part == part);
    of.max_by(|a, b| a.ratio.total_cmp(&b.ratio)).unwrap_or_else(|| panic!("no {check:?} of {part}"))
}

fn told(survey: &Survey) -> Vec<NotChecked> {
    gaps(survey, &Factors::of(survey, Tables::shipped()).unwrap(), StageChoice::Finished)
}

const HATCH: &str = r#"
[[opening]]
name = "hatch"
across = ["820", "1180"]
along = ["620", "980"]
frame = { width = "25", material = "softwood" }
[unit]
weight = "60"
opening = "hatch"
"#;

fn braced(glue: &str, screws: &str, conditions: &str) -> Survey {
    roof(
        "2000",
        "50",
        "cross wall",
        &format!(
            r#"
[[brace]]
name = "front"
tube = "1 1/2 x 1 1/2 x 1/8"
alloy = "6061-T6"
along = "400"
glued = ["outer skin"]
glue = {glue}
seat = {{ bearing_length = "38", {screws} screw = "5", edge = "20" }}
[wall]
material = "softwood"
depth = "40"
condition = "sound"
[conditions]
{conditions}
"#
        ),
    )
}

const STIFF: &str = r#"{ product = "rigid polyurethane", width = "38", bed = "0.3", coverage = 0.9 }"#;

/// Nobody can say that a stiff glue lasts at the ends of a long tube under a hot roof; glued at that heat it does.
#[test]
fn a_stiff_glue_line_is_not_known_to_last_in_heat() {
    let part = "brace front, ends";
    let hot =
        studied(&braced(STIFF, "screws = 3,", "roof_hot = \"70 C\"\nglued_at = \"20 C\""), Bracing::With);
    let ends = worst(&hot, Check::GlueEnds, part);
    assert!(ends.ratio > 2.0 && ends.load == "hot", "{} {}", ends.load, ends.ratio);
    assert_eq!((ends.check.name(), ends.check.cure()), ("glue line", Cure::NotSure));

    let frost = "roof_hot = \"25 C\"\nglued_at = \"25 C\"\ncold = \"-30 C\"";
    let frost = studied(&braced(STIFF, "screws = 3,", frost), Bracing::With);
    let of = |load: &str, check: Check, part: &str| {
        let found = frost.findings.iter().filter(|f| f.check == check && f.part == part && f.load == load);
        found.map(|f| f.ratio).fold(0.0, f64::max)
    };
    assert!(of("cold", Check::GlueEnds, part) > 2.0);
    assert!(of("hot", Check::GlueEnds, part) < 1.0, "as warm as it was glued");
    // Tube and skin are strained with it.
    for (check, part) in [(Check::Brace, "brace front"), (Check::OuterSkin, "outer skin")] {
        let (cold, even) = (of("cold", check, part), of("hot", check, part));
        assert!(cold > even + 0.03, "{part}: cold {cold}, even {even}");
    }
}

/// A brace without screws at its ends may peel off there; with them that is told and no more.
#[test]
fn peel_asks_for_screws() {
    let peels = |survey: &Survey| {
        told(survey).iter().find(|n| n.check == "glue line" && n.why.starts_with("peel")).unwrap().blocks
    };
    assert!(peels(&braced(STIFF, "", "")));
    assert!(!peels(&braced(STIFF, "screws = 2,", "")));
}

/// A long, thin, loaded roof bounces with the body; a short, thick one does not.
#[test]
fn a_floppy_roof_shakes_in_step_with_the_body() {
    let load = "[[load]]\nname = \"crate\"\nweight = \"120\"\nacross = [\"1200\", \"1800\"]\nalong = [\"500\", \"1100\"]\nkind = \"fixed\"";
    let floppy = studied(&roof("3000", "25", "runs on", load), Bracing::Without);
    let shakes = worst(&floppy, Check::NaturalFrequency, "panel");
    assert!(shakes.ratio > 1.0, "{} Hz", shakes.limit);
    assert_eq!((shakes.check.name(), shakes.check.cure()), ("natural frequency", Cure::Bracing));
    let stiff = studied(&roof("2000", "80", "cross wall", ""), Bracing::Without);
    assert!(worst(&stiff, Check::NaturalFrequency, "panel").ratio < 1.0);
}

/// The two-way roof's own frequency against closed forms of shear-flexible plates: a strip between two walls (beam with
/// bending and shear, Timoshenko without rotary inertia), and a plate held on all four sides (one wave each way).
#[test]
fn own_frequency_is_that_of_the_closed_forms() {
    for held in [false, true] {
        let survey = roof("2000", "50", if held { "cross wall" } else { "runs on" }, "");
        let factors = Factors::of(&survey, Tables::shipped()).unwrap();
        let job = Job::new(&survey, &factors, "finished".to_owned(), Vec::new());
        let variant = with_defaults(Bracing::Without);
        let found = job.study(variant).unwrap_or_else(|e| panic!("{e:?}")).found;
        let got = found.findings.iter().find(|f| f.check == Check::NaturalFrequency).unwrap().limit;

        let ideal = job.roof(&variant).unwrap_or_else(|e| panic!("{e:?}"));
        let state = vec![LayerState::SOUND; 3];
        let all: Vec<_> = ideal
            .layers
            .iter()
            .map(|l| {
                moduli(&l.material, l.grain_across, Materials::Default, Time::Fresh, ideal.creep_hours)
                    .unwrap()
            })
            .collect();
        let made = lay_up(&ideal, &all, &state, 1.0, Time::Fresh, None).unwrap().unwrap();
        let (d, [sx, sy]) = (made.laminate.bending_free_si(), made.laminate.shear_si());
        let mass = panel_weight(&ideal, &state, 1.0) / STANDARD_GRAVITY;
        let a = PI / 2.0;
        let stiffness = if held {
            // W, X, Y of w = W sin sin, bx = X cos sin, by = Y sin cos, with X and Y eliminated (Reddy, Mindlin plates).
            let b = PI / 1.6;
            let (k11, k22, k12) =
                (d.xx * a * a + d.ss * b * b + sx, d.ss * a * a + d.yy * b * b + sy, (d.xy + d.ss) * a * b);
            let (r1, r2) = (sx * a, sy * b);
            let det = k11 * k22 - k12 * k12;
            sx * a * a + sy * b * b - (r1 * (k22 * r1 - k12 * r2) + r2 * (k11 * r2 - k12 * r1)) / det
        } else {
            let own = d.xx - d.xy * d.xy / d.yy;
            1.0 / (1.0 / (own * a.powi(4)) + 1.0 / (sx * a * a))
        };
        let exact = (stiffness / mass).sqrt() / (2.0 * PI);
        assert!((got / exact - 1.0).abs() < 0.01, "held {held}: {got} Hz, closed form {exact} Hz");
    }
}

fn hatched(walls: &str, more: &str) -> Survey {
    let wall = format!("[wall]\nmaterial = \"softwood\"\ndepth = \"40\"\ncondition = \"sound\"\n{walls}\n");
    roof("2000", "50", "cross wall", &format!("{HATCH}{wall}{more}"))
}

/// What holds the edges down in rebound and in wind: too little fails by that name, enough passes.
#[test]
fn the_walls_must_hold_the_roof_down() {
    let held = |hold: &str, wind: &str| -> Vec<(String, f64, f64)> {
        let survey = hatched(&format!("hold_down = \"{hold}\""), &format!("[conditions]\nwind = \"{wind}\""));
        let factors = Factors::of(&survey, Tables::shipped()).unwrap();
        let v = with_defaults(Bracing::Without);
        let ideal =
            idealise(&survey, v.configuration(), v.materials, true).unwrap_or_else(|e| panic!("{e:?}"));
        let context = Context::new(&survey, &ideal, &factors, v.materials).unwrap();
        let found = hold_down_findings(&context, &survey).unwrap();
        found.into_iter().map(|f| (f.load, f.demand, f.ratio)).collect()
    };
    let weak = held("0.05 kN/m", "0 kPa");
    assert!(weak[0].0 == "unit rebound" && weak[0].2 > 1.0, "{weak:?}");
    let strong = held("2 kN/m", "0.5 kPa");
    assert!(strong.iter().all(|(_, _, ratio)| *ratio < 1.0), "{strong:?}");
    // Half of 500 Pa over 2 m, less 0.6 of the panel's own: 8 mm of birch and 50 mm of foam, some 70 Pa.
    assert!(strong[1].0 == "wind" && (440.0..480.0).contains(&strong[1].1), "{strong:?}");
    assert!(held("2 kN/m", "3 kPa")[1].2 > 1.0);
}

/// Wind with nothing said of what holds the roof blocks; said, it does not.
#[test]
fn wind_asks_what_holds_the_edges() {
    let asks = |hold: &str| {
        let all = told(&hatched(hold, "[conditions]\nwind = \"0.5 kPa\""));
        all.iter().any(|n| n.check == "seat screws" && n.why.starts_with("wind") && n.blocks)
    };
    assert!(asks(""));
    assert!(!asks("hold_down = \"2 kN/m\""));
}

/// Walls that hold too little bring the whole roof down: the verdict says so, and names the check.
#[test]
fn a_roof_that_lifts_off_does_not_hold() {
    let survey = hatched("hold_down = \"0.05 kN/m\"", "");
    let found = check(&survey, Tables::shipped(), CheckOptions::default()).unwrap();
    assert_eq!(found.verdict, Verdict::DoesNotHold);
    assert_eq!(found.governing.map(|g| g.check), Some("seat screws".to_owned()));
}

/// The whole unit comes down on one edge of its rim, and may sag no more than a person; wind lifts the roof.
#[test]
fn fitting_the_unit_and_wind_are_loads() {
    let limited = |sag: &str| {
        let more = format!("[limits]\nsag = \"{sag}\"\n[conditions]\nwind = \"0.5 kPa\"");
        studied(&hatched("hold_down = \"2 kN/m\"", &more), Bracing::Without)
    };
    let fails = limited("0.5 mm");
    let sag = worst(&fails, Check::Sag, "panel");
    assert!(sag.load == "fitting the unit" && sag.ratio > 1.0, "{} {}", sag.load, sag.ratio);
    let passes = limited("span/180");
    assert!(worst(&passes, Check::Sag, "panel").ratio < 1.0);
    let total = |name: &str| &passes.totals.iter().find(|(n, _)| n == name).unwrap().1;
    let (fitting, parked) = (total("fitting the unit"), total("unit parked, first day"));
    assert!((fitting.load / parked.load - 1.0).abs() < 1e-6, "the same weight, otherwise placed");
    assert!(total("wind").load < 0.0 && total("wind").largest_sag().1 < 1e-6);
}
