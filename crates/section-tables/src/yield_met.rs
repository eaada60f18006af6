//! Yield strengths as met, not as guaranteed.

use serde::Deserialize;

use crate::SourceKind;
use crate::read::positive;

/// Yield strength with which extrusions of an alloy are met (`alloys/yield_met.csv`).
///
/// What a bender feels: the higher the yield, the further a tube springs back. It is no strength to design with;
/// the least that is met is the minimum, [`Alloy::f_ty_ksi`](crate::Alloy::f_ty_ksi).
///
/// # Units
/// ksi.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct YieldMet {
    /// Alloy and temper: the id of an [`Alloy`](crate::Alloy).
    pub id: String,
    /// Typical yield.
    #[serde(deserialize_with = "positive")]
    pub typical_ksi: f64,
    /// High end of what is met.
    #[serde(deserialize_with = "positive")]
    pub high_ksi: f64,
    /// Keys of `sources.csv`.
    pub source: String,
    /// How far the numbers can be traced.
    pub kind: SourceKind,
    /// What else to know.
    pub note: String,
}
