//! Materials of layers: a row of the tables, or the survey's own.

use crate::quantity::{Density, Pressure};

/// What the strengths of an own material are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OwnStrength {
    /// 5-percent values.
    FivePercent,
    /// Means.
    Mean,
}

/// A material described in the survey itself; what is absent is not known.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnMaterial {
    /// Key under `[material.KEY]`.
    pub id: String,
    /// Modulus along the grain (or in every direction).
    pub e1: Pressure,
    /// Modulus across the grain; equal to `e1` if isotropic.
    pub e2: Pressure,
    /// Flexural modulus along the grain, if given.
    pub e1_flexural: Option<Pressure>,
    /// Flexural modulus across the grain, if given.
    pub e2_flexural: Option<Pressure>,
    /// Major Poisson's ratio.
    pub nu12: f64,
    /// In-plane shear modulus; absent: isotropic rule E/2(1+nu).
    pub g12: Option<Pressure>,
    /// Transverse shear modulus along the grain.
    pub g13: Option<Pressure>,
    /// Transverse shear modulus across the grain.
    pub g23: Option<Pressure>,
    /// Tension strength.
    pub tension: Option<Pressure>,
    /// Compression strength.
    pub compression: Option<Pressure>,
    /// Bending strength.
    pub bending: Option<Pressure>,
    /// Shear strength (of a core: transverse; of a skin: in its plane).
    pub shear: Option<Pressure>,
    /// Crushing stress at 10 % strain.
    pub crush: Option<Pressure>,
    /// What the strengths are.
    pub strength_is: OwnStrength,
    /// Density; absent: 0, said.
    pub density: Option<Density>,
}

/// A material of a layer.
#[derive(Debug, Clone, PartialEq)]
pub enum LayerMaterial {
    /// A row of the tables.
    Table(Box<section_tables::Material>),
    /// The survey's own.
    Own(Box<OwnMaterial>),
}

impl LayerMaterial {
    /// Its id.
    pub fn id(&self) -> &str {
        match self {
            LayerMaterial::Table(m) => &m.id,
            LayerMaterial::Own(m) => &m.id,
        }
    }
}
