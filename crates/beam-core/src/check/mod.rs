//! Demand over limit, and the verdict.
//!
//! A check that was not made never counts as passed; NaN, a negative limit and "out of range" never hold.

mod document;
mod finding;
mod finite;
mod verdict;

pub use document::*;
pub(crate) use finding::{Check, Cure, Finding, Footing, Key, Ledger, Outcome, outcome};
pub use finite::{Finite, NotFinite};
pub(crate) use verdict::{Asked, brace_needed, counts, ratios, verdict};
