//! Limits, one failure mode a file.
//!
//! A function here knows materials and shapes, never loads. It returns a [`Limit`]: the mode, the number and the
//! [`Basis`] it rests on; or [`OutOfRange`], when its rule does not speak about the case. Factors that live in tables
//! (duration, heat, partial factors) are passed in, each with its own basis, through [`format::Factored`].

pub mod aluminium;
mod basis;
pub mod core;
pub mod fall_through;
pub mod foam;
pub mod format;
pub mod frequency;
pub mod glue_line;
pub mod hold_down;
pub mod ponding;
mod range;
pub mod seat;
pub mod skin;
pub mod thermal_bow;
pub mod thermal_joint;
pub mod void;
pub mod wood;
pub mod wood_member;
pub mod wood_screw;
pub mod wrinkling;

pub use basis::{Basis, BasisKind, Limit};
pub use range::OutOfRange;
pub(crate) use range::{at_least_zero, positive, within};
