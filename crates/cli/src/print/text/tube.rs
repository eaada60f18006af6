//! The answer of `tube`: what it carries in words, then every check with its clause.

use beam_core::ask::{TubeAnswer, TubeBasis};
use beam_core::check::{BasisWords, Finite, Words};
use beam_core::quantity::{Family, INCH, POUND, POUND_FORCE, force, significant, tape};

use super::page::Page;
use super::style;
use super::table::{Set, Table};
use crate::print::words;

/// Lays out the answer of `tube` in so many columns.
pub(crate) fn tube(answer: &TubeAnswer, family: Family, width: usize) -> String {
    let mut page = Page::new(width);
    page.paragraph(&first(answer, family));
    page.gap();
    let label =
        |page: &mut Page, label: &str, words: &str| page.labelled(label, "Held every".len(), &[words]);
    label(&mut page, "Tube", &format!("{} of {}", answer.tube, answer.alloy));
    label(&mut page, "Length", &tape(answer.length.get(), family));
    label(&mut page, "Held every", &tape(answer.held_every.get(), family));
    label(&mut page, "Rules", &answer.rules);
    if let (Some(bent), Some(pressed)) = (answer.class, answer.class_in_compression) {
        label(&mut page, "Class", &format!("{bent} in bending, {pressed} in compression"));
    }
    not_said(&mut page, answer);
    strengths(&mut page, answer, family);
    properties(&mut page, answer, family);
    not_checked(&mut page, answer);
    listed(&mut page, "Assumed", &answer.assumptions);
    listed(&mut page, "Cautions", &answer.cautions);
    page.gap();
    let made = &answer.made_with;
    page.line(&style::faint(&format!("bracewright {}, tables {}", made.version, made.tables)));
    page.finish()
}

fn first(answer: &TubeAnswer, family: Family) -> String {
    let Some(bending) = answer.strength.bending else {
        let why = answer.not_checked.iter().find(|gap| gap.blocks).map_or("", |gap| gap.why.as_str());
        return format!("{} {why}.", style::warning("CANNOT SAY."));
    };
    let mode = answer.basis.iter().find(|b| b.of == "bending" && b.governs);
    let moment = style::strong(&moment(bending.least.get(), family));
    let governed = mode.map_or_else(String::new, |b| format!("; governed by {} ({})", b.check, b.source));
    let words = format!("The tube carries a moment of {moment}{governed}.");
    if answer.cannot_say() { format!("{} {words}", style::warning("CANNOT SAY ALL.")) } else { words }
}

fn not_said(page: &mut Page, answer: &TubeAnswer) {
    let blocking = answer.not_checked.iter().filter(|gap| gap.blocks);
    let mut first = true;
    for gap in blocking {
        if first {
            page.heading("Cannot be said");
            first = false;
        }
        page.item("-", &format!("{}: {}", gap.check, gap.why));
    }
}

fn strengths(page: &mut Page, answer: &TubeAnswer, family: Family) {
    if answer.basis.is_empty() {
        return;
    }
    page.heading(if answer.rules.ends_with("ASD") {
        "Allowable strengths (for loads without factors)"
    } else {
        "Design strengths (for factored loads)"
    });
    let mut table = Table::new(&[
        ("of", Set::Left),
        ("check", Set::Words),
        ("carries", Set::Right),
        ("", Set::Left),
        ("clause", Set::Words),
        ("kind", Set::Words),
    ]);
    for basis in &answer.basis {
        table.row([
            basis.of.clone(),
            basis.check.clone(),
            value(basis, family),
            if basis.governs { "governs" } else { "" }.to_owned(),
            basis.source.clone(),
            kind(basis),
        ]);
    }
    page.table(&table);
}

fn value(basis: &TubeBasis, family: Family) -> String {
    let value = basis.value.get();
    match family {
        _ if basis.si == "N m" => moment(value, family),
        Family::Inch => format!("{} lbf", significant(value / POUND_FORCE, 3)),
        Family::Metric => force(value, family),
    }
}

fn kind(basis: &TubeBasis) -> String {
    let words = BasisWords { source: basis.source.clone(), kind: basis.kind.clone() };
    words::basis_kind(&words).to_owned()
}

fn moment(newton_metres: f64, family: Family) -> String {
    match family {
        Family::Inch => format!("{} lbf in", significant(newton_metres / (POUND_FORCE * INCH), 3)),
        Family::Metric => format!("{} N m", significant(newton_metres, 3)),
    }
}

fn properties(page: &mut Page, answer: &TubeAnswer, family: Family) {
    page.heading("Section, bent upright");
    let p = &answer.properties;
    let (unit, name) = match family {
        Family::Inch => (INCH, "in"),
        Family::Metric => (1e-3, "mm"),
    };
    let mut table = Table::new(&[("property", Set::Left), ("value", Set::Right), ("unit", Set::Left)]);
    let mut row = |what: &str, value: Finite, power: i32| {
        let unit_name = if power == 1 { name.to_owned() } else { format!("{name}{power}") };
        table.row([what.to_owned(), significant(value.get() / unit.powi(power), 4), unit_name]);
    };
    row("area", p.area, 2);
    row("second moment", p.second_moment, 4);
    row("elastic modulus", p.elastic_modulus, 3);
    row("plastic modulus", p.plastic_modulus, 3);
    row("radius of gyration", p.radius_of_gyration, 1);
    row("torsion constant", p.torsion_constant, 4);
    row("shear area", p.shear_area, 2);
    if let Some(mass) = p.mass_per_length {
        let (per, name) = match family {
            Family::Inch => (POUND / (12.0 * INCH), "lb/ft"),
            Family::Metric => (1.0, "kg/m"),
        };
        table.row(["weight".to_owned(), significant(mass.get() / per, 3), name.to_owned()]);
    }
    page.table(&table);
}

fn not_checked(page: &mut Page, answer: &TubeAnswer) {
    page.heading("Not checked");
    for gap in answer.not_checked.iter().filter(|gap| !gap.blocks) {
        page.item("-", &format!("{}: {}", gap.check, gap.why));
    }
}

fn listed(page: &mut Page, heading: &str, words: &[Words]) {
    if words.is_empty() {
        return;
    }
    page.heading(heading);
    for words in words {
        page.item("-", &words.words);
    }
}
