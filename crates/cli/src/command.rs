//! One command, one call into the library, one layout.

mod brace;
mod explain;
mod seat;
mod size;
mod tube;

pub(crate) use brace::brace;
pub(crate) use explain::explain;
pub(crate) use seat::seat;
pub(crate) use size::size;
pub(crate) use tube::tube;

use std::io::{self, Read};
use std::path::Path;

use beam_core::ask::{self, BendOptions, CheckOptions, WalkOptions};
use beam_core::check::Verdict;
use beam_core::survey::{LARGEST_SURVEY, Survey, read_path, read_text};
use section_tables::Tables;

use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{json, problems, text};
use crate::progress::watched;
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
    let tables = args.tables.read()?;
    let survey = read_survey(&args.survey, &tables, notes_in_colour)?;
    let options = CheckOptions { stage: args.stage.clone(), working: args.working };
    let document =
        watched("solving the roof in every state of its materials", || ask::check(&survey, &tables, options))
            .map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::check(&document, terminal::width()),
        Format::Json => json::check(&document).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: document.verdict.into() })
}

/// `plan`.
pub(crate) fn plan(args: &args::Plan, notes_in_colour: bool) -> Outcome {
    let tables = args.tables.read()?;
    let survey = read_survey(&args.survey, &tables, notes_in_colour)?;
    found(match args.output.format {
        Format::Text => text::plan(&survey, &tables, terminal::width()),
        Format::Json => json::plan(&survey, &tables).map_err(unwritable)?,
    })
}

/// `bend`.
pub(crate) fn bend(args: &args::Bend) -> Outcome {
    let options = BendOptions {
        span: args.span.clone(),
        rise: args.rise.clone(),
        ordinates: args.ordinates.clone(),
        tube: (&args.section).into(),
        alloy: args.section.alloy.clone(),
        station: args.station.clone(),
    };
    let tables = args.tables.read()?;
    let document = ask::bend(&options, &tables).map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::bend(&document, terminal::width()),
        Format::Json => json::bend(&document).map_err(unwritable)?,
    };
    let exit = match document.found() {
        Some(true) => Exit::Holds,
        Some(false) => Exit::DoesNotHold,
        None => Exit::CannotSay,
    };
    Ok(Answer { text, exit })
}

/// `walk`.
pub(crate) fn walk(args: &args::Walk, notes_in_colour: bool) -> Outcome {
    let tables = args.tables.read()?;
    let survey = read_survey(&args.survey, &tables, notes_in_colour)?;
    let options = WalkOptions { stage: args.stage.clone() };
    let document = watched("trying a person at every place", || ask::walk(&survey, &tables, options))
        .map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::walk(&document, &survey, terminal::width()),
        Format::Json => json::walk(&document).map_err(unwritable)?,
    };
    let exit = match document.verdict {
        // A board was asked for too, and found.
        Verdict::OnlyOnABoard => Exit::Holds,
        other => other.into(),
    };
    Ok(Answer { text, exit })
}

/// `survey --blank`.
pub(crate) fn survey(args: &args::SurveySheet) -> Outcome {
    found(text::blank_sheet(args.metric))
}

/// `tables`.
pub(crate) fn tables(args: &args::Tables) -> Outcome {
    let tables = args.tables.read()?;
    found(match args.output.format {
        Format::Text => text::tables(&tables, args.table, terminal::width()),
        Format::Json => json::tables(&tables, args.table).map_err(unwritable)?,
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
