//! The survey file as the contract states it: short and full form, both families, TOML and JSON.

use beam_core::survey::{Survey, read_path, read_text};
use section_tables::Tables;
use std::path::{Path, PathBuf};

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/surveys").join(name)
}

fn read(name: &str) -> Survey {
    read_path(&file(name), Tables::shipped()).unwrap_or_else(|problems| panic!("{problems}"))
}

#[test]
fn the_short_form_reads() {
    let survey = read("short.toml");
    assert_eq!(survey.layers.len(), 3);
}

#[test]
fn the_full_form_reads() {
    let survey = read("full.toml");
    assert_eq!(survey.layers.len(), 3);
}

#[test]
fn demo() {
    for f in std::fs::read_dir("../../data").unwrap() {
        let f = f.unwrap().path();
        if let Err(p) = read_path(&f, Tables::shipped()) {
            println!("{p}");
        }
    }
    let _ = read_text("a", "", Tables::shipped());
}
