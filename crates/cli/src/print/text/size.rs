//! The answer of `size`: words first, then those tried, what to cut, and what it rests on.

use beam_core::ask::{AloneDocument, CandidateRow, CutRow, SizeDocument, Trimmers};
use beam_core::check::Verdict;
use beam_core::quantity::{Family, percent, sag, significant, tape, weight};

use super::answer::{listed, made_with, next_steps, not_checked};
use super::page::Page;
use super::style;
use super::table::{Set, Table};
use crate::print::words;

/// Lays out the answer of `size` in so many columns.
pub(crate) fn size(document: &SizeDocument, width: usize) -> String {
    let mut page = Page::new(width);
    let family = document.read_in.0;
    page.paragraph(&style::judged(document.verdict, &document.answer));
    page.gap();
    head(&mut page, document, family);
    next_steps(&mut page, &document.next_steps);
    cut_list(&mut page, document, family);
    candidates(&mut page, document, family);
    not_checked(&mut page, &document.not_checked);
    listed(&mut page, "Assumed, because the survey does not say", &document.assumptions);
    listed(&mut page, "Cautions", &document.cautions);
    made_with(&mut page, &document.made_with);
    page.finish()
}

/// Lays out the answer of `size` without a survey in so many columns.
pub(crate) fn size_alone(document: &AloneDocument, width: usize) -> String {
    let mut page = Page::new(width);
    let family = document.read_in.0;
    let verdict = document.chosen.as_ref().map_or(Verdict::DoesNotHold, |row| row.verdict);
    page.paragraph(&style::judged(verdict, &document.answer));
    page.gap();
    let crown = format!("{} over {}", tape(document.rise.get(), family), tape(document.span.get(), family));
    page.labelled("Crown", 8, &[&crown]);
    let searched = &document.searched;
    let told = format!(
        "{} tubes up to {} deep in {}",
        searched.tubes.len(),
        tape(searched.max_depth.get(), family),
        searched.alloys.join(" and ")
    );
    page.labelled("Searched", 8, &[&told]);
    page.heading(&format!("Tried, {} first", document.searched.first_by.word()));
    let mut table = Table::new(&[
        ("weight", Set::Right),
        ("tube", Set::Words),
        ("alloy", Set::Words),
        ("sag", Set::Right),
        ("uses", Set::Right),
        ("why not", Set::Words),
    ]);
    for row in &document.candidates {
        table.row([
            row.measured(family, searched.currency.as_deref()),
            row.tube.clone(),
            row.alloy.clone(),
            row.sag.map_or_else(|| "-".to_owned(), |s| sag(s.get(), family)),
            row.ratio.map_or_else(|| "-".to_owned(), |r| percent(r.get())),
            row.why_not.clone().unwrap_or_else(|| "enough alone".to_owned()),
        ]);
    }
    page.table(&table);
    if let Some(basis) = &document.basis {
        page.gap();
        page.note(&format!("Limits: {} ({})", basis.source, words::basis_kind(basis)));
    }
    not_checked(&mut page, &document.not_checked);
    listed(&mut page, "Assumed", &document.assumptions);
    listed(&mut page, "Cautions", &document.cautions);
    page.finish()
}

fn head(page: &mut Page, document: &SizeDocument, family: Family) {
    let mut line = |label: &str, words: &str| page.labelled(label, 14, &[words]);
    line("Roof", &document.title);
    if let (Some(check), Some(ratio)) = (&document.without.check, document.without.ratio) {
        let told = format!(
            "{}; tightest is {check}, which uses {}",
            words::capital(document.without.verdict.words()),
            percent(ratio.get())
        );
        line("Without braces", &told);
    }
    let searched = &document.searched;
    if searched.candidates > 0 {
        let counts: Vec<String> = searched.counts.iter().map(ToString::to_string).collect();
        let trimmers = match searched.trimmers {
            Trimmers::Both => ", without trimmers and with them",
            Trimmers::With => ", with trimmers",
            Trimmers::Without => "",
        };
        let told = format!(
            "{} tubes up to {} deep in {}, {} at a time{trimmers}: {} ways to brace, {} tried, {} of them judged in full",
            searched.tubes.len(),
            tape(searched.max_depth.get(), family),
            searched.alloys.join(" and "),
            counts.join(", "),
            searched.candidates,
            searched.tried,
            searched.in_full
        );
        line("Searched", &told);
    }
}

fn cut_list(page: &mut Page, document: &SizeDocument, family: Family) {
    let Some(first) = document.cut_list.first() else { return };
    page.heading("Cut list");
    let mut table = Table::new(&[
        ("mark", Set::Left),
        ("tube", Set::Words),
        ("alloy", Set::Words),
        ("centre line", Set::Right),
        ("cut", Set::Right),
        ("finished", Set::Right),
        ("weight", Set::Right),
    ]);
    for row in &document.cut_list {
        table.row([
            row.mark.clone(),
            row.tube.clone(),
            row.alloy.clone(),
            match row.across {
                Some(across) => format!("{} across", tape(across.get(), family)),
                None => format!("{} along", tape(row.along.get(), family)),
            },
            tape(row.cut_length.get(), family),
            tape(row.finished_length.get(), family),
            weight(row.mass.get(), family),
        ]);
    }
    page.table(&table);
    page.gap();
    let mut line = |label: &str, words: String| page.labelled(label, 12, &[&words]);
    line(
        "Ends",
        format!(
            "cut at {:.1} degrees from square, {} off each end after bending",
            first.end_angle.get().to_degrees(),
            tape(first.trim.get(), family)
        ),
    );
    let holes = match (first.holes_each_end, first.hole) {
        (0, _) | (_, None) => "none: the seat names no screws".to_owned(),
        (n, Some(size)) => {
            let edge = first
                .hole_from_end
                .map_or_else(String::new, |e| format!(", {} from the end", tape(e.get(), family)));
            format!("{n} at each end for screws of {}{edge}", tape(size.get(), family))
        }
    };
    line("Holes", holes);
    if let (Some(depth), Some(width)) = (first.channel_depth, first.channel_width) {
        let left = first
            .foam_left
            .map_or_else(String::new, |l| format!("; {} of foam stays beside it", tape(l.get(), family)));
        line(
            "Foam channel",
            format!("{} deep, {} wide{left}", tape(depth.get(), family), tape(width.get(), family)),
        );
    }
    if first.glue_area.get() > 0.0 {
        let (area, volume) = document
            .cut_list
            .iter()
            .fold((0.0, 0.0), |(a, v), row| (a + row.glue_area.get(), v + row.glue_volume.get()));
        line(
            "Glue",
            format!(
                "{} cm2 of bed in all, {} ml in the bed itself: buy more, for what is squeezed out",
                significant(area * 1e4, 2),
                significant(volume * 1e6, 2)
            ),
        );
    }
    let trimmers: Vec<&CutRow> = document.cut_list.iter().filter(|row| row.across.is_some()).collect();
    if let Some(trimmer) = trimmers.first() {
        let marks: Vec<&str> = trimmers.iter().map(|row| row.mark.as_str()).collect();
        line(
            "Trimmers",
            format!(
                "{}: straight, cut square, from face to face of {}, in channels of the same size; no holes and no glue, for the joints at their ends are not described",
                marks.join(" and "),
                trimmer.between.join(" and ")
            ),
        );
    }
    if !first.stations.is_empty() {
        let marks: Vec<String> = first
            .stations
            .iter()
            .map(|s| format!("{} at {}", sag(s.offset.get(), family), tape(s.along_chord.get(), family)))
            .collect();
        line(
            "Heights",
            format!("{}, above a string from end to end; `bend` says how to get there", marks.join(", ")),
        );
    }
}

fn candidates(page: &mut Page, document: &SizeDocument, family: Family) {
    if document.candidates.is_empty() {
        return;
    }
    let rows = document.nearest();
    page.heading(&format!(
        "Nearest of those tried, each at its best place, {} first",
        document.searched.first_by.word()
    ));
    let weights: Vec<String> =
        rows.iter().map(|row| row.measured(family, document.searched.currency.as_deref())).collect();
    let width = weights.iter().map(|w| w.chars().count()).max().unwrap_or(0);
    for (row, weight) in rows.iter().zip(&weights) {
        let is_chosen = document.chosen.as_ref().is_some_and(|chosen| chosen == *row);
        let places = words::and(&row.along.iter().map(|y| tape(y.get(), family)).collect::<Vec<_>>());
        let numbers = [
            row.ratio.map(|r| format!("uses {}", percent(r.get()))),
            row.sag.map(|s| format!("sags {} after years", sag(s.get(), family))),
        ];
        let numbers: Vec<String> = numbers.into_iter().flatten().collect();
        let verdict = if is_chosen { "the one chosen" } else { judged(row) };
        let head = format!(
            "{} at {places}: {}",
            braces(row),
            [&[verdict.to_owned()][..], &numbers].concat().join(", ")
        );
        let why = row.why_not.clone().unwrap_or_else(|| "nothing that was checked fails".to_owned());
        page.labelled(weight, width, &[&head, &why]);
    }
}

fn braces(row: &CandidateRow) -> String {
    let trimmers = match row.trimmers.len() {
        0 => "",
        1 => ", and a trimmer,",
        _ => ", and trimmers,",
    };
    format!("{} of {}, {}{trimmers}", row.count, row.tube, row.alloy)
}

fn judged(row: &CandidateRow) -> &'static str {
    match (row.in_full, row.put_aside) {
        (true, _) => row.verdict.words(),
        (false, true) => "put aside",
        (false, false) => "roughly",
    }
}
