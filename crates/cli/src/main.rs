//! Will a laminated vehicle roof hold, does it need a brace, and why: the command line.
//!
//! Arguments in, one call into `beam-core`, its document laid out. Results go to standard output, problems to
//! standard error, and the exit status tells a script what was found. Nothing is computed here.

mod args;
mod command;
mod exit;
mod own_tables;
mod print;
mod progress;
mod section_args;
mod terminal;

use std::io::{ErrorKind, Write};
use std::process::ExitCode;

use anstream::ColorChoice;
use clap::Parser;

use args::{Cli, Command};
use exit::Exit;

fn main() -> ExitCode {
    match Cli::try_parse() {
        Ok(cli) => run(cli).into(),
        Err(message) => help_or_usage(&message).into(),
    }
}

fn run(cli: Cli) -> Exit {
    let color = ColorChoice::from(cli.color);
    let notes_in_colour = terminal::notes_in_colour(color);
    let outcome = match cli.command {
        Command::Check(args) => command::check(&args, notes_in_colour),
        Command::Plan(args) => command::plan(&args, notes_in_colour),
        Command::Bend(args) => command::bend(&args),
        Command::Walk(args) => command::walk(&args, notes_in_colour),
        Command::Seat(args) => command::seat(&args, notes_in_colour),
        Command::Size(args) => command::size(&args, notes_in_colour),
        Command::Survey(args) => command::survey(&args),
        Command::Tube(args) => command::tube(&args),
        Command::Brace(args) => command::brace(&args),
        Command::Tables(args) => command::tables(&args),
        Command::Explain(args) => command::explain(&args),
    };
    match outcome {
        Ok(answer) => match terminal::write_answer(&answer.text, color) {
            Ok(()) => answer.exit,
            Err(error) => {
                // A reader that closed the pipe has what it wanted and needs no message.
                if error.kind() != ErrorKind::BrokenPipe {
                    let note = format!("bracewright: the answer could not be written: {error}\n");
                    terminal::write_note(&note, color);
                }
                Exit::NotWritten
            }
        },
        Err(refusal) => {
            terminal::write_note(&refusal.text, color);
            refusal.exit
        }
    }
}

/// Help and version are answers; anything else that stopped the reading of arguments is a wrong command line.
fn help_or_usage(message: &clap::Error) -> Exit {
    let written = message.print().and_then(|()| std::io::stdout().flush());
    match (message.use_stderr(), written) {
        (true, _) => Exit::WrongInput,
        (false, Ok(())) => Exit::Holds,
        (false, Err(_)) => Exit::NotWritten,
    }
}
