//! The words that several pages share.

use beam_core::check::{BasisWords, Bracing, Verdict};
use beam_core::survey::{Bonded, DamageState, End, Grain, JointKind, LoadKind, RoofKind};

/// What a technician does on hearing the verdict.
pub(crate) fn verdict_sentence(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Holds => "The roof holds as surveyed. Use it within the scope below, not beyond it.",
        Verdict::BraceNeeded => {
            "The roof needs a brace. Keep it propped and keep people off until one is in and checked."
        }
        Verdict::BraceTooWeak => {
            "As braced, the roof does not hold. Keep it propped and keep people off until the steps below are \
             done and it has been checked again."
        }
        Verdict::DoesNotHold => {
            "The roof does not hold, and a brace alone does not cure it. Keep people and loads off until what \
             fails is mended."
        }
        Verdict::CannotSay => {
            "It cannot be said whether the roof holds: something that must be known is not. Treat it as \
             fragile until the first step below has been done."
        }
        Verdict::OnlyOnABoard => "The roof holds a person only where a board spreads the foot.",
    }
}

/// "with braces" or "without".
pub(crate) fn bracing(bracing: Bracing) -> &'static str {
    match bracing {
        Bracing::With => "with",
        Bracing::Without => "without",
    }
}

/// How far a limit can be traced, for people.
pub(crate) fn basis_kind(basis: &BasisWords) -> &str {
    match basis.kind.as_str() {
        "memory" => "from memory",
        "practice" => "common practice, no source",
        "own" => "the shop's own",
        other => other,
    }
}

/// A capital at the start.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// "one", "one and two", "one, two and three".
pub(crate) fn and(list: &[String]) -> String {
    match list.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((last, _)) => last.clone(),
        None => String::new(),
    }
}

/// How the roof ends at front or rear.
pub(crate) fn end(end: End) -> &'static str {
    match end {
        End::RunsOn => "runs on",
        End::CrossWall => "cross wall",
    }
}

/// The character an end is drawn with.
pub(crate) fn end_mark(end: End) -> char {
    match end {
        End::RunsOn => '.',
        End::CrossWall => '=',
    }
}

/// What is left of a damaged layer.
pub(crate) fn damage_state(state: &DamageState) -> String {
    match state {
        DamageState::Table(state) => state.id.clone(),
        DamageState::Remaining { stiffness, strength } => {
            format!("stiffness x {stiffness}, strength x {strength} left")
        }
    }
}

/// Family of construction.
pub(crate) fn roof_kind(kind: RoofKind) -> &'static str {
    match kind {
        RoofKind::Laminated => "laminated",
        RoofKind::LaminatedWithFraming => "laminated with framing",
        RoofKind::RaftersAndDeck => "rafters and deck",
        RoofKind::RivetedShell => "riveted shell",
        RoofKind::MouldedShell => "moulded shell",
        RoofKind::NotKnown => "not known",
    }
}

/// Kind of a load.
pub(crate) fn load_kind(kind: LoadKind) -> &'static str {
    match kind {
        LoadKind::Fixed => "stays on",
        LoadKind::Person => "a person",
        LoadKind::Snow => "snow",
        LoadKind::Test => "test weight",
    }
}

/// Direction of a face grain.
pub(crate) fn grain(grain: Grain) -> &'static str {
    match grain {
        Grain::Across => "across",
        Grain::Along => "along",
    }
}

/// Bond of a layer to the next.
pub(crate) fn bonded(bonded: Bonded) -> &'static str {
    match bonded {
        Bonded::Yes => "yes",
        Bonded::No => "no",
        Bonded::NotKnown => "not known",
    }
}

/// Kind of a joint in a skin.
pub(crate) fn joint_kind(kind: JointKind) -> &'static str {
    match kind {
        JointKind::Butt => "butt",
        JointKind::Backed => "backed",
        JointKind::Scarfed => "scarfed",
    }
}
