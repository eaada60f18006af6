//! Further loads.

use super::Patch;
use crate::quantity::Mass;

/// Kind of a load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoadKind {
    /// Stays on: road-shaken, creeps.
    Fixed,
    /// A person.
    Person,
    /// Snow.
    Snow,
    /// A test weight.
    Test,
}

/// A load of its own: panel, rack foot, second unit, test weight.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// Unique name.
    pub name: String,
    /// Its mass.
    pub mass: Mass,
    /// Where.
    pub patch: Patch,
    /// Kind.
    pub kind: LoadKind,
}
