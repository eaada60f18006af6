//! What braces and panel land on.

use super::LayerMaterial;
use crate::quantity::{ForcePerLength, Length, Pressure};

/// Condition of the landing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Condition {
    /// Sound.
    Sound,
    /// Soft to the awl.
    Soft,
    /// Not looked at.
    NotKnown,
}

/// Sideways hold of a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Thrust {
    /// None: the wall spreads.
    None,
    /// Full.
    Full,
    /// A spring: force per movement per metre of wall, N/m2.
    Spring(Pressure),
}

/// What braces and panel land on.
#[derive(Debug, Clone)]
pub struct Wall {
    /// Material of the ledger; `None`: not known.
    pub material: Option<LayerMaterial>,
    /// Depth of the ledger.
    pub depth: Option<Length>,
    /// Condition.
    pub condition: Condition,
    /// How far it can pull the roof down; `None`: it can only push up.
    pub hold_down: Option<ForcePerLength>,
    /// Sideways hold.
    pub thrust: Thrust,
}
