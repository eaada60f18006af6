//! Demand over limit, and the verdict.
//!
//! A check that was not made never counts as passed; NaN, a negative limit and "out of range" never hold.

mod brace;
mod context;
mod document;
mod finding;
mod finite;
mod foot;
mod loose;
mod panel;
mod panel_limits;
mod prop;
mod rim;
mod sag;
mod seat;
mod trimmer;
mod verdict;

pub(crate) use brace::{TubeStrength, brace_findings, tube_strength};
pub(crate) use context::{CaseState, Context};
pub use document::*;
pub(crate) use finding::{Check, Cure, Finding, Key, Ledger, Outcome, RATIO_CAP};
pub use finite::{Finite, NotFinite};
pub(crate) use foot::{FootPlace, Untried, foot_findings};
pub(crate) use loose::{LoosePatch, held, loose_findings, loose_patches};
pub(crate) use panel::{Unknown, panel_findings};
pub(crate) use panel_limits::{CoreLimits, PanelLimits, SkinLimits, WrinklingLimits};
pub(crate) use prop::{PropLoad, prop_findings};
pub(crate) use rim::rim_findings;
pub(crate) use sag::sag_findings;
pub(crate) use trimmer::{joint_forces, trimmer_findings};
pub(crate) use verdict::{Asked, brace_needed, counts, deciding, outcome_of, ratios, verdict};
