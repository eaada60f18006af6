//! One layer of the build-up.

use super::LayerMaterial;
use crate::quantity::{Length, Mass};

/// Direction of a face grain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// Across the vehicle.
    Across,
    /// Along the vehicle.
    Along,
}

/// Bond to the layer below.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bonded {
    /// Sound to the tap.
    Yes,
    /// Loose.
    No,
    /// Not tapped.
    NotKnown,
}

/// Thickness at the walls and at the crown; equal unless tapered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thickness {
    /// At the walls.
    pub wall: Length,
    /// At the crown.
    pub crown: Length,
}

/// An offcut that was weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Its weight.
    pub weight: Mass,
    /// Its three sizes.
    pub size: [Length; 3],
}

/// One layer, from the weather side down.
#[derive(Debug, Clone)]
pub struct Layer {
    /// Unique name, e.g. "outer skin", "core", "inner skin".
    pub name: String,
    /// What it is made of.
    pub material: LayerMaterial,
    /// How thick.
    pub thickness: Thickness,
    /// Face grain; `None`: both are tried, the worse counts.
    pub grain: Option<Grain>,
    /// Bond to the layer below.
    pub bonded: Bonded,
    /// A weighed offcut, if any.
    pub sample: Option<Sample>,
}
