//! Road, weather, service life; limits.

use crate::quantity::{Celsius, Length, Pressure};

/// Road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Road {
    /// Paved.
    Smooth,
    /// Mixed.
    Mixed,
    /// Rough.
    Rough,
    /// An own total factor on all fixed mass.
    Factor(f64),
}

/// Kind of snow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SnowKind {
    /// Fresh and light.
    Fluffy,
    /// Settled.
    Average,
    /// Wet or packed.
    Wet,
}

/// Snow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Snow {
    /// None: clear all snow.
    None,
    /// A pressure.
    Pressure(Pressure),
    /// A depth.
    Depth {
        /// Depth.
        depth: Length,
        /// Kind.
        kind: SnowKind,
    },
}

/// What the roof lives through.
#[derive(Debug, Clone, PartialEq)]
pub struct Conditions {
    /// Road.
    pub road: Road,
    /// Snow.
    pub snow: Snow,
    /// Uplift on the road, if given.
    pub wind: Option<Pressure>,
    /// Temperature of the roof in the sun.
    pub roof_hot: Celsius,
    /// Coldest.
    pub cold: Option<Celsius>,
    /// Temperature at gluing.
    pub glued_at: Option<Celsius>,
    /// Years in service.
    pub years: f64,
}

/// A limit on sag.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SagLimit {
    /// Span divided by this.
    SpanOver(f64),
    /// A length.
    Length(Length),
}

/// Rule book for aluminium.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AluminiumRules {
    /// Aluminum Design Manual 2020, allowable strength design.
    Adm2020Asd,
    /// Aluminum Design Manual 2020, load and resistance factor design.
    Adm2020Lrfd,
    /// EN 1999-1-1.
    En1999,
}

impl AluminiumRules {
    /// As the survey names it.
    pub fn name(self) -> &'static str {
        match self {
            AluminiumRules::Adm2020Asd => "ADM 2020 ASD",
            AluminiumRules::Adm2020Lrfd => "ADM 2020 LRFD",
            AluminiumRules::En1999 => "EN 1999-1-1",
        }
    }
}

/// Limits chosen by the user.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    /// Short standing loads.
    pub sag: SagLimit,
    /// With creep.
    pub sag_lasting: SagLimit,
    /// Rule book for aluminium.
    pub aluminium: AluminiumRules,
    /// National values of `gamma_M1` and `gamma_M2` of EN 1999-1-1, where they are not the recommended ones.
    pub partial_factors: [Option<f64>; 2],
    /// On every demand.
    pub model_factor: f64,
}
