//! `[person]`.

use super::material;
use crate::quantity::{INCH, Measure, si};
use crate::survey::take::{Bound, Context, Pair, Table, Whole, Words};
use crate::survey::{Board, LayerMaterial, Person, Way};

const MASS: Bound = Bound::above_zero(Measure::Weight).plausible(
    30.0..250.0,
    "30 kg to 250 kg (66 lb to 551 lb)",
    "lighter than anyone who works on a roof",
    "heavier than anyone with tools",
);
const WAY: Words<Way> = Words(&[("on a board", Way::OnABoard), ("bare", Way::Bare), ("nobody", Way::Nobody)]);
const COUNT: Whole = Whole { from: 1, to: 10 };
const BOARD_SIZE: Bound = Bound::above_zero(Measure::Length).plausible(
    0.1..3.0,
    "100 mm to 3 m (4 in to 118 in)",
    "smaller than a walk board",
    "larger than a walk board",
);
const BOARD_THICKNESS: Bound = Bound::above_zero(Measure::Length).plausible(
    0.003..0.1,
    "3 mm to 100 mm (1/8 in to 4 in)",
    "thinner than a walk board",
    "thicker than a walk board",
);

/// 1.2 kN under standard gravity, to the kilogram.
const MASS_DEFAULT: f64 = 122.0;
const BOARD_MATERIAL: &str = "sheathing plywood";

pub(super) fn read(cx: &mut Context<'_>, root: &mut Table<'_>) -> Option<Person> {
    let mut table = root.section(cx, "person")?;
    let words = "no person is given: 122 kg (1.2 kN) with tools is taken";
    let mass = table.or_si(cx, "mass", &MASS, (MASS_DEFAULT, "kg", "default-person", words));
    let words = "it is not said how people will stand on the roof: on a board";
    let way = table.or(cx, "way", &WAY, (Way::OnABoard, "default-way", words));
    let count = table.or(cx, "count", &COUNT, (1, "default-count", "one person at a time is taken"));
    let board = board(cx, &mut table);
    table.close(cx);
    Some(Person { mass: si(mass?), way: way?, count: count?, board: board? })
}

fn board(cx: &mut Context<'_>, person: &mut Table<'_>) -> Option<Board> {
    let mut table = person.section(cx, "board")?;
    let size = table.optional(cx, "size", &Pair(BOARD_SIZE));
    if size == Some(None) {
        let words = "no size of the walk board is given: 24 in across by 48 in along (0.61 x 1.22 m)";
        cx.default("person.board.size.1", Some((24.0 * INCH, "m")), "default-board", words);
        cx.default("person.board.size.2", Some((48.0 * INCH, "m")), "default-board", words);
    }
    let material = match table.optional(cx, "material", &material::find) {
        Some(None) => default_material(cx, &table),
        given => given.flatten(),
    };
    let words = "no thickness of the walk board is given: 1/2 in (12.7 mm)";
    let thickness = table.or_si(cx, "thickness", &BOARD_THICKNESS, (0.5 * INCH, "m", "default-board", words));
    table.close(cx);
    let size = size?.unwrap_or([24.0 * INCH, 48.0 * INCH]);
    Some(Board { size: size.map(si), material: material?, thickness: si(thickness?) })
}

fn default_material(cx: &mut Context<'_>, table: &Table<'_>) -> Option<LayerMaterial> {
    let tables = cx.tables;
    match tables.material(BOARD_MATERIAL) {
        Ok(row) => {
            cx.default(
                "person.board.material",
                None,
                "default-board",
                "no material of the walk board is given: sheathing plywood",
            );
            Some(LayerMaterial::Table(Box::new(row.clone())))
        }
        Err(_) => {
            table.missing(cx, "material", "a material of the tables");
            None
        }
    }
}
