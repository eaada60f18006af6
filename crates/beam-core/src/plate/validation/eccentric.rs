//! An eccentric brace under a shear-flexible strip against its own sine series.
//!
//! Simply supported, free to move lengthwise, both follow `u = U cos`, `bx = X cos`, `w = W sin`, `th = T cos`
//! (and the axis on a bed `A cos`) in every term; minimum potential energy gives a small system a term:
//!
//! ```text
//!   panel   A b (al U)^2 + D b (al X)^2 + S b (al W + X)^2
//!   brace   EA (al a)^2 + EI (al T)^2 + GAs (al W + T)^2,   a = U + z_glue X + (z_axis - z_glue) T, or A on a bed
//!   bed     k (A - (U + z_glue X + (z_axis - z_glue) T))^2
//! ```
//! (derived here from the member theory; independent of elements and of the solver)

use nalgebra::{SMatrix, SVector};

use super::super::{Bond, Load, PlateSystem};
use super::laws::tube;
use super::{near, strip};

const L: f64 = 2.4;
const WIDTH: f64 = 0.4;
const PANEL: [f64; 3] = [4.2e7, 20_742.4, 115_562.5];

/// Sag, axial force and moment of the brace at midspan under pressure `q`.
fn series(bond: Bond, q: f64) -> [f64; 3] {
    let [a, d, s] = PANEL.map(|v| v * WIDTH);
    let brace = tube(WIDTH / 2.0, [0.0, L], bond);
    let mut sum = [0.0; 3];
    for m in (1..400).step_by(2) {
        let al = f64::from(m) * std::f64::consts::PI / L;
        let row = |values: [f64; 5]| SVector::from(values);
        let panel_side = row([1.0, brace.z_glue, 0.0, brace.z_axis - brace.z_glue, 0.0]);
        let own = row([0.0, 0.0, 0.0, 0.0, 1.0]);
        let axis = if matches!(bond, Bond::Slip(_)) { own } else { panel_side };
        let mut terms = vec![
            (a * al * al, row([1.0, 0.0, 0.0, 0.0, 0.0])),
            (d * al * al, row([0.0, 1.0, 0.0, 0.0, 0.0])),
            (s, row([0.0, 1.0, al, 0.0, 0.0])),
            (brace.ei * al * al, row([0.0, 0.0, 0.0, 1.0, 0.0])),
            (brace.gas, row([0.0, 0.0, al, 1.0, 0.0])),
        ];
        match bond {
            Bond::Rigid => terms.extend([(brace.ea * al * al, axis), (1.0, own)]),
            Bond::Slip(k) => terms.extend([(brace.ea * al * al, axis), (k, own - panel_side)]),
            Bond::Loose | Bond::Resting | Bond::Jointed => terms.push((1.0, own)),
        }
        let mut k = SMatrix::<f64, 5, 5>::zeros();
        for (c, r) in terms {
            k += r * r.transpose() * c;
        }
        let load = 4.0 * q * WIDTH / (f64::from(m) * std::f64::consts::PI);
        // Downward load, upward w.
        let x = k.lu().solve(&row([0.0, 0.0, -load, 0.0, 0.0])).unwrap();
        let middle = if m % 4 == 1 { 1.0 } else { -1.0 };
        let axial = if matches!(bond, Bond::Loose) { 0.0 } else { -brace.ea * al * axis.dot(&x) };
        sum[0] -= x[2] * middle;
        sum[1] += axial * middle;
        sum[2] += brace.ei * al * x[3] * middle;
    }
    sum
}

#[test]
fn glued_bedded_and_loose() {
    for bond in [Bond::Rigid, Bond::Slip(5e7), Bond::Slip(2e6), Bond::Loose] {
        let mut model = strip(L, WIDTH, 48, [PANEL[0], 0.0, PANEL[1]], PANEL[2]);
        model.braces.push(tube(WIDTH / 2.0, [0.0, L], bond));
        let system = PlateSystem::new(model).unwrap();
        let response = system.solve(&system.load(&[Load::Pressure(1500.0)]).unwrap()).unwrap();
        let [sag, axial, moment] = series(bond, 1500.0);
        let middle = response.brace(0)[24];
        near("sag", response.sag(L / 2.0, WIDTH / 2.0).unwrap(), sag, 2e-3);
        near("moment", middle.moment[0], moment, 5e-3);
        if axial == 0.0 {
            assert_eq!(middle.axial, 0.0);
        } else {
            near("axial", middle.axial, axial, 5e-3);
        }
    }
}
