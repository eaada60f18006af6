//! What lies on a shop's rack.

use serde::Deserialize;

use crate::SourceKind;
use crate::read::positive_or_empty;

/// A tube that a shop has, or buys (`rack.csv`; the shipped table has no rows).
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct RackTube {
    /// What the shop calls it.
    pub id: String,
    /// Id of a [`Tube`](crate::Tube).
    pub tube: String,
    /// Id of an [`Alloy`](crate::Alloy).
    pub alloy: String,
    /// Mass per length as weighed, kg/m; where empty it follows from the tables.
    #[serde(deserialize_with = "positive_or_empty")]
    pub kg_per_m: Option<f64>,
    /// Price per length, in `currency`; may be empty.
    #[serde(deserialize_with = "positive_or_empty")]
    pub price_per_m: Option<f64>,
    /// Currency of the price, as the shop writes it: the same in every row that has a price.
    pub currency: String,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far it can be traced.
    pub kind: SourceKind,
}
