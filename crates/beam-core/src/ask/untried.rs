//! Roofs that give a check nothing to look at: nobody finds room on them, nothing weighs, holes lie too near each other.

use super::places::PersonPlace;
use crate::check::NotChecked;
use crate::loads::Footing;
use crate::model::{density, is_foam};
use crate::survey::{Interval, Opening, Survey, Way};

use super::document::footed;

/// Openings nearer to one another than this many core thicknesses share the core round their corners, where only the
/// estimate for a corner by itself speaks: one and a half from each (judged, no source).
const CORES_BETWEEN: f64 = 3.0;

fn blocking(check: &str, part: String, why: String) -> NotChecked {
    NotChecked { check: check.to_owned(), part, why, blocks: true }
}

/// Told where people are to walk and no place takes one: the roof as a whole was never loaded by a person.
pub(super) fn nobody_placed(survey: &Survey, people: &[PersonPlace]) -> Option<NotChecked> {
    let footing = Footing::of(survey.person.way)?;
    let on = if footing == Footing::Bare { "a foot" } else { "the board" };
    people.is_empty().then(|| {
        let why = format!(
            "nowhere does {on} lie clear of the edge strips of the openings: the roof as a whole was not tried with anybody on it, so keep off it"
        );
        blocking("all", footed("panel", footing), why)
    })
}

/// Gaps that follow from the survey alone.
pub(super) fn gaps(survey: &Survey) -> Vec<NotChecked> {
    weightless(survey).into_iter().chain(foam_board(survey)).chain(close_openings(survey)).collect()
}

/// A layer without a density weighs nothing, which is told; where none has one, nothing stays on the roof for years.
fn weightless(survey: &Survey) -> Option<NotChecked> {
    survey.layers.iter().all(|l| density(&l.material).is_none_or(|d| d <= 0.0)).then(|| {
        let why = "no layer has a density, so the roof is taken to weigh nothing: what its own weight does is not checked. Give the densities";
        blocking("sag, lasting", "panel".to_owned(), why.to_owned())
    })
}

/// A board is taken to stay whole: foam would be trodden through before it spreads a foot.
fn foam_board(survey: &Survey) -> Option<NotChecked> {
    (survey.person.way == Way::OnABoard && is_foam(&survey.person.board.material)).then(|| {
        let why =
            "the walk board is of foam, and whether a foot goes through it is not worked out: take plywood";
        blocking("dent", footed("core", Footing::OnABoard), why.to_owned())
    })
}

fn close_openings(survey: &Survey) -> Vec<NotChecked> {
    let depth = |l: &crate::survey::Layer| l.thickness.wall.value.max(l.thickness.crown.value);
    let core = survey.layers.iter().filter(|l| is_foam(&l.material)).map(depth).fold(0.0, f64::max);
    let pairs = survey
        .openings
        .iter()
        .enumerate()
        .flat_map(|(i, a)| survey.openings[..i].iter().map(move |b| (b, a)));
    pairs
        .filter(|(a, b)| clear_between(a, b) < CORES_BETWEEN * core)
        .map(|(a, b)| {
            let why = format!(
                "\"{}\" and \"{}\" lie within three core thicknesses of each other: what crowds together between their corners is not worked out. Survey them as one opening",
                a.name, b.name
            );
            blocking("skin at opening corner", "panel".to_owned(), why)
        })
        .collect()
}

/// Shortest way from one opening to another, m.
fn clear_between(a: &Opening, b: &Opening) -> f64 {
    let gap = |a: &Interval, b: &Interval| (a.from - b.to).value.max((b.from - a.to).value).max(0.0);
    gap(&a.patch.across, &b.patch.across).hypot(gap(&a.patch.along, &b.patch.along))
}

#[cfg(test)]
mod tests;
