//! `tubes/inch.csv` and `tubes/metric.csv`.

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, number, positive};
use crate::{SourceKind, Tube, TubeSystem};

#[derive(Deserialize)]
struct TubeRow {
    id: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    #[serde(alias = "width_in", alias = "width_mm", deserialize_with = "positive")]
    width: f64,
    #[serde(alias = "depth_in", alias = "depth_mm", deserialize_with = "positive")]
    depth: f64,
    #[serde(alias = "wall_in", alias = "wall_mm", deserialize_with = "positive")]
    wall: f64,
    #[serde(alias = "corner_in", alias = "corner_mm", deserialize_with = "number")]
    corner: f64,
    source: String,
    kind: SourceKind,
}

pub(super) fn read(loader: &mut Loader<'_>) -> Vec<Tube> {
    let inch = ["id", "names", "width_in", "depth_in", "wall_in", "corner_in", "source", "kind"];
    let metric = ["id", "names", "width_mm", "depth_mm", "wall_mm", "corner_mm", "source", "kind"];
    let mut tubes = Vec::new();
    for (file, columns, system) in
        [("tubes/inch.csv", inch, TubeSystem::Inch), ("tubes/metric.csv", metric, TubeSystem::Metric)]
    {
        for Row { place, cells: row } in loader.rows::<TubeRow>(file, &columns) {
            let kind = loader.origin(&place, &row.source, row.kind);
            let side = row.width.min(row.depth);
            if 2.0 * row.wall >= side {
                loader.fault(&place, row.wall.to_string(), "the wall must leave a hollow");
            }
            if 2.0 * row.corner > side {
                loader.fault(&place, row.corner.to_string(), "the corner radius is more than half a side");
            }
            let TubeRow { id, names, width, depth, wall, corner, source, .. } = row;
            let tube = Tube { id, names, system, width, depth, wall, corner, source, kind };
            tubes.push(Row { place, cells: tube });
        }
    }
    loader.unique(tubes)
}
