//! Checks of a brace held against the rules' formulas worked out by hand, with forces given.

use super::screws::screw_limits;
use super::tube::{TubeStrength, tube_strengths};
use super::{CaseState, Check, Context, Finding, Materials, brace_findings};
use crate::loads::{CaseKind, Factors, Footing, Lasting};
use crate::model::{Configuration, Hold, StageChoice, idealise};
use crate::response::{BraceForces, BracePlace, Layout, Response};
use crate::survey::{Survey, read_text};
use approx::assert_relative_eq;
use section_tables::Tables;

const SEAT: &str = r#"{ bearing_length = "40 mm", screws = 3, screw = "5 mm", edge = "20 mm" }"#;

/// A flat roof 2 m wide with one tube, 40 x 40 x 3 of 6061-T6: 2.7 mm of its wall count.
fn text(seat: &str, brace: &str, limits: &str) -> String {
    format!(
        r#"
survey = 1
title = "Map room trailer, roof over the globe"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "0"
length = "2000"
front = "cross wall"
rear = "cross wall"
like = "ply 3 / bead foam 50 / ply 3"
[[brace]]
name = "tube"
tube = "40 x 40 x 3"
alloy = "6061-T6"
along = "1000"
sits = "in the foam"
glued = ["outer skin"]
glue = {{ product = "rigid polyurethane", width = "40 mm", bed = "0.3 mm", coverage = 0.7 }}
seat = {seat}
{brace}
[wall]
material = "softwood"
depth = "45"
condition = "sound"
[person]
way = "nobody"
[conditions]
road = 2.5
years = 10
{limits}
"#
    )
}

fn read(text: &str) -> Survey {
    read_text("roof.toml", text, Tables::shipped()).unwrap_or_else(|e| panic!("{e}\n{text}"))
}

fn survey(seat: &str, brace: &str, limits: &str) -> Survey {
    read(&text(seat, brace, limits))
}

fn plain() -> Survey {
    survey(SEAT, "", "")
}

const LRFD: &str = "[limits]\naluminium = \"ADM 2020 LRFD\"";
const EN: &str = "[limits]\naluminium = \"EN 1999-1-1\"";

fn strength(survey: &Survey) -> TubeStrength {
    let factors = Factors::of(survey, Tables::shipped()).unwrap();
    let all = Configuration {
        stage: StageChoice::Finished,
        with_new: true,
        bond: true,
        hold: Hold::all(survey)[0],
    };
    let roof = idealise(survey, all, Materials::Default, true).unwrap();
    tube_strengths(&roof, &factors).remove(0).unwrap()
}

/// What acts on the tube at one place, and on its ends.
#[derive(Default, Clone, Copy)]
struct Acting {
    x: f64,
    years: BraceForces,
    top: BraceForces,
    ends: [[f64; 2]; 2],
}

fn findings(survey: &Survey, name: &str, kind: CaseKind, acting: Acting) -> Vec<Finding> {
    let factors = Factors::of(survey, Tables::shipped()).unwrap();
    let all = Configuration {
        stage: StageChoice::Finished,
        with_new: true,
        bond: true,
        hold: Hold::all(survey)[0],
    };
    let roof = idealise(survey, all, Materials::Default, true).unwrap();
    let context = Context::new(survey, &roof, &factors, Materials::Default).unwrap();
    let tubes = tube_strengths(&roof, &factors);
    let layout =
        Layout { braces: vec![BracePlace { brace: 0, x: acting.x }], ends: vec![0], ..Layout::default() };
    let response = |forces: BraceForces, ends: [f64; 2]| Response {
        braces: vec![forces],
        ends: vec![ends],
        ..Response::default()
    };
    let (years, top) = (response(acting.years, acting.ends[0]), response(acting.top, acting.ends[1]));
    let case = CaseState {
        name,
        kind,
        years: &years,
        top: &top,
        lasting: Lasting::Short,
        hot: false,
        dynamic: 1.0,
        footing: Footing::NotAFoot,
        feet: &[],
    };
    brace_findings(&context, &layout, &case, &tubes)
}

/// The largest ratio of a check, model factor 1.05 taken off.
fn ratio(found: &[Finding], check: Check) -> f64 {
    found.iter().filter(|f| f.check == check).map(|f| f.ratio / 1.05).fold(f64::NAN, f64::max)
}

fn moment(moment: f64) -> BraceForces {
    BraceForces { moment, ..BraceForces::default() }
}

/// `Z = (40^3 - 34.6^3)/4 = 5644.6 mm3`. ASD: rupture `Z 38 ksi/1.95` = 758.4 N m; LRFD: `0.75 Z 38 ksi` = 1109.2. EN
/// 1999-1-1, class 2: `Z 240/1.1` = 1231.5 N m.
#[test]
fn bending_by_each_rule_book() {
    for (limits, expected) in [("", 758.4), (LRFD, 1109.2), (EN, 1231.5)] {
        let s = strength(&survey(SEAT, "", limits));
        assert_relative_eq!(s.sound.bending, expected, max_relative = 1e-3);
    }
}

/// 300 N m that stay and 400 on top: 700 unfactored, `1.2 x 300 + 1.6 x 400` = 1000, `1.35 x 300 + 1.5 x 400` = 1005 (with
/// the power 1.02 of the interaction). Where the top relieves, 0.9 and 1.0 of what stays are left.
#[test]
fn loads_carry_the_factors_of_their_book() {
    let at = |limits: &str, years: f64, top: f64| {
        let acting = Acting { x: 1.0, years: moment(years), top: moment(top), ..Acting::default() };
        ratio(&findings(&survey(SEAT, "", limits), "unit on the road", CaseKind::Road, acting), Check::Brace)
    };
    assert_relative_eq!(at("", 300.0, 400.0), 700.0 / 758.4, max_relative = 1e-3);
    assert_relative_eq!(at(LRFD, 300.0, 400.0), 1000.0 / 1109.2, max_relative = 1e-3);
    assert_relative_eq!(at(EN, 300.0, 400.0), (1005.0f64 / 1231.5).powf(1.02), max_relative = 1e-3);
    assert_relative_eq!(at(LRFD, 300.0, -600.0), (960.0 - 270.0) / 1109.2, max_relative = 1e-3);
    assert!(at("", 900.0, 400.0) > 1.0 && at(LRFD, 900.0, 400.0) > 1.0 && at(EN, 900.0, 400.0) > 1.0);
}

/// H.1 adds axial force and bending; H.3.1 with shear `v` and bending `m`: the load reaches one at `1/sqrt(m^2 + v^2)`.
#[test]
fn forces_together() {
    let s = strength(&plain());
    let r = s.sound;
    let used = |f: BraceForces| s.used(&f, 1.0).unwrap();
    let pulled = BraceForces { axial: 0.4 * r.tension, ..moment(0.5 * r.bending) };
    assert_relative_eq!(used(pulled).bending, 0.9, max_relative = 1e-12);
    let sheared = BraceForces { shear: 0.8 * r.shear, ..moment(0.8 * r.bending) };
    assert_relative_eq!(used(sheared).bending, 1.28f64.sqrt(), max_relative = 1e-12);
    assert_relative_eq!(used(sheared).shear, 0.8, max_relative = 1e-12);
    let twisted = BraceForces { torsion: 0.3 * r.torsion, ..sheared };
    assert_relative_eq!(used(twisted).shear, 1.1, max_relative = 1e-12);
    let pressed = BraceForces { axial: -0.3 * r.compression, ..sheared };
    let u = used(pressed).bending;
    assert_relative_eq!(0.3 / u + 1.28 / (u * u), 1.0, max_relative = 1e-12);
}

/// Bredt: `0.6 x 35 ksi/1.65 x 2 x 2.7 x 37.3^2` mm.
#[test]
fn torsion_by_bredt() {
    let fs = (0.6 * 35.0 / 1.65f64).min(0.6 * 38.0 / 1.95) * 6.894_757e6;
    let expected = fs * 2.0 * 2.7e-3 * 37.3e-3f64.powi(2);
    assert_relative_eq!(strength(&plain()).sound.torsion, expected, max_relative = 1e-3);
}

/// Welded within, the whole tube falls to `Z 15 ksi/1.65` = 353.8 N m, less 1 percent for the short length between
/// points held sideways; 50 mm from its end only what lies there does.
#[test]
fn welds_soften() {
    let within = strength(&survey(SEAT, "welds = [\"1000\"]", ""));
    assert_relative_eq!(within.at(0.2).bending, 353.8, max_relative = 1e-2);
    let near = strength(&survey(SEAT, "welds = [\"50\"]", ""));
    assert_relative_eq!(near.at(0.1).bending, 353.8, max_relative = 1e-3);
    assert_relative_eq!(near.at(1.0).bending, 758.4, max_relative = 1e-3);
    let acting = Acting { x: 1.0, top: moment(500.0), ..Acting::default() };
    let brace = |s: &Survey| ratio(&findings(s, "person", CaseKind::Person, acting), Check::Brace);
    assert!(brace(&survey(SEAT, "welds = [\"1000\"]", "")) > 1.0);
    assert!(brace(&plain()) < 0.7);
}

/// Road 2.5, rebound 0.75. `W = (40^4 - 34.6^4)/240` = 4695 mm3: 500 N m of the 1.5 on top are 1083 in the whole swing,
/// 230.7 MPa. Category A at 200 000 swings: `96.5 x 200000^(-1/6.85)` = 16.24 ksi = 112.0 MPa. At the screws 20 N m
/// swing by 43.3 on the net section, category E: `160 x 200000^(-1/3.45)` = 4.650 ksi = 32.06 MPa.
#[test]
fn years_on_the_road() {
    let at = |s: &Survey, x: f64, m: f64| {
        let acting = Acting { x, years: moment(-3.0 * m), top: moment(m), ..Acting::default() };
        ratio(&findings(s, "unit on the road", CaseKind::Road, acting), Check::Fatigue)
    };
    assert_relative_eq!(at(&plain(), 1.0, 500.0), 230.7 / 112.0, max_relative = 2e-3);
    assert!(at(&plain(), 1.0, 100.0) < 0.5);
    let (i, hole, arm) = ((40f64.powi(4) - 34.6f64.powi(4)) / 12.0, 5.0 * 2.7, 20.0 - 1.35);
    let net = (i - 2.0 * hole * arm * arm) / 20.0;
    let range = 20e3 * 3.25 / 1.5 / net;
    assert_relative_eq!(at(&plain(), 0.05, 20.0), range / 32.06, max_relative = 2e-3);
    let welded = survey(SEAT, "welds = [\"1000\"]", "");
    assert_relative_eq!(
        at(&welded, 1.0, 100.0) / at(&plain(), 1.0, 100.0),
        112.0 / 32.06,
        max_relative = 2e-3
    );
    // What only stays never swings, and a person is no road.
    let acting = Acting { x: 1.0, top: moment(500.0), ..Acting::default() };
    assert!(ratio(&findings(&plain(), "person", CaseKind::Person, acting), Check::Fatigue).is_nan());
    let rebound = findings(&plain(), "unit rebound", CaseKind::Rebound, acting);
    assert_relative_eq!(
        ratio(&rebound, Check::Fatigue),
        500.0 * 3.25 / 1.75 / 4.695 / 112.0,
        max_relative = 2e-3
    );
}

/// J.9.3.1: 5 mm of bearing, two webs: `2/1.95 x 0.40 x 2.7^2 (1 + 3 x 5/40) sqrt(10100 x 35 ksi^2)` = 16.86 kN.
#[test]
fn webs_over_the_ledger() {
    let short = survey(&SEAT.replace("40 mm", "5 mm"), "", "");
    let limit = 2.0 / 1.95 * 0.40 * 2.7e-3f64.powi(2) * 1.375 * (10_100.0f64 * 35.0).sqrt() * 6.894_757e6;
    let of = |s: &Survey, years: f64, top: f64| {
        let acting = Acting { x: 1.0, ends: [[years, 0.0], [top, 0.0]], ..Acting::default() };
        ratio(&findings(s, "unit on the road", CaseKind::Road, acting), Check::WebCrippling)
    };
    assert_relative_eq!(of(&short, 5e3, 3e3), 8e3 / limit, max_relative = 1e-3);
    assert!(of(&short, 15e3, 10e3) > 1.0);
    let lrfd = survey(&SEAT.replace("40 mm", "5 mm"), "", LRFD);
    let factored = (1.2 * 5e3 + 1.6 * 3e3) / (0.75 * 1.95 * limit);
    assert_relative_eq!(of(&lrfd, 5e3, 3e3), factored, max_relative = 1e-3);
}

/// Under EN 1999-1-1 its own 6.7.5 with its own load factors: seat 34.6 mm of the web's depth, `m1 = 20/2.7`, stocky:
/// `2 (34.6 + 2.7 sqrt(m1)) 2.7 x 240/1.1` = 49.4 kN against `1.35 x 5 + 1.5 x 3` kN.
#[test]
fn webs_over_the_ledger_by_en_1999() {
    let s = survey(SEAT, "", EN);
    let acting = Acting { x: 1.0, ends: [[5e3, 0.0], [3e3, 0.0]], ..Acting::default() };
    let found = findings(&s, "unit on the road", CaseKind::Road, acting);
    let limit = 2.0 * (34.6 + 2.7 * (20.0f64 / 2.7).sqrt()) * 2.7 * 240.0 / 1.1;
    assert_relative_eq!(ratio(&found, Check::WebCrippling), 11_250.0 / limit, max_relative = 1e-3);
    let told = found.iter().find(|f| f.check == Check::WebCrippling).unwrap();
    assert!(told.basis.source.contains("6.7.5") && !told.basis.source.contains("ADM"), "{:?}", told.basis);
}

/// Each limit carries its own clause, and is no better founded than the strengths of its metal.
#[test]
fn each_limit_carries_its_clause() {
    use crate::strength::BasisKind::{Memory, Published};
    let bases = |alloy: &str, limits: &str| {
        let s = read(&text(SEAT, "", limits).replace("6061-T6", alloy));
        let acting = Acting { x: 1.0, top: moment(100.0), ends: [[0.0; 2], [1e3; 2]], ..Acting::default() };
        let found = findings(&s, "person", CaseKind::Person, acting);
        [Check::Brace, Check::BraceShear, Check::WebCrippling]
            .map(|check| found.iter().find(|f| f.check == check).unwrap().basis.clone())
    };
    for (limits, clauses) in [
        ("", ["ADM 2020 ASD, F (", "ADM 2020 ASD, G and H.2.2", "ADM 2020 ASD, J.9.3.1"]),
        (LRFD, ["ADM 2020 LRFD, F (", "ADM 2020 LRFD, G and H.2.2", "ADM 2020 LRFD, J.9.3.1"]),
        (EN, ["EN 1999-1-1:2007, 6.2.5", "EN 1999-1-1:2007, 6.2.6", "EN 1999-1-1:2007, 6.7.5"]),
    ] {
        for (basis, clause) in bases("6061-T6", limits).iter().zip(clauses) {
            assert!(basis.source.starts_with(clause), "{basis:?} {clause}");
        }
    }
    assert_eq!(bases("6061-T6", "").map(|basis| basis.kind), [Memory, Published, Published]);
    assert_eq!(bases("6005A-T61", "").map(|basis| basis.kind), [Memory; 3]);
}

/// National factors: resistances go down as `gamma_M1` goes up, and nothing else moves.
#[test]
fn national_partial_factors() {
    let at = |limits: &str| strength(&survey(SEAT, "", &format!("{EN}\n{limits}"))).sound;
    let (usual, national) = (at(""), at("gamma_m1 = 1.25"));
    assert_relative_eq!(usual.bending / national.bending, 1.25 / 1.1, max_relative = 1e-12);
    assert_relative_eq!(usual.shear / national.shear, 1.25 / 1.1, max_relative = 1e-12);
}

/// An alloy that one book lists has no number by the other, and metal that nobody knows has none by any.
#[test]
fn what_a_book_does_not_list_has_no_strength_in_a_roof() {
    let of = |alloy: &str, limits: &str| {
        let s = read(&text(SEAT, "", limits).replace("6061-T6", alloy));
        let factors = Factors::of(&s, Tables::shipped()).unwrap();
        let stage = StageChoice::Finished;
        let all = Configuration { stage, with_new: true, bond: true, hold: Hold::all(&s)[0] };
        let roof = idealise(&s, all, Materials::Default, true).unwrap();
        let strength = tube_strengths(&roof, &factors).remove(0).map(|s| s.sound.bending);
        (strength, screw_limits(&s, &factors, &s.braces[0]).map(|_| ()))
    };
    let (by_en, screws) = of("6063-T66", EN);
    assert_relative_eq!(by_en.unwrap(), 5644.6e-9 * 200e6 / 1.1, max_relative = 1e-3);
    assert!(screws.unwrap_err().contains("J.5"));
    for (alloy, limits, said) in [
        ("6063-T66", "", "nearest that is listed is 6063-T6"),
        ("6063-T66", LRFD, "ADM 2020 A.3"),
        ("6063-T52", EN, "nearest that is listed is 6063-T5"),
        ("6082-T6", "", "5.08 mm"),
        ("alloy not known", "", "neither is known"),
        ("alloy not known", EN, "neither is known"),
    ] {
        let why = of(alloy, limits).0.unwrap_err();
        assert!(why.contains(said), "{alloy} {limits}: {why}");
    }
}

/// By hand in pounds and inches (specific gravity 350/1120, three screws): pull `2850 G^2 D` an inch, six diameters deep,
/// 287.8 N each; push by the least yield mode, 292.5 N each (mode II, the 2.7 mm wall against the wood).
#[test]
fn screws_hold_down_and_in_place() {
    let s = plain();
    let factors = Factors::of(&s, Tables::shipped()).unwrap();
    let limits = screw_limits(&s, &factors, &s.braces[0]).unwrap();
    assert_relative_eq!(limits.pull, 3.0 * 287.84, max_relative = 1e-3);
    assert_relative_eq!(limits.push, 3.0 * 292.52, max_relative = 1e-3);
    let of = |kind, years: f64, top: f64| {
        let acting = Acting { x: 1.0, ends: [[years, years], [top, top]], ..Acting::default() };
        ratio(&findings(&s, "unit rebound", kind, acting), Check::SeatScrews)
    };
    // 300 N rest there, 225 N lift in rebound, 0.8 x 300 N slide.
    let expected = 225.0 / limits.pull + 240.0 / limits.push;
    assert_relative_eq!(of(CaseKind::Rebound, 300.0, -525.0), expected, max_relative = 1e-9);
    assert!(of(CaseKind::Rebound, 1000.0, -1750.0) > 1.0);
    assert_eq!(of(CaseKind::Person, 300.0, 500.0), 0.0);
}

#[test]
fn screws_that_cannot_be_judged_say_why() {
    let why = |from: &str, to: &str| {
        let s = survey(&SEAT.replace(from, to), "", "");
        let factors = Factors::of(&s, Tables::shipped()).unwrap();
        screw_limits(&s, &factors, &s.braces[0]).unwrap_err()
    };
    assert!(why(", screws = 3", "").contains("creeping"));
    assert!(why("screw = \"5 mm\", ", "").contains("diameter"));
    assert!(why("edge = \"20 mm\"", "edge = \"15 mm\"").contains("splits"));
    assert!(why(", edge = \"20 mm\"", "").contains("edge"));
    assert!(why("\"5 mm\"", "\"3 mm\"").contains("4 mm or more"));
    assert!(why("\"5 mm\"", "\"9 mm\"").contains("edge"));
}

/// A rafter 45 x 95 mm of softwood (16 and 3.2 MPa, EN 338), loose, that lies flat enough not to tip over 2 m: on top
/// for a moment `0.9 x 16/(1.3 x 1.5) x 45 x 95^2/6` = 499.8 N m, for years 0.6/0.9 of it; shear
/// `0.9 x 3.2/(1.3 x 1.5) x 0.67 x 45 x 95/1.5` = 2820 N.
#[test]
fn a_rafter_bends() {
    let s = read(
        &text(SEAT, "existing = true", "")
            .replace(
                "tube = \"40 x 40 x 3\"\nalloy = \"6061-T6\"",
                "solid = [\"45 mm\", \"95 mm\"]\nmaterial = \"softwood\"",
            )
            .replace("\"in the foam\"", "\"under the ceiling\"")
            .replace("glued = [\"outer skin\"]", "glued = []")
            .lines()
            .filter(|line| !line.starts_with("glue ="))
            .map(|line| format!("{line}\n"))
            .collect::<String>(),
    );
    let acting = Acting { x: 1.0, years: moment(60.0), top: moment(150.0), ..Acting::default() };
    let found = findings(&s, "unit on the road", CaseKind::Road, acting);
    assert_relative_eq!(ratio(&found, Check::Brace), (60.0 * 1.5 + 150.0) / 499.8, max_relative = 1e-3);
    let sheared = BraceForces { shear: 3000.0, ..BraceForces::default() };
    let acting = Acting { x: 1.0, top: sheared, ..Acting::default() };
    let found = findings(&s, "person", CaseKind::Person, acting);
    assert_relative_eq!(ratio(&found, Check::BraceShear), 3000.0 / 2820.0, max_relative = 1e-3);
    // Its own end across the grain, 45 x 40 mm: `0.9 f_c,90/(1.3 x 1.5)` for a moment, 0.6/0.9 of it for years.
    let acting = Acting { x: 1.0, ends: [[300.0, 0.0], [500.0, 0.0]], ..Acting::default() };
    let found = findings(&s, "person", CaseKind::Person, acting);
    let own = found.iter().filter(|f| f.check == Check::SeatBearing && f.basis.source.contains("6.1.5"));
    let wood = Tables::shipped().material("softwood").unwrap();
    let across = wood.get(section_tables::Property::CompressionPerpendicular).unwrap().default * 1e6;
    let carries = 0.9 * across / (1.3 * 1.5) * 0.045 * 0.040;
    let most = own.map(|f| f.ratio / 1.05).fold(0.0, f64::max);
    assert_relative_eq!(most, (300.0 * 1.5 + 500.0) / carries, max_relative = 1e-3);
}
