//! What stands beside the answer: what is left when one brace lets go, what the tape may be out by, what would settle
//! a "cannot say". None of it changes the verdict.

mod again;
mod lost;
mod settle;
#[cfg(test)]
mod tests;
mod tolerance;
mod words;

pub(super) use words::{answers, assumptions, cautions, rests_on, settling_steps, settling_words};

use super::document::{Study, bonded_counts, raised_ledger};
use super::places::PersonPlace;
use super::study::Variant;
use crate::check::{Asked, Bond, Finding, Key, Ledger, Materials, Verdict, deciding, verdict};
use crate::loads::{Factors, Footing};
use crate::model::Hold;
use crate::survey::Survey;

pub(crate) use lost::Loss;
pub(crate) use settle::Settles;
pub(crate) use tolerance::Tolerances;

/// The check that was made, as far as it is made again with something changed.
pub(crate) struct Around<'a> {
    pub survey: &'a Survey,
    pub factors: &'a Factors,
    pub stage_name: &'a str,
    pub people: &'a [PersonPlace],
    /// Default materials, full bond, the roof as surveyed.
    pub first: Variant,
    /// Directions in which an unknown face grain is tried.
    pub grains: &'a [bool],
    /// Everything that may or may not hold.
    pub holds: &'a [Hold],
}

/// What was found beside the answer.
#[derive(Debug, Default)]
pub(crate) struct Beside {
    /// One entry for each bond and each seat that may go.
    pub lost: Vec<Loss>,
    /// Tried where the roof holds by what was checked.
    pub tolerances: Option<Tolerances>,
    /// Looked for where the brackets of the materials disagree.
    pub settles: Option<Settles>,
}

/// Looks beside the answer.
pub(crate) fn look(around: &Around<'_>, study: &Study) -> Beside {
    let mut out = Beside::default();
    if study.studied.is_empty() {
        return out;
    }
    let asked = Asked { new_braces: study.braced, way: around.survey.person.way };
    let ledger = raised_ledger(study);
    if study.braced {
        out.lost = lost::lost(around, bonded_counts(&study.studied, around.first));
    }
    // Gaps are left aside here: what was checked may hold or disagree all the same.
    let found = verdict(ledger.iter(), &[], asked);
    let Some((key, finding)) = deciding(ledger.iter(), found, asked) else { return out };
    match found {
        Verdict::Holds => {
            out.tolerances = origin(around, study, &ledger, key, finding)
                .map(|variant| tolerance::tolerances(around, asked.way, variant));
        }
        Verdict::CannotSay => out.settles = settle::settles(around, study, &ledger, key),
        _ => {}
    }
    out
}

/// Material bracket of a finding in the ledger.
pub(super) fn bracket(ledger: &Ledger, key: &Key, finding: &Finding) -> Option<Materials> {
    let (_, found) = ledger.iter().find(|(k, _)| *k == key)?;
    Materials::ALL.into_iter().find(|m| found[*m as usize].as_ref() == Some(finding))
}

/// The study that a finding of the ledger came from.
fn origin(
    around: &Around<'_>,
    study: &Study,
    ledger: &Ledger,
    key: &Key,
    finding: &Finding,
) -> Option<Variant> {
    Some(variant_of(around, study, key, bracket(ledger, key, finding)?))
}

/// The study in which a check was worst in a bracket; feet are tried in the first direction of grain.
pub(super) fn variant_of(around: &Around<'_>, study: &Study, key: &Key, materials: Materials) -> Variant {
    let worst = |v: &Variant| -> f64 {
        let of = study.studied.iter().filter(|s| s.variant == *v).flat_map(|s| &s.found.findings);
        of.filter(|f| {
            f.check == key.check && f.part == key.part && f.load == key.load && f.footing == key.footing
        })
        .map(|f| f.ratio)
        .fold(f64::NEG_INFINITY, f64::max)
    };
    let of = |grain_across: bool, hold: Hold| {
        let variant = Variant { materials, grain_across, hold, ..around.first };
        let bonded = study.braced && bonded_counts(&study.studied, variant);
        Variant { bond: if bonded { Bond::Full } else { Bond::None }, ..variant }
    };
    let local = key.footing != Footing::NotAFoot
        && study
            .feet
            .iter()
            .any(|(_, found, _)| found.iter().any(|f| f.check == key.check && f.part == key.part));
    let mut variants: Vec<Variant> =
        around.grains.iter().flat_map(|g| around.holds.iter().map(|h| of(*g, *h))).collect();
    if local {
        variants.truncate(1);
    }
    variants
        .into_iter()
        .max_by(|a, b| worst(a).total_cmp(&worst(b)))
        .unwrap_or_else(|| of(true, around.first.hold))
}
