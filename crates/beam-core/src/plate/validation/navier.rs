//! Simply supported plates (hard edges) against Navier's series.
//!
//! Rows PLA to PLG, PO and OP8: shear-flexible (Reissner-Mindlin) sandwich plates, series summed
//! independently, a second-order Mindlin finite element agreeing to 1e-5. Rows PL01 to PL09: Timoshenko and
//! Woinowsky-Krieger, Theory of Plates and Shells, Table 8 (printed 0.00406, 0.0479), further digits computed.

use super::super::{Load, PlateLaminate, PlateSystem, Response};
use super::{near, rectangle, sandwich};

const SAG: f64 = 0.002;
const MOMENT: f64 = 0.01;

/// Ten cells across a patch, 32 across the panel: the grid that the tolerances hold for.
/// Solves a rectangle under a patch at its centre, or under pressure where there is no patch.
fn centre([a, b]: [f64; 2], laminate: PlateLaminate, load: Load, check: impl Fn(&Response<'_>, usize, f64)) {
    let patch = match &load {
        Load::Patch { x, y, .. } => vec![(*x, *y, (x[1] - x[0]) / 10.0)],
        _ => Vec::new(),
    };
    let system = PlateSystem::new(rectangle([a, b], a / 32.0, &patch, laminate)).unwrap();
    let response = system.solve(&system.load(&[load]).unwrap()).unwrap();
    let grid = &system.model().grid;
    let middle = grid.node(grid.x_line("", a / 2.0).unwrap(), grid.y_line("", b / 2.0).unwrap());
    check(&response, middle, response.sag(a / 2.0, b / 2.0).unwrap());
}

fn patch_at([x, y]: [f64; 2], side: f64, force: f64) -> Load {
    let half = side / 2.0;
    Load::Patch { x: [x - half, x + half], y: [y - half, y + half], force }
}

/// One row: panel, its stiffness, the load, and the wanted sag (m) and moments (N) at the centre.
#[track_caller]
fn row(size: [f64; 2], d: f64, s: f64, load: Load, w: f64, moments: [f64; 2]) {
    centre(size, sandwich(d, s, 0.25), load, |response, node, sag| {
        near("sag", sag, w, SAG);
        let state = response.at_node(node, 0).unwrap();
        near("Mx", state.moment[0], moments[0], MOMENT);
        near("My", state.moment[1], moments[1], MOMENT);
    });
}

#[test]
fn pla_patch_on_2300_by_1200() {
    let load = patch_at([1.15, 0.6], 0.1, 1000.0);
    row([2.3, 1.2], 20_742.4, 115_562.5, load, 5.375806e-3, [280.5355, 333.1696]);
}

#[test]
fn pla8_heel_on_50_mm() {
    centre(
        [2.3, 1.2],
        sandwich(20_742.4, 115_562.5, 0.25),
        patch_at([1.15, 0.6], 0.05, 900.0),
        |r, node, sag| {
            near("sag", sag, 5.705104e-3, SAG);
            near("My", r.at_node(node, 0).unwrap().moment[1], 361.9425, MOMENT);
        },
    );
}

#[test]
fn pla10_wide_patch() {
    let load = patch_at([1.15, 0.6], 0.762, 1334.47);
    centre([2.3, 1.2], sandwich(20_742.4, 115_562.5, 0.25), load, |_, _, sag| {
        near("sag", sag, 3.021015e-3, SAG);
    });
}

#[test]
fn pla11_patch_off_the_centre() {
    let model = rectangle(
        [2.3, 1.2],
        0.07,
        &[([0.55, 0.65], [0.25, 0.35], 0.1 / 6.0)],
        sandwich(20_742.4, 115_562.5, 0.25),
    );
    let system = PlateSystem::new(model).unwrap();
    let response = system.solve(&system.load(&[patch_at([0.6, 0.3], 0.1, 1000.0)]).unwrap()).unwrap();
    near("sag under the patch", response.sag(0.6, 0.3).unwrap(), 4.344403e-3, SAG);
    near("sag at the centre", response.sag(1.15, 0.6).unwrap(), 0.8372759e-3, SAG);
}

#[test]
fn plb_uniform_on_2300_square() {
    row([2.3, 2.3], 20_742.4, 115_562.5, Load::Pressure(1000.0), 8.85301e-3, [243.5759, 243.5759]);
}

#[test]
fn plb_patch_on_2300_square() {
    let load = patch_at([1.15, 1.15], 0.1, 1000.0);
    row([2.3, 2.3], 20_742.4, 115_562.5, load, 7.874295e-3, [356.038, 356.038]);
}

#[test]
fn plc_patch_on_2300_by_3000() {
    let load = patch_at([1.15, 1.5], 0.1, 1000.0);
    row([2.3, 3.0], 20_742.4, 115_562.5, load, 8.70323e-3, [380.1341, 351.9239]);
}

#[test]
fn pld_thin_core() {
    row([2.3, 1.2], 8814.4, 59_584.0, Load::Pressure(1000.0), 5.022844e-3, [60.94291, 141.2382]);
    let load = patch_at([1.15, 0.6], 0.1, 1000.0);
    row([2.3, 1.2], 8814.4, 59_584.0, load, 10.89275e-3, [280.5355, 333.1696]);
}

#[test]
fn ple_thick_core() {
    row([2.3, 2.4], 51_822.4, 213_415.4, Load::Pressure(1000.0), 4.287576e-3, [261.3521, 246.4514]);
}

#[test]
fn plf_thickest_core() {
    let load = patch_at([1.15, 1.15], 0.1, 1000.0);
    row([2.3, 2.3], 96_902.4, 384_400.0, load, 2.112303e-3, [356.038, 356.038]);
}

#[test]
fn plg_small_bay() {
    let load = patch_at([0.6, 0.3], 0.1, 1000.0);
    row([1.2, 0.6], 8814.4, 78_400.0, load, 5.511119e-3, [211.2928, 264.959]);
}

#[test]
fn po_orthotropic() {
    let laminate = PlateLaminate {
        d: [[17_841.65, 780.572, 0.0], [780.572, 9757.15, 0.0], [0.0, 0.0, 1389.0]],
        ..sandwich(17_841.65, 115_562.5, 0.25)
    };
    centre([2.3, 2.4], laminate, Load::Pressure(1000.0), |response, node, sag| {
        near("sag", sag, 17.72246e-3, SAG);
        let state = response.at_node(node, 0).unwrap();
        near("Mx", state.moment[0], 444.0652, MOMENT);
        near("My", state.moment[1], 248.8697, MOMENT);
    });
}

/// PL01, PL02, PL04: thin plates; shear made a million times stiffer than it matters.
#[test]
fn thin_plates_of_timoshenko() {
    let thin = || sandwich(1000.0, 1e9, 0.3);
    centre([1.0, 1.0], thin(), Load::Pressure(1000.0), |response, node, sag| {
        near("PL01", sag, 0.004062353, SAG);
        near("PL02", response.at_node(node, 0).unwrap().moment[0], 47.88638, MOMENT);
    });
    centre([1.0, 2.0], thin(), Load::Pressure(1000.0), |response, node, sag| {
        near("PL04 sag", sag, 0.01012866, SAG);
        near("PL04 moment", response.at_node(node, 0).unwrap().moment[0], 101.6831, MOMENT);
    });
    let middle = Load::Point { x: 0.5, y: 0.5, force: 1000.0 };
    centre([1.0, 1.0], thin(), middle, |_, _, sag| near("PL09", sag, 0.01160084, 0.004));
}

/// Halving the cells quarters the error.
#[test]
fn second_order_convergence() {
    let error = |cells: f64| {
        let model = rectangle([2.3, 1.2], 1.2 / cells, &[], sandwich(8814.4, 59_584.0, 0.25));
        let system = PlateSystem::new(model).unwrap();
        let response = system.solve(&system.load(&[Load::Pressure(1000.0)]).unwrap()).unwrap();
        (response.sag(1.15, 0.6).unwrap() / 5.022844e-3 - 1.0).abs()
    };
    let (coarse, middle, fine) = (error(6.0), error(12.0), error(24.0));
    assert!((3.0..5.0).contains(&(coarse / middle)), "{coarse} {middle} {fine}");
    assert!((3.0..5.0).contains(&(middle / fine)), "{coarse} {middle} {fine}");
}
