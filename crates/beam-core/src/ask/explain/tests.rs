//! Every code that the source can write has an entry: the source itself is walked, so that a new one is noticed.

use super::*;
use std::path::{Path, PathBuf};

fn sources(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("the source is there").map(|e| e.expect("an entry").path())
    {
        if entry.is_dir() && !entry.ends_with("tests") {
            sources(&entry, out);
        } else if entry.extension().is_some_and(|e| e == "rs")
            && !entry.ends_with("tests.rs")
            && !entry.ends_with("print/example.rs")
        {
            out.push(entry);
        }
    }
}

/// Text literals that come first after each `before`, blanks and opening brackets aside.
fn literals(text: &str, before: &str) -> Vec<String> {
    let mut out = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(before) {
        rest = &rest[at + before.len()..];
        if let Some(inside) =
            rest.trim_start_matches(|c: char| c.is_whitespace() || c == '(').strip_prefix('"')
        {
            out.push(inside.split('"').next().unwrap_or_default().to_owned());
        }
    }
    out
}

fn is_code(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|c| c.is_ascii_lowercase() || c == '-')
}

/// Everything between quotes.
fn quoted(text: &str) -> Vec<&str> {
    text.split('"').skip(1).step_by(2).collect()
}

/// Codes and names of checks in the source of this crate and of the program, with the file each is in.
fn written() -> Vec<(String, String)> {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    sources(&crates.join("beam-core/src"), &mut files);
    sources(&crates.join("cli/src"), &mut files);
    let mut out = Vec::new();
    for file in files {
        let whole = std::fs::read_to_string(&file).expect("a source file");
        let text = whole.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let mut add = |code: &str| out.push((code.to_owned(), name.clone()));
        for before in ["words(", "say(", " code: ", "note("] {
            literals(text, before).iter().filter(|c| is_code(c)).for_each(|c| add(c));
        }
        for before in ["gap(", "check: "] {
            literals(text, before).iter().for_each(|c| add(c));
        }
        quoted(text).into_iter().filter(|q| q.starts_with("default-") && is_code(q)).for_each(&mut add);
        if name == "finding.rs" {
            let names = text.split("fn name(self)").nth(1).expect("names of the checks");
            quoted(names.split("fn cure").next().unwrap_or_default()).into_iter().for_each(&mut add);
        }
        if file.ends_with("survey/read/sample.rs") {
            add("sample-density");
        }
        if name == "damage.rs" {
            quoted(text).into_iter().filter(|q| q.starts_with("until-")).for_each(&mut add);
        }
    }
    out
}

#[test]
fn every_code_in_the_source_is_explained() {
    let written = written();
    // The walk finds what it is to find.
    for sure in
        ["core shear", "sag, lasting", "fragile-roof", "default-person", "seat screws", "grid", "weigh-foam"]
    {
        assert!(written.iter().any(|(code, _)| code == sure), "{sure} was not found in the source");
    }
    assert!(written.len() > 150, "{}", written.len());
    let missing: Vec<_> = written.iter().filter(|(code, _)| explain(code).is_err()).collect();
    assert!(missing.is_empty(), "without an entry in data/explain.toml: {missing:?}");
}

#[test]
fn every_input_error_is_explained() {
    for (code, words) in PROBLEM_CODES {
        let told = explain(code).unwrap_or_else(|e| panic!("{e}"));
        assert!(told.kind == CodeKind::InputError && told.means == *words, "{code}");
    }
}

/// An entry for a code that is not written any more says something of nothing.
#[test]
fn every_entry_is_of_a_code_that_is_written() {
    let written: Vec<String> = written().into_iter().map(|(code, _)| even_out(&code)).collect();
    let idle: Vec<_> = ENTRIES.keys().filter(|code| !written.contains(&even_out(code))).collect();
    // The first is told by `plan` from a list, the other beside its reason in the gaps.
    assert!(idle.iter().all(|code| ["nothing-calculated", "decay"].contains(&code.as_str())), "{idle:?}");
}

#[test]
fn every_entry_says_what_it_means_and_what_to_do() {
    for (code, entry) in ENTRIES.iter() {
        assert!(entry.means.ends_with(['.', '"']) && entry.todo.ends_with(['.', '"']), "{code}");
    }
}
