//! One roof in one bracket of its materials, made ready for people: solved in its states, with what stays on it.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use super::super::evaluate::{Solved, evaluate, glue_and_ends_ratio, must_let_go, sum};
use super::super::places::edge_strip;
use super::super::solve::{basis_set, letting_go};
use super::super::study::{Job, Trouble, Variant};
use super::feet::{Local, MakeUps};
use super::raster::{Person, Stance};
use super::scan::{Scan, Worst, person_state};
use crate::check::{
    CaseState, Check, Context, EdgePlaces, LoosePatch, PanelLimits, Pressed, RATIO_CAP, TubeStrength,
    Unknown, Untried, beside_joints, brace_findings, curvature_under, edge_findings, held, joint_findings,
    loose_findings, loose_patches, panel_findings, sag_findings, trimmer_findings, tube_strengths,
};
use crate::loads::{Basis, BasisLoad, Case, Factors, Footing, permanent_cases, person_cases};
use crate::model::{IdealRoof, Missing, Rect, Time};
use crate::plate::{Free, GridSize, Layouts, PlateRoof, PlateShape, Reader, shape};
use crate::response::{Layout, Response};
use crate::survey::Survey;

/// The cold roof is tried at every such place; where it never governs, the hot roof speaks for all others.
const COLD_EVERY: usize = 8;
/// So few tries are made with every case.
const FEW: usize = 64;
/// Of those, so many are solved with contacts let go where they would have to pull.
const LET_GO: usize = 2;

/// What came of a person at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Found {
    /// In the edge strip of an opening, or with no panel underfoot.
    NoPlace,
    /// A check that counts could not be made there.
    NotChecked,
    /// The worst check, and where the roof is used most.
    Worst(Worst),
}

impl Found {
    pub(crate) fn worst(&self) -> Option<Worst> {
        match self {
            Found::Worst(worst) => Some(*worst),
            Found::NoPlace | Found::NotChecked => None,
        }
    }

    pub(crate) fn ratio(&self) -> Option<f64> {
        self.worst().map(|w| w.ratio)
    }
}

/// What the roof as a whole does under one person.
#[derive(Debug, Clone, Copy, Default)]
struct Stood {
    /// The worst check, and the most that a glue line uses; nothing where no panel is underfoot.
    worst: Option<(Worst, f64)>,
    /// Whether contacts would have to pull.
    pulls: bool,
    /// How much the roof is bent underfoot, 1/m.
    curvature: f64,
}

/// People at many places, standing one way.
pub(crate) struct Trodden {
    pub found: Vec<Found>,
    pub untried: Vec<Untried>,
    pub unknown: Vec<Unknown>,
    /// The most that a glue line uses under anybody.
    pub glue: f64,
    /// Places at which walls or cross walls would have to hold the roof down.
    pub pulls: usize,
    /// Whether the cold roof was tried at every place.
    pub cold_everywhere: bool,
}

fn words(why: String) -> Trouble {
    Trouble::Missing(vec![Missing { part: "panel".to_owned(), why }])
}

/// Solved states of one roof.
struct States {
    hot: PlateRoof,
    fresh: Arc<PlateRoof>,
    aged: PlateRoof,
    /// What stays on, aged and fresh.
    years: Response,
    now: Response,
}

/// A roof solved for what stays on it: the costly part of a [`Ground`], good for any question about the same roof.
pub(crate) struct SolvedRoof {
    states: States,
    loose: Option<(Vec<LoosePatch>, States)>,
    /// Glue lines under everything but people.
    glue: Option<f64>,
}

impl SolvedRoof {
    /// Solves the roof for what stays on it.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn new(
        survey: &Survey,
        factors: &Factors,
        roof: &IdealRoof,
        variant: &Variant,
        layouts: &Layouts,
    ) -> Result<SolvedRoof, Trouble> {
        let context = Context::new(survey, roof, factors, variant.materials).map_err(words)?;
        let job = Job::new(survey, factors, String::new(), Vec::new());
        let shape = Arc::new(shape(roof, &job.wanted, GridSize::DEFAULT).map_err(words)?);
        let [case, _] = cases(survey, factors)?;
        let states = states(survey, factors, roof, &shape, variant, &case, layouts).map_err(words)?;
        let patches = loose_patches(roof);
        let loose = if patches.is_empty() {
            None
        } else {
            let held = held(roof);
            Some((
                patches,
                self::states(survey, factors, &held, &shape, variant, &case, layouts).map_err(words)?,
            ))
        };
        let glue = if roof.braces.iter().any(|b| b.bonded) {
            let tubes = tube_strengths(roof, factors);
            glue_without_people(survey, factors, &context, &states, &tubes, job.framed()).map_err(words)?
        } else {
            None
        };
        Ok(SolvedRoof { states, loose, glue })
    }
}

/// A person's cases, cold and hot.
fn cases(survey: &Survey, factors: &Factors) -> Result<[Case; 2], Trouble> {
    let none = BasisLoad::Patches(Vec::new());
    person_cases(survey, factors, 0, Footing::NotAFoot, &none)
        .try_into()
        .map_err(|_| words("a person is no case".to_owned()))
}

/// A roof ready for people.
pub(crate) struct Ground<'a> {
    survey: &'a Survey,
    factors: &'a Factors,
    pub roof: &'a IdealRoof,
    context: Context<'a>,
    limits: PanelLimits,
    tubes: Vec<Result<TubeStrength, String>>,
    solved: Arc<SolvedRoof>,
    cases: [Case; 2],
    pub unknowns: usize,
    /// Strengths that nobody knows.
    unknown: Vec<Unknown>,
}

impl<'a> Ground<'a> {
    /// A roof that is solved already, made ready.
    ///
    /// # Errors
    /// [`Trouble`].
    pub(crate) fn new(
        survey: &'a Survey,
        factors: &'a Factors,
        roof: &'a IdealRoof,
        variant: &Variant,
        solved: Arc<SolvedRoof>,
        pressed: Arc<Pressed>,
    ) -> Result<Ground<'a>, Trouble> {
        let context = Context::new(survey, roof, factors, variant.materials).map_err(words)?.knowing(pressed);
        let job = Job::new(survey, factors, String::new(), Vec::new());
        let cases = cases(survey, factors)?;
        let states = &solved.states;
        let limits = PanelLimits::new(&context, &states.hot.layout.states, job.framed());
        let tubes = tube_strengths(roof, factors);
        let unknown = {
            let (reader, none) = (Reader::new(&states.hot), Response::default());
            let state = person_state(&cases[1], &states.years, &none);
            Scan::new(&context, &limits, &tubes, &reader, &states.hot.layout, state).unknown
        };
        let unknowns = states.hot.unknowns();
        Ok(Ground { unknown, survey, factors, roof, context, limits, tubes, solved, cases, unknowns })
    }

    /// Glue lines under everything but people.
    pub(crate) fn glue(&self) -> Option<f64> {
        self.solved.glue
    }

    /// People at places, in the order given by `order`.
    pub(crate) fn tread(&self, stance: &Stance<'_>, places: &[(f64, f64)], order: &[usize]) -> Trodden {
        let people: Vec<Person> =
            order.iter().flat_map(|&k| stance.at(self.roof, self.factors, k, places[k])).collect();
        let mut found = vec![Found::NoPlace; places.len()];
        let [cold, hot] = &self.cases;
        let mut glue: f64 = 0.0;
        let mut keep = |found: &mut Vec<Found>, person: &Person, one: Option<(Worst, f64)>| {
            let Some((worst, flow)) = one else { return };
            glue = glue.max(flow);
            let entry = &mut found[person.place];
            match entry {
                Found::Worst(kept) => kept.keep(worst),
                _ => *entry = Found::Worst(worst),
            }
        };
        let hot_worst = self.solve(&self.solved.states.hot, hot, &people, false);
        people.iter().zip(&hot_worst).for_each(|(p, s)| keep(&mut found, p, s.worst));
        // A board follows the roof, most on a hot one.
        let curvature = if stance.footing == Footing::OnABoard {
            hot_worst.iter().map(|s| s.curvature).fold(0.0, f64::max)
        } else {
            0.0
        };
        // The cold roof: a few places first, all where it governs at any of them, and all of a few.
        let every = if people.len() <= FEW { 1 } else { COLD_EVERY };
        let (some, rest): (Vec<usize>, Vec<usize>) = (0..people.len()).partition(|k| (k / 2) % every == 0);
        let pick = |list: &[usize]| -> Vec<Person> { list.iter().map(|k| people[*k].clone()).collect() };
        let cold_some = self.solve(&self.solved.states.fresh, cold, &pick(&some), true);
        let governs = some.iter().zip(&cold_some).any(|(k, c)| match (&c.worst, &hot_worst[*k].worst) {
            (Some((c, _)), Some((h, _))) => c.ratio > h.ratio,
            _ => false,
        });
        let mut pulling: Vec<(f64, usize)> = Vec::new();
        let mut take = |list: &[usize], cold: Vec<Stood>| {
            for (k, stood) in list.iter().zip(cold) {
                keep(&mut found, &people[*k], stood.worst);
                if stood.pulls {
                    pulling.push((hot_worst[*k].worst.map_or(0.0, |(w, _)| w.ratio), *k));
                }
            }
        };
        take(&some, cold_some);
        if governs && !rest.is_empty() {
            take(&rest, self.solve(&self.solved.states.fresh, cold, &pick(&rest), true));
        }
        let pulls = pulling.len();
        if people.len() <= FEW {
            // Those that use most, once more with corners that would have to be held down let go.
            pulling.sort_by(|a, b| b.0.total_cmp(&a.0));
            pulling.truncate(LET_GO);
            let settled: Vec<_> = pulling.par_iter().map(|(_, k)| (*k, self.settled(&people[*k]))).collect();
            for (k, worst) in settled {
                // Nothing holds the roof: what is no number is the worst there is.
                let lost = Worst::of(Check::Sag, f64::INFINITY, self.roof.span / 2.0, self.roof.length / 2.0);
                keep(&mut found, &people[k], Some((worst.unwrap_or(lost), 0.0)));
            }
        }
        if let Some((patches, states)) = &self.solved.loose {
            for (plate, case) in [(&states.hot, hot), (&*states.fresh, cold)] {
                let worst = self.solve_loose(plate, states, case, patches, &people);
                people.iter().zip(worst).for_each(|(p, w)| keep(&mut found, p, w.map(|w| (w, 0.0))));
            }
        }
        let untried = self.local_feet(stance, curvature, &people, places, &mut found);
        for one in &mut found {
            if let Found::Worst(w) = one {
                (w.ratio, w.sure) = (w.ratio.min(RATIO_CAP), w.sure.min(RATIO_CAP));
            }
        }
        let mut unknown = self.unknown.clone();
        let context = &self.context;
        let strained = context.roof_hot != context.glued_at || context.cold.is_some();
        if strained && self.roof.braces.iter().any(|b| b.bonded) {
            unknown.push(Unknown {
                check: Check::GlueEnds,
                part: "braces".to_owned(),
                what: "strength left beside what heat and cold strain (ask `check`)".to_owned(),
            });
        }
        Trodden { found, untried, unknown, glue, pulls, cold_everywhere: governs || every == 1 }
    }

    /// The roof as a whole under each person, and whether contacts would have to pull.
    fn solve(&self, plate: &PlateRoof, case: &Case, people: &[Person], with_pulls: bool) -> Vec<Stood> {
        let reader = Reader::new(plate);
        let none = Response::default();
        // All stand alike: bare, or on one board.
        let footing = people.first().map_or(Footing::NotAFoot, |p| p.footing);
        let state = CaseState { footing, ..person_state(case, &self.solved.states.years, &none) };
        let scan = Scan::new(&self.context, &self.limits, &self.tubes, &reader, &plate.layout, state);
        let loads: Vec<_> = people.iter().map(|p| p.load.clone()).collect();
        let solved = reader.stand_each(&loads, |k, person| {
            let pulls = with_pulls && self.pulls(person.pushes()).is_some();
            let under = |foot: &Rect| curvature_under(person.sags(), foot).unwrap_or(f64::INFINITY);
            Stood {
                worst: Some(scan.worst(person, &people[k].feet)),
                pulls,
                curvature: people[k].feet.iter().map(under).fold(0.0, f64::max),
            }
        });
        solved.into_iter().map(Option::unwrap_or_default).collect()
    }

    /// Pushes of the contacts under a person with what stays on; nothing where none would have to pull.
    fn pulls(&self, (pushes, load): (Vec<f64>, f64)) -> Option<Vec<f64>> {
        let (years, whole) = (&self.solved.states.now.pushes, self.solved.states.now.load);
        let both: Vec<f64> = pushes.iter().zip(years).map(|(a, b)| a + b).collect();
        must_let_go(&self.solved.states.fresh.layout, &both, load + whole, Free::All).then_some(both)
    }

    /// The worst under a person with contacts that would have to pull let go, as the check solves it: every number.
    ///
    /// # Errors
    /// In words: nothing holds the roof.
    pub(crate) fn settled(&self, person: &Person) -> Result<Worst, String> {
        let load = [(Basis::Person(0), person.load.clone())];
        let fresh = &self.solved.states.fresh;
        let one = |plate: &PlateRoof| plate.solve(&load).map(|mut r| r.swap_remove(0));
        let (cold, hot) = (one(fresh)?, one(&self.solved.states.hot)?);
        let change = match self.pulls((cold.pushes.clone(), cold.load)) {
            Some(pushes) => fresh.let_go(&[(pushes, Free::All)])?.swap_remove(0),
            None => None,
        };
        let layout = &fresh.layout;
        let places = EdgePlaces::new(&self.context, layout);
        let gaps = beside_joints(&self.context, layout);
        let mut worst = Worst::of(Check::Sag, 0.0, 0.0, 0.0);
        for (mut top, case) in [(cold, &self.cases[0]), (hot, &self.cases[1])] {
            if let Some(change) = &change {
                top.add(change, 1.0);
            }
            let alone = person_state(case, &self.solved.states.years, &top);
            let state = CaseState { feet: &person.feet, footing: person.footing, ..alone };
            let (panel, _) = panel_findings(&self.context, &self.limits, layout, &state);
            let sag = sag_findings(&self.context, layout, &state);
            let braces = brace_findings(&self.context, layout, &state, &self.tubes);
            let trimmers = trimmer_findings(&self.context, layout, &state);
            let edges = edge_findings(&self.context, layout, &places, &state);
            let joints = joint_findings(&self.context, &self.limits, layout, &gaps, &state);
            let members = braces.into_iter().chain(trimmers);
            for f in panel.into_iter().chain(joints).chain(sag).chain(members).chain(edges) {
                worst.keep(Worst::of(f.check, f.ratio, f.x, f.y));
            }
        }
        Ok(worst)
    }

    /// Loose skins, by what they would carry if they were held.
    fn solve_loose(
        &self,
        plate: &PlateRoof,
        states: &States,
        case: &Case,
        patches: &[LoosePatch],
        people: &[Person],
    ) -> Vec<Option<Worst>> {
        let reader = Reader::new(plate);
        let layout = &plate.layout;
        let in_a_patch = |x: f64, y: f64, layer: usize| {
            patches
                .iter()
                .any(|p| p.layer == layer && (p.x0..=p.x1).contains(&x) && (p.y0..=p.y1).contains(&y))
        };
        let mut only = Layout::default();
        let mut years = Response::default();
        let mut cells = Vec::new();
        let mut number = BTreeMap::new();
        for (k, cell) in reader.cells.iter().enumerate() {
            let inside: Vec<usize> = cell
                .skins
                .clone()
                .filter(|s| in_a_patch(layout.skins[*s].x, layout.skins[*s].y, layout.skins[*s].layer))
                .collect();
            if !inside.is_empty() {
                cells.push(k);
            }
            for s in inside {
                number.insert(s, only.skins.len());
                only.skins.push(layout.skins[s]);
                years.skins.push(states.years.skins[s]);
            }
        }
        let loads: Vec<_> = people.iter().map(|p| p.load.clone()).collect();
        reader
            .stand_each(&loads, |_, person| {
                let mut top = Response { skins: years.skins.clone(), ..Response::default() };
                for k in &cells {
                    let cell = &reader.cells[*k];
                    person.skins(cell, &person.strains(cell), |at, stress| {
                        if let Some(n) = number.get(&at) {
                            top.skins[*n] = stress;
                        }
                    });
                }
                let state = CaseState { top: &top, ..person_state(case, &years, &top) };
                let found = loose_findings(&self.context, patches, &only, &state);
                let worst = found.into_iter().max_by(|a, b| a.ratio.total_cmp(&b.ratio))?;
                Some(Worst::of(worst.check, worst.ratio, worst.x, worst.y))
            })
            .into_iter()
            .map(Option::flatten)
            .collect()
    }

    /// Adds the local foot; a place where a check that counts cannot be made becomes one that is not checked.
    fn local_feet(
        &self,
        stance: &Stance<'_>,
        curvature: f64,
        people: &[Person],
        places: &[(f64, f64)],
        found: &mut [Found],
    ) -> Vec<Untried> {
        let mut make_ups = MakeUps::default();
        let [a, b] = self.factors.sole.map(|s| s / 2.0);
        let mut stands: Vec<(usize, Vec<usize>)> = Vec::new();
        for place in people.iter().map(|p| p.place) {
            if stands.last().is_some_and(|(last, _)| *last == place) {
                continue;
            }
            let (x, y) = places[place];
            let soles = [(0.0, 0.0), (a, b), (a, -b), (-a, b), (-a, -b), (b, a), (b, -a), (-b, a), (-b, -a)];
            let on_the_roof = |(dx, dy): (f64, f64)| {
                (
                    (x + dx).clamp(0.0, self.survey.roof.span.value),
                    (y + dy).clamp(0.0, self.survey.roof.length.value),
                )
            };
            let under = soles.into_iter().map(on_the_roof).filter(|(px, py)| !self.roof.is_open(*px, *py));
            let mut met: Vec<usize> = Vec::new();
            for (px, py) in under.chain(joints_by(self.roof, (x, y), a.max(b))) {
                let here = make_ups.at(&self.context, px, py);
                let beside = make_ups.void_by(&self.context, px, py);
                for number in beside.into_iter().chain([here]) {
                    if !met.contains(&number) {
                        met.push(number);
                    }
                }
            }
            stands.push((place, met));
        }
        let locals: Vec<Local> = make_ups.try_feet(&self.context, stance, curvature);
        let mut untried: Vec<Untried> = Vec::new();
        for (place, met) in stands {
            let (x, y) = places[place];
            for local in met.iter().map(|n| &locals[*n]) {
                if let (Found::Worst(kept), Some((check, ratio))) = (&mut found[place], local.worst) {
                    kept.keep(Worst::of(check, ratio, x, y));
                }
            }
            let fails = matches!(&found[place], Found::Worst(w) if w.sure > 1.0);
            let missing: Vec<&Untried> = met.iter().flat_map(|n| &locals[*n].untried).collect();
            for one in &missing {
                if !untried.contains(one) {
                    untried.push((*one).clone());
                }
            }
            // What fails another check fails, whatever is not known beside it.
            if !missing.is_empty() && !fails {
                found[place] = Found::NotChecked;
            }
        }
        untried
    }

    /// As it is read by [`Ground::tread`], every cell read: for tests.
    #[cfg(test)]
    pub(crate) fn full_and_quick(&self, person: &Person) -> Option<(Worst, Worst)> {
        let reader = Reader::new(&self.solved.states.hot);
        let none = Response::default();
        let alone = person_state(&self.cases[1], &self.solved.states.years, &none);
        let state = CaseState { footing: person.footing, ..alone };
        let scan = Scan::new(
            &self.context,
            &self.limits,
            &self.tubes,
            &reader,
            &self.solved.states.hot.layout,
            state,
        );
        let feet = &person.feet;
        let loads = [person.load.clone()];
        let both =
            |_: usize, s: &crate::plate::Standing<'_>| (scan.worst_of_all(s, feet), scan.worst(s, feet).0);
        reader.stand_each(&loads, both).pop().flatten()
    }
}

/// Places on the joints that a foot about a place comes so near to that its skin bends as beside an edge.
pub(super) fn joints_by(roof: &IdealRoof, (x, y): (f64, f64), half: f64) -> Vec<(f64, f64)> {
    let reach = half + edge_strip(roof);
    let foot = Rect { x0: x - reach, x1: x + reach, y0: y - reach, y1: y + reach };
    let near = |r: &&Rect| foot.x0 < r.x1 && r.x0 < foot.x1 && foot.y0 < r.y1 && r.y0 < foot.y1;
    let inside = |at: f64, from: f64, to: f64| {
        let off = (to - from) / 1000.0;
        at.clamp(from + off, to - off)
    };
    let rects = roof.joints.iter().map(|j| &j.rect).filter(near);
    rects.map(|r| (inside(x, r.x0, r.x1), inside(y, r.y0, r.y1))).collect()
}

/// What stays on in a person's case.
fn lasting(survey: &Survey, factors: &Factors, case: &Case) -> Vec<(Basis, BasisLoad)> {
    let all = basis_set(survey, factors, &[]).lasting;
    all.into_iter().filter(|(b, _)| case.years.iter().any(|(t, _)| t == b)).collect()
}

/// Factors of a roof in its three states, and what stays on it.
fn states(
    survey: &Survey,
    factors: &Factors,
    roof: &IdealRoof,
    shape: &Arc<PlateShape>,
    variant: &Variant,
    case: &Case,
    layouts: &Layouts,
) -> Result<States, String> {
    let make = |time| PlateRoof::new(roof, shape, variant.materials, time, layouts);
    let hot = make(Time::Hot)?;
    let lasting = lasting(survey, factors, case);
    let stays = |plate: &PlateRoof| -> Result<Response, String> {
        let solved: BTreeMap<Basis, Response> =
            lasting.iter().map(|(b, _)| *b).zip(plate.solve(&lasting)?).collect();
        Ok(sum(&plate.layout, &solved, &case.years))
    };
    let (years, fresh) = rayon::join(
        || make(Time::Aged).and_then(|aged| stays(&aged).map(|s| (aged, s))),
        || make(Time::Fresh).and_then(|fresh| stays(&fresh).map(|s| (fresh, s))),
    );
    let ((fresh, now), (aged, years)) = (fresh?, years?);
    Ok(States { hot, fresh: Arc::new(fresh), aged, years, now })
}

/// The most that a glue line uses parked and on the road; it decides whether the bond counts at all.
fn glue_without_people(
    survey: &Survey,
    factors: &Factors,
    context: &Context<'_>,
    states: &States,
    tubes: &[Result<TubeStrength, String>],
    framed: bool,
) -> Result<Option<f64>, String> {
    let set = basis_set(survey, factors, &[]);
    let on = |plate: &PlateRoof| -> Result<BTreeMap<Basis, Response>, String> {
        Ok(set.all.iter().map(|(b, _)| *b).zip(plate.solve(&set.all)?).collect())
    };
    let (fresh, hot, aged) = (on(&states.fresh)?, on(&states.hot)?, on(&states.aged)?);
    let cases = permanent_cases(survey, factors);
    let solved = Solved {
        layout: states.hot.layout.clone(),
        fresh,
        aged,
        hot,
        let_go: letting_go(states.fresh.clone()),
    };
    Ok(glue_and_ends_ratio(&evaluate(context, &solved, &cases, tubes, framed).findings))
}
