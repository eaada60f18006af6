//! Years of road shocks: the swing of stress from rebound to shaken, again and again.
//!
//! Between the body dropping away and the body pressing up all fixed mass swings by `road + rebound` of its weight. A
//! case on the road holds `road - 1` of it on top, a rebound case `1 + rebound` taken away: each is scaled to the whole
//! swing, and the worse counts. Loads are unfactored; the rule leaves the mean stress out.

use super::context::{CaseState, Context};
use super::finding::Numbers;
use super::tube::{REACH, TubeStrength};
use crate::loads::CaseKind;
use crate::model::IdealBrace;
use crate::response::{BraceForces, BracePlace};
use crate::strength::Basis;

/// Harsh braking and bends put a couple on the rim, now and then: they are no swing of the road.
const NOW_AND_THEN: [&str; 2] = ["braking", "sideways"];
/// Below this share of weight on top a case on the road says nothing of the swing.
const LEAST: f64 = 0.05;

/// What the case's upper part is multiplied with to make the whole swing; `None` where it is no part of one.
fn swing(road: f64, rebound: f64, kind: CaseKind, name: &str) -> Option<f64> {
    let part = match kind {
        CaseKind::Road if !NOW_AND_THEN.contains(&name) => road - 1.0,
        CaseKind::Rebound => 1.0 + rebound,
        _ => return None,
    };
    (part >= LEAST).then(|| (road + rebound) / part)
}

/// What is used at a place of a brace, where the case is part of the road's swing, and what its limit rests on.
pub(super) fn fatigue_used<'a>(
    context: &Context<'_>,
    case: &CaseState<'_>,
    place: &BracePlace,
    top: &BraceForces,
    strength: &'a TubeStrength,
) -> Option<(Numbers, &'a Basis)> {
    let swing = swing(context.factors.road, context.factors.rebound, case.kind, case.name)?;
    let brace = &context.roof.braces[place.brace];
    let limits = &strength.fatigue;
    let drilled = at_screws(brace, place.x);
    let notched = drilled || strength.at_weld(place.x);
    let [area, modulus] = if drilled { limits.net } else { limits.whole };
    let range = swing * (top.axial.abs() / area + top.moment.abs() / modulus);
    let limit = if notched { limits.notched } else { limits.plain };
    let numbers = Numbers { demand: range, limit, si: "Pa", ratio: range / limit * context.model_factor };
    Some((numbers, &limits.basis[usize::from(notched)]))
}

/// Whether a place lies over a seat with screws through it.
fn at_screws(brace: &IdealBrace, x: f64) -> bool {
    brace.seat.as_ref().is_some_and(|seat| {
        let reach = seat.bearing_length.value + REACH;
        seat.screws.is_some_and(|n| n > 0) && (x - brace.x0 <= reach || brace.x1 - x <= reach)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Road 2.5, rebound 0.75: the whole swing is 3.25 of the weight; the road case holds 1.5 of it, rebound 1.75.
    #[test]
    fn both_ends_of_the_swing_tell_the_same() {
        let road = swing(2.5, 0.75, CaseKind::Road, "unit on the road").unwrap();
        let rebound = swing(2.5, 0.75, CaseKind::Rebound, "unit rebound").unwrap();
        assert!((road * 1.5 - 3.25).abs() < 1e-12 && (rebound * 1.75 - 3.25).abs() < 1e-12);
        assert_eq!(swing(2.5, 0.75, CaseKind::Road, "braking"), None);
        assert_eq!(swing(2.5, 0.75, CaseKind::Person, "person"), None);
        // A road that shakes nothing divides by nothing: rebound still speaks.
        assert_eq!(swing(1.0, 0.75, CaseKind::Road, "unit on the road"), None);
        assert_eq!(swing(1.0, 0.75, CaseKind::Rebound, "unit rebound"), Some(1.0));
    }
}
