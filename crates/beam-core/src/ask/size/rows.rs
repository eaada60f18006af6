//! Candidates as rows of the answer.

use super::document::{CandidateRow, StaysOver};
use super::search::{Candidate, Field, Judged, Search, fails};
use crate::ask::document::footed;
use crate::check::{Bracing, CheckDocument, CheckRow, Finding, Finite, NotFinite, Verdict};
use crate::quantity::{percent, tape};
use crate::survey::Survey;

/// Rows told at most.
const ROWS: usize = 50;
/// Rows heavier than the one found that are told.
const NEXT: usize = 5;

/// Worst row that counts, with the braces in.
fn worst(document: &CheckDocument) -> Option<&CheckRow> {
    let counted = |row: &&CheckRow| row.counts && row.bracing == Bracing::With;
    document.checks.iter().filter(counted).max_by(|a, b| a.ratio.get().total_cmp(&b.ratio.get()))
}

/// Where on the roof, in the survey's own words.
fn at(across: f64, along: f64, survey: &Survey) -> String {
    let told = |m: f64| tape(m, survey.family);
    format!("{} from the left wall, {} from the front mark", told(across), told(along))
}

/// Why a finding of the coarse grid puts a candidate aside.
fn put_aside(finding: &Finding, survey: &Survey) -> String {
    format!(
        "{} ({}) under {}, may use {}, {}",
        finding.check.name(),
        footed(&finding.part, finding.footing),
        finding.load,
        percent(finding.ratio),
        at(finding.x, finding.y, survey)
    )
}

/// Why a row of the whole check is not enough.
fn failing(row: &CheckRow, survey: &Survey) -> String {
    let sure = if row.verdict == Verdict::CannotSay { "may use up to" } else { "uses" };
    format!(
        "{} ({}) under {}, {sure} {}, {}",
        row.check,
        row.part,
        row.load,
        percent(row.ratio.get()),
        at(row.at.across.get(), row.at.along.get(), survey)
    )
}

/// One candidate as told.
pub(super) fn row(
    field: &Field<'_>,
    candidate: &Candidate<'_>,
    judged: &Judged,
) -> Result<CandidateRow, NotFinite> {
    let survey = field.survey;
    let mut out = CandidateRow {
        tube: candidate.stock.tube.id.clone(),
        alloy: candidate.stock.alloy.id.clone(),
        count: candidate.along.len(),
        along: candidate
            .along
            .iter()
            .map(|y| Finite::new(*y, "place of a brace"))
            .collect::<Result<_, _>>()?,
        trimmers: candidate
            .trimmers
            .iter()
            .flat_map(|t| &t.across)
            .map(|x| Finite::new(*x, "place of a trimmer"))
            .collect::<Result<_, _>>()?,
        mass: Finite::new(candidate.mass, "mass of braces")?,
        price: candidate.price.map(|p| Finite::new(p, "price of braces")).transpose()?,
        ratio: None,
        check: None,
        sag: None,
        bendable: candidate.bendable,
        verdict: Verdict::CannotSay,
        in_full: false,
        put_aside: matches!(judged, Judged::NotBendable),
        why_not: None,
    };
    let ratio = |r: f64| Finite::new(r, "ratio of a candidate").map(Some);
    match judged {
        Judged::NotBendable => {
            out.why_not = Some("it cannot be brought to the crown: see `bend`".to_owned());
        }
        Judged::Trouble(why) => out.why_not = Some(format!("it could not be solved: {why}")),
        Judged::Screened(screened) => {
            if let Some(worst) = &screened.worst {
                out.ratio = ratio(worst.ratio)?;
                out.check = Some(worst.check.name().to_owned());
            }
            out.sag = screened.sag.map(|s| Finite::new(s, "sag of a candidate")).transpose()?;
            out.put_aside = screened.put_aside();
            out.why_not = Some(match screened.over.first() {
                Some(finding) if out.put_aside => put_aside(finding, survey),
                Some(finding) => format!(
                    "not judged in full, for the search ended before it; roughly: {}",
                    put_aside(finding, survey)
                ),
                None => "not judged in full, for the search ended before it; nothing was over its limit where it was read"
                    .to_owned(),
            });
        }
        Judged::InFull(document) => {
            if let Some(worst) = worst(document) {
                out.ratio = ratio(worst.ratio.get())?;
                out.check = Some(worst.check.clone());
            }
            out.sag = document
                .checks
                .iter()
                .filter(|r| r.check == "sag, lasting" && r.bracing == Bracing::With)
                .map(|r| r.demand)
                .next();
            out.verdict = document.verdict;
            out.in_full = true;
            out.why_not = fails(document, &[]).first().map(|row| failing(row, survey));
        }
    }
    Ok(out)
}

/// The rows told: up to the one found and the next few, else those nearest to holding; in their order.
pub(super) fn told(field: &Field<'_>, search: &Search<'_>) -> Result<Vec<CandidateRow>, NotFinite> {
    let mut rows = search
        .tried
        .iter()
        .map(|(candidate, judged)| row(field, candidate, judged))
        .collect::<Result<Vec<_>, _>>()?;
    if rows.len() <= ROWS {
        return Ok(rows);
    }
    match search.found {
        Some(found) => {
            let to = (found + 1 + NEXT).max(ROWS).min(rows.len());
            Ok(rows.drain(to - ROWS..to).collect())
        }
        None => {
            let key = |r: &CandidateRow| r.ratio.map_or(f64::INFINITY, Finite::get);
            let mut order: Vec<usize> = (0..rows.len()).collect();
            order.sort_by(|a, b| key(&rows[*a]).total_cmp(&key(&rows[*b])));
            order.truncate(ROWS);
            order.sort_unstable();
            Ok(order.into_iter().map(|i| rows[i].clone()).collect())
        }
    }
}

/// What stays over its limit with every candidate tried, worst first. Where one was found, only what no brace changes.
pub(super) fn stays_over(
    bare: &CheckDocument,
    beyond: &[(String, String)],
    search: &Search<'_>,
) -> Result<Vec<StaysOver>, NotFinite> {
    let mut out: Vec<(String, String, f64, bool)> = bare
        .checks
        .iter()
        .filter(|row| beyond.iter().any(|(check, part)| *check == row.check && *part == row.part))
        .map(|row| (row.check.clone(), row.part.clone(), row.ratio.get(), true))
        .collect();
    if search.found.is_none() {
        // A candidate that was put aside in one bracket is over there; what it does elsewhere it was not asked.
        let over: Vec<Vec<(String, String, f64)>> = search
            .tried
            .iter()
            .filter_map(|(_, judged)| match judged {
                Judged::Screened(s) => Some(
                    s.over
                        .iter()
                        .map(|f| (f.check.name().to_owned(), footed(&f.part, f.footing), f.ratio))
                        .collect(),
                ),
                Judged::InFull(d) => Some(
                    fails(d, beyond)
                        .into_iter()
                        .map(|r| (r.check.clone(), r.part.clone(), r.ratio.get()))
                        .collect(),
                ),
                Judged::NotBendable | Judged::Trouble(_) => None,
            })
            .collect();
        for (check, part, _) in over.first().into_iter().flatten() {
            let in_each = |list: &Vec<(String, String, f64)>| {
                list.iter().find(|(c, p, _)| c == check && p == part).map(|e| e.2)
            };
            if let Some(all) = over.iter().map(in_each).collect::<Option<Vec<f64>>>() {
                let least = all.into_iter().fold(f64::INFINITY, f64::min);
                out.push((check.clone(), part.clone(), least, false));
            }
        }
    }
    out.sort_by(|a, b| b.2.total_cmp(&a.2));
    out.into_iter()
        .map(|(check, part, least, beyond_bracing)| {
            Ok(StaysOver { check, part, least_ratio: Finite::new(least, "least ratio")?, beyond_bracing })
        })
        .collect()
}
