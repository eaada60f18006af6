//! The person who will stand on the roof.

use super::LayerMaterial;
use crate::quantity::{Length, Mass};

/// How people will stand on the roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Only on a board.
    OnABoard,
    /// Without one.
    Bare,
    /// Not to be walked on.
    Nobody,
}

/// A walk board.
#[derive(Debug, Clone)]
pub struct Board {
    /// Size across and along.
    pub size: [Length; 2],
    /// Material.
    pub material: LayerMaterial,
    /// Thickness.
    pub thickness: Length,
}

/// The person of the verdict.
#[derive(Debug, Clone)]
pub struct Person {
    /// Mass with tools.
    pub mass: Mass,
    /// How they stand.
    pub way: Way,
    /// People at once, 600 mm apart.
    pub count: u32,
    /// The board.
    pub board: Board,
}
