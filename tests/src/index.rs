//! `tests/INDEX.md`: every check value, its source, and where it is tested.

use std::collections::BTreeMap;
use std::fmt::Write;

use crate::case::Kind;
use crate::folder::FILES;
use crate::suite::rows;

/// The page as it should be.
pub fn page() -> String {
    let mut counts: BTreeMap<Kind, usize> = BTreeMap::new();
    let mut body = String::new();
    for (folder, file) in FILES {
        let rows = rows(folder, file);
        let _ = write!(
            body,
            "\n## {}/{file} ({} rows)\n\nRows: `data/{0}/{file}.csv`; test: `{file}` in `tests/{0}/main.rs`.\n\n\
             | id | quantity | expected | within | kind | source |\n|---|---|---|---|---|---|\n",
            folder.name(),
            rows.len(),
        );
        for case in &rows {
            *counts.entry(case.kind).or_default() += 1;
            let unit = if case.unit == "-" { String::new() } else { format!(" {}", case.unit) };
            let _ = writeln!(
                body,
                "| {} | {} | {}{unit} | {} | {} | {} |",
                cell(&case.id),
                cell(&case.quantity),
                case.printed,
                case.within,
                case.kind,
                cell(&case.source)
            );
        }
    }
    let total: usize = counts.values().sum();
    let by_kind: Vec<String> = counts.iter().map(|(kind, n)| format!("{n} {kind}")).collect();
    format!(
        "# What the numbers are held against\n\nWritten by the tests (`BLESS=1`); do not edit. {total} check values: \
         {}. A tolerance `0.5u` is half a unit of the last digit printed; a bare one is relative.\n{body}",
        by_kind.join(", ")
    )
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('<', "&lt;")
}
