//! `explain`: what a code means.

use beam_core::ask;

use super::{Answer, Outcome, refuse, unwritable};
use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{json, text};
use crate::terminal;

/// `explain`.
pub(crate) fn explain(args: &args::Explain) -> Outcome {
    let told = ask::explain(&args.code.join(" ")).map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::explain(&told, terminal::width()),
        Format::Json => json::explain(&told).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: Exit::Holds })
}
