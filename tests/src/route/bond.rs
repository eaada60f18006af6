//! Two members joined by a bond that gives.

use beam_core::quantity::si;
use beam_core::strip::PartialBond;

use super::{unknown, words};
use crate::inputs::Inputs;

/// A flat skin `b1 h1 E1` on a member `A2 I2 E2`.
pub(super) fn bond(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (e1, b1, h1) = (inputs.si("E1")?, inputs.si("b1")?, inputs.si("h1")?);
    let e2 = inputs.si("E2")?;
    let pair = PartialBond {
        span: si(inputs.si("span")?),
        axial: [si(e1 * b1 * h1), si(e2 * inputs.si("A2")?)],
        bending: [si(e1 * b1 * h1.powi(3) / 12.0), si(e2 * inputs.si("I2")?)],
        distance: si(inputs.si("apart")?),
        bond: si(inputs.si("bond")?),
    };
    Ok(match quantity {
        "share of the bond" => pair.gamma().map_err(words)?.gamma.value,
        "effective stiffness" => pair.gamma().map_err(words)?.bending.value,
        "stiffness, loose" => pair.bending_loose().map_err(words)?.value,
        "stiffness, full bond" => pair.bending_full().map_err(words)?.value,
        "sag, even load" => pair.uniform(si(inputs.si("q")?)).map_err(words)?.value,
        "sag, central load" => pair.point(si(inputs.si("P")?)).map_err(words)?.value,
        _ => return Err(unknown(quantity)),
    })
}
