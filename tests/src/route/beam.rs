//! The sandwich beam and its bending tests.

use beam_core::quantity::si;
use beam_core::strip::{BendingTest, SandwichBeam, stiffness_from_tests};

use super::{unknown, words};
use crate::inputs::Inputs;

pub(super) fn sandwich(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let beam = SandwichBeam {
        span: si(inputs.si("span")?),
        width: si(inputs.si("width")?),
        face: si(inputs.si("face")?),
        core: si(inputs.si("core")?),
        face_modulus: si(inputs.si("Ef")?),
        core_modulus: si(inputs.si("Ec")?),
        core_shear_modulus: si(inputs.si("Gc")?),
    };
    let force = |name: &str| inputs.si(name).map(si);
    Ok(match quantity {
        "sag, thin faces, central load" => beam.point(force("P")?).map_err(words)?.total().value,
        "sag, thick faces, central load" => beam.point_thick(force("P")?).map_err(words)?.total().value,
        "sag, thin faces, even load" => beam.uniform(si(inputs.si("q")?)).map_err(words)?.total().value,
        "sag, thick faces, even load" => {
            beam.uniform_thick(si(inputs.si("q")?)).map_err(words)?.total().value
        }
        "sag, two loads" => {
            beam.two_points(force("P")?, si(inputs.si("apart")?)).map_err(words)?.total().value
        }
        "stress in the faces" => beam.face_stress(force("P")?, si(inputs.si("apart")?)).map_err(words)?.value,
        _ => return Err(unknown(quantity)),
    })
}

pub(super) fn two_tests(quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    let test = |n: &str| -> Result<BendingTest, String> {
        let get = |name: &str| inputs.si(&format!("{name}{n}"));
        Ok(BendingTest {
            load: si(get("P")?),
            span: si(get("span")?),
            apart: si(get("apart")?),
            sag: si(get("sag")?),
        })
    };
    let (bending, shear) = stiffness_from_tests([test("1")?, test("2")?]).map_err(words)?;
    match quantity {
        "bending stiffness" => Ok(bending.value),
        "shear stiffness" => Ok(shear.value),
        _ => Err(unknown(quantity)),
    }
}
