//! The pencil check: one strip across the roof, with its braces.

mod banded;
mod cut;
mod error;
pub mod solver;

pub(crate) use cut::{CutStrip, StripPlace, cut_strip};
pub use error::StripError;
