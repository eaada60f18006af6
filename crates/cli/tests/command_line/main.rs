//! The program as a script or a person meets it: exit status, help, streams, colour, width, JSON.

mod bend;
mod brace;
mod check;
mod exit_status;
mod explain;
mod help;
mod json;
mod own_tables;
mod plan;
mod readme;
mod seat;
mod sheet;
mod size;
mod streams;
mod tube;
mod walk;
mod working;

use std::collections::HashMap;
use std::process::Output;
use std::sync::{Arc, LazyLock, Mutex};

use assert_cmd::Command;

/// The program, with nothing of the tester's terminal in its environment.
pub(crate) fn bracewright() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_bracewright"));
    for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS"] {
        command.env_remove(name);
    }
    command
}

/// Standard output of a run that must end with 0.
pub(crate) fn output(arguments: &[&str]) -> String {
    let run = bracewright().args(arguments).assert().code(0);
    String::from_utf8(run.get_output().stdout.clone()).expect("UTF-8")
}

/// A run with these arguments: made once, however many tests look at it.
pub(crate) fn ran(arguments: &[&str]) -> Arc<Output> {
    static RUNS: LazyLock<Mutex<HashMap<String, Arc<Output>>>> = LazyLock::new(Mutex::default);
    // Held while it runs: the program uses all processors itself.
    let mut runs = RUNS.lock().expect("no test fails while it holds this");
    let run = || Arc::new(bracewright().args(arguments).output().expect("the program starts"));
    runs.entry(arguments.join("\n")).or_insert_with(run).clone()
}

/// The path of a demo survey.
pub(crate) fn demo(name: &str) -> String {
    format!("{}/../../data/{name}", env!("CARGO_MANIFEST_DIR"))
}
