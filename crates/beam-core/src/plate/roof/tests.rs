//! A roof out of a survey, with members that lie loose.

use std::sync::Arc;

use super::super::{Free, Layouts};
use super::{GridSize, PlateRoof, Wanted, shape};
use crate::check::Materials;
use crate::loads::{Basis, BasisLoad};
use crate::model::{Configuration, Hold, Rect, StageChoice, Time, idealise};
use crate::response::Response;
use crate::survey;
use section_tables::Tables;

const ROOF: &str = r#"
survey = 1
title = "Seed library, drying loft"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "30"
length = "1400"
like = "ply 3 / bead foam 50 / ply 3"
[person]
way = "nobody"
"#;

const LOOSE: &str = r#"
[[brace]]
name = "front"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
along = "700"
glued = []
sides = "foam glued"
"#;

fn solved(text: &str) -> PlateRoof {
    let survey = survey::read_text("loft.toml", text, Tables::shipped()).expect("a sound survey");
    let configuration = Configuration {
        stage: StageChoice::Finished,
        with_new: true,
        bond: true,
        hold: Hold::all(&survey)[0],
    };
    let roof = idealise(&survey, configuration, Materials::Default, true).expect("a roof");
    let shape = Arc::new(
        shape(&roof, &Wanted { x: vec![0.8, 1.0, 1.2], y: vec![0.7] }, GridSize { nodes: 900.0 })
            .expect("a grid"),
    );
    PlateRoof::new(&roof, &shape, Materials::Default, Time::Fresh, &Layouts::default())
        .expect("a stable roof")
}

/// The response once contacts of loose members that would have to pull let go; nothing where none would.
fn settled(plate: &PlateRoof, closed: &Response) -> Option<Response> {
    let pushes = (closed.pushes.clone(), Free::Members);
    let mut settled = plate.let_go(&[pushes]).expect("a state").swap_remove(0)?;
    settled.add(closed, 1.0);
    Some(settled)
}

/// Under a pressure all over, contacts closed, and with those of loose members let go where they would pull.
fn under(plate: &PlateRoof, pressure: f64) -> (Response, Option<Response>) {
    let load = [(Basis::Snow, BasisLoad::Pressure(pressure))];
    let closed = plate.solve(&load).expect("a response").swap_remove(0);
    let settled = settled(plate, &closed);
    (closed, settled)
}

fn deepest(response: &Response) -> f64 {
    response.sag.iter().fold(0.0, |most: f64, s| if s.abs() > most.abs() { *s } else { most })
}

/// A tube that lies loose is no help against what lifts the roof, and a full one against what presses on it.
#[test]
fn a_loose_brace_pushes_and_never_pulls() {
    let (plain, braced) = (solved(ROOF), solved(&format!("{ROOF}{LOOSE}")));
    let alone = deepest(&under(&plain, -500.0).0);
    let (held, free) = under(&braced, -500.0);
    let free = free.expect("it has to let go");
    assert!(deepest(&held).abs() < 0.99 * alone.abs(), "held it would help: {} {alone}", deepest(&held));
    assert!((deepest(&free) / alone - 1.0).abs() < 1e-6, "{} {alone}", deepest(&free));
    assert!(free.braces.iter().all(|b| b.moment.abs() < 1e-6), "nothing presses on it");

    let (held, free) = under(&braced, 500.0);
    let settled = free.as_ref().map_or(deepest(&held), deepest);
    assert!((settled / deepest(&held) - 1.0).abs() < 0.01, "{settled} {}", deepest(&held));
    assert!(settled < 0.99 * deepest(&under(&plain, 500.0).0), "pressed on, it helps");
}

/// Cut off at an opening and lying loose, a tube rests on one wall: with a one-way push there nothing balances it.
#[test]
fn a_loose_brace_on_one_wall_carries_nothing() {
    let cut = LOOSE.replace("glued = ", "across = [\"0\", \"1200\"]\nglued = ");
    let (plain, braced) = (solved(ROOF), solved(&format!("{ROOF}{cut}")));
    let (alone, with) = (deepest(&under(&plain, 500.0).0), deepest(&under(&braced, 500.0).0));
    assert!((with / alone - 1.0).abs() < 1e-5, "{with} {alone}");
}

const PAIR: &str = r#"
[[brace]]
name = "front"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
along = "400"
glued = ["outer skin"]
glue = { product = "rigid polyurethane", width = "20", bed = "0.3 mm" }
[[brace]]
name = "rear"
tube = "1 x 1 x 1/8"
alloy = "6061-T6"
along = "1000"
glued = []
sides = "foam glued"
[[opening]]
name = "hatch"
across = ["800", "1200"]
along = ["500", "900"]
"#;

fn trimmed(across: f64) -> PlateRoof {
    solved(&format!(
        "{ROOF}{PAIR}\n[[trimmer]]\nbetween = [\"front\", \"rear\"]\nacross = {across}\ntube = \"1 x 1 x 1/8\"\nalloy = \"6061-T6\"\n"
    ))
}

fn patch(plate: &PlateRoof, x: f64) -> Response {
    let rect = Rect { x0: x - 0.1, x1: x + 0.1, y0: 0.6, y1: 0.8 };
    let load = [(Basis::Load(0), BasisLoad::Patches(vec![(rect, 700.0)]))];
    let closed = plate.solve(&load).expect("a response").swap_remove(0);
    settled(plate, &closed).unwrap_or(closed)
}

/// On one edge of an opening or on the other: the same roof in a mirror; and the walls carry what lies on it.
#[test]
fn a_trimmer_on_an_openings_edge_in_a_mirror() {
    let (left, right) = (patch(&trimmed(800.0), 0.65), patch(&trimmed(1200.0), 1.35));
    assert!((deepest(&left) / deepest(&right) - 1.0).abs() < 1e-6, "{} {}", deepest(&left), deepest(&right));
    let most = |r: &Response| r.trimmers.iter().map(|t| t.moment).fold(0.0, f64::max);
    assert!(most(&left) > 1.0, "it carries something: {}", most(&left));
    assert!((most(&left) / most(&right) - 1.0).abs() < 1e-5, "{} {}", most(&left), most(&right));
    let walls = left.walls;
    let reaction = walls.left + walls.right + walls.front + walls.rear;
    assert!((reaction / 700.0 - 1.0).abs() < 1e-6 && (left.load / 700.0 - 1.0).abs() < 1e-9, "{reaction}");
    let plain = patch(&solved(&format!("{ROOF}{PAIR}")), 0.65);
    assert!(deepest(&left) < deepest(&plain), "it helps: {} {}", deepest(&left), deepest(&plain));
}

/// The trimmer weighs what its section and length weigh: 1 x 1 x 1/8 in of 0.0975 lb/in3 over 600 mm.
#[test]
fn a_trimmer_is_weighed() {
    let weight = |plate: &PlateRoof| {
        plate.solve(&[(Basis::SelfWeight, BasisLoad::OwnWeight)]).expect("a response")[0].load
    };
    let more = weight(&trimmed(700.0)) - weight(&solved(&format!("{ROOF}{PAIR}")));
    let metal = (1.0 - 0.75 * 0.75) * (600.0 / 25.4) * 0.0975 * 0.453_592_37 * 9.806_65;
    assert!((more / metal - 1.0).abs() < 0.02, "{more} {metal}");
}
