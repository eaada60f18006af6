//! The condensed panel and the influence of load places against solving the whole roof each time.

use proptest::prelude::*;

use super::super::{
    Along, Bond, BraceLine, Candidate, CondensedPanel, Load, Output, PlateModel, PlateSystem,
};
use super::laws::{roof, tube, unit};
use super::near;

const LINES: [(Along, f64, [f64; 2]); 3] =
    [(Along::X, 0.8, [0.0, 2.4]), (Along::X, 1.6, [0.2, 2.2]), (Along::Y, 1.0, [0.8, 1.6])];

/// The roof with its opening and damage, held down, and no braces.
fn bare() -> PlateModel {
    let mut model = roof();
    model.braces.clear();
    model.supports.hold_down = true;
    model
}

fn outputs(system: &PlateSystem) -> Vec<Output> {
    let cell = system.model().grid.cell_at(0.45, 0.45).unwrap();
    let weights = [1e5, 2e4, 0.0, 3e3, 1e3, 0.0, 1e4, 0.0];
    vec![
        Output::Sag { x: 1.0, y: 0.9 },
        Output::Sag { x: 0.42, y: 0.47 },
        Output::CellStrain { cell, weights },
    ]
}

#[test]
fn candidates_agree_with_solving_each_roof() {
    let panel = PlateSystem::new(bare()).unwrap();
    let lines = LINES.map(|(along, line, ends)| BraceLine { along, line, ends });
    let outputs = outputs(&panel);
    let loads = [panel.load(&unit()[..3]).unwrap(), panel.load(&[Load::Pressure(100.0)]).unwrap()];
    let condensed = CondensedPanel::new(&panel, &lines, &loads, &outputs).unwrap();
    let sets = [
        [Some((Bond::Rigid, 1.0)), None, None],
        [Some((Bond::Rigid, 3.0)), Some((Bond::Slip(2e7), 1.0)), Some((Bond::Rigid, 0.5))],
        [Some((Bond::Loose, 1.0)), Some((Bond::Loose, 10.0)), None],
    ];
    for set in sets {
        let mut model = bare();
        let mut own = Vec::new();
        let candidates: Vec<Option<Candidate>> = LINES
            .iter()
            .zip(set)
            .map(|(&(along, line, ends), choice)| {
                let (bond, stiffer) = choice?;
                let mut brace = tube(line, ends, bond);
                (brace.along, brace.ei) = (along, brace.ei * stiffer);
                own.push(Load::BraceStrain { brace: model.braces.len(), axial: 1e-5, curvature: 2e-3 });
                model.braces.push(brace);
                Some(Candidate { brace, free_axial: 1e-5, free_curvature: 2e-3 })
            })
            .collect();
        let whole = PlateSystem::new(model).unwrap();
        let trials = condensed.with(&candidates).unwrap();
        for (trial, loads) in trials.iter().zip([unit()[..3].to_vec(), vec![Load::Pressure(100.0)]]) {
            let loads: Vec<Load> = loads.into_iter().chain(own.clone()).collect();
            let response = whole.solve(&whole.load(&loads).unwrap()).unwrap();
            near("sag", trial.outputs[0], response.sag(1.0, 0.9).unwrap(), 1e-6);
            near("sag on the damage", trial.outputs[1], response.sag(0.42, 0.47).unwrap(), 1e-6);
            for (brace, forces) in trial.forces.iter().filter(|f| !f.is_empty()).enumerate() {
                let wanted = response.brace(brace);
                assert_eq!(wanted.len(), forces.len());
                let largest = |pick: fn(&super::super::BraceForces) -> f64| {
                    wanted.iter().map(|f| pick(f).abs()).fold(0.0, f64::max)
                };
                let (axial, moment) = (largest(|f| f.axial), largest(|f| f.moment[0]));
                for (found, wanted) in forces.iter().zip(&wanted) {
                    assert!((found.axial - wanted.axial).abs() <= 1e-6 * axial, "{found:?} {wanted:?}");
                    assert!(
                        (found.moment[1] - wanted.moment[1]).abs() <= 1e-5 * moment,
                        "{found:?} {wanted:?}"
                    );
                }
            }
        }
    }
    let without = condensed.with(&[None, None, None]).unwrap();
    let response = panel.solve(&loads[0]).unwrap();
    near("no brace", without[0].outputs[0], response.sag(1.0, 0.9).unwrap(), 1e-9);
}

#[test]
fn one_influence_serves_every_load() {
    let mut model = roof();
    model.supports.hold_down = true;
    let system = PlateSystem::new(model).unwrap();
    let place = |x: f64| Load::Patch { x: [x, x + 0.1], y: [0.4, 0.58], force: 1200.0 };
    let influences: Vec<_> = outputs(&system)
        .iter()
        .chain(&[Output::BraceAxial { brace: 0, piece: 7 }, Output::BraceMoment { brace: 1, piece: 5 }])
        .map(|o| system.influence(o).unwrap())
        .collect();
    for x in [0.1, 0.43, 1.9] {
        let load = system.load(&[place(x), Load::Pressure(50.0)]).unwrap();
        let response = system.solve(&load).unwrap();
        near("sag", influences[0].of(&load), response.sag(1.0, 0.9).unwrap(), 1e-8);
        let cell = response.cell(system.model().grid.cell_at(0.45, 0.45).unwrap()).unwrap().strain;
        let wanted = 1e5 * cell[0] + 2e4 * cell[1] + 3e3 * cell[3] + 1e3 * cell[4] + 1e4 * cell[6];
        near("stress", influences[2].of(&load), wanted, 1e-7);
        near("axial", influences[3].of(&load), response.brace(0)[7].axial, 1e-7);
        let [start, end] = response.brace(1)[5].moment;
        near("moment", influences[4].of(&load), (start + end) / 2.0, 1e-6);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any tube on any of the lines: sag and forces of the condensed panel are those of a roof factorised afresh.
    #[test]
    fn candidates_drawn_at_random_agree_with_fresh_roofs(
        which in (any::<bool>(), any::<bool>()),
        stiff in (0.05..20.0_f64, 0.05..20.0_f64, 0.05..20.0_f64),
        bond in 0usize..3,
        slip in 1e6..1e9_f64,
    ) {
        let panel = PlateSystem::new(bare()).unwrap();
        let lines = LINES.map(|(along, line, ends)| BraceLine { along, line, ends });
        let loads = [panel.load(&unit()[..3]).unwrap()];
        let condensed = CondensedPanel::new(&panel, &lines, &loads, &outputs(&panel)).unwrap();
        let bond = [Bond::Rigid, Bond::Slip(slip), Bond::Loose][bond];
        let mut model = bare();
        let candidates: Vec<Option<Candidate>> = LINES
            .iter()
            .zip([true, which.0, which.1])
            .map(|(&(along, line, ends), present)| {
                let mut brace = tube(line, ends, bond);
                brace.along = along;
                (brace.ea, brace.ei, brace.gas) = (brace.ea * stiff.0, brace.ei * stiff.1, brace.gas * stiff.2);
                present.then(|| {
                    model.braces.push(brace);
                    Candidate { brace, free_axial: 0.0, free_curvature: 0.0 }
                })
            })
            .collect();
        let whole = PlateSystem::new(model).unwrap();
        let fresh = whole.solve(&whole.load(&unit()[..3]).unwrap()).unwrap();
        let trial = &condensed.with(&candidates).unwrap()[0];
        near("sag", trial.outputs[0], fresh.sag(1.0, 0.9).unwrap(), 1e-6);
        let wanted = fresh.brace(0);
        let largest = wanted.iter().map(|f| f.moment[1].abs()).fold(0.0, f64::max);
        for (found, wanted) in trial.forces[0].iter().zip(&wanted) {
            prop_assert!((found.moment[1] - wanted.moment[1]).abs() <= 1e-5 * largest, "{found:?} {wanted:?}");
        }
    }
}
