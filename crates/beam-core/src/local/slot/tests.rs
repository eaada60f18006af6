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

#[test]
fn trial() {
    for below in [Below::Rigid, Below::Skin(PLY), Below::Nothing] {
        for (a, b) in [(0.05, 0.05), (0.1, 0.18), (0.18, 0.1)] {
            let case = SlotCase { plates: &[PLY], foam: FOAM, below, void: Void::NONE };
            let got = dents(&case, &[patch(a, b, 0.0)]).unwrap();
            let exact = indent(&FootCase { plates: &[PLY], foam: FOAM, below, patch: Patch { load: 1000.0, across: a, along: b } }).unwrap();
            let m = exact.moments[0].largest();
            eprintln!("{below:?} {a} {b}: foam {:.4} mx {:.4} my {:.4}", got[0].foam_stress / exact.foam_stress, got[0].moments[0][0] / m[0], got[0].moments[0][1] / m[1]);
        }
    }
    for width in [0.025, 0.08] {
        for below in [Below::Rigid, Below::Skin(PLY)] {
            let case = SlotCase { plates: &[PLY], foam: FOAM, below, void: Void { width, cut: [0.0, 1.0] } };
            let p = [patch(0.05, 0.05, 0.0), patch(0.05, 0.05, width / 2.0), patch(0.1, 0.18, 0.0)];
            let t = Instant::now();
            let a = dents(&case, &p).unwrap();
            let took = t.elapsed();
            let fine = dents_by(&case, &p, Fineness { waves: 25, shortest: 14.0, cells: 2.0, fade: 10.0 }).unwrap();
            for (a, f) in a.iter().zip(&fine) {
                eprintln!("{width} {}", matches!(below, Below::Rigid));
                eprintln!("  foam {:.5e} {:.4} mx {:.4} {:.4} my {:.4} {:.4} {took:?}", a.foam_stress, a.foam_stress / f.foam_stress, a.moments[0][0], a.moments[0][0] / f.moments[0][0], a.moments[0][1], a.moments[0][1] / f.moments[0][1]);
            }
        }
    }
}
