//! The checked survey in SI: m, kg, N, Pa. A key that the survey leaves open is absent.

use beam_core::check::Finite;
use beam_core::survey::{Interval, Patch, Survey};
use serde_json::{Value, json};

use super::{loads, roof, work};

/// Everything that was understood.
pub(super) fn survey(survey: &Survey) -> Value {
    let mut all = json!({
        "roof": roof::roof(&survey.roof),
        "like": survey.like,
        "layers": list(&survey.layers, roof::layer),
        "openings": list(&survey.openings, roof::opening),
        "damages": list(&survey.damages, |damage| roof::damage(damage, survey)),
        "slots": list(&survey.slots, roof::slot),
        "joints": list(&survey.joints, |joint| roof::joint(joint, survey)),
        "wall": roof::wall(&survey.wall),
        "braces": list(&survey.braces, |brace| work::brace(brace, survey)),
        "trimmers": list(&survey.trimmers, |trimmer| work::trimmer(trimmer, survey)),
        "stages": list(&survey.stages, |stage| work::stage(stage, survey)),
        "unit": survey.unit.as_ref().map(|unit| loads::rooftop_unit(unit, survey)),
        "person": loads::person(&survey.person),
        "loads": list(&survey.loads, loads::load),
        "conditions": loads::conditions(&survey.conditions),
        "limits": loads::limits(&survey.limits),
        "readings": list(&survey.readings, loads::reading),
    });
    drop_open_keys(&mut all);
    all
}

/// A number that is finite; one that is not says so in words, because JSON has only `null` for it.
pub(super) fn number(value: f64) -> Value {
    Finite::new(value, "a value of the survey")
        .map_or_else(|error| json!(error.to_string()), |finite| json!(finite))
}

pub(super) fn list<T>(items: &[T], one: impl Fn(&T) -> Value) -> Value {
    items.iter().map(one).collect()
}

pub(super) fn interval(interval: &Interval) -> Value {
    json!([number(interval.from.value), number(interval.to.value)])
}

pub(super) fn patch(patch: &Patch) -> Value {
    json!({ "across": interval(&patch.across), "along": interval(&patch.along) })
}

/// The name of a layer by its index.
pub(super) fn layer_name(survey: &Survey, layer: usize) -> Option<&str> {
    survey.layers.get(layer).map(|layer| layer.name.as_str())
}

/// The name of a brace by its index.
pub(super) fn brace_name(survey: &Survey, brace: usize) -> Option<&str> {
    survey.braces.get(brace).map(|brace| brace.name.as_str())
}

/// What was not given is absent, not `null`.
fn drop_open_keys(value: &mut Value) {
    match value {
        Value::Object(keys) => {
            keys.retain(|_, value| !value.is_null());
            keys.values_mut().for_each(drop_open_keys);
        }
        Value::Array(items) => items.iter_mut().for_each(drop_open_keys),
        _ => {}
    }
}
