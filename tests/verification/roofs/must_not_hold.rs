//! Roofs that must not hold, one a way of failing, each found by the check that bears its name; beside each its
//! twin in which only the cause is mended, and which that check lets pass.
//!
//! All invented: the map room trailer, spoilt in one way at a time.

use bracewright_tests::roof::{MAP_ROOM, answer, held_back_by, number, verdict, with, worst_row};
use serde_json::Value;

/// A roof spoilt in one way, and how it is found.
pub(super) struct Spoilt {
    /// Name of the check that must find it.
    pub(super) check: &'static str,
    /// What its part begins with or holds.
    pub(super) part: &'static str,
    pub(super) roof: String,
    /// The same roof with the cause mended.
    pub(super) mended: String,
}

/// The largest ratio of a check in a part, with its verdict, in the roof as surveyed.
pub(super) fn worst<'a>(answer: &'a Value, check: &str, part: &str) -> Option<(f64, &'a str)> {
    let braced = answer["checks"].as_array()?.iter().any(|row| row["bracing"] == "with");
    let surveyed = if braced { "with" } else { "without" };
    let row = worst_row(answer, check, |row| {
        row["bracing"] == surveyed
            && row["counts"] == true
            && row["part"].as_str().is_some_and(|p| p.contains(part))
    })?;
    Some((number(row, "/ratio"), row["verdict"].as_str().expect("a verdict")))
}

/// The named check fails in every bracket of the materials, the roof does not hold, and mending the cause mends it.
#[track_caller]
pub(super) fn must_not_hold(spoilt: &Spoilt) {
    let Spoilt { check, part, roof, mended } = spoilt;
    must_fail(&answer(roof), check, part);
    if let Some((ratio, told)) = worst(&answer(mended), check, part) {
        assert!(ratio < 1.0 && told == "holds", "mended, {check} ({part}): {ratio} {told}");
    }
}

/// The named check fails in every bracket of the materials, and the roof does not hold.
#[track_caller]
pub(super) fn must_fail(found: &Value, check: &str, part: &str) {
    let (ratio, told) = worst(found, check, part).unwrap_or_else(|| panic!("no row of {check} ({part})"));
    assert!(ratio > 1.0 && told == "does not hold", "{check} ({part}): {ratio} {told}");
    assert!(!["holds", "cannot say"].contains(&verdict(found)), "{}", verdict(found));
}

/// "Holds" is held back by a gap of that check that the mended roof does not have.
#[track_caller]
pub(super) fn must_be_held_back(check: &str, roof: &str, mended: &str) {
    let blocks = |text: &str| {
        let answer = answer(text);
        (held_back_by(&answer, check), verdict(&answer).to_owned())
    };
    let (held_back, told) = blocks(roof);
    assert!(held_back && told != "holds", "{check}: {told}");
    assert!(!blocks(mended).0, "{check}: mended, and held back all the same");
}

pub(super) fn nobody(text: &str) -> String {
    with(text, "way  = \"on a board\"", "way  = \"nobody\"")
}

pub(super) fn bare_feet(text: &str) -> String {
    with(text, "way  = \"on a board\"", "way  = \"bare\"")
}

pub(super) fn crowned(text: &str) -> String {
    with(text, "rise   = \"0\"", "rise   = \"30\"")
}

/// Foam of another stiffness.
pub(super) fn softer(text: &str, e: &str) -> String {
    with(text, "E = \"30 MPa\"", &format!("E = \"{e}\""))
}

/// Skins of another thickness, mm.
pub(super) fn thinner(text: &str, skins: &str) -> String {
    text.replace("thickness = \"6.35\"", &format!("thickness = \"{skins}\""))
}

/// Foam of another shear strength.
pub(super) fn weak_in_shear(text: &str, strength: &str) -> String {
    with(text, "shear = \"0.45 MPa\"", &format!("shear = \"{strength}\""))
}

/// Foam of another crushing strength.
pub(super) fn soft_to_press(text: &str, crush: &str) -> String {
    with(text, "crush = \"0.6 MPa\"", &format!("crush = \"{crush}\""))
}

pub(super) fn trunk(kg: u32, across: [u32; 2], along: [u32; 2]) -> String {
    format!(
        "\n[[load]]\nname = \"costume trunk\"\nweight = \"{kg}\"\nkind = \"fixed\"\nacross = [\"{}\", \"{}\"]\nalong = [\"{}\", \"{}\"]\n",
        across[0], across[1], along[0], along[1]
    )
}

pub(super) const HATCH: &str =
    "\n[[opening]]\nname = \"hatch\"\nacross = [\"560\", \"960\"]\nalong = [\"300\", \"700\"]\n";
pub(super) const FRAME: &str = "frame = { width = \"25 mm\", material = \"softwood\" }\n";

pub(super) fn unit(kg: u32) -> String {
    format!("[unit]\nweight = \"{kg}\"\nopening = \"hatch\"\n")
}

fn patch(layer: &str, state: &str) -> String {
    format!(
        "\n[[damage]]\nname = \"under the awning\"\nlayer = \"{layer}\"\nacross = [\"200\", \"1300\"]\n\
         along = [\"100\", \"900\"]\nstate = \"{state}\"\n"
    )
}

/// A tube on either side of the middle, glued under the outer skin, with a trunk over them.
struct Tubes {
    tube: &'static str,
    alloy: &'static str,
    seat: &'static str,
    glue_mm: u32,
    more: &'static str,
    foam: &'static str,
    trunk: String,
}

const GOOD_SEAT: &str = "bearing_length = \"40 mm\", screws = 6, screw = \"6 mm\", edge = \"25 mm\"";

impl Tubes {
    fn good() -> Tubes {
        Tubes {
            tube: "40 x 40 x 3",
            alloy: "6061-T6",
            seat: GOOD_SEAT,
            glue_mm: 40,
            more: "",
            foam: "30 MPa",
            trunk: trunk(40, [662, 862], [150, 850]),
        }
    }

    fn roof(&self) -> String {
        let Tubes { tube, alloy, seat, glue_mm, more, .. } = self;
        let brace = |name: &str, along: u32| {
            format!(
                "[[brace]]\nname = \"{name}\"\ntube = \"{tube}\"\nalloy = \"{alloy}\"\nalong = \"{along}\"\n{more}\
                 sits = \"in the foam\"\nglued = [\"outer skin\"]\nseat = {{ {seat} }}\n\
                 glue = {{ product = \"rigid polyurethane\", width = \"{glue_mm} mm\", bed = \"0.3 mm\", coverage = 0.7 }}\n\n"
            )
        };
        let text = nobody(&softer(MAP_ROOM, self.foam));
        let text = with(&text, "[wall]", &format!("{}{}[wall]", brace("front", 250), brace("rear", 750)));
        format!("{text}{}", self.trunk)
    }
}

/// The tubes spoilt in one way; the good ones under a light trunk are their twin.
#[track_caller]
fn spoilt_tubes(check: &'static str, tubes: &Tubes) {
    must_not_hold(&Spoilt { check, part: "brace", roof: tubes.roof(), mended: Tubes::good().roof() });
}

macro_rules! spoilt {
    ($($(#[$doc:meta])* $name:ident: $check:literal in $part:literal, $roof:expr, mended $mended:expr;)*) => {$(
        $(#[$doc])*
        #[test]
        fn $name() {
            must_not_hold(&Spoilt { check: $check, part: $part, roof: $roof, mended: $mended });
        }
    )*};
}

spoilt! {
    /// 1. Foam like a sponge: the board sinks with the person on it.
    too_soft: "sag" in "panel", softer(MAP_ROOM, "0.8 MPa"), mended MAP_ROOM.to_owned();
    /// 2. Soft foam under a trunk for years: it creeps.
    creeps: "sag, lasting" in "panel", softer(&(nobody(&crowned(MAP_ROOM)) + &trunk(60, [700, 900], [400, 600])), "2 MPa"),
        mended nobody(&crowned(MAP_ROOM)) + &trunk(60, [700, 900], [400, 600]);
    /// 3. An outer skin that is weak in compression.
    outer_skin_pressed: "outer skin" in "outer skin", with(MAP_ROOM, "compression = \"25 MPa\"", "compression = \"1.2 MPa\""),
        mended MAP_ROOM.to_owned();
    /// 4. An inner skin that is weak in tension.
    inner_skin_pulled: "inner skin" in "inner skin", with(MAP_ROOM, "tension = \"25 MPa\"", "tension = \"1.2 MPa\""),
        mended MAP_ROOM.to_owned();
    /// 5. The inner skin torn off: the outer one and the foam bend alone.
    inner_skin_gone: "inner skin" in "inner skin", with(MAP_ROOM, "tension = \"25 MPa\", compression = \"25 MPa\"",
        "tension = \"5 MPa\", compression = \"5 MPa\"") + &patch("inner skin", "missing"),
        mended with(MAP_ROOM, "tension = \"25 MPa\", compression = \"25 MPa\"", "tension = \"5 MPa\", compression = \"5 MPa\"");
    /// 6. A thin skin on foam too soft to hold it straight.
    wrinkles: "wrinkling" in "outer skin", softer(&wrinkling(), "1.5 MPa"), mended wrinkling();
    /// 7. Foam that shears under a person.
    foam_sheared: "core shear" in "core", weak_in_shear(MAP_ROOM, "0.05 MPa"), mended MAP_ROOM.to_owned();
    /// 8. The same foam bears 80 kg, not 200 kg.
    too_heavy_a_person: "core shear" in "core", with(&weak_in_shear(MAP_ROOM, "0.2 MPa"), "mass = \"80\"", "mass = \"200\""),
        mended weak_in_shear(MAP_ROOM, "0.2 MPa");
    /// 9. Wet snow, many times what the foam bears.
    snowed_in: "core shear" in "core", nobody(&weak_in_shear(MAP_ROOM, "0.15 MPa")) + "\n[conditions]\nsnow = \"8 kPa\"\n",
        mended nobody(&weak_in_shear(MAP_ROOM, "0.15 MPa")) + "\n[conditions]\nsnow = \"0.5 kPa\"\n";
    /// 10. A heavy unit on a rough road.
    rough_road: "core shear" in "core", "sure = [\"unit.weight\"]\n".to_owned() + &nobody(&weak_in_shear(MAP_ROOM, "0.15 MPa")) + HATCH + FRAME
        + &unit(160) + "[conditions]\nroad = \"rough\"\n",
        mended nobody(&weak_in_shear(MAP_ROOM, "0.15 MPa")) + HATCH + FRAME + &unit(30);
    /// 11. Foam crushed by a fallen branch.
    crushed: "core shear" in "core", weak_in_shear(MAP_ROOM, "0.2 MPa") + &patch("core", "crushed"), mended weak_in_shear(MAP_ROOM, "0.2 MPa");
    /// 12. A slot as wide as a plank through the foam under thin skins.
    slot_too_wide: "slot" in "skin", thinner(MAP_ROOM, "3") + "\n[[slot]]\nacross = [\"600\", \"900\"]\nalong = [\"0\", \"1016\"]\n",
        mended thinner(MAP_ROOM, "3") + "\n[[slot]]\nacross = [\"740\", \"780\"]\nalong = [\"0\", \"1016\"]\n";
    /// 13. A shoe sinks into soft foam.
    dented: "dent" in "core", bare_feet(&soft_to_press(MAP_ROOM, "0.04 MPa")), mended bare_feet(MAP_ROOM);
    /// 14. A heel breaks a skin that bends badly.
    under_a_heel: "heel" in "outer skin", bare_feet(&with(MAP_ROOM, "bending = \"30 MPa\"", "bending = \"8 MPa\"")),
        mended bare_feet(MAP_ROOM);
    /// 15. A stumble goes through thin, brittle skins.
    through_the_roof: "fall through" in "skin", bare_feet(&with(&thinner(MAP_ROOM, "2"), "shear = \"8 MPa\", bending = \"30 MPa\"",
        "shear = \"0.8 MPa\", bending = \"6 MPa\"")), mended bare_feet(MAP_ROOM);
    /// 16. A rack's small foot crushes the foam.
    foot_of_a_rack: "core crush" in "core under costume trunk", nobody(&soft_to_press(MAP_ROOM, "0.15 MPa")) + &trunk(40, [740, 765], [490, 515]),
        mended nobody(&soft_to_press(MAP_ROOM, "0.15 MPa")) + &trunk(40, [600, 900], [420, 580]);
    /// 17. The same foot bends a skin that bends badly.
    foot_bends_the_skin: "outer skin" in "costume trunk",
        nobody(&with(MAP_ROOM, "bending = \"30 MPa\"", "bending = \"3 MPa\"")) + &trunk(40, [740, 765], [490, 515]),
        mended nobody(MAP_ROOM) + &trunk(40, [600, 900], [420, 580]);
    /// 18. Too little ledger under the edge: the foam over it is pressed flat.
    narrow_ledger: "core crush" in "wall", with(&soft_to_press(&edge(), "0.15 MPa"), "depth     = \"45 mm\"", "depth     = \"10 mm\""),
        mended edge();
    /// 19. A large loose face on thin skins buckles.
    loose_skin_buckles: "loose skin" in "outer skin", thinner(MAP_ROOM, "2") + &patch("outer skin", "loose"), mended thinner(MAP_ROOM, "2");
    /// 20. Bolts through bare foam, tightened hard.
    bolts_crush_the_rim: "clamp" in "rim", MAP_ROOM.to_owned() + HATCH + &unit(30)
        + "bolts = { n = 4, size = \"3/8 in\", torque = \"40 N m\" }\n",
        mended MAP_ROOM.to_owned() + HATCH + &unit(30) + "bolts = { n = 4, size = \"1/4 in\", torque = \"1 N m\" }\n";
    /// 21. A few screws against a storm.
    lifts_off_in_wind: "seat screws" in "walls", held_down("50 N/m"), mended held_down("4000 N/m");
    /// 22. A floppy roof with a heavy unit swings in step with the body.
    swings: "natural frequency" in "panel", "sure = [\"unit.weight\"]\n".to_owned()
        + &with(&softer(&nobody(MAP_ROOM), "0.8 MPa"), "span   = \"1524\"", "span   = \"2400\"") + HATCH + FRAME + &unit(200),
        mended nobody(MAP_ROOM) + HATCH + FRAME + &unit(30);
    /// 23. A heel over a wire way under thin skins.
    heel_over_a_wire_way: "heel" in "outer skin, void", bare_feet(&thinner(MAP_ROOM, "3")) + &slot(25), mended bare_feet(MAP_ROOM) + &slot(25);
    /// 24. A shoe crushes the foam at the lips of a duct.
    lips_of_a_duct: "dent" in "core, void", bare_feet(MAP_ROOM) + &slot(80), mended bare_feet(MAP_ROOM) + &slot(25);
    /// 25. A stumble goes through the skin over a wide hollow.
    through_over_a_hollow: "fall through" in "void", MAP_ROOM.to_owned() + &slot(300), mended MAP_ROOM.to_owned() + &slot(25);
    /// 26. Foam and both skins gone: nothing carries.
    a_hole: "fall through" in "void", bare_feet(MAP_ROOM) + &patch("core", "missing") + &patch_of("skin above", "outer skin")
        + &patch_of("skin below", "inner skin"), mended bare_feet(MAP_ROOM);
}

/// A slot along the middle of the roof, mm wide.
pub(super) fn slot(mm: u32) -> String {
    let half = f64::from(mm) / 2.0;
    format!("\n[[slot]]\nacross = [\"{}\", \"{}\"]\nalong = [\"0\", \"1016\"]\n", 762.0 - half, 762.0 + half)
}

/// The same patch of another layer, missing.
fn patch_of(name: &str, layer: &str) -> String {
    with(&patch(layer, "missing"), "under the awning", name)
}

fn wrinkling() -> String {
    thinner(&weak_in_shear(&nobody(&crowned(MAP_ROOM)), "2 MPa"), "2") + &trunk(60, [700, 900], [400, 600])
}

fn edge() -> String {
    nobody(&crowned(&weak_in_shear(MAP_ROOM, "2 MPa"))) + &trunk(250, [600, 900], [300, 700])
}

fn held_down(by: &str) -> String {
    with(&nobody(MAP_ROOM), "[wall]\n", &format!("[wall]\nhold_down = \"{by}\"\n"))
        + "\n[conditions]\nwind = \"2 kPa\"\n"
}

/// 23. Small soft tubes under a heavy trunk yield.
#[test]
fn tubes_too_small() {
    let trunk = trunk(300, [662, 862], [150, 850]);
    spoilt_tubes(
        "brace",
        &Tubes { tube: "20 x 20 x 2", glue_mm: 20, alloy: "6063-T52", foam: "4 MPa", trunk, ..Tubes::good() },
    );
}

/// 24. Thin soft tubes under a load right beside the wall are sheared.
#[test]
fn tubes_sheared_by_the_wall() {
    let trunk = trunk(900, [20, 120], [150, 850]);
    let tubes =
        Tubes { tube: "20 x 20 x 1.5", glue_mm: 20, alloy: "6063-T5", foam: "1 MPa", trunk, ..Tubes::good() };
    spoilt_tubes("brace shear", &tubes);
}

/// 25. Tubes that bear the load once, and not twenty thousand times a year.
#[test]
fn tubes_tire() {
    let trunk = trunk(300, [662, 862], [150, 850]);
    spoilt_tubes(
        "fatigue",
        &Tubes { tube: "20 x 20 x 2", glue_mm: 20, foam: "2 MPa", trunk, ..Tubes::good() },
    );
}

/// 26. Tubes pieced together by a weld in the middle; without the weld the same tubes do not fail.
#[test]
fn tubes_welded_in_the_middle() {
    let tubes = |more| {
        let trunk = trunk(180, [662, 862], [150, 850]);
        Tubes { tube: "20 x 20 x 2", glue_mm: 20, foam: "4 MPa", more, trunk, ..Tubes::good() }.roof()
    };
    let (roof, mended) = (tubes("welds = [\"760\"]\n"), tubes(""));
    must_not_hold(&Spoilt { check: "brace", part: "brace", roof, mended });
}

/// 27. Ends that stand on a sliver of ledger.
#[test]
fn ends_on_a_sliver() {
    let seat = "bearing_length = \"4 mm\", screws = 6, screw = \"6 mm\", edge = \"25 mm\"";
    let trunk = trunk(300, [662, 862], [150, 850]);
    spoilt_tubes("seat bearing", &Tubes { seat, foam: "2 MPa", trunk, ..Tubes::good() });
}

/// 28. One small screw an end under a load that brakes and rebounds; six good ones hold it.
#[test]
fn one_small_screw() {
    let tubes = |seat| {
        let trunk = trunk(500, [662, 862], [150, 850]);
        Tubes { seat, foam: "2 MPa", trunk, ..Tubes::good() }.roof()
    };
    let roof = tubes("bearing_length = \"40 mm\", screws = 1, screw = \"4 mm\", edge = \"20 mm\"");
    must_not_hold(&Spoilt { check: "seat screws", part: "brace", roof, mended: tubes(GOOD_SEAT) });
}

/// 29. A bead of glue instead of a bed.
#[test]
fn a_bead_of_glue() {
    spoilt_tubes(
        "glue line",
        &Tubes { glue_mm: 2, trunk: trunk(200, [662, 862], [150, 850]), ..Tubes::good() },
    );
}

/// 30. A flat roof that gathers water, in a crowned one's place.
#[test]
fn a_pond() {
    let thin = thinner(&softer(&nobody(MAP_ROOM), "2 MPa"), "1.5");
    let roof = with(&thin, "span   = \"1524\"", "span   = \"2400\"");
    must_be_held_back("water", &roof, &crowned(&roof));
}
