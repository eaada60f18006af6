//! What can be wrong with a strip.

/// A strip, arch or line that cannot be worked out.
///
/// Each message carries the value found, what is allowed, and what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StripError {
    /// A number lies outside what the formula holds for.
    #[error("{what} is {value:.6} {unit}; allowed: {allowed}; {remedy}")]
    OutOfRange {
        /// The quantity.
        what: String,
        /// The value found, in `unit`.
        value: f64,
        /// SI unit of `value`.
        unit: &'static str,
        /// What is allowed.
        allowed: String,
        /// What to do about it.
        remedy: &'static str,
    },
    /// Something moves without resistance.
    #[error("mechanism: {movement} at {x:.4} m from the left wall meets no resistance; {remedy}")]
    Mechanism {
        /// Which movement.
        movement: String,
        /// Where, m.
        x: f64,
        /// What to do about it.
        remedy: &'static str,
    },
}

impl StripError {
    pub(crate) fn out_of_range(
        what: impl Into<String>,
        value: f64,
        unit: &'static str,
        allowed: impl Into<String>,
        remedy: &'static str,
    ) -> Self {
        Self::OutOfRange { what: what.into(), value, unit, allowed: allowed.into(), remedy }
    }
}

/// Passes a finite number above zero, names anything else.
pub(crate) fn positive(
    what: impl Into<String>,
    value: f64,
    unit: &'static str,
    remedy: &'static str,
) -> Result<f64, StripError> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(StripError::out_of_range(what, value, unit, "a finite number above 0", remedy))
    }
}

/// Passes a finite number at or above zero, names anything else.
pub(crate) fn not_negative(
    what: impl Into<String>,
    value: f64,
    unit: &'static str,
    remedy: &'static str,
) -> Result<f64, StripError> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(StripError::out_of_range(what, value, unit, "a finite number, 0 or above", remedy))
    }
}
