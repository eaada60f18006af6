//! Plywood and timber: time, moisture, bearing across the grain.

use super::{Basis, Limit, OutOfRange, at_least_zero, positive, within};
use crate::quantity::{Pressure, si};

/// Modulus under lasting load, `E/(1 + k_def)`.
///
/// # Errors
/// [`OutOfRange`] unless the modulus is above zero and `k_def` not below zero.
///
/// # References
/// EN 1995-1-1, 2.3.2.2 (from memory): `k_def` of plywood 0.8, 1.0, 2.5 in service classes 1, 2, 3.
pub fn lasting_modulus(modulus: Pressure, k_def: f64) -> Result<Pressure, OutOfRange> {
    const RULE: &str = "lasting modulus of wood";
    let e = positive(RULE, "modulus (Pa)", modulus.value)?;
    Ok(si(e / (1.0 + at_least_zero(RULE, "creep factor k_def", k_def)?)))
}

/// Strength under load of a given duration, `k_mod f_k/gamma_M`.
///
/// # Errors
/// [`OutOfRange`] unless the strength is above zero, `k_mod` lies above 0 and not above 1.1, and `gamma_M` between 1
/// and 2.
///
/// # References
/// EN 1995-1-1, 2.4.1 (from memory).
pub fn duration_strength(
    characteristic: Pressure,
    k_mod: f64,
    gamma_m: f64,
) -> Result<Limit<Pressure>, OutOfRange> {
    const RULE: &str = "strength of wood by load duration";
    let f = positive(RULE, "characteristic strength (Pa)", characteristic.value)?;
    let k = within(RULE, "duration factor k_mod", k_mod, f64::MIN_POSITIVE, 1.1)?;
    let gamma = within(RULE, "partial factor gamma_M", gamma_m, 1.0, 2.0)?;
    Ok(Limit::new("strength by load duration", si(k * f / gamma), Basis::memory("EN 1995-1-1, 2.4.1")))
}

/// A property at moisture content `moisture` (percent) from its values at 12 percent and green:
/// `P12 (P12/Pg)^((12 - M)/(Mp - 12))`, and the green value beyond `Mp`.
///
/// # Valid for
/// `0 < M <= 100`; `Mp`, the moisture where the property stops changing, 20 to 30 percent (25 unless tabulated).
///
/// # Errors
/// [`OutOfRange`].
///
/// # References
/// Wood Handbook, FPL-GTR-282, 2021, equation 5-3.
///
/// # Examples
/// The handbook's own example: 119 500 kPa at 8 percent.
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::wood::at_moisture;
/// let p = at_moisture(si(103_000e3), si(66_000e3), 8.0, 24.0)?;
/// assert!((p.value / 119_500e3 - 1.0).abs() < 5e-4);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn at_moisture(
    at_12_percent: Pressure,
    green: Pressure,
    moisture: f64,
    intersection: f64,
) -> Result<Pressure, OutOfRange> {
    const RULE: &str = "FPL-GTR-282 equation 5-3";
    let p12 = positive(RULE, "property at 12 percent (Pa)", at_12_percent.value)?;
    let pg = positive(RULE, "property green (Pa)", green.value)?;
    let m = within(RULE, "moisture content (percent)", moisture, f64::MIN_POSITIVE, 100.0)?;
    let mp = within(RULE, "moisture where the property stops changing (percent)", intersection, 20.0, 30.0)?;
    if m >= mp {
        return Ok(green);
    }
    Ok(si(p12 * (p12 / pg).powf((12.0 - m) / (mp - 12.0))))
}

/// Bearing across the grain: `k_c90 f_c90`, with the strength already a design value.
///
/// # Errors
/// [`OutOfRange`] unless the strength is above zero and `k_c90` lies between 1 and 1.75.
///
/// # References
/// EN 1995-1-1, 6.1.5 (from memory): 1.0 unless a higher value is shown.
pub fn bearing_across_grain(strength: Pressure, k_c90: f64) -> Result<Limit<Pressure>, OutOfRange> {
    const RULE: &str = "EN 1995-1-1 6.1.5, bearing across the grain";
    let f = positive(RULE, "strength across the grain (Pa)", strength.value)?;
    let k = within(RULE, "factor k_c90", k_c90, 1.0, 1.75)?;
    Ok(Limit::new("bearing across the grain", si(k * f), Basis::memory("EN 1995-1-1, 6.1.5")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// FPL-GTR-282 table 5-5b, light red meranti: 8481 MPa at 12 percent, 7171 green; 7649 at 20 percent.
    #[test]
    fn moisture_matches_handbook() {
        let p = |m| at_moisture(si(8481e6), si(7171e6), m, 25.0).unwrap().value / 1e6;
        assert_relative_eq!(p(20.0), 7649.017, max_relative = 1e-5);
        assert_relative_eq!(p(12.0), 8481.0, max_relative = 1e-12);
        assert_relative_eq!(p(24.999_999), 7171.0, max_relative = 1e-6);
        assert_relative_eq!(p(40.0), 7171.0, max_relative = 1e-12);
        assert!(at_moisture(si(8481e6), si(7171e6), 12.0, 12.0).is_err());
    }

    #[test]
    fn time_softens_and_weakens() {
        assert_relative_eq!(lasting_modulus(si(9e9), 0.8).unwrap().value, 5e9, max_relative = 1e-12);
        let f = duration_strength(si(30e6), 0.6, 1.2).unwrap();
        assert_relative_eq!(f.value.value, 15e6, max_relative = 1e-12);
        assert!(duration_strength(si(30e6), 1.2, 1.2).is_err());
        assert!(lasting_modulus(si(9e9), -0.1).is_err());
    }

    #[test]
    fn bearing_factor_stays_in_its_range() {
        assert_relative_eq!(
            bearing_across_grain(si(2e6), 1.0).unwrap().value.value,
            2e6,
            max_relative = 1e-12
        );
        assert!(bearing_across_grain(si(2e6), 2.0).is_err());
    }
}
