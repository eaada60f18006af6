//! `damage.csv`: one row a state and kind of layer, the rows of a state together.

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, number, yes_or_no};
use crate::{DamageEffect, DamageState, DamagedLayer, SourceKind};

#[derive(Deserialize)]
struct EffectRow {
    state: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    layer: DamagedLayer,
    #[serde(deserialize_with = "number")]
    stiffness_low: f64,
    #[serde(deserialize_with = "number")]
    stiffness_default: f64,
    #[serde(deserialize_with = "number")]
    stiffness_high: f64,
    #[serde(deserialize_with = "number")]
    strength_low: f64,
    #[serde(deserialize_with = "number")]
    strength_default: f64,
    #[serde(deserialize_with = "number")]
    strength_high: f64,
    #[serde(deserialize_with = "number")]
    crush_low: f64,
    #[serde(deserialize_with = "number")]
    crush_default: f64,
    #[serde(deserialize_with = "number")]
    crush_high: f64,
    #[serde(deserialize_with = "yes_or_no")]
    bond: bool,
    #[serde(deserialize_with = "number")]
    added_water_low_kg_m3: f64,
    #[serde(deserialize_with = "number")]
    added_water_default_kg_m3: f64,
    #[serde(deserialize_with = "number")]
    added_water_high_kg_m3: f64,
    source: String,
    kind: SourceKind,
    note: String,
}

const COLUMNS: [&str; 19] = [
    "state",
    "names",
    "layer",
    "stiffness_low",
    "stiffness_default",
    "stiffness_high",
    "strength_low",
    "strength_default",
    "strength_high",
    "crush_low",
    "crush_default",
    "crush_high",
    "bond",
    "added_water_low_kg_m3",
    "added_water_default_kg_m3",
    "added_water_high_kg_m3",
    "source",
    "kind",
    "note",
];

pub(super) fn read(loader: &mut Loader<'_>) -> Vec<DamageState> {
    let mut states: Vec<Row<DamageState>> = Vec::new();
    for Row { place, cells: row } in loader.rows::<EffectRow>("damage.csv", &COLUMNS) {
        let kind = loader.origin(&place, &row.source, row.kind);
        for share in [row.stiffness_high, row.strength_high, row.crush_high] {
            if share > 1.0 {
                loader.fault(&place, share.to_string(), "a share of the sound value is at most 1");
            }
        }
        let mut band = |what: &str, numbers| loader.band(&place, what, numbers, &row.source, kind);
        let effect = DamageEffect {
            layer: row.layer,
            stiffness: band("stiffness", [row.stiffness_low, row.stiffness_default, row.stiffness_high]),
            strength: band("strength", [row.strength_low, row.strength_default, row.strength_high]),
            crush: band("crush", [row.crush_low, row.crush_default, row.crush_high]),
            bond: row.bond,
            added_water_kg_m3: band(
                "added_water_kg_m3",
                [row.added_water_low_kg_m3, row.added_water_default_kg_m3, row.added_water_high_kg_m3],
            ),
            note: row.note,
        };
        match states.last_mut().map(|state| &mut state.cells).filter(|state| state.id == row.state) {
            Some(state) if state.effects.iter().any(|known| known.layer == effect.layer) => {
                loader.fault(&place, effect.layer.to_string(), format!("stands twice for {}", row.state));
            }
            Some(_) if !row.names.is_empty() => {
                let why = "other names stand on the first row of a state only";
                loader.fault(&place, row.names.join("; "), why);
            }
            Some(state) => state.effects.push(effect),
            None => {
                let cells = DamageState { id: row.state, names: row.names, effects: vec![effect] };
                states.push(Row { place, cells });
            }
        }
    }
    loader.unique(states)
}
