//! Candidates sorted out on a coarse grid, before any is judged in full.
//!
//! Every candidate is solved as a whole, with the same checks as the full answer; only the grid is coarser, and feet and
//! the grid's own error are left to the full check. A bracket of materials in which something is far over its limit
//! settles it: such a candidate can never "hold".

use super::super::check::grain_matters;
use super::super::places::person_places;
use super::super::study::{Job, Trouble, Variant};
use crate::check::{Bond, Bracing, Check, Cure, Finding, Materials, counts};
use crate::loads::{Factors, Footing};
use crate::model::{StageChoice, idealise};
use crate::plate::GridSize;
use crate::survey::{Survey, Way};

/// Over this on the coarse grid a candidate is put aside: the coarse grid may read that much more than the fine one
/// (measured on the demos; see the tests).
pub(super) const PUT_ASIDE: f64 = 1.1;
/// Brackets in the order in which they usually fail.
const ORDER: [Materials; 3] = [Materials::Low, Materials::High, Materials::Default];

/// What the coarse grid says of a candidate.
#[derive(Debug, Clone)]
pub(super) struct Screened {
    /// Worst finding of each check and part that is over its limit in the last bracket tried, worst first.
    pub over: Vec<Finding>,
    /// The worst finding of all.
    pub worst: Option<Finding>,
    /// Largest sag after years in the softest bracket, m.
    pub sag: Option<f64>,
}

impl Screened {
    /// Whether it is put aside.
    pub(super) fn put_aside(&self) -> bool {
        self.over.first().is_some_and(|f| f.ratio > PUT_ASIDE)
    }

    /// Whether what puts it aside is the panel's, whatever the brace is strong for.
    pub(super) fn by_the_panel(&self) -> bool {
        self.over.iter().any(|f| f.ratio > PUT_ASIDE && f.check.cure() != Cure::StrongerBrace)
    }
}

/// Whether a brace may change a check: what a foot or the unit's rim presses into the foam it does not.
pub(super) fn moved_by_bracing(check: Check) -> bool {
    check.cure() != Cure::NotBracing || matches!(check, Check::Slot | Check::LooseSkin)
}

/// Tries a survey with a candidate's braces in it.
///
/// # Errors
/// In words, why it could not be solved.
pub(super) fn screen(with: &Survey, factors: &Factors, size: GridSize) -> Result<Screened, String> {
    let words = |t: Trouble| match t {
        Trouble::Missing(list) => list.into_iter().map(|m| m.why).collect::<Vec<_>>().join("; "),
        Trouble::NotFinite(e) => e.to_string(),
    };
    let first = Variant {
        stage: StageChoice::Finished,
        bracing: Bracing::With,
        bond: Bond::Full,
        materials: Materials::Default,
        grain_across: true,
    };
    let mut people = Vec::new();
    if with.person.way != Way::Nobody {
        let roof = idealise(with, first.configuration(), Materials::Default, true)
            .map_err(|missing| words(Trouble::Missing(missing)))?;
        let footing = if with.person.way == Way::Bare { Footing::Bare } else { Footing::OnABoard };
        people = person_places(with, &roof, factors, footing);
    }
    let job = Job::new(with, factors, "finished".to_owned(), people);
    let grains: &[bool] = if grain_matters(with) { &[true, false] } else { &[true] };
    let mut out = Screened { over: Vec::new(), worst: None, sag: None };
    for materials in ORDER {
        for &grain_across in grains {
            let studied = job.study_on(Variant { materials, grain_across, ..first }, size).map_err(words)?;
            take(&mut out, studied.found.findings, with.person.way);
            if out.put_aside() {
                return Ok(out);
            }
        }
    }
    Ok(out)
}

fn take(out: &mut Screened, findings: Vec<Finding>, way: Way) {
    let counted = |f: &Finding| moved_by_bracing(f.check) && counts(f.check, f.footing, way);
    for finding in findings.into_iter().filter(counted) {
        if finding.check == Check::SagLasting {
            out.sag = Some(out.sag.map_or(finding.demand, |s| s.max(finding.demand)));
        }
        if out.worst.as_ref().is_none_or(|w| finding.ratio > w.ratio) {
            out.worst = Some(finding.clone());
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
