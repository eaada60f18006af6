//! The search: all sorted out on condensed panels, then what is left judged in full, in their order.

use std::cmp::Ordering;

use super::pattern::Pattern;
use super::places::arrangements;
use super::screen::{Screened, finely, sort_out};
use super::stock::{Stock, wall_is_listed};
use super::{FirstBy, SizeError};
use crate::ask::bend::{BendOptions, bend};
use crate::ask::check::{CheckOptions, check};
use crate::ask::typed::TypedTube;
use crate::check::{Bracing, CheckDocument, CheckRow, Verdict};
use crate::forming::Arc;
use crate::loads::Factors;
use crate::quantity::Length;
use crate::survey::Survey;
use section_tables::Tables;

/// Candidates judged in full at most, before the search gives up.
pub(super) const IN_FULL: usize = 24;
/// Neighbours before the chosen one that are judged in full too, for the reason why not.
const NEIGHBOURS: usize = 2;

/// Braces that are tried together.
#[derive(Debug, Clone)]
pub(super) struct Candidate<'a> {
    pub stock: Stock<'a>,
    /// Centre lines from the front, m.
    pub along: Vec<f64>,
    /// Mass of all of them along their curve, kg.
    pub mass: f64,
    /// What the shop pays for that length; `None` without a price.
    pub price: Option<f64>,
    /// Whether the tube can be brought to the crown; `None`: its alloy must be known first.
    pub bendable: Option<bool>,
}

/// How a candidate was judged.
#[derive(Debug, Clone)]
pub(super) enum Judged {
    /// Not tried: it cannot be brought to the crown.
    NotBendable,
    /// On the coarse grid only.
    Screened(Box<Screened>),
    /// It could not be solved.
    Trouble(String),
    /// By the whole of `check`.
    InFull(Box<CheckDocument>),
}

/// What the search found.
pub(super) struct Search<'a> {
    /// All tried, in their order.
    pub tried: Vec<(Candidate<'a>, Judged)>,
    /// Index of the one that fails nothing which bracing changes.
    pub found: Option<usize>,
    /// How many there were to try.
    pub candidates: usize,
    pub in_full: usize,
    /// Whether it gave up before the end of the list.
    pub gave_up: bool,
}

/// What is searched.
pub(super) struct Field<'a> {
    pub survey: &'a Survey,
    pub tables: &'a Tables,
    pub factors: &'a Factors,
    pub pattern: &'a Pattern,
    /// Checks, with their parts, that fail without braces and that no brace changes.
    pub beyond_bracing: &'a [(String, String)],
    /// What comes first.
    pub first_by: FirstBy,
}

/// Every candidate in the order in which they are tried.
pub(super) fn candidates<'a>(
    survey: &Survey,
    tables: &Tables,
    tubes: &[Stock<'a>],
    counts: &[usize],
    first_by: FirstBy,
) -> Vec<Candidate<'a>> {
    let (span, rise) = (survey.roof.span, survey.roof.rise);
    let curve = Arc::new(span, rise).map_or(span.value, |arc| arc.length().value);
    let mut out: Vec<Candidate<'a>> = Vec::new();
    for stock in tubes.iter().filter(|s| wall_is_listed(s.alloy, s.size[2])) {
        let bendable = bendable(span, rise, stock, tables);
        for &count in counts {
            for along in arrangements(survey, count, stock.size[0]) {
                let length = curve * along.len() as f64;
                let (mass, price) = (stock.mass * length, stock.price.map(|p| p * length));
                out.push(Candidate { stock: stock.clone(), along, mass, price, bendable });
            }
        }
    }
    out.sort_by(|a, b| {
        first_by
            .order((a.mass, a.price), (b.mass, b.price))
            .then_with(|| a.along.len().cmp(&b.along.len()))
            .then_with(|| a.along.partial_cmp(&b.along).unwrap_or(Ordering::Equal))
    });
    out
}

/// Whether a tube can be brought to a crown, as `bend` says. What is flat needs no bending.
pub(super) fn bendable(span: Length, rise: Length, stock: &Stock<'_>, tables: &Tables) -> Option<bool> {
    if Arc::new(span, rise).is_err() {
        return Some(true);
    }
    let options = BendOptions {
        span: format!("{} m", span.value),
        rise: Some(format!("{} m", rise.value)),
        ordinates: None,
        tube: TypedTube::Row(stock.tube.id.clone()),
        alloy: stock.alloy.id.clone(),
        station: None,
    };
    bend(&options, tables).ok().and_then(|document| document.found())
}

/// Goes through the candidates until one fails nothing.
///
/// # Errors
/// As `check`.
pub(super) fn search<'a>(field: &Field<'_>, candidates: Vec<Candidate<'a>>) -> Result<Search<'a>, SizeError> {
    let (able, built): (Vec<usize>, Vec<(Vec<u64>, Survey)>) = candidates
        .iter()
        .enumerate()
        .filter(|(_, c)| c.bendable != Some(false))
        .map(|(i, c)| {
            let with = field.pattern.built_in(field.survey, &c.stock, &c.along);
            (i, (field.pattern.panel(c.stock.size[0], &c.along), with))
        })
        .unzip();
    let mut judged = vec![Judged::NotBendable; candidates.len()];
    for (&index, result) in able.iter().zip(sort_out(field.factors, &built)) {
        judged[index] = Judged::of(result);
    }
    let count = candidates.len();
    let tried = candidates.into_iter().zip(judged).collect();
    let mut out = Search { tried, found: None, candidates: count, in_full: 0, gave_up: false };
    for (&index, (_, with)) in able.iter().zip(&built) {
        let Judged::Screened(coarse) = &out.tried[index].1 else { continue };
        if coarse.put_aside() {
            continue;
        }
        let fine = Judged::of(finely(with, field.factors, coarse));
        let passes = matches!(&fine, Judged::Screened(s) if !s.put_aside());
        out.tried[index].1 = fine;
        if !passes {
            continue;
        }
        if out.in_full == IN_FULL {
            out.gave_up = true;
            return Ok(out);
        }
        if in_full(field, &mut out, index)? {
            out.found = Some(index);
            break;
        }
    }
    neighbours(field, &mut out)?;
    Ok(out)
}

impl Judged {
    fn of(result: Result<Screened, String>) -> Judged {
        match result {
            Ok(screened) => Judged::Screened(Box::new(screened)),
            Err(why) => Judged::Trouble(why),
        }
    }
}

/// The full check of the tried candidate of that index; whether it fails nothing that bracing changes.
fn in_full(field: &Field<'_>, out: &mut Search<'_>, index: usize) -> Result<bool, SizeError> {
    let (candidate, judged) = &mut out.tried[index];
    let with = field.pattern.built_in(field.survey, &candidate.stock, &candidate.along);
    let document = check(&with, field.tables, CheckOptions::default())?;
    out.in_full += 1;
    let holds = fails(&document, field.beyond_bracing).is_empty()
        && !document.checks.is_empty()
        && (matches!(document.verdict, Verdict::Holds | Verdict::CannotSay)
            || !field.beyond_bracing.is_empty());
    *judged = Judged::InFull(Box::new(document));
    Ok(holds)
}

/// The nearest before it, and where nothing was found the one that came nearest, judged in full for their reasons.
fn neighbours(field: &Field<'_>, out: &mut Search<'_>) -> Result<(), SizeError> {
    let screened_only = |out: &Search<'_>, i: &usize| matches!(out.tried[*i].1, Judged::Screened(_));
    let wanted: Vec<usize> = match out.found {
        Some(found) => (0..found).rev().filter(|i| screened_only(out, i)).take(NEIGHBOURS).collect(),
        None if out.in_full > 0 => Vec::new(),
        None => {
            let ratio = |i: &usize| match &out.tried[*i].1 {
                Judged::Screened(s) => s.worst.as_ref().map_or(f64::INFINITY, |f| f.ratio),
                _ => f64::INFINITY,
            };
            (0..out.tried.len())
                .filter(|i| screened_only(out, i))
                .min_by(|a, b| ratio(a).total_cmp(&ratio(b)))
                .into_iter()
                .collect()
        }
    };
    for index in wanted {
        if in_full(field, out, index)? && out.found.is_none_or(|found| index < found) {
            // The coarse grid was too strict with it.
            out.found = Some(index);
        }
    }
    Ok(())
}

/// Checks that count and do not hold in every bracket, with the braces in, beside those beyond bracing.
pub(super) fn fails<'d>(document: &'d CheckDocument, beyond: &[(String, String)]) -> Vec<&'d CheckRow> {
    document
        .checks
        .iter()
        .filter(|row| row.counts && row.bracing == Bracing::With && row.ratio.get() > 1.0)
        .filter(|row| !beyond.iter().any(|(check, part)| *check == row.check && *part == row.part))
        .collect()
}
