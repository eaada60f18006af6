//! `alloys/en_1999_1_1.csv`: one row a range of wall thickness, the rows of an alloy together.

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, number, positive};
use crate::{BucklingClass, EnAlloy, EnStrength, SourceKind};

#[derive(Deserialize)]
struct RangeRow {
    id: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    #[serde(deserialize_with = "number")]
    wall_over_mm: f64,
    #[serde(deserialize_with = "positive")]
    wall_to_mm: f64,
    #[serde(deserialize_with = "positive")]
    f_o_mpa: f64,
    #[serde(deserialize_with = "positive")]
    f_u_mpa: f64,
    #[serde(deserialize_with = "positive")]
    f_o_haz_mpa: f64,
    #[serde(deserialize_with = "positive")]
    f_u_haz_mpa: f64,
    #[serde(deserialize_with = "positive")]
    elongation_percent: f64,
    #[serde(deserialize_with = "positive")]
    n_p: f64,
    buckling_class: BucklingClass,
    #[serde(deserialize_with = "positive")]
    e_mpa: f64,
    #[serde(deserialize_with = "positive")]
    g_mpa: f64,
    #[serde(deserialize_with = "positive")]
    density_kg_m3: f64,
    source: String,
    kind: SourceKind,
    note: String,
}

const COLUMNS: [&str; 17] = [
    "id",
    "names",
    "wall_over_mm",
    "wall_to_mm",
    "f_o_mpa",
    "f_u_mpa",
    "f_o_haz_mpa",
    "f_u_haz_mpa",
    "elongation_percent",
    "n_p",
    "buckling_class",
    "e_mpa",
    "g_mpa",
    "density_kg_m3",
    "source",
    "kind",
    "note",
];

pub(super) fn read(loader: &mut Loader<'_>) -> Vec<EnAlloy> {
    let mut alloys: Vec<Row<EnAlloy>> = Vec::new();
    for Row { place, cells: row } in loader.rows::<RangeRow>("alloys/en_1999_1_1.csv", &COLUMNS) {
        let kind = loader.origin(&place, &row.source, row.kind);
        if row.wall_over_mm >= row.wall_to_mm {
            loader.fault(&place, row.wall_to_mm.to_string(), "wall_to_mm must be more than wall_over_mm");
        }
        let range = EnStrength {
            wall_over_mm: row.wall_over_mm,
            wall_to_mm: row.wall_to_mm,
            f_o_mpa: row.f_o_mpa,
            f_u_mpa: row.f_u_mpa,
            f_o_haz_mpa: row.f_o_haz_mpa,
            f_u_haz_mpa: row.f_u_haz_mpa,
            elongation_percent: row.elongation_percent,
            n_p: row.n_p,
            buckling_class: row.buckling_class,
            e_mpa: row.e_mpa,
            g_mpa: row.g_mpa,
            density_kg_m3: row.density_kg_m3,
            source: row.source,
            kind,
            note: row.note,
        };
        match alloys.last_mut().map(|alloy| &mut alloy.cells).filter(|alloy| alloy.id == row.id) {
            Some(alloy) => {
                if alloy.ranges.last().is_some_and(|last| last.wall_to_mm > range.wall_over_mm) {
                    let why = "the ranges of one alloy rise and do not overlap";
                    loader.fault(&place, range.wall_over_mm.to_string(), why);
                }
                if !row.names.is_empty() {
                    let why = "other names stand on the first row of an alloy only";
                    loader.fault(&place, row.names.join("; "), why);
                }
                alloy.ranges.push(range);
            }
            None => {
                let cells = EnAlloy { id: row.id, names: row.names, ranges: vec![range] };
                alloys.push(Row { place, cells });
            }
        }
    }
    loader.unique(alloys)
}
