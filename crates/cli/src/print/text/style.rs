//! Colour and weight. They only repeat what the words say: stripped of them, a text loses nothing.

use anstyle::{AnsiColor, Style};
use beam_core::check::Verdict;

/// A heading.
pub(super) fn heading(text: &str) -> String {
    painted(Style::new().bold(), text)
}

/// Something to be seen first.
pub(super) fn strong(text: &str) -> String {
    painted(Style::new().bold(), text)
}

/// Something that must not be overlooked.
pub(super) fn warning(text: &str) -> String {
    painted(AnsiColor::Yellow.on_default().bold(), text)
}

/// Something to look up, not to read.
pub(super) fn faint(text: &str) -> String {
    painted(Style::new().dimmed(), text)
}

/// Words that carry a verdict.
pub(super) fn judged(verdict: Verdict, text: &str) -> String {
    let colour = match verdict {
        Verdict::Holds => AnsiColor::Green,
        Verdict::CannotSay | Verdict::OnlyOnABoard => AnsiColor::Yellow,
        Verdict::BraceNeeded | Verdict::BraceTooWeak | Verdict::DoesNotHold => AnsiColor::Red,
    };
    painted(colour.on_default().bold(), text)
}

fn painted(style: Style, text: &str) -> String {
    format!("{style}{text}{style:#}")
}
