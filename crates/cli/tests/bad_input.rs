//! Every file of `bad_input/` is refused by `check` with exit status 3, nothing on standard output, and exactly the
//! messages written beside it. `BLESS=1` writes the messages anew: read the difference before keeping it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use assert_cmd::Command;
use beam_core::survey::PROBLEM_CODES;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_input")
}

/// What `check` says of a path, seen from `within`.
fn refusal(within: &Path, path: &str) -> String {
    let output = Command::cargo_bin("bracewright")
        .expect("built with this package")
        .current_dir(within)
        .env("NO_COLOR", "1")
        .args(["check", path])
        .output()
        .expect("the program runs");
    let stderr = String::from_utf8(output.stderr).expect("messages are UTF-8");
    assert_eq!(output.status.code(), Some(3), "{path}: {stderr}");
    assert!(output.stdout.is_empty(), "{path}: something was answered");
    stderr
}

fn bad_files() -> Vec<String> {
    let entries = fs::read_dir(folder()).expect("the folder is there");
    let names = entries.map(|entry| entry.expect("readable").file_name().into_string().expect("plain names"));
    let mut names: Vec<String> =
        names.filter(|name| name.ends_with(".toml") || name.ends_with(".json")).collect();
    names.sort();
    names
}

fn messages_of(name: &str) -> PathBuf {
    folder().join(name).with_extension("txt")
}

#[test]
fn every_bad_file_gets_its_messages() {
    let names = bad_files();
    assert!(names.len() >= 50, "only {} files", names.len());
    let mut different = Vec::new();
    for name in &names {
        let said = refusal(&folder(), name);
        let expected = messages_of(name);
        if std::env::var_os("BLESS").is_some() {
            fs::write(&expected, &said).expect("the message can be written");
        } else if fs::read_to_string(&expected).unwrap_or_default().replace("\r\n", "\n") != said {
            different.push(format!("--- {name}\n{said}"));
        }
    }
    assert!(different.is_empty(), "other messages than written:\n{}", different.join("\n"));
}

#[test]
fn what_is_no_file_or_too_large_is_refused() {
    let folder = tempfile::tempdir().expect("a folder for a while");
    let large = folder.path().join("large.toml");
    // Sparse: nothing is written, and nothing of it may be read.
    fs::File::create(&large).and_then(|file| file.set_len(100_000_000)).expect("a large file");
    fs::create_dir(folder.path().join("roofs")).expect("a folder in it");
    for (path, code) in
        [("large.toml", "file-too-big"), ("roofs", "file-is-folder"), ("nowhere.toml", "file-missing")]
    {
        let said = refusal(folder.path(), path);
        assert!(said.starts_with(&format!("error[{code}]: ")), "{said}");
        assert!(said.contains("= allowed: ") && said.contains("= write: "), "{said}");
    }
}

/// A code that no file calls forth is not held by anything.
#[test]
fn every_code_has_a_bad_file() {
    let known: BTreeSet<&str> = PROBLEM_CODES.iter().map(|(code, _)| *code).collect();
    // Three are held by the test above; rights differ between systems and users; the shipped tables know every state
    // for every layer, so that one is held in the library with other tables.
    let mut seen = BTreeSet::from([
        "file-too-big",
        "file-is-folder",
        "file-missing",
        "file-unreadable",
        "state-not-for-layer",
    ]);
    let messages: Vec<String> = bad_files()
        .iter()
        .map(|name| {
            fs::read_to_string(messages_of(name)).unwrap_or_else(|_| panic!("{name} has no messages"))
        })
        .collect();
    for line in messages.iter().flat_map(|text| text.lines()) {
        if let Some((code, _)) = line.strip_prefix("error[").and_then(|rest| rest.split_once(']')) {
            seen.insert(code);
        }
    }
    assert_eq!(seen, known, "left: the files, right: the list of codes");
}
