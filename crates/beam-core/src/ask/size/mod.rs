//! Which tube is enough: the lightest, or cheapest, braces with which a roof fails nothing.
//!
//! Every candidate (tube, alloy, number, places) is tried on a panel condensed onto the lines where braces may go, on a
//! coarse grid; what passes there is judged by the whole of [`super::check()`], lightest first. Nothing is taken to grow or fall with the size of a tube: a
//! stiffer brace draws more load to itself, and a heavier one weighs more.

mod alone;
mod answer;
mod cut_list;
mod document;
mod first_by;
mod panel;
mod pattern;
mod places;
mod rack;
mod rows;
mod screen;
mod search;
mod stock;
mod trimmers;
mod words;

#[cfg(test)]
mod tests;

pub use alone::{AloneDocument, AloneQuestion, size_alone};
pub use cut_list::CutRow;
pub use document::{CandidateRow, Searched, SizeDocument, StaysOver, Without};
pub use first_by::FirstBy;
pub use trimmers::Trimmers;

use super::check::{AskError, CheckOptions, check};
use crate::check::{Bracing, CheckDocument, NotFinite};
use crate::loads::Factors;
use crate::quantity::{Length, tape};
use crate::survey::Survey;
use pattern::{Pattern, replaced};
use search::{Field, candidates, search};
use section_tables::{NotFound, Tables};
use stock::Stock;

/// Foam left under a brace in the core where no cover is given, m (common practice, no source).
const COVER: f64 = 0.01;
/// Deepest tube tried under the ceiling where nothing is said, m (headroom; common practice, no source).
const UNDER_THE_CEILING: f64 = 0.06;
/// Numbers of braces tried where nothing is said.
const COUNTS: [usize; 3] = [1, 2, 3];
/// The most braces that may be asked for.
const MOST: usize = 6;

/// What is asked of [`size()`] beside the survey; what is left empty takes a default that the answer states.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SizeOptions {
    /// Alloys, by id or another name.
    pub alloys: Vec<String>,
    /// Tubes, by id or another name; "in", "mm" or "all" stand for all stock of a system.
    pub tubes: Vec<String>,
    /// Numbers of braces.
    pub counts: Vec<usize>,
    /// Foam that must be left under a brace in the core.
    pub cover: Option<Length>,
    /// Depth of the tube at most.
    pub max_depth: Option<Length>,
    /// Whether trimmers between braces are tried.
    pub trimmers: Trimmers,
    /// What comes first.
    pub first_by: FirstBy,
}

/// Why the question could not be answered at all.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SizeError {
    /// As for the check of a roof.
    #[error(transparent)]
    Ask(#[from] AskError),
    /// No such tube, alloy or glue.
    #[error(transparent)]
    NotFound(#[from] NotFound),
    /// A number came out that is none.
    #[error(transparent)]
    NotFinite(#[from] NotFinite),
    /// As for a brace alone.
    #[error(transparent)]
    Brace(#[from] super::BraceError),
    /// An option that cannot be.
    #[error("{what} is {value}; allowed: {allowed}; {remedy}")]
    Option {
        /// Which.
        what: &'static str,
        /// What was given.
        value: String,
        /// What can be.
        allowed: String,
        /// What to do.
        remedy: &'static str,
    },
}

/// What the candidates were drawn from.
struct Room<'a> {
    stock: Vec<Stock<'a>>,
    counts: Vec<usize>,
    trimmers: Trimmers,
    cover: f64,
    max_depth: f64,
    /// Thinnest place of the core, m, where braces lie in it.
    core: Option<f64>,
}

/// Finds the lightest braces with which a roof fails nothing that was checked.
///
/// # Errors
/// [`SizeError`]: an option that cannot be, a name that is not in the tables. That nothing was found is an answer.
///
/// # Examples
/// ```
/// use beam_core::{ask, survey};
/// use section_tables::Tables;
///
/// let text = r#"
/// survey = 1
/// title = "Puppet store, side aisle"
/// lengths = "mm"
/// weights = "kg"
/// [roof]
/// kind = "rafters and deck"
/// span = "2000"
/// rise = "30"
/// length = "1500"
/// like = "ply 3 / bead foam 50 / ply 3"
/// [person]
/// way = "nobody"
/// "#;
/// let tables = Tables::shipped();
/// let survey = survey::read_text("aisle.toml", text, tables).expect("a sound survey");
/// let answer = ask::size(&survey, tables, &ask::SizeOptions::default())?;
/// assert!(answer.chosen.is_none(), "a roof that is not modelled gets no tube");
/// # Ok::<(), ask::SizeError>(())
/// ```
pub fn size(survey: &Survey, tables: &Tables, options: &SizeOptions) -> Result<SizeDocument, SizeError> {
    let factors = Factors::of(survey, tables).map_err(AskError::from)?;
    let pattern = Pattern::of(survey, tables)?;
    let room = room(survey, tables, options, &pattern)?;
    let bare = check(&replaced(survey, Vec::new()), tables, CheckOptions::default())?;
    let beyond = beyond_bracing(&bare);
    let field = Field {
        survey,
        tables,
        factors: &factors,
        pattern: &pattern,
        beyond_bracing: &beyond,
        first_by: options.first_by,
    };
    let list = if nothing_to_search(survey, &bare) {
        Vec::new()
    } else {
        candidates(survey, tables, &room, options.first_by)
    };
    let found = search(&field, list)?;
    answer::document(&field, &room, &bare, &found)
}

/// Where no search makes sense: the roof is not modelled, nothing sound can be said of it, or it holds as it is.
fn nothing_to_search(survey: &Survey, bare: &CheckDocument) -> bool {
    bare.checks.is_empty()
        || survey.wall.condition == crate::survey::Condition::Soft
        || bare.not_checked.iter().any(|n| n.blocks && n.check == "all")
        || needs_nothing(bare)
}

/// Whether everything that counts is within its limit without new braces.
fn needs_nothing(bare: &CheckDocument) -> bool {
    !bare.checks.is_empty() && bare.checks.iter().all(|row| !row.counts || row.ratio.get() <= 1.0)
}

/// Checks with their parts that fail without braces, and that no brace changes.
fn beyond_bracing(bare: &CheckDocument) -> Vec<(String, String)> {
    bare.checks
        .iter()
        .filter(|row| row.counts && row.bracing == Bracing::Without && row.ratio.get() > 1.0)
        .filter(|row| !row.moved_by_bracing)
        .map(|row| (row.check.clone(), row.part.clone()))
        .collect()
}

fn room<'a>(
    survey: &Survey,
    tables: &'a Tables,
    options: &SizeOptions,
    pattern: &Pattern,
) -> Result<Room<'a>, SizeError> {
    let refuse = |what, value: String, allowed: String, remedy| {
        Err(SizeError::Option { what, value, allowed, remedy })
    };
    let counts = if options.counts.is_empty() { COUNTS.to_vec() } else { options.counts.clone() };
    if let Some(bad) = counts.iter().find(|c| !(1..=MOST).contains(*c)) {
        return refuse(
            "number of braces",
            bad.to_string(),
            format!("1 to {MOST}"),
            "ask for few braces; many small ones are a frame",
        );
    }
    let core = pattern.in_the_core().then(|| stock::core_depth(survey)).flatten();
    let told = |m: f64| tape(m, survey.family);
    let cover = options.cover.map_or(COVER, |c| c.value);
    if let Some(core) = core
        && !(0.0..core).contains(&cover)
    {
        return refuse(
            "cover",
            format!("{cover} m"),
            format!("0 to less than the core's thinnest place, {}", told(core)),
            "say how much foam must stay between tube and inner skin",
        );
    }
    let deepest = core.map_or(UNDER_THE_CEILING, |c| c - cover);
    let max_depth = match options.max_depth {
        None => deepest,
        Some(depth) if depth.value.is_finite() && depth.value > 0.0 => {
            if core.is_some() {
                depth.value.min(deepest)
            } else {
                depth.value
            }
        }
        Some(depth) => {
            return refuse(
                "depth of the tube at most",
                format!("{} m", depth.value),
                "above 0".to_owned(),
                "measure what room there is",
            );
        }
    };
    let mut fitting = stock::on_hand(options, survey.family, tables)?;
    fitting.retain(|stock| stock.size[1] <= max_depth + 1e-9);
    Ok(Room { stock: fitting, counts, trimmers: options.trimmers, cover, max_depth, core })
}
