//! `materials/*.csv`: names first, then the values, each file with its own unit.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Loader;
use crate::read::{Row, names, number};
use crate::{Material, MaterialFamily, Property, PropertyGroup, SourceKind, StrengthIs};

#[derive(Deserialize)]
struct NameRow {
    id: String,
    #[serde(deserialize_with = "names")]
    names: Vec<String>,
    family: MaterialFamily,
    note: String,
}

#[derive(Deserialize)]
struct ValueRow {
    material: String,
    property: Option<Property>,
    #[serde(alias = "low_mpa", alias = "low_kg_m3", alias = "low_per_k", deserialize_with = "number")]
    low: f64,
    #[serde(
        alias = "default_mpa",
        alias = "default_kg_m3",
        alias = "default_per_k",
        deserialize_with = "number"
    )]
    default: f64,
    #[serde(alias = "high_mpa", alias = "high_kg_m3", alias = "high_per_k", deserialize_with = "number")]
    high: f64,
    is: Option<StrengthIs>,
    source: String,
    kind: SourceKind,
}

type ValueFile = (&'static str, PropertyGroup, &'static [&'static str]);

const VALUE_FILES: [ValueFile; 5] = [
    (
        "materials/stiffness.csv",
        PropertyGroup::Stiffness,
        &["material", "property", "low_mpa", "default_mpa", "high_mpa", "source", "kind"],
    ),
    (
        "materials/strength.csv",
        PropertyGroup::Strength,
        &["material", "property", "low_mpa", "default_mpa", "high_mpa", "is", "source", "kind"],
    ),
    (
        "materials/density.csv",
        PropertyGroup::Density,
        &["material", "low_kg_m3", "default_kg_m3", "high_kg_m3", "source", "kind"],
    ),
    (
        "materials/ratios.csv",
        PropertyGroup::Ratio,
        &["material", "property", "low", "default", "high", "source", "kind"],
    ),
    (
        "materials/thermal.csv",
        PropertyGroup::Thermal,
        &["material", "low_per_k", "default_per_k", "high_per_k", "source", "kind"],
    ),
];

pub(super) fn read(loader: &mut Loader<'_>) -> Vec<Material> {
    let rows = loader.rows::<NameRow>("materials/names.csv", &["id", "names", "family", "note"]);
    let materials = rows.into_iter().map(|Row { place, cells: row }| {
        let NameRow { id, names, family, note } = row;
        let (values, strength_is) = (BTreeMap::new(), BTreeMap::new());
        Row { place, cells: Material { id, names, family, note, values, strength_is } }
    });
    let mut materials = loader.unique(materials.collect());
    for (file, group, columns) in VALUE_FILES {
        for row in loader.rows::<ValueRow>(file, columns) {
            add(loader, &mut materials, group, row);
        }
    }
    materials
}

fn add(loader: &mut Loader<'_>, materials: &mut [Material], group: PropertyGroup, row: Row<ValueRow>) {
    let Row { place, cells: row } = row;
    let kind = loader.origin(&place, &row.source, row.kind);
    let property = match (group, row.property) {
        (PropertyGroup::Density, _) => Property::Density,
        (PropertyGroup::Thermal, _) => Property::ThermalExpansion,
        (_, Some(property)) if property.group() == group => property,
        (_, Some(property)) => return loader.fault(&place, property.key(), "does not belong in this file"),
        (_, None) => return loader.fault(&place, "property", "is empty"),
    };
    if matches!(group, PropertyGroup::Stiffness | PropertyGroup::Density) && row.low <= 0.0 {
        loader.fault(&place, property.key(), "must be above 0");
    }
    if group == PropertyGroup::Strength && row.is.is_none() {
        loader.fault(&place, "is", "is empty; a strength is `5 percent`, `mean` or `minimum`");
    }
    let value = loader.band(&place, property.key(), [row.low, row.default, row.high], &row.source, kind);
    loader.known_material(&place, &row.material, materials);
    let Some(material) = materials.iter_mut().find(|material| material.id == row.material) else {
        return;
    };
    if material.values.insert(property, value).is_some() {
        loader.fault(&place, property.key(), format!("stands twice for {}", row.material));
    }
    if let Some(is) = row.is {
        material.strength_is.insert(property, is);
    }
}
