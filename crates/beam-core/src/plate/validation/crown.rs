//! A crowned strip with its walls held apart, against the two-hinged arch.

use super::super::{Load, PlateSystem, Thrust};
use super::{near, strip};

/// A shallow parabolic arch of rise `f` on springs `k` a side, at `e` below the axis, under pressure `q`:
/// `H = (int M0 z/D + int V0 z'/S) / (int z^2/D + int z'^2/S + L/A + 2/k)` with `z = z0 + e`; then
/// `w = M0 part - H part`. (Virtual work on the two-hinged arch; any text on structures.)
fn arch([d, s, a]: [f64; 3], l: f64, f: f64, k: f64, e: f64, q: f64) -> [f64; 2] {
    let work = (q * f * l.powi(3) / 15.0 + e * q * l.powi(3) / 12.0) / d + 2.0 * q * l * f / 3.0 / s;
    let give = (8.0 * f * f * l / 15.0 + 4.0 * f * l * e / 3.0 + e * e * l) / d
        + 16.0 * f * f / (3.0 * l) / s
        + l / a
        + 2.0 / k;
    let h = work / give;
    let parabola = 5.0 * l * l / (48.0 * d) + 1.0 / s;
    let sag = (q * l * l / 8.0 - h * f) * parabola - h * e * l * l / (8.0 * d);
    [h, sag]
}

#[test]
fn two_hinged_arch() {
    let (l, f, q) = (2.3, 0.045, 1000.0);
    let [d, s, a] = [20_742.4, 115_562.5, 4.2e7];
    for (k, e) in [(2e6, 0.0), (2e6, 0.0215), (1e9, 0.0215)] {
        let mut model = strip(l, 1.0, 60, [a, 0.0, d], s);
        model.rise = model.grid.x().iter().map(|x| 4.0 * f * x * (l - x) / (l * l)).collect();
        model.supports.thrust = Some(Thrust { stiffness: k, z: -e });
        let system = PlateSystem::new(model).unwrap();
        let response = system.solve(&system.load(&[Load::Pressure(q)]).unwrap()).unwrap();
        let [h, sag] = arch([d, s, a], l, f, k, e, q);
        let [left, right] = response.thrust().unwrap();
        near("thrust on the left wall", left, h, 2e-3);
        near("thrust on the right wall", right, h, 2e-3);
        near("sag", response.sag(l / 2.0, 0.5).unwrap(), sag, 5e-3);
    }
}

/// Without thrust a shallow arch is a bent beam: the crown changes nothing.
#[test]
fn a_crown_free_to_spread_bends_like_a_flat_strip() {
    let sag = |rise: f64| {
        let mut model = strip(2.3, 1.0, 40, [4.2e7, 0.0, 20_742.4], 115_562.5);
        model.rise = model.grid.x().iter().map(|&x| super::super::arc_height(2.3, rise, x)).collect();
        let system = PlateSystem::new(model).unwrap();
        let response = system.solve(&system.load(&[Load::Pressure(1000.0)]).unwrap()).unwrap();
        assert_eq!(response.thrust(), None);
        response.sag(1.15, 0.5).unwrap()
    };
    near("sag", sag(0.045), sag(0.0), 1e-6);
}

/// So does a crowned strip with a glued brace: their axial forces balance, and with them the crown's effect.
#[test]
fn a_crowned_braced_strip_free_to_spread_bends_like_a_flat_one() {
    let result = |rise: f64| {
        let mut model = strip(2.4, 0.6, 48, [4.2e7, 0.0, 20_742.4], 115_562.5);
        model.rise = model.grid.x().iter().map(|&x| super::super::arc_height(2.4, rise, x)).collect();
        model.braces.push(super::laws::tube(0.3, [0.0, 2.4], super::super::Bond::Rigid));
        let system = PlateSystem::new(model).unwrap();
        let response = system.solve(&system.load(&[Load::Pressure(1000.0)]).unwrap()).unwrap();
        (response.sag(1.2, 0.3).unwrap(), response.brace(0)[23].axial)
    };
    let (flat, crowned) = (result(0.0), result(0.045));
    near("sag", crowned.0, flat.0, 1e-4);
    near("axial", crowned.1, flat.1, 1e-4);
}

/// Height of an arc: rise in the middle, nothing at the ends, radius `L^2/(8 f) + f/2` (geometry of the circle).
#[test]
fn an_arc_keeps_its_radius() {
    let (l, f) = (2.3, 0.045);
    let radius = l * l / (8.0 * f) + f / 2.0;
    for x in [0.0, 0.3, 1.15, 2.0, 2.3] {
        let z = super::super::arc_height(l, f, x);
        near("radius", ((x - l / 2.0).powi(2) + (z + radius - f).powi(2)).sqrt(), radius, 1e-12);
    }
}
