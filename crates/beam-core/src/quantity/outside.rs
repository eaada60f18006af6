//! A number outside what a formula holds for.

/// A number that cannot be used.
///
/// Its message carries the value found, what is allowed, and what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{what} is {value:.6} {unit}; allowed: {allowed}; {remedy}")]
pub struct Outside {
    /// The quantity, with the part it belongs to where there are several.
    pub what: String,
    /// The value found, in `unit`.
    pub value: f64,
    /// SI unit of `value`.
    pub unit: &'static str,
    /// What is allowed.
    pub allowed: String,
    /// What to do about it.
    pub remedy: &'static str,
}

impl Outside {
    pub(crate) fn new(
        what: impl Into<String>,
        value: f64,
        unit: &'static str,
        allowed: impl Into<String>,
        remedy: &'static str,
    ) -> Self {
        Self { what: what.into(), value, unit, allowed: allowed.into(), remedy }
    }
}

/// Passes a finite number above zero, names anything else.
pub(crate) fn positive(
    what: impl Into<String>,
    value: f64,
    unit: &'static str,
    remedy: &'static str,
) -> Result<f64, Outside> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(Outside::new(what, value, unit, "a finite number above 0", remedy))
    }
}

/// Passes a finite number at or above zero, names anything else.
pub(crate) fn not_negative(
    what: impl Into<String>,
    value: f64,
    unit: &'static str,
    remedy: &'static str,
) -> Result<f64, Outside> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(Outside::new(what, value, unit, "a finite number, 0 or above", remedy))
    }
}
