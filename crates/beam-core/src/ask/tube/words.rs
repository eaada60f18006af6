//! What goes with the numbers, in sentences.

use super::found::Found;
use super::{Case, TubeQuestion, TubeSection};
use crate::check::Words;
use crate::survey::AluminiumRules;
use section_tables::{NotFound, Tables};

/// Why a book gives no value for an alloy that is one; the error back where it is none.
pub(super) fn no_value(tables: &Tables, clause: &str, error: NotFound) -> Result<String, NotFound> {
    let wanted = &error.wanted;
    if let Ok(alloy) = tables.alloy(wanted) {
        return Ok(format!("{clause}: no value is held for {}; the ADM 2020 lists it", alloy.id));
    }
    if let Ok(alloy) = tables.en_alloy(wanted) {
        return Ok(format!("{clause}: no value is held for {}; EN 1999-1-1 lists it", alloy.id));
    }
    let known: Vec<&str> = tables
        .alloys
        .iter()
        .map(|a| a.id.as_str())
        .chain(tables.en_alloys.iter().map(|a| a.id.as_str()))
        .filter(|id| number(id).is_some() && number(id) == number(wanted))
        .collect();
    if known.is_empty() {
        return Err(error);
    }
    Ok(format!(
        "{clause}: strengths are listed by alloy and temper, and \"{wanted}\" names no temper that is held; held: {}. Where the temper cannot be found out, ask for \"alloy not known\"",
        known.join(", ")
    ))
}

/// The four digits of an alloy.
fn number(name: &str) -> Option<&str> {
    let digits = |at: usize| name.get(at..at + 4).filter(|part| part.bytes().all(|b| b.is_ascii_digit()));
    (0..name.len()).find_map(digits)
}

fn say(code: &str, words: impl Into<String>) -> Words {
    Words { code: code.to_owned(), words: words.into() }
}

pub(super) fn assumptions(case: &Case, question: &TubeQuestion, corner: f64) -> Vec<Words> {
    let mut out = vec![
        say(
            "wall-nominal",
            "The wall is taken as given. Tube may be 10 % thinner within its tolerance: nothing is taken off for that here (check takes it off).",
        ),
        say(
            "straight",
            "The tube is straight, whole and without holes; its ends are held in place, not clamped.",
        ),
        say("uniform-moment", "The moment is the same along the unbraced length, the worst case."),
    ];
    if corner == 0.0 {
        let from_tables = matches!(question.section, TubeSection::Named(_));
        let whose = if from_tables { "The table's tube has" } else { "No corner radius is given:" };
        out.push(say(
            "sharp-corners",
            format!("{whose} sharp corners; rounded ones are worth a few percent less."),
        ));
    }
    if question.held_every.is_some() {
        out.push(say(
            "held-sideways",
            "It is held sideways at the distance given; upright it may buckle over its whole length.",
        ));
    }
    out.push(match question.rules {
        AluminiumRules::Adm2020Asd => say(
            "loads-unfactored",
            "Allowable strengths: hold them against loads without factors. Safety 1.65, rupture 1.95, building-type structures.",
        ),
        AluminiumRules::Adm2020Lrfd => say(
            "loads-factored",
            "Design strengths: hold them against factored loads. Resistance 0.90, rupture 0.75.",
        ),
        AluminiumRules::En1999 => say(
            "loads-factored",
            "Design resistances: hold them against factored loads (EN 1990). gamma_M1 1.10, gamma_M2 1.25; a national annex may set others.",
        ),
    });
    if question.rules == AluminiumRules::En1999 && case.tube.depth <= case.tube.width {
        out.push(say(
            "no-sideways-buckling",
            "A tube no deeper than wide does not buckle sideways: no such check is made (6.3.2).",
        ));
    }
    out
}

pub(super) fn cautions(case: &Case, question: &TubeQuestion, found: &Found) -> Vec<Words> {
    let mut out = Vec::new();
    if found.alloy == "alloy not known" {
        out.push(say(
            "alloy-not-known",
            "The weakest of the listed alloys is taken. Tube that is not structural can be weaker: look for its mark.",
        ));
    }
    if case.weld_at.is_some() {
        out.push(say(
            "weld",
            "Metal beside a weld has lost much of its strength; a brace is best not welded in its length.",
        ));
    }
    if found.rests_on_memory() {
        out.push(say(
            "from-memory",
            "Some numbers rest on a rule or strength that is held from memory (see kind): have them read again before they are relied on alone.",
        ));
    }
    if question.rules != AluminiumRules::En1999 && found.any() && case.tube.depth <= case.tube.width {
        out.push(say(
            "sideways-by-the-rule",
            "This tube cannot buckle sideways in truth; F.4 takes its share off all the same, as the manual's own examples do.",
        ));
    }
    out
}
