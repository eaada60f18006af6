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

/// The path of a demo survey.
pub(crate) fn demo(name: &str) -> String {
    format!("{}/../../data/{name}", env!("CARGO_MANIFEST_DIR"))
}
