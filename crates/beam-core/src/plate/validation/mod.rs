//! The two-way model against closed forms and published or independently computed values.

mod braced;
mod condensed;
mod crown;
mod eccentric;
mod laws;
mod navier;
mod opening;
mod patch;
mod random;
mod strips;
mod trimmers;

use super::{Edge, Finer, Grid, PlateLaminate, PlateModel, Supports, graded_lines};

/// A sandwich with equal isotropic faces: bending stiffness `d` (N m), shear stiffness `s` (N/m).
pub(super) fn sandwich(d: f64, s: f64, nu: f64) -> PlateLaminate {
    let unit = [[1.0, nu, 0.0], [nu, 1.0, 0.0], [0.0, 0.0, (1.0 - nu) / 2.0]];
    // Membrane stiffness of 3 mm faces 43 mm apart.
    let a = 4.0 * d / 0.043f64.powi(2);
    PlateLaminate {
        a: unit.map(|row| row.map(|v| a * v)),
        b: [[0.0; 3]; 3],
        d: unit.map(|row| row.map(|v| d * v)),
        ks: [s, s],
        layers: Vec::new(),
    }
}

/// The panel of most rows: 3 mm faces of 7000 MPa on 40 mm of foam of 2.5 MPa in shear.
pub(super) fn panel_40() -> PlateLaminate {
    sandwich(20_742.4, 115_562.5, 0.25)
}

/// A rectangle with finer cells: across, along, and their size, m.
pub(super) type Fine = ([f64; 2], [f64; 2], f64);

/// A rectangle `a` by `b` (m) of one build-up, with cells of `size` and finer ones where asked.
pub(super) fn rectangle([a, b]: [f64; 2], size: f64, finer: &[Fine], laminate: PlateLaminate) -> PlateModel {
    let axis = |length: f64, pick: fn(&Fine) -> [f64; 2]| {
        let mut must_hit = vec![length / 2.0];
        let mut stretches = Vec::new();
        for f in finer {
            let [from, to] = pick(f);
            must_hit.extend([from, to, (from + to) / 2.0]);
            stretches.push(Finer { from, to, size: f.2 });
        }
        graded_lines(length, &must_hit, size, &stretches).unwrap()
    };
    let grid = Grid::new(axis(a, |f| f.0), axis(b, |f| f.1), |_, _| Some(0)).unwrap();
    PlateModel {
        grid,
        laminates: vec![laminate],
        rise: Vec::new(),
        braces: Vec::new(),
        supports: Supports::all_round(Edge::Hard),
    }
}

/// Fails unless `found` is within the relative `tolerance` of `wanted`; a number that is none fails.
#[track_caller]
pub(super) fn near(what: &str, found: f64, wanted: f64, tolerance: f64) {
    let error = (found - wanted) / wanted;
    assert!(error.abs() <= tolerance, "{what}: found {found}, wanted {wanted}, error {error:.2e}");
}

/// A strip `length` by `width` (m) that bends in one direction only: `lines` across, two cells along, on two
/// held-down walls. Along and in its plane it is made so stiff that it stays straight.
pub(super) fn strip(length: f64, width: f64, cells: usize, [ea, eb, ed]: [f64; 3], s: f64) -> PlateModel {
    let x = (0..=cells).map(|i| length * i as f64 / cells as f64).collect();
    let grid = Grid::new(x, vec![0.0, width / 2.0, width], |_, _| Some(0)).unwrap();
    PlateModel {
        grid,
        laminates: vec![one_way([ea, eb, ed], s)],
        rise: Vec::new(),
        braces: Vec::new(),
        supports: Supports { hold_down: true, ..Supports::side_walls() },
    }
}

/// Membrane, coupling and bending stiffness across; 1000 times as much along; no Poisson effect.
pub(super) fn one_way([a, b, d]: [f64; 3], s: f64) -> PlateLaminate {
    let diagonal = |v: f64, rest: f64| [[v, 0.0, 0.0], [0.0, rest, 0.0], [0.0, 0.0, rest]];
    PlateLaminate {
        a: diagonal(a, 1e3 * a),
        b: diagonal(b, 0.0),
        d: diagonal(d, 1e3 * d),
        ks: [s, 1e3 * s],
        layers: Vec::new(),
    }
}
