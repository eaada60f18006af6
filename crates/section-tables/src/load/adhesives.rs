//! `adhesives.csv`.

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, number, positive};
use crate::{Adhesive, SourceKind};

#[derive(Deserialize)]
struct AdhesiveRow {
    id: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    #[serde(deserialize_with = "positive")]
    shear_modulus_low_mpa: f64,
    #[serde(deserialize_with = "positive")]
    shear_modulus_default_mpa: f64,
    #[serde(deserialize_with = "positive")]
    shear_modulus_high_mpa: f64,
    #[serde(deserialize_with = "number")]
    shear_short_low_mpa: f64,
    #[serde(deserialize_with = "number")]
    shear_short_default_mpa: f64,
    #[serde(deserialize_with = "number")]
    shear_short_high_mpa: f64,
    #[serde(deserialize_with = "number")]
    shear_permanent_low_mpa: f64,
    #[serde(deserialize_with = "number")]
    shear_permanent_default_mpa: f64,
    #[serde(deserialize_with = "number")]
    shear_permanent_high_mpa: f64,
    #[serde(deserialize_with = "number")]
    heat_limit_c: f64,
    #[serde(deserialize_with = "positive")]
    cure_hours: f64,
    #[serde(deserialize_with = "number")]
    cure_at_c: f64,
    heat_note: String,
    source: String,
    kind: SourceKind,
}

const COLUMNS: [&str; 17] = [
    "id",
    "names",
    "shear_modulus_low_mpa",
    "shear_modulus_default_mpa",
    "shear_modulus_high_mpa",
    "shear_short_low_mpa",
    "shear_short_default_mpa",
    "shear_short_high_mpa",
    "shear_permanent_low_mpa",
    "shear_permanent_default_mpa",
    "shear_permanent_high_mpa",
    "heat_limit_c",
    "cure_hours",
    "cure_at_c",
    "heat_note",
    "source",
    "kind",
];

pub(super) fn read(loader: &mut Loader<'_>) -> Vec<Adhesive> {
    let rows = loader.rows::<AdhesiveRow>("adhesives.csv", &COLUMNS);
    let adhesives = rows.into_iter().map(|Row { place, cells: row }| {
        let kind = loader.origin(&place, &row.source, row.kind);
        let mut band = |what: &str, numbers| loader.band(&place, what, numbers, &row.source, kind);
        let shear_modulus_mpa = band(
            "shear_modulus_mpa",
            [row.shear_modulus_low_mpa, row.shear_modulus_default_mpa, row.shear_modulus_high_mpa],
        );
        let shear_short_mpa = band(
            "shear_short_mpa",
            [row.shear_short_low_mpa, row.shear_short_default_mpa, row.shear_short_high_mpa],
        );
        let shear_permanent_mpa = band(
            "shear_permanent_mpa",
            [row.shear_permanent_low_mpa, row.shear_permanent_default_mpa, row.shear_permanent_high_mpa],
        );
        let cells = Adhesive {
            id: row.id,
            names: row.names,
            shear_modulus_mpa,
            shear_short_mpa,
            shear_permanent_mpa,
            heat_limit_c: row.heat_limit_c,
            cure_hours: row.cure_hours,
            cure_at_c: row.cure_at_c,
            heat_note: row.heat_note,
            source: row.source,
            kind,
        };
        Row { place, cells }
    });
    let adhesives = adhesives.collect();
    loader.unique(adhesives)
}
