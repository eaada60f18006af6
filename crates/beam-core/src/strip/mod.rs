//! The pencil check: one strip across the roof, with its braces.

mod arch;
mod banded;
mod beam;
mod error;
mod gamma;
mod line;
pub mod solver;
mod width;

pub use arch::{Arch, ArchEnds, ArchLoad, ArchState};
pub use beam::{BendingTest, Sag, SandwichBeam, stiffness_from_tests};
pub use error::StripError;
pub use gamma::{GammaSection, PartialBond};
pub use line::{CurvedLine, LineLoad, LineState};
pub use width::{effective_sides, effective_width, shear_beside_load, spread_factor, tributary_width};
