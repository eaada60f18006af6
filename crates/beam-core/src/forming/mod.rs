//! Bringing a brace to the curve of the crown: how it is bent, whether it can be, and how things sit on the curve.
//!
//! A crown is so gentle that a tube bent to it springs back almost straight: it has to be bent much further. How
//! far depends on the yield strength of the very piece, so every answer has a range and ends on a template.

mod arc;
mod bend_limits;
mod error;
mod fit;
mod seating;
mod springback;
mod sprung;

pub use arc::Arc;
pub use bend_limits::{BendLimit, BendLimits, Dishing};
pub use error::FormingError;
pub use fit::{ArcFit, Ordinates, SHIM_FROM};
pub use seating::{Seat, Seating};
pub use springback::{BentSection, Metal};
pub use sprung::Sprung;
