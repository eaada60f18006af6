//! People standing one way in one stage of the work, over the brackets of the materials.

use std::sync::{Arc, Mutex, PoisonError};

use super::super::each::each;
use super::super::places::patch;
use super::super::study::{Trouble, Variant};
use super::ground::{Found, Ground, SolvedRoof, Trodden};
use super::raster::Stance;
use crate::check::{Bond, Bracing, Materials, Pressed, Untried, Verdict};
use crate::loads::{Factors, Footing};
use crate::model::{Configuration, Hold, IdealRoof, idealise};
use crate::plate::Layouts;
use crate::survey::Survey;

/// People asked about: a way of standing, and places in an order that keeps neighbours together.
#[derive(Clone)]
pub(crate) struct Asked {
    pub survey: Survey,
    pub footing: Footing,
    pub places: Vec<(f64, f64)>,
    pub order: Vec<usize>,
}

impl Asked {
    pub(crate) fn at(survey: &Survey, footing: Footing, places: Vec<(f64, f64)>) -> Asked {
        let order = (0..places.len()).collect();
        Asked { survey: survey.clone(), footing, places, order }
    }
}

/// What came of one bracket: for each question its places.
pub(crate) struct Answered {
    pub trodden: Vec<Trodden>,
    pub unknowns: usize,
}

/// A stage of the work: which roof.
pub(crate) struct Stage<'a> {
    pub survey: &'a Survey,
    pub factors: &'a Factors,
    /// Stage, default materials; the bond is tried full where there are new braces.
    pub variant: Variant,
    /// Grains to try.
    pub grains: &'a [bool],
    /// Roofs of default materials, which are asked about twice.
    pub kept: Mutex<Vec<(Variant, Arc<SolvedRoof>)>>,
    /// Roofs laid out so far.
    pub layouts: Layouts,
    /// Feet pressed in so far.
    pub pressed: Arc<Pressed>,
}

impl Stage<'_> {
    /// People in one bracket; over the grains, and over walls and joints that hold and do not, the worse counts.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn tread(&self, materials: Materials, asked: &[Asked]) -> Result<Answered, Trouble> {
        let mut worse: Option<Answered> = None;
        let holds = Hold::all(self.survey);
        for (&grain_across, &hold) in self.grains.iter().flat_map(|g| holds.iter().map(move |h| (g, h))) {
            let variant = Variant { materials, grain_across, hold, ..self.variant };
            let one = self.bonded_or_not(variant, asked)?;
            worse = Some(match worse {
                None => one,
                Some(kept) => Answered {
                    unknowns: kept.unknowns,
                    trodden: kept.trodden.into_iter().zip(one.trodden).map(|(a, b)| worse_of(a, b)).collect(),
                },
            });
        }
        Ok(worse.unwrap_or(Answered { trodden: Vec::new(), unknowns: 0 }))
    }

    /// People in each of several brackets, side by side.
    pub(crate) fn tread_each(
        &self,
        brackets: &[Materials],
        asked: &[Asked],
    ) -> Vec<(Materials, Result<Answered, Trouble>)> {
        each(brackets, |m| (*m, self.tread(*m, asked)))
    }

    /// The bonded roof counts where its glue lines hold under everything, else the loose one.
    fn bonded_or_not(&self, variant: Variant, asked: &[Asked]) -> Result<Answered, Trouble> {
        if variant.bracing == Bracing::With {
            let full = Variant { bond: Bond::Full, ..variant };
            if let Some(answered) = self.one(full, asked)? {
                return Ok(answered);
            }
        }
        let loose = Variant { bond: Bond::None, ..variant };
        Ok(self.one(loose, asked)?.unwrap_or(Answered { trodden: Vec::new(), unknowns: 0 }))
    }

    /// The roof of a variant, solved.
    fn solved(&self, variant: &Variant, roof: &IdealRoof) -> Result<Arc<SolvedRoof>, Trouble> {
        let kept = || self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, solved)) = kept().iter().find(|(v, _)| v == variant) {
            return Ok(solved.clone());
        }
        let solved = Arc::new(SolvedRoof::new(self.survey, self.factors, roof, variant, &self.layouts)?);
        if variant.materials == Materials::Default {
            kept().push((*variant, solved.clone()));
        }
        Ok(solved)
    }

    /// One roof; `None` where it counts on a glue line that does not hold.
    fn one(&self, variant: Variant, asked: &[Asked]) -> Result<Option<Answered>, Trouble> {
        let configuration: Configuration = variant.configuration();
        let roof = idealise(self.survey, configuration, variant.materials, variant.grain_across)
            .map_err(Trouble::Missing)?;
        let solved = self.solved(&variant, &roof)?;
        let ground = Ground::new(self.survey, self.factors, &roof, &variant, solved, self.pressed.clone())?;
        let counts_on_glue = variant.bond == Bond::Full;
        if counts_on_glue && !ground.glue().is_some_and(|g| g <= 1.0) {
            return Ok(None);
        }
        let mut trodden = Vec::with_capacity(asked.len());
        for one in asked {
            let patch = patch(&one.survey, &roof, self.factors, one.footing);
            let stance = Stance { survey: &one.survey, footing: one.footing, patch };
            let people = ground.tread(&stance, &one.places, &one.order);
            if counts_on_glue && people.glue > 1.0 {
                return Ok(None);
            }
            trodden.push(people);
        }
        Ok(Some(Answered { trodden, unknowns: ground.unknowns }))
    }
}

fn worse_of(mut kept: Trodden, other: Trodden) -> Trodden {
    for (a, b) in kept.found.iter_mut().zip(other.found) {
        *a = match (*a, b) {
            (Found::Worst(mut x), Found::Worst(y)) => {
                x.keep(y);
                Found::Worst(x)
            }
            (Found::Worst(x), _) if x.sure > 1.0 => Found::Worst(x),
            (_, Found::Worst(y)) if y.sure > 1.0 => Found::Worst(y),
            (Found::NotChecked, _) | (_, Found::NotChecked) => Found::NotChecked,
            (Found::NoPlace, other) | (other, Found::NoPlace) => other,
        };
    }
    for one in other.untried {
        if !kept.untried.contains(&one) {
            kept.untried.push(one);
        }
    }
    Trodden {
        glue: kept.glue.max(other.glue),
        pulls: kept.pulls.max(other.pulls),
        cold_everywhere: kept.cold_everywhere || other.cold_everywhere,
        ..kept
    }
}

/// Numbers of the places that use most: the worst of each check, then the worst of all, at most `count`.
pub(crate) fn worst_places(found: &[Found], count: usize) -> Vec<usize> {
    let mut numbers: Vec<(usize, &super::scan::Worst)> = found
        .iter()
        .enumerate()
        .filter_map(|(k, f)| if let Found::Worst(w) = f { Some((k, w)) } else { None })
        .collect();
    // Mirrored places differ by rounding only: the first stays first, whatever the processor.
    let rounded = |w: &super::scan::Worst| (w.ratio * 1e9).round();
    numbers.sort_by(|a, b| rounded(b.1).total_cmp(&rounded(a.1)));
    let mut out: Vec<usize> = Vec::new();
    let mut checks = Vec::new();
    for (k, w) in &numbers {
        if !checks.contains(&w.check) {
            checks.push(w.check);
            out.push(*k);
        }
    }
    for (k, _) in numbers {
        if !out.contains(&k) {
            out.push(k);
        }
    }
    out.truncate(count);
    out
}

/// What the brackets say together at some places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Together {
    Holds,
    Fails,
    /// Brackets disagree, or a limit is an estimate.
    Disagrees,
    /// Something needed could not be checked, or no place was found.
    NotKnown,
}

impl Together {
    pub(crate) fn verdict(self) -> Verdict {
        match self {
            Together::Holds => Verdict::Holds,
            Together::Fails => Verdict::DoesNotHold,
            Together::Disagrees | Together::NotKnown => Verdict::CannotSay,
        }
    }
}

/// Judges places found in every bracket (`None`: a bracket could not be solved).
pub(crate) fn together(brackets: [Option<&[Found]>; 3]) -> Together {
    let [Some(low), Some(default), Some(high)] = brackets else { return Together::NotKnown };
    let (mut any, mut fails, mut disagrees, mut unknown) = (false, false, false, false);
    for ((a, b), c) in low.iter().zip(default).zip(high) {
        match (a, b, c) {
            (Found::NoPlace, Found::NoPlace, Found::NoPlace) => {}
            (Found::Worst(a), Found::Worst(b), Found::Worst(c)) => {
                any = true;
                let all = [a, b, c];
                if all.iter().all(|w| w.sure > 1.0) {
                    fails = true;
                } else if all.iter().any(|w| w.ratio > 1.0) {
                    disagrees = true;
                }
            }
            _ => unknown = true,
        }
    }
    if fails {
        Together::Fails
    } else if disagrees {
        Together::Disagrees
    } else if unknown || !any {
        Together::NotKnown
    } else {
        Together::Holds
    }
}

/// Whether people at some places may yet turn out to hold once every bracket is in.
pub(crate) fn may_hold(found: &[Found]) -> bool {
    found.iter().all(|f| match f {
        Found::NoPlace => true,
        Found::NotChecked => false,
        Found::Worst(w) => w.ratio <= 1.0,
    })
}

/// What could not be tried, in any question.
pub(crate) fn untried<'a>(answered: impl Iterator<Item = &'a Trodden>) -> Vec<Untried> {
    let mut out: Vec<Untried> = Vec::new();
    for one in answered.flat_map(|t| &t.untried) {
        if !out.contains(one) {
            out.push(one.clone());
        }
    }
    out
}
