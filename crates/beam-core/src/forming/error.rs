//! What can be wrong with a bend.

use crate::quantity::Outside;

/// A bend that cannot be worked out.
///
/// Each message carries the value found, what is allowed, and the way out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FormingError {
    /// A number lies outside what the rule holds for.
    #[error(transparent)]
    OutOfRange(#[from] Outside),
    /// Too few ordinates to tell an arc from a bump.
    #[error(
        "{count} ordinates do not show a curve; allowed: 5 to 200, evenly spaced, both ends included; \
         measure one about every foot"
    )]
    FewOrdinates {
        /// How many there are.
        count: usize,
    },
    /// The ordinates bend the wrong way, or lie on a straight line.
    #[error(
        "the ordinates do not rise to a crown: the curve nearest to them has its middle {middle:.4} m above its ends; \
         allowed: above 0; measure up from the string to the roof, on a sound bay, or give the rise wanted"
    )]
    NoCrown {
        /// Height of the middle of the nearest curve above its ends, m.
        middle: f64,
    },
    /// No circle comes near the ordinates.
    #[error(
        "the ordinates are no arc: the best one gaps {gap:.4} m over a rise of {rise:.4} m; allowed: a third of the rise; \
         measure again on a sound bay, or bend to a template scribed off the roof"
    )]
    NoArc {
        /// Largest gap, m.
        gap: f64,
        /// Rise of the best arc, m.
        rise: f64,
    },
}

pub(super) fn out_of_range(
    what: &'static str,
    value: f64,
    unit: &'static str,
    allowed: impl Into<String>,
    remedy: &'static str,
) -> FormingError {
    Outside::new(what, value, unit, allowed, remedy).into()
}
