//! A square opening without a frame: rows OP1 and OP2, a second-order Mindlin finite element solution on three
//! meshes, extrapolated (computed independently).

use super::super::{Edge, Finer, Grid, Load, PlateModel, PlateSystem, Supports, graded_lines};
use super::{near, panel_40};

#[test]
fn unframed_opening_under_pressure() {
    let (hole, middle) = (0.178, [1.15, 1.2]);
    let axis = |length: f64, centre: f64| {
        let (from, to) = (centre - hole, centre + hole);
        let finer = [from, to].map(|c| Finer { from: c - 0.01, to: c + 0.01, size: 0.01 });
        graded_lines(length, &[from, centre, to], 0.07, &finer).unwrap()
    };
    let inside = |x: f64, y: f64| (x - middle[0]).abs() < hole && (y - middle[1]).abs() < hole;
    let grid =
        Grid::new(axis(2.3, middle[0]), axis(2.4, middle[1]), |x, y| (!inside(x, y)).then_some(0)).unwrap();
    let system = PlateSystem::new(PlateModel {
        grid,
        laminates: vec![panel_40()],
        rise: vec![],
        braces: vec![],
        supports: Supports::all_round(Edge::Hard),
    })
    .unwrap();
    let response = system.solve(&system.load(&[Load::Pressure(1000.0)]).unwrap()).unwrap();
    near("OP1, edge facing x", response.sag(middle[0] + hole, middle[1]).unwrap(), 9.9178e-3, 0.002);
    near("OP2, corner", response.sag(middle[0] + hole, middle[1] + hole).unwrap(), 9.5555e-3, 0.002);
    assert_eq!(response.sag(1.15, 1.2), None);
}
