//! Springing a straight tube into the crown: the bend it takes on the day it goes in.

use super::context::Context;
use super::finding::{Check, Finding};
use super::tube::TubeStrength;
use crate::loads::Footing;

/// The tube pressed to the whole curve, as it is before the glue has set and the roof gives: `M = E I / R` (Euler)
/// against what it may bear in bending. What stays of it is in every case that follows.
pub(crate) fn springing_in(
    context: &Context<'_>,
    strengths: &[Result<TubeStrength, String>],
) -> Vec<Finding> {
    let braces = context.roof.braces.iter().zip(strengths).filter(|(b, _)| b.sprung != 0.0);
    braces
        .filter_map(|(brace, strength)| {
            let s = strength.as_ref().ok()?;
            // It stays: the factor of the rule book on what stays.
            let demand = context.factors.aluminium.permanent * brace.ei * brace.sprung.abs();
            // The whole of it is bent alike, a weld too.
            let limit = s.sound.bending.min(s.welds.first().map_or(f64::INFINITY, |w| s.at(*w).bending));
            Some(Finding {
                check: Check::Brace,
                part: format!("brace {}", brace.name),
                load: "springing in".to_owned(),
                footing: Footing::NotAFoot,
                person: None,
                x: (brace.x0 + brace.x1) / 2.0,
                y: brace.y,
                demand,
                limit,
                si: "N m",
                ratio: demand / limit * context.model_factor,
                basis: s.basis.clone(),
            })
        })
        .collect()
}
