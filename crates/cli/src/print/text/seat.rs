//! The answer of `seat`: words first, then the measures, then what it rests on.

use beam_core::ask::{SeatDocument, Sits};
use beam_core::quantity::{Family, sag, tape};

use super::answer::{listed, made_with, next_steps, not_checked};
use super::page::Page;
use super::style;

/// Lays out the answer of `seat` in so many columns.
pub(crate) fn seat(document: &SeatDocument, width: usize) -> String {
    let mut page = Page::new(width);
    page.paragraph(&style::judged(document.verdict, &document.answer));
    page.gap();
    page.labelled("Roof", 18, &[&document.title]);
    if let Some(sits) = &document.sits {
        measures(&mut page, sits, document.read_in.0);
    }
    next_steps(&mut page, &document.next_steps);
    not_checked(&mut page, &document.not_checked);
    listed(&mut page, "Assumed, because the survey does not say", &document.assumptions);
    listed(&mut page, "Cautions", &document.cautions);
    made_with(&mut page, &document.made_with);
    page.finish()
}

fn measures(page: &mut Page, sits: &Sits, family: Family) {
    let mut line = |label: &str, words: String| page.labelled(label, 18, &[&words]);
    line("Gasket ring", format!("{} across, outside to outside", tape(sits.width.get(), family)));
    line("Gap at its edges", sag(sits.gap.get(), family));
    if let Some(gap) = sits.gap_at_base {
        line("Gap under the base", sag(gap.get(), family));
    }
    line("Packing, taper", format!("{:.1} degrees at the edge", sits.taper.get().to_degrees()));
    line("Tilt of the unit", format!("{:.1} degrees across", sits.tilt.get().to_degrees()));
    let [middle, edge] = sits.gasket_left;
    line(
        "Gasket left",
        format!(
            "{} in the middle, {} at the edges without packing",
            tape(middle.get(), family),
            tape(edge.get(), family)
        ),
    );
    line("Roof at the bolts", tape(sits.roof.get(), family));
    line("Bolts", format!("at least {} long", tape(sits.bolt_length.get(), family)));
}
