use super::super::check::{CheckOptions, check};
use super::{gaps, nobody_placed};
use crate::check::{CheckDocument, CheckRow, Verdict};
use crate::survey::{Survey, read_text};
use section_tables::Tables;

/// A roof that holds with room to spare, all invented, with some lines of it changed.
fn survey(changes: &[(&str, &str)], more: &str) -> Survey {
    let mut text = r#"
survey = 1
title = "Mobile darkroom, roof over the drying rack"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "1524"
rise = "20"
length = "1016"
front = "cross wall"
rear = "cross wall"
[material.board]
E = "7 GPa"
nu = 0.25
strength = { tension = "25 MPa", compression = "25 MPa", shear = "8 MPa", bending = "30 MPa" }
strength_is = "5 percent"
density = "600 kg/m3"
[material.foam]
E = "30 MPa"
nu = 0.3
strength = { tension = "0.6 MPa", compression = "0.6 MPa", shear = "0.45 MPa", crush = "0.6 MPa" }
strength_is = "5 percent"
density = "60 kg/m3"
[[layer]]
name = "outer skin"
material = "board"
thickness = "6.35"
[[layer]]
name = "core"
material = "foam"
thickness = "50.8"
[[layer]]
name = "inner skin"
material = "board"
thickness = "6.35"
[wall]
material = "softwood"
depth = "45 mm"
condition = "sound"
[person]
mass = "80"
way = "on a board"
"#
    .to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    read_text("darkroom.toml", text + more, Tables::shipped()).unwrap_or_else(|p| panic!("{p}"))
}

fn answer(changes: &[(&str, &str)], more: &str) -> CheckDocument {
    let survey = survey(changes, more);
    check(&survey, Tables::shipped(), CheckOptions::default()).unwrap_or_else(|e| panic!("{e}"))
}

fn hole(name: &str, across: [u32; 2], along: [u32; 2]) -> String {
    format!(
        "[[opening]]\nname = \"{name}\"\nacross = [\"{}\", \"{}\"]\nalong = [\"{}\", \"{}\"]\n\
         frame = {{ width = \"25 mm\", material = \"softwood\" }}\n",
        across[0], across[1], along[0], along[1]
    )
}

fn blocks(answer: &CheckDocument, check: &str, part: &str) -> bool {
    answer.not_checked.iter().any(|n| n.check == check && n.part == part && n.blocks)
}

/// A hole that leaves a strip at either end, too narrow for the board between it and the hole's edge strip.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn a_roof_that_no_board_finds_room_on_does_not_hold() {
    let wide = answer(&[], &hole("stage door", [10, 1514], [300, 700]));
    assert_eq!(wide.verdict, Verdict::CannotSay);
    assert!(blocks(&wide, "all", "panel under the board"));
    let standing = wide.answers.iter().find(|a| a.question == "standing on a board").unwrap();
    assert_eq!(standing.verdict, Verdict::CannotSay, "{}", standing.words);
    let small = answer(&[], &hole("stage door", [600, 900], [400, 600]));
    assert_eq!(small.verdict, Verdict::Holds);
}

#[test]
fn nobody_needs_no_room() {
    let way = ("way = \"on a board\"", "way = \"nobody\"");
    assert!(nobody_placed(&survey(&[way], ""), &[]).is_none());
    assert!(nobody_placed(&survey(&[], ""), &[]).is_some_and(|gap| gap.blocks));
}

#[test]
fn a_board_of_foam_spreads_nothing() {
    let board = |material| {
        let board = format!(
            "way = \"on a board\"\nboard = {{ size = [\"600 mm\", \"1200 mm\"], material = \"{material}\", thickness = \"50 mm\" }}"
        );
        gaps(&survey(&[("way = \"on a board\"", &board)], "")).iter().filter(|gap| gap.blocks).count()
    };
    assert_eq!(board("EPS 20"), 1);
    assert_eq!(board("sheathing plywood"), 0);
}

/// Nothing weighs: own weight makes no demand, and zero over zero is no reason to hold.
#[test]
fn a_roof_that_weighs_nothing_is_not_judged() {
    let light = [("density = \"600 kg/m3\"\n", ""), ("density = \"60 kg/m3\"\n", "")];
    let empty = answer(&[light[0], light[1], ("way = \"on a board\"", "way = \"nobody\"")], "");
    for answer in [empty, answer(&light, "")] {
        assert_eq!(answer.verdict, Verdict::CannotSay);
        assert!(blocks(&answer, "sag, lasting", "panel"));
    }
    assert!(gaps(&survey(&light[1..], "")).is_empty(), "one density that is missing is a caution");
}

#[test]
fn holes_that_share_a_corner_are_not_judged_by_one() {
    let hatch = hole("hatch", [300, 500], [400, 600]);
    let apart = |across, along| gaps(&survey(&[], &(hatch.clone() + &hole("vent", across, along))));
    // Three core thicknesses are 152.4 mm: side by side, corner to corner (100 and 100 mm), and clear of each other.
    for (across, along) in [([505, 700], [400, 600]), ([600, 800], [700, 900])] {
        let [gap] = &apart(across, along)[..] else { panic!("one gap at {across:?}") };
        assert!(gap.blocks && gap.check == "skin at opening corner", "{gap:?}");
    }
    assert!(apart([660, 860], [400, 600]).is_empty());
    assert!(apart([610, 810], [710, 910]).is_empty());
}

/// A core of 5 mm at the walls and 100 mm at the crown: by the wall a board is pressed through far thinner foam.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn a_tapered_core_is_trodden_on_where_it_is_thin() {
    let punched = |wall: &str| {
        let thickness = format!("thickness = {{ wall = \"{wall}\", crown = \"100\" }}");
        let weak = ("shear = \"0.45 MPa\"", "shear = \"0.15 MPa\"");
        let answer =
            answer(&[weak, ("thickness = \"50.8\"", &thickness), ("rise = \"20\"", "rise = \"95\"")], "");
        let row = |r: &&CheckRow| r.part == "core round the foot under the board";
        let row = answer.checks.iter().find(row).unwrap();
        (row.ratio.get(), row.at.across.get(), answer.verdict)
    };
    let (thin, at, verdict) = punched("5");
    assert!(thin > 1.0 && !(0.1..1.4).contains(&at), "{thin} at {at}");
    assert_eq!(verdict, Verdict::DoesNotHold);
    let (deep, _, verdict) = punched("60");
    assert!(deep < 1.0 && verdict == Verdict::Holds, "{deep} {verdict:?}");
}
