//! Places where an answer is wanted.

use crate::quantity::Length;

/// When a reading was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// With the unit on.
    UnitOn,
    /// With the unit off.
    UnitOff,
    /// Under the test weight.
    TestWeight,
}

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measured {
    /// Below the wanted shape.
    Dip(Length),
    /// Movement under the test weight.
    Moved(Length),
}

/// A place where an answer is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Unique name.
    pub name: String,
    /// Where across.
    pub across: Length,
    /// Where along.
    pub along: Length,
    /// What was measured there, if anything.
    pub measured: Option<Measured>,
    /// When.
    pub when: When,
}
