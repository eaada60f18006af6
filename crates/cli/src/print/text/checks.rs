//! The checks of a roof, worst first, with the place of each and the basis of its limit.

use beam_core::check::{CheckDocument, CheckRow};
use beam_core::quantity::{Family, percent, tape};

use super::page::Page;
use super::table::{Set, Table};
use super::style;
use crate::print::words;

/// Below this a check is a record of three lines, not a row.
const ROOM_FOR_ROWS: usize = 96;

/// Lays out the checks, the stage judged first.
pub(super) fn checks(page: &mut Page, document: &CheckDocument) {
    let mut stages = vec![document.stage.as_str()];
    for row in &document.checks {
        if !stages.contains(&row.stage.as_str()) {
            stages.push(&row.stage);
        }
    }
    let family = document.read_in.0;
    for stage in stages {
        let rows: Vec<&CheckRow> = document.checks.iter().filter(|row| row.stage == stage).collect();
        if rows.is_empty() {
            continue;
        }
        page.heading(&format!("Checks, {stage}, worst first"));
        page.note(
            "\"Uses\" is the share of its limit that a check takes: 100 % is all of it. Places count from the left \
             wall (across) and from the front mark (along).",
        );
        if page.width() >= ROOM_FOR_ROWS {
            as_table(page, &rows, family);
        } else {
            as_records(page, &rows, family);
        }
    }
}

fn as_table(page: &mut Page, rows: &[&CheckRow], family: Family) {
    let mut table = Table::new(&[
        ("uses", Set::Right),
        ("verdict", Set::Words),
        ("check", Set::Words),
        ("part", Set::Words),
        ("load", Set::Words),
        ("braces", Set::Left),
        ("across", Set::Right),
        ("along", Set::Right),
        ("basis", Set::Left),
    ]);
    let mut bases = Vec::new();
    for row in rows {
        let number = bases.iter().position(|basis| *basis == &row.basis).unwrap_or_else(|| {
            bases.push(&row.basis);
            bases.len() - 1
        });
        table.row([
            percent(row.ratio.get()),
            style::judged(row.verdict, row.verdict.words()),
            row.check.clone(),
            row.part.clone(),
            row.load.clone(),
            words::bracing(row.bracing).to_owned(),
            tape(row.at.across.get(), family),
            tape(row.at.along.get(), family),
            format!("[{}]", number + 1),
        ]);
    }
    page.table(&table);
    page.gap();
    page.note("Basis of the limits:");
    for (i, basis) in bases.iter().enumerate() {
        page.item(&format!("[{}]", i + 1), &format!("{} ({})", basis.source, words::basis_kind(basis)));
    }
}

fn as_records(page: &mut Page, rows: &[&CheckRow], family: Family) {
    for row in rows {
        let verdict = style::judged(row.verdict, row.verdict.words());
        let what = format!(
            "{verdict}: {}, {}, {} braces, under {}",
            row.check,
            row.part,
            words::bracing(row.bracing),
            row.load
        );
        let place = format!(
            "{} across, {} along",
            tape(row.at.across.get(), family),
            tape(row.at.along.get(), family)
        );
        let basis = format!("{} ({})", row.basis.source, words::basis_kind(&row.basis));
        page.labelled(&format!("{:>6}", percent(row.ratio.get())), 6, &[&what, &place, &style::faint(&basis)]);
    }
}
