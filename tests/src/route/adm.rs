//! Members by the Aluminum Design Manual.

use beam_core::quantity::{Moment, si};
use beam_core::strength::aluminium::RectangularTube;
use beam_core::strength::aluminium::adm::{self, Flexure, Format, LimitState, LocalMethod};

use super::element::{alloy, format, weld};
use super::{unknown, words};
use crate::inputs::Inputs;

fn tube(inputs: &Inputs) -> Result<RectangularTube, String> {
    let b = inputs.si("b")?;
    let h = inputs.maybe("h")?.unwrap_or(b);
    RectangularTube::new(si(b), si(h), si(inputs.si("t")?)).map_err(words)
}

/// A tube for rows that are stresses, on which the tube has no bearing.
fn any_tube() -> Result<RectangularTube, String> {
    RectangularTube::new(si(0.05), si(0.05), si(0.005)).map_err(words)
}

pub(super) fn tension(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let tube = any_tube()?;
    let strength =
        adm::tension(&tube, &alloy(inputs)?, tube.area(), weld(inputs)?, format(inputs)?).map_err(words)?;
    let area = tube.area().value;
    Ok(match quantity {
        "allowable on the gross area" => strength.yield_.value / area,
        "allowable on the net area" => strength.rupture.value / area,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn bending(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let strength = Flexure {
        tube: tube(inputs)?,
        alloy: alloy(inputs)?,
        unbraced: si(inputs.si("unbraced")?),
        cb: inputs.si("cb")?,
        weld: weld(inputs)?,
        local: match inputs.word_or("local", "weighted") {
            "weighted" => LocalMethod::Weighted,
            "limiting element" => LocalMethod::LimitingElement,
            other => return Err(format!("local \"{other}\"")),
        },
    }
    .strength(format(inputs)?)
    .map_err(words)?;
    Ok(match quantity {
        "yield" => strength.yield_.value,
        "rupture" => strength.rupture.value,
        "local buckling" => strength.local.value,
        "lateral-torsional buckling" => strength.lateral_torsional.value,
        "least" => strength.least.value,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn compression(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    if quantity == "allowable stress of the member" {
        let tube = any_tube()?;
        let length = inputs.si("slenderness")? * tube.least_radius().value;
        let strength = adm::compression(&tube, &alloy(inputs)?, si(length), weld(inputs)?, format(inputs)?)
            .map_err(words)?;
        return Ok(strength.member.value / tube.area().value);
    }
    let (tube, length) = (tube(inputs)?, inputs.si("length")?);
    if quantity == "slenderness" {
        return Ok(length / tube.least_radius().value);
    }
    let strength = adm::compression(&tube, &alloy(inputs)?, si(length), weld(inputs)?, format(inputs)?)
        .map_err(words)?;
    Ok(match quantity {
        "member buckling" => strength.member.value,
        "local buckling" => strength.local.value,
        "interaction" => strength.interaction.ok_or("the walls do not buckle first")?.value,
        "least" => strength.least.value,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn shear(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    if quantity == "allowable stress at rupture" {
        let (depth, wall) = (0.05, 0.005);
        let strength =
            adm::shear(&any_tube()?, &alloy(inputs)?, weld(inputs)?, format(inputs)?).map_err(words)?;
        return Ok(strength.rupture.value / (2.0 * wall * (depth - 2.0 * wall)));
    }
    let strength =
        adm::shear(&tube(inputs)?, &alloy(inputs)?, weld(inputs)?, format(inputs)?).map_err(words)?;
    Ok(match quantity {
        "yield or buckling" => strength.buckling.value,
        _ => return Err(unknown(quantity)),
    })
}

/// Nominal strength of one web.
pub(super) fn crippling(inputs: &Inputs) -> Result<f64, String> {
    let bearing = si(inputs.si("bearing")?);
    let both = adm::end_crippling(&tube(inputs)?, &alloy(inputs)?, bearing, weld(inputs)?, Format::Asd)
        .map_err(words)?;
    Ok(both.value.value / Format::Asd.factor(LimitState::RuptureOrCrippling) / 2.0)
}

/// Available torque.
pub(super) fn torque(inputs: &Inputs) -> Result<f64, String> {
    adm::torsion(&tube(inputs)?, &alloy(inputs)?, weld(inputs)?, format(inputs)?)
        .map(|l| l.value.value)
        .map_err(words)
}

pub(super) fn wall_combined(inputs: &Inputs) -> Result<f64, String> {
    let pair = |a: &str, b: &str| -> Result<_, String> { Ok((si(inputs.si(a)?), si(inputs.si(b)?))) };
    adm::flat_element(pair("fc", "Fc")?, pair("fb", "Fb")?, pair("fs", "Fs")?)
        .map(|l| l.value.value)
        .map_err(words)
}

pub(super) fn combined(inputs: &Inputs) -> Result<f64, String> {
    let pair =
        |a: &str, b: &str| -> Result<(Moment, Moment), String> { Ok((si(inputs.si(a)?), si(inputs.si(b)?))) };
    let axial = (si(inputs.si("P")?), si(inputs.si("Pc")?));
    adm::axial_and_bending(axial, pair("Mx", "Mcx")?, pair("My", "Mcy")?)
        .map(|l| l.value.value)
        .map_err(words)
}

pub(super) fn gradient(inputs: &Inputs) -> Result<f64, String> {
    let quarters = [inputs.si("MA")?, inputs.si("MB")?, inputs.si("MC")?].map(si);
    adm::moment_gradient(si(inputs.si("Mmax")?), quarters).map_err(words)
}
