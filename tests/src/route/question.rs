//! Whole questions about a tube or a lone brace, as the command line puts them.

use beam_core::ask::{
    BraceLoad, BraceQuestion, TubeAnswer, TubeQuestion, TubeSection, brace as ask_brace, tube as ask_tube,
};
use beam_core::quantity::si;
use beam_core::survey::AluminiumRules;
use section_tables::Tables;

use super::arch::ends;
use super::{unknown, words};
use crate::inputs::Inputs;

fn section(inputs: &Inputs) -> Result<TubeSection, String> {
    let b = inputs.si("b")?;
    Ok(TubeSection::Measured {
        width: si(b),
        depth: si(inputs.maybe("h")?.unwrap_or(b)),
        wall: si(inputs.si("t")?),
        corner: si(inputs.maybe("corner")?.unwrap_or(0.0)),
    })
}

pub(super) fn tube(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let question = TubeQuestion {
        section: section(inputs)?,
        alloy: inputs.word("alloy")?.to_owned(),
        length: si(inputs.si("length")?),
        held_every: inputs.maybe("held")?.map(si),
        rules: match inputs.word("rules")? {
            "ADM 2020 ASD" => AluminiumRules::Adm2020Asd,
            "ADM 2020 LRFD" => AluminiumRules::Adm2020Lrfd,
            "EN 1999-1-1" => AluminiumRules::En1999,
            other => return Err(format!("rules \"{other}\"")),
        },
        weld_at: inputs.maybe("weld")?.map(si),
        partial_factors: [inputs.maybe("gamma_m1")?, inputs.maybe("gamma_m2")?],
    };
    let answer = ask_tube(&question, Tables::shipped()).map_err(words)?;
    read(&answer, quantity)
}

fn read(answer: &TubeAnswer, quantity: &str) -> Result<f64, String> {
    let strength = &answer.strength;
    let bending = || strength.bending.ok_or("no bending strength");
    let value = match quantity {
        "tension" => strength.tension,
        "compression" => strength.compression,
        "bending" => Some(bending()?.least),
        "bending, yield" => bending()?.yield_,
        "bending, rupture" => bending()?.rupture,
        "bending, local buckling" => bending()?.local,
        "bending, lateral-torsional buckling" => bending()?.lateral_torsional,
        "shear" => strength.shear,
        _ => return Err(unknown(quantity)),
    };
    value.map(|v| v.get()).ok_or_else(|| format!("no number for {quantity}"))
}

pub(super) fn brace(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let question = BraceQuestion {
        span: si(inputs.si("span")?),
        rise: si(inputs.si("rise")?),
        section: section(inputs)?,
        alloy: inputs.word("alloy")?.to_owned(),
        load: inputs.maybe("P")?.map(|force| BraceLoad::Force(si(force))),
        at: inputs.maybe("at")?.map(si),
        uniform: inputs.maybe("w")?.map(si),
        ends: Some(ends(inputs)?),
        thrust_spring: inputs.maybe("hold")?.map(si),
        rules: AluminiumRules::Adm2020Asd,
        partial_factors: [None; 2],
    };
    let answer = ask_brace(&question, Tables::shipped()).map_err(words)?;
    let moved = || answer.second_order.ok_or("it gives way before");
    Ok(match quantity {
        "thrust" => answer.thrust.get(),
        "crown moment" => answer.crown_moment.get(),
        "end moment" => answer.end_moment.get(),
        "largest moment" => answer.max_moment.get(),
        "sag" => answer.crown_sag.get(),
        "largest stress" => answer.max_stress.get(),
        "thrust, large movements" => moved()?.thrust.get(),
        "crown moment, large movements" => moved()?.crown_moment.get(),
        "snap load, lopsided" => answer.snap_load_lopsided.ok_or("it does not snap")?.get(),
        "snap load" => answer.snap_load.ok_or("it does not snap")?.get(),
        _ => return Err(unknown(quantity)),
    })
}
