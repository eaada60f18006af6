//! `alloys/yield_met.csv`.

use super::Loader;
use crate::read::Row;
use crate::{Alloy, YieldMet};

const COLUMNS: [&str; 6] = ["id", "typical_ksi", "high_ksi", "source", "kind", "note"];

pub(super) fn read(loader: &mut Loader<'_>, alloys: &[Alloy]) -> Vec<YieldMet> {
    let mut rows = loader.rows::<YieldMet>("alloys/yield_met.csv", &COLUMNS);
    for Row { place, cells: row } in &mut rows {
        row.kind = loader.origin(place, &row.source, row.kind);
        match alloys.iter().find(|alloy| alloy.id == row.id) {
            None => loader.fault(place, &row.id, "is no id of alloys/adm_2020.csv"),
            Some(alloy) if row.typical_ksi < alloy.f_ty_ksi || row.high_ksi < row.typical_ksi => {
                let why = "minimum <= typical_ksi <= high_ksi does not hold";
                loader.fault(place, &row.id, why);
            }
            Some(_) => {}
        }
    }
    loader.unique(rows)
}
