//! `tube`: lengths as typed become a question, the answer is laid out.

use beam_core::ask::{self, TubeQuestion};
use beam_core::quantity::Family;

use super::{Answer, Outcome, Refusal, refuse, unwritable};
use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{json, text};
use crate::section_args::length;
use crate::terminal;

/// `tube`.
pub(crate) fn tube(args: &args::Tube) -> Outcome {
    let question = question(args)?;
    let tables = args.tables.read()?;
    let answer = ask::tube(&question, &tables).map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::tube(&answer, Family::of_length(&args.length), terminal::width()),
        Format::Json => json::tube(&answer).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: if answer.cannot_say() { Exit::CannotSay } else { Exit::Holds } })
}

fn question(args: &args::Tube) -> Result<TubeQuestion, Refusal> {
    let given =
        |option: &str, value: &Option<String>| value.as_deref().map(|v| length(option, v)).transpose();
    Ok(TubeQuestion {
        section: args.section.section()?,
        alloy: args.section.alloy.clone(),
        length: length("--length", &args.length)?,
        held_every: given("--held-every", &args.held_every)?,
        rules: args.book.rules(),
        weld_at: given("--weld-at", &args.weld_at)?,
        partial_factors: args.book.partial_factors(),
    })
}
