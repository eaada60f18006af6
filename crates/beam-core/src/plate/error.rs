//! What the two-way model refuses, with the value, what is allowed and the remedy.

/// Why the two-way model gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PlateError {
    /// A number outside what the model can use.
    #[error("{what} is {value}; allowed: {allowed}")]
    BadNumber {
        /// The quantity, with its unit.
        what: String,
        /// Its value.
        value: f64,
        /// What would be accepted.
        allowed: &'static str,
    },
    /// A line or point of the model is not on the grid.
    #[error(
        "{what} at {at:.4} m is on no grid line (nearest {nearest:.4} m); add it to the lines the grid must hit"
    )]
    OffTheGrid {
        /// What was placed.
        what: String,
        /// Where, m.
        at: f64,
        /// The nearest grid line, m.
        nearest: f64,
    },
    /// A load or support lies where there is no panel.
    #[error("{what} at ({x:.3} m, {y:.3} m) lies where there is no panel; move it onto the roof")]
    NoPanel {
        /// What was placed.
        what: String,
        /// Across, m.
        x: f64,
        /// Along, m.
        y: f64,
    },
    /// Something can move without resistance.
    #[error(
        "not stable: {unknown} at ({x:.3} m, {y:.3} m) meets no resistance; add a support or a layer there"
    )]
    NotStable {
        /// The unknown that is free.
        unknown: &'static str,
        /// Across, m.
        x: f64,
        /// Along, m.
        y: f64,
    },
    /// Contacts that only push would have to pull: the roof lifts off, or a loose brace falls.
    #[error(
        "nothing keeps the roof, or a brace that only lies against it, in place under this load: {pulling} of \
         {contacts} contacts that can only push would have to pull; give a hold-down"
    )]
    LiftsOff {
        /// Contacts that would have to pull.
        pulling: usize,
        /// Contacts in all.
        contacts: usize,
    },
    /// The equations were solved, but the answer does not satisfy them.
    #[error(
        "the solved equations leave a residual of {residual:e} (at most {allowed:e}); stiffnesses differ too widely"
    )]
    Residual {
        /// Relative residual found.
        residual: f64,
        /// The largest accepted.
        allowed: f64,
    },
    /// Two states of one roof do not share their unknowns.
    #[error("the other state has {what}; build a new model for it")]
    OtherLayout {
        /// What differs.
        what: &'static str,
    },
}

/// `value` if it is finite and satisfies `ok`, else the error that names it.
pub(crate) fn checked(
    what: &str,
    value: f64,
    allowed: &'static str,
    ok: impl Fn(f64) -> bool,
) -> Result<f64, PlateError> {
    if value.is_finite() && ok(value) {
        Ok(value)
    } else {
        Err(PlateError::BadNumber { what: what.to_owned(), value, allowed })
    }
}
