//! `size`: options as typed become a question, the answer is laid out, the cut list written.

use beam_core::ask::{self, SizeDocument, SizeOptions};
use section_tables::Tables;

use super::{Answer, Outcome, Refusal, read_survey, refuse, unwritable};
use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{cut_list, json, text};
use crate::progress::watched;
use crate::section_args::length;
use crate::terminal;

/// `size`.
pub(crate) fn size(args: &args::Size, notes_in_colour: bool) -> Outcome {
    let tables = Tables::shipped();
    let options = options(args)?;
    let Some(path) = &args.survey else {
        return Err(refuse(Exit::WrongInput, &"a survey is missing: bracewright size SURVEY"));
    };
    let survey = read_survey(path, tables, notes_in_colour)?;
    let document = watched("trying braces, lightest first", || ask::size(&survey, tables, &options))
        .map_err(|error| refuse(Exit::WrongInput, &error))?;
    if let Some(file) = &args.cut_list {
        write_cut_list(file, &document)?;
    }
    let text = match args.output.format {
        Format::Text => text::size(&document, terminal::width()),
        Format::Json => json::size(&document).map_err(unwritable)?,
    };
    let exit = match document.found() {
        Some(true) => Exit::Holds,
        Some(false) => Exit::DoesNotHold,
        None => Exit::CannotSay,
    };
    Ok(Answer { text, exit })
}

fn options(args: &args::Size) -> Result<SizeOptions, Refusal> {
    let trimmed = |list: &[String]| list.iter().map(|name| name.trim().to_owned()).collect();
    let given =
        |option: &str, value: &Option<String>| value.as_deref().map(|v| length(option, v)).transpose();
    Ok(SizeOptions {
        alloys: trimmed(&args.alloys),
        tubes: trimmed(&args.tubes),
        counts: args.count.clone(),
        cover: given("--cover", &args.cover)?,
        max_depth: given("--max-depth", &args.max_depth)?,
    })
}

fn write_cut_list(file: &str, document: &SizeDocument) -> Result<(), Refusal> {
    if document.cut_list.is_empty() {
        return Ok(());
    }
    std::fs::write(file, cut_list::csv(&document.cut_list))
        .map_err(|error| refuse(Exit::NotWritten, &format!("{file} could not be written: {error}")))
}
