//! The one gate through which numbers reach a result document.

use serde::Serialize;

/// A finite number. `serde_json` writes NaN as `null`; this type makes that impossible.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct Finite(f64);

/// A number that was not finite, with what it was.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{what} came out as {value}: the result is not usable")]
pub struct NotFinite {
    /// What the number is.
    pub what: String,
    /// Its value.
    pub value: f64,
}

impl Finite {
    /// Checks a number.
    ///
    /// # Errors
    /// [`NotFinite`] for NaN and infinities.
    pub fn new(value: f64, what: &str) -> Result<Finite, NotFinite> {
        // `+ 0.0` turns a negative zero into zero.
        if value.is_finite() {
            Ok(Finite(value + 0.0))
        } else {
            Err(NotFinite { what: what.to_owned(), value })
        }
    }
    /// The number.
    pub fn get(self) -> f64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::Finite;

    #[test]
    fn nan_and_infinity_do_not_pass() {
        assert!(Finite::new(f64::NAN, "sag").is_err());
        assert!(Finite::new(f64::NEG_INFINITY, "sag").is_err());
        assert_eq!(Finite::new(-0.0, "sag").unwrap().get().to_bits(), 0.0f64.to_bits());
    }
}
