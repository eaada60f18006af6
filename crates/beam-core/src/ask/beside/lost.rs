//! One brace lets go: its glue, or one of its seats. What is left must still carry its own weight, the unit, and one
//! person, without road and without model factor, at default materials: a roof that does not has no second path.
//!
//! A seat that gives way takes the whole brace with it here: what still hangs on the skin is not counted.

use super::{Around, again::Found};
use crate::ask::each::each;
use crate::ask::places::people_walking;
use crate::ask::study::{Job, Variant, reasons};
use crate::check::{Bond, Check, Cure, Finding, Materials, counts};
use crate::loads::{CaseKind, Factors};
use crate::model::{IdealRoof, StageChoice, idealise};
use crate::survey::{Patch, Sides, Sits, Slot, SlotFrom, Snow, Survey};

/// What goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Gone {
    /// The glue of a brace: it lies loose.
    Glue,
    /// A seat of a brace: it carries nothing.
    Seat,
}

/// What is left when one thing goes.
#[derive(Debug)]
pub(crate) struct Loss {
    pub gone: Gone,
    pub brace: String,
    /// The worst finding, or why there is none.
    pub worst: Result<Finding, String>,
}

impl Loss {
    /// Whether what is left stands; `None` where that cannot be said.
    pub(crate) fn stands(&self) -> Option<bool> {
        let f = self.worst.as_ref().ok()?;
        match (f.ratio <= 1.0, f.check.cure()) {
            (true, _) => Some(true),
            (false, Cure::NotSure) => None,
            (false, _) => Some(false),
        }
    }
}

/// Every loss of one bond, where bonds are counted on, and of one seat.
pub(super) fn lost(around: &Around<'_>, bonded: bool) -> Vec<Loss> {
    let survey = around.survey;
    let there = |i: &usize| match around.first.stage {
        StageChoice::AsFound => false,
        StageChoice::Named(stage) => survey.stages[stage].braces.contains(i),
        StageChoice::Finished => true,
    };
    let new = (0..survey.braces.len()).filter(|i| !survey.braces[*i].existing).filter(there);
    let mut wanted = Vec::new();
    for i in new {
        let brace = &survey.braces[i];
        if bonded && brace.glue.is_some() && !brace.glued.is_empty() {
            wanted.push((Gone::Glue, i));
        }
        wanted.push((Gone::Seat, i));
    }
    let factors = Factors { road: 1.0, walking: 1.0, ..around.factors.clone() };
    each(&wanted, |&(gone, i)| Loss {
        gone,
        brace: survey.braces[i].name.clone(),
        worst: worst(around, &factors, &without(survey, gone, i), bonded),
    })
}

/// The survey with one thing gone, one person at most, no snow, no model factor.
fn without(survey: &Survey, gone: Gone, i: usize) -> Survey {
    let mut left = survey.clone();
    left.limits.model_factor = 1.0;
    left.conditions.snow = Snow::None;
    left.person.count = 1;
    match gone {
        Gone::Glue => {
            left.braces[i].glue = None;
            left.braces[i].glued.clear();
        }
        Gone::Seat => take_out(&mut left, i),
    }
    left
}

/// Takes a brace out, with what rests on it. Where its sides were left open, the slot stays.
fn take_out(survey: &mut Survey, i: usize) {
    let brace = survey.braces.remove(i);
    if brace.sides == Sides::SlotLeftOpen && brace.sits != Sits::UnderTheCeiling {
        let half = brace.section.width() / 2.0;
        let along = crate::survey::Interval { from: brace.along - half, to: brace.along + half };
        survey.slots.push(Slot {
            patch: Patch { across: brace.across, along },
            depth: None,
            from: SlotFrom::Top,
            filled: None,
        });
    }
    survey.trimmers.retain(|t| !t.between.contains(&i));
    let moved = |n: &mut usize| *n -= usize::from(*n > i);
    survey.trimmers.iter_mut().flat_map(|t| &mut t.between).for_each(moved);
    for stage in &mut survey.stages {
        stage.braces.retain(|b| *b != i);
        stage.braces.iter_mut().for_each(moved);
    }
}

/// The worst that is left, in either direction of an unknown grain.
fn worst(around: &Around<'_>, factors: &Factors, left: &Survey, bonded: bool) -> Result<Finding, String> {
    let mut worst: Option<Finding> = None;
    for &grain_across in around.grains {
        let variant = Variant {
            materials: Materials::Default,
            bond: if bonded { Bond::Full } else { Bond::None },
            grain_across,
            ..around.first
        };
        let found = one(around, factors, left, variant)?;
        if worst.as_ref().is_none_or(|w| found.ratio > w.ratio) {
            worst = Some(found);
        }
    }
    worst.ok_or_else(|| "nothing was checked".to_owned())
}

fn one(around: &Around<'_>, factors: &Factors, left: &Survey, variant: Variant) -> Result<Finding, String> {
    let roof: IdealRoof =
        idealise(left, variant.configuration(), variant.materials, variant.grain_across).map_err(reasons)?;
    let people = people_walking(left, &roof, factors, left.person.way);
    let mut job = Job::new(left, factors, around.stage_name.to_owned(), people);
    job.cases.retain(|c| match c.kind {
        CaseKind::FirstDay | CaseKind::Service => true,
        CaseKind::Person => c.person.is_some(),
        CaseKind::Road | CaseKind::Rebound | CaseKind::Standing | CaseKind::Test => false,
    });
    let found = Found::of(&job, variant)?;
    // It is to stand, not to be stiff: sag does not count.
    let bears = |f: &&Finding| {
        !matches!(f.check, Check::Sag | Check::SagLasting) && counts(f.check, f.footing, left.person.way)
    };
    found.worst(bears).ok_or_else(|| "nothing was checked".to_owned())
}
