//! Unit, people, further loads, what the roof lives through, limits, readings.

use beam_core::survey::{
    AluminiumRules, Conditions, HeavyEnd, Limits, Load, LoadKind, Measured, Pad, Person, Reading, Road,
    SagLimit, Snow, SnowKind, Survey, Unit, Way, When,
};
use serde_json::{Value, json};

use super::roof::material;
use super::survey::{list, number, patch};

pub(super) fn rooftop_unit(unit: &Unit, survey: &Survey) -> Value {
    let pad = |pad: &Pad| json!({ "place": patch(&pad.patch), "share": number(pad.share) });
    json!({
        "mass": number(unit.mass.value),
        "opening": unit.opening.and_then(|opening| survey.openings.get(opening)).map(|opening| &opening.name),
        "gasket_width": number(unit.gasket_width.value),
        "pads": list(&unit.pads, pad),
        "heavy_end": unit.heavy_end.map(|end| match end {
            HeavyEnd::Front => "front",
            HeavyEnd::Rear => "rear",
            HeavyEnd::Left => "left",
            HeavyEnd::Right => "right",
        }),
        "height": unit.height.map(|height| number(height.value)),
        "base": unit.base.map(|base| base.map(|side| number(side.value))),
        "bolts": unit.bolts.as_ref().map(|bolts| json!({
            "n": bolts.count, "size": number(bolts.size.value), "torque": number(bolts.torque.value),
        })),
    })
}

pub(super) fn person(person: &Person) -> Value {
    json!({
        "mass": number(person.mass.value),
        "way": match person.way {
            Way::OnABoard => "on a board",
            Way::Bare => "bare",
            Way::Nobody => "nobody",
        },
        "count": person.count,
        "board": {
            "size": person.board.size.map(|side| number(side.value)),
            "material": material(&person.board.material),
            "thickness": number(person.board.thickness.value),
        },
    })
}

pub(super) fn load(load: &Load) -> Value {
    json!({
        "name": load.name,
        "mass": number(load.mass.value),
        "place": patch(&load.patch),
        "kind": match load.kind {
            LoadKind::Fixed => "fixed",
            LoadKind::Person => "person",
            LoadKind::Snow => "snow",
            LoadKind::Test => "test",
        },
    })
}

pub(super) fn conditions(conditions: &Conditions) -> Value {
    json!({
        "road": match conditions.road {
            Road::Smooth => json!("smooth"),
            Road::Mixed => json!("mixed"),
            Road::Rough => json!("rough"),
            Road::Factor(factor) => number(factor),
        },
        "snow": match conditions.snow {
            Snow::None => json!("none"),
            Snow::Pressure(pressure) => number(pressure.value),
            Snow::Depth { depth, kind } => json!({
                "depth": number(depth.value),
                "kind": match kind {
                    SnowKind::Fluffy => "fluffy",
                    SnowKind::Average => "average",
                    SnowKind::Wet => "wet",
                },
            }),
        },
        "wind": conditions.wind.map(|wind| number(wind.value)),
        "roof_hot": number(conditions.roof_hot),
        "cold": conditions.cold.map(number),
        "glued_at": conditions.glued_at.map(number),
        "years": number(conditions.years),
    })
}

pub(super) fn limits(limits: &Limits) -> Value {
    let sag = |limit: SagLimit| match limit {
        SagLimit::SpanOver(divisor) => json!({ "span_over": number(divisor) }),
        SagLimit::Length(length) => number(length.value),
    };
    json!({
        "sag": sag(limits.sag),
        "sag_lasting": sag(limits.sag_lasting),
        "aluminium": match limits.aluminium {
            AluminiumRules::Adm2020Asd => "ADM 2020 ASD",
            AluminiumRules::Adm2020Lrfd => "ADM 2020 LRFD",
            AluminiumRules::En1999 => "EN 1999-1-1",
        },
        "gamma_m1": limits.partial_factors[0].map(number),
        "gamma_m2": limits.partial_factors[1].map(number),
        "model_factor": number(limits.model_factor),
    })
}

pub(super) fn reading(reading: &Reading) -> Value {
    let (dip, moved) = match reading.measured {
        Some(Measured::Dip(dip)) => (Some(number(dip.value)), None),
        Some(Measured::Moved(moved)) => (None, Some(number(moved.value))),
        None => (None, None),
    };
    json!({
        "name": reading.name,
        "across": number(reading.across.value),
        "along": number(reading.along.value),
        "dip": dip,
        "moved": moved,
        "when": match reading.when {
            When::UnitOn => "unit on",
            When::UnitOff => "unit off",
            When::TestWeight => "test weight",
        },
    })
}
