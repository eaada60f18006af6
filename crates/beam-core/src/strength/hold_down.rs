//! What an upward load pulls out of the walls along a roof's edge.

use super::{OutOfRange, at_least_zero, positive, within};
use crate::quantity::{Force, ForcePerLength, Length, Pressure, si};
use std::f64::consts::PI;

/// Most that the corners of a strip's edge add to its shear force: `(3 - nu)/2` with a Poisson ratio of none.
const TWIST: f64 = 1.5;

/// Pull per metre of each side wall of a uniform uplift: half the span's, whatever the end walls would take of it.
///
/// # Errors
/// [`OutOfRange`] for a span not above zero or an uplift below zero.
pub fn uniform(uplift: Pressure, span: Length) -> Result<ForcePerLength, OutOfRange> {
    const RULE: &str = "hold-down against uniform uplift";
    let q = at_least_zero(RULE, "net uplift (Pa)", uplift.value)?;
    Ok(si(q * positive(RULE, "span (m)", span.value)? / 2.0))
}

/// Largest pull per metre of the wall that a force pulling up at a place brings, on a long strip from wall to wall:
/// `(3 - nu)/2 P/(2 L) cot(pi x/(2 L))`, `x` the distance from the wall, with `nu` of none.
///
/// # Valid for
/// A thin plate without end walls; those, a force that is spread, and the core's give in shear all make it less.
///
/// # Errors
/// [`OutOfRange`] unless the force is not below zero and the place lies between the walls.
///
/// # References
/// Timoshenko and Woinowsky-Krieger 1959, infinitely long plate with a concentrated load, summed (from memory, derived
/// again).
///
/// # Examples
/// Half a span away: three quarters of the force over the span.
/// ```
/// use beam_core::quantity::si;
/// let pull = beam_core::strength::hold_down::concentrated(si(400.0), si(1.0), si(2.0))?;
/// assert!((pull.value - 150.0).abs() < 1e-9);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn concentrated(force: Force, from_wall: Length, span: Length) -> Result<ForcePerLength, OutOfRange> {
    const RULE: &str = "hold-down against a force pulling up";
    let p = at_least_zero(RULE, "force (N)", force.value)?;
    let span = positive(RULE, "span (m)", span.value)?;
    let x = within(RULE, "distance from the wall (m)", from_wall.value, f64::MIN_POSITIVE, span)?;
    Ok(si(TWIST * p / (2.0 * span) / (PI * x / (2.0 * span)).tan()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Second route: the strip's own series. One wave along of one wave across, `w = (1 + a y) e^(-a y) sin(a x)`, has the
    /// edge force `(3 - nu) D a^3` at the load, and `P sin(a x)/L` of the load makes `4 D a^3` of it (half to each side);
    /// averaged over the waves (Abel), as the sum of a point load does not settle.
    #[test]
    fn a_strip_by_its_series() {
        let (span, x) = (2.35_f64, 0.8_f64);
        let mut sum = 0.0;
        for m in 1..20_000 {
            let a = f64::from(m) * PI / span;
            // Line load P 2/L sin(a x) per wave = 2 Q_y = 4 D a^3 A at y = 0; edge force (3 - nu) D a^3 A, nu = 0.
            sum += 3.0 / 4.0 * 2.0 / span * (a * x).sin() * (-1e-3 * f64::from(m)).exp();
        }
        let got = concentrated(si(1.0), si(x), si(span)).unwrap();
        assert_relative_eq!(got.value, sum, max_relative = 1e-3);
    }

    #[test]
    fn what_is_pressed_down_pulls_nothing() {
        assert!(uniform(si(-1.0), si(2.0)).is_err());
        assert_relative_eq!(uniform(si(500.0), si(2.0)).unwrap().value, 500.0);
        assert!(concentrated(si(1.0), si(0.0), si(2.0)).is_err());
    }
}
