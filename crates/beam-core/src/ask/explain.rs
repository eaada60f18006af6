//! What a code means: a check, a caution, an assumption, a step, an input error.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use section_tables::Tables;
use serde::{Deserialize, Serialize};

use crate::check::{MadeWith, NotChecked, Words};
use crate::survey::PROBLEM_CODES;

/// Nearer than this and a code is offered.
const NEAR: f64 = 0.6;
/// How many near codes are offered.
const OFFERED: usize = 5;
const INPUT_ERROR_TODO: &str = "The message names the line, the value, what is allowed and what to write instead: write that, and read it again with \"plan\".";

/// What a code is given to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum CodeKind {
    /// A check of the result, made or not made.
    Check,
    /// A caution.
    Caution,
    /// A default or a simplification.
    Assumption,
    /// A step for the technician.
    Step,
    /// Something wrong in a survey file.
    #[serde(rename = "input error")]
    InputError,
}

impl CodeKind {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            CodeKind::Check => "check",
            CodeKind::Caution => "caution",
            CodeKind::Assumption => "assumption",
            CodeKind::Step => "step",
            CodeKind::InputError => "input error",
        }
    }
}

/// One row of the file.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    kind: CodeKind,
    means: String,
    #[serde(default)]
    formula: String,
    #[serde(default)]
    source: String,
    #[serde(default)]
    range: String,
    #[serde(rename = "do")]
    todo: String,
}

/// What a code means.
#[derive(Debug, Clone, Serialize)]
pub struct Explanation {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// The code as results spell it.
    pub code: String,
    /// What it is given to.
    pub kind: CodeKind,
    /// What it means.
    pub means: String,
    /// Its formula; empty where there is none.
    pub formula: String,
    /// Where that comes from; empty where there is nothing to cite.
    pub source: String,
    /// Where it is valid; empty where there is no bound.
    pub range: String,
    /// What to do about it.
    #[serde(rename = "do")]
    pub todo: String,
    /// None.
    pub assumptions: Vec<Words>,
    /// None.
    pub not_checked: Vec<NotChecked>,
    /// None.
    pub cautions: Vec<Words>,
}

/// A code that nothing has.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no check, caution, assumption, step or input error is called \"{wanted}\"; {}", offered(.near))]
pub struct UnknownCode {
    /// What was asked for.
    pub wanted: String,
    /// The codes nearest to it, best first, at most five.
    pub near: Vec<String>,
}

fn offered(codes: &[String]) -> String {
    if codes.is_empty() {
        "codes stand in brackets behind the sentences of an answer, names of checks in its table".to_owned()
    } else {
        format!("near it: {}", codes.join("; "))
    }
}

static ENTRIES: LazyLock<BTreeMap<String, Entry>> = LazyLock::new(|| {
    toml::from_str(include_str!("../../data/explain.toml"))
        .unwrap_or_else(|error| panic!("explain.toml: {error}"))
});

/// Blanks, hyphens, commas and capitals make no difference.
fn even_out(code: &str) -> String {
    let words = code.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}

/// Says what a code means.
///
/// # Errors
/// [`UnknownCode`] with what is near. A near code is never taken.
///
/// # Examples
/// ```
/// use beam_core::ask;
///
/// let shear = ask::explain("core-shear")?;
/// assert_eq!((shear.code.as_str(), shear.kind), ("core shear", ask::CodeKind::Check));
/// assert!(shear.formula.contains("1.5"));
/// assert_eq!(ask::explain("core-sheer").unwrap_err().near[0], "core shear");
/// # Ok::<(), ask::UnknownCode>(())
/// ```
pub fn explain(code: &str) -> Result<Explanation, UnknownCode> {
    let wanted = even_out(code);
    if let Some((code, entry)) = ENTRIES.iter().find(|(known, _)| even_out(known) == wanted) {
        return Ok(answer(code, entry.clone()));
    }
    if let Some((code, words)) = PROBLEM_CODES.iter().find(|(known, _)| *known == wanted) {
        let entry = Entry {
            kind: CodeKind::InputError,
            means: (*words).to_owned(),
            formula: String::new(),
            source: String::new(),
            range: String::new(),
            todo: INPUT_ERROR_TODO.to_owned(),
        };
        return Ok(answer(code, entry));
    }
    let known = ENTRIES.keys().map(String::as_str).chain(PROBLEM_CODES.iter().map(|(code, _)| *code));
    let mut near: Vec<(f64, &str)> = known
        .map(|code| (strsim::jaro_winkler(&even_out(code), &wanted), code))
        .filter(|(like, _)| *like > NEAR)
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0));
    near.truncate(OFFERED);
    let near = near.into_iter().map(|(_, code)| code.to_owned()).collect();
    Err(UnknownCode { wanted: code.trim().to_owned(), near })
}

fn answer(code: &str, entry: Entry) -> Explanation {
    Explanation {
        schema: 1,
        made_with: MadeWith::new(Tables::shipped(), &[], None),
        code: code.to_owned(),
        kind: entry.kind,
        means: entry.means,
        formula: entry.formula,
        source: entry.source,
        range: entry.range,
        todo: entry.todo,
        assumptions: Vec::new(),
        not_checked: Vec::new(),
        cautions: Vec::new(),
    }
}

#[cfg(test)]
mod tests;
