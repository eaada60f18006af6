//! One command, one call into the library, one layout.

mod brace;

pub(crate) use brace::brace;

use std::io::{self, Read};
use std::path::Path;

use beam_core::ask::{self, CheckOptions};
use beam_core::survey::{LARGEST_SURVEY, Survey, read_path, read_text};
use section_tables::Tables;

use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{json, problems, text};
use crate::terminal;

/// What is written to standard output, and how the program then ends.
pub(crate) struct Answer {
    pub(crate) text: String,
    pub(crate) exit: Exit,
}

/// Why there is no answer, for standard error.
pub(crate) struct Refusal {
    pub(crate) text: String,
    pub(crate) exit: Exit,
}

pub(crate) type Outcome = Result<Answer, Refusal>;

/// `check`.
pub(crate) fn check(args: &args::Check, notes_in_colour: bool) -> Outcome {
    let tables = Tables::shipped();
    let survey = read_survey(&args.survey, tables, notes_in_colour)?;
    let document = ask::check(&survey, tables, CheckOptions { stage: args.stage.clone() })
        .map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::check(&document, terminal::width()),
        Format::Json => json::check(&document).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: document.verdict.into() })
}

/// `plan`.
pub(crate) fn plan(args: &args::Plan, notes_in_colour: bool) -> Outcome {
    let survey = read_survey(&args.survey, Tables::shipped(), notes_in_colour)?;
    found(match args.output.format {
        Format::Text => text::plan(&survey, terminal::width()),
        Format::Json => json::plan(&survey).map_err(unwritable)?,
    })
}

/// `survey --blank`.
pub(crate) fn survey(args: &args::SurveySheet) -> Outcome {
    found(text::blank_sheet(args.metric))
}

/// `tables`.
pub(crate) fn tables(args: &args::Tables) -> Outcome {
    let tables = Tables::shipped();
    found(match args.output.format {
        Format::Text => text::tables(tables, args.table, terminal::width()),
        Format::Json => json::tables(tables, args.table).map_err(unwritable)?,
    })
}

/// Reads the survey at a path, or from standard input where the path is `-`.
fn read_survey(path: &str, tables: &Tables, notes_in_colour: bool) -> Result<Survey, Refusal> {
    let survey = if path == "-" {
        let mut bytes = Vec::new();
        // One byte more than is allowed lets the reader say that it is too much.
        let read = io::stdin().lock().take(LARGEST_SURVEY + 1).read_to_end(&mut bytes);
        read.map_err(|error| refuse(Exit::WrongInput, &format!("standard input cannot be read: {error}")))?;
        read_text("standard input", &bytes, tables)
    } else {
        read_path(Path::new(path), tables)
    };
    survey
        .map_err(|found| Refusal { text: problems::render(&found, notes_in_colour), exit: Exit::WrongInput })
}

fn found(text: String) -> Outcome {
    Ok(Answer { text, exit: Exit::Holds })
}

fn unwritable(error: json::Unwritable) -> Refusal {
    refuse(Exit::NotWritten, &format!("the answer could not be written as JSON: {error}"))
}

pub(crate) fn refuse(exit: Exit, why: &impl std::fmt::Display) -> Refusal {
    Refusal { text: format!("bracewright: {why}\n"), exit }
}
