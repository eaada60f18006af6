//! The answer of `brace`: what it does in words, then the numbers, then what they rest on.

use beam_core::ask::{BraceAnswer, BraceStrength};
use beam_core::check::{Verdict, Words};
use beam_core::quantity::{Family, INCH, POUND_FORCE, force, percent, sag, significant, stress, tape};

use super::page::Page;
use super::style;
use super::table::{Set, Table};
use crate::print::words;

/// Lays out the answer of `brace` in so many columns.
pub(crate) fn brace(answer: &BraceAnswer, family: Family, width: usize) -> String {
    let mut page = Page::new(width);
    page.paragraph(&first(answer, family));
    page.paragraph(&strength(answer));
    page.paragraph(&snap(answer, family));
    page.gap();
    let label = |page: &mut Page, label: &str, words: &str| page.labelled(label, "Strength".len(), &[words]);
    label(&mut page, "Brace", &format!("{} of {}", answer.tube, answer.alloy));
    let shape = format!("span {}, rise {}", tape(answer.span.get(), family), tape(answer.rise.get(), family));
    label(&mut page, "Shape", &shape);
    label(&mut page, "Ends", &answer.ends);
    label(&mut page, "Load", &format!("{} in all", force(answer.total_load.get(), family)));
    if let Some(strength) = &answer.strength {
        label(&mut page, "Strength", &limits(strength, family));
    }
    numbers(&mut page, answer, family);
    page.heading("Not checked");
    for gap in &answer.not_checked {
        page.item("-", &format!("{}: {}", gap.check, gap.why));
    }
    listed(&mut page, "Assumed", &answer.assumptions);
    listed(&mut page, "Cautions", &answer.cautions);
    page.gap();
    let made = &answer.made_with;
    page.paragraph(&style::faint(&format!(
        "bracewright {}, tables {}; {}",
        made.version, made.tables, answer.model
    )));
    page.finish()
}

fn first(answer: &BraceAnswer, family: Family) -> String {
    if let Some(snap) = answer.snap_load.filter(|snap| answer.total_load >= *snap) {
        return format!(
            "{} {} is beyond the {} under which even a perfect arch {}. The numbers of small movements below mean \
             nothing for it.",
            style::strong("The brace does not carry this load."),
            force(answer.total_load.get(), family),
            force(snap.get(), family),
            answer.snap_kind.as_deref().unwrap_or("gives way")
        );
    }
    let down = style::strong(&sag(answer.crown_sag.get(), family));
    let bent = style::strong(&moment(answer.max_moment.get(), family));
    let place = tape(answer.max_moment_at.get(), family);
    let walls = if answer.thrust.get() == 0.0 {
        "it does not push the walls: the curve does nothing, the brace is a bent beam".to_owned()
    } else {
        let push = style::strong(&force(answer.thrust.get(), family));
        format!("it pushes each wall outward with {push}, which the walls must hold")
    };
    format!(
        "The brace sags {down} at its crown; its largest moment is {bent}, {place} from the left end; {walls}."
    )
}

fn strength(answer: &BraceAnswer) -> String {
    let Some(strength) = &answer.strength else {
        let why = answer.not_checked.iter().find(|gap| gap.blocks).map_or("", |gap| gap.why.as_str());
        return format!("Strength: {}; {why}.", style::judged(Verdict::CannotSay, "cannot say"));
    };
    let verdict = style::judged(strength.verdict, strength.verdict.words());
    match strength.ratio {
        Some(ratio) => format!(
            "Strength: {verdict}, uses {} of what {} allows in {}.",
            percent(ratio.get()),
            answer.made_with.rules.join(", "),
            strength.check
        ),
        None => format!(
            "Strength: {verdict}: it snaps, sways or folds up before it carries this load with the margin of \
             {}. Take a larger tube, or carry the load elsewhere.",
            answer.made_with.rules.join(", ")
        ),
    }
}

fn snap(answer: &BraceAnswer, family: Family) -> String {
    let Some(load) = answer.snap_load else {
        return "Snap: with these ends it neither snaps nor sways; it only sags.".to_owned();
    };
    let load = load.get();
    let how = answer.snap_kind.as_deref().unwrap_or("gives way");
    let real = answer.snap_load_lopsided.map_or_else(String::new, |lopsided| {
        format!("; lopsided by 1/500 of its span, at {}", force(lopsided.get(), family))
    });
    let share = percent(answer.total_load.get() / load);
    format!("Snap: a perfect arch {how} at {} in all{real}. The load is {share} of it.", force(load, family))
}

fn limits(strength: &BraceStrength, family: Family) -> String {
    format!(
        "may carry {} in bending, {} in compression, {} in shear ({}; {})",
        moment(strength.bending.get(), family),
        force(strength.compression.get(), family),
        force(strength.shear.get(), family),
        strength.basis.source,
        words::basis_kind(&strength.basis)
    )
}

fn numbers(page: &mut Page, answer: &BraceAnswer, family: Family) {
    page.heading("Numbers");
    let second = answer.second_order;
    let mut table = Table::new(&[
        ("", Set::Left),
        ("small movements", Set::Right),
        ("with its change of shape", Set::Right),
    ]);
    let mut row = |what: &str, small: String, large: Option<String>| {
        table.row([what.to_owned(), small, large.unwrap_or_else(|| "-".to_owned())]);
    };
    let (f, m) = (|v: f64| force(v, family), |v: f64| moment(v, family));
    row("push on each wall", f(answer.thrust.get()), second.map(|s| f(s.thrust.get())));
    row("moment at the crown", m(answer.crown_moment.get()), second.map(|s| m(s.crown_moment.get())));
    row("moment at an end", m(answer.end_moment.get()), None);
    row("largest moment", m(answer.max_moment.get()), second.map(|s| m(s.max_moment.get())));
    row(
        "sag of the crown",
        sag(answer.crown_sag.get(), family),
        second.map(|s| sag(s.crown_sag.get(), family)),
    );
    row(
        "largest stress",
        stress(answer.max_stress.get(), family),
        second.map(|s| stress(s.max_stress.get(), family)),
    );
    page.table(&table);
    page.note("Moments that open the tube below are positive.");
}

fn moment(newton_metres: f64, family: Family) -> String {
    match family {
        Family::Inch => format!("{} lbf in", significant(newton_metres / (POUND_FORCE * INCH), 3)),
        Family::Metric => format!("{} N m", significant(newton_metres, 3)),
    }
}

fn listed(page: &mut Page, heading: &str, words: &[Words]) {
    if words.is_empty() {
        return;
    }
    page.heading(heading);
    for words in words {
        page.item("-", &format!("{} {}", words.words, style::faint(&format!("[{}]", words.code))));
    }
}
