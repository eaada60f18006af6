//! `buildups.csv`: one row a layer, the rows of a build-up together.

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, positive};
use crate::{BuildUp, BuildUpLayer, Material, SourceKind, ThicknessUnit};

#[derive(Deserialize)]
struct LayerRow {
    buildup: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    position: u32,
    layer_name: String,
    material: String,
    #[serde(deserialize_with = "positive")]
    thickness_value: f64,
    thickness_unit: ThicknessUnit,
    source: String,
    kind: SourceKind,
}

pub(super) fn read(loader: &mut Loader<'_>, materials: &[Material]) -> Vec<BuildUp> {
    let columns = [
        "buildup",
        "names",
        "position",
        "layer_name",
        "material",
        "thickness_value",
        "thickness_unit",
        "source",
        "kind",
    ];
    let mut buildups: Vec<Row<BuildUp>> = Vec::new();
    for Row { place, cells: row } in loader.rows::<LayerRow>("buildups.csv", &columns) {
        let kind = loader.origin(&place, &row.source, row.kind);
        loader.known_material(&place, &row.material, materials);
        let begins = row.position == 1;
        if begins {
            let (id, names) = (row.buildup.clone(), row.names);
            let cells = BuildUp { id, names, layers: Vec::new(), source: row.source, kind };
            buildups.push(Row { place: place.clone(), cells });
        } else if !row.names.is_empty() {
            loader.fault(&place, row.names.join("; "), "other names stand on the row of position 1 only");
        }
        let last = buildups.last_mut().map(|last| &mut last.cells).filter(|last| last.id == row.buildup);
        let Some(last) = last.filter(|last| row.position as usize == last.layers.len() + 1) else {
            loader.fault(&place, row.position.to_string(), "positions run 1, 2, 3 ... from the weather side");
            continue;
        };
        if last.layers.iter().any(|layer| layer.name == row.layer_name) {
            loader.fault(&place, row.layer_name, "this layer name stands twice in the build-up");
            continue;
        }
        last.layers.push(BuildUpLayer {
            position: row.position,
            name: row.layer_name,
            material: row.material,
            thickness_value: row.thickness_value,
            thickness_unit: row.thickness_unit,
        });
    }
    loader.unique(buildups)
}
