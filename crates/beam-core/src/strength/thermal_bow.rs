//! A panel that bows because one skin is warmer than the other.

use super::{OutOfRange, at_least_zero, positive, within};
use crate::quantity::{Celsius, Length, si};

/// Rise of the middle of a panel between two walls, `(a1 dT1 - a2 dT2) L^2/(8 d)`; positive up where the upper skin grows
/// more. No stress comes of it where the walls let the panel bow.
///
/// `upper` and `lower`: strain per kelvin, and kelvins warmer than when the skins were glued.
///
/// # Valid for
/// Skins alone strained, the foam giving way; a span far longer than the panel is thick.
///
/// # Errors
/// [`OutOfRange`] for an expansion below zero, a length not above zero or a temperature that is none.
///
/// # References
/// EN 14509, Annex E (form from memory).
///
/// # Examples
/// Plywood of 6.1e-6 per kelvin, 40 K warmer above, 43 mm between the skins, 2.3 m: 3.75 mm.
/// ```
/// use beam_core::quantity::si;
/// let rise = beam_core::strength::thermal_bow::rise((6.1e-6, 40.0), (6.1e-6, 0.0), si(0.043), si(2.3))?;
/// assert!((rise.value - 3.752209e-3).abs() < 1e-9);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn rise(
    upper: (f64, Celsius),
    lower: (f64, Celsius),
    between: Length,
    span: Length,
) -> Result<Length, OutOfRange> {
    const RULE: &str = "thermal bow";
    let d = positive(RULE, "distance of the skins (m)", between.value)?;
    let span = positive(RULE, "span (m)", span.value)?;
    let grows = |(expansion, warmer): (f64, Celsius)| -> Result<f64, OutOfRange> {
        Ok(at_least_zero(RULE, "expansion (1/K)", expansion)?
            * within(RULE, "temperature difference (K)", warmer, -200.0, 200.0)?)
    };
    Ok(si((grows(upper)? - grows(lower)?) * span * span / (8.0 * d)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Skins alike warm bow nothing; a warmer lower one bows it down; nonsense is refused.
    #[test]
    fn what_grows_alike_stays_flat() {
        let bow = |upper, lower| rise(upper, lower, si(0.05), si(2.0)).unwrap().value;
        assert_relative_eq!(bow((6e-6, 30.0), (6e-6, 30.0)), 0.0);
        assert_relative_eq!(bow((6e-6, 0.0), (2e-5, 25.0)), -0.005, max_relative = 1e-12);
        assert!(rise((f64::NAN, 1.0), (6e-6, 0.0), si(0.05), si(2.0)).is_err());
        assert!(rise((6e-6, 1.0), (6e-6, 0.0), si(0.0), si(2.0)).is_err());
    }
}
