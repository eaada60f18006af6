//! Where the answer goes: colour only where wanted, no wider than asked, never a panic.

use std::process::{Command, Stdio};

use super::{bracewright, output};

const ESCAPE: &str = "\u{1b}[";

#[test]
fn a_pipe_gets_no_colour_unless_asked() {
    assert!(!output(&["tables", "factors"]).contains(ESCAPE));
    assert!(!output(&["tables", "factors", "--color", "never"]).contains(ESCAPE));
    assert!(output(&["tables", "factors", "--color", "always"]).contains(ESCAPE));
}

#[test]
fn no_color_wins_over_a_forced_terminal() {
    let coloured = |no_color: bool| {
        let mut command = bracewright();
        command.args(["tables", "factors"]).env("CLICOLOR_FORCE", "1");
        if no_color {
            command.env("NO_COLOR", "1");
        }
        String::from_utf8_lossy(&command.assert().code(0).get_output().stdout).contains(ESCAPE)
    };
    assert!(coloured(false));
    assert!(!coloured(true));
}

#[test]
fn without_its_colour_the_text_is_the_same() {
    let coloured = output(&["tables", "factors", "--color", "always"]);
    assert_eq!(anstream::adapter::strip_str(&coloured).to_string(), output(&["tables", "factors"]));
}

#[test]
fn prose_keeps_to_the_columns_there_are() {
    let widest = |columns: &str| {
        let run = bracewright().args(["tables", "sources"]).env("COLUMNS", columns).assert().code(0);
        String::from_utf8_lossy(&run.get_output().stdout).lines().map(|line| line.chars().count()).max()
    };
    assert!(widest("80") <= Some(80));
    assert!(widest("120") > Some(100), "more room is used");
    assert_eq!(widest("20"), widest("60"), "below 60 columns nothing is readable");
    assert!(output(&["tables", "sources"]).lines().all(|line| line.chars().count() <= 100), "a pipe has 100");
}

/// Every write to `/dev/full` fails as on a full disk.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_4() {
    for arguments in
        [&["tables"] as &[&str], &["tables", "--format", "json"], &["survey", "--blank"], &["--help"]]
    {
        let full = std::fs::File::options().write(true).open("/dev/full").expect("/dev/full");
        let run = Command::new(env!("CARGO_BIN_EXE_bracewright"))
            .args(arguments)
            .stdout(full)
            .stderr(Stdio::piped())
            .output()
            .expect("the program starts");
        let told = String::from_utf8_lossy(&run.stderr);
        assert_eq!(run.status.code(), Some(4), "{arguments:?}: {told}");
        assert!(!told.contains("panicked"), "{told}");
    }
}

#[test]
fn a_closed_pipe_is_4_and_quiet() {
    for arguments in [&["tables", "materials"] as &[&str], &["survey", "--blank"], &["--help"]] {
        let (reader, writer) = std::io::pipe().expect("a pipe");
        drop(reader);
        let run = Command::new(env!("CARGO_BIN_EXE_bracewright"))
            .args(arguments)
            .stdout(writer)
            .stderr(Stdio::piped())
            .output()
            .expect("the program starts");
        assert_eq!(run.status.code(), Some(4), "{arguments:?}");
        assert_eq!(String::from_utf8_lossy(&run.stderr), "", "{arguments:?}");
    }
}
