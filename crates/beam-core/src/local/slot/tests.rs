//! The slot against what nobody here wrote, and against its own finer self.

use super::*;
use crate::local::{FootCase, Patch, indent};
use std::time::Instant;

/// 1/8 in lauan plywood, face grain along the slot: 1.2 and 8 GPa flexural, rolling shear of 120 MPa.
const PLY: PlateD = PlateD {
    shear: [5.0 / 6.0 * 120e6 * 0.003_175; 2],
    over: 0.003_175 / 2.0,
    ..PlateD::thin(3.2037, 21.358, 0.2563, 1.3336)
};
const FOAM: Layer = Layer { e: 5e6, nu: 0.1, depth: 0.050 };

fn patch(across: f64, along: f64, middle: f64) -> SlotPatch {
    SlotPatch { load: 1000.0, across, along, middle }
}

fn rows(id: &str) -> impl Fn(&str) -> f64 {
    let text = std::fs::read_to_string("/tmp/slots.csv").unwrap();
    let id = id.to_owned();
    move |what| {
        let row = text.lines().find(|l| l.starts_with(&format!("{id},{what},"))).unwrap_or_else(|| panic!("{id} {what}"));
        row.rsplit(',').next().unwrap().parse().unwrap()
    }
}

#[test]
fn trial() {
    let full = [0.0, 1.0];
    for (id, width, cut, below, a, b, middle) in [
        ("heel_25", 0.025, full, Below::Rigid, 0.05, 0.05, 0.0),
        ("shoe_25", 0.025, full, Below::Rigid, 0.1, 0.18, 0.0),
        ("heel_40_top", 0.040, [0.5, 1.0], Below::Rigid, 0.05, 0.05, 0.0),
        ("heel_80", 0.080, full, Below::Rigid, 0.05, 0.05, 0.0),
        ("shoe_80", 0.080, full, Below::Rigid, 0.1, 0.18, 0.0),
        ("heel_80_lip", 0.080, full, Below::Rigid, 0.05, 0.05, 0.040),
        ("heel_25_beside", 0.025, full, Below::Rigid, 0.05, 0.05, 0.0375),
        ("heel_40_bottom", 0.040, [0.0, 0.6], Below::Rigid, 0.05, 0.05, 0.0),
        ("hung_heel_25", 0.025, full, Below::Skin(PLY), 0.05, 0.05, 0.0),
        ("hung_shoe_80", 0.080, full, Below::Skin(PLY), 0.1, 0.18, 0.0),
        ("heel_80_ends", 0.080, full, Below::Rigid, 0.05, 0.05, 0.0),
        ("heel_80_ends_far", 0.080, full, Below::Rigid, 0.05, 0.05, 0.0),
    ] {
        let value = rows(id);
        let case = SlotCase { plates: &[PLY], foam: FOAM, below, void: Void { width, cut } };
        let t = std::time::Instant::now();
        let got = &dents(&case, &[patch(a, b, middle)]).unwrap()[0];
        let took = t.elapsed();
        let s = 0.003_175f64.powi(2) / 6.0;
        eprintln!("{id}: foam {:.4} mx {:.4} my {:.4} stretch {:.4e} {took:?}", got.foam_stress / value("foam_5mm").max(value("foam_away")), got.moments[0][0] / s / value("bend_x"), got.moments[0][1] / s / value("bend_y"), got.stretch);
    }
}
