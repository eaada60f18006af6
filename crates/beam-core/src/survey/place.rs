//! Places on the roof: across from the inside face of the left wall, along from the front mark.

use crate::quantity::Length;

/// From one edge to the other, `from < to`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Nearer edge.
    pub from: Length,
    /// Farther edge.
    pub to: Length,
}

impl Interval {
    /// Length of the interval.
    pub fn size(&self) -> Length {
        self.to - self.from
    }
    /// Its middle.
    pub fn middle(&self) -> Length {
        (self.from + self.to) / 2.0
    }
    /// Whether the two share more than an edge.
    pub fn overlaps(&self, other: &Interval) -> bool {
        self.from < other.to && other.from < self.to
    }
}

/// A rectangle on the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Edges seen from the left wall.
    pub across: Interval,
    /// Edges seen from the front mark.
    pub along: Interval,
}

impl Patch {
    /// Whether the two share area.
    pub fn overlaps(&self, other: &Patch) -> bool {
        self.across.overlaps(&other.across) && self.along.overlaps(&other.along)
    }
}
