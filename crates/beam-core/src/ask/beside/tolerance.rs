//! The tape may be out: the deciding bracket checked again with each measure a little worse than it was read.
//!
//! Tried only where the roof holds by what was checked, each change alone: 10 mm on the span, 2 mm on the core, 0.3 mm
//! on each skin, and 150 mm of damage beyond each patch that nobody found (common practice, no source). Damage that is mended
//! in the stage asked for is taken to go on outside the mend, since a mend ends where the damage seemed to.

use super::{Around, again::Found};
use crate::ask::each::each;
use crate::ask::places::people_walking;
use crate::ask::study::{Job, Variant, reasons};
use crate::check::{Finding, counts};
use crate::model::{idealise, is_foam, mended};
use crate::quantity::{Length, si};
use crate::survey::{Damage, DamageState, Interval, Patch, Survey, Way};

/// How far a span may be out, m.
pub(super) const SPAN: f64 = 0.010;
/// How far a core may be out, m.
pub(super) const CORE: f64 = 0.002;
/// How far a skin may be out, m; never more than half of it.
pub(super) const SKIN: f64 = 0.0003;
/// How far damage may go on unseen, m.
pub(super) const HIDDEN: f64 = 0.150;
/// What ends this near to the wall ends at the wall, m.
const AT_WALL: f64 = 0.001;

/// A measure that may be out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Measure {
    Span,
    Core,
    Skins,
    Hidden,
}

/// One measure, worse than it was read.
#[derive(Debug)]
pub(crate) struct Tolerance {
    pub measure: Measure,
    /// The worst finding, or why there is none.
    pub worst: Result<Finding, String>,
}

impl Tolerance {
    /// Whether this alone takes the verdict away.
    pub(crate) fn flips(&self) -> bool {
        self.worst.as_ref().is_ok_and(|f| f.ratio > 1.0)
    }
}

/// All of them.
#[derive(Debug)]
pub(crate) struct Tolerances(pub Vec<Tolerance>);

/// Tries each in the deciding bracket.
pub(super) fn tolerances(around: &Around<'_>, way: Way, variant: Variant) -> Tolerances {
    let survey = around.survey;
    let changed = [
        (Measure::Span, Some(longer(survey))),
        (Measure::Core, thinner(survey, true, CORE)),
        (Measure::Skins, thinner(survey, false, SKIN)),
        (Measure::Hidden, spread(survey, around)),
    ];
    let changed: Vec<(Measure, Survey)> =
        changed.into_iter().filter_map(|(measure, changed)| Some((measure, changed?))).collect();
    Tolerances(each(&changed, |(measure, changed)| {
        // A foot sees nothing of the span.
        let feet = *measure != Measure::Span && way != Way::Nobody;
        Tolerance { measure: *measure, worst: worst(around, way, changed, variant, feet) }
    }))
}

fn worst(
    around: &Around<'_>,
    way: Way,
    changed: &Survey,
    variant: Variant,
    feet: bool,
) -> Result<Finding, String> {
    let roof = idealise(changed, variant.configuration(), variant.materials, variant.grain_across)
        .map_err(reasons)?;
    let people = people_walking(changed, &roof, around.factors, way);
    let job = Job::new(changed, around.factors, around.stage_name.to_owned(), people);
    let found = if feet { Found::with_feet(&job, variant)? } else { Found::of(&job, variant)? };
    found.worst(|f| counts(f.check, f.footing, way)).ok_or_else(|| "nothing was checked".to_owned())
}

/// A longer roof: what ends at the right wall still does.
fn longer(survey: &Survey) -> Survey {
    let mut out = survey.clone();
    let (old, more): (Length, Length) = (survey.roof.span, si(SPAN));
    out.roof.span = old + more;
    let reach = |across: &mut Interval| {
        if (old - across.to).value.abs() < AT_WALL {
            across.to = old + more;
        }
    };
    out.braces.iter_mut().for_each(|b| reach(&mut b.across));
    out.damages.iter_mut().for_each(|d| reach(&mut d.patch.across));
    out.slots.iter_mut().for_each(|s| reach(&mut s.patch.across));
    out
}

/// Thinner foam, or thinner skins; nothing where there are none.
fn thinner(survey: &Survey, foam: bool, by: f64) -> Option<Survey> {
    let mut out = survey.clone();
    let mut any = false;
    for layer in out.layers.iter_mut().filter(|l| is_foam(&l.material) == foam) {
        any = true;
        for t in [&mut layer.thickness.wall, &mut layer.thickness.crown] {
            *t = si((t.value - by).max(t.value / 2.0));
        }
    }
    any.then_some(out)
}

/// Damage that goes on beyond what was found; nothing where none can.
fn spread(survey: &Survey, around: &Around<'_>) -> Option<Survey> {
    let mut out = survey.clone();
    let mut any = false;
    for (i, damage) in survey.damages.iter().enumerate().filter(|(_, d)| hides(d)) {
        any = true;
        let wider = Patch {
            across: grown(damage.patch.across, survey.roof.span),
            along: grown(damage.patch.along, survey.roof.length),
        };
        if mended(damage, survey, around.first.stage) {
            let pieces = ring(&damage.patch, &wider);
            out.damages.extend(pieces.into_iter().map(|patch| Damage {
                patch,
                until: None,
                ..damage.clone()
            }));
        } else {
            out.damages[i].patch = wider;
        }
    }
    any.then_some(out)
}

/// Whether more of a damage may be there unseen: a hole is seen.
fn hides(damage: &Damage) -> bool {
    match &damage.state {
        DamageState::Table(row) => row.effects.iter().any(|e| e.stiffness.high > 0.0),
        DamageState::Remaining { stiffness, .. } => *stiffness > 0.0,
    }
}

fn grown(interval: Interval, to: Length) -> Interval {
    let more: Length = si(HIDDEN);
    Interval { from: (interval.from - more).max(si(0.0)), to: (interval.to + more).min(to) }
}

/// What of a patch lies outside an inner one, in up to four pieces.
fn ring(inner: &Patch, outer: &Patch) -> Vec<Patch> {
    let between = |from: Length, to: Length| Interval { from, to };
    [
        Patch { across: outer.across, along: between(outer.along.from, inner.along.from) },
        Patch { across: outer.across, along: between(inner.along.to, outer.along.to) },
        Patch { across: between(outer.across.from, inner.across.from), along: inner.along },
        Patch { across: between(inner.across.to, outer.across.to), along: inner.along },
    ]
    .into_iter()
    .filter(|p| p.across.size().value > AT_WALL && p.along.size().value > AT_WALL)
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn patch(x: [f64; 2], y: [f64; 2]) -> Patch {
        let interval = |p: [f64; 2]| Interval { from: si(p[0]), to: si(p[1]) };
        Patch { across: interval(x), along: interval(y) }
    }

    #[test]
    fn a_ring_and_its_hole_make_up_the_whole() {
        let area = |p: &Patch| p.across.size().value * p.along.size().value;
        let (inner, outer) = (patch([0.5, 1.0], [0.4, 0.9]), patch([0.35, 1.15], [0.25, 1.05]));
        let pieces = ring(&inner, &outer);
        let sum: f64 = pieces.iter().map(area).sum();
        assert!((sum + area(&inner) - area(&outer)).abs() < 1e-12);
        assert!(pieces.iter().all(|p| !p.overlaps(&inner)));
        // By the wall there is nothing beyond.
        assert_eq!(ring(&patch([0.0, 1.0], [0.4, 0.9]), &patch([0.0, 1.15], [0.25, 1.05])).len(), 3);
    }
}
