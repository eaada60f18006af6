//! Buckling constants and flat elements of the Aluminum Design Manual.

use beam_core::quantity::si;
use beam_core::strength::aluminium::adm::constants::Constants;
use beam_core::strength::aluminium::adm::element::{flange, leg, shear_web, web};
use beam_core::strength::aluminium::adm::{AdmAlloy, AdmStrengths, Format, LimitState, Metal, Temper, Weld};

use super::{unknown, words};
use crate::inputs::Inputs;

/// The alloy of a row. A strength that the row leaves out does not enter its quantity; it is set so high or so low that
/// it cannot govern.
pub(super) fn alloy(inputs: &Inputs) -> Result<AdmAlloy, String> {
    let fcy = inputs.maybe("fcy")?;
    let ftyw = inputs.maybe("ftyw")?;
    let ftuw = inputs.maybe("ftuw")?;
    let ftu = inputs.maybe("ftu")?;
    let fty = inputs.maybe("fty")?.or(fcy).unwrap_or(ftu.map_or(1e9, |f| 0.5 * f));
    let ftu = ftu.unwrap_or(10.0 * fty.max(ftuw.unwrap_or(0.0)));
    let e = inputs.maybe("e")?.unwrap_or(69.6e9);
    AdmAlloy::new(AdmStrengths {
        ftu: si(ftu),
        fty: si(fty),
        fcy: si(fcy.unwrap_or(fty)),
        ftuw: si(ftuw.unwrap_or(ftu)),
        ftyw: si(ftyw.unwrap_or(1e3)),
        kt: 1.0,
        e: si(e),
        g: si(inputs.maybe("g")?.unwrap_or(0.376 * e)),
        temper: match inputs.word_or("temper", "aged") {
            "aged" => Temper::Aged,
            "not aged" => Temper::NotAged,
            other => return Err(format!("temper \"{other}\"")),
        },
        thinnest_wall: None,
        thickest_wall: None,
    })
    .map_err(words)
}

pub(super) fn weld(inputs: &Inputs) -> Result<Weld, String> {
    match inputs.word_or("weld", "none") {
        "none" => Ok(Weld::None),
        "within" => Ok(Weld::Within),
        other => Err(format!("weld \"{other}\"")),
    }
}

pub(super) fn format(inputs: &Inputs) -> Result<Format, String> {
    match inputs.word_or("format", "ASD") {
        "ASD" => Ok(Format::Asd),
        "LRFD" => Ok(Format::Lrfd),
        other => Err(format!("format \"{other}\"")),
    }
}

fn metal(inputs: &Inputs) -> Result<Metal, String> {
    let alloy = alloy(inputs)?;
    Ok(if weld(inputs)? == Weld::None { alloy.sound() } else { alloy.weld_affected() })
}

pub(super) fn constants(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let all = Constants::of(&metal(inputs)?);
    let (which, line) = quantity.split_once(' ').ok_or_else(|| unknown(quantity))?;
    let line = match line {
        "of columns" => all.column,
        "of flat walls" => all.flat,
        "of bent walls" => all.bent,
        "of shear" => all.shear,
        _ => return Err(unknown(quantity)),
    };
    Ok(match which {
        "B" => line.intercept().value,
        "D" => line.slope().value,
        "C" => line.intersection(),
        _ => return Err(unknown(quantity)),
    })
}

/// Rows of part VI are allowable stresses: nominal over 1.65.
pub(super) fn element(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let metal = metal(inputs)?;
    let curve = match inputs.word("wall")? {
        "flange" => flange(&metal),
        "leg" => leg(&metal),
        "web" => web(&metal),
        "shear" => shear_web(&metal),
        other => return Err(format!("wall \"{other}\"")),
    };
    let factor = Format::Asd.factor(LimitState::YieldOrBuckling);
    Ok(match quantity {
        "allowable at yield" => factor * curve.plateau().value,
        "first slenderness" => curve.limits().0,
        "second slenderness" => curve.limits().1,
        "allowable intercept" => factor * curve.line().0.value,
        "allowable slope" => factor * curve.line().1.value,
        "allowable beyond" => factor * curve.falling().0.value,
        "allowable stress" => factor * curve.stress(inputs.si("slenderness")?).value,
        _ => return Err(unknown(quantity)),
    })
}
