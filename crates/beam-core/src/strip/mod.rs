//! The pencil check: one strip across the roof, with its braces.

mod banded;
mod error;
pub mod solver;

pub use error::StripError;
