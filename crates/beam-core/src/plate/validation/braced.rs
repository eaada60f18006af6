//! A simply supported plate with one concentric brace that shares its deflection: rows ST, a series solution
//! (Navier in both directions, the brace's line load term by term; computed independently).

use super::super::{Along, Bond, Brace, Load, PlateSystem};
use super::{near, panel_40, rectangle};

/// Sag at the centre (mm) and moment of the brace at midspan (N mm) for a brace of stiffness `ei` (N mm2).
fn braced(ei: f64) -> [f64; 2] {
    let mut model = rectangle([2.3, 3.0], 0.06, &[([0.0, 2.3], [1.47, 1.53], 0.02)], panel_40());
    model.braces.push(Brace {
        along: Along::X,
        line: 1.5,
        ends: [0.0, 2.3],
        ea: 1.0,
        ei: ei * 1e-6,
        gas: 1e12,
        gj: 0.0,
        z_axis: 0.0,
        z_glue: 0.0,
        bond: Bond::Loose,
    });
    let system = PlateSystem::new(model).unwrap();
    let response = system.solve(&system.load(&[Load::Pressure(1000.0)]).unwrap()).unwrap();
    let middle = response.brace(0).into_iter().find(|p| (p.span[0] - 1.15).abs() < 1e-6).unwrap();
    [1e3 * response.sag(1.15, 1.5).unwrap(), 1e3 * middle.moment[0]]
}

#[test]
fn brace_of_a_thin_tube() {
    let [sag, moment] = braced(1.66e9);
    near("ST_1.66e+09_w", sag, 12.4586, 0.002);
    near("ST_1.66e+09_M", moment, 34_923.89, 0.01);
}

#[test]
fn brace_of_a_stiff_tube() {
    let [sag, moment] = braced(2e10);
    near("ST_2e+10_w", sag, 8.793603, 0.002);
    near("ST_2e+10_M", moment, 318_518.6, 0.01);
}
