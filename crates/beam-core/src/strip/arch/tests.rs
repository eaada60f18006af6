use super::*;
use approx::assert_relative_eq;

const INCH: f64 = 0.0254;
const KIP: f64 = 4448.2216152605;

/// Square tube with 1/8 in walls, E 10100, G 3800 ksi, As = 2 b t; inches and kips.
fn tube_arch(side: f64, span: f64, rise: f64, ends: ArchEnds, hold: Option<f64>) -> Arch {
    let ksi = KIP / (INCH * INCH);
    let hole = side - 0.25;
    Arch {
        span: si(span * INCH),
        rise: si(rise * INCH),
        axial: si(10100.0 * ksi * (side * side - hole * hole) * INCH * INCH),
        bending: si(10100.0 * ksi * (side.powi(4) - hole.powi(4)) / 12.0 * INCH.powi(4)),
        shear: si(3800.0 * ksi * 2.0 * side * 0.125 * INCH * INCH),
        ends,
        hold: hold.map(|k| si(k * KIP / INCH)),
    }
}

fn crown(span: f64) -> ArchLoad {
    ArchLoad::Point { force: si(0.3 * KIP), x: si(span / 2.0 * INCH) }
}

fn even() -> ArchLoad {
    ArchLoad::Uniform(si(0.004 * KIP / INCH))
}

/// Thrust, crown moment, end moment (kip, in): ARCH rows, worked by the force method to 30 digits.
fn numbers(state: &ArchState) -> [f64; 4] {
    [
        state.thrust().value / KIP,
        state.crown_moment().value / (KIP * INCH),
        state.end_moments()[0].value / (KIP * INCH),
        state.crown_sag().value / INCH,
    ]
}

#[test]
fn arches_worked_to_many_digits() {
    use ArchEnds::{Fixed, Pinned, Roller};
    let p = crown;
    let w = |_: f64| even();
    type Load = fn(f64) -> ArchLoad;
    type Row = (f64, f64, f64, ArchEnds, Option<f64>, Load, [f64; 4]);
    let rows: [Row; 22] = [
        (1.5, 84.0, 3.0, Pinned, None, p, [1.53712882683, 1.68861351951, 0.0, 0.143544827891]),
        (1.5, 84.0, 3.0, Pinned, Some(5.0), p, [0.505074358851, 4.78477692345, 0.0, 1.17869730347]),
        (1.5, 84.0, 3.0, Pinned, Some(1.0), p, [0.137037395585, 5.88888781324, 0.0, 1.54783903527]),
        (1.5, 84.0, 3.0, Roller, None, p, [0.0, 6.3, 0.0, 1.68528778792]),
        (1.5, 84.0, 3.0, Fixed, None, p, [1.41033397208, 1.74405904626, -0.324939037483, 0.14058869726]),
        (1.5, 84.0, 3.0, Pinned, None, w, [1.10227399685, 0.221178009461, 0.0, 0.0737374927192]),
        (1.5, 84.0, 3.0, Fixed, None, w, [0.84490238278, 0.333722834257, -0.659570017403, 0.0677370590768]),
        (1.5, 84.0, 6.0, Pinned, None, p, [0.803432189769, 1.47940686138, 0.0, 0.0698993881677]),
        (1.5, 84.0, 6.0, Roller, None, p, [0.0, 6.3, 0.0, 1.690254971]),
        (1.5, 84.0, 6.0, Pinned, Some(1.0), p, [0.2197686343, 4.981388194, 0.0, 1.247027356]),
        (1.5, 84.0, 6.0, Pinned, None, w, [0.5767356942, 0.06758583505, 0.0, 0.02034436624]),
        (1.5, 84.0, 6.0, Fixed, None, w, [0.5369875626, 0.1119087317, -0.194165893, 0.02236046317]),
        (2.0, 96.0, 4.0, Pinned, None, p, [1.3136152083, 1.94553916679, 0.0, 0.087785608227]),
        (2.0, 96.0, 4.0, Fixed, None, p, [1.195203781, 2.013242699, -0.4059421777, 0.08567041133]),
        (2.0, 96.0, 4.0, Pinned, Some(5.0), p, [0.3721928394, 5.711228643, 0.0, 0.7396765072]),
        (2.0, 96.0, 4.0, Pinned, Some(1.0), p, [0.09625691007, 6.81497236, 0.0, 0.9307492147]),
        (2.0, 96.0, 4.0, Pinned, None, w, [1.076731226, 0.3010750976, 0.0, 0.05194757919]),
        (2.0, 96.0, 4.0, Fixed, None, w, [0.819315746, 0.4482563084, -0.8824807074, 0.04734933698]),
        (1.0, 84.0, 2.0, Pinned, None, p, [2.31826113792, 1.66347772415, 0.0, 0.516316320984]),
        (1.0, 84.0, 2.0, Fixed, None, p, [2.162116753, 1.710533061, -0.2652334316, 0.5089384746]),
        (1.0, 84.0, 2.0, Roller, None, p, [0.0, 6.3, 0.0, 6.4479636]),
        (1.0, 84.0, 2.0, Pinned, Some(5.0), p, [1.049909077, 4.200181846, 0.0, 3.76160087]),
    ];
    for (side, span, rise, ends, hold, load, expected) in rows {
        let state = tube_arch(side, span, rise, ends, hold).solve(load(span)).unwrap();
        for (got, wanted) in numbers(&state).into_iter().zip(expected) {
            assert_relative_eq!(got, wanted, max_relative = 3e-8, epsilon = 1e-9);
        }
    }
}

/// Load at the quarter point: thrust, moment under the load and at the far quarter (ARCH q rows).
#[test]
fn load_at_the_quarter() {
    for (side, span, rise, thrust, near, far) in [
        (1.5, 84.0, 3.0, 1.09584425662, 2.25621347909, -0.893786520907),
        (1.5, 84.0, 6.0, 0.573621178, 2.130668851, -1.019331149),
        (1.0, 84.0, 2.0, 1.652182972, 2.245322217, -0.9046777834),
    ] {
        let arch = tube_arch(side, span, rise, ArchEnds::Pinned, None);
        let at = arch.span / 4.0;
        let state = arch.solve(ArchLoad::Point { force: si(0.3 * KIP), x: at }).unwrap();
        let moment = |x| state.moment_at(x).unwrap().value / (KIP * INCH);
        assert_relative_eq!(state.thrust().value / KIP, thrust, max_relative = 1e-8);
        assert_relative_eq!(moment(at), near, max_relative = 1e-8);
        assert_relative_eq!(moment(at * 3.0), far, max_relative = 1e-8);
        assert!(state.moment_at(arch.span * 1.1).is_none());
    }
}

/// 60 F of warmth at 13e-6 between pins (ARCH T rows), and the same as a movement of the ends.
#[test]
fn warmth_and_spread() {
    for (side, span, rise, thrust) in [(1.5, 84.0, 3.0, 0.334704225), (2.0, 96.0, 4.0, 0.473502574)] {
        let arch = tube_arch(side, span, rise, ArchEnds::Pinned, None);
        let warm = arch.solve(ArchLoad::Warming(si(13e-6 * 60.0))).unwrap();
        assert_relative_eq!(warm.thrust().value / KIP, thrust, max_relative = 1e-8);
        assert!(warm.crown_sag().value < 0.0);
        let spread = arch.solve(ArchLoad::Spread(arch.span * (13e-6 * 60.0))).unwrap();
        assert_relative_eq!(spread.thrust().value, -warm.thrust().value, max_relative = 1e-12);
        assert!(spread.crown_sag().value > 0.0);
    }
}

/// Half circles that hardly shorten or shear (Timoshenko, Strength of Materials; Roark; from memory).
#[test]
fn half_circles() {
    let half = |ends| Arch {
        span: si(2.0),
        rise: si(1.0),
        axial: si(1e13),
        bending: si(1.0),
        shear: si(1e13),
        ends,
        hold: None,
    };
    let p = ArchLoad::Point { force: si(1.0), x: si(1.0) };
    let w = ArchLoad::Uniform(si(1.0));
    let pinned = half(ArchEnds::Pinned).solve(p).unwrap();
    assert_relative_eq!(pinned.thrust().value, std::f64::consts::FRAC_1_PI, max_relative = 1e-9);
    assert_relative_eq!(pinned.crown_sag().value, 0.018942302, max_relative = 1e-7);
    let fixed = half(ArchEnds::Fixed).solve(p).unwrap();
    assert_relative_eq!(fixed.thrust().value, 0.4591384926, max_relative = 1e-9);
    assert_relative_eq!(fixed.end_moments()[0].value, 0.1106065288, max_relative = 1e-8);
    assert_relative_eq!(fixed.crown_moment().value, 0.1514680362, max_relative = 1e-8);
    assert_relative_eq!(fixed.crown_sag().value, 0.01166179918, max_relative = 1e-7);
    let even = half(ArchEnds::Pinned).solve(w).unwrap();
    assert_relative_eq!(even.thrust().value, 0.4244131816, max_relative = 1e-9);
    assert_relative_eq!(
        half(ArchEnds::Fixed).solve(w).unwrap().thrust().value,
        0.5601171834,
        max_relative = 1e-9
    );
}

/// Shallow arches that hardly shorten: `25 PL/128 h`, `15 PL/64 h`, `PL/32`, `3 PL/64` (handbooks, from memory).
#[test]
fn shallow_limits() {
    let arch = |ends| Arch {
        span: si(1.0),
        rise: si(0.002),
        axial: si(1e15),
        bending: si(1.0),
        shear: si(1e15),
        ends,
        hold: None,
    };
    let p = ArchLoad::Point { force: si(1.0), x: si(0.5) };
    let scaled = |state: ArchState| state.thrust().value * 0.002;
    assert_relative_eq!(scaled(arch(ArchEnds::Pinned).solve(p).unwrap()), 0.1953125, max_relative = 1e-4);
    let fixed = arch(ArchEnds::Fixed).solve(p).unwrap();
    assert_relative_eq!(scaled(fixed), 0.234375, max_relative = 1e-4);
    assert_relative_eq!(fixed.end_moments()[1].value, 1.0 / 32.0, max_relative = 1e-4);
    assert_relative_eq!(fixed.crown_moment().value, 3.0 / 64.0, max_relative = 1e-4);
}

#[test]
fn what_is_no_arch_is_named() {
    let good = tube_arch(1.5, 84.0, 3.0, ArchEnds::Pinned, None);
    assert_relative_eq!(good.radius().unwrap().value / INCH, 295.5, max_relative = 1e-12);
    for bad in [
        Arch { rise: si(0.0), ..good },
        Arch { rise: good.span, ..good },
        Arch { axial: si(f64::NAN), ..good },
        Arch { hold: Some(si(-1.0)), ..good },
    ] {
        assert!(bad.solve(even()).is_err());
    }
    assert!(good.solve(ArchLoad::Point { force: si(1.0), x: good.span * 1.01 }).is_err());
    assert!(good.solve(ArchLoad::Spread(si(f64::INFINITY))).is_err());
    // No sideways hold at all: the thrust is gone, as on a roller.
    let free = Arch { hold: Some(si(0.0)), ..good }.solve(crown(84.0)).unwrap();
    assert_eq!(free.thrust().value, 0.0);
}
