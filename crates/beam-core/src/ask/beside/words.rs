//! What stands beside the answer, in words.

use super::lost::{Gone, Loss};
use super::settle::{Measurement, Settles};
use super::tolerance::{CORE, HIDDEN, Measure, SKIN, SPAN, Tolerance};
use crate::ask::answers::place;
use crate::ask::document::Summary;
use crate::check::{Finite, NotFinite, QuestionAnswer, Verdict, Words};
use crate::model::is_foam;
use crate::quantity::{Family, percent, tape};

fn words(code: &str, text: impl Into<String>) -> Words {
    Words { code: code.to_owned(), words: text.into() }
}

impl Gone {
    fn question(self) -> &'static str {
        match self {
            Gone::Glue => "one glue line lost",
            Gone::Seat => "one seat lost",
        }
    }

    fn told(self, brace: &str) -> String {
        match self {
            Gone::Glue => format!("with the glue of brace {brace} gone"),
            Gone::Seat => format!("with a seat of brace {brace} gone, the brace counted out"),
        }
    }
}

/// "one glue line lost" and "one seat lost", where there is one to lose.
///
/// # Errors
/// A number that is not finite.
pub(in crate::ask) fn answers(s: &Summary<'_>) -> Result<Vec<QuestionAnswer>, NotFinite> {
    [Gone::Glue, Gone::Seat].into_iter().filter_map(|gone| answer(s, gone).transpose()).collect()
}

fn answer(s: &Summary<'_>, gone: Gone) -> Result<Option<QuestionAnswer>, NotFinite> {
    let losses = || s.study.beside.lost.iter().filter(|l| l.gone == gone);
    let ratio = |l: &Loss| l.worst.as_ref().map_or(0.0, |f| f.ratio);
    // What falls comes before what cannot be said, and that before what stands.
    let rank = |l: &Loss| match l.stands() {
        Some(false) => 2,
        None => 1,
        Some(true) => 0,
    };
    let Some(worst) = losses().max_by(|a, b| rank(a).cmp(&rank(b)).then(ratio(a).total_cmp(&ratio(b))))
    else {
        return Ok(None);
    };
    let when = gone.told(&worst.brace);
    let unloaded = "own weight, unit and one person, standing still, no road, default materials";
    let (verdict, text) = match (&worst.worst, worst.stands()) {
        (Ok(f), stands) => {
            let what = format!(
                "{} in {} ({}), {}, {when} ({unloaded})",
                percent(f.ratio),
                f.check.name(),
                f.part,
                place(s, f)
            );
            match stands {
                Some(true) => (Verdict::Holds, format!("holds, uses {what}")),
                Some(false) => (Verdict::DoesNotHold, format!("does not hold: uses {what}")),
                None => (Verdict::CannotSay, format!("cannot say: uses {what}, against an estimated limit")),
            }
        }
        (Err(why), _) => (Verdict::CannotSay, format!("cannot say {when}: {why}")),
    };
    let found = worst.worst.as_ref().ok();
    Ok(Some(QuestionAnswer {
        question: gone.question().to_owned(),
        verdict,
        check: found.map(|f| f.check.name().to_owned()),
        ratio: found.map(|f| Finite::new(f.ratio, "ratio with one loss")).transpose()?,
        words: text,
    }))
}

/// A measure, and what was tried with it.
fn tried(measure: Measure, family: Family) -> String {
    match measure {
        Measure::Span => format!("the span {} longer", fine(SPAN, family)),
        Measure::Core => format!("the core {} thinner", fine(CORE, family)),
        Measure::Skins => format!("every skin {} thinner", fine(SKIN, family)),
        Measure::Hidden => format!("damage reaching {} beyond each patch", tape(HIDDEN, family)),
    }
}

/// A difference that a tape does not show.
fn fine(metres: f64, family: Family) -> String {
    match family {
        Family::Inch => format!("{:.3} in", metres / crate::quantity::INCH),
        Family::Metric => format!("{} mm", crate::quantity::significant(metres * 1000.0, 2)),
    }
}

fn again(measure: Measure) -> &'static str {
    match measure {
        Measure::Span => "the span, inside wall to inside wall at its widest",
        Measure::Core => "the thickness of the core, with a calliper at a cut edge",
        Measure::Skins => "the thickness of each skin, with a calliper at a cut edge",
        Measure::Hidden => {
            "how far the damage reaches: tap, probe with an awl and hold a moisture meter wider than the patch"
        }
    }
}

fn flipping<'s>(s: &'s Summary<'_>) -> impl Iterator<Item = &'s Tolerance> {
    s.study.beside.tolerances.iter().flat_map(|t| &t.0).filter(|t| t.flips())
}

/// What the verdict turns on, for the scope: nothing where it turns on no single measure.
pub(in crate::ask) fn rests_on(s: &Summary<'_>) -> Option<String> {
    let named: Vec<&str> = flipping(s)
        .map(|t| match t.measure {
            Measure::Span => "the span",
            Measure::Core => "the core's thickness",
            Measure::Skins => "the skins' thickness",
            Measure::Hidden => "damage ending where it was found to",
        })
        .collect();
    (!named.is_empty()).then(|| format!("It rests on {}: see the cautions.", named.join(", ")))
}

/// Cautions: no second path, and measures that turn the answer.
pub(in crate::ask) fn cautions(s: &Summary<'_>) -> Vec<Words> {
    let family = s.survey.family;
    let mut out: Vec<Words> = flipping(s)
        .filter_map(|t| {
            let f = t.worst.as_ref().ok()?;
            Some(words(
                "survey-tolerance",
                format!(
                    "With {} it would not hold: {} ({}) would use {}. Measure again {}.",
                    tried(t.measure, family),
                    f.check.name(),
                    f.part,
                    percent(f.ratio),
                    again(t.measure)
                ),
            ))
        })
        .collect();
    if s.study.beside.lost.iter().any(|l| l.stands() == Some(false)) {
        out.push(words(
            "no-second-path",
            "If one glue line or one seat lets go, what is left does not carry: see the answers. Add a mechanical fixing, or a further brace, and look at glue and seats at every service.",
        ));
    }
    out
}

/// What was tried and did not turn the answer, and what could not be tried.
pub(in crate::ask) fn assumptions(s: &Summary<'_>) -> Vec<Words> {
    let Some(tolerances) = &s.study.beside.tolerances else { return Vec::new() };
    let family = s.survey.family;
    let mut out = Vec::new();
    let stays: Vec<String> = tolerances
        .0
        .iter()
        .filter_map(|t| {
            let f = t.worst.as_ref().ok().filter(|_| !t.flips())?;
            Some(format!("{} ({})", tried(t.measure, family), percent(f.ratio)))
        })
        .collect();
    if !stays.is_empty() {
        out.push(words(
            "tolerance-tried",
            format!(
                "Checked again in the deciding bracket, each alone (sizes are common practice, no source), without turning the answer: {}.",
                stays.join(", ")
            ),
        ));
    }
    for t in &tolerances.0 {
        if let Err(why) = &t.worst {
            out.push(words(
                "tolerance-not-tried",
                format!("Not checked again with {}: {why}.", tried(t.measure, family)),
            ));
        }
    }
    out
}

/// What would settle a "cannot say", as a half sentence.
pub(in crate::ask) fn settling_words(s: &Summary<'_>) -> Option<String> {
    let settles = s.study.beside.settles.as_ref()?;
    let by: Vec<String> = settles.by.iter().map(|m| brief(s, m)).collect();
    Some(match (settles.enough, by.len()) {
        (true, 1) => format!("To settle it: {}.", by[0]),
        (true, _) => format!("To settle it, both: {}.", by.join("; and ")),
        (false, _) => format!("What weighs most, though it may not settle it: {}.", by.join("; and ")),
    })
}

fn layer<'s>(s: &'s Summary<'_>, index: usize) -> &'s str {
    &s.survey.layers[index].name
}

fn brief(s: &Summary<'_>, measurement: &Measurement) -> String {
    match measurement {
        Measurement::Damage(i) => {
            format!("probe {} with awl and moisture meter", s.survey.damages[*i].name)
        }
        Measurement::Bond => "tap the layers that nobody tapped".to_owned(),
        Measurement::Grain => "look which way the face grain of the skins lies".to_owned(),
        Measurement::Material(_, i) if is_foam(&s.survey.layers[*i].material) => {
            format!("weigh an offcut of the {}", layer(s, *i))
        }
        Measurement::Material(_, i) => format!("look at a cut edge of the {}", layer(s, *i)),
        Measurement::Glue => "find out what the glue is worth".to_owned(),
        Measurement::TestWeight => "put a test weight on, with a ruler".to_owned(),
    }
}

/// The steps that would settle it.
pub(in crate::ask) fn settling_steps(s: &Summary<'_>) -> Vec<Words> {
    let Some(settles) = &s.study.beside.settles else { return Vec::new() };
    settles.by.iter().map(|m| step(s, m, settles)).collect()
}

fn step(s: &Summary<'_>, measurement: &Measurement, settles: &Settles) -> Words {
    let for_what = format!("{} ({})", settles.check.name(), settles.part);
    match measurement {
        Measurement::Damage(i) => words(
            "probe-damage",
            format!(
                "Probe {} with an awl, hold a moisture meter to it and tap round it: how much is left of the layer, and how far the damage reaches, decides {for_what}. Write what is left as `remaining`.",
                s.survey.damages[*i].name
            ),
        ),
        Measurement::Bond => words(
            "tap-test",
            format!(
                "Tap the whole roof with a coin: a dull sound is a loose layer. Write `bonded` for each layer; {for_what} turns on it."
            ),
        ),
        Measurement::Grain => words(
            "look-at-grain",
            format!(
                "Look which way the face grain of each skin lies, and write `grain`; {for_what} turns on it."
            ),
        ),
        Measurement::Material(_, i) if is_foam(&s.survey.layers[*i].material) => words(
            "weigh-foam",
            format!(
                "Weigh an offcut of the {0} and measure its three sizes, and write it as `sample` of that layer: its density tells the grade, and {for_what} turns on it. Where the grade is known already, ask the maker for its strength, or have an offcut tested, and survey it as a material of its own.",
                layer(s, *i)
            ),
        ),
        Measurement::Material(_, i) => words(
            "look-at-ply",
            format!(
                "Look at a cut edge of the {}: how thick its plies are, which way their grain lies and what wood it is decides {for_what}.",
                layer(s, *i)
            ),
        ),
        Measurement::Glue => words(
            "glue-sheet",
            format!("Find the data sheet of the glue, or shear a test piece of it: {for_what} turns on it."),
        ),
        Measurement::TestWeight => words(
            "test-weight",
            format!(
                "Put a known weight on the middle, read the dip with a ruler or dial gauge, and survey it as a test weight: how stiff the roof really is decides {for_what}."
            ),
        ),
    }
}
