//! Bolts, rivets and screws, and fatigue, by the Aluminum Design Manual.

use beam_core::quantity::si;
use beam_core::strength::aluminium::adm::{
    DetailCategory, Ply, ScrewJoint, Thread, equivalent_range, fastener_bearing, rivet_shear,
};

use super::element::format;
use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn fastener(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let format = format(inputs)?;
    let diameter = si(inputs.si("D")?);
    match quantity {
        "rivet shear" => {
            rivet_shear(diameter, si(inputs.si("fsu")?), format).map(|l| l.value.value).map_err(words)
        }
        "bearing" => {
            let [t, ftu, edge] = ["t", "ftu", "edge"].map(|name| inputs.si(name));
            fastener_bearing(diameter, si(t?), si(ftu?), si(edge?), format)
                .map(|l| l.value.value)
                .map_err(words)
        }
        _ => Err(unknown(quantity)),
    }
}

pub(super) fn screw(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let format = format(inputs)?;
    if quantity == "the screw itself" {
        return ScrewJoint::own(si(inputs.si("maker")?), format).map(|l| l.value.value).map_err(words);
    }
    let t1 = inputs.si("t1")?;
    let ftu1 = inputs.si("ftu1")?;
    let ply = |t: f64, ftu: f64, fty: f64| Ply { thickness: si(t), ftu: si(ftu), fty: si(fty) };
    // A far ply that the row does not name is so thick and strong that it cannot govern.
    let far = |name: &str, or: f64| inputs.maybe(name).map(|v| v.unwrap_or(or));
    let joint = ScrewJoint {
        diameter: si(inputs.si("D")?),
        head_ply: ply(t1, ftu1, ftu1),
        far_ply: ply(far("t2", 2.0 * t1)?, far("ftu2", 10.0 * ftu1)?, far("fty2", ftu1)?),
        edge: si(1.0),
    };
    match quantity {
        "shear" => joint.shear(format).map(|l| l.value.value),
        "pull-over" => {
            let [head, hole] = ["head", "hole"].map(|name| inputs.si(name));
            joint.pull_over(si(head?), si(hole?), true, format).map(|l| l.value.value)
        }
        "pull-out" => {
            // The thread area enters beyond 1/8 in only.
            let thread = Thread::Machine { internal_area: si(0.01) };
            joint.pull_out(thread, format).map(|l| l.value.value)
        }
        _ => return Err(unknown(quantity)),
    }
    .map_err(words)
}

pub(super) fn fatigue(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let category = match inputs.word("category")? {
        "A" => DetailCategory::A,
        "B" => DetailCategory::B,
        "C" => DetailCategory::C,
        "D" => DetailCategory::D,
        "E" => DetailCategory::E,
        "F" => DetailCategory::F,
        other => return Err(format!("category \"{other}\"")),
    };
    match quantity {
        "allowed range" => category.allowed_range(inputs.si("cycles")?).map(|l| l.value.value).map_err(words),
        "limit of constant ranges" => Ok(category.constant_amplitude_limit().value.value),
        "equivalent range" => {
            let part = |s: &str, n: &str| -> Result<_, String> { Ok((si(inputs.si(s)?), inputs.si(n)?)) };
            let parts = [part("S1", "n1")?, part("S2", "n2")?, part("S3", "n3")?];
            equivalent_range(category, &parts).map(|s| s.value).map_err(words)
        }
        _ => Err(unknown(quantity)),
    }
}
