//! Circular arches.

use beam_core::quantity::si;
use beam_core::strip::{
    Arch, ArchEnds, ArchLoad, ArchState, ShallowEnds, ShallowLoad, arch_sway_pressure, shallow_snap,
    sine_arch_snap,
};

use super::tube::hollow;
use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn ends(inputs: &Inputs) -> Result<ArchEnds, String> {
    match inputs.word("ends")? {
        "pinned" => Ok(ArchEnds::Pinned),
        "fixed" => Ok(ArchEnds::Fixed),
        "roller" => Ok(ArchEnds::Roller),
        other => Err(format!("ends \"{other}\"")),
    }
}

/// An arch of square tube; its two webs (whole depth) take the shear.
pub(super) fn arch(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let section = hollow(inputs)?.properties();
    let (b, t, span) = (inputs.si("b")?, inputs.si("t")?, inputs.si("span")?);
    let e = inputs.si("e")?;
    let arch = Arch {
        span: si(span),
        rise: si(inputs.si("rise")?),
        axial: si(e * section.area.value),
        bending: si(e * section.second_moment.value),
        shear: si(inputs.si("g")? * 2.0 * b * t),
        ends: ends(inputs)?,
        hold: inputs.maybe("hold")?.map(si),
    };
    if quantity == "radius" {
        return arch.radius().map(|r| r.value).map_err(words);
    }
    let load = if let Some(force) = inputs.maybe("P")? {
        ArchLoad::Point { force: si(force), x: si(inputs.si("at")? * span) }
    } else if let Some(load) = inputs.maybe("w")? {
        ArchLoad::Uniform(si(load))
    } else {
        ArchLoad::Warming(si(inputs.si("warming")?))
    };
    let state = arch.solve(load).map_err(words)?;
    match quantity {
        "moment at a quarter" => at(&state, 0.25 * span),
        "moment at three quarters" => at(&state, 0.75 * span),
        _ => read(&state, quantity),
    }
}

fn at(state: &ArchState, x: f64) -> Result<f64, String> {
    Ok(state.moment_at(si(x)).ok_or("off the arch")?.value)
}

fn read(state: &ArchState, quantity: &str) -> Result<f64, String> {
    Ok(match quantity {
        "thrust" => state.thrust().value,
        "crown moment" => state.crown_moment().value,
        "end moment" => state.end_moments()[0].value,
        "crown sag" => state.crown_sag().value,
        _ => return Err(unknown(quantity)),
    })
}

/// A thin arch that hardly shortens, of unit bending stiffness and span, under a unit load: numbers without dimension.
pub(super) fn thin(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let rise = inputs.si("rise")?;
    let arch = Arch {
        span: si(1.0),
        rise: si(rise),
        axial: si(inputs.si("stretch")?),
        bending: si(1.0),
        shear: si(inputs.si("stretch")?),
        ends: ends(inputs)?,
        hold: None,
    };
    let load = match inputs.word("load")? {
        "central" => ArchLoad::Point { force: si(1.0), x: si(0.5) },
        "even" => ArchLoad::Uniform(si(1.0)),
        other => return Err(format!("load \"{other}\"")),
    };
    read(&arch.solve(load).map_err(words)?, quantity)
}

fn held(inputs: &Inputs) -> Result<ShallowEnds, String> {
    match inputs.word("ends")? {
        "pinned" => Ok(ShallowEnds::Pinned),
        "fixed" => Ok(ShallowEnds::Fixed),
        other => Err(format!("ends \"{other}\"")),
    }
}

/// A flat arch in its own numbers.
pub(super) fn shallow(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let load = match quantity {
        "P a3/(E I r)" => ShallowLoad::Crown,
        "w a4/(E I r)" => ShallowLoad::Even,
        _ => return Err(unknown(quantity)),
    };
    let snap = shallow_snap(held(inputs)?, load, si(inputs.si("lambda")?)).map_err(words)?;
    Ok(snap.ok_or("it does not snap")?.load.value)
}

/// `q R3/(E I)` under which an arch sways.
pub(super) fn pressure(inputs: &Inputs) -> Result<f64, String> {
    let half = inputs.si("degrees")?.to_radians();
    arch_sway_pressure(held(inputs)?, si(half)).map(|q| q.value).map_err(words)
}

/// `q0 L4/(pi4 E I a)`.
pub(super) fn sine(inputs: &Inputs) -> Result<f64, String> {
    let snap = sine_arch_snap(si(inputs.si("kappa")?)).map_err(words)?;
    Ok(snap.ok_or("it does not snap")?.load.value)
}
