//! A whole process that solves and evaluates one state of a roof, one bracket of its materials, or all: for timing from
//! outside.
//!
//! ```text
//! cargo build --release -p bracewright-benches --example states
//! time target/release/examples/states data/puppet-theatre-braced.toml one
//! ```

use std::path::Path;

use beam_core::ask::{States, solve_states};
use beam_core::survey::read_path;
use section_tables::Tables;

#[expect(clippy::print_stdout, reason = "a line for people")]
fn main() {
    let mut arguments = std::env::args().skip(1);
    let survey = arguments.next().unwrap_or_else(|| "data/puppet-theatre-braced.toml".to_owned());
    let states = match arguments.next().as_deref() {
        Some("all") => States::All,
        Some("bracket") => States::Bracket,
        _ => States::One,
    };
    let survey =
        read_path(Path::new(&survey), Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}"));
    match solve_states(&survey, Tables::shipped(), states) {
        Ok((solved, unknowns, findings)) => {
            println!("{solved} states of {unknowns} unknowns solved, {findings} findings");
        }
        Err(error) => println!("{error}"),
    }
}
