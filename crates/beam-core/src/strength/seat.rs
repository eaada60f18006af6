//! A tube's end on its ledger.

use super::{Limit, OutOfRange, positive, wood::bearing_across_grain};
use crate::quantity::{Force, Length, Pressure, si};

/// Reaction a ledger bears under a tube's end: `k_c90 f_c90` times width and length of the seat. The extra length that
/// EN 1995-1-1 allows beside a bearing is not counted.
///
/// # Valid for
/// Even bearing; the strength is a design value.
///
/// # Errors
/// [`OutOfRange`] unless the sizes are above zero, and as [`bearing_across_grain`].
///
/// # References
/// EN 1995-1-1, 6.1.5 (from memory).
///
/// # Examples
/// ```
/// use beam_core::quantity::si;
/// use beam_core::strength::seat::seat_bearing;
/// let seat = seat_bearing(si(1.2e6), 1.0, si(0.025), si(0.020))?; // 1.2 x 25 x 20 = 600 N
/// assert!((seat.value.value - 600.0).abs() < 1e-9);
/// # Ok::<(), beam_core::strength::OutOfRange>(())
/// ```
pub fn seat_bearing(
    strength: Pressure,
    k_c90: f64,
    width: Length,
    length: Length,
) -> Result<Limit<Force>, OutOfRange> {
    const RULE: &str = "seat of a tube on its ledger";
    let w = positive(RULE, "width of the seat (m)", width.value)?;
    let l = positive(RULE, "length of the seat (m)", length.value)?;
    let stress = bearing_across_grain(strength, k_c90)?;
    Ok(Limit::new("seat bearing", si(stress.value.value * w * l), stress.basis))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_seat_bears_nothing_known() {
        assert!(seat_bearing(si(1.2e6), 1.0, si(0.025), si(0.0)).is_err());
        assert!(seat_bearing(si(f64::NAN), 1.0, si(0.025), si(0.02)).is_err());
    }
}
