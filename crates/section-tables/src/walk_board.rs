//! Boards to stand on.

use crate::{SourceKind, ThicknessUnit};

/// One stock board (`walk_boards.csv`); the first is the default.
#[derive(Debug, Clone, PartialEq)]
pub struct WalkBoard {
    /// Short x long x thickness.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// Longer side, in `unit`; the grain of the faces runs along it.
    pub long: f64,
    /// Shorter side, in `unit`.
    pub short: f64,
    /// Thickness, in `unit`.
    pub thickness: f64,
    /// The unit of the three sizes.
    pub unit: ThicknessUnit,
    /// Id of a material.
    pub material: String,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far it can be traced.
    pub kind: SourceKind,
}
