//! `[[layer]]`, or the layers of the build-up that `like` names.

use section_tables::{BuildUp, MaterialFamily, ThicknessUnit};

use super::material;
use crate::quantity::{INCH, Length, Measure, si};
use crate::survey::problem::Problem;
use crate::survey::take::{Bound, Context, Items, Naming, Table, Take, Text, Words};
use crate::survey::tree::{Node, Value};
use crate::survey::{Bonded, Grain, Layer, LayerMaterial, Origin, RoofKind, Sample, Thickness};

const THICKNESS: Bound = Bound::above_zero(Measure::Length).plausible(
    0.3e-3..0.15,
    "0.3 mm to 150 mm (1/64 in to 5 7/8 in)",
    "thinner than any layer of a roof",
    "thicker than any layer of a roof",
);
const SAMPLE_WEIGHT: Bound = Bound::above_zero(Measure::Weight);
const SAMPLE_SIZE: Bound = Bound::above_zero(Measure::Length);
const GRAIN: Words<Grain> = Words(&[("across", Grain::Across), ("along", Grain::Along)]);
const BONDED: Words<Bonded> =
    Words(&[("yes", Bonded::Yes), ("no", Bonded::No), ("not known", Bonded::NotKnown)]);

/// The layers, and the id of the build-up they came from, if one was named.
pub(super) fn read(
    cx: &mut Context<'_>,
    root: &mut Table<'_>,
    like: Option<&Node>,
    kind: Option<RoofKind>,
) -> (Items<Layer>, Option<String>) {
    let mut layers = Items::read(cx, root, "layer", Naming::Key, layer);
    // The lowest layer has nothing below it to be bonded to.
    let lowest = format!("layer.{}.bonded", layers.list.len());
    cx.givens.retain(|given| given.key != lowest || matches!(given.from, Origin::Line(_)));
    let laminated = matches!(kind, Some(RoofKind::Laminated | RoofKind::LaminatedWithFraming));
    match like {
        Some(node) if !layers.list.is_empty() => {
            cx.fault(
                "either-or",
                node.span.clone(),
                "`roof.like` and [[layer]] both say how the roof is made up",
                "`like` or [[layer]]",
                "the layers alone, if they were measured",
            );
            (layers, None)
        }
        Some(node) => {
            let Some(build_up) = find(cx, node) else {
                layers.incomplete = true;
                return (layers, None);
            };
            for layer in &build_up.layers {
                layers.push(layer.name.clone(), from_tables(cx, node, layer, build_up));
            }
            bonds(cx, &layers);
            (layers, Some(build_up.id.clone()))
        }
        None => {
            if layers.list.is_empty() && laminated {
                layers.incomplete = true;
                cx.problem(
                    Problem::new("layers-missing", root.span_of("roof"), "the survey does not say what the roof is made of")
                        .allowed("`like` in [roof] with a build-up of the tables, or one [[layer]] a layer")
                        .write("like = \"ply 1/8 / bead foam 2 / ply 1/8\", or the layers from the weather side down"),
                );
            }
            (layers, None)
        }
    }
}

fn find<'t>(cx: &mut Context<'t>, node: &Node) -> Option<&'t BuildUp> {
    let name = Text.take(cx, "roof.like", node)?;
    let tables = cx.tables;
    match tables.buildup(&name) {
        Ok(build_up) => Some(build_up),
        Err(error) => {
            cx.row_unknown("roof.like", node, &name, "build-up", error.near, &error.known);
            None
        }
    }
}

fn from_tables(
    cx: &mut Context<'_>,
    node: &Node,
    layer: &section_tables::BuildUpLayer,
    build_up: &BuildUp,
) -> Option<Layer> {
    let path = |key: &str| format!("layer.{}.{key}", layer.position);
    let tables = cx.tables;
    let Ok(row) = tables.material(&layer.material) else {
        cx.row_unknown("roof.like", node, &layer.material, "material", Vec::new(), &[]);
        return None;
    };
    let metres = match layer.thickness_unit {
        ThicknessUnit::In => layer.thickness_value * INCH,
        ThicknessUnit::Mm => layer.thickness_value / 1000.0,
    };
    let origin = || Origin::BuildUp(build_up.id.clone());
    cx.note(&path("name"), &layer.name, None, origin());
    cx.note(&path("material"), &layer.material, None, origin());
    let typed = format!("{} {}", layer.thickness_value, layer.thickness_unit);
    cx.note(&path("thickness"), &typed, Some((metres, "m")), origin());
    let material = LayerMaterial::Table(Box::new(row.clone()));
    note_grain(cx, &path("grain"), &material);
    let thickness: Length = si(metres);
    Some(Layer {
        name: layer.name.clone(),
        material,
        thickness: Thickness { wall: thickness, crown: thickness },
        grain: None,
        bonded: Bonded::Yes,
        sample: None,
    })
}

/// The layers of a build-up are taken as bonded; the lowest has nothing below.
fn bonds(cx: &mut Context<'_>, layers: &Items<Layer>) {
    for index in 1..layers.list.len() {
        note_bond(cx, &format!("layer.{index}.bonded"));
    }
}

fn note_bond(cx: &mut Context<'_>, path: &str) {
    cx.default(path, None, "default-bonded", "not tapped, or not said: taken as bonded to the layer below");
}

fn note_grain(cx: &mut Context<'_>, path: &str, material: &LayerMaterial) {
    let has_grain = match material {
        LayerMaterial::Table(row) => row.family == MaterialFamily::Plywood,
        LayerMaterial::Own(own) => own.e1 != own.e2,
    };
    if has_grain {
        cx.default(
            path,
            None,
            "default-grain",
            "the direction of the face grain is not said: both are tried, the worse counts",
        );
    }
}

fn layer(cx: &mut Context<'_>, table: &mut Table<'_>, name: &str, _: &Items<Layer>) -> Option<Layer> {
    let material = table.required(cx, "material", &material::find, "\"EPS 20\"");
    let thickness = table.required(cx, "thickness", &thickness, "\"2 in\"");
    let grain = table.optional(cx, "grain", &GRAIN);
    if let (Some(material), Some(None)) = (&material, grain) {
        note_grain(cx, &table.path_of("grain"), material);
    }
    let bonded = table.optional(cx, "bonded", &BONDED);
    if bonded == Some(None) {
        note_bond(cx, &table.path_of("bonded"));
    }
    let sample = table.optional(cx, "sample", &sample);
    Some(Layer {
        name: name.to_string(),
        material: material?,
        thickness: thickness?,
        grain: grain?,
        bonded: bonded?.unwrap_or(Bonded::Yes),
        sample: sample?,
    })
}

/// One thickness, or `{ wall, crown }` of a tapered core.
fn thickness(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Thickness> {
    if let Value::Table(_) = node.value {
        let mut table = Table::open(cx, path, node)?;
        let wall = table.required(cx, "wall", &THICKNESS, "\"2 in\"");
        let crown = table.required(cx, "crown", &THICKNESS, "\"4 in\"");
        table.close(cx);
        return Some(Thickness { wall: si(wall?), crown: si(crown?) });
    }
    let thickness = si(THICKNESS.take(cx, path, node)?);
    Some(Thickness { wall: thickness, crown: thickness })
}

fn sample(cx: &mut Context<'_>, path: &str, node: &Node) -> Option<Sample> {
    let mut table = Table::open(cx, path, node)?;
    let weight = table.required(cx, "weight", &SAMPLE_WEIGHT, "\"12 g\"");
    let size = |cx: &mut Context<'_>, path: &str, node: &Node| cx.quantities::<3>(path, node, &SAMPLE_SIZE);
    let size = table.required(cx, "size", &size, "[\"100 mm\", \"100 mm\", \"50 mm\"]");
    table.close(cx);
    Some(Sample { weight: si(weight?), size: size?.map(si) })
}

/// Whether a layer is a core: a foam of the tables, or an own material in a layer that is called so.
pub(super) fn is_core(layer: &Layer) -> bool {
    match &layer.material {
        LayerMaterial::Table(row) => row.family == MaterialFamily::Foam,
        LayerMaterial::Own(_) => layer.name.to_lowercase().contains("core"),
    }
}

/// The thinnest place of the thickest core, if there is a core.
pub(super) fn core_depth(layers: &Items<Layer>) -> Option<f64> {
    let depths = layers.values().map(|(_, _, layer)| layer).filter(|layer| is_core(layer));
    depths.map(|core| core.thickness.wall.value.min(core.thickness.crown.value)).reduce(f64::max)
}

/// How deep something let into the core may be, in words.
pub(super) fn up_to_core(core: f64) -> String {
    format!("up to {:.1} mm ({:.3} in), the thinnest place of the core", core * 1000.0, core / INCH)
}
