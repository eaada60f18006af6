//! A roof out of a survey, with members that lie loose.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::super::Free;
use super::{GridSize, PlateRoof, Wanted, shape};
use crate::check::Materials;
use crate::loads::{Basis, BasisLoad};
use crate::model::{Configuration, Hold, StageChoice, Time, idealise};
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
        shape(&roof, &Wanted { x: vec![1.0, 1.2], y: vec![0.7] }, GridSize { nodes: 900.0 }).expect("a grid"),
    );
    PlateRoof::new(&roof, &shape, Materials::Default, Time::Fresh, None).expect("a stable roof")
}

/// Under a pressure all over, contacts closed, and with those of loose members let go where they would pull.
fn under(plate: &PlateRoof, pressure: f64) -> (Response, Option<Response>) {
    let load = [(Basis::Snow, BasisLoad::Pressure(pressure))];
    let closed = plate.solve(&load).expect("a response").swap_remove(0);
    let vectors: BTreeMap<Basis, _> =
        [Basis::Snow].into_iter().zip(plate.vectors(&load).expect("vectors")).collect();
    let sums = [(vec![(Basis::Snow, 1.0)], Free::Members)];
    let settled = plate.settled(&vectors, &sums).expect("a state").swap_remove(0);
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
