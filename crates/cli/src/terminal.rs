//! The terminal: how wide it is, whether it shows colour, and writing to it without ever panicking.

use std::io::{self, IsTerminal, Write};

use anstream::{AutoStream, ColorChoice};

/// Columns where nothing tells how many there are.
const PIPED: usize = 100;
/// Below this a table cannot be read.
const NARROWEST: usize = 60;
/// Above this a line of prose cannot be read.
const WIDEST: usize = 140;

/// Columns to lay a text out in: `COLUMNS` if it is set, else the terminal's, else 100; never under 60.
pub(crate) fn width() -> usize {
    let columns = std::env::var("COLUMNS").ok().and_then(|text| text.trim().parse().ok());
    let columns =
        columns.unwrap_or_else(|| if io::stdout().is_terminal() { textwrap::termwidth() } else { PIPED });
    columns.clamp(NARROWEST, WIDEST)
}

/// Writes an answer to standard output; style codes are stripped where `color` says so.
pub(crate) fn write_answer(text: &str, color: ColorChoice) -> io::Result<()> {
    let mut out = AutoStream::new(io::stdout().lock(), color);
    out.write_all(text.as_bytes())?;
    out.flush()
}

/// Writes problems or a note to standard error. There is no better place to report a failure of this one.
pub(crate) fn write_note(text: &str, color: ColorChoice) {
    let mut out = AutoStream::new(io::stderr().lock(), color);
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Whether standard error shows colour.
pub(crate) fn notes_in_colour(color: ColorChoice) -> bool {
    match color {
        ColorChoice::Auto => AutoStream::choice(&io::stderr()) != ColorChoice::Never,
        chosen => chosen != ColorChoice::Never,
    }
}
