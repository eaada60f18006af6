//! The tables as JSON: one row an object, in the units that each key names.

use beam_core::check::{MadeWith, Words, own_tables};
use clap::ValueEnum;
use section_tables::{Tables, Value as Band};
use serde::Serialize;
use serde_json::{Map, Value, json};

use super::{Unwritable, pretty};
use crate::args::TableName;

/// The keys in the order in which a reader wants them.
#[derive(Debug, Serialize)]
struct TablesDocument {
    schema: u32,
    made_with: MadeWith,
    rows: Vec<Value>,
    assumptions: Vec<Words>,
    not_checked: [Value; 0],
    cautions: [Value; 0],
}

/// The rows of one table, or of all.
pub(crate) fn tables(tables: &Tables, which: Option<TableName>) -> Result<String, Unwritable> {
    let all = TableName::value_variants();
    let wanted = all.iter().filter(|name| which.is_none_or(|which| which == **name));
    let rows: Vec<Value> = wanted
        .flat_map(|name| {
            let table =
                name.to_possible_value().map_or_else(String::new, |value| value.get_name().to_owned());
            rows(tables, *name).into_iter().map(move |mut row| {
                row["table"] = json!(table);
                row
            })
        })
        .collect();
    pretty(&TablesDocument {
        schema: 1,
        made_with: MadeWith::new(tables, &[], None),
        rows,
        assumptions: own_tables(tables).into_iter().collect(),
        not_checked: [],
        cautions: [],
    })
}

fn rows(tables: &Tables, name: TableName) -> Vec<Value> {
    match name {
        TableName::Alloys => [alloys(tables), en_alloys(tables)].concat(),
        TableName::Tubes => tubes(tables),
        TableName::Materials => materials(tables),
        TableName::BuildUps => build_ups(tables),
        TableName::WalkBoards => walk_boards(tables),
        TableName::Rack => rack(tables),
        TableName::Dies => dies(tables),
        TableName::Damage => damage(tables),
        TableName::Adhesives => adhesives(tables),
        TableName::Factors => factors(tables),
        TableName::Sources => sources(tables),
    }
}

fn alloys(tables: &Tables) -> Vec<Value> {
    let row = |alloy: &section_tables::Alloy| {
        let mut row = json!({
            "book": "ADM 2020", "id": alloy.id, "names": alloy.names, "product": alloy.product,
            "wall_min_in": alloy.wall_min_in, "wall_max_in": alloy.wall_max_in,
            "f_tu_ksi": alloy.f_tu_ksi, "f_ty_ksi": alloy.f_ty_ksi, "f_cy_ksi": alloy.f_cy_ksi,
            "f_tuw_ksi": alloy.f_tuw_ksi, "f_tyw_ksi": alloy.f_tyw_ksi, "k_t": alloy.k_t,
            "e_ksi": alloy.e_ksi, "g_ksi": alloy.g_ksi, "density_lb_in3": alloy.density_lb_in3,
            "elongation_percent": alloy.elongation_percent,
            "note": alloy.note, "source": alloy.source, "kind": alloy.kind.to_string(),
        });
        if let Ok(met) = tables.yield_met(alloy) {
            row["yield_met"] = json!({
                "typical_ksi": met.typical_ksi, "high_ksi": met.high_ksi,
                "note": met.note, "source": met.source, "kind": met.kind.to_string(),
            });
        }
        row
    };
    tables.alloys.iter().map(row).collect()
}

/// One row a range of wall.
fn en_alloys(tables: &Tables) -> Vec<Value> {
    let row = |alloy: &section_tables::EnAlloy, range: &section_tables::EnStrength| {
        json!({
            "book": "EN 1999-1-1", "id": alloy.id, "names": alloy.names,
            "wall_over_mm": range.wall_over_mm, "wall_to_mm": range.wall_to_mm,
            "f_o_mpa": range.f_o_mpa, "f_u_mpa": range.f_u_mpa,
            "f_o_haz_mpa": range.f_o_haz_mpa, "f_u_haz_mpa": range.f_u_haz_mpa,
            "elongation_percent": range.elongation_percent, "n_p": range.n_p,
            "buckling_class": range.buckling_class.to_string(),
            "e_mpa": range.e_mpa, "g_mpa": range.g_mpa, "density_kg_m3": range.density_kg_m3,
            "note": range.note, "source": range.source, "kind": range.kind.to_string(),
        })
    };
    tables
        .en_alloys
        .iter()
        .flat_map(|alloy| alloy.ranges.iter().map(move |range| row(alloy, range)))
        .collect()
}

fn tubes(tables: &Tables) -> Vec<Value> {
    let row = |tube: &section_tables::Tube| {
        json!({
            "id": tube.id, "names": tube.names, "unit": tube.system.to_string(),
            "width": tube.width, "depth": tube.depth, "wall": tube.wall, "corner": tube.corner,
            "source": tube.source, "kind": tube.kind.to_string(),
        })
    };
    tables.tubes.iter().map(row).collect()
}

fn materials(tables: &Tables) -> Vec<Value> {
    let row = |material: &section_tables::Material| {
        let values: Map<String, Value> = material
            .iter()
            .map(|(property, value)| {
                let mut entry = band(value);
                entry["unit"] = json!(property.unit());
                if let Some(is) = material.strength_is(property) {
                    entry["strength_is"] = json!(is.to_string());
                }
                (property.key().to_owned(), entry)
            })
            .collect();
        json!({
            "id": material.id, "names": material.names, "family": material.family.to_string(),
            "note": material.note, "values": values,
        })
    };
    tables.materials.iter().map(row).collect()
}

fn build_ups(tables: &Tables) -> Vec<Value> {
    let layer = |layer: &section_tables::BuildUpLayer| {
        json!({
            "position": layer.position, "name": layer.name, "material": layer.material,
            "thickness": layer.thickness_value, "unit": layer.thickness_unit.to_string(),
        })
    };
    let row = |build_up: &section_tables::BuildUp| {
        json!({
            "id": build_up.id, "names": build_up.names,
            "layers": build_up.layers.iter().map(layer).collect::<Vec<_>>(),
            "source": build_up.source, "kind": build_up.kind.to_string(),
        })
    };
    tables.buildups.iter().map(row).collect()
}

fn walk_boards(tables: &Tables) -> Vec<Value> {
    let row = |board: &section_tables::WalkBoard| {
        json!({
            "id": board.id, "names": board.names, "long": board.long, "short": board.short,
            "thickness": board.thickness, "unit": board.unit.to_string(), "material": board.material,
            "source": board.source, "kind": board.kind.to_string(),
        })
    };
    tables.walk_boards.iter().map(row).collect()
}

/// Weight and price only where the shop wrote one.
fn rack(tables: &Tables) -> Vec<Value> {
    let row = |own: &section_tables::RackTube| {
        let mut row = json!({
            "id": own.id, "tube": own.tube, "alloy": own.alloy,
            "source": own.source, "kind": own.kind.to_string(),
        });
        if let Some(mass) = own.kg_per_m {
            row["kg_per_m"] = json!(mass);
        }
        if let Some(price) = own.price_per_m {
            row["price_per_m"] = json!(price);
            row["currency"] = json!(own.currency);
        }
        row
    };
    tables.rack.iter().map(row).collect()
}

fn dies(tables: &Tables) -> Vec<Value> {
    let row = |die: &section_tables::Die| {
        json!({
            "id": die.id, "width_mm": die.width_mm, "depth_mm": die.depth_mm,
            "least_radius_mm": die.least_radius_mm, "source": die.source, "kind": die.kind.to_string(),
        })
    };
    tables.dies.iter().map(row).collect()
}

fn damage(tables: &Tables) -> Vec<Value> {
    let effect = |effect: &section_tables::DamageEffect| {
        json!({
            "layer": effect.layer.to_string(), "stiffness": band(&effect.stiffness),
            "strength": band(&effect.strength), "crush": band(&effect.crush), "bond": effect.bond,
            "added_water_kg_m3": band(&effect.added_water_kg_m3), "note": effect.note,
        })
    };
    let row = |state: &section_tables::DamageState| {
        json!({
            "id": state.id, "names": state.names,
            "effects": state.effects.iter().map(effect).collect::<Vec<_>>(),
        })
    };
    tables.damage.iter().map(row).collect()
}

fn adhesives(tables: &Tables) -> Vec<Value> {
    let row = |glue: &section_tables::Adhesive| {
        json!({
            "id": glue.id, "names": glue.names, "shear_modulus_mpa": band(&glue.shear_modulus_mpa),
            "shear_short_mpa": band(&glue.shear_short_mpa),
            "shear_permanent_mpa": band(&glue.shear_permanent_mpa),
            "heat_limit_c": glue.heat_limit_c, "cure_hours": glue.cure_hours, "cure_at_c": glue.cure_at_c,
            "note": glue.heat_note, "source": glue.source, "kind": glue.kind.to_string(),
        })
    };
    tables.adhesives.iter().map(row).collect()
}

fn factors(tables: &Tables) -> Vec<Value> {
    let row = |factor: &section_tables::Factor| {
        json!({
            "id": factor.key, "value": factor.value, "unit": factor.unit, "note": factor.note,
            "source": factor.source, "kind": factor.kind.to_string(),
        })
    };
    tables.factors.iter().map(row).collect()
}

fn sources(tables: &Tables) -> Vec<Value> {
    let row = |source: &section_tables::Source| {
        json!({
            "id": source.key, "author": source.author, "year": source.year, "title": source.title,
            "place": source.place, "licence_note": source.licence_note, "source": source.key,
            "kind": source.kind.to_string(),
        })
    };
    tables.sources.iter().map(row).collect()
}

fn band(value: &Band) -> Value {
    json!({
        "low": value.low, "default": value.default, "high": value.high,
        "source": value.source, "kind": value.kind.to_string(),
    })
}
