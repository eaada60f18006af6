//! From survey to idealised roof; every simplification is recorded.
//!
//! Nothing is solved here. Heights `z` are measured up from one reference plane, the middle of the roof at the
//! crown, so that zones with a missing or crushed layer join the sound panel with the right offset.

mod hold;
mod idealise;
mod joint;
mod lay_up;
mod material;
mod member;
mod panel;
mod trimmer;

pub(crate) use hold::Hold;
pub(crate) use idealise::{
    Configuration, IdealRoof, Missing, StageChoice, idealise, kind_is_modelled, mended,
};
pub(crate) use joint::parts;
pub(crate) use lay_up::{LayUp, lay_up, panel_weight, slot_size, voids};
pub(crate) use material::{
    Known, Moduli, OWN_BOARD_CREEP, OWN_FOAM_CREEP, OWN_FOAM_HEAT, Strengths, Time, density, is_foam, moduli,
    strengths,
};
pub(crate) use member::{IdealBrace, MemberKind};
pub(crate) use panel::{LayerState, PanelState, Rect, Role, Zone, nearest_corner};
pub(crate) use trimmer::IdealTrimmer;
