//! Candidates sorted out on a coarse grid, before any is judged in full.
//!
//! Each is tried on the panel of all that lie alike, by a small dense solve, with the checks of the full answer; feet
//! and the grid's own error are left to the full check. A bracket of materials in which something is far over its limit
//! settles it: such a candidate can never "hold".

use std::collections::BTreeMap;

use super::super::check::grain_matters;
use super::super::study::{Job, Trouble, Variant, reasons};
use super::panel::{Condensed, Panel};
use crate::check::{Bracing, Check, Finding, Materials, counts};
use crate::loads::Factors;
use crate::model::Hold;
use crate::plate::GridSize;
use crate::survey::{Survey, Way};

/// Over this on the coarse grid a candidate is put aside: the coarse grid may read that much more than the fine one
/// (measured on one roof, see the tests; judged for others).
pub(super) const PUT_ASIDE: f64 = 1.1;
/// Brackets in the order in which they usually fail.
const ORDER: [Materials; 3] = [Materials::Low, Materials::High, Materials::Default];

/// What sorting out says of a candidate.
#[derive(Debug, Clone, Default)]
pub(super) struct Screened {
    /// Worst finding of each check and part that is over its limit in the brackets tried, worst first.
    pub over: Vec<Finding>,
    /// The worst finding of all.
    pub worst: Option<Finding>,
    /// Largest sag after years in the softest bracket, m.
    pub sag: Option<f64>,
    /// Bracket and grain of the worst.
    worst_in: Option<(Materials, bool)>,
    /// Whether it was read on the grid of the answer.
    fine: bool,
}

impl Screened {
    /// Whether it is put aside.
    pub(super) fn put_aside(&self) -> bool {
        let limit = if self.fine { 1.0 } else { PUT_ASIDE };
        self.over.first().is_some_and(|f| f.ratio > limit)
    }
}

/// The finished roof with new braces, glued where they are. Walls as surveyed, joints gaping: what is not put aside is
/// judged in every state anyway.
pub(super) fn first_variant(survey: &Survey) -> Variant {
    Variant::finished(Bracing::With, Hold::all(survey)[0])
}

/// Sorts out candidates: each built in, in the order of the search, with what it shares a panel by.
pub(super) fn sort_out(
    factors: &Factors,
    candidates: &[(Vec<u64>, Survey)],
) -> Vec<Result<Screened, String>> {
    let mut alike: BTreeMap<&[u64], Vec<usize>> = BTreeMap::new();
    for (index, (panel, _)) in candidates.iter().enumerate() {
        alike.entry(panel).or_default().push(index);
    }
    let mut out: Vec<Result<Screened, String>> = vec![Ok(Screened::default()); candidates.len()];
    for indices in alike.into_values() {
        let own: Vec<&Survey> = indices.iter().map(|&i| &candidates[i].1).collect();
        for (index, result) in indices.into_iter().zip(on_one_panel(factors, own)) {
            out[index] = result;
        }
    }
    out
}

fn on_one_panel(factors: &Factors, candidates: Vec<&Survey>) -> Vec<Result<Screened, String>> {
    let mut out: Vec<Result<Screened, String>> = vec![Ok(Screened::default()); candidates.len()];
    let Some(first) = candidates.first() else { return out };
    let (variant, way) = (first_variant(first), first.person.way);
    let grains: &[bool] = if grain_matters(first) { &[true, false] } else { &[true] };
    let panel = match Panel::new(factors, candidates, variant, GridSize::COARSE) {
        Ok(panel) => panel,
        Err(why) => return vec![Err(why); out.len()],
    };
    for (materials, grain_across) in ORDER.into_iter().flat_map(|m| grains.iter().map(move |g| (m, *g))) {
        let left: Vec<usize> =
            (0..out.len()).filter(|i| out[*i].as_ref().is_ok_and(|s| !s.put_aside())).collect();
        if left.is_empty() {
            break;
        }
        let condensed = Condensed::new(&panel, Variant { materials, grain_across, ..variant });
        let found: Vec<Result<Vec<Finding>, String>> = match &condensed {
            Ok(condensed) => condensed.findings(&left),
            Err(why) => vec![Err(why.clone()); left.len()],
        };
        for (index, found) in left.into_iter().zip(found) {
            match (&mut out[index], found) {
                (Ok(screened), Ok(found)) => take(screened, found, way, (materials, grain_across)),
                (kept, Err(why)) => *kept = Err(why),
                (Err(_), Ok(_)) => {}
            }
        }
    }
    out
}

/// A candidate that was not put aside, in the bracket that was worst for it on the grid of the answer: solved as a
/// whole, contacts free to let go.
///
/// # Errors
/// In words, why it could not be solved.
pub(super) fn finely(with: &Survey, factors: &Factors, coarse: &Screened) -> Result<Screened, String> {
    let Some((materials, grain_across)) = coarse.worst_in else { return Ok(coarse.clone()) };
    let mut out = on_grid(with, factors, (materials, grain_across), GridSize::DEFAULT)?;
    out.fine = true;
    Ok(out)
}

/// One candidate solved as a whole in one bracket.
///
/// # Errors
/// In words, why it could not be solved.
pub(super) fn on_grid(
    with: &Survey,
    factors: &Factors,
    (materials, grain_across): (Materials, bool),
    size: GridSize,
) -> Result<Screened, String> {
    let variant = Variant { materials, grain_across, ..first_variant(with) };
    let people = Panel::new(factors, vec![with], variant, size)?.people;
    let job = Job::new(with, factors, "finished".to_owned(), people);
    let studied = job.study_on(variant, size).map_err(|trouble| match trouble {
        Trouble::Missing(list) => reasons(list),
        Trouble::NotFinite(e) => e.to_string(),
    })?;
    let mut out = Screened::default();
    take(&mut out, studied.found.findings, with.person.way, (materials, grain_across));
    Ok(out)
}

fn take(out: &mut Screened, findings: Vec<Finding>, way: Way, bracket: (Materials, bool)) {
    let counted = |f: &Finding| f.check.moved_by_bracing() && counts(f.check, f.footing, way);
    for finding in findings.into_iter().filter(counted) {
        if finding.check == Check::SagLasting {
            out.sag = Some(out.sag.map_or(finding.demand, |s| s.max(finding.demand)));
        }
        if out.worst.as_ref().is_none_or(|w| finding.ratio > w.ratio) {
            out.worst = Some(finding.clone());
            out.worst_in = Some(bracket);
        }
        if finding.ratio > 1.0 {
            keep(&mut out.over, finding);
        }
    }
    out.over.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
}

/// One a check, part and way of standing.
fn keep(over: &mut Vec<Finding>, finding: Finding) {
    let same =
        |f: &&mut Finding| f.check == finding.check && f.part == finding.part && f.footing == finding.footing;
    match over.iter_mut().find(same) {
        Some(kept) if kept.ratio >= finding.ratio => {}
        Some(kept) => *kept = finding,
        None => over.push(finding),
    }
}
