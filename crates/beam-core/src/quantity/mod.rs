//! Quantities: what uom has, what it lacks, how people write them and how a tape shows them.
//!
//! All quantities are stored in SI base units as `f64`; `.value` is the SI number. Kernels inside the crate
//! work on that number; every public signature uses the aliases of this module.
//!
//! A text becomes a number in [`read`] and nowhere else, a number becomes words for people in [`tape()`] and its
//! neighbours, and the constants beside them are the only conversion factors.

mod alias;
mod cursor;
mod diagnosis;
mod error;
mod feet;
mod grammar;
mod grouping;
mod number;
mod outside;
mod spelling;
mod tape;
mod typed;
mod units;
mod write;

#[cfg(test)]
mod tests;

pub use alias::*;
pub use error::{QuantityError, QuantityErrorKind};
pub use grammar::{Headers, read};
pub use outside::Outside;
pub(crate) use outside::{not_negative, positive};
pub use tape::{force, percent, radius, sag, significant, stress, tape, weight};
pub use typed::{
    read_density, read_force, read_force_per_length, read_length, read_moment, read_pressure, read_weight,
};
pub use units::{FOOT, Family, INCH, KIP, KSI, Measure, POUND, POUND_FORCE, PSF, PSI, STANDARD_GRAVITY};
pub use write::{LengthStyle, WeightStyle, write_length, write_weight};
