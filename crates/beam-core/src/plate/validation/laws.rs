//! Laws that hold whatever the roof: balance, energy, reciprocity, symmetry, one-way supports, states.

use super::super::{
    Along, Bond, Brace, Edge, Grid, Load, PlateError, PlateModel, PlateSystem, Supports, Thrust, arc_height,
};
use super::{near, panel_40, sandwich, strip};

pub(super) fn lines(length: f64, cells: usize) -> Vec<f64> {
    (0..=cells).map(|i| length * i as f64 / cells as f64).collect()
}

pub(super) fn tube(line: f64, ends: [f64; 2], bond: Bond) -> Brace {
    Brace {
        along: Along::X,
        line,
        ends,
        ea: 1.2e7,
        ei: 1660.0,
        gas: 3.4e6,
        gj: 500.0,
        z_axis: -0.0357,
        z_glue: -0.023,
        bond,
    }
}

/// A crowned roof with an opening, a damaged zone, a bonded, a bedded and a loose brace, and a trimmer.
pub(super) fn roof() -> PlateModel {
    let (width, length) = (2.4, 2.4);
    let grid = Grid::new(lines(width, 24), lines(length, 24), |x, y| {
        let opening = (x - 1.2).abs() < 0.2 && (y - 1.2).abs() < 0.2;
        let damage = x < 0.8 && y < 0.8;
        (!opening).then_some(usize::from(damage))
    })
    .unwrap();
    let one_skin = {
        let mut weak = sandwich(60.0, 20_000.0, 0.25);
        for i in 0..3 {
            for j in 0..3 {
                weak.a[i][j] *= 0.5;
                weak.b[i][j] = weak.a[i][j] * 0.0215;
                weak.d[i][j] += weak.a[i][j] * 0.0215 * 0.0215;
            }
        }
        weak
    };
    let mut trimmer = tube(1.0, [0.8, 1.6], Bond::Rigid);
    trimmer.along = Along::Y;
    PlateModel {
        rise: grid.x().iter().map(|&x| arc_height(width, 0.045, x)).collect(),
        grid,
        laminates: vec![panel_40(), one_skin],
        braces: vec![
            tube(0.8, [0.0, 2.4], Bond::Rigid),
            tube(1.6, [0.2, 2.2], Bond::Slip(2e7)),
            tube(0.4, [0.0, 1.2], Bond::Loose),
            trimmer,
        ],
        supports: Supports { rear: Edge::Wall, ..Supports::side_walls() },
    }
}

pub(super) fn unit() -> Vec<Load> {
    vec![
        Load::Pressure(80.0),
        Load::Ring { x: [1.0, 1.4], y: [1.0, 1.4], band: 0.05, force: 450.0, left: 0.6, front: 0.4 },
        Load::Patch { x: [0.33, 0.51], y: [0.42, 0.52], force: 1200.0 },
        Load::OnBrace { brace: 0, force: 30.0 },
    ]
}

#[test]
fn reactions_balance_the_load_and_energy_its_work() {
    let system = PlateSystem::new(roof()).unwrap();
    let response = system.solve(&system.load(&unit()).unwrap()).unwrap();
    let balance = response.balance();
    let area = 2.4 * 2.4 - 0.4 * 0.4;
    near("load", balance.load, 80.0 * area + 450.0 + 1200.0 + 30.0, 1e-12);
    near("reactions", balance.reactions, balance.load, 1e-9);
    near("energy", balance.stored, balance.work, 1e-9);
    assert!(balance.residual < 1e-9, "{balance:?}");
}

/// Forces at the contacts alone against forces everywhere, a member that lies against the panel included.
#[test]
fn contacts_feel_what_every_element_says() {
    let mut model = roof();
    model.braces.push(tube(2.0, [0.0, 2.4], Bond::Resting));
    let system = PlateSystem::new(model).unwrap();
    let (layout, matrices) = (&system.layout, &system.matrices);
    let contacts = &layout.supports.one_way;
    assert!(contacts.iter().any(|&c| c >= 5 * system.model.grid.nodes()), "no gap of a member");
    let mut u: Vec<f64> = (0..layout.full).map(|k| (0.7 * k as f64).sin()).collect();
    u.push(0.0);
    let everywhere = system.internal_force(&u);
    let largest = everywhere.iter().fold(0.0, |m: f64, f| m.max(f.abs()));
    for (&contact, force) in contacts.iter().zip(layout.contact_force(matrices, &u)) {
        assert!((force - everywhere[contact]).abs() < 1e-12 * largest, "at {contact}");
    }
    let moves: Vec<(usize, f64)> = (0..contacts.len()).map(|k| (k, 1e-3 * k as f64)).collect();
    let mut moved = vec![0.0; layout.full + 1];
    moves.iter().for_each(|&(k, by)| moved[contacts[k]] = by);
    let wanted = system.internal_force(&moved);
    let largest = wanted.iter().fold(0.0, |m: f64, f| m.max(f.abs()));
    let mut found = vec![0.0; wanted.len()];
    layout.force_of_contacts(matrices, moves.iter().copied(), |full, force| found[full] += force);
    for (force, wanted) in found.iter().zip(&wanted) {
        assert!((force - wanted).abs() < 1e-12 * largest);
    }
}

/// The whole way from elements to factor against a plain dense Cholesky of the element matrices added up here.
#[test]
fn a_plain_cholesky_agrees() {
    let mut model = roof();
    let l = lines(2.4, 12);
    let zones = model.grid.clone();
    model.grid = Grid::new(l.clone(), l, |x, y| zones.zone(zones.cell_at(x, y).unwrap())).unwrap();
    model.rise = model.grid.x().iter().map(|&x| arc_height(2.4, 0.045, x)).collect();
    model.supports.hold_down = true;
    let system = PlateSystem::new(model).unwrap();
    let layout = &system.layout;
    // Column by column through the forces, so that neither pattern nor scatter takes part.
    let numbering = layout.numbering();
    let n = numbering.full_of.len();
    let mut k = nalgebra::DMatrix::zeros(n, n);
    for column in 0..n {
        let mut u = vec![0.0; layout.full + 1];
        u[numbering.full_of[column] as usize] = 1.0;
        let force = numbering.unknown_part(&system.internal_force(&u));
        k.set_column(column, &nalgebra::DVector::from_vec(force));
    }
    let load = system.load(&unit()).unwrap();
    let right =
        nalgebra::DVector::from_iterator(n, numbering.full_of.iter().map(|f| load.force.at(*f as usize)));
    let plain = k.cholesky().unwrap().solve(&right);
    let plain = numbering.full_vector(plain.as_slice());
    let response = system.solve(&load).unwrap();
    let worst = response.worst_sag().0;
    for node in 0..system.model.grid.nodes() {
        if let Some(sag) = response.sag_at_node(node) {
            assert!((sag + plain[5 * node + 2]).abs() < 1e-9 * worst, "node {node}: {sag}");
        }
    }
}

/// Maxwell: the sag at B under a force at A is the sag at A under that force at B.
#[test]
fn reciprocity() {
    let mut model = roof();
    model.supports.hold_down = true;
    let system = PlateSystem::new(model).unwrap();
    let places = [(0.55, 0.43), (1.73, 1.91)];
    let sag = |at: (f64, f64), seen: (f64, f64)| {
        let load = system.load(&[Load::Point { x: at.0, y: at.1, force: 1000.0 }]).unwrap();
        system.solve(&load).unwrap().sag(seen.0, seen.1).unwrap()
    };
    near("sag", sag(places[0], places[1]), sag(places[1], places[0]), 1e-8);
}

#[test]
fn a_mirrored_roof_sags_in_mirror() {
    let model = roof();
    let mut mirrored = model.clone();
    let columns = model.grid.x().len() - 1;
    mirrored.grid = Grid::new(model.grid.x().to_vec(), model.grid.y().to_vec(), |x, y| {
        model.grid.zone(model.grid.cell_at(2.4 - x, y).unwrap())
    })
    .unwrap();
    for brace in &mut mirrored.braces {
        match brace.along {
            Along::X => brace.ends = [2.4 - brace.ends[1], 2.4 - brace.ends[0]],
            Along::Y => brace.line = 2.4 - brace.line,
        }
    }
    let load = |x: f64| {
        [Load::Pressure(80.0), Load::Patch { x: [x - 0.09, x + 0.09], y: [0.42, 0.52], force: 1200.0 }]
    };
    let (a, b) = (PlateSystem::new(model).unwrap(), PlateSystem::new(mirrored).unwrap());
    let left = a.solve(&a.load(&load(0.42)).unwrap()).unwrap();
    let right = b.solve(&b.load(&load(1.98)).unwrap()).unwrap();
    for j in 0..=24 {
        for i in 0..=columns {
            let (one, other) = (
                left.sag_at_node(a.model.grid.node(i, j)),
                right.sag_at_node(b.model.grid.node(columns - i, j)),
            );
            let (Some(one), Some(other)) = (one, other) else {
                assert_eq!(one, other);
                continue;
            };
            assert!((one - other).abs() < 1e-9 * left.worst_sag().0, "{i} {j}: {one} {other}");
        }
    }
}

/// A flat roof turned by a quarter: what was a brace is a trimmer, and nothing else changes.
#[test]
fn a_trimmer_is_a_brace_turned() {
    let model = |turned: bool| {
        let mut brace = tube(0.8, [0.2, 1.8], Bond::Slip(1e7));
        let mut laminate = panel_40();
        laminate.d[0][0] *= 1.5;
        laminate.ks[0] *= 0.8;
        let (mut width, mut length) = (2.0, 1.6);
        if turned {
            brace.along = Along::Y;
            (width, length) = (length, width);
            laminate.d[1][1] = laminate.d[0][0];
            laminate.d[0][0] /= 1.5;
            laminate.ks.swap(0, 1);
        }
        PlateModel {
            grid: Grid::new(
                lines(width, (width * 10.0).round() as usize),
                lines(length, (length * 10.0).round() as usize),
                |_, _| Some(0),
            )
            .unwrap(),
            laminates: vec![laminate],
            rise: vec![],
            braces: vec![brace],
            supports: Supports { hold_down: true, ..Supports::all_round(Edge::Wall) },
        }
    };
    let (a, b) = (PlateSystem::new(model(false)).unwrap(), PlateSystem::new(model(true)).unwrap());
    let point = |x, y| Load::Point { x, y, force: 900.0 };
    let straight = a.solve(&a.load(&[point(0.7, 0.5)]).unwrap()).unwrap();
    let turned = b.solve(&b.load(&[point(0.5, 0.7)]).unwrap()).unwrap();
    near("sag", turned.sag(0.8, 1.1).unwrap(), straight.sag(1.1, 0.8).unwrap(), 1e-8);
    for (one, other) in straight.brace(0).iter().zip(turned.brace(0)) {
        assert!((one.axial - other.axial).abs() < 1e-6 * 900.0);
        assert!((one.moment[0] - other.moment[0]).abs() < 1e-6 * 900.0);
    }
}

/// Where the reference plane lies is a matter of bookkeeping: shifted with everything on it, nothing changes.
#[test]
fn the_reference_plane_may_lie_anywhere() {
    let shift = 0.031;
    let thrust = |z: f64| Some(Thrust { stiffness: 3e6, z });
    let mut model = roof();
    model.supports.thrust = thrust(-0.0215);
    let mut shifted = model.clone();
    shifted.supports.thrust = thrust(-0.0215 - shift);
    for laminate in &mut shifted.laminates {
        for i in 0..3 {
            for j in 0..3 {
                let (a, b) = (laminate.a[i][j], laminate.b[i][j]);
                laminate.b[i][j] = b - shift * a;
                laminate.d[i][j] += shift * (shift * a - 2.0 * b);
            }
        }
    }
    for brace in &mut shifted.braces {
        brace.z_axis -= shift;
        brace.z_glue -= shift;
    }
    let (a, b) = (PlateSystem::new(model).unwrap(), PlateSystem::new(shifted).unwrap());
    let load = a.load(&unit()).unwrap();
    let (here, there) = (a.solve(&load).unwrap(), b.solve(&load).unwrap());
    near("sag", there.worst_sag().0, here.worst_sag().0, 1e-8);
    near("thrust", there.thrust().unwrap()[0], here.thrust().unwrap()[0], 1e-7);
    near("brace", there.brace(0)[11].axial, here.brace(0)[11].axial, 1e-7);
}

#[test]
fn a_stiff_bed_is_a_rigid_bond() {
    let sag = |bond: Bond| {
        let mut model = roof();
        model.braces = vec![tube(0.8, [0.0, 2.4], bond)];
        let system = PlateSystem::new(model).unwrap();
        system.solve(&system.load(&unit()).unwrap()).unwrap().worst_sag().0
    };
    near("sag", sag(Bond::Slip(1e13)), sag(Bond::Rigid), 1e-4);
    assert!(sag(Bond::Slip(1e6)) > sag(Bond::Rigid) && sag(Bond::Loose) > sag(Bond::Slip(1e6)));
}

#[test]
fn walls_that_push_up_only_let_the_corners_rise() {
    let mut model = roof();
    model.supports = Supports::all_round(Edge::Wall);
    let held = PlateSystem::new(PlateModel {
        supports: Supports { hold_down: true, ..model.supports.clone() },
        ..model.clone()
    })
    .unwrap();
    let free = PlateSystem::new(model).unwrap();
    let load = free.load(&unit()).unwrap();
    let (held, open) = (held.solve(&load).unwrap(), free.solve(&load).unwrap());
    assert!(held.reactions().iter().any(|(_, r)| *r < -1.0), "nothing pulls: the case tests nothing");
    for ((x, y), reaction) in open.reactions() {
        let rise = -open.sag(x, y).unwrap();
        assert!(reaction > -1e-5 && rise > -1e-12, "({x}, {y}): {reaction} N, risen {rise} m");
        assert!(reaction.abs() < 1e-5 || rise.abs() < 1e-12, "({x}, {y}): {reaction} N, risen {rise} m");
    }
    assert!(open.worst_sag().0 > held.worst_sag().0);
    near("reactions", open.balance().reactions, held.balance().load, 1e-8);
}

#[test]
fn a_roof_without_hold_down_lifts_off() {
    let system = PlateSystem::new(roof()).unwrap();
    let error = system.solve(&system.load(&[Load::Pressure(-100.0)]).unwrap()).unwrap_err();
    assert!(matches!(error, PlateError::LiftsOff { .. }), "{error}");
    // Its own weight outweighs a smaller wind.
    let load = system.load(&[Load::Pressure(80.0), Load::Pressure(-60.0)]).unwrap();
    assert!(system.solve(&load).unwrap().worst_sag().0 > 0.0);
}

/// A prop in the middle of a strip: `R = 5 q L/8` for bending alone, `q L (5 + 12 r)/(8 (1 + 3 r))`, `r = 4 D/(S L^2)`,
/// with shear (force method on the propped beam); under uplift it lets go.
#[test]
fn a_prop_pushes_and_never_pulls() {
    let (l, d, s, q) = (2.4, 20_742.4, 115_562.5, 1000.0);
    let mut model = strip(l, 1.0, 48, [4.2e7, 0.0, d], s);
    let plain = PlateSystem::new(model.clone()).unwrap();
    model.supports.props = vec![[1.2, 0.0], [1.2, 0.5], [1.2, 1.0]];
    let propped = PlateSystem::new(model).unwrap();
    let down = propped.load(&[Load::Pressure(q)]).unwrap();
    let response = propped.solve(&down).unwrap();
    let push: f64 =
        response.reactions().iter().filter(|((x, _), _)| (x - 1.2).abs() < 1e-9).map(|(_, r)| r).sum();
    let free = 5.0 * q * l.powi(4) / (384.0 * d) + q * l * l / (8.0 * s);
    near("push of the props", push, free / (l.powi(3) / (48.0 * d) + l / (4.0 * s)), 2e-3);
    let up = propped.solve(&down.clone().scaled(-1.0)).unwrap();
    let alone = plain.solve(&plain.load(&[Load::Pressure(-q)]).unwrap()).unwrap();
    near("rise", up.sag(1.2, 0.5).unwrap(), alone.sag(1.2, 0.5).unwrap(), 1e-8);
}

/// A tube under a strip that is pushed down at its quarter and lifted at its middle: where they part, the tube
/// carries nothing across; where they touch, it pushes up. Pulled up as a whole, the strip is alone.
#[test]
fn a_resting_tube_pushes_and_never_pulls() {
    let with = |bond: Option<Bond>| {
        let mut model = strip(2.4, 0.4, 48, [4.2e7, 0.0, 2000.0], 115_562.5);
        model.braces.extend(bond.map(|b| tube(0.2, [0.0, 2.4], b)));
        PlateSystem::new(model).unwrap()
    };
    let (alone, loose, resting) = (with(None), with(Some(Bond::Loose)), with(Some(Bond::Resting)));
    let sag = |system: &PlateSystem, loads: &[Load]| {
        system.solve(&system.load(loads).unwrap()).unwrap().sag(1.2, 0.2).unwrap()
    };
    near("down", sag(&resting, &[Load::Pressure(900.0)]), sag(&loose, &[Load::Pressure(900.0)]), 1e-9);
    near("up", sag(&resting, &[Load::Pressure(-900.0)]), sag(&alone, &[Load::Pressure(-900.0)]), 1e-8);

    let point = |x: f64, force: f64| Load::Point { x, y: 0.2, force };
    let load = resting.load(&[point(0.5, 900.0), point(1.5, -500.0)]).unwrap();
    let response = resting.solve(&load).unwrap();
    let gaps = response.gaps(0);
    assert!(gaps.iter().all(|(_, g)| *g > -1e-12));
    let pieces = response.brace(0);
    let (mut touching, mut parted) = (0, 0);
    for (k, pair) in pieces.windows(2).enumerate() {
        // What the panel puts on the tube at the line between two pieces is the step of the shear.
        let onto_tube = pair[0].shear - pair[1].shear;
        let gap = gaps[k + 1].1;
        assert!(onto_tube > -1e-5, "the tube pulls with {onto_tube} N at {}", pair[0].span[1]);
        assert!(gap < 1e-12 || onto_tube.abs() < 1e-5, "{gap} m and {onto_tube} N");
        touching += usize::from(onto_tube > 1e-3);
        parted += usize::from(gap > 1e-9);
    }
    assert!(touching > 0 && parted > 0, "{touching} touching, {parted} parted");
}

#[test]
fn another_state_shares_the_numbering_and_nothing_else() {
    let model = roof();
    let system = PlateSystem::new(model.clone()).unwrap();
    let mut laminates = model.laminates.clone();
    laminates[1].ks = [5_000.0; 2];
    let mut braces = model.braces.clone();
    braces[0].ei *= 0.9;
    let again = system.with_state(laminates.clone(), braces.clone()).unwrap();
    let fresh = PlateSystem::new(PlateModel { laminates, braces: braces.clone(), ..model.clone() }).unwrap();
    let sag = |s: &PlateSystem| s.solve(&s.load(&unit()).unwrap()).unwrap().worst_sag().0;
    near("sag", sag(&again), sag(&fresh), 1e-12);
    assert!((sag(&again) / sag(&system) - 1.0).abs() > 1e-3);
    braces[1].bond = Bond::Rigid;
    assert!(matches!(system.with_state(model.laminates, braces), Err(PlateError::OtherLayout { .. })));
}

#[test]
fn many_loads_at_once_are_each_load_alone() {
    let system = PlateSystem::new(roof()).unwrap();
    let cases: Vec<Vec<Load>> = (0..40)
        .map(|k| {
            let x = 0.05 + 0.055 * f64::from(k);
            vec![Load::Pressure(80.0), Load::Point { x, y: 0.37, force: 500.0 }]
        })
        .collect();
    let together = system.solve_each(&cases, |_, r| r.worst_sag().0).unwrap();
    assert_eq!(together.len(), cases.len());
    for (case, sag) in cases.iter().zip(together) {
        let alone = system.solve(&system.load(case).unwrap()).unwrap();
        near("sag", sag, alone.worst_sag().0, 1e-10);
    }
    let wrong = vec![vec![Load::Pressure(80.0)], vec![Load::Pressure(f64::NAN)]];
    assert!(matches!(system.solve_each(&wrong, |_, _| ()), Err(PlateError::BadNumber { .. })));
}

#[test]
fn what_cannot_be_is_refused_by_name() {
    let refused = |change: &dyn Fn(&mut PlateModel)| {
        let mut model = roof();
        change(&mut model);
        PlateSystem::new(model).unwrap_err()
    };
    assert!(matches!(refused(&|m| m.laminates[0].ks[0] = 0.0), PlateError::BadNumber { .. }));
    assert!(matches!(refused(&|m| m.laminates[1].d[1][1] = f64::NAN), PlateError::BadNumber { .. }));
    assert!(matches!(refused(&|m| m.braces[0].line = 0.83), PlateError::OffTheGrid { .. }));
    assert!(matches!(refused(&|m| m.braces[0].line = 1.2), PlateError::NoPanel { .. }));
    assert!(matches!(refused(&|m| m.rise = vec![0.0; 3]), PlateError::BadNumber { .. }));
    let standing_free = Supports { left: Edge::Free, rear: Edge::Free, ..Supports::side_walls() };
    assert!(matches!(refused(&|m| m.supports = standing_free.clone()), PlateError::NotStable { .. }));
    let system = PlateSystem::new(roof()).unwrap();
    let into_the_hole = Load::Patch { x: [1.1, 1.3], y: [1.1, 1.3], force: 100.0 };
    assert!(matches!(system.load(&[into_the_hole]), Err(PlateError::NoPanel { .. })));
    assert!(system.load(&[Load::Pressure(f64::INFINITY)]).is_err());
    assert!(system.load(&[Load::Point { x: 9.0, y: 0.0, force: 1.0 }]).is_err());
}
