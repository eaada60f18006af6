//! Strips in one-way bending against beam formulas, and partial composite action against Newmark's solution.

use super::super::{Along, Bond, Brace, Grid, Load, PlateLayer, PlateModel, PlateSystem};
use super::{near, one_way, strip};

const L: f64 = 2.3;

/// A sandwich strip under pressure: `5 q L^4/(384 D) + q L^2/(8 S)` (thin-face beam theory; Allen 1969, from
/// memory).
#[test]
fn cylindrical_bending() {
    let (d, s, q) = (20_742.4, 115_562.5, 1000.0);
    let system = PlateSystem::new(strip(L, 1.0, 40, [4.5e7, 0.0, d], s)).unwrap();
    let response = system.solve(&system.load(&[Load::Pressure(q)]).unwrap()).unwrap();
    let wanted = 5.0 * q * L.powi(4) / (384.0 * d) + q * L * L / (8.0 * s);
    near("sag", response.sag(L / 2.0, 0.5).unwrap(), wanted, 1e-3);
    near("moment", response.at_node(20, 0).unwrap().moment[0], q * L * L / 8.0, 2e-3);
    let first = response.cell(0).unwrap();
    near("shear near the wall", first.shear[0], q * (L / 2.0 - L / 80.0), 1e-6);
}

/// A skin gone over the middle third: the neutral plane jumps, the strip hangs on its walls without in-plane
/// force, and each stretch bends with its own `D - B^2/A` (closed form by integrating `M/EI`).
#[test]
fn a_missing_skin_joins_with_its_offset() {
    let (e, t, z): (f64, f64, f64) = (7.0e9, 3e-3, 0.0215);
    let skin = [e * t, e * t * z, e * t * z * z + e * t.powi(3) / 12.0];
    let sound = [2.0 * skin[0], 0.0, 2.0 * skin[2]];
    let grid = Grid::new((0..=60).map(|i| L * f64::from(i) / 60.0).collect(), vec![0.0, 0.5, 1.0], |x, _| {
        Some(usize::from((x - L / 2.0).abs() < L / 6.0))
    })
    .unwrap();
    let base = strip(L, 1.0, 2, sound, 1e9);
    let system = PlateSystem::new(PlateModel {
        grid,
        laminates: vec![one_way(sound, 1e8), one_way(skin, 1e8)],
        ..base
    })
    .unwrap();
    let q = 10.0;
    let response = system.solve(&system.load(&[Load::Pressure(q)]).unwrap()).unwrap();
    let own = e * t.powi(3) / 12.0;
    // Unit-load integral of q x (L - x)/2 * x/2 over each half, split at L/3.
    let primitive = |x: f64| q / 4.0 * (L * x.powi(3) / 3.0 - x.powi(4) / 4.0);
    let (third, half) = (primitive(L / 3.0), primitive(L / 2.0));
    let shear = q * L * L / (8.0 * 1e8);
    let wanted = 2.0 * (third / sound[2] + (half - third) / own) + shear;
    near("sag", response.sag(L / 2.0, 0.5).unwrap(), wanted, 2e-3);
    let middle = response.at_node(30, 1).unwrap();
    assert!(middle.membrane[0].abs() < 1e-6 * q * L * L / z, "{:?}", middle.membrane);
}

/// A 200 x 3 skin over a 25.4 mm tube on a bed that slips.
fn skin_on_tube(bond: Bond) -> PlateSystem {
    let width = 0.2;
    let (e, t): (f64, f64) = (7.0e9, 3e-3);
    let mut model = strip(L, width, 80, [e * t, 0.0, e * t.powi(3) / 12.0], 1e8);
    model.braces.push(Brace {
        along: Along::X,
        line: width / 2.0,
        ends: [0.0, L],
        ea: 70e9 * 282.2575e-6,
        ei: 70e9 * 23_711.10e-12,
        gas: 1e9,
        gj: 0.0,
        z_axis: -14.2e-3,
        z_glue: -1.5e-3,
        bond,
    });
    PlateSystem::new(model).unwrap()
}

/// Sag under 0.5 N/mm and under 1000 N in the middle, mm.
fn sags(bond: Bond) -> [f64; 2] {
    let system = skin_on_tube(bond);
    let uniform = system.load(&[Load::Pressure(0.5e3 / 0.2)]).unwrap();
    let point = system.load(&[Load::Point { x: L / 2.0, y: 0.1, force: 1000.0 }]).unwrap();
    [uniform, point].map(|load| 1e3 * system.solve(&load).unwrap().sag(L / 2.0, 0.1).unwrap())
}

/// Rows NM: Newmark's exact solution of two beams joined by a slip spring per length (closed form; agrees
/// with its sine series to 1e-12). `K/s` is 2.54, 25.4 and 254 N/mm2.
#[test]
fn newmark_slip() {
    let [uniform, point] = sags(Bond::Slip(2.54e6));
    near("NM_2.54_u", uniform, 97.91411, 1e-3);
    near("NM_2.54_p", point, 136.4798, 1e-3);
    near("NM_25.4_p", sags(Bond::Slip(25.4e6))[1], 114.523, 1e-3);
    near("NM_254_u", sags(Bond::Slip(254e6))[0], 77.71077, 1e-3);
}

/// Rows NM_lim: no bond gives `EI0`, full bond `EIinf`.
#[test]
fn newmark_limits() {
    let sag = |ei: f64| 5.0 * 0.5 * 2300f64.powi(4) / (384.0 * ei);
    near("no bond", sags(Bond::Loose)[0], sag(1.662927e9), 1e-3);
    near("full bond", sags(Bond::Rigid)[0], sag(2.36135e9), 1e-3);
}

/// Full bond under 0.5 N/mm: axial force and own moment of the tube by composite beam theory.
#[test]
fn bonded_tube_forces() {
    let system = skin_on_tube(Bond::Rigid);
    let response = system.solve(&system.load(&[Load::Pressure(2500.0)]).unwrap()).unwrap();
    let moment = 500.0 * L * L / 8.0;
    let (skin, tube) = (7.0e9 * 0.2 * 3e-3, 70e9 * 282.2575e-6);
    let joint = skin * tube / (skin + tube) * 14.2e-3;
    let pieces = response.brace(0);
    let middle = pieces[40];
    near("axial", middle.axial, moment * joint / 2361.35, 2e-3);
    near("own moment", middle.moment[0], moment * 70e9 * 23_711.1e-12 / 2361.35, 2e-3);
    let (area, modulus) = (282.2575e-6, 23_711.1e-12 / 12.7e-3);
    let stress = middle.axial / area + middle.moment[0] / modulus;
    near("stress", middle.worst_stress(area, modulus), stress, 1e-9);
}

/// A tube with a curvature sprung into it, loose under a strip: both take the curvature
/// `k0 EIb/(EIb + D b)` (two beams with one deflection, closed form).
#[test]
fn a_sprung_in_curvature_is_shared_by_stiffness() {
    let system = skin_on_tube(Bond::Loose);
    let load = system.load(&[Load::BraceStrain { brace: 0, axial: 0.0, curvature: 0.01 }]).unwrap();
    let response = system.solve(&load).unwrap();
    let (skin, tube) = (7.0e9 * 0.2 * 27e-9 / 12.0, 70e9 * 23_711.1e-12);
    let shared = 0.01 * tube / (tube + skin);
    near("sag", response.sag(L / 2.0, 0.1).unwrap(), shared * L * L / 8.0, 1e-3);
    // The couple that the tube's end puts on the thin skin leaves a ripple between neighbouring lines.
    let [start, end] = response.brace(0)[40].moment;
    near("moment left in the tube", (start + end) / 2.0, tube * (shared - 0.01), 1e-3);
}

/// Stresses of the layers of a sandwich strip: `M/(d t)` in the middle of a skin, `M E z/D` elsewhere
/// (thin-face beam theory; Allen 1969, from memory).
#[test]
fn layer_stresses() {
    let (e, t, d): (f64, f64, f64) = (7.0e9, 3e-3, 0.043);
    let bending = e * t * d * d / 2.0 + e * t.powi(3) / 6.0;
    let mut model = strip(L, 1.0, 40, [2.0 * e * t, 0.0, bending], 115_562.5);
    let q = [[e, 0.0, 0.0], [0.0, e, 0.0], [0.0, 0.0, e / 2.0]];
    model.laminates[0].layers =
        [-d / 2.0, d / 2.0].map(|z| PlateLayer { q, bottom: z - t / 2.0, top: z + t / 2.0 }).to_vec();
    let system = PlateSystem::new(model).unwrap();
    let response = system.solve(&system.load(&[Load::Pressure(1000.0)]).unwrap()).unwrap();
    let state = response.at_node(20, 0).unwrap();
    let [lower, upper] = [0, 1].map(|k| system.model().laminates[0].layers[k]);
    let moment = 1000.0 * L * L / 8.0;
    near("lower skin", lower.stress(&state.strain, -d / 2.0)[0], moment * e * d / 2.0 / bending, 2e-3);
    near("near M/(d t)", lower.stress(&state.strain, -d / 2.0)[0], moment / (d * t), 4e-3);
    near("upper skin", upper.stress(&state.strain, upper.top)[0], -moment * e * upper.top / bending, 2e-3);
}
