//! A skin in its own plane and in bending: used share per grain direction.

use super::{OutOfRange, at_least_zero, positive};
use crate::quantity::{Pressure, Ratio, si};

const RULE: &str = "skin: membrane, bending and shear";

/// Stresses of a skin in one direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinStress {
    /// Mean through the thickness, tension positive.
    pub membrane: Pressure,
    /// Of the skin's own bending, at its faces; the sign does not matter.
    pub bending: Pressure,
}

/// Limits of a skin in one direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinLimits {
    /// Tension.
    pub tension: Pressure,
    /// Compression.
    pub compression: Pressure,
    /// Bending.
    pub bending: Pressure,
}

/// How much of a skin is used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinUse {
    /// Across, with shear.
    pub across: Ratio,
    /// Along, with shear.
    pub along: Ratio,
}

impl SkinUse {
    /// The larger.
    pub fn worst(&self) -> Ratio {
        if self.across > self.along { self.across } else { self.along }
    }
}

/// Used share of one direction: `|s_m|/f_t or f_c + |s_b|/f_m`.
///
/// # Errors
/// [`OutOfRange`] for a limit not above zero or a stress that is no number.
///
/// # References
/// Linear sum of axial and bending stress, EN 1995-1-1, 6.2.3 (from memory).
pub fn direction(stress: SkinStress, limits: SkinLimits) -> Result<Ratio, OutOfRange> {
    let f = if stress.membrane.value < 0.0 { limits.compression } else { limits.tension };
    let membrane = used("membrane stress (Pa)", stress.membrane, f)?;
    let bending = used("bending stress (Pa)", stress.bending, limits.bending)?;
    Ok(si(membrane + bending))
}

/// Used share of both directions, each with the in-plane shear added by the sum of squares.
///
/// Pairs are stress and limits.
///
/// # Errors
/// As [`direction`].
///
/// # Examples
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::skin::{SkinLimits, SkinStress, skin};
/// let limits = SkinLimits { tension: si(10e6), compression: si(8e6), bending: si(20e6) };
/// let across = SkinStress { membrane: si(-4e6), bending: si(2e6) }; // 4/8 + 2/20
/// let along = SkinStress { membrane: si(1e6), bending: si(0.0) };
/// let used = skin((across, limits), (along, limits), (si(0.0), si(3e6)))?;
/// assert!((used.worst().value - 0.6).abs() < 1e-12);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn skin(
    across: (SkinStress, SkinLimits),
    along: (SkinStress, SkinLimits),
    shear: (Pressure, Pressure),
) -> Result<SkinUse, OutOfRange> {
    let s = used("in-plane shear stress (Pa)", shear.0, shear.1)?;
    let with_shear = |r: Ratio| si(r.value.hypot(s));
    Ok(SkinUse {
        across: with_shear(direction(across.0, across.1)?),
        along: with_shear(direction(along.0, along.1)?),
    })
}

fn used(what: &'static str, stress: Pressure, limit: Pressure) -> Result<f64, OutOfRange> {
    Ok(at_least_zero(RULE, what, stress.value.abs())? / positive(RULE, "limit (Pa)", limit.value)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const LIMITS: SkinLimits = SkinLimits { tension: q(10e6), compression: q(8e6), bending: q(20e6) };

    const fn q(v: f64) -> Pressure {
        Pressure { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: v }
    }

    #[test]
    fn sign_picks_tension_or_compression() {
        let at = |m: f64| direction(SkinStress { membrane: q(m), bending: q(-5e6) }, LIMITS).unwrap().value;
        assert_relative_eq!(at(4e6), 0.4 + 0.25, max_relative = 1e-12);
        assert_relative_eq!(at(-4e6), 0.5 + 0.25, max_relative = 1e-12);
    }

    #[test]
    fn shear_adds_by_squares() {
        let s = SkinStress { membrane: q(3e6), bending: q(0.0) };
        let used = skin((s, LIMITS), (s, LIMITS), (q(-1.6e6), q(4e6))).unwrap();
        assert_relative_eq!(used.across.value, 0.5, max_relative = 1e-12); // 3-4-5
        assert_eq!(used.across, used.worst());
    }

    #[test]
    fn no_number_never_passes() {
        let s = |m| SkinStress { membrane: q(m), bending: q(0.0) };
        assert!(direction(s(f64::NAN), LIMITS).is_err());
        assert!(direction(s(1.0), SkinLimits { tension: q(0.0), ..LIMITS }).is_err());
    }
}
