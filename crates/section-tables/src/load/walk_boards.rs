//! `walk_boards.csv`.

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, positive};
use crate::{Material, SourceKind, ThicknessUnit, WalkBoard};

#[derive(Deserialize)]
struct BoardRow {
    id: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    #[serde(deserialize_with = "positive")]
    long: f64,
    #[serde(deserialize_with = "positive")]
    short: f64,
    #[serde(deserialize_with = "positive")]
    thickness: f64,
    unit: ThicknessUnit,
    material: String,
    source: String,
    kind: SourceKind,
}

pub(super) fn read(loader: &mut Loader<'_>, materials: &[Material]) -> Vec<WalkBoard> {
    let columns = ["id", "names", "long", "short", "thickness", "unit", "material", "source", "kind"];
    let rows = loader.rows::<BoardRow>("walk_boards.csv", &columns);
    let boards = rows.into_iter().map(|Row { place, cells: row }| {
        let kind = loader.origin(&place, &row.source, row.kind);
        loader.known_material(&place, &row.material, materials);
        if row.thickness >= row.short || row.short > row.long {
            loader.fault(&place, &row.id, "thickness < short side <= long side does not hold");
        }
        let BoardRow { id, names, long, short, thickness, unit, material, source, .. } = row;
        Row { place, cells: WalkBoard { id, names, long, short, thickness, unit, material, source, kind } }
    });
    let boards = boards.collect();
    loader.unique(boards)
}
