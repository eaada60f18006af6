//! `brace`: quantities as typed become a question, the answer is laid out.

use beam_core::ask::{self, BraceLoad, BraceQuestion};
use beam_core::quantity::{Family, Headers, read_force, read_force_per_length, read_weight};
use beam_core::strip::ArchEnds;

use super::{Answer, Outcome, Refusal, refuse, unwritable};
use crate::args::{self, Ends, Format};
use crate::exit::Exit;
use crate::print::{json, text};
use crate::section_args::{length, unreadable};
use crate::terminal;

/// `brace`.
pub(crate) fn brace(args: &args::Brace) -> Outcome {
    let question = question(args)?;
    let tables = args.tables.read()?;
    let answer = ask::brace(&question, &tables).map_err(|error| {
        let exit = if error.cannot_say() { Exit::CannotSay } else { Exit::WrongInput };
        refuse(exit, &error)
    })?;
    let text = match args.output.format {
        Format::Text => text::brace(&answer, Family::of_length(&args.span), terminal::width()),
        Format::Json => json::brace(&answer).map_err(unwritable)?,
    };
    let exit = match answer.holds() {
        Some(true) => Exit::Holds,
        Some(false) => Exit::DoesNotHold,
        None => Exit::CannotSay,
    };
    Ok(Answer { text, exit })
}

fn question(args: &args::Brace) -> Result<BraceQuestion, Refusal> {
    let per_length = |option: &str, value: &Option<String>| {
        let read = |text: &str| read_force_per_length(text).map_err(|error| unreadable(option, text, &error));
        value.as_deref().map(read).transpose()
    };
    Ok(BraceQuestion {
        span: length("--span", &args.span)?,
        rise: length("--rise", &args.rise)?,
        section: args.section.section()?,
        alloy: args.section.alloy.clone(),
        load: args.load.as_deref().map(load).transpose()?,
        at: args.at.as_deref().map(|text| length("--at", text)).transpose()?,
        uniform: per_length("--uniform", &args.uniform)?,
        ends: args.ends.map(|ends| match ends {
            Ends::Roller => ArchEnds::Roller,
            Ends::Pinned => ArchEnds::Pinned,
            Ends::Fixed => ArchEnds::Fixed,
        }),
        thrust_spring: per_length("--thrust-spring", &args.thrust_spring)?,
        rules: args.book.rules(),
        partial_factors: args.book.partial_factors(),
    })
}

/// A force, or else what something weighs.
pub(super) fn load(text: &str) -> Result<BraceLoad, Refusal> {
    if let Ok(force) = read_force(text) {
        return Ok(BraceLoad::Force(force));
    }
    read_weight(text, Headers::default())
        .map(BraceLoad::Weight)
        .map_err(|error| unreadable("--load", text, &error))
}
