//! What can be wrong with a cross-section.

/// A cross-section that cannot be worked out.
///
/// Each message carries the value found, what is allowed, and what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SectionError {
    /// A number lies outside what the formula holds for.
    #[error("{what} is {value:.6} {unit}; allowed: {allowed}; {remedy}")]
    OutOfRange {
        /// The quantity, with the layer it belongs to where there are several.
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
    /// Nothing that is left carries direct stress.
    #[error(
        "of {layers} layers none carries direct stress; allowed: at least one; \
         count the core's own stiffness, or treat the place as an opening"
    )]
    NothingCarries {
        /// How many layers were given.
        layers: usize,
    },
}

impl SectionError {
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
) -> Result<f64, SectionError> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(SectionError::out_of_range(what, value, unit, "a finite number above 0", remedy))
    }
}
