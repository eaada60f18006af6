//! Openings in the roof.

use super::{LayerMaterial, Patch};
use crate::quantity::Length;

/// Frame round an opening, between the skins.
#[derive(Debug, Clone)]
pub struct OpeningFrame {
    /// Width of the frame pieces.
    pub width: Length,
    /// What they are made of.
    pub material: LayerMaterial,
}

/// A hole through the whole roof.
#[derive(Debug, Clone)]
pub struct Opening {
    /// Unique name.
    pub name: String,
    /// Where.
    pub patch: Patch,
    /// Frame; `None`: unframed.
    pub frame: Option<OpeningFrame>,
}
