//! Shape, layers, openings, damage and landing.

use beam_core::quantity::Pressure;
use beam_core::survey::{
    Condition, Damage, DamageState, Joint, JointLine, Layer, LayerMaterial, Opening, OwnMaterial,
    OwnStrength, Roof, Slot, SlotFrom, Survey, Thrust, Wall,
};
use serde_json::{Value, json};

use super::survey::{layer_name, number, patch};
use crate::print::words;

pub(super) fn roof(roof: &Roof) -> Value {
    json!({
        "kind": words::roof_kind(roof.kind),
        "span": number(roof.span.value),
        "rise": number(roof.rise.value),
        "length": number(roof.length.value),
        "front": words::end(roof.front),
        "rear": words::end(roof.rear),
    })
}

pub(super) fn layer(layer: &Layer) -> Value {
    json!({
        "name": layer.name,
        "material": material(&layer.material),
        "thickness": {
            "wall": number(layer.thickness.wall.value), "crown": number(layer.thickness.crown.value),
        },
        "grain": layer.grain.map(words::grain),
        "bonded": words::bonded(layer.bonded),
        "sample": layer.sample.map(|sample| json!({
            "weight": number(sample.weight.value), "size": sample.size.map(|side| number(side.value)),
        })),
    })
}

/// The id of a row of the tables, or all that the survey says about its own material.
pub(super) fn material(material: &LayerMaterial) -> Value {
    match material {
        LayerMaterial::Table(row) => json!(row.id),
        LayerMaterial::Own(own) => own_material(own),
    }
}

fn own_material(own: &OwnMaterial) -> Value {
    let modulus = |value: Option<Pressure>| value.map(|value| number(value.value));
    json!({
        "own": own.id,
        "E1": number(own.e1.value), "E2": number(own.e2.value),
        "E1f": modulus(own.e1_flexural), "E2f": modulus(own.e2_flexural),
        "nu12": number(own.nu12),
        "G12": modulus(own.g12), "G13": modulus(own.g13), "G23": modulus(own.g23),
        "strength": {
            "tension": modulus(own.tension), "compression": modulus(own.compression),
            "bending": modulus(own.bending), "shear": modulus(own.shear), "crush": modulus(own.crush),
        },
        "strength_is": match own.strength_is {
            OwnStrength::FivePercent => "5 percent",
            OwnStrength::Mean => "mean",
        },
        "density": own.density.map(|density| number(density.value)),
    })
}

pub(super) fn opening(opening: &Opening) -> Value {
    json!({
        "name": opening.name,
        "place": patch(&opening.patch),
        "frame": opening.frame.as_ref().map(|frame| json!({
            "width": number(frame.width.value), "material": material(&frame.material),
        })),
    })
}

pub(super) fn damage(damage: &Damage, survey: &Survey) -> Value {
    let state = match &damage.state {
        DamageState::Table(row) => json!(row.id),
        DamageState::Remaining { stiffness, strength } => {
            json!({ "stiffness": number(*stiffness), "strength": number(*strength) })
        }
    };
    json!({
        "name": damage.name,
        "layer": layer_name(survey, damage.layer),
        "place": patch(&damage.patch),
        "state": state,
        "until": damage.until,
    })
}

pub(super) fn slot(slot: &Slot) -> Value {
    json!({
        "place": patch(&slot.patch),
        "depth": slot.depth.map(|depth| number(depth.value)),
        "from": slot.depth.map(|_| match slot.from {
            SlotFrom::Top => "top",
            SlotFrom::Bottom => "bottom",
        }),
        "filled": slot.filled.as_ref().map(material),
    })
}

pub(super) fn joint(joint: &Joint, survey: &Survey) -> Value {
    let (across, along) = match joint.line {
        JointLine::AtAcross(at) => (Some(number(at.value)), None),
        JointLine::AtAlong(at) => (None, Some(number(at.value))),
    };
    json!({
        "layer": layer_name(survey, joint.layer),
        "across": across,
        "along": along,
        "kind": words::joint_kind(joint.kind),
    })
}

pub(super) fn wall(wall: &Wall) -> Value {
    json!({
        "material": wall.material.as_ref().map(material),
        "depth": wall.depth.map(|depth| number(depth.value)),
        "condition": match wall.condition {
            Condition::Sound => "sound",
            Condition::Soft => "soft",
            Condition::NotKnown => "not known",
        },
        "hold_down": wall.hold_down.map(|hold| number(hold.value)),
        "thrust": match wall.thrust {
            Thrust::None => json!("none"),
            Thrust::Full => json!("full"),
            Thrust::Spring(stiffness) => number(stiffness.value),
        },
    })
}
