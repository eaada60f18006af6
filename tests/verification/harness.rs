//! The harness holds itself to account.

use std::collections::BTreeSet;
use std::path::Path;

use bracewright_tests::{FILES, index, suite, written_or_blessed};

/// Each row once more with its most sensitive input shifted by the larger of 5 percent and three tolerances.
#[test]
fn every_row_can_fail() {
    let mut exempt = 0;
    for (folder, file) in FILES {
        exempt += suite::shift(folder, file);
    }
    suite::say(&format!("rows that cannot be shifted, each with its reason: {exempt}"));
}

#[test]
fn at_least_a_hundred_values_and_no_id_twice() {
    let mut ids = BTreeSet::new();
    let mut counts = std::collections::BTreeMap::new();
    for (folder, file) in FILES {
        for case in suite::rows(folder, file) {
            assert!(ids.insert(case.id.clone()), "{} is there twice", case.id);
            *counts.entry(case.kind.to_string()).or_insert(0) += 1;
        }
    }
    suite::say(&format!("check values: {} {counts:?}", ids.len()));
    assert!(ids.len() >= 100, "only {} check values", ids.len());
}

#[test]
fn index_is_fresh() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("INDEX.md");
    written_or_blessed(&path, &index::page()).unwrap_or_else(|fault| panic!("{fault}"));
}
