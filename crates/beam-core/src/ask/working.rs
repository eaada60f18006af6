//! The checks that govern, worked through as by hand: the one that decides and the tightest of each part.
//!
//! The roof of each is solved again just as it was for the check, cause by cause; the place and the case are those of the
//! table, and the ratio that comes out is held to the table's before anything is shown.

use std::collections::BTreeMap;
use std::sync::Arc;

use section_tables::Tables;

use super::beside::{Around, bracket, variant_of};
use super::document::{Study, cite, footed, raised_ledger};
use super::evaluate::{Solved, contacts_let_go};
use super::solve::solve_plate;
use super::study::{Job, Trouble, Variant};
use crate::check::working::{AGREE, Share, Step, Worked, Working, n, plain, step};
use crate::check::{
    Asked, At, CaseState, Check, Context, Finding, Finite, Key, Ledger, NotFinite, PanelLimits, TubeStrength,
    counts, deciding, heat_in_tube, tube_strengths, verdict, working,
};
use crate::loads::{Basis, Case, Footing};
use crate::model::IdealRoof;
use crate::plate::{GridSize, shape};
use crate::response::{Response, SkinStress};
use crate::survey::{HeavyEnd, Survey};

/// Beneath this use of its limit a part is not worked through.
const WORTH_IT: f64 = 0.05;

/// Rank, key and finding of a check to work through.
type Wanted<'a> = (usize, &'a Key, &'a Finding);

/// Works through what governs; nothing where nothing was studied.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn working(
    around: &Around<'_>,
    study: &Study,
    tables: &Tables,
) -> Result<Vec<Working>, NotFinite> {
    let asked = Asked { new_braces: study.braced, way: around.survey.person.way };
    let ledger = raised_ledger(study);
    let mut by_variant: Vec<(Variant, Vec<Wanted<'_>>)> = Vec::new();
    for (rank, (key, finding)) in governing(&ledger, asked).into_iter().enumerate() {
        let Some(materials) = bracket(&ledger, key, finding) else { continue };
        let variant = variant_of(around, study, key, materials);
        match by_variant.iter_mut().find(|(v, _)| *v == variant) {
            Some((_, list)) => list.push((rank, key, finding)),
            None => by_variant.push((variant, vec![(rank, key, finding)])),
        }
    }
    let job = Job::new(around.survey, around.factors, around.stage_name.to_owned(), around.people.to_vec());
    let mut out = Vec::new();
    for (variant, wanted) in by_variant {
        match of_variant(&job, study, &variant, &wanted, tables) {
            Ok(list) => out.extend(list),
            Err(Trouble::NotFinite(error)) => return Err(error),
            // It was solved once; what is in the way now was told then.
            Err(Trouble::Missing(_)) => {}
        }
    }
    out.sort_by_key(|(rank, _)| *rank);
    Ok(out.into_iter().map(|(_, w)| w).collect())
}

/// What decides, then the tightest of each part.
fn governing(ledger: &Ledger, asked: Asked) -> Vec<(&Key, &Finding)> {
    let found = verdict(ledger.iter(), &[], asked);
    let mut out: Vec<(&Key, &Finding)> = deciding(ledger.iter(), found, asked).into_iter().collect();
    let Some(bracing) = out.first().map(|(k, _)| k.bracing) else { return out };
    let mut tightest: BTreeMap<(&str, Footing, bool), (&Key, &Finding)> = BTreeMap::new();
    let here = ledger.iter().filter(|(k, _)| k.bracing == bracing && counts(k.check, k.footing, asked.way));
    for (key, finding) in here.flat_map(|(k, f)| f.iter().flatten().map(move |f| (k, f))) {
        // The bending of a brace is worked through beside whatever of it is tightest.
        let of = (key.part.as_str(), key.footing, key.check == Check::Brace);
        let slot = tightest.entry(of).or_insert((key, finding));
        if finding.ratio > slot.1.ratio {
            *slot = (key, finding);
        }
    }
    let mut rest: Vec<_> = tightest.into_values().filter(|(_, f)| f.ratio >= WORTH_IT).collect();
    rest.sort_by(|a, b| b.1.ratio.total_cmp(&a.1.ratio));
    out.extend(
        rest.into_iter()
            .filter(|(k, _)| {
                let (first, _) = out[0];
                (k.check, &k.part, k.footing) != (first.check, &first.part, first.footing)
            })
            .collect::<Vec<_>>(),
    );
    out
}

/// A roof solved again.
struct Again<'a> {
    survey: &'a Survey,
    context: Context<'a>,
    limits: PanelLimits,
    solved: Solved,
    tubes: Vec<Result<TubeStrength, String>>,
}

fn of_variant(
    job: &Job<'_>,
    study: &Study,
    variant: &Variant,
    wanted: &[Wanted<'_>],
    tables: &Tables,
) -> Result<Vec<(usize, Working)>, Trouble> {
    let missing = super::study::missing;
    let roof: IdealRoof = job.roof(variant)?;
    let context = Context::new(job.survey, &roof, job.factors, variant.materials).map_err(missing)?;
    let shape = Arc::new(shape(&roof, &job.wanted, GridSize::DEFAULT).map_err(missing)?);
    let (solved, _) =
        solve_plate(&roof, &shape, variant.materials, &job.set, &job.layouts).map_err(missing)?;
    let tubes = tube_strengths(&roof, job.factors);
    let limits = PanelLimits::new(&context, &solved.layout.states, job.framed());
    let again = Again { survey: job.survey, context, limits, solved, tubes };
    let mut out = Vec::new();
    for (rank, key, finding) in wanted {
        let model_factor = again.context.model_factor;
        let grid = raised(study, key);
        let told = finding.ratio / (model_factor * grid);
        let agrees = |w: &Worked| (w.ratio / told - 1.0).abs() <= AGREE;
        let worked = match worked(&again, &job.cases, finding)?.into_iter().find(agrees) {
            Some(w) => w,
            None => plain(finding, model_factor * grid)?,
        };
        out.push((*rank, finish(worked, key, finding, variant, [model_factor, grid], tables)?));
    }
    Ok(out)
}

/// What the finer grid multiplied a check with.
fn raised(study: &Study, key: &Key) -> f64 {
    let of = |most: &Finding| most.check == key.check && most.part == key.part && most.footing == key.footing;
    study.finer.as_ref().filter(|(most, _)| of(most)).map_or(1.0, |(_, factor)| factor.max(1.0))
}

/// Adds model factor and grid, and the sources spelt out.
fn finish(
    worked: Worked,
    key: &Key,
    finding: &Finding,
    variant: &Variant,
    [model_factor, grid]: [f64; 2],
    tables: &Tables,
) -> Result<Working, NotFinite> {
    let mut steps = worked.steps;
    let mut product = format!("{} x {}", n(worked.ratio), n(model_factor));
    let mut formula = "u x model factor".to_owned();
    if grid > 1.0 {
        steps.push(step(
            ("g", "what a grid twice as fine multiplies it with"),
            "u(fine)/u",
            String::new(),
            (grid, "-"),
            "the same place, solved on cells half as wide",
        )?);
        product = format!("{product} x {}", n(grid));
        formula.push_str(" x g");
    }
    steps.push(step(
        ("ratio", "ratio of the table"),
        &formula,
        product,
        (finding.ratio, "-"),
        "model factor 1.05 or the survey's: common practice, no source",
    )?);
    let spelt = |s: Step| Step { source: cite(tables, &s.source), ..s };
    Ok(Working {
        check: key.check.name().to_owned(),
        part: footed(&key.part, key.footing),
        load: finding.load.clone(),
        bracing: key.bracing,
        materials: variant.materials,
        at: At {
            across: Finite::new(finding.x, "place of a working")?,
            along: Finite::new(finding.y, "place of a working")?,
        },
        causes: worked.causes,
        steps: steps.into_iter().map(spelt).collect(),
    })
}

/// Every way that the case, place and direction of a finding may be worked through.
fn worked(again: &Again<'_>, cases: &[Case], finding: &Finding) -> Result<Vec<Worked>, NotFinite> {
    if matches!(finding.check, Check::Dent | Check::Heel) {
        return Ok(working::foot(&again.context, finding, again.survey.person.mass.value)?
            .into_iter()
            .collect());
    }
    let mut out = Vec::new();
    let same =
        |c: &&Case| c.name == finding.load && c.footing == finding.footing && c.person == finding.person;
    for case in cases.iter().filter(same) {
        out.extend(in_case(again, case, finding)?);
    }
    Ok(out)
}

fn in_case(again: &Again<'_>, case: &Case, finding: &Finding) -> Result<Vec<Worked>, NotFinite> {
    let (context, solved) = (&again.context, &again.solved);
    let layout = &solved.layout;
    let top_state = if case.hot { &solved.hot } else { &solved.fresh };
    let mut parts: Vec<(String, bool, f64, &Response)> = Vec::new();
    for (terms, years, state) in [(&case.years, true, &solved.aged), (&case.top, false, top_state)] {
        for (basis, factor) in terms {
            if let Some(response) = state.get(basis) {
                parts.push((told(again.survey, basis, *factor, years), years, *factor, response));
            }
        }
    }
    let change = contacts_let_go(solved, case);
    if let Some(change) = &change {
        parts.push(("edges that lift off".to_owned(), false, 1.0, change));
    }
    let nothing = Response::zero(layout);
    let state = CaseState::new(case, &nothing, &nothing);
    let at = |x: f64, y: f64| (x - finding.x).abs() < 1e-9 && (y - finding.y).abs() < 1e-9;
    let layer = context.roof.layers.iter().position(|l| l.name == finding.part);
    let mut out = Vec::new();
    match (finding.check, layer) {
        (Check::CoreShear, Some(layer)) => {
            for (i, p) in layout.cores.iter().enumerate().filter(|(_, p)| p.layer == layer && at(p.x, p.y)) {
                let shares = shares(&parts, |r, f| r.cores[i].map(|t| f * t));
                let left = &layout.states[p.state][layer];
                out.extend(working::core_shear(context, layer, left, &state, &shares)?);
            }
        }
        (Check::OuterSkin | Check::InnerSkin | Check::Wrinkling, Some(layer)) => {
            for (i, p) in layout.skins.iter().enumerate().filter(|(_, p)| p.layer == layer && at(p.x, p.y)) {
                let mut shares = shares(&parts, |r, f| {
                    let mut s = SkinStress::default();
                    s.add(&r.skins[i], f);
                    s
                });
                let by_a_foot = again.limits.by_a_bare_foot(&state, p.x, p.y);
                for share in shares.iter_mut().filter(|s| !s.years) {
                    share.value = share.value.judged(by_a_foot);
                }
                let states = &layout.states[p.state];
                out.extend(if finding.check == Check::Wrinkling {
                    working::wrinkling(context, layer, states, &state, &shares)?
                } else {
                    working::skin(context, layer, &states[layer], &state, &shares)?
                });
            }
        }
        (Check::Sag | Check::SagLasting, _) => {
            for (i, _) in layout.sag.iter().enumerate().filter(|(_, p)| at(p.0, p.1)) {
                let shares = shares(&parts, |r, f| f * r.sag[i]);
                let lasting = finding.check == Check::SagLasting;
                out.push(working::sag(finding.limit, lasting, &shares, finding.basis.source.as_ref())?);
            }
        }
        (Check::Brace, _) => {
            for (i, p) in layout.braces.iter().enumerate() {
                let brace = &context.roof.braces[p.brace];
                if !at(p.x, brace.y) || finding.part != format!("brace {}", brace.name) {
                    continue;
                }
                let Ok(strength) = &again.tubes[p.brace] else { continue };
                let mut shares = shares(&parts, |r, f| {
                    let b = r.braces[i];
                    crate::response::BraceForces {
                        axial: f * b.axial,
                        moment: f * b.moment,
                        shear: f * b.shear,
                        flow: f * b.flow,
                        torsion: f * b.torsion,
                    }
                });
                if let Some(heat) = heat_in_tube(context, &state, p.brace) {
                    shares.push(working::heat(&shares, &heat, case.dynamic));
                }
                out.push(working::brace(strength, finding.x, case.dynamic, &shares)?);
            }
        }
        _ => {}
    }
    Ok(out)
}

fn shares<T>(parts: &[(String, bool, f64, &Response)], of: impl Fn(&Response, f64) -> T) -> Vec<Share<T>> {
    parts
        .iter()
        .map(|(what, years, factor, r)| Share { what: what.clone(), years: *years, value: of(r, *factor) })
        .collect()
}

/// A cause in words.
fn told(survey: &Survey, basis: &Basis, factor: f64, years: bool) -> String {
    let end = |e: &HeavyEnd| match e {
        HeavyEnd::Front => "front",
        HeavyEnd::Rear => "rear",
        HeavyEnd::Left => "left",
        HeavyEnd::Right => "right",
    };
    let what = match basis {
        Basis::SelfWeight => "own weight".to_owned(),
        Basis::Unit(e) => format!("unit, heavy to the {}", end(e)),
        Basis::Tipping(e) => format!("unit tipping to the {}", end(e)),
        Basis::Load(i) => survey.loads[*i].name.clone(),
        Basis::Fitting(e) => format!("unit set down on its {} edge", end(e)),
        Basis::Snow => "snow".to_owned(),
        Basis::Wind => "wind".to_owned(),
        Basis::Sprung => "springing in".to_owned(),
        Basis::Prop(i) => format!("prop {}", i + 1),
        Basis::Person(_) if survey.person.count > 1 => "persons".to_owned(),
        Basis::Person(_) => "person".to_owned(),
    };
    if years || factor == 1.0 { what } else { format!("{what}, {} times", n(factor)) }
}
