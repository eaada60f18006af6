//! Bending of a sharply curved bar: Winkler-Bach.

use super::error::SectionError;
use crate::quantity::{Length, Ratio, positive, si};

/// Stress factors of a curved bar against the straight-beam formula `M c / I`.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RingFactors {
    /// Factor at the inside of the curve, above 1.
    pub inner: Ratio,
    /// Factor at the outside, below 1.
    pub outer: Ratio,
    /// Distance of the neutral axis from the centroid, towards the centre of curvature.
    pub eccentricity: Length,
}

/// Winkler-Bach factors of a curved square or rectangular tube; `wall` half the smaller side makes it solid.
///
/// The distance between centroid and neutral axis is a tiny difference of two large lengths once the curve
/// is gentle. It is therefore summed as a series, `r_n` never being formed, so no digits are lost at any radius.
///
/// # Valid for
/// Linear stress, `radius` (to the centroid) above half the depth.
///
/// # Errors
/// A measure not above 0, a wall above half the smaller side, a radius not above half the depth.
///
/// # References
/// Winkler-Bach, as in Timoshenko, Strength of Materials II, from memory.
pub fn ring_factors(
    width: Length,
    depth: Length,
    wall: Length,
    radius: Length,
) -> Result<RingFactors, SectionError> {
    let (inner, outer, e) = ring_factors_si(width.value, depth.value, wall.value, radius.value)?;
    Ok(RingFactors { inner: si(inner), outer: si(outer), eccentricity: si(e) })
}

/// (inner factor, outer factor, eccentricity m) from lengths in m.
pub(crate) fn ring_factors_si(
    width: f64,
    depth: f64,
    wall: f64,
    radius: f64,
) -> Result<(f64, f64, f64), SectionError> {
    positive("width", width, "m", "measure the outside of the tube")?;
    positive("depth", depth, "m", "measure the outside of the tube")?;
    positive("wall", wall, "m", "measure the wall at a cut end")?;
    let least = width.min(depth) / 2.0;
    if wall > least {
        return Err(SectionError::out_of_range(
            "wall",
            wall,
            "m",
            format!("up to half the smaller side, {least:.6} m"),
            "check the wall",
        ));
    }
    let c = depth / 2.0;
    if !(radius.is_finite() && radius > c) {
        return Err(SectionError::out_of_range(
            "radius",
            radius,
            "m",
            format!("above half the depth, {c:.6} m"),
            "give the radius to the middle of the tube; leave a straight bar out",
        ));
    }
    let (hole_width, hole) = (width - 2.0 * wall, c - wall);
    let area = 2.0 * (width * c - hole_width * hole);
    let second = 2.0 / 3.0 * (width * c.powi(3) - hole_width * hole.powi(3));
    // Integral of dA/r - A/R = excess of each rectangle; r_n = A / integral.
    let excess = width * log_excess(c, radius) - hole_width * log_excess(hole, radius);
    let integral = area / radius + excess;
    let e = radius * excess / integral;
    let factor = |from_axis: f64, r: f64| from_axis / (area * e * r) * second / c;
    Ok((factor(c - e, radius - c), factor(c + e, radius + c), e))
}

/// `ln((R+c)/(R-c)) - 2c/R`, by its series `2 (q^3/3 + q^5/5 + ...)` in `q = c/R` where that is short.
fn log_excess(c: f64, radius: f64) -> f64 {
    let q = c / radius;
    if q > 0.3 {
        return 2.0 * (q.atanh() - q);
    }
    let (mut term, mut sum, mut n) = (q * q * q, 0.0, 3.0);
    while term / n > sum * 1e-17 {
        sum += term / n;
        term *= q * q;
        n += 2.0;
    }
    2.0 * sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Solid rectangle; the old tables print 1.52, 1.30 (for 1.288), 1.20 (Timoshenko, from memory).
    #[test]
    fn solid_rectangle() {
        for (ratio, inner, outer) in [
            (2.0, 1.523453996, 0.7300402209),
            (3.0, 1.287541392, 0.8104373626),
            (4.0, 1.199630973, 0.8531119173),
            (6.0, 1.124380035, 0.8983666914),
            (10.0, 1.071103453, 0.9369634311),
        ] {
            let (ki, ko, _) = ring_factors_si(0.02, 0.02, 0.01, 0.01 * ratio).unwrap();
            assert_relative_eq!(ki, inner, max_relative = 1e-9);
            assert_relative_eq!(ko, outer, max_relative = 1e-9);
        }
    }

    /// Square tubes, exact Winkler-Bach worked with many digits (WB-BOX rows), side and radius in inches.
    #[test]
    fn square_tube() {
        for (radius, side, inner, outer, e) in [
            (12.0, 1.5, 1.028153548, 0.9736431092, 0.02649702779),
            (150.0, 1.5, 1.002181686, 0.9978297764, 0.002118066461),
            (295.5, 1.5, 1.001106011, 0.998896942, 0.001075156531),
            (290.0, 2.0, 1.001421218, 0.9985835576, 0.002029459106),
        ] {
            let (ki, ko, shift) = ring_factors_si(side, side, 0.125, radius).unwrap();
            assert_relative_eq!(ki, inner, max_relative = 1e-9);
            assert_relative_eq!(ko, outer, max_relative = 1e-9);
            assert_relative_eq!(shift, e, max_relative = 1e-9);
        }
    }

    /// As the curve flattens, e tends to I/(A R) and the factors to 1, with no digits lost.
    #[test]
    fn gentle_curve_keeps_its_digits() {
        let (b, t, radius) = (0.0381, 0.003175, 1.0e6);
        let (ki, ko, e) = ring_factors_si(b, b, t, radius).unwrap();
        let hole = b - 2.0 * t;
        let limit = (b.powi(4) - hole.powi(4)) / 12.0 / (b * b - hole * hole) / radius;
        assert_relative_eq!(e, limit, max_relative = 1e-12);
        assert_relative_eq!(ki, 1.0, max_relative = 1e-7);
        assert_relative_eq!(ko, 1.0, max_relative = 1e-7);
    }

    #[test]
    fn a_radius_inside_the_tube_is_refused() {
        assert!(ring_factors_si(0.02, 0.02, 0.002, 0.01).is_err());
        assert!(ring_factors_si(0.02, 0.02, 0.011, 1.0).is_err());
        assert!(ring_factors_si(0.02, 0.02, 0.002, f64::INFINITY).is_err());
    }
}
