//! The search: all sorted out on condensed panels, then what is left judged in full, in their order.

use std::cmp::Ordering;

use super::pattern::Pattern;
use super::places::arrangements;
use super::screen::{Screened, finely, sort_out};
use super::stock::{Stock, wall_is_listed};
use super::trimmers::{TrimmerPlaces, trimmers_beside};
use super::{FirstBy, Room, SizeError};
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
/// Of those with trimmers, when one without was found.
const IN_FULL_LIGHTER: usize = 6;
/// Neighbours before the chosen one that are judged in full too, for the reason why not.
const NEIGHBOURS: usize = 2;

/// Braces that are tried together.
#[derive(Debug, Clone)]
pub(super) struct Candidate<'a> {
    pub stock: Stock<'a>,
    /// Centre lines from the front, m.
    pub along: Vec<f64>,
    /// Trimmers between two of them.
    pub trimmers: Option<TrimmerPlaces>,
    /// Mass of all of them along their curve, kg, with trimmers.
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
    /// Index of the one that fails nothing which bracing changes: without trimmers, where there is one.
    pub found: Option<usize>,
    /// Index of one with trimmers that fails nothing either and comes before it.
    pub with_trimmers: Option<usize>,
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
    room: &Room<'a>,
    first_by: FirstBy,
) -> Vec<Candidate<'a>> {
    let (span, rise) = (survey.roof.span, survey.roof.rise);
    let curve = Arc::new(span, rise).map_or(span.value, |arc| arc.length().value);
    let mut out: Vec<Candidate<'a>> = Vec::new();
    let [plain, trimmed] = room.trimmers.tried();
    for stock in room.stock.iter().filter(|s| wall_is_listed(s.alloy, s.size[2])) {
        let bendable = bendable(span, rise, stock, tables);
        for &count in &room.counts {
            for along in arrangements(survey, count, stock.size[0]) {
                let beside = trimmers_beside(survey, &along, stock.size[0]).filter(|_| trimmed).map(Some);
                for trimmers in plain.then_some(None).into_iter().chain(beside) {
                    let short: f64 = trimmers.iter().map(|t| t.length() * t.across.len() as f64).sum();
                    let length = curve * along.len() as f64 + short;
                    let (mass, price) = (stock.mass * length, stock.price.map(|p| p * length));
                    let (stock, along) = (stock.clone(), along.clone());
                    out.push(Candidate { stock, along, trimmers, mass, price, bendable });
                }
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
        .map(|(i, c)| (i, (field.pattern.panel(c), field.pattern.built_in(field.survey, c))))
        .unzip();
    let mut judged = vec![Judged::NotBendable; candidates.len()];
    for (&index, result) in able.iter().zip(sort_out(field.factors, &built)) {
        judged[index] = Judged::of(result);
    }
    let count = candidates.len();
    let tried = candidates.into_iter().zip(judged).collect();
    let mut out =
        Search { tried, found: None, with_trimmers: None, candidates: count, in_full: 0, gave_up: false };
    let roofs: Vec<(usize, &Survey)> = able.into_iter().zip(built.iter().map(|(_, with)| with)).collect();
    let trimmed: Vec<bool> = out.tried.iter().map(|(c, _)| c.trimmers.is_some()).collect();
    let walk = |out: &mut Search<'_>, trimmers: bool, before: usize, most: usize| {
        let roofs = roofs.iter().filter(|(i, _)| trimmed[*i] == trimmers && *i < before);
        first_that_passes(field, out, roofs.copied(), most)
    };
    // The strength of trimmers' end joints is never checked: none of those can hold, and one that can comes first.
    match walk(&mut out, false, count, IN_FULL)? {
        Walked::Found(found) => {
            out.found = Some(found);
            if let Walked::Found(lighter) = walk(&mut out, true, found, IN_FULL_LIGHTER)? {
                out.with_trimmers = Some(lighter);
            }
        }
        Walked::None => match walk(&mut out, true, count, IN_FULL)? {
            Walked::Found(found) => out.found = Some(found),
            Walked::None => {}
            Walked::GaveUp => out.gave_up = true,
        },
        Walked::GaveUp => out.gave_up = true,
    }
    if !out.gave_up {
        neighbours(field, &mut out, &roofs)?;
    }
    Ok(out)
}

/// How a walk through candidates ended.
enum Walked {
    Found(usize),
    None,
    GaveUp,
}

/// The first of some candidates that fails nothing which bracing changes, judged in full; at most so many are.
fn first_that_passes<'s>(
    field: &Field<'_>,
    out: &mut Search<'_>,
    roofs: impl Iterator<Item = (usize, &'s Survey)>,
    most: usize,
) -> Result<Walked, SizeError> {
    let before = out.in_full;
    for (index, with) in roofs {
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
        if out.in_full == before + most {
            return Ok(Walked::GaveUp);
        }
        if in_full(field, out, index, with)? {
            return Ok(Walked::Found(index));
        }
    }
    Ok(Walked::None)
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
fn in_full(field: &Field<'_>, out: &mut Search<'_>, index: usize, with: &Survey) -> Result<bool, SizeError> {
    let judged = &mut out.tried[index].1;
    let document = check(with, field.tables, CheckOptions::default())?;
    out.in_full += 1;
    let holds = fails(&document, field.beyond_bracing).is_empty()
        && !document.checks.is_empty()
        && (matches!(document.verdict, Verdict::Holds | Verdict::CannotSay)
            || !field.beyond_bracing.is_empty());
    *judged = Judged::InFull(Box::new(document));
    Ok(holds)
}

/// The nearest before it, and where nothing was found the one that came nearest, judged in full for their reasons.
fn neighbours(field: &Field<'_>, out: &mut Search<'_>, roofs: &[(usize, &Survey)]) -> Result<(), SizeError> {
    let trimmers = |i: usize| out.tried[i].0.trimmers.is_some();
    let screened = |(i, _): &&(usize, &Survey)| matches!(out.tried[*i].1, Judged::Screened(_));
    let wanted: Vec<(usize, &Survey)> = match out.found {
        Some(found) => {
            let alike = |(i, _): &&(usize, &Survey)| *i < found && trimmers(*i) == trimmers(found);
            roofs.iter().rev().filter(alike).filter(screened).take(NEIGHBOURS).copied().collect()
        }
        None if out.in_full > 0 => Vec::new(),
        None => {
            let ratio = |i: usize| match &out.tried[i].1 {
                Judged::Screened(s) => s.worst.as_ref().map_or(f64::INFINITY, |f| f.ratio),
                _ => f64::INFINITY,
            };
            let nearest = roofs.iter().filter(screened).min_by(|a, b| ratio(a.0).total_cmp(&ratio(b.0)));
            nearest.into_iter().copied().collect()
        }
    };
    for (index, with) in wanted {
        if in_full(field, out, index, with)? && out.found.is_none_or(|found| index < found) {
            // The coarse grid was too strict with it.
            out.found = Some(index);
        }
    }
    if out.found.is_some_and(|found| out.with_trimmers.is_some_and(|with| with > found)) {
        out.with_trimmers = None;
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
