//! Limits of aluminium tube members, one folder a rule book. Formats are never mixed in one check.

pub mod adm;
mod geometry;

pub use geometry::SharpTube;
