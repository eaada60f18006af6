//! `rack.csv`.

use super::Loader;
use crate::lookup::find;
use crate::read::Row;
use crate::{Alloy, RackTube, Tube};

pub(super) fn read(loader: &mut Loader<'_>, tubes: &[Tube], alloys: &[Alloy]) -> Vec<RackTube> {
    let columns = ["id", "tube", "alloy", "kg_per_m", "price_per_m", "currency", "source", "kind"];
    let mut rows = loader.rows::<RackTube>("rack.csv", &columns);
    let mut currency: Option<String> = None;
    for Row { place, cells } in &mut rows {
        cells.kind = loader.origin(place, &cells.source, cells.kind);
        match find(tubes, "tube", &cells.tube) {
            Ok(tube) => cells.tube.clone_from(&tube.id),
            Err(error) => loader.fault(place, &cells.tube, error.to_string()),
        }
        match find(alloys, "alloy", &cells.alloy) {
            Ok(alloy) => cells.alloy.clone_from(&alloy.id),
            Err(error) => loader.fault(place, &cells.alloy, error.to_string()),
        }
        if cells.price_per_m.is_none() {
            continue;
        }
        let first = currency.get_or_insert_with(|| cells.currency.clone());
        if cells.currency.is_empty() {
            loader.fault(place, "currency", "is empty; a price needs one");
        } else if *first != cells.currency {
            loader.fault(
                place,
                &cells.currency,
                format!("is another currency than {first} above; write all prices in one"),
            );
        }
    }
    loader.unique(rows)
}
