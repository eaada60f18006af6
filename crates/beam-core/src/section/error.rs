//! What can be wrong with a cross-section.

use crate::quantity::Outside;

/// A cross-section that cannot be worked out.
///
/// Each message carries the value found, what is allowed, and what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SectionError {
    /// A number lies outside what the formula holds for.
    #[error(transparent)]
    OutOfRange(#[from] Outside),
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
        Outside::new(what, value, unit, allowed, remedy).into()
    }
}
