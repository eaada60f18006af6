//! One panel for many candidates: condensed onto the lines where their braces may go, in one bracket of its materials.
//!
//! It is read only where its first and its last candidate, solved as a whole on the same grid, use most; and
//! only in cases in which no contact would have to pull. What is not read cannot put a candidate aside.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;

use super::super::evaluate::{Solved, evaluate, pulls_open};
use super::super::places::{PersonPlace, people_walking};
use super::super::solve::solve_plate;
use super::super::study::{Job, Variant, locked_in, reasons};
use crate::check::{Context, Finding, Materials, springing_in, tube_strengths};
use crate::loads::{Basis, Case, CaseKind, Factors, Term};
use crate::model::{IdealRoof, Time, idealise};
use crate::plate::{
    CondensedRoof, GridSize, Kept, Kinds, LaidBraces, NewBraces, PlateRoof, PlateShape, TrimmerLine,
    coupling, shape,
};
use crate::survey::{Survey, Trimmer, Way};

/// What uses less than this share of the worst is not read (judged, no source; what is not read puts nothing aside).
const READ: f64 = 0.5;

/// Candidates whose braces lie on lines of one panel.
pub(super) struct Panel<'a> {
    factors: &'a Factors,
    /// Every candidate built in, in the order of the search.
    pub candidates: Vec<&'a Survey>,
    lines: Vec<f64>,
    trimmer_lines: Vec<TrimmerLine>,
    /// Everybody who stands somewhere on one of them.
    pub people: Vec<PersonPlace>,
    /// Which of the people stand on each candidate.
    standing: Vec<Vec<usize>>,
    size: GridSize,
}

impl<'a> Panel<'a> {
    /// Gathers the lines and everybody who stands somewhere.
    ///
    /// # Errors
    /// In words: what cannot be modelled.
    pub(super) fn new(
        factors: &'a Factors,
        candidates: Vec<&'a Survey>,
        first: Variant,
        size: GridSize,
    ) -> Result<Panel<'a>, String> {
        let mut lines: Vec<f64> = Vec::new();
        let mut trimmer_lines: Vec<TrimmerLine> = Vec::new();
        let mut people: Vec<PersonPlace> = Vec::new();
        let mut standing = Vec::new();
        for with in &candidates {
            lines.extend(with.braces.iter().filter(|b| !b.existing).map(|b| b.along.value));
            for trimmer in new_trimmers(with) {
                let line = trimmer_line(with, trimmer);
                if !trimmer_lines.contains(&line) {
                    trimmer_lines.push(line);
                }
            }
            let mut own = Vec::new();
            if with.person.way != Way::Nobody {
                let roof =
                    idealise(with, first.configuration(), Materials::Default, true).map_err(reasons)?;
                for place in people_walking(with, &roof, factors, with.person.way) {
                    own.push(people.iter().position(|p| *p == place).unwrap_or_else(|| {
                        people.push(place);
                        people.len() - 1
                    }));
                }
            }
            standing.push(own);
        }
        lines.sort_by(f64::total_cmp);
        lines.dedup();
        Ok(Panel { factors, candidates, lines, trimmer_lines, people, standing, size })
    }

    /// The roof without any candidate's braces, on a grid with all their lines, and its loads.
    fn bare(
        &self,
        like: &'a Survey,
        variant: Variant,
    ) -> Result<(Job<'a>, IdealRoof, Arc<PlateShape>), String> {
        let mut job = Job::new(like, self.factors, "finished".to_owned(), self.people.clone());
        job.wanted.y.extend(&self.lines);
        job.wanted.x.extend(self.trimmer_lines.iter().map(|t| t.x));
        let mut bare = ideal(like, variant)?;
        bare.trimmers.truncate(like.trimmers.len() - new_trimmers(like).count());
        bare.braces.truncate(like.braces.iter().filter(|b| b.existing).count());
        let shape = Arc::new(shape(&bare, &job.wanted, self.size)?);
        Ok((job, bare, shape))
    }
}

/// A panel condensed in one bracket.
pub(super) struct Condensed<'a> {
    panel: &'a Panel<'a>,
    variant: Variant,
    cases: Vec<Case>,
    framed: bool,
    fresh: CondensedRoof,
    aged: CondensedRoof,
    hot: CondensedRoof,
}

/// One candidate of a panel as the solvers see it.
struct Tried {
    /// Its place among the panel's.
    index: usize,
    roof: IdealRoof,
    braces: NewBraces,
}

/// Members of some kinds ready in the three states of a panel.
struct ReadyBraces {
    fresh: LaidBraces,
    aged: LaidBraces,
    hot: LaidBraces,
}

impl<'a> Condensed<'a> {
    /// Factorises the panel in its three states and condenses each.
    ///
    /// # Errors
    /// In words.
    pub(super) fn new(panel: &'a Panel<'a>, variant: Variant) -> Result<Condensed<'a>, String> {
        let (Some(first), Some(last)) = (panel.candidates.first(), panel.candidates.last()) else {
            return Err("no candidate".to_owned());
        };
        let Variant { materials, .. } = variant;
        let (job, bare, shape) = panel.bare(first, variant)?;
        let mut places: Vec<(f64, f64)> = Vec::new();
        for with in [first, last] {
            places.extend(worst_places(panel, &job, with, variant, &shape)?);
        }
        let state = |time: Time| PlateRoof::new(&bare, &shape, materials, time, &job.layouts);
        let fresh = state(Time::Fresh)?;
        let kept = Kept::at(&fresh, &places);
        let mut new = Vec::new();
        for with in &panel.candidates {
            new.extend(ideal(with, variant)?.braces.into_iter().skip(bare.braces.len()));
        }
        let coupling = coupling(new);
        // Whether a contact would have to pull is judged fresh.
        let inside = kept.without_walls();
        let condense = |plate: &PlateRoof, loads: &[_], kept: &Kept| {
            CondensedRoof::new(plate, (&panel.lines, &panel.trimmer_lines), coupling, loads, kept)
        };
        Ok(Condensed {
            panel,
            variant,
            framed: job.framed(),
            fresh: condense(&fresh, &job.set.all, &kept)?,
            aged: condense(&state(Time::Aged)?, &job.set.lasting, &inside)?,
            hot: condense(&state(Time::Hot)?, &job.set.hot(), &inside)?,
            cases: job.cases,
        })
    }

    fn tried(&self, index: usize) -> Result<Tried, String> {
        let roof = ideal(self.panel.candidates[index], self.variant)?;
        let braces = self.fresh.new_braces(&roof)?;
        Ok(Tried { index, roof, braces })
    }

    /// Makes members of some kinds ready for some candidates.
    fn ready(&self, kinds: &Kinds, tried: &[Tried]) -> Result<ReadyBraces, String> {
        let sets: Vec<&NewBraces> = tried.iter().map(|t| &t.braces).collect();
        let members = self.fresh.members(kinds, &sets)?;
        let ready = |state: &CondensedRoof| state.ready(kinds, &members, &sets);
        Ok(ReadyBraces { fresh: ready(&self.fresh), aged: ready(&self.aged), hot: ready(&self.hot) })
    }

    /// The cases of one candidate.
    fn cases_of(&self, tried: &Tried) -> Vec<Case> {
        let standing = &self.panel.standing[tried.index];
        let stands = |c: &&Case| c.person.is_none_or(|p| standing.contains(&p));
        let own = self.cases.iter().filter(|c| c.kind != CaseKind::Test).filter(stands).cloned().collect();
        locked_in(&tried.roof, own)
    }

    /// One candidate's responses to every basis load of its cases.
    fn solved(&self, ready: &ReadyBraces, tried: &Tried, cases: &[Case]) -> Result<Solved, String> {
        let bases =
            |terms: &mut dyn Iterator<Item = Term>| -> BTreeSet<Basis> { terms.map(|t| t.0).collect() };
        let years = bases(&mut cases.iter().flat_map(Case::years_and_locked_in));
        let top = bases(&mut cases.iter().flat_map(|c| c.top.iter().copied()));
        let hot = bases(&mut cases.iter().filter(|c| c.hot).flat_map(|c| c.top.iter().copied()));
        let braces = &tried.braces;
        Ok(Solved {
            layout: Arc::new(self.fresh.layout(braces)),
            fresh: self.fresh.with(&ready.fresh, braces, &years.union(&top).copied().collect())?,
            aged: self.aged.with(&ready.aged, braces, &years)?,
            hot: self.hot.with(&ready.hot, braces, &hot)?,
            let_go: None,
        })
    }

    fn found(&self, ready: &ReadyBraces, tried: &Tried) -> Result<Vec<Finding>, String> {
        let mut cases = self.cases_of(tried);
        let solved = self.solved(ready, tried, &cases)?;
        cases.retain(|case| !pulls_open(&solved, case));
        let with = self.panel.candidates[tried.index];
        let context = Context::new(with, &tried.roof, self.panel.factors, self.variant.materials)?;
        let tubes = tube_strengths(&tried.roof, self.panel.factors);
        let mut found = evaluate(&context, &solved, &cases, &tubes, self.framed).findings;
        found.extend(springing_in(&context, &tubes));
        Ok(found)
    }

    /// What the checks find on some of the panel's candidates, where it is read; in words, why one could not be tried.
    /// Those of one kind of brace go together, so that it is made ready once.
    pub(super) fn findings(&self, indices: &[usize]) -> Vec<Result<Vec<Finding>, String>> {
        let mut out: BTreeMap<usize, Result<Vec<Finding>, String>> = BTreeMap::new();
        let mut kinds: Vec<(Kinds, Vec<Tried>)> = Vec::new();
        for &index in indices {
            match self.tried(index) {
                Ok(tried) => {
                    match kinds.iter_mut().find_map(|(k, all)| k.take_in(&tried.braces.kinds).then_some(all))
                    {
                        Some(alike) => alike.push(tried),
                        None => kinds.push((tried.braces.kinds, vec![tried])),
                    }
                }
                Err(why) => {
                    out.insert(index, Err(why));
                }
            }
        }
        let found = |(kinds, alike): &(Kinds, Vec<Tried>)| -> Vec<(usize, Result<Vec<Finding>, String>)> {
            let ready = self.ready(kinds, alike);
            let one = |tried: &Tried| match &ready {
                Ok(ready) => (tried.index, self.found(ready, tried)),
                Err(why) => (tried.index, Err(why.clone())),
            };
            alike.par_iter().map(one).collect()
        };
        out.par_extend(kinds.par_iter().flat_map(found));
        indices
            .iter()
            .map(|index| out.remove(index).unwrap_or_else(|| Err("it was not tried".to_owned())))
            .collect()
    }
}

/// Trimmers of a candidate: one of their braces at least is new.
fn new_trimmers(with: &Survey) -> impl Iterator<Item = &Trimmer> {
    with.trimmers.iter().filter(|t| t.between.iter().any(|b| !with.braces[*b].existing))
}

fn trimmer_line(with: &Survey, trimmer: &Trimmer) -> TrimmerLine {
    let [one, other] = trimmer.between.map(|b| with.braces[b].along.value);
    TrimmerLine { x: trimmer.across.value, ends: [one.min(other), one.max(other)] }
}

fn ideal(with: &Survey, variant: Variant) -> Result<IdealRoof, String> {
    idealise(with, variant.configuration(), variant.materials, variant.grain_across).map_err(reasons)
}

/// Where a candidate, solved as a whole with every contact closed, uses most.
fn worst_places(
    panel: &Panel<'_>,
    job: &Job<'_>,
    with: &Survey,
    variant: Variant,
    shape: &Arc<PlateShape>,
) -> Result<Vec<(f64, f64)>, String> {
    let roof = ideal(with, variant)?;
    let context = Context::new(with, &roof, panel.factors, variant.materials)?;
    let (mut solved, _) = solve_plate(&roof, shape, variant.materials, &job.set, &job.layouts)?;
    solved.let_go = None;
    let tubes = tube_strengths(&roof, panel.factors);
    let cases = locked_in(&roof, job.cases.clone());
    let found = evaluate(&context, &solved, &cases, &tubes, job.framed()).findings;
    let worst = found.iter().map(|f| f.ratio).fold(0.0, f64::max);
    Ok(found.iter().filter(|f| f.ratio >= READ * worst).map(|f| (f.x, f.y)).collect())
}

#[cfg(test)]
mod tests;
