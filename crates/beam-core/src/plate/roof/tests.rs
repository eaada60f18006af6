//! A roof out of a survey, with members that lie loose.

use std::sync::Arc;

use approx::assert_relative_eq;

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

/// Bending stress at the top of the upper skin that the foam's shear adds, per unit of curvature across, and `D_f`, `S`
/// and the decay length of thick faces.
fn thick_faces(plate: &PlateRoof) -> (f64, [f64; 3]) {
    let laminate = &plate.lay_ups[0].laminate;
    let s = laminate.shear_si()[0];
    let unit = |k: usize| laminate.layer_stress_si(k, [0.0; 3], [1.0, 0.0, 0.0]).expect("a layer");
    let face = |k: usize| {
        let t = laminate.heights()[k].map(|z| z.value);
        let [_, middle, top] = unit(k);
        (top[0] - middle[0]) * (t[1] - t[0]).powi(2) / 6.0
    };
    let faces = face(0) + face(2);
    let [_, middle, top] = unit(2);
    (top[0] - middle[0], [faces, s, (faces / s).sqrt()])
}

/// Under an even load the skins bend by `q/S` besides (a strip's `Q' = -q`): all over, whatever the panel does as a whole.
#[test]
fn an_even_load_bends_the_skins_by_q_over_s() {
    let plate = solved(ROOF);
    let got = plate.solve(&[(Basis::Load(0), BasisLoad::Pressure(2000.0))]).expect("a response").remove(0);
    let (per_curvature, [_, s, _]) = thick_faces(&plate);
    let mut read = 0;
    for (place, skin) in plate.layout.skins.iter().zip(&got.skins) {
        // The ends lie free: there the panel bends along too.
        if (place.y - 0.7).abs() < 0.15 && (0.3..1.7).contains(&place.x) {
            assert_relative_eq!(skin.sheared[0], -per_curvature * 2000.0 / s, max_relative = 0.03);
            assert!(skin.sheared[0] * skin.bending[0] > 0.0, "it adds to what the panel bends the skin by");
            read += 1;
        }
    }
    assert!(read > 20, "{read}");
}

/// A line load across a strip: `(P/2 a) tanh(a L/2)` for both faces together (Allen 1969, from memory; the panel's own part
/// `D_f/D'` of `P L/4` is in the skin's bending with the panel). Away from it the faces' own bending is gone.
#[test]
fn a_line_load_bends_the_skins_at_it() {
    let plate = solved(ROOF);
    let line = Rect { x0: 0.9995, x1: 1.0005, y0: 0.0, y1: 1.4 };
    let got = plate.solve(&[(Basis::Load(0), BasisLoad::Patches(vec![(line, 700.0)]))]).expect("a response");
    let (per_curvature, [faces, _, reach]) = thick_faces(&plate);
    let per_width = 700.0 / 1.4;
    let exact = -per_curvature * per_width * reach / (2.0 * faces);
    let at = |x: f64| {
        let skins = plate.layout.skins.iter().zip(&got[0].skins).filter(|(p, _)| (p.y - 0.7).abs() < 0.05);
        let best = skins.min_by(|p, q| (p.0.x - x).abs().total_cmp(&(q.0.x - x).abs())).expect("a cell");
        best.1.sheared[0]
    };
    assert_relative_eq!(at(0.99), exact, max_relative = 0.03);
    assert_relative_eq!(at(1.01), exact, max_relative = 0.03);
    assert!(at(0.5).abs() < 0.02 * exact.abs(), "{} {exact}", at(0.5));
}
