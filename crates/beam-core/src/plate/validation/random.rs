//! Balance on roofs drawn at random: whatever the place of opening, damage, braces and loads.

use proptest::prelude::*;

use super::super::{
    Bond, Edge, Finer, Grid, Load, PlateModel, PlateSystem, Supports, Thrust, arc_height, graded_lines,
};
use super::laws::tube;
use super::{panel_40, sandwich};

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_roof_balances(
        span in 1.8..2.6_f64,
        rise in prop_oneof![Just(0.0), 0.01..0.08_f64],
        opening in (0.3..0.6_f64, 0.3..0.6_f64),
        damage in (0.05..0.9_f64, 0.05..0.9_f64, 1.0..300.0_f64),
        brace in (0.02..0.2_f64, 0usize..4),
        thrust in proptest::option::of(1e5..1e9_f64),
        hold_down in any::<bool>(),
        force in 0.0..2000.0_f64,
    ) {
        let length = 2.0;
        let hole = ([opening.0 * span, opening.0 * span + 0.35], [opening.1 * length, opening.1 * length + 0.35]);
        let patch = ([damage.0 * span, damage.0 * span + 0.2], [damage.1 * length, damage.1 * length + 0.2]);
        let line = brace.0 * length;
        let finer = [Finer { from: patch.0[0], to: patch.0[1], size: 0.05 }];
        let x = graded_lines(span, &[hole.0, patch.0].concat(), 0.15, &finer).unwrap();
        let y = graded_lines(length, &[hole.1.as_slice(), &patch.1, &[line]].concat(), 0.15, &[]).unwrap();
        let inside = |r: &([f64; 2], [f64; 2]), x: f64, y: f64| {
            (r.0[0]..r.0[1]).contains(&x) && (r.1[0]..r.1[1]).contains(&y)
        };
        let zone = |x, y| (!inside(&hole, x, y)).then_some(usize::from(inside(&patch, x, y)));
        let grid = Grid::new(x, y, zone).unwrap();
        let bond = [Bond::Rigid, Bond::Slip(1e7), Bond::Loose, Bond::Resting][brace.1];
        let system = PlateSystem::new(PlateModel {
            rise: grid.x().iter().map(|&x| arc_height(span, rise, x)).collect(),
            grid,
            laminates: vec![panel_40(), sandwich(damage.2, 1e4, 0.25)],
            braces: vec![tube(line, [0.0, span], bond)],
            supports: Supports {
                rear: Edge::Wall,
                hold_down,
                thrust: thrust.map(|stiffness| Thrust { stiffness, z: -0.02 }),
                ..Supports::side_walls()
            },
        })
        .unwrap();
        let load = [
            Load::Pressure(100.0),
            Load::Patch { x: patch.0, y: patch.1, force },
            Load::Ring { x: hole.0, y: hole.1, band: 0.04, force: 450.0, left: 0.6, front: 0.5 },
        ];
        // Where the damage covers nothing but opening there is nothing to stand on.
        if let Ok(load) = system.load(&load) {
            let response = system.solve(&load).unwrap();
            let balance = response.balance();
            prop_assert!((balance.reactions - balance.load).abs() < 1e-6 * balance.load, "{balance:?}");
            prop_assert!((balance.stored - balance.work).abs() < 1e-6 * balance.work, "{balance:?}");
            prop_assert!(balance.residual < 1e-7, "{balance:?}");
            if let Some([left, right]) = response.thrust() {
                prop_assert!((left - right).abs() < 1e-5 * balance.load, "{left} {right}");
            }
            if !hold_down {
                prop_assert!(response.reactions().iter().all(|(_, r)| *r > -1e-6 * balance.load));
            }
        }
    }
}
