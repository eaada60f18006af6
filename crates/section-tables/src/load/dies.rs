//! `dies.csv`.

use super::Loader;
use crate::Die;
use crate::read::Row;

pub(super) fn read(loader: &mut Loader<'_>) -> Vec<Die> {
    let columns = ["id", "width_mm", "depth_mm", "least_radius_mm", "source", "kind"];
    let mut rows = loader.rows::<Die>("dies.csv", &columns);
    for Row { place, cells } in &mut rows {
        cells.kind = loader.origin(place, &cells.source, cells.kind);
        if cells.least_radius_mm <= cells.depth_mm / 2.0 {
            loader.fault(
                place,
                cells.least_radius_mm.to_string(),
                "is not more than half the depth: the radius is that of the tube's centre line",
            );
        }
    }
    loader.unique(rows)
}
