//! Section properties of tubes, and the sharply curved tube.

use beam_core::quantity::si;
use beam_core::section::{Hollow, ring_factors};

use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn hollow(inputs: &Inputs) -> Result<Hollow, String> {
    let b = inputs.si("b")?;
    let h = inputs.maybe("h")?.unwrap_or(b);
    let corner = inputs.maybe("corner")?.unwrap_or(0.0);
    Hollow::new(si(b), si(h), si(inputs.si("t")?), si(corner)).map_err(words)
}

pub(super) fn tube(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let hollow = hollow(inputs)?;
    let p = hollow.properties();
    Ok(match quantity {
        "area" => p.area.value,
        "second moment" => p.second_moment.value,
        "second moment, sideways" => p.second_moment_sideways.value,
        "elastic modulus" => p.elastic.value,
        "elastic modulus, sideways" => p.elastic_sideways.value,
        "plastic modulus" => p.plastic.value,
        "radius of gyration" => p.gyration.value,
        "radius of gyration, sideways" => p.gyration_sideways.value,
        "torsion constant" => p.torsion.value,
        "mass per length" => hollow.mass_per_length(si(inputs.si("density")?)).value,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn ring(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let [b, t, r] = ["b", "t", "R"].map(|name| inputs.si(name));
    let b = b?;
    let factors = ring_factors(si(b), si(b), si(t?), si(r?)).map_err(words)?;
    Ok(match quantity {
        "factor inside" => factors.inner.value,
        "factor outside" => factors.outer.value,
        "shift of the neutral axis" => factors.eccentricity.value,
        _ => return Err(unknown(quantity)),
    })
}
