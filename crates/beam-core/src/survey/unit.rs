//! The rooftop unit.

use super::Patch;
use crate::quantity::{Length, Mass, Moment};

/// Which end of the unit is the heavy one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HeavyEnd {
    /// Front.
    Front,
    /// Rear.
    Rear,
    /// Left.
    Left,
    /// Right.
    Right,
}

/// A pad of the unit's base that rests on the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Pad {
    /// Where.
    pub patch: Patch,
    /// Share of the weight, 0 to 1.
    pub share: f64,
}

/// Mounting bolts.
#[derive(Debug, Clone, PartialEq)]
pub struct Bolts {
    /// How many.
    pub count: u32,
    /// Diameter.
    pub size: Length,
    /// Tightening torque.
    pub torque: Moment,
}

/// The rooftop unit.
#[derive(Debug, Clone)]
pub struct Unit {
    /// Mass.
    pub mass: Mass,
    /// Index of the opening it hangs over, if any.
    pub opening: Option<usize>,
    /// Width of the gasket ring that carries it.
    pub gasket_width: Length,
    /// Pads; their shares are taken from the ring.
    pub pads: Vec<Pad>,
    /// Heavy end; `None`: both ways are tried.
    pub heavy_end: Option<HeavyEnd>,
    /// Height of its mass above the roof.
    pub height: Option<Length>,
    /// Size of its base, across and along.
    pub base: Option<[Length; 2]>,
    /// Bolts.
    pub bolts: Option<Bolts>,
}
