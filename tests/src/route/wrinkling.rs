//! Wrinkling of a skin on foam.

use beam_core::local::layer::FarSide;
use beam_core::quantity::si;
use beam_core::strength::wrinkling::{WrinklingSkin, hoff_mautner};

use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn wrinkling(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    if quantity == "stress in practice" {
        let [skin, core, shear] = ["Ef", "Ec", "Gc"].map(|name| inputs.si(name));
        return hoff_mautner(si(skin?), si(core?), si(shear?)).map(|l| l.value.value).map_err(words);
    }
    let skin = WrinklingSkin::new(si(inputs.si("Df")?), si(inputs.si("t")?)).map_err(words)?;
    let (core, nu) = (si(inputs.si("Ec")?), inputs.si("nuc")?);
    if quantity == "coefficient, half space in plane stress" {
        return half_space(skin, inputs);
    }
    let wrinkle = match inputs.maybe("c")? {
        None => skin.on_half_space(core, nu),
        Some(depth) => {
            let far = match inputs.word("far")? {
                "rigid" => FarSide::Rigid,
                "symmetric" => FarSide::Symmetric,
                other => return Err(format!("far \"{other}\"")),
            };
            skin.on_core(core, nu, si(depth), far)
        }
    }
    .map_err(words)?;
    match quantity {
        "stress of a perfect skin" => Ok(wrinkle.perfect.value),
        "half wave" => Ok(wrinkle.half_wave.value),
        "coefficient, springs" => {
            let share = inputs.si("t")? / inputs.si("c")?;
            Ok(wrinkle.perfect.value / (inputs.si("Ef")? * inputs.si("Ec")? * share).sqrt())
        }
        _ => Err(unknown(quantity)),
    }
}

/// The stress over `(Ef Ec Gc)^(1/3)`. The library's foam is in plane strain; `E (1 + 2 nu)/(1 + nu)^2` and `nu/(1 + nu)`
/// in place of `E` and `nu` make plane stress of it (any text on elasticity).
fn half_space(skin: WrinklingSkin, inputs: &Inputs) -> Result<f64, String> {
    let [face, foam, shear, nu] = ["Ef", "Ec", "Gc", "nuc"].map(|name| inputs.si(name));
    let (foam, nu) = (foam?, nu?);
    let in_strain = foam * (1.0 + 2.0 * nu) / (1.0 + nu).powi(2);
    let wrinkle = skin.on_half_space(si(in_strain), nu / (1.0 + nu)).map_err(words)?;
    Ok(wrinkle.perfect.value / (face? * foam * shear?).cbrt())
}
