//! Snap-through of shallow arches in their own numbers: the theory on paper, and the second route to the chain.
//!
//! With `a` half the span, `r` the radius of gyration, `Rc` the radius of the arc, `V = v/r` the sag and
//! `b^2 = N a^2/EI` the push:
//!
//! ```text
//! V'''' + b^2 V'' = p - b^2 lambda,    2 b^2 = lambda Int V - (1/2) Int V'^2,    lambda = a^2/(r Rc)
//! ```
//!
//! At each `b` the sag is linear in the load, so the second equation is a quadratic with two loads. The path starts
//! on one of its roots, turns where both meet, and comes back on the other.

use std::f64::consts::{FRAC_PI_2, PI};

use super::error::StripError;
use crate::quantity::{Ratio, positive, si};

/// How the ends of a shallow arch turn; both are held sideways.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShallowEnds {
    /// Free to turn.
    Pinned,
    /// Held against turning.
    Fixed,
}

/// What a shallow arch carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShallowLoad {
    /// A force `P` at the crown, in `E I r/a^3`.
    Crown,
    /// An even load `w`, in `E I r/a^4`.
    Even,
}

/// How a perfect arch first gives way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SnapKind {
    /// It snaps through: the load it carries reaches its largest value.
    Limit,
    /// It sways: an even shape gives way to a lopsided one.
    Sway,
}

/// First load, in the arch's own numbers, under which a perfect shallow arch snaps or sways.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ShallowSnap {
    /// `P a^3/(E I r)` or `w a^4/(E I r)`.
    pub load: Ratio,
    /// How it gives way.
    pub kind: SnapKind,
}

/// First load under which a perfect shallow arch snaps or sways; `None` where it does neither.
///
/// A sideways spring `k` at each end is the same arch with a larger radius of gyration, `r sqrt(1 + E A/(k a))`.
///
/// # Valid for
/// Rise up to about a tenth of the span (2 percent there); elastic; no imperfection; held out of its plane.
///
/// # Errors
/// `lambda` not a finite number above 0.
///
/// # References
/// Bradford, Uy and Pi, 2002, from memory, who find none under 3.91 and 3.88 (pinned, crown and even load), 11.07
/// and 9.87 (fixed).
///
/// # Examples
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strip::{ShallowEnds, ShallowLoad, shallow_snap};
/// assert!(shallow_snap(ShallowEnds::Pinned, ShallowLoad::Crown, si(3.8))?.is_none());
/// assert!(shallow_snap(ShallowEnds::Pinned, ShallowLoad::Crown, si(4.0))?.is_some());
/// # Ok::<(), beam_core::strip::StripError>(())
/// ```
pub fn shallow_snap(
    ends: ShallowEnds,
    load: ShallowLoad,
    lambda: Ratio,
) -> Result<Option<ShallowSnap>, StripError> {
    let lambda = positive("lambda = a^2/(r Rc)", lambda.value, "", "take it from span, rise and section")?;
    Ok(first_on_path(ends, load, lambda))
}

/// From here down the closed forms lose digits.
const FLAT: f64 = 0.05;
const STEPS: usize = 4000;

fn first_on_path(ends: ShallowEnds, load: ShallowLoad, lambda: f64) -> Option<ShallowSnap> {
    let sway = match ends {
        ShallowEnds::Pinned => PI,
        // tan b = b.
        ShallowEnds::Fixed => 4.493_409_457_909_064,
    };
    let at = |i: usize| FLAT + (sway - FLAT) * i as f64 / STEPS as f64;
    let mut loads = Vec::with_capacity(2 * STEPS);
    let mut last = STEPS;
    for i in 0..=STEPS {
        match loads_at(ends, load, lambda, at(i)) {
            Some([out, _]) => loads.push(out),
            None => {
                last = i;
                break;
            }
        }
    }
    if last == STEPS && loads.len() > STEPS && peak(&loads).is_none() {
        let load = si(loads[STEPS]);
        return Some(ShallowSnap { load, kind: SnapKind::Sway });
    }
    loads.extend((0..last).rev().filter_map(|i| Some(loads_at(ends, load, lambda, at(i))?[1])));
    peak(&loads).map(|load| ShallowSnap { load: si(load), kind: SnapKind::Limit })
}

/// First local maximum, by a parabola through the highest sample and its neighbours.
fn peak(loads: &[f64]) -> Option<f64> {
    loads.windows(3).find(|w| w[1] > w[0] && w[1] >= w[2]).map(|w| {
        let (slope, bend) = ((w[2] - w[0]) / 2.0, w[2] - 2.0 * w[1] + w[0]);
        w[1] - slope * slope / (2.0 * bend)
    })
}

/// The two loads at `b`, the one of the outward path first; `None` beyond the turn.
fn loads_at(ends: ShallowEnds, load: ShallowLoad, lambda: f64, b: f64) -> Option<[f64; 2]> {
    // Everything times `scale`, which takes the poles out.
    let (scale, unit, even) = match ends {
        ShallowEnds::Pinned => (b.cos(), pinned(load, b), pinned(ShallowLoad::Even, b)),
        ShallowEnds::Fixed => (b.sin(), fixed(load, b), fixed(ShallowLoad::Even, b)),
    };
    let arc = b * b * lambda;
    let sum = |f: &dyn Fn(usize) -> f64| 2.0 * (0..unit.len()).map(|i| unit[i].weight * f(i)).sum::<f64>();
    // V = load unit - arc even; -(1/2) Int V'^2 + lambda Int V - 2 b^2 = 0.
    let square = -0.5 * sum(&|i| unit[i].slope * unit[i].slope);
    let linear = arc * sum(&|i| unit[i].slope * even[i].slope) + lambda * scale * sum(&|i| unit[i].sag);
    let rest = -0.5 * arc * arc * sum(&|i| even[i].slope * even[i].slope)
        - lambda * arc * scale * sum(&|i| even[i].sag)
        - 2.0 * b * b * scale * scale;
    // Both roots meet at the pole and cross there: the root of the discriminant changes its sign with the scale.
    let inside = (linear * linear - 4.0 * square * rest) / (scale * scale);
    if inside < 0.0 {
        return None;
    }
    let root = scale * inside.sqrt();
    Some([(-linear + root) / (2.0 * square), (-linear - root) / (2.0 * square)])
}

/// Sag and slope per load at a Gauss point of the right half.
#[derive(Clone, Copy)]
struct At {
    weight: f64,
    sag: f64,
    slope: f64,
}

const PIECES: usize = 6;
const POINTS: usize = PIECES * 3;

fn sampled(f: impl Fn(f64) -> (f64, f64)) -> [At; POINTS] {
    const RULE: [(f64, f64); 3] =
        [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];
    std::array::from_fn(|i| {
        let (piece, (at, weight)) = (i / 3, RULE[i % 3]);
        let x = (piece as f64 + 0.5 + at / 2.0) / PIECES as f64;
        let (sag, slope) = f(x);
        At { weight: weight / (2 * PIECES) as f64, sag, slope }
    })
}

/// Pinned, times `cos b`.
fn pinned(load: ShallowLoad, b: f64) -> [At; POINTS] {
    let (c, b2) = (b.cos(), b * b);
    sampled(|x| match load {
        ShallowLoad::Crown => {
            let rest = 1.0 - x;
            ((b * rest).sin() / (2.0 * b2 * b) - rest * c / (2.0 * b2), (c - (b * rest).cos()) / (2.0 * b2))
        }
        ShallowLoad::Even => {
            ((((b * x).cos() - c) / b2 - c * (1.0 - x * x) / 2.0) / b2, (c * x - (b * x).sin() / b) / b2)
        }
    })
}

/// Fixed, times `sin b`.
fn fixed(load: ShallowLoad, b: f64) -> [At; POINTS] {
    let (s, c, b2) = (b.sin(), b.cos(), b * b);
    let b3 = b2 * b;
    sampled(|x| {
        let (sx, cx) = (b * x).sin_cos();
        match load {
            ShallowLoad::Crown => {
                let shape = |sx: f64, cx: f64, x: f64| (1.0 - c) * cx - s * sx + s * b * x;
                (
                    (shape(sx, cx, x) - shape(s, c, 1.0)) / (2.0 * b3),
                    (-(1.0 - c) * sx - s * cx + s) / (2.0 * b2),
                )
            }
            ShallowLoad::Even => ((cx - c) / b3 - s * (1.0 - x * x) / (2.0 * b2), (s * x - sx) / b2),
        }
    })
}

/// Even radial pressure, `q R^3/(E I)`, under which a pinned or fixed circular arch sways.
///
/// # Valid for
/// Half angle above 0 and up to 180 degrees (pinned: under); an arch that does not shorten.
///
/// # Errors
/// A half angle out of range.
///
/// # References
/// Timoshenko and Gere, Theory of Elastic Stability, 7.6, from memory: `pi^2/theta^2 - 1` pinned; `k^2 - 1` with
/// `k tan(theta) cot(k theta) = 1` fixed.
///
/// # Examples
/// A half circle between pins: 3.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strip::{ShallowEnds, arch_sway_pressure};
/// let q = arch_sway_pressure(ShallowEnds::Pinned, si(std::f64::consts::FRAC_PI_2))?;
/// assert!((q.value - 3.0).abs() < 1e-12);
/// # Ok::<(), beam_core::strip::StripError>(())
/// ```
pub fn arch_sway_pressure(ends: ShallowEnds, half_angle: Ratio) -> Result<Ratio, StripError> {
    let theta = half_angle.value;
    if !(1e-6..PI).contains(&theta) {
        return Err(StripError::out_of_range(
            "half angle of the arch",
            theta,
            "rad",
            "above 0, under pi",
            "give half the angle that the arch spans",
        ));
    }
    Ok(si(match ends {
        ShallowEnds::Pinned => (PI / theta).powi(2) - 1.0,
        ShallowEnds::Fixed => {
            // k sin(theta) cos(k theta) - cos(theta) sin(k theta): from k theta = pi, where it has the sign of
            // -sin(theta), to the first change behind it.
            let f = |k: f64| k * theta.sin() * (k * theta).cos() - theta.cos() * (k * theta).sin();
            let (mut low, mut high) = (PI / theta, (PI + FRAC_PI_2) / theta);
            for _ in 0..80 {
                let middle = (low + high) / 2.0;
                if (f(middle) > 0.0) == (f(low) > 0.0) { low = middle } else { high = middle }
            }
            low * low - 1.0
        }
    }))
}

/// Load `q0 L^4/(pi^4 E I a)` under which a pinned shallow arch of sine shape, rise `a`, loaded by `q0 sin(pi x/L)`,
/// first snaps or sways; `None` where it does neither. `kappa = A a^2/(4 I)`.
///
/// # Errors
/// `kappa` not a finite number above 0.
///
/// # References
/// Timoshenko and Gere, Theory of Elastic Stability, 7.8, from memory.
pub fn sine_arch_snap(kappa: Ratio) -> Result<Option<ShallowSnap>, StripError> {
    let kappa = positive("kappa = A a^2/(4 I)", kappa.value, "", "take it from rise and section")?;
    Ok(if kappa <= 1.0 {
        None
    } else if kappa <= 5.5 {
        let load = si(1.0 + (4.0 * (kappa - 1.0).powi(3) / (27.0 * kappa)).sqrt());
        Some(ShallowSnap { load, kind: SnapKind::Limit })
    } else {
        Some(ShallowSnap { load: si(1.0 + 3.0 * (1.0 - 4.0 / kappa).sqrt()), kind: SnapKind::Sway })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use ShallowEnds::{Fixed, Pinned};
    use ShallowLoad::{Crown, Even};
    use approx::assert_relative_eq;

    fn snap(ends: ShallowEnds, load: ShallowLoad, lambda: f64) -> Option<ShallowSnap> {
        shallow_snap(ends, load, si(lambda)).unwrap()
    }

    /// BUCK-SH rows, computed apart from the same theory; two of each kind confirmed by finite elements.
    #[test]
    fn loads_of_the_table() {
        use SnapKind::{Limit, Sway};
        for (ends, load, lambda, expected, kind) in [
            (Pinned, Crown, 4.0, 12.6168, Limit),
            (Pinned, Crown, 5.0, 18.0516, Limit),
            (Pinned, Crown, 6.0, 26.0084, Limit),
            (Pinned, Crown, 8.0, 49.4228, Limit),
            (Pinned, Crown, 20.0, 217.9164, Sway),
            (Pinned, Crown, 30.0, 339.531, Sway),
            (Pinned, Even, 4.0, 9.9306, Limit),
            (Pinned, Even, 5.0, 14.3224, Limit),
            (Pinned, Even, 6.0, 20.8485, Limit),
            (Pinned, Even, 8.0, 41.1945, Limit),
            (Pinned, Even, 10.0, 71.0652, Sway),
            (Pinned, Even, 20.0, 185.7211, Sway),
            (Pinned, Even, 30.0, 288.4862, Sway),
            (Fixed, Crown, 20.0, 243.5013, Limit),
            (Fixed, Crown, 30.0, 405.3242, Limit),
            (Fixed, Even, 10.0, 98.8319, Limit),
            (Fixed, Even, 20.0, 321.8879, Sway),
            (Fixed, Even, 30.0, 560.7888, Sway),
        ] {
            let found = snap(ends, load, lambda).unwrap();
            assert_relative_eq!(found.load.value, expected, max_relative = 5e-4);
            assert_eq!(found.kind, kind, "{ends:?} {load:?} {lambda}");
        }
        // Beside the change from limit to sway the two are hard to tell apart.
        assert_relative_eq!(snap(Pinned, Crown, 10.0).unwrap().load.value, 80.8486, max_relative = 2e-3);
    }

    /// Bradford, Uy and Pi 2002, from memory: 3.91, 3.88, 11.07, 9.87.
    #[test]
    fn nothing_snaps_below_the_thresholds() {
        for (ends, load, threshold) in
            [(Pinned, Crown, 3.91), (Pinned, Even, 3.88), (Fixed, Crown, 11.07), (Fixed, Even, 9.87)]
        {
            assert!(snap(ends, load, threshold * 0.995).is_none(), "{ends:?} {load:?}");
            assert!(snap(ends, load, threshold * 1.005).is_some(), "{ends:?} {load:?}");
        }
        assert!(shallow_snap(Pinned, Crown, si(f64::NAN)).is_err());
    }

    /// Timoshenko and Gere, from memory: k = 8.621, 4.375, 3.000 at 30, 60, 90 degrees.
    #[test]
    fn radial_pressure() {
        let q = |ends, degrees: f64| arch_sway_pressure(ends, si(degrees.to_radians())).unwrap().value;
        assert_relative_eq!(q(Fixed, 30.0), 73.32758894, max_relative = 1e-8);
        assert_relative_eq!(q(Fixed, 60.0), 4.374695_f64.powi(2) - 1.0, max_relative = 1e-5);
        assert_relative_eq!(q(Fixed, 90.0), 8.0, max_relative = 1e-9);
        assert_relative_eq!(q(Pinned, 45.0), 15.0, max_relative = 1e-12);
        assert_relative_eq!(q(Pinned, 60.0), 8.0, max_relative = 1e-12);
        assert!(arch_sway_pressure(Pinned, si(0.0)).is_err());
    }

    /// Timoshenko and Gere 7.8, from memory (BUCK-SIN rows).
    #[test]
    fn sine_arch() {
        let u = |kappa| sine_arch_snap(si(kappa)).unwrap().map(|s| s.load.value);
        for (kappa, expected) in [(2.0, 1.272165527), (4.0, 2.0), (5.5, 2.566698904), (10.0, 3.323790008)] {
            assert_relative_eq!(u(kappa).unwrap(), expected, max_relative = 1e-9);
        }
        assert!(u(0.9).is_none());
        assert!(sine_arch_snap(si(-1.0)).is_err());
    }
}
