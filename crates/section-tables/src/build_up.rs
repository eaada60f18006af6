//! Build-ups met on the job: layers from the weather side down.

use std::fmt;

use serde::Deserialize;

/// The unit a thickness is given in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ThicknessUnit {
    /// Inch.
    In,
    /// Millimetre.
    Mm,
}

impl fmt::Display for ThicknessUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::In => "in",
            Self::Mm => "mm",
        })
    }
}

/// One layer of a build-up.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildUpLayer {
    /// 1 is the weather side.
    pub position: u32,
    /// Unique in its build-up: "outer skin", "backer", "core", "inner skin".
    pub name: String,
    /// Id of a material.
    pub material: String,
    /// Thickness in `thickness_unit`.
    pub thickness_value: f64,
    /// The unit of `thickness_value`.
    pub thickness_unit: ThicknessUnit,
}

/// A whole build-up (`buildups.csv`, one row a layer).
#[derive(Debug, Clone, PartialEq)]
pub struct BuildUp {
    /// The name that a survey gives.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// From the weather side down.
    pub layers: Vec<BuildUpLayer>,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far the build-up can be traced.
    pub kind: crate::SourceKind,
}
