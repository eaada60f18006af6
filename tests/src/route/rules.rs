//! Small rules: moisture, foam, ponding, channels, readings, frequency, warmth, the crown.

use beam_core::forming::{Arc, BentSection, Sprung};
use beam_core::quantity::{read_force, read_pressure, si};
use beam_core::strength::core::{Pressing, crush};
use beam_core::strength::foam::{horvath_modulus, lasting_shear_modulus, sag_with_creep};
use beam_core::strength::{frequency as shaking, ponding as water, thermal_bow, void, wood};

use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn moisture(inputs: &Inputs) -> Result<f64, String> {
    let (dry, green) = (si(inputs.si("P12")?), si(inputs.si("Pg")?));
    wood::at_moisture(dry, green, inputs.si("M")?, inputs.si("Mp")?).map(|p| p.value).map_err(words)
}

pub(super) fn foam(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    match quantity {
        "modulus by density" => horvath_modulus(si(inputs.si("density")?)).map(|e| e.value),
        "bearing, over and over" => {
            let share = Pressing::Cyclic { share: inputs.si("share")? };
            crush(si(inputs.si("sigma10")?), share, inputs.si("gamma")?).map(|l| l.value.value)
        }
        "lasting shear modulus" => {
            lasting_shear_modulus(si(inputs.si("G")?), inputs.si("phi")?).map(|g| g.value)
        }
        "sag with creep" => {
            let (bending, shear) = (si(inputs.si("bending")?), si(inputs.si("shear")?));
            sag_with_creep((bending, 0.0), (shear, inputs.si("phi")?)).map(|w| w.value)
        }
        _ => return Err(unknown(quantity)),
    }
    .map_err(words)
}

pub(super) fn ponding(inputs: &Inputs) -> Result<f64, String> {
    let [d, s, a, b] = ["D", "S", "a", "b"].map(|name| inputs.si(name));
    water::coefficient(si(d?), si(s?), si(a?), si(b?)).map(|c| c.value).map_err(words)
}

pub(super) fn channel(inputs: &Inputs) -> Result<f64, String> {
    let skin = inputs.si("EI")?;
    void::shear_stiffness(si(skin), si(skin), si(inputs.si("width")?)).map(|s| s.value).map_err(words)
}

/// A number and its unit as a person writes them.
pub(super) fn reading(inputs: &Inputs) -> Result<f64, String> {
    let text = format!("{} {}", inputs.si("number")?, inputs.word("in")?);
    match inputs.word("as")? {
        "force" => read_force(&text).map(|f| f.value).map_err(words),
        "pressure" => read_pressure(&text).map(|p| p.value).map_err(words),
        other => Err(format!("as \"{other}\"")),
    }
}

/// Own frequency of a weight that stands on a spring.
pub(super) fn frequency(inputs: &Inputs) -> Result<f64, String> {
    shaking::rayleigh(&[(si(450.0), si(inputs.si("sag")?))]).map_err(words)
}

/// Rise of a panel whose upper skin is warmer.
pub(super) fn warm_panel(inputs: &Inputs) -> Result<f64, String> {
    let skin = inputs.si("expansion")?;
    let [warmer, apart, span] = ["warmer", "d", "L"].map(|name| inputs.si(name));
    thermal_bow::rise((skin, warmer?), (skin, 0.0), si(apart?), si(span?)).map(|r| r.value).map_err(words)
}

/// The arc over a span, and what a straight tube sprung to it has spent.
pub(super) fn crown(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let span = si(inputs.si("L")?);
    if quantity == "radius" {
        return Arc::new(span, si(inputs.si("rise")?)).map(|arc| arc.radius().value).map_err(words);
    }
    let arc = Arc::with_radius(span, si(inputs.si("R")?)).map_err(words)?;
    let depth = inputs.si("h")?;
    let tube = BentSection::tube(si(depth), si(depth), si(depth / 8.0)).map_err(words)?;
    let sprung = Sprung::new(tube, si(inputs.si("E")?), si(240e6), None, arc).map_err(words)?;
    match quantity {
        "stress of a tube sprung in" => Ok(sprung.stress().value),
        _ => Err(unknown(quantity)),
    }
}
