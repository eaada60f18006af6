//! Which tube is enough alone, between two walls, for a span, a crown and a load.

use rayon::prelude::*;
use serde::Serialize;

use super::document::{CandidateRow, Searched};
use super::pattern::words;
use super::rack::{currency, from_the_rack};
use super::search::bendable;
use super::stock::{Stock, on_hand, wall_is_listed};
use super::{SizeError, SizeOptions, Trimmers};
use crate::ask::brace::{BraceAnswer, BraceError, BraceLoad, BraceQuestion, brace};
use crate::ask::tube::TubeSection;
use crate::check::{Finite, MadeWith, NotChecked, ReadIn, Verdict, Words};
use crate::forming::Arc;
use crate::quantity::{Family, ForcePerLength, Length, percent, sag, tape};
use crate::survey::AluminiumRules;
use section_tables::Tables;

/// Sag that is let pass, part of the span (common practice, no source; as a survey's default).
const SAG: f64 = 1.0 / 180.0;
/// Deepest tube tried where nothing is said, m (headroom; common practice, no source).
const DEEPEST: f64 = 0.06;
/// Rows told at most.
const ROWS: usize = 50;

/// What is asked of [`size_alone`].
#[derive(Debug, Clone, PartialEq)]
pub struct AloneQuestion {
    /// From wall to wall.
    pub span: Length,
    /// Height of the crown above the ends; 0 is flat.
    pub rise: Length,
    /// A load at one place.
    pub load: Option<BraceLoad>,
    /// Its distance from the left end; the middle if absent.
    pub at: Option<Length>,
    /// An even load per length of span.
    pub uniform: Option<ForcePerLength>,
    /// Quantities that people read the answer in; they choose the stock too.
    pub read_in: Family,
}

/// The whole result of [`size_alone`].
#[derive(Debug, Clone, Serialize)]
pub struct AloneDocument {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Quantities that people read it in; every number in the document is SI all the same.
    pub read_in: ReadIn,
    /// The answer in words.
    pub answer: String,
    /// Span.
    pub span: Finite,
    /// Rise.
    pub rise: Finite,
    /// What was gone through.
    pub searched: Searched,
    /// The lightest that is strong and stiff enough alone; `null` where there is none.
    pub chosen: Option<CandidateRow>,
    /// Those tried, lightest first.
    pub candidates: Vec<CandidateRow>,
    /// What the limits rest on.
    pub basis: Option<crate::check::BasisWords>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

/// Finds the lightest stocked tube that carries a load alone, its ends free to spread: bending, shear and a sag of
/// span/180.
///
/// # Errors
/// [`SizeError`]: measures or loads that cannot be, names that are not in the tables.
///
/// # Examples
/// ```
/// use beam_core::ask::{AloneQuestion, BraceLoad, SizeOptions, size_alone};
/// use beam_core::quantity::{Family, INCH, POUND_FORCE, si};
/// use section_tables::Tables;
///
/// let question = AloneQuestion {
///     span: si(84.0 * INCH),
///     rise: si(2.0 * INCH),
///     load: Some(BraceLoad::Force(si(100.0 * POUND_FORCE))),
///     at: None,
///     uniform: None,
///     read_in: Family::Inch,
/// };
/// let answer = size_alone(&question, Tables::shipped(), &SizeOptions::default())?;
/// let chosen = answer.chosen.expect("some tube carries 100 lbf");
/// assert!(chosen.ratio.expect("it was judged").get() <= 1.0);
/// # Ok::<(), beam_core::ask::SizeError>(())
/// ```
pub fn size_alone(
    question: &AloneQuestion,
    tables: &Tables,
    options: &SizeOptions,
) -> Result<AloneDocument, SizeError> {
    let deepest = options.max_depth.map_or(DEEPEST, |d| d.value);
    if !(deepest.is_finite() && deepest > 0.0) {
        return Err(SizeError::Option {
            what: "depth of the tube at most",
            value: format!("{deepest} m"),
            allowed: "above 0".to_owned(),
            remedy: "measure what room there is",
        });
    }
    let mut stock = on_hand(options, question.read_in, tables)?;
    stock.retain(|s| s.size[1] <= deepest + 1e-9 && wall_is_listed(s.alloy, s.size[2]));
    stock.sort_by(|a, b| options.first_by.order((a.mass, a.price), (b.mass, b.price)));
    let judged = stock
        .par_iter()
        .map(|s| judge(question, s, tables))
        .collect::<Vec<Result<(CandidateRow, Option<BraceAnswer>), SizeError>>>();
    let mut rows = Vec::new();
    let mut chosen: Option<(CandidateRow, Option<BraceAnswer>)> = None;
    let mut first = None;
    for result in judged {
        let (row, answer) = result?;
        if first.is_none() {
            first.clone_from(&answer);
        }
        if chosen.is_none() && row.why_not.is_none() {
            chosen = Some((row.clone(), answer));
        }
        rows.push(row);
    }
    let last = chosen.as_ref().and_then(|(c, _)| rows.iter().position(|r| r == c)).unwrap_or(rows.len());
    let from = (last + 3).min(rows.len()).saturating_sub(ROWS);
    let candidates = rows[from..(from + ROWS).min(rows.len())].to_vec();
    let told = chosen.as_ref().and_then(|(_, a)| a.clone()).or(first);
    let (count, chosen) = (rows.len(), chosen.map(|(row, _)| row));
    document(question, tables, Tried { options, stock: &stock, deepest, count, chosen, candidates, told })
}

/// One tube alone.
fn judge(
    question: &AloneQuestion,
    stock: &Stock<'_>,
    tables: &Tables,
) -> Result<(CandidateRow, Option<BraceAnswer>), SizeError> {
    let family = question.read_in;
    let curve = Arc::new(question.span, question.rise).map_or(question.span, |arc| arc.length()).value;
    let bendable = bendable(question.span, question.rise, stock, tables);
    let mut row = CandidateRow {
        tube: stock.tube.id.clone(),
        alloy: stock.alloy.id.clone(),
        count: 1,
        along: Vec::new(),
        trimmers: Vec::new(),
        mass: Finite::new(stock.mass * curve, "mass of a brace")?,
        price: stock.price.map(|p| Finite::new(p * curve, "price of a brace")).transpose()?,
        ratio: None,
        check: None,
        sag: None,
        bendable,
        verdict: Verdict::CannotSay,
        in_full: true,
        put_aside: false,
        why_not: None,
    };
    let asked = BraceQuestion {
        span: question.span,
        rise: question.rise,
        section: TubeSection::Named(stock.tube.id.clone()),
        alloy: stock.alloy.id.clone(),
        load: question.load,
        at: question.at,
        uniform: question.uniform,
        ends: None,
        thrust_spring: None,
        rules: AluminiumRules::Adm2020Asd,
        partial_factors: [None; 2],
    };
    let answer = match brace(&asked, tables) {
        Ok(answer) => answer,
        Err(error) if error.cannot_say() => {
            row.why_not = Some(error.to_string());
            return Ok((row, None));
        }
        Err(error @ BraceError::Section(_)) => {
            row.why_not = Some(error.to_string());
            return Ok((row, None));
        }
        Err(error) => return Err(error.into()),
    };
    let sags = [Some(answer.crown_sag), answer.second_order.as_ref().map(|s| s.crown_sag)];
    let deepest = sags.into_iter().flatten().map(|s| s.get().abs()).fold(0.0, f64::max);
    row.sag = Some(Finite::new(deepest, "sag of a brace")?);
    let limit = SAG * question.span.value;
    let by_sag = deepest / limit;
    let strength = answer.strength.as_ref();
    let by_strength = strength.and_then(|s| s.ratio).map(Finite::get);
    row.verdict = match strength {
        None => Verdict::CannotSay,
        Some(s) if s.verdict == Verdict::Holds && by_sag <= 1.0 && bendable != Some(false) => Verdict::Holds,
        Some(_) => Verdict::DoesNotHold,
    };
    if by_strength.is_none_or(|r| by_sag > r) {
        row.ratio = Some(Finite::new(by_sag, "share of sag")?);
        row.check = Some("sag".to_owned());
    } else if let Some(s) = strength {
        row.ratio = s.ratio;
        row.check = Some(s.check.clone());
    }
    row.why_not = match strength {
        None => Some(
            answer
                .not_checked
                .iter()
                .find(|n| n.blocks)
                .map_or_else(|| "the rules give no number".to_owned(), |n| n.why.clone()),
        ),
        Some(s) if s.verdict != Verdict::Holds => Some(match s.ratio {
            Some(r) => format!("{}, uses {}", s.check, percent(r.get())),
            None => "it gives way before it carries the factored load".to_owned(),
        }),
        Some(_) if by_sag > 1.0 => {
            Some(format!("sag, {} of {}, uses {}", sag(deepest, family), sag(limit, family), percent(by_sag)))
        }
        Some(_) if bendable == Some(false) => {
            Some("it cannot be brought to the crown: see `bend`".to_owned())
        }
        Some(_) => None,
    };
    Ok((row, Some(answer)))
}

/// What the search came to.
struct Tried<'a> {
    options: &'a SizeOptions,
    stock: &'a [Stock<'a>],
    /// Deepest tube tried, m.
    deepest: f64,
    count: usize,
    chosen: Option<CandidateRow>,
    candidates: Vec<CandidateRow>,
    /// Answer of `brace` on the chosen tube, or on the first.
    told: Option<BraceAnswer>,
}

fn document(question: &AloneQuestion, tables: &Tables, tried: Tried<'_>) -> Result<AloneDocument, SizeError> {
    let Tried { options, stock, deepest, count, chosen, candidates, told } = tried;
    let family = question.read_in;
    let answer = match &chosen {
        Some(row) => format!(
            "The {} stocked tube that carries this alone: {}, {}, {}. It uses {} in {}. Alone means without a roof: its seats, its glue and the roof itself are not judged here.",
            options.first_by.word(),
            row.tube,
            row.alloy,
            row.measured(family, currency(tables)),
            row.ratio.map_or_else(String::new, |r| percent(r.get())),
            row.check.as_deref().unwrap_or("nothing"),
        ),
        None if stock.is_empty() && !tables.rack.is_empty() => {
            "Nothing on the rack is what was asked for and that shallow.".to_owned()
        }
        None if stock.is_empty() => "No tube asked for is that shallow.".to_owned(),
        None => format!("No stocked tube up to {} deep carries this alone.", tape(deepest, family)),
    };
    let mut ids: Vec<String> = Vec::new();
    let mut alloys: Vec<String> = Vec::new();
    for s in stock {
        if !ids.contains(&s.tube.id) {
            ids.push(s.tube.id.clone());
        }
        if !alloys.contains(&s.alloy.id) {
            alloys.push(s.alloy.id.clone());
        }
    }
    let mut assumptions = vec![
        words("sag-limit", "A sag of the span over 180 is let pass (common practice, no source).".to_owned()),
        words(
            "headroom",
            format!(
                "Tubes up to {} deep are tried; without --max-depth this is headroom (common practice, no source).",
                tape(deepest, family)
            ),
        ),
    ];
    assumptions.extend(from_the_rack(tables));
    let mut cautions = vec![words(
        "alone",
        "This tube was sized alone. In a roof it shares the load with the panel, and the panel may fail beside it: survey the roof and ask `size SURVEY`.".to_owned(),
    )];
    let (made_with, not_checked, basis) = match told {
        Some(answer) => {
            assumptions.extend(answer.assumptions);
            cautions.extend(answer.cautions);
            (Some(answer.made_with), answer.not_checked, answer.strength.map(|s| s.basis))
        }
        None => (None, Vec::new(), None),
    };
    Ok(AloneDocument {
        schema: 1,
        made_with: made_with.unwrap_or_else(|| MadeWith::new(tables, &["ADM 2020 ASD"], None)),
        read_in: ReadIn(family),
        answer,
        span: Finite::new(question.span.value, "span")?,
        rise: Finite::new(question.rise.value, "rise")?,
        searched: Searched {
            candidates: stock.len(),
            tried: count,
            in_full: count,
            gave_up: false,
            tubes: ids,
            alloys,
            counts: vec![1],
            trimmers: Trimmers::Without,
            max_depth: Finite::new(deepest, "depth of tubes")?,
            first_by: options.first_by,
            currency: currency(tables).map(str::to_owned),
        },
        chosen,
        candidates,
        basis,
        not_checked,
        assumptions,
        cautions,
    })
}
