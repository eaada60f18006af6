//! What a roof may or may not count on: curves sprung in, joints, walls that hold.

mod joints;
mod sprung;
mod thrust;

use std::sync::Arc;

use super::super::study::{Job, Studied, Variant};
use super::{CheckOptions, check};
use crate::check::{Bond, Bracing, CheckDocument, Materials};
use crate::loads::{Basis, BasisLoad, Factors};
use crate::model::{Hold, IdealRoof, StageChoice, Time, idealise};
use crate::plate::{GridSize, Layouts, PlateRoof, Wanted, shape};
use crate::response::{Layout, Response};
use crate::survey::{Survey, read_text};
use section_tables::Tables;

pub(super) const SPAN: f64 = 2.0;
/// Skins of 3 mm and 7 GPa on 50 mm of foam of 30 MPa (11.54 MPa in shear).
pub(super) const SKIN: [f64; 2] = [7.0e9, 3e-3];
pub(super) const APART: f64 = 53e-3;

/// A roof that is a strip, 300 mm along, of skins without Poisson's ratio; nobody on it.
fn text(rise: &str, length: &str, more: &str) -> String {
    format!(
        r#"
survey = 1
title = "Puppet trailer, roof over the bench"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "{rise}"
length = "{length}"
front = "runs on"
rear = "runs on"
[material.board]
E = "7 GPa"
nu = 0.0
strength = {{ tension = "25 MPa", compression = "25 MPa", shear = "8 MPa", bending = "30 MPa" }}
strength_is = "5 percent"
density = "600 kg/m3"
[material.foam]
E = "30 MPa"
nu = 0.3
strength = {{ tension = "0.6 MPa", compression = "0.6 MPa", shear = "0.45 MPa", crush = "0.6 MPa" }}
strength_is = "5 percent"
density = "60 kg/m3"
[[layer]]
name = "outer skin"
material = "board"
thickness = "3"
[[layer]]
name = "core"
material = "foam"
thickness = "50"
[[layer]]
name = "inner skin"
material = "board"
thickness = "3"
[person]
way = "nobody"
{more}
"#
    )
}

fn survey(rise: &str, length: &str, more: &str) -> Survey {
    read_text("bench.toml", text(rise, length, more), Tables::shipped())
        .unwrap_or_else(|problems| panic!("{problems}"))
}

fn answer(rise: &str, length: &str, more: &str) -> CheckDocument {
    let survey = survey(rise, length, more);
    check(&survey, Tables::shipped(), CheckOptions::default()).unwrap_or_else(|e| panic!("{e}"))
}

fn variant(survey: &Survey, bond: Bond, hold: Hold) -> Variant {
    let braced = !survey.braces.is_empty();
    Variant {
        stage: StageChoice::Finished,
        bracing: if braced { Bracing::With } else { Bracing::Without },
        bond,
        materials: Materials::Default,
        grain_across: true,
        hold,
    }
}

fn roof(survey: &Survey, bond: Bond) -> IdealRoof {
    let v = variant(survey, bond, Hold { walls: false, joints: false });
    idealise(survey, v.configuration(), v.materials, true).unwrap_or_else(|e| panic!("{e:?}"))
}

/// A roof fresh under one load.
fn solve(roof: &IdealRoof, load: (Basis, BasisLoad)) -> (Arc<Layout>, Response) {
    let shape = Arc::new(shape(roof, &Wanted::default(), GridSize::DEFAULT).unwrap());
    let plate = PlateRoof::new(roof, &shape, Materials::Default, Time::Fresh, &Layouts::default()).unwrap();
    let response = plate.solve(&[load]).unwrap().swap_remove(0);
    (plate.layout.clone(), response)
}

fn study(survey: &Survey, bond: Bond, hold: Hold) -> Studied {
    let factors = Factors::of(survey, Tables::shipped()).unwrap();
    Job::new(survey, &factors, "finished".to_owned(), Vec::new()).study(variant(survey, bond, hold)).unwrap()
}

/// Sag nearest to a place.
fn sag_at(layout: &Layout, r: &Response, at: (f64, f64)) -> f64 {
    let far = |p: &(f64, f64)| (p.0 - at.0).hypot(p.1 - at.1);
    let nearest = (0..layout.sag.len()).min_by(|i, j| far(&layout.sag[*i]).total_cmp(&far(&layout.sag[*j])));
    r.sag[nearest.unwrap()]
}

/// Rows of one document each against the row of the same name in another: none uses less.
#[track_caller]
fn uses_no_less(more: &CheckDocument, less: &CheckDocument) {
    assert!(!less.checks.is_empty());
    for row in &less.checks {
        let same = more
            .checks
            .iter()
            .find(|r| r.check == row.check && r.part == row.part && r.bracing == row.bracing)
            .unwrap_or_else(|| panic!("no row {} {}", row.check, row.part));
        let (a, b) = (same.ratio.get(), row.ratio.get());
        // The deciding row is raised by what a finer grid reads: a percent at most here.
        assert!(a >= b * 0.99, "{} ({}): {a} and {b}", row.check, row.part);
    }
}

#[track_caller]
fn near(what: &str, found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance * wanted.abs(), "{what}: {found}, not {wanted}");
}
