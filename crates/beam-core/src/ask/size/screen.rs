//! Candidates sorted out on a coarse grid, before any is judged in full.
//!
//! Every candidate is solved as a whole, with the same checks as the full answer; only the grid is coarser, and feet and
//! the grid's own error are left to the full check. A bracket of materials in which something is far over its limit
//! settles it: such a candidate can never "hold".

use super::super::check::grain_matters;
use super::super::places::{PersonPlace, person_places};
use super::super::study::{Job, Trouble, Variant};
use crate::check::{Bond, Bracing, Check, Cure, Finding, Materials, counts};
use crate::loads::{Factors, Footing};
use crate::model::{Hold, StageChoice, idealise};
use crate::plate::GridSize;
use crate::survey::{Survey, Way};

/// Over this on the coarse grid a candidate is put aside: the coarse grid may read that much more than the fine one
/// (measured on one roof, see the tests; judged for others).
pub(super) const PUT_ASIDE: f64 = 1.1;
/// Brackets in the order in which they usually fail.
const ORDER: [Materials; 3] = [Materials::Low, Materials::High, Materials::Default];

/// What one finding must reach, read by itself with every contact closed, to put a candidate aside without the rest.
const SETTLED: f64 = 1.25;
/// A person this near to where another candidate failed stands in the same place, m.
const SAME_PLACE: f64 = 0.1;

/// What put an earlier candidate aside: tried first on the next ones.
#[derive(Debug, Clone)]
pub(super) struct Stumble {
    finding: Finding,
    person: Option<PersonPlace>,
    materials: Materials,
    grain_across: bool,
}

/// What the coarse grid says of a candidate.
#[derive(Debug, Clone)]
pub(super) struct Screened {
    /// What put it aside, to try on others.
    pub stumble: Option<Stumble>,
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

    /// The same without what rests on the strength of the brace: for another alloy in the same place.
    pub(super) fn of_the_panel(&self) -> Screened {
        let over: Vec<Finding> =
            self.over.iter().filter(|f| f.check.cure() != Cure::StrongerBrace).cloned().collect();
        Screened { worst: over.first().cloned(), over, sag: self.sag, stumble: None }
    }
}

/// Tries a survey with a candidate's braces in it.
///
/// # Errors
/// In words, why it could not be solved.
pub(super) fn screen(
    with: &Survey,
    factors: &Factors,
    size: GridSize,
    stumbles: &[Stumble],
) -> Result<Screened, String> {
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
        // Walls as surveyed, joints gaping: what is not put aside is judged in every state anyway.
        hold: Hold::all(with)[0],
    };
    let mut people = Vec::new();
    if with.person.way != Way::Nobody {
        let roof = idealise(with, first.configuration(), Materials::Default, true)
            .map_err(|missing| words(Trouble::Missing(missing)))?;
        let footing = if with.person.way == Way::Bare { Footing::Bare } else { Footing::OnABoard };
        people = person_places(with, &roof, factors, footing);
    }
    for stumble in stumbles {
        if let Some(finding) = stumbles_too(with, factors, size, &people, first, stumble).map_err(words)? {
            return Ok(Screened {
                over: vec![finding.clone()],
                worst: Some(finding),
                sag: None,
                stumble: None,
            });
        }
    }
    let places = people.clone();
    let job = Job::new(with, factors, "finished".to_owned(), people);
    let grains: &[bool] = if grain_matters(with) { &[true, false] } else { &[true] };
    let mut out = Screened { over: Vec::new(), worst: None, sag: None, stumble: None };
    for materials in ORDER {
        for &grain_across in grains {
            let studied = job.study_on(Variant { materials, grain_across, ..first }, size).map_err(words)?;
            take(&mut out, studied.found.findings, with.person.way);
            if out.put_aside() {
                out.stumble = out.over.first().map(|finding| Stumble {
                    finding: finding.clone(),
                    person: finding.person.and_then(|i| places.get(i).copied()),
                    materials,
                    grain_across,
                });
                return Ok(out);
            }
        }
    }
    Ok(out)
}

/// The finding that put another candidate aside, read on this one: `None` where it is not far over its limit here, or
/// where nobody is tried in that place.
fn stumbles_too(
    with: &Survey,
    factors: &Factors,
    size: GridSize,
    people: &[PersonPlace],
    first: Variant,
    stumble: &Stumble,
) -> Result<Option<Finding>, Trouble> {
    let mut like = stumble.finding.clone();
    let mut standing = Vec::new();
    if let Some(p) = &stumble.person {
        let same = |q: &&PersonPlace| {
            q.footing == p.footing
                && q.patch == p.patch
                && (q.x - p.x).abs() < SAME_PLACE
                && (q.y - p.y).abs() < SAME_PLACE
        };
        let Some(own) = people.iter().find(same) else { return Ok(None) };
        like.x += own.x - p.x;
        like.y += own.y - p.y;
        like.person = Some(0);
        standing.push(*own);
    }
    let job = Job::new(with, factors, "finished".to_owned(), standing);
    let variant = Variant { materials: stumble.materials, grain_across: stumble.grain_across, ..first };
    let Some(ratio) = job.read_again(variant, size, &like)? else { return Ok(None) };
    let demand = like.limit * ratio / with.limits.model_factor;
    Ok((ratio > SETTLED).then_some(Finding { ratio, demand, person: None, ..like }))
}

fn take(out: &mut Screened, findings: Vec<Finding>, way: Way) {
    let counted = |f: &Finding| f.check.moved_by_bracing() && counts(f.check, f.footing, way);
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
