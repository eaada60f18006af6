//! Skin on foam: springs, the elastic layer, and the plastic mechanism.

use beam_core::local::layer::circle_on_layer;
use beam_core::local::mechanism::{SkinKind, circular_punch, line_punch};
use beam_core::local::winkler::{PlateOnSprings, strip_under_line, strip_under_pressure};
use beam_core::quantity::si;

use super::{unknown, words};
use crate::inputs::Inputs;

fn plate_rigidity(inputs: &Inputs) -> Result<(f64, f64), String> {
    let (e, t, nu) = (inputs.si("Ef")?, inputs.si("tf")?, inputs.si("nu")?);
    Ok((e * t.powi(3) / (12.0 * (1.0 - nu * nu)), nu))
}

pub(super) fn springs(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (rigidity, nu) = plate_rigidity(inputs)?;
    let plate = PlateOnSprings::new(si(rigidity), nu, si(inputs.si("k")?)).map_err(words)?;
    if quantity == "characteristic length" {
        return Ok(plate.length().value);
    }
    let load = si(inputs.si("P")?);
    if quantity == "sag under a point" {
        return Ok(plate.sag_under_point(load).value);
    }
    let radius = si(inputs.si("r")?);
    Ok(match quantity {
        "sag" => plate.sag_within_circle(load, radius, si(0.0)).map_err(words)?.value,
        "stress of the bed" => plate.bed_stress_under_circle(load, radius).map_err(words)?.value,
        "moment" => plate.moment_under_circle(load, radius).map_err(words)?.value,
        "moment, small patch" => plate.westergaard_moment(load, radius).map_err(words)?.value,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn strip(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let rigidity = si(inputs.si("Ef")? * inputs.si("tf")?.powi(3) / 12.0);
    let bed = si(inputs.si("k")?);
    let under = match inputs.maybe("q")? {
        Some(q) => strip_under_pressure(rigidity, bed, si(q), si(inputs.si("loaded")?)),
        None => strip_under_line(rigidity, bed, si(inputs.si("line")?)),
    }
    .map_err(words)?;
    match quantity {
        "sag" => Ok(under.sag.value),
        "moment" => Ok(under.moment.value),
        _ => Err(unknown(quantity)),
    }
}

pub(super) fn layer(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (rigidity, nu) = plate_rigidity(inputs)?;
    let circle = circle_on_layer(
        si(rigidity),
        nu,
        si(inputs.si("Ec")?),
        inputs.si("nuc")?,
        si(inputs.si("c")?),
        si(inputs.si("P")?),
        si(inputs.si("r")?),
    )
    .map_err(words)?;
    Ok(match quantity {
        "stress of the foam" => circle.foam_stress.value,
        "sag" => circle.sag.value,
        "moment" => circle.moment.value,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn punch(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let crush = si(inputs.si("crush")?);
    match quantity {
        "round punch" => circular_punch(si(inputs.si("Mp")?), crush, si(inputs.si("r")?)),
        "long punch" => line_punch(
            SkinKind::Yields,
            si(inputs.si("f")?),
            si(inputs.si("t")?),
            crush,
            si(inputs.si("a")?),
            si(inputs.si("b")?),
        ),
        _ => return Err(unknown(quantity)),
    }
    .map(|force| force.value)
    .map_err(words)
}
