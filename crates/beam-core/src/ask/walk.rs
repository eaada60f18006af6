//! Where may a person stand, and on which board.
//!
//! A raster of places, each with a foot both ways round, is tried on the roof with default materials: every person is
//! one more load on roofs that are factorised already. The places that use most are tried again with low and high
//! materials, and so are the boards; the words rest on all three.

mod boards;
mod document;
mod feet;
mod ground;
mod judge;
mod raster;
mod scan;
#[cfg(test)]
mod tests;
mod words;

pub use document::{Places, StageAnswer, WalkBoardWords, WalkDocument, WorstPlace};

use std::sync::{Arc, Mutex};

use rayon::join;

use super::check::{AskError, grain_matters, stage};
use super::places::edge_strip;
use super::study::{Trouble, Variant};
use crate::check::{
    At, Bond, Bracing, Finite, MadeWith, Materials, NotChecked, NotFinite, Pressed, ReadIn, Unknown, Untried,
    Verdict, counts, own_tables,
};
use crate::loads::{Factors, Footing};
use crate::model::{Hold, IdealRoof, Missing, StageChoice, idealise, kind_is_modelled};
use crate::plate::Layouts;
use crate::response::is_worse;
use crate::survey::{AluminiumRules, Board, Survey};
use ground::Found;
use judge::{Answered, Asked, Stage, Together, may_hold, together, untried, worst_places};
use raster::Raster;
use section_tables::Tables;

/// Name of the stage in which a roof is met.
const AS_FOUND: &str = "as found";
/// Places of the map, at least.
const PLACES: usize = 1640;
/// Places at which other ways of standing are tried, at least.
const FEWER: usize = 220;
/// Places tried again in the other brackets.
const AGAIN: usize = 12;

/// What is asked of [`walk`] beside the survey.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct WalkOptions {
    /// Name of the stage to walk in: "as found", "finished" (the default), or one of the survey's.
    pub stage: Option<String>,
}

/// A stage judged: without a board, on the surveyed board, and on the boards that were tried.
#[derive(Clone)]
pub(crate) struct Walked {
    pub stage: String,
    pub bare: Told,
    pub on_board: Told,
    /// Boards that were tried, smallest first, with what came of them.
    pub boards: Vec<(Board, Together)>,
}

/// One way of standing, judged.
#[derive(Clone)]
pub(crate) struct Told {
    pub together: Together,
    /// The worst in default materials, with the place it was found at.
    pub worst: Option<(scan::Worst, (f64, f64))>,
    /// Its ratio with low, default and high materials.
    pub by_materials: [Option<f64>; 3],
    /// The worst in any materials, of the places that were tried in all of them.
    pub most: Option<(scan::Worst, (f64, f64))>,
    /// Share of the places where it fails with default materials.
    pub failing: f64,
}

/// The map, as it was found.
struct Map {
    raster: Raster,
    found: Vec<Found>,
    unknowns: usize,
    pulls: usize,
    cold_everywhere: bool,
}

/// Where a person may stand.
///
/// # Errors
/// [`AskError`]. What merely cannot be judged is no error: it is told in the document.
///
/// # Examples
/// ```
/// use beam_core::{ask, survey};
/// use section_tables::Tables;
///
/// let text = r#"
/// survey = 1
/// title = "Seed library, reading bay"
/// lengths = "mm"
/// weights = "kg"
/// [roof]
/// kind = "laminated"
/// span = "2000"
/// rise = "30"
/// length = "1500"
/// like = "ply 3 / bead foam 50 / ply 3"
/// "#;
/// let tables = Tables::shipped();
/// let survey = survey::read_text("bay.toml", text, tables).expect("a sound survey");
/// let answer = ask::walk(&survey, tables, ask::WalkOptions::default())?;
/// assert_eq!(answer.answers[0].stage, "as found");
/// assert_eq!(answer.places.ratio.len(), answer.places.along.len());
/// # Ok::<(), ask::AskError>(())
/// ```
pub fn walk(survey: &Survey, tables: &Tables, options: WalkOptions) -> Result<WalkDocument, AskError> {
    let mut factors = Factors::of(survey, tables)?;
    // Places are tried by sums of what one newton does, and EN 1999-1-1 does not add.
    if survey.limits.aluminium == AluminiumRules::En1999 {
        factors.aluminium = factors.aluminium.allowable();
    }
    let (choice, name) = stage(survey, options.stage.as_deref())?;
    let mut gaps = words::gaps(survey, &factors, choice);
    let grains: &[bool] = if grain_matters(survey) { &[true, false] } else { &[true] };
    let pressed: Arc<Pressed> = Arc::default();
    let stage_of = |choice: StageChoice| {
        let braced = survey.braces.iter().any(|b| !b.existing) && choice != StageChoice::AsFound;
        let bracing = if braced { Bracing::With } else { Bracing::Without };
        let variant = Variant {
            stage: choice,
            bracing,
            bond: Bond::Full,
            materials: Materials::Default,
            grain_across: true,
            hold: Hold::all(survey)[0],
        };
        Stage {
            survey,
            factors: &factors,
            variant,
            grains,
            kept: Mutex::default(),
            layouts: Layouts::default(),
            pressed: pressed.clone(),
        }
    };
    let asked = stage_of(choice);
    let roof = if kind_is_modelled(survey.roof.kind) {
        idealise(survey, asked.variant.configuration(), Materials::Default, true)
            .map_err(|missing| gaps.extend(missing.into_iter().map(lost)))
            .ok()
    } else {
        None
    };
    let Some(roof) = roof else {
        return finish(survey, &factors, tables, (&name, None), &[], None, gaps).map_err(Into::into);
    };
    let boards = boards::stock(survey, tables);
    let as_found = stage_of(StageChoice::AsFound);
    let found_roof = idealise(survey, as_found.variant.configuration(), Materials::Default, true);
    // Where nothing is mended or added it is the same roof, and one answer serves both.
    let same = found_roof.as_ref().is_ok_and(|r| *r == roof);
    let before = || -> Option<Judged> {
        let asked = choice != StageChoice::AsFound && !same;
        asked.then(|| {
            let roof = found_roof.map_err(Trouble::Missing)?;
            judge_stage(&as_found, AS_FOUND, &roof, false, &[])
        })
    };
    let (main, before) = join(|| judge_stage(&asked, &name, &roof, true, &boards), before);
    let mut stages = Vec::new();
    if let (Ok((walked, ..)), true) = (&main, same && choice != StageChoice::AsFound) {
        stages.push(Walked { stage: AS_FOUND.to_owned(), boards: Vec::new(), ..walked.clone() });
    }
    let mut map = None;
    for one in before.into_iter().chain([main]) {
        match one {
            Ok((walked, its_map, (feet, strengths))) => {
                stages.push(walked);
                map = its_map.or(map);
                words::add_untried(&mut gaps, &feet);
                words::add_unknown(&mut gaps, &strengths);
            }
            Err(Trouble::NotFinite(e)) => return Err(e.into()),
            Err(Trouble::Missing(list)) => gaps.extend(list.into_iter().map(lost)),
        }
    }
    finish(survey, &factors, tables, (&name, Some(&roof)), &stages, map, gaps).map_err(Into::into)
}

/// Feet that could not be tried, and strengths that are not known.
type Gaps = (Vec<Untried>, Vec<Unknown>);

/// A stage judged, its map where one was asked for, and what was not checked.
type Judged = Result<(Walked, Option<Map>, Gaps), Trouble>;

/// A gap where something could not be modelled.
fn lost(missing: Missing) -> NotChecked {
    NotChecked { check: "all".to_owned(), part: missing.part, why: missing.why, blocks: true }
}

/// The way the map is for: nobody is taken to be on a board.
fn surveyed(survey: &Survey) -> Footing {
    Footing::of(survey.person.way).unwrap_or(Footing::OnABoard)
}

/// Judges one stage; with `fine`, on the raster of the map, and with boards.
fn judge_stage(stage: &Stage<'_>, name: &str, roof: &IdealRoof, fine: bool, boards: &[Board]) -> Judged {
    let survey = stage.survey;
    let main = surveyed(survey);
    let other = if main == Footing::Bare { Footing::OnABoard } else { Footing::Bare };
    let raster = Raster::over(roof, stage.factors, if fine { PLACES } else { FEWER });
    let sparse = Raster::over(roof, stage.factors, FEWER);
    let on = |footing, raster: &Raster| Asked {
        survey: survey.clone(),
        footing,
        places: raster.places(),
        order: raster.in_tiles(),
    };
    let asked = [on(main, &raster), on(other, &sparse)];
    let first: Answered = stage.tread(Materials::Default, &asked)?;
    // The places that use most, once more in every bracket; and every board there.
    let at = |k: usize| -> Vec<(f64, f64)> {
        worst_places(&first.trodden[k].found, AGAIN).into_iter().map(|n| asked[k].places[n]).collect()
    };
    let worst: Vec<Vec<(f64, f64)>> = (0..2).map(at).collect();
    let mut again: Vec<Asked> =
        vec![Asked::at(survey, main, worst[0].clone()), Asked::at(survey, other, worst[1].clone())];
    for board in boards {
        let mut with = survey.clone();
        with.person.board = board.clone();
        again.push(Asked::at(&with, Footing::OnABoard, [worst[0].clone(), worst[1].clone()].concat()));
    }
    let middle = stage.tread(Materials::Default, &again);
    // A board that is too little already in the middle bracket is not looked for in the others.
    let mut number = vec![Some(0), Some(1)];
    let mut few: Vec<Asked> = again[..2].to_vec();
    for (k, board) in again.iter().enumerate().skip(2) {
        let does = middle.as_ref().is_ok_and(|a| a.trodden.get(k).is_some_and(|t| may_hold(&t.found)));
        number.push(does.then_some(few.len()));
        if does {
            few.push(board.clone());
        }
    }
    let outer = stage.tread_each(&[Materials::Low, Materials::High], &few);
    let solved: [Option<&Answered>; 3] =
        [outer[0].1.as_ref().ok(), middle.as_ref().ok(), outer[1].1.as_ref().ok()];
    let in_brackets = |k: usize| -> [Option<&[Found]>; 3] {
        [0, 1, 2].map(|b| {
            let at = if b == 1 { Some(k) } else { number[k] };
            solved[b].zip(at).map(|(a, at)| a.trodden[at].found.as_slice())
        })
    };
    let told = |k: usize| -> Told {
        let found = &first.trodden[k].found;
        let mut judged = together(in_brackets(k));
        let unknown = found.contains(&Found::NotChecked);
        if unknown && judged == Together::Holds {
            judged = Together::NotKnown;
        }
        let at = |found: &Found, place: &(f64, f64)| found.worst().map(|w| (w, *place));
        // The first of those tried again is the worst of all.
        let worst = worst_places(found, 1).first().and_then(|n| at(&found[*n], &asked[k].places[*n]));
        let by_materials = solved.map(|s| s?.trodden[k].found.first()?.ratio());
        let others = solved.iter().flatten().flat_map(|s| s.trodden[k].found.iter().zip(&again[k].places));
        let most = worst.into_iter().chain(others.filter_map(|(found, place)| at(found, place)));
        let most = most.reduce(|kept, one| if is_worse(one.0.ratio, kept.0.ratio) { one } else { kept });
        let stands = found.iter().filter_map(Found::ratio);
        let (all, fail) = stands.fold((0usize, 0usize), |(a, f), r| (a + 1, f + usize::from(r > 1.0)));
        Told { together: judged, worst, by_materials, most, failing: fail as f64 / all.max(1) as f64 }
    };
    let (a, b) = (told(0), told(1));
    let (bare, on_board) = if main == Footing::Bare { (a, b) } else { (b, a) };
    let boards =
        boards.iter().enumerate().map(|(k, board)| (board.clone(), together(in_brackets(2 + k)))).collect();
    // Only what counts for the way surveyed keeps the answer from "holds".
    let strengths: Vec<Unknown> = first.trodden.iter().flat_map(|t| t.unknown.clone()).collect();
    let mut feet = untried(first.trodden.iter());
    feet.sort_by_key(|(check, footing, _)| !counts(*check, *footing, survey.person.way));
    let one = first.trodden.into_iter().next();
    let map = one.filter(|_| fine).map(|t| Map {
        raster,
        found: t.found,
        unknowns: first.unknowns,
        pulls: t.pulls,
        cold_everywhere: t.cold_everywhere,
    });
    Ok((Walked { stage: name.to_owned(), bare, on_board, boards }, map, (feet, strengths)))
}

/// Lays the document out.
fn finish(
    survey: &Survey,
    factors: &Factors,
    tables: &Tables,
    (stage, roof): (&str, Option<&IdealRoof>),
    stages: &[Walked],
    map: Option<Map>,
    gaps: Vec<NotChecked>,
) -> Result<WalkDocument, NotFinite> {
    let strip = roof.filter(|r| !r.openings.is_empty()).map(edge_strip);
    let footing = surveyed(survey);
    let mut answers: Vec<StageAnswer> =
        stages.iter().map(|w| words::answer(survey, w, strip, &gaps)).collect();
    for missing in [AS_FOUND, stage].into_iter().filter(|s| !stages.iter().any(|w| w.stage == *s)) {
        if !answers.iter().any(|a| a.stage == missing) {
            answers.push(words::not_known(missing, &gaps));
        }
    }
    let main = stages.iter().find(|w| w.stage == stage);
    let (board, board_words) = words::board(survey, main)?;
    let verdict = main.map_or(Verdict::CannotSay, |w| words::verdict(w, footing, board.is_some(), &gaps));
    let worst = main.and_then(|w| if footing == Footing::Bare { w.bare.worst } else { w.on_board.worst });
    let by_materials = main.map_or([None; 3], |w| {
        if footing == Footing::Bare { w.bare.by_materials } else { w.on_board.by_materials }
    });
    let n = |value: f64, what: &str| Finite::new(value, what);
    let worst = worst
        .map(|(w, (x, y))| -> Result<WorstPlace, NotFinite> {
            let [low, default, high] = by_materials.map(|r| r.map(|r| n(r, "ratio")).transpose());
            Ok(WorstPlace {
                across: n(x, "place")?,
                along: n(y, "place")?,
                ratio: n(w.ratio, "ratio")?,
                ratio_by_materials: [low?, default?, high?],
                check: w.check.name().to_owned(),
                at: At { across: n(w.x, "place")?, along: n(w.y, "place")? },
            })
        })
        .transpose()?;
    let mut assumptions = words::assumptions(survey, factors, map.as_ref());
    assumptions.extend(own_tables(tables));
    Ok(WalkDocument {
        schema: 1,
        made_with: MadeWith::new(tables, &[factors.aluminium.rules.name()], Some(&survey.hash)),
        title: survey.title.clone(),
        read_in: ReadIn(survey.family),
        stage: stage.to_owned(),
        way: if footing == Footing::Bare { "bare" } else { "on a board" }.to_owned(),
        surveyed_board: (footing == Footing::OnABoard)
            .then(|| boards::board_words(&survey.person.board))
            .transpose()?,
        verdict,
        answers,
        board,
        board_words,
        edge_strip: strip.map(|s| n(s, "edge strip")).transpose()?,
        places: map.as_ref().map_or_else(|| Ok(Places::default()), places)?,
        worst,
        unknowns: map.as_ref().map_or(0, |m| m.unknowns as u64),
        not_checked: gaps,
        assumptions,
        cautions: words::cautions(survey, strip),
    })
}

/// The map in rows along.
fn places(map: &Map) -> Result<Places, NotFinite> {
    let numbers = |list: &[f64]| list.iter().map(|v| Finite::new(*v, "place")).collect::<Result<Vec<_>, _>>();
    let mut out = Places {
        across: numbers(&map.raster.across)?,
        along: numbers(&map.raster.along)?,
        ..Places::default()
    };
    for row in map.found.chunks(map.raster.across.len()) {
        let (mut ratios, mut checks, mut unknown) = (Vec::new(), Vec::new(), Vec::new());
        for one in row {
            unknown.push(*one == Found::NotChecked);
            let Found::Worst(w) = one else {
                ratios.push(None);
                checks.push(None);
                continue;
            };
            ratios.push(Some(Finite::new(w.ratio, "ratio of a place")?));
            let name = w.check.name();
            let index = out.checks.iter().position(|c| c == name).unwrap_or_else(|| {
                out.checks.push(name.to_owned());
                out.checks.len() - 1
            });
            checks.push(Some(index));
        }
        out.ratio.push(ratios);
        out.check.push(checks);
        out.unknown.push(unknown);
    }
    Ok(out)
}
