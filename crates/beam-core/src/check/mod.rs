//! Demand over limit, and the verdict.
//!
//! A check that was not made never counts as passed; NaN, a negative limit and "out of range" never hold.

mod brace;
mod brace_ends;
#[cfg(test)]
mod brace_tests;
mod context;
mod document;
mod fatigue;
mod finding;
mod finite;
mod foot;
mod loose;
mod panel;
mod panel_limits;
mod rafter;
mod rim;
mod sag;
mod screws;
mod seat;
mod tube;
mod verdict;

pub(crate) use brace::brace_findings;
pub(crate) use context::{CaseState, Context};
pub use document::*;
pub(crate) use finding::{Check, Cure, Finding, Key, Ledger, Outcome, RATIO_CAP};
pub use finite::{Finite, NotFinite};
pub(crate) use foot::{FootPlace, Untried, foot_findings};
pub(crate) use loose::{LoosePatch, held, loose_findings, loose_patches};
pub(crate) use panel::{Unknown, panel_findings};
pub(crate) use panel_limits::{CoreLimits, PanelLimits, SkinLimits, WrinklingLimits};
pub(crate) use rim::rim_findings;
pub(crate) use sag::sag_findings;
pub(crate) use screws::screw_limits;
pub(crate) use tube::{TubeStrength, tube_strengths};
pub(crate) use verdict::{Asked, brace_needed, counts, deciding, outcome_of, ratios, verdict};
