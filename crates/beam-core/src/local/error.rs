//! What can be wrong with a local problem.

use thiserror::Error;

/// Why a local value could not be given.
#[derive(Debug, Clone, PartialEq, Error)]
#[non_exhaustive]
pub enum LocalError {
    /// A quantity lies outside what the method is valid for.
    #[error("{quantity} is {value}: {allowed}")]
    OutOfRange {
        /// What was given, with its SI unit.
        quantity: &'static str,
        /// The value given, SI.
        value: f64,
        /// What is allowed and, where it helps, what to do.
        allowed: &'static str,
    },
    /// The integral did not settle.
    #[error(
        "local field did not settle: last change {change:.1e} of the peak, wanted {wanted:.1e}; give the foot as a smaller patch or check it by test"
    )]
    NotSettled {
        /// Relative change of the largest peak between the last two refinements.
        change: f64,
        /// What was wanted.
        wanted: f64,
    },
}

/// The value, if it is finite and above zero.
pub(crate) fn positive(quantity: &'static str, value: f64) -> Result<f64, LocalError> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(LocalError::OutOfRange { quantity, value, allowed: "must be a finite number above zero" })
    }
}

/// Poisson's ratio of an isotropic foam, if the layer formulas hold for it.
pub(crate) fn foam_poisson(value: f64) -> Result<f64, LocalError> {
    if (0.0..=0.45).contains(&value) {
        Ok(value)
    } else {
        Err(LocalError::OutOfRange {
            quantity: "Poisson's ratio of the foam",
            value,
            allowed: "must lie between 0 and 0.45",
        })
    }
}
