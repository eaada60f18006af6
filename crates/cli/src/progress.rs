//! A sign of life on a terminal while a roof is being solved: only after half a second, only on standard error.

use std::io::{self, IsTerminal};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};

/// Runs `work`, with a spinner beside it where a person watches.
pub(crate) fn watched<T>(what: &'static str, work: impl FnOnce() -> T) -> T {
    if !io::stderr().is_terminal() {
        return work();
    }
    let style = ProgressStyle::with_template("{spinner} {msg}, {elapsed}").ok();
    let spinner = ProgressBar::new_spinner().with_message(what);
    let spinner = match style {
        Some(style) => spinner.with_style(style),
        None => spinner,
    };
    // The first tick, and with it the first sign, comes after this.
    spinner.enable_steady_tick(Duration::from_millis(500));
    let done = work();
    spinner.finish_and_clear();
    done
}
