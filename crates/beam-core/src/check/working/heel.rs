//! A heel worked through: the skin's moments on a bed that does not move, by as much more as a lower skin that moves lets
//! it bend, the stress of both, and what the panel as a whole adds.

use super::{AGREE, Step, n, pa, step};
use crate::check::context::Context;
use crate::check::foot::{FootPlace, WITH_THE_PANEL, skin_bending, under_heel};
use crate::check::{Finding, NotFinite};

const WAYS: [&str; 2] = ["across", "along"];
/// Signs of moment, share and product, for the direction that is judged and the other.
const SIGNS: [[&str; 3]; 2] = [["M_r", "k_s", "M"], ["M_r2", "k_s2", "M_2"]];

/// Steps up to the limit, and the limit; nothing where they do not come to the demand of the finding.
pub(super) fn steps(
    context: &Context<'_>,
    finding: &Finding,
    layer: usize,
    weight: f64,
) -> Result<Option<(Vec<Step>, f64)>, NotFinite> {
    let state = context.roof.state_at(finding.x, finding.y);
    let place = FootPlace { state: &state, x: finding.x, y: finding.y, curvature: 0.0 };
    let Ok(bent) = under_heel(context, &place, weight) else { return Ok(None) };
    let moments = bent.rigid.swayed(bent.moving);
    let Ok(found) = skin_bending(context, &place, &bent.plate, &bent.lay_up, moments) else {
        return Ok(None);
    };
    let near = |a: f64, b: f64| (a / b - 1.0).abs() < AGREE;
    // One of each direction for each layer.
    let of_layer = found.iter().filter(|f| f.part == finding.part).enumerate();
    let Some((d, same)) =
        of_layer.filter(|(_, f)| near(f.demand, finding.demand) && near(f.limit, finding.limit)).last()
    else {
        return Ok(None);
    };
    let Some(known) = context.strengths[layer].bending[d].as_ref() else { return Ok(None) };
    let (gamma, why) = context.gamma_skin(layer);
    let factors = context.factors;
    let mut out = vec![step(
        ("F", "load on the heel"),
        "the larger of m g and the heel force of the tables",
        format!("max({} N, {} N)", n(weight), n(factors.heel_force)),
        (weight.max(factors.heel_force), "N"),
        "factors table",
    )?];
    let sway = bent.rigid.sway(bent.moving);
    for (d, [rigid, share, both]) in [d, 1 - d].into_iter().zip(SIGNS) {
        let (on_rigid, sound, moving) = (bent.rigid.yielding[d], bent.rigid.sound[d], bent.moving[d]);
        let way = WAYS[d];
        out.push(step(
            (rigid, &format!("moment of the skin {way}, on a bed that does not move")),
            "plate on foam softened until it just bears its crushing stress",
            format!("heel {} mm square", n(factors.heel_side * 1e3)),
            (on_rigid, "N m/m"),
            "plate on an elastic layer, solved",
        )?);
        out.push(step(
            (share, &format!("sway of a lower skin that moves, {way}")),
            "max(1, M_moving/M_rigid), both on sound foam",
            format!("max(1, {}/{})", n(moving), n(sound)),
            (sway[d], "-"),
            "half of the heel presses the skins together, half moves both down: plates on an elastic layer, solved",
        )?);
        out.push(step(
            (both, &format!("moment with the sway, {way}")),
            &format!("{share} x {rigid}"),
            format!("{} x {} N", n(sway[d]), n(on_rigid)),
            (moments[d], "N m/m"),
            "",
        )?);
    }
    let alone = same.demand / WITH_THE_PANEL;
    out.push(step(
        ("s_heel", "bending stress in the skin by both moments"),
        "M and M_2 on the skins over the foam as a laminate",
        String::new(),
        (alone, "Pa"),
        "laminate theory: 6 M/t^2 for a skin of one layer, and what M_2 adds",
    )?);
    out.push(step(
        ("s", "bending stress with the panel as a whole"),
        "1.15 x s_heel",
        format!("{} x {}", n(WITH_THE_PANEL), pa(alone)),
        (finding.demand, "Pa"),
        "the panel's own bending under somebody, judged: 2 to 4 MPa beside 25 to 30",
    )?);
    out.push(step(
        ("f", "limit"),
        "k_mod x f_mk x left/gamma_M",
        format!(
            "{} x {} x {}/{}",
            n(factors.k_mod_short),
            pa(known.value),
            n(state[layer].strength),
            n(gamma)
        ),
        (same.limit, "Pa"),
        &format!("{}; {why}", known.source),
    )?);
    Ok(Some((out, same.limit)))
}

#[cfg(test)]
mod tests {
    use crate::ask::{CheckOptions, check};
    use crate::check::Working;
    use crate::survey::read_text;
    use section_tables::Tables;

    /// A skin of one layer and one stiffness both ways, without Poisson's ratio: its stress is `6 M/t^2`.
    #[test]
    fn a_heel_multiplies_out() {
        let text = r#"
survey = 1
title = "Seed library, roof over the drying racks"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "1200"
rise = "0"
length = "800"
front = "cross wall"
rear = "cross wall"
[material.board]
E = "7 GPa"
nu = 0.0
strength = { tension = "25 MPa", compression = "25 MPa", shear = "8 MPa", bending = "30 MPa" }
strength_is = "5 percent"
density = "600 kg/m3"
[[layer]]
name = "outer skin"
material = "board"
thickness = "4"
[[layer]]
name = "core"
material = "EPS 20"
thickness = "50"
[[layer]]
name = "inner skin"
material = "board"
thickness = "2"
[person]
mass = "80"
way = "bare"
"#;
        let survey = read_text("racks.toml", text, Tables::shipped()).expect("a sound survey");
        let options = CheckOptions { working: true, ..CheckOptions::default() };
        let document = check(&survey, Tables::shipped(), options).expect("an answer");
        let heel: &Working = document.working.iter().find(|w| w.check == "heel").expect("a heel");
        let s = |sign: &str| heel.steps.iter().find(|s| s.sign == sign).expect("a step").value.get();
        let near = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 1e-6, "{a} and {b}");
        near(s("M"), s("k_s") * s("M_r"));
        near(s("M_2"), s("k_s2") * s("M_r2"));
        near(s("s_heel"), 6.0 * s("M") / 0.004f64.powi(2));
        near(s("s"), 1.15 * s("s_heel"));
        near(s("u"), s("s") / s("f"));
        near(s("ratio"), 1.05 * s("u"));
        assert!(s("k_s") >= 1.0 && s("k_s") < 3.0, "{}", s("k_s"));
        let row = document.checks.iter().find(|r| r.check == "heel").expect("a row");
        near(s("ratio"), row.ratio.get());
    }
}
