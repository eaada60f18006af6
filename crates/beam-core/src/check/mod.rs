//! Demand over limit, and the verdict.
//!
//! A check that was not made never counts as passed; NaN, a negative limit and "out of range" never hold.

mod arch;
mod brace;
mod brace_ends;
#[cfg(test)]
mod brace_tests;
mod context;
mod document;
mod edge_bearing;
mod fatigue;
mod finding;
mod finite;
mod foot;
mod foot_at_edge;
mod frequency;
mod hold_down;
mod joint;
mod loose;
mod made_with;
mod pads;
mod panel;
mod panel_limits;
mod prop;
mod rafter;
mod rim;
mod sag;
mod screws;
mod seat;
mod sprung;
mod thermal;
mod trimmer;
mod tube;
mod verdict;
mod work;
pub(crate) mod working;

pub(crate) use arch::{Push, SMALL_THRUST, push};
pub(crate) use brace::brace_findings;
pub(crate) use context::{CaseState, Context};
pub use document::*;
pub(crate) use edge_bearing::{EdgeAsked, EdgePlaces, edge_findings};
pub(crate) use finding::{Check, Cure, Finding, Key, Ledger, Outcome, RATIO_CAP, is_worse};
pub use finite::{Finite, NotFinite};
pub(crate) use foot::{FootPlace, Untried, foot_findings};
pub(crate) use foot_at_edge::{AtEdge, foot_at_edge};
pub(crate) use frequency::frequency_finding;
pub(crate) use hold_down::hold_down_findings;
pub(crate) use joint::{beside_joints, joint_findings};
pub(crate) use loose::{LoosePatch, held, loose_findings, loose_patches};
pub use made_with::{MadeWith, own_tables};
pub(crate) use pads::pad_findings;
pub(crate) use panel::{Unknown, panel_findings};
pub(crate) use panel_limits::{CoreLimits, PanelLimits, SkinLimits, WrinklingLimits};
pub(crate) use prop::{PropLoad, prop_findings};
pub(crate) use rim::rim_findings;
pub(crate) use sag::sag_findings;
pub(crate) use screws::screw_limits;
pub(crate) use sprung::springing_in;
pub(crate) use thermal::{heat_in_tube, thermal_findings};
pub(crate) use trimmer::{joint_forces, trimmer_findings};
pub(crate) use tube::{Clauses, Resistance, resistance};
pub(crate) use tube::{TubeStrength, tube_strengths};
pub(crate) use verdict::{Asked, brace_needed, counts, deciding, outcome_of, ratios, verdict};
pub use work::{GlueWork, SeatForces, WallWork};
pub use working::{Cause, Step, Working};
