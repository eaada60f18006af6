//! The checks of a roof, worst first, with the place of each and the basis of its limit.

use beam_core::check::{Bracing, CheckDocument, CheckRow};
use beam_core::quantity::{Family, percent, tape};

use super::page::Page;
use super::style;
use super::table::{Set, Table};
use crate::print::words;

/// Below this a check is a record of three lines, not a row.
const ROOM_FOR_ROWS: usize = 90;

/// A check that uses less of its limit than this is counted, not shown; JSON has them all.
const WORTH_A_ROW: f64 = 0.2;

/// Lays out the checks: the stage judged first, in each stage those with the new braces first.
pub(super) fn checks(page: &mut Page, document: &CheckDocument) {
    let mut stages = vec![document.stage.as_str()];
    for row in &document.checks {
        if !stages.contains(&row.stage.as_str()) {
            stages.push(&row.stage);
        }
    }
    let mut explained = false;
    for (stage, bracing) in
        stages.iter().flat_map(|stage| [(*stage, Bracing::With), (*stage, Bracing::Without)])
    {
        let rows: Vec<&CheckRow> =
            document.checks.iter().filter(|row| row.stage == stage && row.bracing == bracing).collect();
        if rows.is_empty() {
            continue;
        }
        page.heading(&format!("Checks, {stage}, {} new braces, worst first", words::bracing(bracing)));
        if !explained {
            page.note(
                "\"Uses\" is the share of its limit that a check takes: 100 % is all of it. Places count from the \
                 left wall (across) and from the front mark (along).",
            );
            explained = true;
        }
        let all = rows.len();
        let rows: Vec<&CheckRow> = rows.into_iter().filter(|row| row.ratio.get() >= WORTH_A_ROW).collect();
        if page.width() >= ROOM_FOR_ROWS {
            as_table(page, &rows, document.read_in.0);
        } else {
            as_records(page, &rows, document.read_in.0);
        }
        if rows.len() < all {
            page.note(&format!("{} more, each under {}.", all - rows.len(), percent(WORTH_A_ROW)));
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
        let what = format!("{verdict}: {}, {}, under {}", row.check, row.part, row.load);
        let place = format!(
            "{} across, {} along",
            tape(row.at.across.get(), family),
            tape(row.at.along.get(), family)
        );
        let basis = format!("{} ({})", row.basis.source, words::basis_kind(&row.basis));
        page.labelled(
            &format!("{:>6}", percent(row.ratio.get())),
            6,
            &[&what, &place, &style::faint(&basis)],
        );
    }
}
