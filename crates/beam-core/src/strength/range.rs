//! What a rule does not speak about.

use std::borrow::Cow;
use thiserror::Error;

/// A rule was asked outside its range: no number is given.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{clause}: {quantity} is {value}; {allowed}")]
pub struct OutOfRange {
    /// The rule.
    pub clause: &'static str,
    /// What lies outside, with its SI unit.
    pub quantity: &'static str,
    /// The value given, SI.
    pub value: f64,
    /// What the rule allows and, where it helps, what to do instead.
    pub allowed: Cow<'static, str>,
}

impl OutOfRange {
    pub(crate) fn new(
        clause: &'static str,
        quantity: &'static str,
        value: f64,
        allowed: impl Into<Cow<'static, str>>,
    ) -> Self {
        Self { clause, quantity, value, allowed: allowed.into() }
    }
}

/// The value, if finite and above zero.
pub(crate) fn positive(clause: &'static str, quantity: &'static str, value: f64) -> Result<f64, OutOfRange> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(OutOfRange::new(clause, quantity, value, "must be a finite number above zero"))
    }
}

/// The value, if finite and not below zero.
pub(crate) fn at_least_zero(
    clause: &'static str,
    quantity: &'static str,
    value: f64,
) -> Result<f64, OutOfRange> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(OutOfRange::new(clause, quantity, value, "must be a finite number, not below zero"))
    }
}

/// The value, if it lies in the closed range.
pub(crate) fn within(
    clause: &'static str,
    quantity: &'static str,
    value: f64,
    low: f64,
    high: f64,
) -> Result<f64, OutOfRange> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(OutOfRange::new(clause, quantity, value, format!("must lie between {low} and {high}")))
    }
}
