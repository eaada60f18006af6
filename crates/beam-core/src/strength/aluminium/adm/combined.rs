//! Combined actions, ADM 2020 chapter H: used parts of the strength, which must not exceed one.

use crate::quantity::{Force, Moment, Pressure, Ratio, si};
use crate::strength::{Basis, Limit, OutOfRange, at_least_zero, positive};

fn part(rule: &'static str, what: &'static str, required: f64, available: f64) -> Result<f64, OutOfRange> {
    Ok(at_least_zero(rule, what, required.abs())? / positive(rule, "available strength", available)?)
}

/// H.1: `Pr/Pc + Mrx/Mcx + Mry/Mcy`, linear, for tension and compression alike. Pairs are required and available.
///
/// Required moments come from a second-order analysis (C.2); signs do not matter.
///
/// # Errors
/// [`OutOfRange`] for an available strength not above zero, or a required one that is no number.
///
/// # References
/// ADM 2020, H.1, from memory.
pub fn axial_and_bending(
    axial: (Force, Force),
    about_x: (Moment, Moment),
    about_y: (Moment, Moment),
) -> Result<Limit<Ratio>, OutOfRange> {
    const RULE: &str = "ADM 2020 H.1";
    let used = part(RULE, "axial force (N)", axial.0.value, axial.1.value)?
        + part(RULE, "moment about x (N m)", about_x.0.value, about_x.1.value)?
        + part(RULE, "moment about y (N m)", about_y.0.value, about_y.1.value)?;
    Ok(Limit::new("axial force and bending", si(used), Basis::memory("ADM 2020, H.1")))
}

/// H.3.1: `fc/Fc + (fb/Fb)^2 + (fs/Fs)^2` for a flat element in compression, bending and shear. Pairs are required
/// and available stress.
///
/// # Errors
/// As [`axial_and_bending`].
///
/// # References
/// ADM 2020, H.3.1.
pub fn flat_element(
    compression: (Pressure, Pressure),
    bending: (Pressure, Pressure),
    shear: (Pressure, Pressure),
) -> Result<Limit<Ratio>, OutOfRange> {
    const RULE: &str = "ADM 2020 H.3.1";
    let used = part(RULE, "compression (Pa)", compression.0.value, compression.1.value)?
        + part(RULE, "bending (Pa)", bending.0.value, bending.1.value)?.powi(2)
        + part(RULE, "shear (Pa)", shear.0.value, shear.1.value)?.powi(2);
    Ok(Limit::new("compression, bending and shear of a wall", si(used), Basis::published("ADM 2020, H.3.1")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Pr 0.5 of 1.3848, Mrx 2.0 of 6.338: 0.6766, computed apart; the sign of the moment does not relieve.
    #[test]
    fn linear_sum() {
        let at = |m: f64| {
            axial_and_bending((si(0.5), si(1.3848)), (si(m), si(6.338)), (si(0.0), si(6.338))).unwrap()
        };
        assert_relative_eq!(at(2.0).value.value, 0.6766199274, max_relative = 1e-9);
        assert_eq!(at(2.0).value, at(-2.0).value);
    }

    #[test]
    fn quadratic_in_bending_and_shear() {
        let u = flat_element((si(0.5), si(1.0)), (si(0.5), si(1.0)), (si(0.3), si(1.0))).unwrap();
        assert_relative_eq!(u.value.value, 0.5 + 0.25 + 0.09, max_relative = 1e-12);
    }

    #[test]
    fn nothing_available_is_no_ratio() {
        assert!(axial_and_bending((si(0.0), si(0.0)), (si(0.0), si(1.0)), (si(0.0), si(1.0))).is_err());
        assert!(flat_element((si(f64::NAN), si(1.0)), (si(0.0), si(1.0)), (si(0.0), si(1.0))).is_err());
    }
}
