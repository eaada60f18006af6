//! The search against checks made one by one, and its places and patterns by hand.

use super::document::CandidateRow;
use super::pattern::{Pattern, replaced};
use super::places::{arrangements, gaps};
use super::screen::{PUT_ASIDE, on_grid};
use super::search::{Candidate, candidates, fails};
use super::stock::Stock;
use super::trimmers::trimmers_beside;
use super::{FirstBy, Room, SizeOptions, Trimmers, size};
use crate::ask::check::{CheckOptions, check};
use crate::check::{Materials, Verdict};
use crate::loads::Factors;
use crate::plate::GridSize;
use crate::survey::{Survey, read_text};
use section_tables::Tables;

/// A puppet theatre's roof with a unit, whose dense core shears little: its skins need bracing.
pub(super) fn theatre(more: &str) -> Survey {
    theatre_on("sound", more)
}

pub(super) fn theatre_on(ledger: &str, more: &str) -> Survey {
    let text = format!(
        r#"
survey = 1
title = "Touring puppet theatre, roof over the wardrobe bay"
lengths = "in"
weights = "lb"
[roof]
kind = "laminated"
span = "92 1/2"
rise = "1 3/4"
length = "120"
front = "runs on"
rear = "cross wall"
[[layer]]
name = "outer skin"
material = "tropical plywood, equal plies"
thickness = "1/8"
grain = "across"
[[layer]]
name = "core"
material = "dense board"
thickness = "2"
[[layer]]
name = "inner skin"
material = "tropical plywood, equal plies"
thickness = "1/8"
grain = "across"
[material."dense board"]
E = "25 MPa"
nu = 0.30
strength = {{ tension = "0.5 MPa", compression = "0.5 MPa", shear = "0.4 MPa", crush = "0.35 MPa" }}
strength_is = "5 percent"
density = "60 kg/m3"
[[opening]]
name = "unit opening"
across = ["39", "53 1/4"]
along = ["52", "66 1/4"]
frame = {{ width = "1", material = "softwood" }}
[wall]
material = "softwood"
depth = "1 1/2"
condition = "{ledger}"
[unit]
weight = "100"
opening = "unit opening"
[person]
way = "nobody"
[conditions]
glued_at = "70 C"
{more}
"#
    );
    read_text("theatre.toml", text, Tables::shipped()).unwrap()
}

pub(super) fn stock(tube: &str, alloy: &str) -> Stock<'static> {
    let tables = Tables::shipped();
    Stock::new(tables.tube(tube).unwrap(), tables.alloy(alloy).unwrap()).unwrap()
}

/// Room for some tubes, so many at a time.
pub(super) fn room(tubes: &[Stock<'static>], counts: &[usize], trimmers: Trimmers) -> Room<'static> {
    let (stock, counts) = (tubes.to_vec(), counts.to_vec());
    Room { stock, counts, trimmers, cover: 0.0, max_depth: 1.0, core: None }
}

/// Braces without trimmers.
fn plain<'a>(stock: &Stock<'a>, along: &[f64]) -> Candidate<'a> {
    let along = along.to_vec();
    Candidate { stock: stock.clone(), along, trimmers: None, mass: 0.0, price: None, bendable: Some(true) }
}

/// One brace either side at 2 in from a hole from 52 to 66 1/4 in, 1 in wide: centre lines 49 1/2 and 68 3/4 in.
#[test]
fn braces_are_tried_beside_the_opening_and_clear_of_its_frame() {
    let survey = theatre("");
    let inch = 0.0254;
    let pairs = arrangements(&survey, 2, inch);
    assert_eq!(pairs.len(), 3);
    let [a, b] = pairs[1][..] else { panic!("two braces") };
    assert!((a - 49.5 * inch).abs() < 1e-9 && (b - 68.75 * inch).abs() < 1e-9, "{a} {b}");
    assert_eq!(arrangements(&survey, 1, inch).len(), 6);
    for set in arrangements(&survey, 3, inch) {
        assert_eq!(set.len(), 3);
        assert!(set.windows(2).all(|p| p[1] > p[0]));
        // The longest stretch left is behind the opening, 51 1/4 in against 49 1/2: half way from the brace to the end.
        assert!((set[2] - (set[1] + 120.0 * inch) / 2.0).abs() < 1e-9);
    }
    // A wider frame takes the nearest place away.
    let mut framed = theatre("");
    framed.openings[0].frame.as_mut().unwrap().width = crate::quantity::si(1.5 * inch);
    assert_eq!(arrangements(&framed, 2, inch).len(), 2);
    assert_eq!(gaps(survey.family)[0], inch);
}

#[test]
fn without_an_opening_braces_are_spread_evenly() {
    let mut survey = theatre("");
    survey.openings.clear();
    survey.unit = None;
    let length = survey.roof.length.value;
    assert_eq!(arrangements(&survey, 3, 0.03), [[length / 4.0, length / 2.0, length * 0.75]]);
}

const BRACES: &str = r#"
[[brace]]
name = "old bow"
tube = "1 x 1 x 1/8"
alloy = "6063-T5"
along = "20"
existing = true
glued = []
[[brace]]
name = "new"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
along = "40"
glued = ["outer skin"]
glue = { product = "epoxy", width = "3/4 in", bed = "0.5 mm", coverage = 0.9 }
seat = { bearing_length = "30 mm" }
[[stage]]
name = "skin open"
layers = ["core", "inner skin"]
braces = ["old bow", "new"]
"#;

#[test]
fn candidates_take_the_place_of_new_braces_and_leave_old_ones() {
    let survey = theatre(BRACES);
    let pattern = Pattern::of(&survey, Tables::shipped()).unwrap();
    let tube = stock("1-1/2 x 1-1/2 x 1/8", "6061-T6");
    let with = pattern.built_in(&survey, &plain(&tube, &[1.2, 1.8]));
    let names: Vec<&str> = with.braces.iter().map(|b| b.name.as_str()).collect();
    assert_eq!(names, ["old bow", "B1", "B2"]);
    assert_eq!(with.stages[0].braces, [0, 1, 2]);
    let glue = with.braces[1].glue.as_ref().unwrap();
    assert!((glue.width.value - 0.75 * 0.0254).abs() < 1e-12, "a bed narrower than the face stays as it is");
    assert_eq!(glue.product.id, "epoxy");
    assert_eq!(with.braces[1].seat, survey.braces[1].seat);
    assert_eq!(replaced(&survey, Vec::new()).braces.len(), 1);
    // No brace is tried where the old one lies.
    let beside = arrangements(&survey, 2, 0.0254);
    assert!(beside.iter().flatten().all(|y| (y - 20.0 * 0.0254).abs() > 0.0254));
}

#[test]
fn candidates_come_lightest_first() {
    let survey = theatre("");
    let tubes = [stock("1-1/2 x 1-1/2 x 1/8", "6061-T6"), stock("1 x 1 x 1/8", "6063-T52")];
    let list =
        |trimmers| candidates(&survey, Tables::shipped(), &room(&tubes, &[1, 2], trimmers), FirstBy::Weight);
    assert_eq!(list(Trimmers::With).len(), 2 * 3);
    assert_eq!(list(Trimmers::Both).len(), 2 * (6 + 3 + 3));
    let list = list(Trimmers::Without);
    assert_eq!(list.len(), 2 * (6 + 3));
    assert!(list.windows(2).all(|p| p[0].mass <= p[1].mass));
    // 1 x 1 x 1/8 in: 0.4375 in2 x 0.097 lb/in3 over the arc, 92.588 in: 3.929 lb.
    assert!((list[0].mass / 0.453_592_37 - 3.929).abs() < 0.002, "{}", list[0].mass);
}

/// The coarse grid may not put aside what holds on the fine one: it reads no more than its margin over it.
#[test]
fn the_coarse_grid_reads_what_the_fine_one_does_within_its_margin() {
    let survey = theatre("");
    let tables = Tables::shipped();
    let factors = Factors::of(&survey, tables).unwrap();
    let pattern = Pattern::of(&survey, tables).unwrap();
    let tube = stock("1-1/2 x 1-1/2 x 1/8", "6061-T6");
    let with = pattern.built_in(&survey, &plain(&tube, &[49.25 * 0.0254, 69.0 * 0.0254]));
    let worst = |size| on_grid(&with, &factors, (Materials::Low, true), size).unwrap().worst.unwrap();
    let (coarse, fine) = (worst(GridSize::COARSE), worst(GridSize::DEFAULT));
    assert_eq!(coarse.check, fine.check);
    assert!(coarse.ratio < PUT_ASIDE * fine.ratio, "{} {}", coarse.ratio, fine.ratio);
    assert!(coarse.ratio > fine.ratio / PUT_ASIDE, "{} {}", coarse.ratio, fine.ratio);
}

/// Of two tubes the search must choose what whole checks choose.
#[test]
#[ignore = "takes a minute: .ci/deep runs it"]
fn the_chosen_one_is_the_lightest_that_whole_checks_let_pass() {
    let survey = theatre("");
    let tables = Tables::shipped();
    let tubes = ["1 x 1 x 1/16", "1-1/2 x 1-1/2 x 1/8"];
    let options = SizeOptions {
        tubes: tubes.map(str::to_owned).to_vec(),
        alloys: vec!["6061-T6".to_owned()],
        counts: vec![2],
        ..SizeOptions::default()
    };
    let answer = size(&survey, tables, &options).unwrap();
    let chosen = answer.chosen.as_ref().unwrap_or_else(|| panic!("{}", answer.answer));
    let pattern = Pattern::of(&survey, tables).unwrap();
    let stock: Vec<Stock<'_>> = tubes.iter().map(|t| stock(t, "6061-T6")).collect();
    let passes = |row: &CandidateRow| {
        let along: Vec<f64> = row.along.iter().map(|y| y.get()).collect();
        let s = stock.iter().find(|s| s.tube.id == row.tube).unwrap();
        let trimmers = trimmers_beside(&survey, &along, s.size[0]).filter(|_| !row.trimmers.is_empty());
        let built = pattern.built_in(&survey, &Candidate { trimmers, ..plain(s, &along) });
        let document = check(&built, tables, CheckOptions::default()).unwrap();
        (fails(&document, &[]).is_empty(), document.verdict)
    };
    let (pass, verdict) = passes(chosen);
    assert!(pass && verdict == chosen.verdict && chosen.why_not.is_none());
    assert_eq!(answer.verdict, verdict);
    // A check not made keeps it from "enough".
    if verdict == Verdict::CannotSay {
        assert!(answer.answer.starts_with("The lightest that fails nothing that was checked"));
        assert_eq!(answer.found(), None);
    }
    let at = answer.candidates.iter().position(|row| row == chosen).unwrap();
    for lighter in &answer.candidates[..at] {
        assert!(lighter.mass.get() <= chosen.mass.get());
        assert!(lighter.verdict != Verdict::Holds);
        assert!(lighter.why_not.is_some() || Some(lighter) == answer.with_trimmers.as_ref());
    }
    // One with trimmers may pass before it: the strength of their end joints keeps it from being chosen.
    let plainly = |row: &&CandidateRow| row.trimmers.is_empty();
    if let Some(nearest) = answer.candidates[..at].iter().rfind(plainly) {
        assert!(!passes(nearest).0, "{nearest:?}");
    }
    if let Some(lighter) = &answer.with_trimmers {
        let (pass, verdict) = passes(lighter);
        assert!(pass && verdict == Verdict::CannotSay && lighter.mass.get() <= chosen.mass.get());
    }
    let cut = &answer.cut_list;
    assert_eq!(cut.len(), 2);
    let cut_mass: f64 = cut.iter().map(|row| row.mass.get()).sum();
    assert!((cut_mass / chosen.mass.get() - 1.0).abs() < 1e-9);
    assert!(cut.iter().all(|row| row.cut_length > row.finished_length && !row.stations.is_empty()));
    assert!(cut.iter().all(|row| row.foam_left.unwrap().get() > 0.0 && row.glue_area.get() > 0.0));
}

#[test]
fn where_nothing_can_be_said_no_tube_is_chosen() {
    let tables = Tables::shipped();
    let soft = size(&theatre_on("soft", ""), tables, &SizeOptions::default()).unwrap();
    assert!(soft.chosen.is_none() && soft.answer.contains("ledger"));
    assert_eq!(soft.found(), Some(false));
    let mut rafters = theatre("");
    rafters.roof.kind = crate::survey::RoofKind::RaftersAndDeck;
    let unknown = size(&rafters, tables, &SizeOptions::default()).unwrap();
    assert!(unknown.chosen.is_none());
    assert_eq!(unknown.found(), None);
}

/// No brace keeps a bare foot from denting soft foam: it is said, and no tube is called enough.
#[test]
fn what_no_brace_changes_is_said() {
    let mut survey = theatre("");
    survey.person.way = crate::survey::Way::Bare;
    survey.person.mass = crate::quantity::si(180.0);
    // So little room that no tube fits: what stays over is said all the same.
    let options = SizeOptions { max_depth: Some(crate::quantity::si(1e-3)), ..SizeOptions::default() };
    let answer = size(&survey, Tables::shipped(), &options).unwrap();
    assert!(answer.chosen.is_none());
    assert_eq!(answer.found(), Some(false));
    assert!(answer.stays_over.iter().any(|s| s.beyond_bracing), "{:?}", answer.stays_over);
    assert!(answer.answer.starts_with("No tube is enough: no brace changes"), "{}", answer.answer);
    assert!(answer.next_steps.len() > 1 && answer.cut_list.is_empty());
}

#[test]
fn options_that_cannot_be_are_refused() {
    let survey = theatre("");
    let tables = Tables::shipped();
    let refused = |options: SizeOptions| size(&survey, tables, &options).unwrap_err().to_string();
    let cover = |m: f64| Some(crate::quantity::si(m));
    assert!(refused(SizeOptions { counts: vec![0], ..SizeOptions::default() }).contains("1 to 6"));
    assert!(refused(SizeOptions { cover: cover(0.06), ..SizeOptions::default() }).contains("cover"));
    assert!(refused(SizeOptions { cover: cover(f64::NAN), ..SizeOptions::default() }).contains("cover"));
    assert!(refused(SizeOptions { max_depth: cover(0.0), ..SizeOptions::default() }).contains("above 0"));
    assert!(refused(SizeOptions { tubes: vec!["9 x 9".into()], ..SizeOptions::default() }).contains("9 x 9"));
}
