//! The roof as it was read: drawing, measures, make-up, and where every value came from.

use beam_core::quantity::{significant, tape};
use beam_core::survey::{Given, Interval, Origin, Survey};

use super::drawing::{Thing, drawing, things};
use super::page::Page;
use super::table::{Set, Table};
use super::{layers, style};
use crate::print::{PLAN_CAUTIONS, words};

/// SI values are shown to so many digits: enough to recognise what was typed.
const SI_DIGITS: usize = 6;

/// Lays out the roof as understood, in so many columns.
pub(crate) fn plan(survey: &Survey, width: usize) -> String {
    let family = survey.family;
    let mut page = Page::new(width);
    page.paragraph(&style::strong(&survey.title));
    page.paragraph(&format!(
        "{}; span {}, rise {}, length {}; front {}, rear {}. Nothing is calculated on this page.",
        words::capital(words::roof_kind(survey.roof.kind)),
        tape(survey.roof.span.value, family),
        tape(survey.roof.rise.value, family),
        tape(survey.roof.length.value, family),
        words::end(survey.roof.front),
        words::end(survey.roof.rear),
    ));
    let things = things(survey);
    page.heading("Plan, front on top, left wall on the left");
    for line in drawing(survey, &things, width) {
        page.line(&line);
    }
    page.gap();
    page.note(
        "Marks: = new brace, - existing brace, / damage, : slot in the core, # load, % pad of the unit, + corner \
         of an opening. Not to the hair: the measures below count.",
    );
    places(&mut page, survey, &things);
    layers::layers(&mut page, survey);
    layers::braces(&mut page, survey);
    layers::loads(&mut page, survey);
    values(&mut page, &survey.givens);
    page.heading("Cautions");
    for (_, caution) in PLAN_CAUTIONS {
        page.item("-", caution);
    }
    page.finish()
}

fn places(page: &mut Page, survey: &Survey, things: &[Thing]) {
    if things.is_empty() {
        return;
    }
    page.heading("Places, across from the left wall, along from the front mark");
    let mut table =
        Table::new(&[("", Set::Left), ("what", Set::Words), ("across", Set::Words), ("along", Set::Words)]);
    let measure = |interval: Interval| {
        let (from, to) = (tape(interval.from.value, survey.family), tape(interval.to.value, survey.family));
        if from == to { from } else { format!("{from} to {to}") }
    };
    for thing in things {
        table.row([
            thing.letter.to_string(),
            thing.what.clone(),
            measure(thing.patch.across),
            measure(thing.patch.along),
        ]);
    }
    page.table(&table);
}

fn values(page: &mut Page, givens: &[Given]) {
    if givens.is_empty() {
        return;
    }
    page.heading("Every value, and where it came from");
    let mut table =
        Table::new(&[("key", Set::Words), ("as typed", Set::Words), ("SI", Set::Words), ("from", Set::Words)]);
    for given in givens {
        table.row([
            given.key.clone(),
            if given.typed.is_empty() { "-".to_owned() } else { given.typed.clone() },
            given.si.map_or_else(String::new, |value| si(value, given.unit)),
            origin(&given.from),
        ]);
    }
    page.table(&table);
}

fn si(value: f64, unit: &str) -> String {
    let number = significant(value, SI_DIGITS);
    let short = if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { &number };
    format!("{short} {unit}").trim_end().to_owned()
}

fn origin(origin: &Origin) -> String {
    match origin {
        Origin::Line(line) => format!("line {line}"),
        Origin::Default { code, words } => format!("ASSUMED: {words} [{code}]"),
        Origin::BuildUp(id) => format!("ASSUMED from the build-up {id}"),
    }
}
