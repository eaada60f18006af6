//! The pencil check: one strip across the roof, with its braces.

mod arch;
mod banded;
mod beam;
mod cut;
mod error;
mod gamma;
mod large;
mod line;
mod shallow;
mod snap;
pub mod solver;
mod width;

pub use arch::{Arch, ArchEnds, ArchLoad, ArchState, Station};
pub use beam::{BendingTest, Sag, SandwichBeam, stiffness_from_tests};
pub(crate) use cut::{StripPlace, cut_strip};
pub use error::StripError;
pub use gamma::{GammaSection, PartialBond};
pub use line::{CurvedLine, LineLoad, LineState};
pub use shallow::{
    ShallowEnds, ShallowLoad, ShallowSnap, SnapKind, arch_sway_pressure, shallow_snap, sine_arch_snap,
};
pub use snap::{LargeState, Snap};
pub use width::{effective_sides, effective_width, shear_beside_load, spread_factor, tributary_width};
pub(crate) use width::{effective_sides_si, spread_factor_si};
