//! The roof as it was read: drawing, measures, make-up, and where every value came from.

use beam_core::check::own_tables;
use beam_core::quantity::{significant, tape};
use beam_core::survey::{Given, Interval, Origin, Survey};
use section_tables::Tables;

use super::drawing::{Thing, drawing, things};
use super::page::Page;
use super::table::{Set, Table};
use super::{layers, style};
use crate::print::{PLAN_CAUTIONS, words};

/// SI values are shown to so many digits: enough to recognise what was typed.
const SI_DIGITS: usize = 6;

/// Lays out the roof as understood, in so many columns.
pub(crate) fn plan(survey: &Survey, tables: &Tables, width: usize) -> String {
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
        "Marks: = new brace, - existing brace, / damage, : slot in the core, ~ joint in a skin, # load, % pad of the unit, + corner \
         of an opening. Not to the hair: the measures below count.",
    );
    places(&mut page, survey, &things);
    layers::layers(&mut page, survey);
    layers::braces(&mut page, survey);
    layers::loads(&mut page, survey);
    typed(&mut page, &survey.givens);
    assumed(&mut page, &survey.givens);
    if let Some(own) = own_tables(tables) {
        page.gap();
        page.note(&own.words);
    }
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

fn typed(page: &mut Page, givens: &[Given]) {
    page.heading("Values as typed");
    let mut table =
        Table::new(&[("key", Set::Words), ("as typed", Set::Words), ("SI", Set::Left), ("line", Set::Right)]);
    for given in givens {
        if let Origin::Line(line) = given.from {
            table.row([given.key.clone(), given.typed.clone(), si(given), line.to_string()]);
        }
    }
    page.table(&table);
}

fn assumed(page: &mut Page, givens: &[Given]) {
    page.heading("Values assumed, because the survey does not say");
    let mut table = Table::new(&[("key", Set::Words), ("SI", Set::Left), ("why", Set::Words)]);
    for given in givens {
        let why = match &given.from {
            Origin::Line(_) => continue,
            Origin::Default { code, words } => format!("{words} {}", style::faint(&format!("[{code}]"))),
            Origin::BuildUp(id) => format!("from the build-up \"{id}\""),
        };
        table.row([given.key.clone(), si(given), why]);
    }
    page.table(&table);
}

/// The value in SI; nothing where it is a word.
fn si(given: &Given) -> String {
    let Some(value) = given.si else { return String::new() };
    let number = significant(value, SI_DIGITS);
    let short =
        if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { &number };
    format!("{short} {}", given.unit).trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::plan;
    use crate::print::example::survey;
    use section_tables::Tables;

    fn plain(width: usize) -> String {
        anstream::adapter::strip_str(&plan(&survey(), Tables::shipped(), width)).to_string()
    }

    #[test]
    fn every_place_has_a_letter_on_the_drawing_and_its_measures_below() {
        let text = plain(100);
        let (drawing, lists) = text.split_once("Marks:").expect("a legend under the drawing");
        for (letter, measures) in [
            ('A', "24 in to 67 in"),
            ('B', "10 in to 18 in"),
            ('C', "37 1/2 in"),
            ('D', "90 in"),
            ('E', "37 1/2 in to 90 in"),
            ('F', "39 in to 53 1/4 in"),
            ('G', "15 in to 19 in"),
            ('H', "67 in"),
        ] {
            let on_roof =
                drawing.lines().filter_map(|line| line.split_once('|')).any(|(_, row)| row.contains(letter));
            assert!(on_roof, "{letter} is not drawn in\n{drawing}");
            let listed = lists.lines().any(|line| line.trim().starts_with(letter) && line.contains(measures));
            assert!(listed, "{letter} with {measures} is not listed in\n{lists}");
        }
    }

    #[test]
    fn a_value_is_shown_as_typed_and_in_si_and_says_where_it_is_from() {
        let text = plain(100);
        let span = text.lines().find(|line| line.contains("roof.span")).unwrap_or_default();
        assert!(span.contains("92 1/2") && span.contains("2.3495 m") && span.ends_with(" 7"), "{span}");
        let person = text.lines().find(|line| line.contains("person.mass")).unwrap_or_default();
        assert!(person.contains("122 kg") && text.contains("Values assumed"), "{person}");
    }

    #[test]
    fn no_line_is_wider_than_the_page() {
        for width in [60, 80, 100] {
            for line in plain(width).lines() {
                assert!(line.chars().count() <= width, "{} of {width} columns: {line}", line.chars().count());
            }
        }
    }
}
