//! Help texts say what a script needs: the exit status, and for people examples.

use super::{bracewright, output};

const COMMANDS: [&[&str]; 12] = [
    &[],
    &["check"],
    &["plan"],
    &["bend"],
    &["walk"],
    &["size"],
    &["seat"],
    &["survey"],
    &["tables"],
    &["tube"],
    &["brace"],
    &["explain"],
];

#[test]
fn every_help_text_tells_the_exit_status() {
    for command in COMMANDS {
        for flag in ["-h", "--help"] {
            let text = output(&[command, &[flag]].concat());
            assert!(text.contains("Exit status"), "{command:?} {flag}\n{text}");
            for status in ["0", "1", "2", "3", "4"] {
                assert!(text.contains(status), "{command:?} {flag} does not tell what {status} means");
            }
        }
    }
}

#[test]
fn the_long_help_ends_with_examples() {
    for command in COMMANDS {
        let text = output(&[command, &["--help"]].concat());
        let examples = text.split_once("Examples:").map(|(_, rest)| rest).unwrap_or_default();
        assert!(examples.contains("bracewright "), "{command:?}\n{text}");
    }
}

#[test]
fn the_short_help_fits_a_screen() {
    for command in COMMANDS {
        // The list of commands grows with them.
        let room = if command.is_empty() { 32 } else { 24 };
        let lines = output(&[command, &["-h"]].concat()).lines().count();
        assert!(lines <= room, "{command:?}: {lines} lines");
    }
}

#[test]
fn the_version_is_told() {
    assert_eq!(output(&["--version"]).trim(), concat!("bracewright ", env!("CARGO_PKG_VERSION")));
}

#[test]
fn without_a_command_the_help_goes_to_standard_error() {
    let run = bracewright().assert().code(3);
    assert!(String::from_utf8_lossy(&run.get_output().stderr).contains("Exit status"));
    assert!(run.get_output().stdout.is_empty());
}
