//! JSON for programs: SI throughout, one document, a newline at its end.

mod loads;
mod plan;
mod roof;
mod survey;
mod tables;
mod work;

pub(crate) use plan::plan;
pub(crate) use tables::tables;

use beam_core::ask::BendDocument;
use beam_core::ask::BraceAnswer;
use beam_core::ask::Explanation;
use beam_core::ask::SeatDocument;
use beam_core::ask::TubeAnswer;
use beam_core::ask::WalkDocument;
use beam_core::ask::{AloneDocument, SizeDocument};
use beam_core::check::CheckDocument;
use serde::Serialize;

/// A document that could not be written as JSON.
pub(crate) type Unwritable = serde_json::Error;

/// The result document of `check`.
pub(crate) fn check(document: &CheckDocument) -> Result<String, Unwritable> {
    pretty(document)
}

/// The result document of `bend`.
pub(crate) fn bend(document: &BendDocument) -> Result<String, Unwritable> {
    pretty(document)
}

/// The answer of `tube`.
pub(crate) fn tube(answer: &TubeAnswer) -> Result<String, Unwritable> {
    pretty(answer)
}

/// The result document of `walk`, on one line: its map is thousands of numbers.
pub(crate) fn walk(document: &WalkDocument) -> Result<String, Unwritable> {
    let mut text = serde_json::to_string(document)?;
    text.push('\n');
    Ok(text)
}

/// The result document of `size`.
pub(crate) fn size(document: &SizeDocument) -> Result<String, Unwritable> {
    pretty(document)
}

/// The result document of `size` without a survey.
pub(crate) fn size_alone(document: &AloneDocument) -> Result<String, Unwritable> {
    pretty(document)
}

/// The result document of `seat`.
pub(crate) fn seat(document: &SeatDocument) -> Result<String, Unwritable> {
    pretty(document)
}

/// The answer of `brace`.
pub(crate) fn brace(answer: &BraceAnswer) -> Result<String, Unwritable> {
    pretty(answer)
}

/// What a code means.
pub(crate) fn explain(told: &Explanation) -> Result<String, Unwritable> {
    pretty(told)
}

fn pretty(document: &impl Serialize) -> Result<String, Unwritable> {
    let mut text = serde_json::to_string_pretty(document)?;
    text.push('\n');
    Ok(text)
}
