//! What can be wrong with a strip.

use crate::quantity::Outside;

/// A strip, arch or line that cannot be worked out.
///
/// Each message carries the value found, what is allowed, and what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StripError {
    /// A number lies outside what the formula holds for.
    #[error(transparent)]
    OutOfRange(#[from] Outside),
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
        Outside::new(what, value, unit, allowed, remedy).into()
    }
}
