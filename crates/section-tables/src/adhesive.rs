//! Glues.

use crate::{SourceKind, Value};

/// One glue (`adhesives.csv`).
///
/// The design strengths are for metal to plywood, prepared in a workshop; on foam the foam fails first.
#[derive(Debug, Clone, PartialEq)]
pub struct Adhesive {
    /// The name that a survey gives.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// Shear modulus of the bed, MPa.
    pub shear_modulus_mpa: Value,
    /// Design shear strength under a short load, MPa.
    pub shear_short_mpa: Value,
    /// Design shear strength under a lasting load, MPa.
    pub shear_permanent_mpa: Value,
    /// Temperature above which the strengths do not hold, degrees Celsius.
    pub heat_limit_c: f64,
    /// Hours to full strength at `cure_at_c` or warmer.
    pub cure_hours: f64,
    /// Coldest temperature at which it cures in `cure_hours`, degrees Celsius.
    pub cure_at_c: f64,
    /// What heat and cold do to it.
    pub heat_note: String,
    /// Keys of `sources.csv`.
    pub source: String,
    /// How far the numbers can be traced.
    pub kind: SourceKind,
}
