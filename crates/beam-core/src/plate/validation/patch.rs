//! Patch tests: on any grid of rectangles a state of constant strain is reproduced and balances itself.

use super::super::{Edge, Grid, PlateLaminate, PlateModel, PlateSystem, Supports, arc_height};

/// An unbalanced build-up: every stiffness filled, bending and membrane coupled.
fn coupled() -> PlateLaminate {
    PlateLaminate {
        a: [[4.2e7, 0.9e7, 0.2e7], [0.9e7, 3.1e7, 0.1e7], [0.2e7, 0.1e7, 1.4e7]],
        b: [[3.0e5, 0.5e5, 0.1e5], [0.5e5, 2.0e5, 0.2e5], [0.1e5, 0.2e5, 0.8e5]],
        d: [[2.1e4, 0.5e4, 0.1e4], [0.5e4, 1.7e4, 0.2e4], [0.1e4, 0.2e4, 0.8e4]],
        ks: [1.2e5, 0.9e5],
        layers: Vec::new(),
    }
}

const X: [f64; 6] = [0.0, 0.11, 0.31, 0.38, 0.71, 1.0];
const Y: [f64; 5] = [0.0, 0.23, 0.27, 0.52, 0.8];

fn system(rise: impl Fn(f64) -> f64) -> PlateSystem {
    let grid = Grid::new(X.to_vec(), Y.to_vec(), |_, _| Some(0)).unwrap();
    let rise = X.iter().map(|&x| rise(x)).collect();
    let supports = Supports { hold_down: true, ..Supports::all_round(Edge::Wall) };
    PlateSystem::new(PlateModel { grid, laminates: vec![coupled()], rise, braces: vec![], supports }).unwrap()
}

/// Checks that `field` (u v w bx by at x, y) has the constant `strain`, its energy, and no force inside.
#[track_caller]
fn constant_state(system: &PlateSystem, field: impl Fn(f64, f64) -> [f64; 5], strain: [f64; 8]) {
    let grid = &system.model.grid;
    let mut u = vec![0.0; system.layout.full + 1];
    for node in 0..grid.nodes() {
        let (x, y) = grid.place(node);
        u[5 * node..5 * node + 5].copy_from_slice(&field(x, y));
    }
    let force = system.internal_force(&u);
    let section = system.model.laminates[0].section_stiffness();
    let stress = section.map(|row| (0..8).map(|j| row[j] * strain[j]).sum::<f64>());
    let scale = stress.iter().fold(0.0, |m: f64, s| m.max(s.abs()));
    for j in 1..Y.len() - 1 {
        for i in 1..X.len() - 1 {
            // A shear force turns the normals unless the moment changes along the way.
            let share = (X[i + 1] - X[i - 1]) * (Y[j + 1] - Y[j - 1]) / 4.0;
            let turning = [0.0, 0.0, 0.0, stress[6] * share, stress[7] * share];
            for k in 0..5 {
                let left_over = force[5 * grid.node(i, j) + k] - turning[k];
                assert!(left_over.abs() <= 1e-10 * scale, "unknown {k} at {i} {j}: {left_over} of {scale}");
            }
        }
    }
    let stored: f64 = u.iter().zip(&force).map(|(a, b)| a * b).sum();
    let wanted: f64 = stress.iter().zip(&strain).map(|(s, e)| s * e).sum::<f64>() * 0.8;
    assert!((stored - wanted).abs() <= 1e-10 * wanted, "energy {stored}, wanted {wanted}");
}

#[test]
fn constant_membrane_strain() {
    let field = |x: f64, y: f64| [1e-3 * x + 4e-4 * y, -2e-4 * x + 7e-4 * y, 0.0, 0.0, 0.0];
    constant_state(&system(|_| 0.0), field, [1e-3, 7e-4, 2e-4, 0.0, 0.0, 0.0, 0.0, 0.0]);
}

#[test]
fn constant_curvature() {
    let (kx, ky, kxy) = (2e-3, -1e-3, 3e-3);
    let field = |x: f64, y: f64| {
        let w = -(kx * x * x + ky * y * y + kxy * x * y) / 2.0;
        [0.0, 0.0, w, kx * x + kxy * y / 2.0, ky * y + kxy * x / 2.0]
    };
    // A bilinear element meets x y / 2 of the twist exactly; the rotations then leave no shear.
    constant_state(&system(|_| 0.0), field, [0.0, 0.0, 0.0, kx, ky, kxy, 0.0, 0.0]);
}

#[test]
fn constant_shear() {
    let field = |x: f64, y: f64| [0.0, 0.0, 1e-3 * x - 2e-3 * y, 5e-4, 1e-3];
    constant_state(&system(|_| 0.0), field, [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.5e-3, -1e-3]);
}

/// A plane tilted by half: membrane strain from `u`, `v` and from the deflection along the slope.
#[test]
fn membrane_strain_on_a_steep_slope() {
    let slope = 0.5;
    let field = |x: f64, y: f64| {
        let (wx, wy) = (3e-3, -2e-3);
        [1e-3 * x + 4e-4 * y, -2e-4 * x + 7e-4 * y, wx * x + wy * y, -wx, -wy]
    };
    let strain = [1e-3 + slope * 3e-3, 7e-4, 2e-4 - slope * 2e-3, 0.0, 0.0, 0.0, 0.0, 0.0];
    constant_state(&system(|x| slope * x), field, strain);
}

/// A deep arc turned as a whole, about either axis, is not strained.
#[test]
fn a_deep_arc_turned_as_a_whole_carries_nothing() {
    let height = |x: f64| arc_height(1.0, 0.3, x);
    let system = system(height);
    let grid = &system.model.grid;
    for (about_y, about_x) in [(1e-3, 0.0), (0.0, 1e-3)] {
        let mut u = vec![0.0; system.layout.full + 1];
        for node in 0..grid.nodes() {
            let (x, y) = grid.place(node);
            let turned =
                [-about_y * height(x), -about_x * height(x), about_y * x + about_x * y, -about_y, -about_x];
            u[5 * node..5 * node + 5].copy_from_slice(&turned);
        }
        let force = system.internal_force(&u);
        let largest = force.iter().fold(0.0, |m: f64, f| m.max(f.abs()));
        // Against the force of a strain as large as the turn.
        assert!(largest < 1e-12 * 4.2e7, "{largest}");
    }
}
