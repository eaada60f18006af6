//! Safety, duration and load factors, and the standing assumptions of the trade.

use serde::Deserialize;

use crate::SourceKind;
use crate::read::number;

/// One factor or standing number (`factors.csv`).
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Factor {
    /// What [`Tables::factor`](crate::Tables::factor) is asked for.
    pub key: String,
    /// The number, in `unit`.
    #[serde(deserialize_with = "number")]
    pub value: f64,
    /// `-` for a bare factor, else N, mm, kg, kg/m3, C, 1/K, Hz.
    pub unit: String,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far it can be traced.
    pub kind: SourceKind,
    /// What it is for, and where it does not hold.
    pub note: String,
}
