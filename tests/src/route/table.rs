//! The tables of strengths.

use section_tables::Tables;

use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn en_alloy(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let alloy = Tables::shipped().en_alloy(inputs.word("alloy")?).map_err(words)?;
    let wall = inputs.si("wall")? * 1e3;
    let row = alloy.for_wall_mm(wall).ok_or("the table ends before this wall")?;
    Ok(match quantity {
        "proof strength" => row.f_o_mpa * 1e6,
        "ultimate strength" => row.f_u_mpa * 1e6,
        "proof strength beside a weld" => row.f_o_haz_mpa * 1e6,
        "ultimate strength beside a weld" => row.f_u_haz_mpa * 1e6,
        "exponent" => row.n_p,
        _ => return Err(unknown(quantity)),
    })
}
