//! Checks of the roof as a whole on the road: its own frequency, and what holds its edges down.

use super::evaluate::{Findings, Solved, keep_worst, sum};
use super::study::Job;
use crate::check::{Context, frequency_finding, hold_down_findings};
use crate::loads::{BasisLoad, CaseKind};

/// Adds both to what was found.
pub(super) fn on_the_road(job: &Job<'_>, context: &Context<'_>, solved: &Solved, found: &mut Findings) {
    let road = job.cases.iter().find(|c| c.kind == CaseKind::Road).map_or("", |c| c.name.as_str());
    for case in job.cases.iter().filter(|c| c.kind == CaseKind::FirstDay) {
        let sag = sum(&solved.layout, &solved.fresh, &case.top).sag;
        let on = |basis| case.top.iter().any(|(own, _)| own == basis);
        let loads: Vec<&BasisLoad> =
            job.set.all.iter().filter(|(basis, _)| on(basis)).map(|(_, load)| load).collect();
        match frequency_finding(context, &solved.layout, &sag, &loads, road) {
            Ok(finding) => keep_worst(&mut found.findings, finding),
            Err(why) => found.trouble.push(why.to_string()),
        }
    }
    match hold_down_findings(context, job.survey) {
        Ok(held) => found.findings.extend(held),
        Err(why) => found.trouble.push(why.to_string()),
    }
}

#[cfg(test)]
mod tests;
