//! The result document of `size`: SI throughout (m, kg).

use serde::Serialize;

use super::{FirstBy, Trimmers};
use crate::check::{Finite, MadeWith, NotChecked, ReadIn, Verdict, Words};

/// The whole result of `size`.
#[derive(Debug, Clone, Serialize)]
pub struct SizeDocument {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Title of the survey.
    pub title: String,
    /// Quantities that people read it in; every number in the document is SI all the same.
    pub read_in: ReadIn,
    /// The answer in words.
    pub answer: String,
    /// Verdict on the roof with the chosen braces; without any, on the roof as it is.
    pub verdict: Verdict,
    /// Whether the roof without new braces fails something that bracing cures.
    pub brace_needed: Option<bool>,
    /// The roof without new braces.
    pub without: Without,
    /// What was gone through.
    pub searched: Searched,
    /// The first that fails nothing that was checked; `null` where there is none.
    pub chosen: Option<CandidateRow>,
    /// The first that fails nothing but what no brace changes; only where something fails that no brace changes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub once_mended: Option<CandidateRow>,
    /// One with trimmers that comes before the chosen one and fails nothing that was checked; only where there is one. The
    /// strength of its trimmers' end joints is not checked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub with_trimmers: Option<CandidateRow>,
    /// Those tried, in their order: the neighbours before of the chosen one, or the nearest to holding.
    pub candidates: Vec<CandidateRow>,
    /// What stays over its limit with every brace tried.
    pub stays_over: Vec<StaysOver>,
    /// What to cut, glue and bend; empty where nothing was found.
    pub cut_list: Vec<super::CutRow>,
    /// What to do, most urgent first.
    pub next_steps: Vec<Words>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

/// The roof without new braces.
#[derive(Debug, Clone, Serialize)]
pub struct Without {
    /// Its verdict.
    pub verdict: Verdict,
    /// The check that is nearest to its limit, or furthest over it.
    pub check: Option<String>,
    /// Its ratio.
    pub ratio: Option<Finite>,
}

/// What was gone through.
#[derive(Debug, Clone, Serialize)]
pub struct Searched {
    /// Candidates that fit.
    pub candidates: usize,
    /// Of these tried on the coarse grid, or found not to be bendable.
    pub tried: usize,
    /// Of these judged by the whole of `check`.
    pub in_full: usize,
    /// Whether the search ended before the list did without finding one.
    pub gave_up: bool,
    /// Tubes that fit.
    pub tubes: Vec<String>,
    /// Alloys.
    pub alloys: Vec<String>,
    /// Numbers of braces.
    pub counts: Vec<usize>,
    /// Whether trimmers between braces were tried.
    pub trimmers: Trimmers,
    /// Depth of the tubes at most, m.
    pub max_depth: Finite,
    /// What came first.
    pub first_by: FirstBy,
    /// Currency of the prices; only where the shop's rack has prices.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub currency: Option<String>,
}

/// One candidate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CandidateRow {
    /// Tube of the tables.
    pub tube: String,
    /// Alloy and temper.
    pub alloy: String,
    /// Number of braces.
    pub count: usize,
    /// Centre lines from the front mark, m.
    pub along: Vec<Finite>,
    /// Centre lines of trimmers from the left wall, m; empty without any. They are of the same tube and run between the
    /// braces on either side of the opening.
    pub trimmers: Vec<Finite>,
    /// Mass of all braces along their curve, kg, with trimmers.
    pub mass: Finite,
    /// What the shop pays for that length; only where its rack has a price.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<Finite>,
    /// Largest ratio of demand to limit among the checks that count; of one put aside, what put it aside, and at least
    /// that; `null` where it was not solved.
    pub ratio: Option<Finite>,
    /// The check it was found in.
    pub check: Option<String>,
    /// Largest sag after the years in service, in the softest bracket of materials, m; `null` where it was not solved.
    pub sag: Option<Finite>,
    /// Whether the tube can be brought to the crown; `null` where its alloy must be known first.
    pub bendable: Option<bool>,
    /// Verdict of the whole check; "cannot say" where the candidate was put aside on the coarse grid, since it cannot
    /// hold in every bracket.
    pub verdict: Verdict,
    /// Whether the verdict is that of the whole check.
    pub in_full: bool,
    /// Whether it was put aside: over a limit by more than the grid it was read on may be off. One that is neither put
    /// aside nor judged in full comes after the chosen one, or after the search ended.
    pub put_aside: bool,
    /// Why it is not enough; `null` where nothing fails that was checked.
    pub why_not: Option<String>,
}

/// Designs on either side of the chosen one that [`SizeDocument::nearest`] names.
const BESIDE: usize = 5;

impl SizeDocument {
    /// What people compare with the chosen braces: of every tube, alloy and number of braces, without trimmers and with
    /// them, the place that uses least, the nearest few before the chosen ones, these, and the next few; without any
    /// chosen, the few nearest to holding. In the order of the search.
    pub fn nearest(&self) -> Vec<&CandidateRow> {
        nearest(&self.candidates, self.chosen.as_ref().or(self.once_mended.as_ref()))
    }
}

fn nearest<'a>(candidates: &'a [CandidateRow], chosen: Option<&CandidateRow>) -> Vec<&'a CandidateRow> {
    let used = |row: &CandidateRow| row.ratio.map_or(f64::INFINITY, Finite::get);
    let is_chosen = |row: &CandidateRow| chosen.is_some_and(|c| c == row);
    let mut out: Vec<&CandidateRow> = Vec::new();
    for row in candidates {
        let alike = out.iter_mut().find(|kept| kept.kind() == row.kind() && !is_chosen(kept));
        match alike {
            Some(kept) if !is_chosen(row) => {
                if used(row) < used(kept) {
                    *kept = row;
                }
            }
            _ => out.push(row),
        }
    }
    match out.iter().position(|row| is_chosen(row)) {
        Some(at) => {
            out.truncate(at + 1 + BESIDE);
            out.drain(..at.saturating_sub(BESIDE));
        }
        None => {
            let mut order: Vec<usize> = (0..out.len()).collect();
            order.sort_by(|a, b| used(out[*a]).total_cmp(&used(out[*b])));
            order.truncate(2 * BESIDE);
            order.sort_unstable();
            out = order.into_iter().map(|i| out[i]).collect();
        }
    }
    out
}

impl CandidateRow {
    /// What rows have in common that differ in their places alone: tube, alloy, number of braces, and whether there are
    /// trimmers.
    pub(super) fn kind(&self) -> (&str, &str, usize, bool) {
        (&self.tube, &self.alloy, self.count, !self.trimmers.is_empty())
    }
}

/// A check that no brace tried brings within its limit.
#[derive(Debug, Clone, Serialize)]
pub struct StaysOver {
    /// Check.
    pub check: String,
    /// Part.
    pub part: String,
    /// The lowest ratio met.
    pub least_ratio: Finite,
    /// Whether no brace could change it.
    pub beyond_bracing: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(tube: &str, trimmers: bool, used: Option<f64>) -> CandidateRow {
        let finite = |value| Finite::new(value, "a number of a test").expect("finite");
        CandidateRow {
            tube: tube.to_owned(),
            alloy: "6061-T6".to_owned(),
            count: 2,
            along: Vec::new(),
            trimmers: if trimmers { vec![finite(1.0)] } else { Vec::new() },
            mass: finite(1.0),
            price: None,
            ratio: used.map(finite),
            check: None,
            sag: None,
            bendable: Some(true),
            verdict: Verdict::CannotSay,
            in_full: false,
            put_aside: true,
            why_not: None,
        }
    }

    /// Tube and used share of what is told.
    fn told(rows: &[CandidateRow], chosen: Option<&CandidateRow>) -> Vec<(String, bool, Option<f64>)> {
        let one = |r: &&CandidateRow| (r.tube.clone(), !r.trimmers.is_empty(), r.ratio.map(Finite::get));
        nearest(rows, chosen).iter().map(one).collect()
    }

    #[test]
    fn of_each_kind_the_place_that_uses_least_is_told_and_the_chosen_one_whatever_it_uses() {
        let rows = [
            row("a", false, Some(1.3)),
            row("a", false, Some(1.2)),
            row("a", true, Some(1.25)),
            row("b", false, None),
            row("b", false, Some(0.99)),
            row("b", false, Some(0.97)),
            row("b", false, Some(0.95)),
        ];
        let chosen = &rows[4];
        assert_eq!(
            told(&rows, Some(chosen)),
            [
                ("a".to_owned(), false, Some(1.2)),
                ("a".to_owned(), true, Some(1.25)),
                ("b".to_owned(), false, Some(0.95)),
                ("b".to_owned(), false, Some(0.99)),
            ]
        );
    }

    #[test]
    fn five_are_told_on_either_side_of_the_chosen_one_and_ten_without_one() {
        let name = |i: usize| format!("tube {i:02}");
        let rows: Vec<CandidateRow> =
            (0..20).map(|i| row(&name(i), false, Some(2.0 - 0.05 * i as f64))).collect();
        let names = |chosen| told(&rows, chosen).into_iter().map(|(tube, ..)| tube).collect::<Vec<_>>();
        assert_eq!(names(Some(&rows[8])), (3..14).map(name).collect::<Vec<_>>());
        assert_eq!(names(Some(&rows[1])), (0..7).map(name).collect::<Vec<_>>());
        // Nearest to holding, and still in the order of the search.
        assert_eq!(names(None), (10..20).map(name).collect::<Vec<_>>());
    }
}
