//! What a shop's bender takes.

use serde::Deserialize;

use crate::SourceKind;
use crate::read::positive;

/// A set of dies or rolls of a shop's bender (`dies.csv`; the shipped table has no rows).
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Die {
    /// What the shop calls it.
    pub id: String,
    /// Outside width of the tube it takes, across the bending plane, mm.
    #[serde(deserialize_with = "positive")]
    pub width_mm: f64,
    /// Outside depth of the tube it takes, in the bending plane, mm.
    #[serde(deserialize_with = "positive")]
    pub depth_mm: f64,
    /// Smallest radius of the tube's centre line that it bends to, before it springs back, mm.
    #[serde(deserialize_with = "positive")]
    pub least_radius_mm: f64,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far it can be traced.
    pub kind: SourceKind,
}
