//! A weighed offcut of a layer: its density tells the grade of a foam, and whether a layer is what it is called.
//!
//! A scale is read to 1 g and a tape to 1 mm, so a density lies between two numbers. A grade is taken from the lower one,
//! and only where the core is not surveyed as damp anywhere: water in a weak foam weighs like a better foam.

use section_tables::{Material, Property, Value as Band};

use crate::quantity::si;
use crate::survey::problem::Problem;
use crate::survey::take::{Context, Items, Table};
use crate::survey::tree::Value;
use crate::survey::{Damage, DamageState, Layer, LayerMaterial, Sample};

/// What a scale may be out by, kg (common practice, no source).
const SCALE: f64 = 0.001;
/// What each size may be out by, m (common practice, no source).
const TAPE: f64 = 0.001;
/// An own density and that of a sample differ by no more than this share.
const OWN: f64 = 0.15;
/// Foams whose grade a density tells, weakest first, after the row that stands for them where it is not known.
const GRADES: [(&str, [&str; 4]); 1] =
    [("white bead foam, grade not known", ["EPS 15", "EPS 20", "EPS 25", "EPS 30"])];

/// Density of a sample: least, as read, most, kg/m3.
struct Weighed {
    least: f64,
    read: f64,
    most: f64,
}

impl Weighed {
    fn of(sample: &Sample) -> Weighed {
        let volume = |by: f64| sample.size.iter().map(|s| (s.value + by).max(s.value / 2.0)).product::<f64>();
        let weight = sample.weight.value;
        Weighed {
            least: (weight - SCALE).max(0.0) / volume(TAPE),
            read: weight / volume(0.0),
            most: (weight + SCALE) / volume(-TAPE),
        }
    }
}

/// Uses every sample: picks a grade, fills an own density, or says that the layer is not what it is called.
pub(super) fn weigh(
    cx: &mut Context<'_>,
    root: &Table<'_>,
    layers: &mut Items<Layer>,
    damages: &Items<Damage>,
) {
    for index in 0..layers.list.len() {
        let damp = damages.values().any(|(_, _, d)| d.layer == index && takes_up_water(&d.state));
        let Some(layer) = &mut layers.list[index].value else { continue };
        let Some(sample) = layer.sample else { continue };
        let weighed = Weighed::of(&sample);
        let told = match &mut layer.material {
            LayerMaterial::Table(row) => match from_row(cx, row, &weighed, damp) {
                Ok((better, words)) => {
                    if let Some(better) = better {
                        layer.material = LayerMaterial::Table(Box::new(better));
                    }
                    Ok(words)
                }
                Err(allowed) => Err((row.id.clone(), allowed)),
            },
            LayerMaterial::Own(own) => match own.density {
                Some(density) if (weighed.read / density.value - 1.0).abs() > OWN => {
                    Err((own.id.clone(), format!("within 15 % of its density, {:.0} kg/m3", density.value)))
                }
                Some(_) => Ok("as its own material says".to_owned()),
                None => {
                    own.density = Some(si(weighed.read));
                    let key = format!("material.{}.density", own.id);
                    cx.givens.retain(|given| given.key != key);
                    Ok("taken as the density of its own material".to_owned())
                }
            },
        };
        let name = layer.name.clone();
        let path = format!("layer.{}.sample.density", index + 1);
        match told {
            Ok(words) => cx.default(
                &path,
                Some((weighed.read, "kg/m3")),
                "sample-density",
                format!(
                    "the sample of the {name} weighs {:.1} kg/m3 ({:.1} to {:.1} with a scale read to 1 g and a tape to 1 mm): {words}",
                    weighed.read, weighed.least, weighed.most
                ),
            ),
            Err((material, allowed)) => cx.problem(
                Problem::new(
                    "sample-contradicts",
                    span(root, index),
                    format!(
                        "the sample of the {name} weighs {:.1} kg/m3, and {material} does not",
                        weighed.read
                    ),
                )
                .value(&format!("{:.1} kg/m3", weighed.read))
                .allowed(allowed)
                .write("the material that it is (\"bracewright tables materials\" lists densities), or the sample without skins, dry, weighed and measured again"),
            ),
        }
    }
}

/// A better known row, and what the sample says; or the densities that the row may have.
fn from_row(
    cx: &Context<'_>,
    row: &Material,
    weighed: &Weighed,
    damp: bool,
) -> Result<(Option<Material>, String), String> {
    let Some(band) = row.get(Property::Density) else {
        return Ok((None, format!("the tables hold no density of {} to compare it with", row.id)));
    };
    if weighed.most < band.low {
        return Err(format!("{} kg/m3: lighter, its strengths are not known", told(band)));
    }
    if let Some(grade) = grade(cx, row, weighed).filter(|_| !damp) {
        let words = format!("taken as {}; it rests on a dry sample", grade.id);
        return Ok((Some(grade), words));
    }
    Ok((
        None,
        if damp {
            format!("a damaged patch of it is damp, so it tells no grade; taken as {}", row.id)
        } else if weighed.least > band.high {
            format!(
                "heavier than {} ({} kg/m3): damp, or a better grade; taken as {}",
                row.id,
                told(band),
                row.id
            )
        } else {
            format!("as {} weighs ({} kg/m3)", row.id, told(band))
        },
    ))
}

fn told(band: &Band) -> String {
    format!("{:.0} to {:.0}", band.low, band.high)
}

/// The best grade whose least density the sample has for sure, where the grade is not known.
fn grade(cx: &Context<'_>, row: &Material, weighed: &Weighed) -> Option<Material> {
    let (_, grades) = GRADES.iter().find(|(unknown, _)| *unknown == row.id)?;
    let mut rows = grades.iter().filter_map(|id| cx.tables.material(id).ok());
    let reached = |m: &&Material| m.get(Property::Density).is_some_and(|d| d.low <= weighed.least);
    rows.rfind(reached).cloned()
}

/// Whether a state of damage means water, or may.
fn takes_up_water(state: &DamageState) -> bool {
    match state {
        DamageState::Table(row) => row.effects.iter().any(|e| e.added_water_kg_m3.high > 0.0),
        DamageState::Remaining { .. } => false,
    }
}

/// Where the sample of a layer stands in the file.
fn span(root: &Table<'_>, index: usize) -> std::ops::Range<usize> {
    let of = || {
        let layers = root.entries().iter().find(|e| e.key == "layer")?;
        let Value::Array(list) = &layers.node.value else { return None };
        let Value::Table(keys) = &list.get(index)?.value else { return None };
        Some(keys.iter().find(|e| e.key == "sample")?.node.span.clone())
    };
    of().unwrap_or_else(|| root.span_of("layer"))
}
