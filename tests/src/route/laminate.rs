//! Laminates from their layers, and plywood from its veneers.

use beam_core::quantity::si;
use beam_core::section::{Laminate, Layer, ply_rule};

use super::{unknown, words};
use crate::inputs::Inputs;

/// Layers `t1 E1 G1` upwards, without Poisson's ratio: a beam.
pub(super) fn laminate(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (mut layers, mut height) = (Vec::new(), 0.0);
    for n in 1.. {
        let Some(t) = inputs.maybe(&format!("t{n}"))? else { break };
        let (e, g) = (inputs.si(&format!("E{n}"))?, inputs.si(&format!("G{n}"))?);
        layers.push(Layer {
            z_bottom: si(height),
            z_top: si(height + t),
            e_x: si(e),
            e_y: si(e),
            nu_xy: si(0.0),
            g_xy: si(g),
            g_xz: si(g),
            g_yz: si(g),
            flexural: None,
            direct: true,
            bonded_below: true,
        });
        height += t;
    }
    let laminate = Laminate::new(&layers).map_err(words)?;
    match quantity {
        "bending stiffness" => Ok(laminate.bending_free()[0][0].value),
        "shear stiffness" => Ok(laminate.shear_stiffness_x().value),
        _ => Err(unknown(quantity)),
    }
}

/// Three plies; the faces take `face` of the thickness each.
pub(super) fn ply(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let face = inputs.si("face")?;
    let plies = [face, 1.0 - 2.0 * face, face].map(|t| si(3e-3 * t));
    let moduli = ply_rule(si(inputs.si("EL")?), si(inputs.si("ET")?), &plies).map_err(words)?;
    Ok(match quantity {
        "stretching along" => moduli.membrane_along.value,
        "stretching across" => moduli.membrane_across.value,
        "bending along" => moduli.flexural_along.value,
        "bending across" => moduli.flexural_across.value,
        _ => return Err(unknown(quantity)),
    })
}
