//! Trimmers between braces, against beams on beams.

use super::super::{Along, Bond, Brace, Grid, Load, PlateModel, PlateSystem, Supports};
use super::laws::{lines, tube};
use super::{near, panel_40};

const SPAN: f64 = 2.4;
const LENGTH: f64 = 1.6;
const FRONT: f64 = 0.4;
const REAR: f64 = 1.2;
const AT: f64 = 0.8;

/// A panel with next to no stiffness on side walls, two braces, and a trimmer between them.
fn soft(braces: Bond) -> PlateSystem {
    let mut laminate = panel_40();
    let none = 1e-7;
    for row in laminate.a.iter_mut().chain(&mut laminate.b).chain(&mut laminate.d) {
        row.iter_mut().for_each(|k| *k *= none);
    }
    laminate.ks = laminate.ks.map(|k| none * k);
    let trimmer = Brace { along: Along::Y, ..tube(AT, [FRONT, REAR], Bond::Jointed) };
    PlateSystem::new(PlateModel {
        grid: Grid::new(lines(SPAN, 24), lines(LENGTH, 16), |_, _| Some(0)).unwrap(),
        laminates: vec![laminate],
        rise: vec![],
        braces: vec![tube(FRONT, [0.0, SPAN], braces), tube(REAR, [0.0, SPAN], braces), trimmer],
        supports: Supports { hold_down: true, ..Supports::side_walls() },
    })
    .unwrap()
}

/// A force in the middle of the trimmer: half to each brace at the trimmer, which sags there by
/// `R a^2 b^2/(3 EI L) + R a b/(GA L)`; the trimmer itself by `P l^3/(48 EI) + P l/(4 GA)` more (beam theory). No
/// moment at its ends, `P l/4` in its middle. Whether the braces may part from the panel changes nothing.
#[test]
fn a_beam_on_two_beams() {
    let force = 800.0;
    for bond in [Bond::Loose, Bond::Resting] {
        let system = soft(bond);
        let load = system.load(&[Load::Point { x: AT, y: (FRONT + REAR) / 2.0, force }]).unwrap();
        let response = system.solve(&load).unwrap();
        let Brace { ei, gas, .. } = tube(0.0, [0.0, 1.0], bond);
        let (b, l, half) = (SPAN - AT, REAR - FRONT, force / 2.0);
        let brace = half * AT * AT * b * b / (3.0 * ei * SPAN) + half * AT * b / (gas * SPAN);
        let own = force * l.powi(3) / (48.0 * ei) + force * l / (4.0 * gas);
        near("sag", response.sag(AT, (FRONT + REAR) / 2.0).unwrap(), brace + own, 1e-4);
        let pieces = response.brace(2);
        let (first, last) = (pieces[0], pieces[pieces.len() - 1]);
        near("front joint", first.shear, half, 1e-4);
        near("rear joint", -last.shear, half, 1e-4);
        near("middle moment", pieces[3].moment[1], force * l / 4.0, 1e-4);
        assert!(first.moment[0].abs() < 1e-4 * force && last.moment[1].abs() < 1e-4 * force, "free ends");
        for number in [0, 1] {
            let pieces = response.brace(number);
            near("left seat", pieces[0].shear, half * b / SPAN, 1e-4);
            near("right seat", -pieces[pieces.len() - 1].shear, half * AT / SPAN, 1e-4);
        }
        let balance = response.balance();
        near("reactions", balance.reactions, force, 1e-8);
        near("energy", balance.stored, balance.work, 1e-6);
    }
}

/// Lifted between its ends the panel leaves the trimmer behind; lifted at a brace that may part, it leaves both.
#[test]
fn a_trimmer_pushes_and_never_pulls() {
    let mut model = soft(Bond::Resting).model().clone();
    model.laminates = vec![panel_40()];
    let alone = PlateSystem::new(PlateModel { braces: vec![], ..model.clone() }).unwrap();
    let with = PlateSystem::new(model).unwrap();
    let sag = |system: &PlateSystem, force: f64| {
        let load = system.load(&[Load::Point { x: AT, y: (FRONT + REAR) / 2.0, force }]).unwrap();
        system.solve(&load).unwrap().sag(AT, (FRONT + REAR) / 2.0).unwrap()
    };
    near("lifted", sag(&with, -800.0), sag(&alone, -800.0), 1e-8);
    assert!(sag(&with, 800.0) < 0.97 * sag(&alone, 800.0), "pressed on, it helps");
}
