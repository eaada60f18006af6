//! Sound roofs that must hold: an answer that says "no" to everything is no answer.
//!
//! All invented.

use super::must_not_hold::slot;
use bracewright_tests::roof::{MAP_ROOM, answer, verdict, with};

#[track_caller]
fn must_hold(text: &str) {
    let answer = answer(text);
    assert_eq!(verdict(&answer), "holds", "{} {}", answer["governing"], answer["not_checked"]);
}

fn with_more(more: &str) -> String {
    format!("{MAP_ROOM}\n{more}")
}

const HATCH: &str = "[[opening]]\nname = \"hatch\"\nacross = [\"560\", \"960\"]\nalong = [\"300\", \"700\"]\n\
                     frame = { width = \"25 mm\", material = \"softwood\" }\n";

/// A small flat roof with somebody on a board.
#[test]
fn the_map_room() {
    must_hold(MAP_ROOM);
}

/// The same under bare feet.
#[test]
fn under_bare_feet() {
    must_hold(&with(MAP_ROOM, "way  = \"on a board\"", "way  = \"bare\""));
}

/// A wire way of 25 mm through the whole foam, on a board and bare: thick skins bridge it.
#[test]
fn over_a_wire_way() {
    let roof = MAP_ROOM.to_owned() + &slot(25);
    must_hold(&roof);
    must_hold(&with(&roof, "way  = \"on a board\"", "way  = \"bare\""));
}

/// With a crown.
#[test]
fn crowned() {
    must_hold(&with(MAP_ROOM, "rise   = \"0\"", "rise   = \"25\""));
}

/// A bay of a longer roof.
#[test]
fn running_on() {
    must_hold(&with(MAP_ROOM, "rear   = \"cross wall\"", "rear   = \"runs on\""));
}

/// With a light unit over a framed hatch.
#[test]
fn with_a_unit() {
    must_hold(&with_more(&format!("{HATCH}[unit]\nweight = \"30\"\nopening = \"hatch\"\n")));
}

/// Under some snow.
#[test]
fn under_snow() {
    must_hold(&with_more("[conditions]\nsnow = \"0.5 kPa\"\n"));
}

/// In a gale, held down.
#[test]
fn in_a_gale() {
    let text = with(MAP_ROOM, "[wall]\n", "[wall]\nhold_down = \"4000 N/m\"\n");
    must_hold(&format!("{text}\n[conditions]\nwind = \"1 kPa\"\n"));
}

/// With a crate for years.
#[test]
fn with_a_crate() {
    must_hold(&with_more(
        "[[load]]\nname = \"crate of maps\"\nweight = \"30\"\nkind = \"fixed\"\n\
         across = [\"700\", \"900\"]\nalong = [\"400\", \"600\"]\n",
    ));
}

/// Damaged as found, mended by the end.
#[test]
fn mended() {
    must_hold(&with_more(
        "[[damage]]\nname = \"under the branch\"\nlayer = \"core\"\nacross = [\"500\", \"1000\"]\n\
         along = [\"300\", \"700\"]\nstate = \"crushed\"\nuntil = \"finished\"\n",
    ));
}

/// Tubes well seated, screwed and glued beside the hole, under a shade board that keeps the roof cool: the wide roof of
/// a touring puppet theatre with a unit and people on a board.
#[test]
fn braced_and_shaded() {
    let bay = std::fs::read_to_string(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../data/puppet-theatre-which-tube.toml"
    ))
    .expect("a demo");
    let brace = |name: &str, along: &str| {
        format!(
            "\n[[brace]]\nname = \"{name}\"\ntube = \"1 1/2 x 1 1/2 x 1/8\"\nalloy = \"6061-T6\"\nalong = \"{along}\"\n\
             sits = \"in the foam\"\nglued = [\"outer skin\"]\n\
             glue = {{ product = \"rigid polyurethane\", width = \"1 1/2 in\", bed = \"0.3 mm\", coverage = 0.7 }}\n\
             seat = {{ bearing_length = \"1 1/2 in\", screws = 3, screw = \"5 mm\", edge = \"20 mm\" }}\n"
        )
    };
    let cooler = with(&bay, "roof_hot = \"36 C\"", "roof_hot = \"33 C\"");
    must_hold(&format!("{cooler}{}{}", brace("front", "47 1/4"), brace("rear", "71")));
}

/// Skins of another make.
fn skins(material: &str, mm: &str) -> String {
    MAP_ROOM.replace(
        "material = \"board\"\nthickness = \"6.35\"",
        &format!("material = \"{material}\"\nthickness = \"{mm}\""),
    )
}

/// Skins of glass fibre.
#[test]
fn of_glass_fibre() {
    must_hold(&skins("glass-fibre sheet", "3"));
}

/// Skins of aluminium.
#[test]
fn of_metal() {
    must_hold(&skins("aluminium sheet", "1.5"));
}

/// With a bow that has been there all along, glued on the ceiling.
#[test]
#[ignore = "roofs with members take long: .ci/deep runs it"]
fn with_an_old_bow() {
    let bow = "[[brace]]\nname = \"old bow\"\ntube = \"40 x 40 x 3\"\nalloy = \"6061-T6\"\nalong = \"508\"\n\
               sits = \"on the inner skin\"\nglued = [\"inner skin\"]\nexisting = true\n\
               glue = { product = \"rigid polyurethane\", width = \"40 mm\", bed = \"0.3 mm\", coverage = 0.7 }\n\
               seat = { bearing_length = \"40 mm\", screws = 6, screw = \"6 mm\", edge = \"25 mm\" }\n\n[wall]";
    must_hold(&with(MAP_ROOM, "[wall]", bow));
}

/// Cut in two by a skylight from wall to wall: each piece stands by itself.
#[test]
fn in_two_pieces() {
    must_hold(&with_more(
        "[[opening]]\nname = \"skylight\"\nacross = [\"0\", \"1524\"]\nalong = [\"500\", \"600\"]\n",
    ));
}
