//! The pencil check: one strip across the roof, with its braces.

mod banded;
mod beam;
mod error;
mod gamma;
pub mod solver;

pub use beam::{BendingTest, Sag, SandwichBeam, stiffness_from_tests};
pub use error::StripError;
pub use gamma::{GammaSection, PartialBond};
