//! Stock tubes.

use std::fmt;

use crate::SourceKind;

/// The quantities a tube is drawn in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TubeSystem {
    /// Sizes in inches.
    Inch,
    /// Sizes in millimetres.
    Metric,
}

impl fmt::Display for TubeSystem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Inch => "in",
            Self::Metric => "mm",
        })
    }
}

/// One stock tube (`tubes/inch.csv`, `tubes/metric.csv`).
///
/// A 1/8 in wall (3.175 mm) and a 3.2 mm wall are two tubes.
///
/// # Units
/// Every size in the unit of `system`.
#[derive(Debug, Clone, PartialEq)]
pub struct Tube {
    /// Width x depth x wall, as said in the trade.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// The quantities of the sizes below.
    pub system: TubeSystem,
    /// Outside, across the bending plane.
    pub width: f64,
    /// Outside, in the bending plane.
    pub depth: f64,
    /// Wall thickness, nominal.
    pub wall: f64,
    /// Outside corner radius; 0 is a sharp corner.
    pub corner: f64,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far the size can be traced.
    pub kind: SourceKind,
}
