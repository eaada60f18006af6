//! The answer of `walk`: words first, then the map in lettered zones.

use beam_core::ask::WalkDocument;
use beam_core::quantity::{Family, percent, tape};
use beam_core::survey::Survey;

use super::page::Page;
use super::style;
use crate::print::words;

/// Zones by what a person uses there, with their letters; a place belongs to the first it does not exceed.
const ZONES: [(f64, char, &str); 5] = [
    (0.5, 'A', "up to half of what the roof may bear"),
    (0.75, 'B', "up to three quarters"),
    (1.0, 'C', "up to all of it"),
    (1.5, 'X', "too much, up to half as much again: keep off"),
    (f64::INFINITY, 'Z', "far too much: keep off"),
];
/// In the edge strip of an opening.
const STRIP: char = '.';
/// Something needed could not be checked.
const UNKNOWN: char = '?';
/// Inside an opening.
const HOLE: char = '#';
/// Columns left of the map for measures from the front mark.
const MARGIN: usize = 12;
/// Fewest and most columns of the map.
const COLUMNS: [usize; 2] = [24, 60];
/// Most rows of the map.
const ROWS: usize = 36;
/// A character is about twice as high as it is wide.
const HEIGHT_OVER_WIDTH: f64 = 2.0;

/// Lays out the answer of `walk` in so many columns.
pub(crate) fn walk(document: &WalkDocument, survey: &Survey, width: usize) -> String {
    let family = document.read_in.0;
    let mut page = Page::new(width);
    for answer in &document.answers {
        let judged = style::judged(answer.verdict, &format!("{}:", words::capital(&answer.stage)));
        page.paragraph(&format!("{judged} {}", answer.words));
    }
    page.gap();
    page.labelled("Roof", 5, &[&document.title]);
    page.labelled("Board", 5, &[&words::capital(&document.board_words)]);
    if let Some(worst) = &document.worst {
        let with = |bracket: usize, name: &str| {
            worst.ratio_by_materials[bracket].map(|r| format!(", {} with {name}", percent(r.get())))
        };
        let others: String = [with(0, "low"), with(2, "high values")].into_iter().flatten().collect();
        let text = format!(
            "{} from the left wall, {} from the front mark: uses {} with default materials{others} ({}, most at {} \
             and {})",
            tape(worst.across.get(), family),
            tape(worst.along.get(), family),
            percent(worst.ratio.get()),
            worst.check,
            tape(worst.at.across.get(), family),
            tape(worst.at.along.get(), family),
        );
        page.labelled("Worst", 5, &[&text]);
    }
    map(&mut page, document, survey, family);
    listed(&mut page, "Cautions", document.cautions.iter().map(|c| c.words.clone()));
    let gaps = document.not_checked.iter().map(|n| {
        let blocks = if n.blocks { " This keeps the answer from \"may stand\"." } else { "" };
        format!("{}, {}: {}.{blocks}", n.check, n.part, n.why)
    });
    listed(&mut page, "Not checked", gaps);
    listed(&mut page, "Assumed", document.assumptions.iter().map(|c| c.words.clone()));
    page.finish()
}

fn listed(page: &mut Page, heading: &str, lines: impl Iterator<Item = String>) {
    let lines: Vec<String> = lines.collect();
    if lines.is_empty() {
        return;
    }
    page.heading(heading);
    lines.iter().for_each(|line| page.item("-", line));
}

/// The map, from the left wall and from the front mark, and its legend.
fn map(page: &mut Page, document: &WalkDocument, survey: &Survey, family: Family) {
    let places = &document.places;
    if places.ratio.is_empty() {
        return;
    }
    let how = match &document.surveyed_board {
        Some(_) => "on the surveyed board",
        None => "without a board",
    };
    page.heading(&format!("Where a person may stand, {}, {how}", document.stage));
    let (span, length) = (survey.roof.span.value, survey.roof.length.value);
    let [fewest, most] = COLUMNS;
    let mut columns = page.width().saturating_sub(MARGIN + 3).clamp(fewest, most);
    let rows_for =
        |columns: usize| (length / span * columns as f64 / HEIGHT_OVER_WIDTH).round().max(4.0) as usize;
    while rows_for(columns) > ROWS && columns > fewest {
        columns -= 1;
    }
    let rows = rows_for(columns).min(2 * ROWS);
    let right = tape(span, family);
    page.line(&format!("{:MARGIN$}  0{right:>1$}", "", columns.saturating_sub(1)));
    let rule = format!("{:MARGIN$} +{}+", "", "-".repeat(columns));
    page.line(&rule);
    let mut met: Vec<char> = Vec::new();
    for row in 0..rows {
        let along = (row as f64 + 0.5) / rows as f64 * length;
        let line: String = (0..columns)
            .map(|column| {
                let across = (column as f64 + 0.5) / columns as f64 * span;
                let mark = mark(document, survey, (across, along));
                if !met.contains(&mark) {
                    met.push(mark);
                }
                mark
            })
            .collect();
        let label =
            if row % 4 == 0 { tape(row as f64 / rows as f64 * length, family) } else { String::new() };
        page.line(&format!("{label:>MARGIN$} |{line}|"));
    }
    page.line(&rule);
    page.gap();
    for (_, letter, meaning) in ZONES.iter().filter(|(_, letter, _)| met.contains(letter)) {
        page.item(&letter.to_string(), meaning);
    }
    let others = [
        (HOLE, "opening"),
        (
            STRIP,
            "no place to stand: at the edge of an opening, of a wall or of what was surveyed, foot and board would reach too near",
        ),
        (UNKNOWN, "could not be checked: keep off"),
    ];
    for (mark, meaning) in others.iter().filter(|(mark, _)| met.contains(mark)) {
        page.item(&mark.to_string(), meaning);
    }
    page.note("Front on top, measures from the left wall and the front mark. Letters tell what the nearest place tried uses.");
}

/// The letter of the place nearest to a point.
fn mark(document: &WalkDocument, survey: &Survey, (across, along): (f64, f64)) -> char {
    let inside = |i: &beam_core::survey::Interval, at: f64| i.from.value < at && at < i.to.value;
    if survey.openings.iter().any(|o| inside(&o.patch.across, across) && inside(&o.patch.along, along)) {
        return HOLE;
    }
    let nearest = |lines: &[beam_core::check::Finite], at: f64| {
        let away = |k: &usize| (lines[*k].get() - at).abs();
        (0..lines.len()).min_by(|a, b| away(a).total_cmp(&away(b)))
    };
    let places = &document.places;
    let outside = |lines: &[beam_core::check::Finite], at: f64| {
        let step = lines.windows(2).map(|p| p[1].get() - p[0].get()).next().unwrap_or(0.0);
        lines.first().is_none_or(|l| at < l.get() - step) || lines.last().is_none_or(|l| at > l.get() + step)
    };
    if outside(&places.across, across) || outside(&places.along, along) {
        return STRIP;
    }
    let (Some(column), Some(row)) = (nearest(&places.across, across), nearest(&places.along, along)) else {
        return STRIP;
    };
    match places.ratio[row][column] {
        Some(ratio) => {
            ZONES.iter().find(|(to, ..)| ratio.get() <= *to).map_or(UNKNOWN, |(_, letter, _)| *letter)
        }
        None if places.unknown[row][column] => UNKNOWN,
        None => STRIP,
    }
}
