//! `seat`: options as typed become a question, the answer is laid out.

use beam_core::ask::{self, SeatOptions};

use super::{Answer, Outcome, read_survey, refuse, unwritable};
use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{json, text};
use crate::section_args::length;
use crate::terminal;

/// `seat`.
pub(crate) fn seat(args: &args::Seat, notes_in_colour: bool) -> Outcome {
    let given =
        |option: &str, value: &Option<String>| value.as_deref().map(|v| length(option, v)).transpose();
    let options = SeatOptions {
        gasket: given("--gasket", &args.gasket)?,
        hardware: given("--hardware", &args.hardware)?,
    };
    let tables = args.tables.read()?;
    let survey = read_survey(&args.survey, &tables, notes_in_colour)?;
    let document = ask::seat(&survey, &tables, options).map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::seat(&document, terminal::width()),
        Format::Json => json::seat(&document).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: document.verdict.into() })
}
