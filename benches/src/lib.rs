//! The plate that the benchmarks solve. They live in `benches/` and `examples/`.

use beam_core::plate::{Edge, Grid, PlateLaminate, PlateModel, Supports, graded_lines};

/// 3 mm faces of 7 GPa on 40 mm of foam, 2.0 x 1.25 m, held all round.
pub fn plate(cells: usize) -> PlateModel {
    let size = (2.0 * 1.25 / cells as f64).sqrt();
    let lines = |length| graded_lines(length, &[], size, &[]).expect("a sound size");
    let grid = Grid::new(lines(2.0), lines(1.25), |_, _| Some(0)).expect("a sound grid");
    let (d, nu, a) = (20.7424e3, 0.25, 44.8e6);
    let iso = |s: f64| [[s, nu * s, 0.0], [nu * s, s, 0.0], [0.0, 0.0, (1.0 - nu) / 2.0 * s]];
    let laminate =
        PlateLaminate { a: iso(a), b: [[0.0; 3]; 3], d: iso(d), ks: [115.5625e3; 2], layers: Vec::new() };
    PlateModel {
        grid,
        laminates: vec![laminate],
        rise: Vec::new(),
        braces: Vec::new(),
        supports: Supports { hold_down: true, ..Supports::all_round(Edge::Wall) },
    }
}
