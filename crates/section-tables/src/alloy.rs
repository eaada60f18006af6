//! Aluminium alloys and tempers.

use serde::Deserialize;

use crate::SourceKind;
use crate::read::{names, number, positive};

/// One alloy, temper and product, with the minimum strengths of the Aluminum Design Manual
/// (`alloys/adm_2020.csv`).
///
/// # Units
/// As in each field's name: ksi, lb/in3, in, percent.
///
/// # Valid for
/// Walls from `wall_min_in` to `wall_max_in`.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Alloy {
    /// Alloy and temper.
    pub id: String,
    /// Other names.
    #[serde(deserialize_with = "names")]
    pub names: Vec<String>,
    /// How it is made, with the product standard.
    pub product: String,
    /// Thinnest wall the strengths hold for.
    #[serde(deserialize_with = "number")]
    pub wall_min_in: f64,
    /// Thickest wall the strengths hold for.
    #[serde(deserialize_with = "positive")]
    pub wall_max_in: f64,
    /// Tension, ultimate.
    #[serde(deserialize_with = "positive")]
    pub f_tu_ksi: f64,
    /// Tension, yield.
    #[serde(deserialize_with = "positive")]
    pub f_ty_ksi: f64,
    /// Compression, yield.
    #[serde(deserialize_with = "positive")]
    pub f_cy_ksi: f64,
    /// Tension, ultimate, beside a weld.
    #[serde(deserialize_with = "positive")]
    pub f_tuw_ksi: f64,
    /// Tension, yield, beside a weld.
    #[serde(deserialize_with = "positive")]
    pub f_tyw_ksi: f64,
    /// Tension coefficient: rupture strength is divided by it.
    #[serde(deserialize_with = "positive")]
    pub k_t: f64,
    /// Modulus of elasticity.
    #[serde(deserialize_with = "positive")]
    pub e_ksi: f64,
    /// Shear modulus.
    #[serde(deserialize_with = "positive")]
    pub g_ksi: f64,
    /// Density.
    #[serde(deserialize_with = "positive")]
    pub density_lb_in3: f64,
    /// Smallest elongation at break.
    #[serde(deserialize_with = "positive")]
    pub elongation_percent: f64,
    /// Key of `sources.csv`.
    pub source: String,
    /// How far the strengths can be traced.
    pub kind: SourceKind,
    /// What else to know.
    pub note: String,
}
