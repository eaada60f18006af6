//! Demand over limit, and the verdict.
//!
//! A check that was not made never counts as passed; NaN, a negative limit and "out of range" never hold.

mod document;
mod finite;

pub use document::*;
pub use finite::{Finite, NotFinite};
