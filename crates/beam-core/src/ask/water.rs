//! Rain on a flat roof lies in the sag, and its weight deepens the sag.

use super::document::Study;
use crate::check::{Asked, Bracing, Ledger, Model, NotChecked, Verdict, deciding};
use crate::quantity::{percent, si};
use crate::strength::ponding::{WATER, amplification};
use crate::survey::Survey;

/// Uniform loads that stay for years.
const UNIFORM: [&str; 2] = ["own weight, service life", "self-weight, service life"];

/// What is to be told of water: nothing on a crowned roof, whose lasting sag is held to half its rise.
///
/// The ponding coefficient is taken from the largest sag under the roof's own weight with aged moduli: water may stand as
/// long as nobody looks. A uniform load makes a little more of it than the first mode would: safe. Water multiplies
/// lasting loads only; here it is held against the deciding ratio as a whole, whatever load that is under.
pub(super) fn water(survey: &Survey, study: &Study, ledger: &Ledger, asked: Asked) -> Option<NotChecked> {
    if survey.roof.rise.value > 0.0 || study.studied.is_empty() {
        return None;
    }
    let bracing = if study.braced { Bracing::With } else { Bracing::Without };
    let area = survey.roof.span.value * survey.roof.length.value;
    let coefficient = study
        .studied
        .iter()
        .flat_map(|s| &s.runs)
        .filter(|r| r.bracing == bracing && r.model == Model::Plate && UNIFORM.contains(&r.load.as_str()))
        .map(|r| WATER * r.sag_max.value.get().max(0.0) * area / r.balance.load.get())
        .reduce(f64::max);
    let used = deciding(ledger.iter(), Verdict::Holds, asked).map_or(0.0, |(_, finding)| finding.ratio);
    let told = |blocks, why: String| NotChecked {
        check: "water".to_owned(),
        part: "panel".to_owned(),
        why: format!("a flat roof sheds no water; {why}"),
        blocks,
    };
    let Some(coefficient) = coefficient.filter(|c| c.is_finite()) else {
        return Some(told(true, "how it gathers could not be worked out".to_owned()));
    };
    Some(match amplification(si(coefficient)) {
        Ok(more) => told(
            used * more > 1.0,
            format!(
                "standing in its sag it adds {} to lasting sag and stress, and what decides then uses {} at most",
                percent(more - 1.0),
                percent(used * more)
            ),
        ),
        Err(_) => told(
            true,
            format!(
                "it deepens its own pond faster than can be judged (ponding coefficient {}, allowed: below 0.25): give the roof a crown",
                crate::quantity::significant(coefficient, 2)
            ),
        ),
    })
}
