//! The answer of `bend`: what to do first, then the template, then what it rests on.

use beam_core::ask::BendDocument;
use beam_core::check::{Finite, Verdict};
use beam_core::quantity::{radius, sag, significant, stress, tape};

use super::answer::{listed, next_steps, not_checked};
use super::page::Page;
use super::style;
use super::table::{Set, Table};
use crate::print::words;

/// Lays out the answer of `bend` in so many columns.
pub(crate) fn bend(document: &BendDocument, width: usize) -> String {
    let mut page = Page::new(width);
    let (verdict, word) = match document.found() {
        Some(true) => (Verdict::Holds, "CAN BE DONE."),
        Some(false) => (Verdict::DoesNotHold, "CANNOT BE BENT."),
        None => (Verdict::CannotSay, "CANNOT SAY."),
    };
    page.paragraph(&format!("{} {}", style::judged(verdict, word), document.answer));
    page.gap();
    measures(&mut page, document);
    next_steps(&mut page, &document.next_steps);
    stations(&mut page, document);
    fit(&mut page, document);
    limits(&mut page, document);
    not_checked(&mut page, &document.not_checked);
    listed(&mut page, "Assumed", &document.assumptions);
    listed(&mut page, "Cautions", &document.cautions);
    page.gap();
    page.paragraph(&style::faint(&format!(
        "bracewright {}, tables {}; {} ({})",
        document.made_with.version,
        document.made_with.tables,
        document.basis.source,
        words::basis_kind(&document.basis)
    )));
    page.finish()
}

fn measures(page: &mut Page, document: &BendDocument) {
    let family = document.read_in.0;
    let mut line = |label: &str, words: String| page.labelled(label, "Along the curve".len(), &[&words]);
    line("Tube", format!("{}, {}", document.tube, document.alloy));
    line(
        "Crown",
        format!(
            "{} over {}, radius {}",
            tape(document.rise.get(), family),
            tape(document.span.get(), family),
            radius(document.radius.get(), family)
        ),
    );
    line("Along the curve", tape(document.arc_length.get(), family));
    line("Cut", format!("{}, trimmed later", tape(document.cut_length.get(), family)));
    line("Ends", format!("slope {:.1} degrees", document.end_angle.get().to_degrees()));
    if let (Some(loaded), Some([small, large])) = (document.loaded_radius, document.loaded_radius_range) {
        line(
            "Under load",
            format!(
                "radius {} ({} to {}); a bend gentler than {} leaves no set",
                radius(loaded.get(), family),
                radius(small.get(), family),
                radius(large.get(), family),
                radius(document.first_yield_radius.get(), family)
            ),
        );
    }
    let strain = |strain: Finite| format!("{} %", significant(strain.get() * 100.0, 2));
    let under_load = document
        .loaded_fibre_strain
        .map_or_else(String::new, |most| format!(", {} under load", strain(most)));
    line("Outer fibre", format!("strained {} in the end{under_load}", strain(document.fibre_strain)));
    let [least, ..] = document.yield_strength;
    line(
        "If sprung in",
        if document.sprung_stress < least {
            format!("{} in the outer fibre", stress(document.sprung_stress.get(), family))
        } else {
            "it would take a set".to_owned()
        },
    );
}

fn stations(page: &mut Page, document: &BendDocument) {
    let family = document.read_in.0;
    page.heading("Template: heights above a straight line from end to end of the centre line");
    let mut table =
        Table::new(&[("from one end", Set::Right), ("finished", Set::Right), ("under load", Set::Right)]);
    for station in &document.stations {
        table.row([
            tape(station.along_chord.get(), family),
            tape(station.offset.get(), family),
            station.loaded_offset.map_or_else(|| "-".to_owned(), |height| tape(height.get(), family)),
        ]);
    }
    page.table(&table);
}

fn fit(page: &mut Page, document: &BendDocument) {
    let Some(fit) = &document.fit else { return };
    let family = document.read_in.0;
    page.heading("Against the measured roof");
    let shim = if fit.shim_needed { "shims are needed" } else { "no shim is needed" };
    page.note(&format!(
        "The brace gaps at most {}, {} from the end measured first: {shim}.",
        sag(fit.worst_gap.get(), family),
        tape(fit.along_chord.get(), family)
    ));
}

fn limits(page: &mut Page, document: &BendDocument) {
    page.heading("Bend rules");
    let mut table = Table::new(&[
        ("rule", Set::Words),
        ("smallest radius", Set::Right),
        ("kept", Set::Left),
        ("source", Set::Words),
    ]);
    for limit in &document.limits {
        table.row([
            limit.rule.clone(),
            radius(limit.least_radius.get(), document.read_in.0),
            if limit.kept { "yes" } else { "no" }.to_owned(),
            format!("{} ({})", limit.basis.source, words::basis_kind(&limit.basis)),
        ]);
    }
    page.table(&table);
}
