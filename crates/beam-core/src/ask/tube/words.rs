//! What goes with the numbers, in sentences.

use super::found::Found;
use super::{Case, TubeQuestion, TubeSection};
use crate::check::Words;
use crate::survey::{AluminiumRules, ListedAlloy};
use section_tables::{NotFound, Tables};

/// The alloy of a name; in words why it has no strength by any book, where it names an alloy and no temper that is held.
///
/// # Errors
/// A name that is none of an alloy.
pub(super) fn read_alloy(name: &str, tables: &Tables) -> Result<Result<ListedAlloy, String>, NotFound> {
    match ListedAlloy::find(name, tables) {
        Ok(alloy) => Ok(Ok(alloy)),
        Err(missing) => ListedAlloy::no_temper(name, tables).map(Err).ok_or(missing),
    }
}

fn say(code: &str, words: impl Into<String>) -> Words {
    Words { code: code.to_owned(), words: words.into() }
}

/// How to use design resistances, and whose partial factors are in them.
fn factored([m1, m2]: [f64; 2]) -> String {
    format!(
        "Design resistances: hold them against factored loads (EN 1990). gamma_M1 {m1:.2}, gamma_M2 {m2:.2}; the \
         recommended values are 1.10 and 1.25, a national annex may set others."
    )
}

pub(super) fn assumptions(
    case: &Case,
    question: &TubeQuestion,
    corner: f64,
    factors: [f64; 2],
) -> Vec<Words> {
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
        AluminiumRules::En1999 => say("loads-factored", factored(factors)),
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
