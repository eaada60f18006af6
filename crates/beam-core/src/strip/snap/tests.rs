use super::super::shallow::{ShallowEnds, ShallowLoad, shallow_snap};
use super::*;
use approx::assert_relative_eq;

const INCH: f64 = 0.0254;
const KIP: f64 = 4448.2216152605;

/// A flat arch with `E I` 1, half span 1 and this lambda; its radius of gyration.
fn flat(lambda: f64, ends: ArchEnds, hold: Option<f64>) -> (Arch, f64) {
    let rise = 0.01;
    let radius = (1.0 + rise * rise) / (2.0 * rise);
    let gyration: f64 = 1.0 / (lambda * radius);
    let arch = Arch {
        span: si(2.0),
        rise: si(rise),
        axial: si(1.0 / gyration.powi(2)),
        bending: si(1.0),
        shear: si(1e12),
        ends,
        hold: hold.map(si),
    };
    (arch, gyration)
}

fn crown() -> ArchLoad {
    ArchLoad::Point { force: si(1.0), x: si(1.0) }
}

fn even() -> ArchLoad {
    ArchLoad::Uniform(si(1.0))
}

fn scaled(arch: &Arch, load: ArchLoad, gyration: f64) -> Option<f64> {
    let total = arch.snap(&[load], si(0.0)).unwrap()?.total.value;
    Some(match load {
        ArchLoad::Uniform(_) => total / 2.0 / gyration,
        _ => total / gyration,
    })
}

/// Two routes: the chain against the theory of shallow arches.
#[test]
fn chain_agrees_with_shallow_theory() {
    let rows = [
        (ArchEnds::Pinned, crown(), ShallowEnds::Pinned, ShallowLoad::Crown, [4.0, 5.0, 8.0, 20.0]),
        (ArchEnds::Pinned, even(), ShallowEnds::Pinned, ShallowLoad::Even, [4.0, 6.0, 10.0, 30.0]),
        (ArchEnds::Fixed, crown(), ShallowEnds::Fixed, ShallowLoad::Crown, [12.0, 15.0, 25.0, 30.0]),
        (ArchEnds::Fixed, even(), ShallowEnds::Fixed, ShallowLoad::Even, [10.0, 15.0, 20.0, 30.0]),
    ];
    for (ends, load, shallow_ends, shallow_load, lambdas) in rows {
        for lambda in lambdas {
            let (arch, gyration) = flat(lambda, ends, None);
            let found = scaled(&arch, load, gyration).unwrap_or_else(|| panic!("{ends:?} {lambda}"));
            let theory = shallow_snap(shallow_ends, shallow_load, si(lambda)).unwrap().unwrap();
            assert_relative_eq!(found, theory.load.value, max_relative = 3e-3);
        }
    }
}

#[test]
fn nothing_snaps_below_the_thresholds() {
    for (ends, load, lambda) in [
        (ArchEnds::Pinned, crown(), 3.85),
        (ArchEnds::Pinned, even(), 3.82),
        (ArchEnds::Fixed, crown(), 10.9),
        (ArchEnds::Fixed, even(), 9.7),
    ] {
        let (arch, gyration) = flat(lambda, ends, None);
        assert!(scaled(&arch, load, gyration).is_none(), "{ends:?} {load:?}");
        let (arch, gyration) = flat(lambda * 1.05, ends, None);
        assert!(scaled(&arch, load, gyration).is_some(), "{ends:?} {load:?}");
    }
}

/// Springs of `k` at both ends act as a larger radius of gyration, `r sqrt(1 + E A/(k a))`.
#[test]
fn springs_soften() {
    for (ends, shallow) in [(ArchEnds::Pinned, ShallowEnds::Pinned), (ArchEnds::Fixed, ShallowEnds::Fixed)] {
        let (rigid, gyration) = flat(30.0, ends, None);
        let hold = rigid.axial.value / 2.0; // 1 + E A/(k a) = 3
        let arch = Arch { hold: Some(si(hold)), ..rigid };
        let theory =
            shallow_snap(shallow, ShallowLoad::Crown, si(30.0 / 3_f64.sqrt())).unwrap().unwrap().load.value;
        let found = scaled(&arch, crown(), gyration * 3_f64.sqrt()).unwrap();
        assert_relative_eq!(found, theory, max_relative = 3e-3);
        let loose = Arch { hold: Some(si(rigid.axial.value / 1e4)), ..rigid };
        assert!(scaled(&loose, crown(), gyration).is_none());
        assert!(scaled(&Arch { hold: Some(si(0.0)), ..rigid }, crown(), gyration).is_none());
    }
}

/// 1.5 x 1/8 in tube, 84 in, rise 3 in: 1.523 kip by shallow theory; the true arc is a little weaker.
#[test]
fn a_tube_between_firm_walls() {
    let ksi = KIP / (INCH * INCH);
    let arch = Arch {
        span: si(84.0 * INCH),
        rise: si(3.0 * INCH),
        axial: si(10100.0 * ksi * 0.6875 * INCH.powi(2)),
        bending: si(10100.0 * ksi * 0.2184244792 * INCH.powi(4)),
        shear: si(3800.0 * ksi * 0.375 * INCH.powi(2)),
        ends: ArchEnds::Pinned,
        hold: None,
    };
    let crown = ArchLoad::Point { force: si(KIP), x: arch.span / 2.0 };
    let perfect = arch.snap(&[crown], si(0.0)).unwrap().unwrap();
    assert_relative_eq!(perfect.total.value / KIP, 1.523, max_relative = 0.02);
    let lopsided = arch.snap(&[crown], arch.span / 500.0).unwrap().unwrap();
    assert!(lopsided.total < perfect.total);
    assert!(
        arch.solve_large(&[ArchLoad::Point { force: si(1.6 * KIP), x: arch.span / 2.0 }], si(0.0))
            .unwrap()
            .is_none()
    );
    // Off the middle it snaps sooner.
    let aside = ArchLoad::Point { force: si(KIP), x: arch.span / 3.0 };
    assert!(arch.snap(&[aside], si(0.0)).unwrap().unwrap().total < perfect.total);
}

/// Half a circle between pins under a load at its crown sways at `5.86 E I/R^2` (Austin and Ross, 1976, from memory),
/// and fixed parabolic arches of `h/L` 0.1 carry `60.7 E I/L^3` (Timoshenko and Gere, from memory): a shallow arc is
/// almost a parabola.
#[test]
fn deep_arches() {
    let arch = |rise: f64, ends| Arch {
        span: si(2.0),
        rise: si(rise),
        axial: si(1e6),
        bending: si(1.0),
        shear: si(1e9),
        ends,
        hold: None,
    };
    let half = arch(1.0, ArchEnds::Pinned).snap(&[crown()], si(0.0)).unwrap().unwrap();
    assert_relative_eq!(half.total.value, 5.86, max_relative = 0.01);
    assert_eq!(half.kind, SnapKind::Sway);
    // It sways stably: a lopsided one goes on past that load, far to the side.
    let lopsided = arch(1.0, ArchEnds::Pinned).snap(&[crown()], si(0.004)).unwrap().unwrap();
    assert!(lopsided.total > half.total && lopsided.kind == SnapKind::Limit, "{lopsided:?}");
    for (ends, gamma) in [(ArchEnds::Pinned, 28.5), (ArchEnds::Fixed, 60.7)] {
        let found = arch(0.2, ends).snap(&[even()], si(0.0)).unwrap().unwrap();
        assert_relative_eq!(found.total.value / 2.0, gamma / 8.0, max_relative = 0.03);
    }
}

/// A small load: the force method. A larger one: more than in proportion, all the way up.
#[test]
fn sag_grows_faster_than_the_load() {
    for (ends, hold) in [(ArchEnds::Pinned, None), (ArchEnds::Fixed, None), (ArchEnds::Pinned, Some(2e3))] {
        let (arch, _) = flat(12.5, ends, hold);
        let at = |force: f64| ArchLoad::Point { force: si(force), x: si(1.0) };
        let small = arch.solve_large(&[at(1e-5)], si(0.0)).unwrap().unwrap();
        let linear = arch.solve(at(1e-5)).unwrap();
        assert_relative_eq!(small.crown_sag().value, linear.crown_sag().value, max_relative = 2e-3);
        assert_relative_eq!(small.thrust().value, linear.thrust().value, max_relative = 2e-3);
        assert_relative_eq!(small.crown_moment().value, linear.crown_moment().value, max_relative = 4e-3);
        let Some(critical) = arch.snap(&[at(1.0)], si(0.0)).unwrap() else { continue };
        let sags: Vec<f64> = (1..10)
            .map(|i| {
                let state = arch
                    .solve_large(&[at(critical.total.value * f64::from(i) / 10.0)], si(0.0))
                    .unwrap()
                    .unwrap();
                state.crown_sag().value
            })
            .collect();
        for w in sags.windows(3) {
            assert!(w[2] - w[1] > w[1] - w[0], "{ends:?} {sags:?}");
        }
    }
}

#[test]
fn what_cannot_snap_is_named() {
    let (arch, _) = flat(8.0, ArchEnds::Pinned, None);
    assert!(arch.snap(&[], si(0.0)).is_err());
    assert!(arch.snap(&[ArchLoad::Warming(si(1e-3))], si(0.0)).is_err());
    assert!(arch.snap(&[ArchLoad::Point { force: si(-1.0), x: si(1.0) }], si(0.0)).is_err());
    assert!(arch.snap(&[ArchLoad::Point { force: si(1.0), x: si(2.1) }], si(0.0)).is_err());
    assert!(arch.snap(&[crown()], si(f64::NAN)).is_err());
    let roller = Arch { ends: ArchEnds::Roller, ..arch };
    assert!(roller.snap(&[crown()], si(0.0)).unwrap().is_none());
    // A load on the wall bends nothing.
    let on_the_wall = ArchLoad::Point { force: si(1.0), x: si(0.0) };
    assert_eq!(arch.solve_large(&[on_the_wall], si(0.0)).unwrap().unwrap().crown_sag().value, 0.0);
    assert!(arch.snap(&[ArchLoad::Point { force: si(1.0), x: si(0.0) }], si(0.0)).unwrap().is_none());
}
