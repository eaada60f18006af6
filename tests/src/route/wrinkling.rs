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
        _ => Err(unknown(quantity)),
    }
}
