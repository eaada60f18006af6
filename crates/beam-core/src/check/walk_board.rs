//! The walk board itself: it bends, and its plies roll, under the person who stands on it.
//!
//! The board lies loose on the skin over the foam. Its bending is that of the foot on board on panel (`local`), the foam
//! warm and so at its softest, the foot in the middle of the board and flush with a side of it, either way round; there
//! the board alone is counted. On top it follows the roof, which sags under the person and may be dished already: that
//! bends it by its stiffness times the roof's curvature.
//!
//! Not in it: a foot at a corner of the board, a board that reaches over an edge or an opening (for one that lies over it
//! see `bridging.rs`), or does not lie flat.

use super::context::{Context, basis};
use super::finding::{Check, Finding};
use super::foot::{FootPlace, at, board_plate, foam, skin_plate, weight};
use super::pressed::Pressing;
use crate::loads::{Factors, Footing};
use crate::local::{Below, FootCase, Layer, Patch, PlateD, bessel_k1, dent_at_edge, moments_of};
use crate::model::{Rect, Time, strengths};
use crate::response::worse_of;
use crate::survey::{LayerMaterial, Measured, Survey};
use nalgebra::{Matrix6, Vector6};
use section_tables::MaterialFamily;

/// Name of the part.
const PART: &str = "walk board";
/// Peak over mean of the shear stress in a bent plate.
const PARABOLA: f64 = 1.5;
/// A surface is fitted to no fewer places than these.
const FEWEST: usize = 12;

/// What the board of this survey uses at a place; over a void it is bent by `more` than over sound foam, across and along.
///
/// # Errors
/// In words: a strength that is not known, a place where no foam bears it.
pub(super) fn walk_board(
    context: &Context<'_>,
    survey: &Survey,
    place: &FootPlace<'_>,
    more: [f64; 2],
) -> Result<Vec<Finding>, String> {
    let board = &survey.person.board;
    let name = board.material.id();
    let known = strengths(&board.material, true, context.materials);
    let (family, safe, why) = allowed(survey, context.factors)?;
    let plate = board_plate(context, survey)?;
    let load = weight(survey) * context.factors.walking;
    let mut moments = bending(context, place, plate, load)?;
    moments.iter_mut().zip(more).for_each(|(m, more)| *m *= more);
    let curvature = place.curvature.max(0.0) * context.factors.walking + dished(survey);
    // However much the roof gives, a board cannot be bent more than on two trestles under its ends.
    let [w, l] = board.size.map(|s| s.value);
    let on_trestles = load * (l / w).max(w / l) / 4.0;
    moments[0] += ((plate.d11 + plate.d12) * curvature).min(on_trestles);
    moments[1] += ((plate.d22 + plate.d12) * curvature).min(on_trestles);
    let t = board.thickness.value;
    let mut out = Vec::new();
    let mut row = |demand: f64, known: &crate::model::Known, what: &str| {
        let mut finding = at(place, Check::WalkBoard, Footing::OnABoard, format!("{PART}, {what}"));
        finding.demand = demand;
        finding.limit = known.value * safe;
        finding.ratio = demand / finding.limit * context.model_factor;
        finding.basis = basis(known, why);
        out.push(finding);
    };
    for (moment, known) in moments.iter().zip(&known.bending) {
        let known = known.as_ref().ok_or_else(|| format!("no bending strength is known for {name}"))?;
        row(6.0 * moment / (t * t), known, "bending");
    }
    if let Some(known) = &known.shear_planar {
        // What leaves over the three sides of a sole that is flush with a side of the board.
        let [a, b] = context.factors.sole;
        let sides = (2.0 * a + b).min(2.0 * b + a);
        row(PARABOLA * load / sides / t, known, "rolling shear");
    } else if family == MaterialFamily::Plywood {
        return Err(format!("no rolling shear strength is known for {name}"));
    }
    Ok(out)
}

/// What a walk board is made of, the share of a strength that it may use, and by which factors.
///
/// # Errors
/// In words, a make whose breaking is not worked out.
pub(super) fn allowed(
    survey: &Survey,
    factors: &Factors,
) -> Result<(MaterialFamily, f64, &'static str), String> {
    let material = &survey.person.board.material;
    let family = match material {
        LayerMaterial::Table(m) => m.family,
        LayerMaterial::Own(_) => MaterialFamily::Board,
    };
    let (gamma, k_mod, why) = match family {
        MaterialFamily::Timber | MaterialFamily::Foam => {
            let name = material.id();
            return Err(format!("whether a walk board of {name} breaks is not worked out: take plywood"));
        }
        MaterialFamily::Metal => (factors.gamma_metal_face, 1.0, "gamma_M 1.1 and 1.5"),
        MaterialFamily::Sheet => {
            (factors.gamma_glass_fibre, factors.k_mod_short, "gamma_M for glass fibre and 1.5")
        }
        _ => (factors.gamma_plywood, factors.k_mod_short, "gamma_M 1.2 and 1.5, k_mod short"),
    };
    Ok((family, k_mod / (factors.panel * gamma), why))
}

/// Largest moments per width along the grain and across it, either sign, with the sole anywhere on the board.
fn bending(
    context: &Context<'_>,
    place: &FootPlace<'_>,
    board: PlateD,
    load: f64,
) -> Result<[f64; 2], String> {
    let foam = foam(context, place)?;
    let warm = context.moduli(foam.layer, Time::Hot).e_x / context.moduli(foam.layer, Time::Fresh).e_x;
    let layer = Layer::new(foam.e * warm, foam.nu, foam.depth).map_err(|e| e.to_string())?;
    let skin = skin_plate(context, place, Time::Fresh)?;
    let plates: Vec<PlateD> = skin.iter().map(|(d, _)| *d).chain([board]).collect();
    let [across, along] = context.factors.sole;
    let patch = Patch { load, across, along };
    let foot = Pressing { plates, foam: layer, below: Below::Rigid, patch };
    context.pressed.boards.of(foot, bent)
}

/// The same of a board, the last of the plates, on skins over warm foam.
fn bent(foot: &Pressing) -> Result<[f64; 2], String> {
    let Pressing { plates, foam: layer, patch: Patch { load, across: a, along: b }, .. } = foot;
    let (layer, load, a, b) = (*layer, *load, *a, *b);
    let board = *plates.last().ok_or("no board is there to be bent")?;
    let mut most = [0.0f64; 2];
    let mut keep = |along: f64, across: f64| {
        most = [worse_of(most[0], along), worse_of(most[1], across)];
    };
    for (across, along) in [(a, b), (b, a)] {
        let patch = Patch { load, across, along };
        let case = FootCase { plates, foam: layer, below: Below::Rigid, patch };
        let on_a_bed = moments_of(&case, plates.len() - 1).map_err(|e| e.to_string())?.largest();
        // Half of the load presses the skins together, no harder than on a bed that does not move; under the other half
        // they sway.
        let (swayed, beside) = (swayed(board, &layer, patch), at_a_side(board, &layer, patch));
        let with = |alone: f64, sway: f64| worse_of(alone, alone / 2.0 + sway);
        keep(with(on_a_bed[0], swayed[0]), with(on_a_bed[1], swayed[1]));
        let side = dent_at_edge(board, &layer, Below::Rigid, patch, 0.0).map_err(|e| e.to_string())?;
        // Square to the side the sway bends it less than in the middle.
        keep(side.moment_across, with(side.moment_along, beside[1] * swayed[1]));
        let end =
            dent_at_edge(board.turned(), &layer, Below::Rigid, patch, 0.0).map_err(|e| e.to_string())?;
        keep(with(end.moment_along, beside[0] * swayed[0]), end.moment_across);
    }
    if most.iter().all(|m| m.is_finite()) {
        Ok(most)
    } else {
        Err("the board's bending is no number".to_owned())
    }
}

/// Moments of a board, across and along, where both skins go down with it and the foam between them shears: a plate on a
/// layer that only shears, `D lap lap w - S lap w = q`. In the middle of a round patch of radius `r`, the same area,
/// `-lap w = (q/S)(1 - x K1(x))`, `x = r/sqrt(D/S)` (the layer's response is `K0`; worked out here). Of that the curvature
/// over the short side of a rectangle takes at most `(2/pi) atan(long/short)`, that over the long side at most a half. The
/// board is taken as stiff both ways as in the direction asked for, and `S` as `G` times the foam's depth, which is low.
fn swayed(board: PlateD, foam: &Layer, patch: Patch) -> [f64; 2] {
    let s = foam.shear() * foam.depth;
    let pressure = patch.load / (patch.across * patch.along);
    let radius = (patch.across * patch.along / std::f64::consts::PI).sqrt();
    let half_turn = |over: f64, other: f64| (other / over).atan() / std::f64::consts::FRAC_PI_2;
    let shares = [half_turn(patch.across, patch.along), half_turn(patch.along, patch.across)];
    [(board.d11, shares[0]), (board.d22, shares[1])].map(|(d, share)| {
        let x = radius / (d / s).sqrt();
        let sum = pressure / s * (1.0 - x * bessel_k1(x));
        (d + board.d12) * share.max(0.5) * sum
    })
}

/// How much more the sway bends a board along a side that the foot is flush with than [`swayed`] has it in the middle:
/// `2 l/(l + r)`, no less than one; `l = sqrt(D/S)`, `r` that of a round patch of the same area. Half a plate on a layer that
/// goes on beyond it, wave by wave (`tests/second_route/boards.py`), asks for no more up to `l = 9 r`; endlessly far it
/// tends to the two of half a plate.
fn at_a_side(board: PlateD, foam: &Layer, patch: Patch) -> [f64; 2] {
    let s = foam.shear() * foam.depth;
    let radius = (patch.across * patch.along / std::f64::consts::PI).sqrt();
    [board.d11, board.d22].map(|d| {
        let l = (d / s).sqrt();
        // What is no number stays none.
        if 2.0 * l / (l + radius) <= 1.0 { 1.0 } else { 2.0 * l / (l + radius) }
    })
}

/// Curvature of the deepest dip that was measured, as a parabola from wall to wall, 1/m: a board over it bends into it.
fn dished(survey: &Survey) -> f64 {
    let dips = survey.readings.iter().filter_map(|r| match r.measured {
        Some(Measured::Dip(dip)) => Some(dip.value),
        _ => None,
    });
    8.0 * dips.fold(0.0, f64::max) / survey.roof.span.value.powi(2)
}

/// How much a roof is bent under a board, 1/m: that of the paraboloid fitted to the sag at places under it.
///
/// # Errors
/// In words: too few places.
pub(crate) fn curvature_under(
    sags: impl Iterator<Item = ((f64, f64), f64)> + Clone,
    board: &Rect,
) -> Result<f64, String> {
    let (xm, ym) = board.centre();
    let (a, b) = ((board.x1 - board.x0) / 2.0, (board.y1 - board.y0) / 2.0);
    // On a coarse grid somewhat beyond the board.
    for reach in [1.001, 1.5, 2.0, 3.0] {
        let mut n = 0;
        let (mut normal, mut right) = (Matrix6::<f64>::zeros(), Vector6::<f64>::zeros());
        for ((x, y), w) in sags.clone() {
            let (u, v) = ((x - xm) / a, (y - ym) / b);
            if u.abs() <= reach && v.abs() <= reach {
                let row = Vector6::new(1.0, u, v, u * u, u * v, v * v);
                normal += row * row.transpose();
                right += row * w;
                n += 1;
            }
        }
        if n >= FEWEST
            && let Some(fit) = normal.lu().solve(&right).filter(|f| f.iter().all(|c| c.is_finite()))
        {
            return Ok((2.0 * fit[3] / (a * a)).abs().max((2.0 * fit[5] / (b * b)).abs()));
        }
    }
    Err("the grid is too coarse to tell how the roof bends under a board".to_owned())
}

#[cfg(test)]
mod tests;
