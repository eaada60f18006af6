//! Aluminium alloys by the European rules.

use std::fmt;

use serde::Deserialize;

use crate::SourceKind;

/// Buckling class of an alloy and temper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
pub enum BucklingClass {
    /// Class A.
    A,
    /// Class B.
    B,
}

impl fmt::Display for BucklingClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::A => "A",
            Self::B => "B",
        })
    }
}

/// The characteristic values of one alloy and temper for one range of wall thickness.
///
/// # Units
/// As in each field's name.
///
/// # Valid for
/// Walls over `wall_over_mm` up to and including `wall_to_mm`.
#[derive(Debug, Clone, PartialEq)]
pub struct EnStrength {
    /// Walls are thicker than this.
    pub wall_over_mm: f64,
    /// Walls are at most this thick.
    pub wall_to_mm: f64,
    /// 0.2 percent proof strength.
    pub f_o_mpa: f64,
    /// Ultimate strength.
    pub f_u_mpa: f64,
    /// 0.2 percent proof strength in the heat-affected zone of a weld.
    pub f_o_haz_mpa: f64,
    /// Ultimate strength in the heat-affected zone of a weld.
    pub f_u_haz_mpa: f64,
    /// Smallest elongation at break.
    pub elongation_percent: f64,
    /// Ramberg-Osgood exponent.
    pub n_p: f64,
    /// Buckling class.
    pub buckling_class: BucklingClass,
    /// Modulus of elasticity.
    pub e_mpa: f64,
    /// Shear modulus.
    pub g_mpa: f64,
    /// Density.
    pub density_kg_m3: f64,
    /// Keys of `sources.csv`.
    pub source: String,
    /// How far the strengths can be traced.
    pub kind: SourceKind,
    /// What else to know.
    pub note: String,
}

/// One alloy and temper with the values of EN 1999-1-1 (`alloys/en_1999_1_1.csv`).
#[derive(Debug, Clone, PartialEq)]
pub struct EnAlloy {
    /// Alloy and temper, spelt as in [`Alloy::id`](crate::Alloy::id).
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// By rising wall thickness.
    pub ranges: Vec<EnStrength>,
}

impl EnAlloy {
    /// The values for a wall, `None` where the standard's table ends.
    pub fn for_wall_mm(&self, wall: f64) -> Option<&EnStrength> {
        self.ranges.iter().find(|range| wall > range.wall_over_mm && wall <= range.wall_to_mm)
    }
}
