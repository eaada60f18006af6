//! What goes with the numbers, in sentences.

use super::{BraceLoad, Case, Small, TubeSection};
use crate::check::{NotChecked, Words};
use crate::quantity::{POUND, STANDARD_GRAVITY, significant};
use crate::strip::{Arch, ArchEnds, LargeState};
use crate::survey::AluminiumRules;

fn say(code: &str, words: impl Into<String>) -> Words {
    Words { code: code.to_owned(), words: words.into() }
}

/// How the ends sit.
pub(super) fn ends(arch: &Arch) -> &'static str {
    match (arch.ends, arch.hold) {
        (ArchEnds::Roller, _) => "roller",
        (ArchEnds::Pinned, None) => "pinned",
        (ArchEnds::Pinned, Some(_)) => "pinned, on thrust springs",
        (ArchEnds::Fixed, None) => "fixed",
        (ArchEnds::Fixed, Some(_)) => "fixed, on thrust springs",
    }
}

pub(super) fn assumptions(case: &Case<'_>) -> Vec<Words> {
    let question = case.question;
    let mut out = vec![say("no-own-weight", "The tube's own weight is not in it: add it to the even load.")];
    if let Some(BraceLoad::Weight(mass)) = question.load {
        out.push(say(
            "weight-is-mass",
            format!(
                "The load is a mass of {} kg ({} lb): it presses with {} N. No road, no stumble and no other factor is on it.",
                significant(mass.value, 4),
                significant(mass.value / POUND, 4),
                significant(mass.value * STANDARD_GRAVITY, 4)
            ),
        ));
    } else {
        out.push(say(
            "load-as-given",
            "The load is taken as given: no road, no stumble and no other factor is on it.",
        ));
    }
    if question.rules != AluminiumRules::Adm2020Asd {
        out.push(say(
            "loads-factored",
            format!(
                "{} holds factored loads against design strengths: the load is taken to carry the load factors already.",
                question.rules.name()
            ),
        ));
    }
    if question.load.is_some() && question.at.is_none() {
        out.push(say("load-in-the-middle", "The load stands in the middle of the span."));
    }
    match (question.ends, question.thrust_spring) {
        (None, None) => out.push(say(
            "default-ends",
            "The ends are free to spread (roller): side walls of a vehicle give, so the curve carries nothing by thrust.",
        )),
        (None, Some(_)) => {
            out.push(say("default-ends-with-spring", "A thrust spring is given: the ends are taken as pinned."));
        }
        _ => {}
    }
    if question.rise.value == 0.0 {
        out.push(say("flat", "The rise is 0: the brace is a straight beam."));
    }
    out.push(match question.section {
        TubeSection::Named(_) => say(
            "wall-nominal",
            "Sag and forces are those of the nominal wall; for strength 10 % is taken off it (practice, no source). Measure the wall and give it with the outside to lift this.",
        ),
        TubeSection::Measured { .. } => say("wall-measured", "The wall is taken as measured, without a tolerance."),
    });
    out.push(say(
        "held-in-its-plane",
        "The arch stays in its plane. For strength nothing holds the tube sideways between its ends.",
    ));
    out.push(say(
        "bent-free-of-stress",
        "The tube is bent to a circle and free of stress before it is loaded; it is one piece, without welds.",
    ));
    out.push(say(
        "second-order",
        match question.rules {
            AluminiumRules::Adm2020Asd => {
                "Strength goes by forces of the second order: load x 1.6, stiffness x 0.8, result / 1.6 (ADM 2020 C.2, from memory), on a brace that is lopsided by 1/500 of its span (practice, no source)."
            }
            AluminiumRules::Adm2020Lrfd => {
                "Strength goes by forces of the second order: stiffness x 0.8 (ADM 2020 C.2, from memory), on a brace that is lopsided by 1/500 of its span (practice, no source)."
            }
            AluminiumRules::En1999 => {
                "Strength goes by forces of the second order on a brace that is lopsided by 1/250 of half its span, 1/150 in buckling class B (EN 1999-1-1:2007 5.3, Table 5.1, from memory)."
            }
        },
    ));
    out
}

pub(super) fn not_checked(strength: Option<String>) -> Vec<NotChecked> {
    let gap = |check: &str, why: String| NotChecked {
        check: check.to_owned(),
        part: "brace".to_owned(),
        why,
        blocks: false,
    };
    let mut out: Vec<NotChecked> = strength
        .into_iter()
        .map(|why| NotChecked { blocks: true, ..gap("brace", format!("the rules give no number: {why}")) })
        .collect();
    out.extend([
        gap("seat bearing", "the seats are not known here; check judges them".to_owned()),
        gap("wall thrust", "what the walls can hold is not known here".to_owned()),
        gap("fatigue", "the range of stress on the road is not known here".to_owned()),
        gap("glue line", "the brace stands alone here, without a roof".to_owned()),
    ]);
    out
}

pub(super) fn cautions(
    case: &Case<'_>,
    small: &Small,
    snap: Option<f64>,
    large: Option<&LargeState>,
) -> Vec<Words> {
    /// Sag, part of the rise, from which small movements no longer tell the truth.
    const SMALL: f64 = 0.1;
    let mut out = Vec::new();
    if case.arch.ends != ArchEnds::Roller {
        out.push(say(
            "side-walls-spread",
            "Side walls of a vehicle spread: count on this thrust only where a tie or a wall proved by test or calculation holds it. Without it the brace is a bent beam; ask again with ends on a roller and take the worse.",
        ));
    }
    match snap {
        Some(snap) if case.total >= snap => out.push(say(
            "beyond-snap",
            "The load is beyond the snap load: the brace turns inside out or sways before it carries this. Thrust, moments and sag above mean nothing for it.",
        )),
        Some(_) => out.push(say(
            "snap-is-elastic",
            "The snap load is that of a perfect, elastic arch between the ends named. A real one gives way earlier: lopsided, or once the metal yields.",
        )),
        None => {}
    }
    let sag = small.sum(|state| state.crown_sag().value);
    if case.arch.ends != ArchEnds::Roller && sag.abs() > SMALL * case.arch.rise.value {
        out.push(say(
            "sag-not-small",
            "The sag is more than a tenth of the rise: the brace is softer than small movements say. Go by the second-order numbers.",
        ));
    }
    if large.is_none() && snap.is_none_or(|snap| case.total < snap) {
        out.push(say(
            "folds-up",
            "With its change of shape followed, no state was found in which the brace carries this load within a quarter of its span. Thrust, moments and sag above mean nothing for it.",
        ));
    }
    out
}
