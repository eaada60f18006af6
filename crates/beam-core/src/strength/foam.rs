//! Foam over time, in heat, and from its density.

use super::{OutOfRange, at_least_zero, positive, within};
use crate::quantity::{Density, Length, Pressure, si};

/// Shear modulus under lasting load, `G/(1 + phi)`.
///
/// # Errors
/// [`OutOfRange`] unless the modulus is above zero and `phi` not below zero.
///
/// # References
/// EN 14509 (from memory): `phi` of rigid foams 2.4 at 2000 h, 7.0 at 100 000 h.
pub fn lasting_shear_modulus(modulus: Pressure, phi: f64) -> Result<Pressure, OutOfRange> {
    const RULE: &str = "lasting shear modulus of foam";
    let g = positive(RULE, "shear modulus (Pa)", modulus.value)?;
    Ok(si(g / (1.0 + at_least_zero(RULE, "creep coefficient phi", phi)?)))
}

/// Sag with creep: the bending part with its factor, the shear part with its own.
///
/// # Errors
/// [`OutOfRange`] unless the factors are not below zero and the sags are numbers.
///
/// # References
/// EN 14509 (from memory).
///
/// # Examples
/// 4 mm of bending and 6 mm of shear with `phi` 2.4 make 24.4 mm.
/// ```
/// use beam_core::quantity::si;
/// let sag = beam_core::strength::foam::sag_with_creep((si(0.004), 0.0), (si(0.006), 2.4))?;
/// assert!((sag.value - 0.0244).abs() < 1e-12);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn sag_with_creep(bending: (Length, f64), shear: (Length, f64)) -> Result<Length, OutOfRange> {
    const RULE: &str = "sag with creep";
    let part = |(w, factor): (Length, f64)| -> Result<f64, OutOfRange> {
        at_least_zero(RULE, "size of the sag (m)", w.value.abs())?;
        Ok(w.value * (1.0 + at_least_zero(RULE, "creep factor", factor)?))
    };
    Ok(si(part(bending)? + part(shear)?))
}

/// A modulus or strength of foam in heat: the cold value times its factor.
///
/// # Errors
/// [`OutOfRange`] unless the value is above zero and the factor lies above 0 and not above 1.
pub fn hot(cold: Pressure, factor: f64) -> Result<Pressure, OutOfRange> {
    const RULE: &str = "foam in heat";
    let v = positive(RULE, "cold value (Pa)", cold.value)?;
    Ok(si(v * within(RULE, "heat factor", factor, f64::MIN_POSITIVE, 1.0)?))
}

/// Young's modulus of EPS from its density, `E = 0.45 rho - 3` (MPa, kg/m3).
///
/// # Valid for
/// 12 to 40 kg/m3 (the range of block EPS; from memory).
///
/// # Errors
/// [`OutOfRange`] outside.
///
/// # References
/// Horvath, as quoted by a trade-association paper on EPS in civil engineering, 2009.
pub fn horvath_modulus(density: Density) -> Result<Pressure, OutOfRange> {
    let rho = within("Horvath's modulus of EPS", "density (kg/m3)", density.value, 12.0, 40.0)?;
    Ok(si((0.45 * rho - 3.0) * 1e6))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// The 2009 paper prints 6 MPa at 20 kg/m3.
    #[test]
    fn horvath_matches_print() {
        assert_relative_eq!(horvath_modulus(si(20.0)).unwrap().value, 6e6, max_relative = 1e-12);
        assert!(horvath_modulus(si(6.0)).is_err(), "the line would go below zero");
    }

    /// EN 14509 phi at 100 000 h, from memory: 2.5/(1 + 7) MPa.
    #[test]
    fn lasting_shear_modulus_is_an_eighth() {
        assert_relative_eq!(
            lasting_shear_modulus(si(2.5e6), 7.0).unwrap().value,
            0.3125e6,
            max_relative = 1e-12
        );
    }

    #[test]
    fn heat_never_strengthens() {
        assert!(hot(si(5e6), 1.1).is_err());
        assert_relative_eq!(hot(si(5e6), 0.6).unwrap().value, 3e6, max_relative = 1e-12);
        assert!(sag_with_creep((si(f64::NAN), 0.0), (si(0.0), 0.0)).is_err());
    }
}
