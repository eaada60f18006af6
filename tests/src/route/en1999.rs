//! Walls and columns by EN 1999-1-1.

use beam_core::quantity::si;
use beam_core::strength::aluminium::RectangularTube;
use beam_core::strength::aluminium::en1999::{
    BucklingClass, Edges, EnMetal, EnStrengths, EnTube, PartialFactors, member_used, part,
};

use super::{unknown, words};
use crate::inputs::Inputs;

/// A metal, of buckling class A unless the row says otherwise; strengths that the row does not name do not enter its
/// quantity.
fn metal(inputs: &Inputs) -> Result<EnMetal, String> {
    let fo = inputs.si("fo")?;
    let e = inputs.maybe("e")?.unwrap_or(70e9);
    EnMetal::new(EnStrengths {
        fo: si(fo),
        fu: si(1.2 * fo),
        fo_haz: si(0.4 * fo),
        fu_haz: si(0.7 * fo),
        e: si(e),
        g: si(0.376 * e),
        class: match inputs.word_or("class", "A") {
            "A" => BucklingClass::A,
            "B" => BucklingClass::B,
            other => return Err(format!("class \"{other}\"")),
        },
        wall_over: si(0.0),
        wall_to: si(0.025),
    })
    .map_err(words)
}

pub(super) fn wall(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let metal = metal(inputs)?;
    let found = part(&metal, Edges::Both, false, inputs.si("clear")? / inputs.si("t")?);
    Ok(match quantity {
        "limit of class 1" => found.limits[0],
        "limit of class 2" => found.limits[1],
        "limit of class 3" => found.limits[2],
        "share of the thickness" => found.rho,
        "epsilon" => found.limits[2] / 22.0,
        _ => return Err(unknown(quantity)),
    })
}

fn tube(inputs: &Inputs) -> Result<EnTube, String> {
    let (b, t) = (inputs.si("b")?, inputs.si("t")?);
    let h = inputs.maybe("h")?.unwrap_or(b);
    Ok(EnTube {
        tube: RectangularTube::new(si(b), si(h), si(t)).map_err(words)?,
        metal: metal(inputs)?,
        factors: PartialFactors::new(inputs.si("gamma")?, 1.25).map_err(words)?,
        welded: false,
    })
}

/// Both webs over a seat at the end.
pub(super) fn seat(inputs: &Inputs) -> Result<f64, String> {
    let limit = tube(inputs)?.end_crippling(si(inputs.si("bearing")?)).map_err(words)?;
    Ok(limit.value.value)
}

/// A square tube over its whole length.
pub(super) fn member(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (tube, length) = (tube(inputs)?, si(inputs.si("length")?));
    let axial = tube.compression(length, length, None).map_err(words)?;
    let bending = tube.bending(length).map_err(words)?;
    Ok(match quantity {
        "class in bending" => f64::from(bending.class),
        "slenderness" => axial.slenderness,
        "chi" => axial.chi,
        "member buckling" => axial.member.value,
        "shape factor" => bending.alpha,
        "bending" => bending.least.value,
        "shear" => tube.shear().map_err(words)?.value.value,
        "used by force and moment" => {
            let none = (si(0.0), bending.least);
            let about = (si(inputs.si("M")?), bending.least);
            member_used((si(inputs.si("N")?), axial.member), about, none, si(1.0)).map_err(words)?.value.value
        }
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn column(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let (tube, length) = (tube(inputs)?, si(inputs.si("length")?));
    let found = tube.compression(length, length, None).map_err(words)?;
    Ok(match quantity {
        "effective area" => found.effective_area.value,
        "slenderness" => found.slenderness,
        "chi" => found.chi,
        "member buckling" => found.member.value,
        _ => return Err(unknown(quantity)),
    })
}
