//! Quantities: what uom has, what it lacks, how people write them and how a tape shows them.
//!
//! All quantities are stored in SI base units as `f64`; `.value` is the SI number. Kernels inside the crate
//! work on that number; every public signature uses the aliases of this module.

mod alias;
mod family;

pub use alias::*;
pub use family::Family;
