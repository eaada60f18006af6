//! Roofs that would hurt somebody, each by something no check of it speaks about: none of them may be told to hold.

use bracewright_tests::roof::{MAP_ROOM, answer, held_back_by, verdict, with};

/// The answer blocks "holds" for the reason given, and for nothing else if the sound roof holds.
#[track_caller]
fn blocked(text: &str, check: &str) {
    let answer = answer(text);
    assert_ne!(verdict(&answer), "holds", "{text}");
    assert!(held_back_by(&answer, check), "{check}: {}", answer["not_checked"]);
}

fn damaged(layer: &str, state: &str) -> String {
    format!(
        "{MAP_ROOM}\n[[damage]]\nname = \"patch\"\nlayer = \"{layer}\"\nacross = [\"600\", \"800\"]\n\
         along = [\"400\", \"600\"]\nstate = \"{state}\"\n"
    )
}

#[test]
fn a_loose_face_may_spread() {
    blocked(&damaged("inner skin", "loose"), "loose skin");
}

#[test]
fn what_stays_wet_decays() {
    blocked(&damaged("inner skin", "wet"), "decay");
}

#[test]
fn a_crown_too_deep_for_the_theory() {
    blocked(&with(MAP_ROOM, "rise   = \"0\"", "rise   = \"200\""), "all");
}

#[test]
fn a_roof_hotter_than_its_foam_bears() {
    blocked(&format!("{MAP_ROOM}\n[conditions]\nroof_hot = \"95 C\"\n"), "all");
}

/// Thin skins and soft foam: the flat roof's own weight sags it by more than its own thickness of water weighs.
#[test]
fn a_flat_roof_that_gathers_water() {
    let text = with(MAP_ROOM, "E = \"30 MPa\"", "E = \"2 MPa\"");
    let text = text
        .replace("thickness = \"6.35\"", "thickness = \"1.5\"")
        .replace("span   = \"1524\"", "span   = \"2400\"");
    blocked(&text.replace("way  = \"on a board\"", "way  = \"nobody\""), "water");
}

#[test]
fn a_soft_ledger() {
    blocked(&with(MAP_ROOM, "condition = \"sound\"", "condition = \"soft\""), "seat bearing");
}

/// A roof shorter than the board that lies on it is answered, not given up on.
#[test]
#[ignore = "takes long: .ci/deep runs it"]
fn a_roof_shorter_than_a_board_has_an_answer() {
    for length in ["length = \"300\"", "length = \"420\""] {
        let text = with(MAP_ROOM, "length = \"1016\"", length);
        assert!(!verdict(&answer(&text)).is_empty());
    }
}

/// A rack's foot: 40 kg on the size of a thumb goes into soft foam, and on a plank's end it does not.
#[test]
fn a_small_foot_of_a_rack() {
    let soft = with(MAP_ROOM, "crush = \"0.6 MPa\"", "crush = \"0.15 MPa\"");
    let soft = with(&soft, "way  = \"on a board\"", "way  = \"nobody\"");
    let on = |across: &str, along: &str| {
        answer(&format!(
            "{soft}\n[[load]]\nname = \"rack foot\"\nweight = \"40\"\nkind = \"fixed\"\n\
             across = [{across}]\nalong = [{along}]\n"
        ))
    };
    let crushed = |answer: &serde_json::Value| -> Vec<f64> {
        answer["checks"]
            .as_array()
            .expect("a list")
            .iter()
            .filter(|row| row["check"] == "core crush" && row["part"] == "core under rack foot")
            .map(|row| bracewright_tests::roof::number(row, "/ratio"))
            .collect()
    };
    let thumb = on("\"740\", \"765\"", "\"490\", \"515\"");
    assert!(crushed(&thumb)[0] > 1.0, "{thumb}");
    assert_eq!(verdict(&thumb), "does not hold");
    let plank = on("\"600\", \"900\"", "\"420\", \"580\"");
    assert!(crushed(&plank)[0] < 1.0, "{plank}");
    assert_eq!(verdict(&plank), "holds");
}
