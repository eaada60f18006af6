//! A walk board laid over an opening: a beam from rim to rim with somebody in the middle of it.
//!
//! What its ends press on the rim with, and a foot near a corner of it, is not in it: the board is judged, not the roof.

use super::Materials;
use super::foot::{board_of, weight};
use super::walk_board::allowed;
use crate::loads::Factors;
use crate::model::strengths;
use crate::strip::{effective_sides_si, spread_factor_si};
use crate::survey::Survey;

/// What a board uses of its bending strength over a clear width `clear`, m, laid with its longer side over it.
///
/// `M = P a/4` in the middle of `a`, `P` the person walking, on no more of the board than goes along with a sole that is
/// flush with a side of it ([`crate::strip::effective_width`]); whichever way its grain lies.
///
/// # Errors
/// In words: a make, a modulus or a strength that is not known.
pub(crate) fn bridging(
    survey: &Survey,
    factors: &Factors,
    materials: Materials,
    clear: f64,
) -> Result<f64, String> {
    let board = &survey.person.board;
    let (_, safe, _) = allowed(survey, factors)?;
    let known = strengths(&board.material, true, materials);
    let plate = board_of(survey, materials)?;
    let [w, l] = board.size.map(|s| s.value);
    let sole = factors.sole[0].min(factors.sole[1]).min(w.min(l));
    let (load, t) = (weight(survey) * factors.walking, board.thickness.value);
    let mut worst: f64 = 0.0;
    for (d, [over, beside]) in [[plate.d11, plate.d22], [plate.d22, plate.d11]].into_iter().enumerate() {
        let name = || board.material.id();
        let known = known.bending[d].as_ref();
        let known = known.ok_or_else(|| format!("no bending strength is known for {}", name()))?;
        let spread = spread_factor_si(over, beside, plate.d12, plate.d66).map_err(|e| e.to_string())?;
        let to_edges = [0.0, w.min(l) - sole];
        let sides = effective_sides_si(clear / 2.0, clear, to_edges, spread).map_err(|e| e.to_string())?;
        let moment = load * clear / 4.0 / (sole + sides[0] + sides[1]);
        worst = worst.max(6.0 * moment / (t * t) / (known.value * safe) * survey.limits.model_factor);
    }
    if worst.is_finite() { Ok(worst) } else { Err("the board's bending is no number".to_owned()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::read_text;
    use section_tables::Tables;

    fn hall(thickness: &str) -> Survey {
        let text = format!(
            r#"
survey = 1
title = "Map room trailer, roof over the plan chest"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "0"
length = "1600"
like = "ply 3 / bead foam 50 / ply 3"
[material.plate]
E = "6 GPa"
nu = 0.0
strength = {{ bending = "20 MPa", shear = "2 MPa", tension = "15 MPa", compression = "15 MPa" }}
strength_is = "5 percent"
density = "600 kg/m3"
[person]
mass = "100"
board = {{ size = ["200", "1200"], material = "plate", thickness = "{thickness}" }}
"#
        );
        read_text("hall.toml", &text, Tables::shipped()).unwrap_or_else(|p| panic!("{p}"))
    }

    /// By hand, a plank no wider than what a sole takes along: `6 P a/(4 b t^2)`, `P` 1.2 x 100 kg, on at most all of its
    /// 200 mm and at least on the sole.
    #[test]
    fn a_plank_over_a_hole_is_a_beam() {
        let of = |t: &str, clear: f64| {
            let survey = hall(t);
            let factors = Factors::of(&survey, Tables::shipped()).unwrap();
            bridging(&survey, &factors, Materials::Default, clear).unwrap()
        };
        let by_hand = |t: f64, clear: f64, b: f64| {
            let stress = 6.0 * 1.2 * 100.0 * 9.80665 * clear / 4.0 / (b * t * t);
            1.05 * stress / (20e6 * 0.9 / (1.5 * 1.2))
        };
        let found = of("18", 0.4);
        assert!(found >= by_hand(0.018, 0.4, 0.2) && found <= by_hand(0.018, 0.4, 0.1), "{found}");
        // A wide hole takes the whole plank along: its own width, within what a free side cuts off.
        let wide = of("18", 1.0);
        assert!(wide >= by_hand(0.018, 1.0, 0.2) && wide < 1.5 * by_hand(0.018, 1.0, 0.2), "{wide}");
        assert!((of("9", 0.4) / found - 4.0).abs() < 1e-9);
    }
}
