//! Limits of aluminium tube members, one folder a rule book. Formats are never mixed in one check.

pub mod adm;
pub mod en1999;
mod geometry;

pub use geometry::RectangularTube;
