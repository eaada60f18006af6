//! Props under a roof in a stage of the work: how hard each pushes, and which let go.
//!
//! A prop pushes up on its pad as hard as it must so that the roof there sags no deeper than the prop allows, and never
//! pulls. What it allows is the roof as it was found, under its own weight with all its damage, less what it was
//! lifted by. The pushes are the redundant forces of the force method; which props push is the complementarity
//! problem of contacts.

use std::sync::Arc;

use super::evaluate::{Solved, sum};
use super::reading::sag_at;
use super::study::{Job, Studied, Variant};
use crate::check::{Bracing, NotChecked, PropLoad, Verdict};
use crate::loads::{Basis, BasisLoad, Case, CaseKind, Term};
use crate::model::{Configuration, IdealRoof, Rect, StageChoice, Time, idealise};
use crate::plate::{GridSize, PlateRoof, shape};
use crate::quantity::{force, tape};
use crate::response::{Layout, Response};
use crate::survey::{Prop, Stage, Survey};

/// Side of the pad of a prop for which none is given, m: common practice, no source; its pressure is not judged.
const BARE_HEAD: f64 = 0.1;
/// A push below this is none, N.
const FELT: f64 = 1.0;
/// Rounds of the search, and the change of the largest push at which it has settled.
const ROUNDS: usize = 20_000;
const SETTLED: f64 = 1e-10;
/// Less flexible than this, m/N, a place has a wall under it: there is nothing to prop.
const RIGID: f64 = 1e-12;

/// A prop with its pad.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pad {
    pub rect: Rect,
    pub given: bool,
}

/// The survey's own stage of a name.
pub(crate) fn stage_named<'s>(survey: &'s Survey, name: &str) -> Option<&'s Stage> {
    survey.stages.iter().find(|s| s.name == name)
}

/// The pads of a stage's props, cut off at the roof's edges.
pub(crate) fn pads(survey: &Survey, stage: &str) -> Vec<Pad> {
    let (span, length) = (survey.roof.span.value, survey.roof.length.value);
    let pad = |p: &Prop| {
        let [w, l] = p.pad.map_or([BARE_HEAD; 2], |pad| pad.map(|s| s.value));
        let (x, y) = (p.across.value, p.along.value);
        let rect = Rect {
            x0: (x - w / 2.0).max(0.0),
            x1: (x + w / 2.0).min(span),
            y0: (y - l / 2.0).max(0.0),
            y1: (y + l / 2.0).min(length),
        };
        Pad { rect, given: p.pad.is_some() }
    };
    stage_named(survey, stage).map_or_else(Vec::new, |s| s.props.iter().map(pad).collect())
}

/// Basis loads of pads: one newton up on each.
pub(crate) fn pushes(pads: &[Pad]) -> Vec<(Basis, BasisLoad)> {
    let push = |(i, pad): (usize, &Pad)| (Basis::Prop(i), BasisLoad::Patches(vec![(pad.rect, -1.0)]));
    pads.iter().enumerate().map(push).collect()
}

/// Cases that happen while a roof stands on props: nobody drives, and nothing stays for years.
pub(crate) fn on_props(case: &Case) -> bool {
    matches!(case.kind, CaseKind::FirstDay | CaseKind::Person | CaseKind::Standing | CaseKind::Test)
}

/// The cases of a job with the push of the props in them, and how hard each prop pushes in each.
///
/// # Errors
/// In words.
pub(crate) fn propped(
    job: &Job<'_>,
    variant: &Variant,
    solved: &Solved,
) -> Result<(Vec<Case>, Vec<PropLoad>), String> {
    let allowed = allowed(job, variant)?;
    let places: Vec<(f64, f64)> = job.pads.iter().map(|p| p.rect.centre()).collect();
    let sags =
        |r: &Response| -> Vec<f64> { places.iter().map(|at| sag_at(&solved.layout, r, *at)).collect() };
    let give: Vec<Vec<f64>> = (0..places.len())
        .map(|j| {
            solved.fresh.get(&Basis::Prop(j)).map_or_else(Vec::new, |r| sags(r).iter().map(|s| -s).collect())
        })
        .collect();
    let push = |terms: &[Term]| -> Result<Vec<f64>, String> {
        if terms.is_empty() {
            return Ok(vec![0.0; places.len()]);
        }
        settle(&give, &sags(&sum(&solved.layout, &solved.fresh, terms)), &allowed)
    };
    let mut cases = Vec::new();
    let mut loads = Vec::new();
    for case in &job.cases {
        let mut case = case.clone();
        if case.kind != CaseKind::Test {
            let all: Vec<Term> = case.years.iter().chain(&case.top).copied().collect();
            let (stays, whole) = (push(&case.years)?, push(&all)?);
            for (prop, (long, all)) in stays.into_iter().zip(whole).enumerate() {
                if !case.years.is_empty() {
                    case.years.push((Basis::Prop(prop), long));
                }
                case.top.push((Basis::Prop(prop), all - long));
                // Work takes days: what stands from its first is judged as lasting.
                let (lasting, passing) = match case.kind {
                    CaseKind::FirstDay => (all, 0.0),
                    _ => (long, case.dynamic * (all - long)),
                };
                loads.push(PropLoad { prop, load: case.name.clone(), lasting, passing });
            }
            case.feet.extend(job.pads.iter().map(|p| p.rect));
        }
        cases.push(case);
    }
    Ok((cases, loads))
}

/// How deep the roof may sag over each prop, m: as found under its own weight, less the lift.
fn allowed(job: &Job<'_>, variant: &Variant) -> Result<Vec<f64>, String> {
    let as_found = Configuration { stage: StageChoice::AsFound, with_new: false, ..variant.configuration() };
    let roof: IdealRoof =
        idealise(job.survey, as_found, variant.materials, variant.grain_across).map_err(|missing| {
            missing.into_iter().map(|m| format!("{}: {}", m.part, m.why)).collect::<Vec<_>>().join("; ")
        })?;
    let shape = Arc::new(shape(&roof, &job.wanted, GridSize::DEFAULT)?);
    let plate = PlateRoof::new(&roof, &shape, variant.materials, Time::Fresh, &job.layouts)?;
    let found = plate.solve(&[(Basis::SelfWeight, BasisLoad::OwnWeight)])?.swap_remove(0);
    let layout: &Layout = &plate.layout;
    let stage = stage_named(job.survey, &job.stage_name);
    let raise = stage.and_then(|s| s.raise).map_or(0.0, |r| r.value);
    Ok(job.pads.iter().map(|p| sag_at(layout, &found, p.rect.centre()) - raise).collect())
}

/// Pushes `r >= 0` so that no place sags deeper than it may, `s0 - give r <= allowed`, and none pushes where it sags
/// less. Projected Gauss and Seidel; `give[j][i]` is what a newton up at `j` lifts at `i`.
///
/// # Errors
/// In words: no end to the search.
fn settle(give: &[Vec<f64>], sag: &[f64], allowed: &[f64]) -> Result<Vec<f64>, String> {
    let n = sag.len();
    let mut r = vec![0.0; n];
    for _ in 0..ROUNDS {
        let mut change: f64 = 0.0;
        for i in 0..n {
            if give[i][i] <= RIGID {
                continue;
            }
            let lifted: f64 = (0..n).map(|j| give[j][i] * r[j]).sum();
            let next = f64::max(0.0, r[i] + (sag[i] - lifted - allowed[i]) / give[i][i]);
            change = change.max((next - r[i]).abs());
            r[i] = next;
        }
        if change <= SETTLED * r.iter().fold(1.0, |most: f64, v| most.max(*v)) {
            return Ok(r);
        }
    }
    Err("how the props share the roof could not be found: they stand too close together".to_owned())
}

/// Largest push of each prop over all loads, and under the load named `standing`, N.
pub(crate) fn largest(loads: &[PropLoad], props: usize, standing: &str) -> Vec<[f64; 2]> {
    let mut out = vec![[0.0; 2]; props];
    for load in loads {
        let (most, all) = (&mut out[load.prop], load.lasting + load.passing);
        most[0] = f64::max(most[0], all);
        if load.load == standing {
            most[1] = f64::max(most[1], all);
        }
    }
    out
}

/// What is to be said of the props of a stage.
pub(crate) struct Told {
    /// Whether the roof of the stage carries without them, by everything that was checked.
    pub without: Verdict,
    /// Whether a bond that is new in the stage has yet to cure.
    pub uncured: bool,
    /// Each prop, how hard it pushes or that it lets go, in words.
    pub each: String,
}

/// Each prop with its largest push over the brackets of the material.
pub(crate) fn each(survey: &Survey, pads: &[Pad], studied: &[Studied], surveyed: Bracing) -> String {
    let standing = if survey.unit.is_some() { "unit parked, first day" } else { "own weight, first day" };
    let mut most = vec![[0.0_f64; 2]; pads.len()];
    for s in studied.iter().filter(|s| s.variant.bracing == surveyed) {
        for (kept, one) in most.iter_mut().zip(largest(&s.props, pads.len(), standing)) {
            *kept = [kept[0].max(one[0]), kept[1].max(one[1])];
        }
    }
    let words = |(pad, [all, standing]): (&Pad, [f64; 2])| {
        let (x, y) = pad.rect.centre();
        let at = format!("{} across, {} along", tape(x, survey.family), tape(y, survey.family));
        match (all > FELT, standing > FELT) {
            (false, _) => format!("the prop at {at} carries nothing and is loose"),
            (true, false) => {
                format!(
                    "the prop at {at} is loose until somebody comes on, then carries up to {}",
                    force(all, survey.family)
                )
            }
            (true, true) => format!(
                "the prop at {at} carries {}, at most {}",
                force(standing, survey.family),
                force(all, survey.family)
            ),
        }
    };
    pads.iter().zip(most).map(words).collect::<Vec<_>>().join("; ")
}

/// Gaps of a stage on props.
pub(crate) fn gaps(survey: &Survey, stage: &Stage) -> Vec<NotChecked> {
    let gap = |check: &str, blocks, why: &str| NotChecked {
        check: check.to_owned(),
        part: stage.name.clone(),
        why: why.to_owned(),
        blocks,
    };
    let mut out = vec![gap(
        "props",
        false,
        "a roof on its props is judged as it stands: the road, years of use, the props themselves and the floor under them are not",
    )];
    if pads(survey, &stage.name).iter().any(|p| !p.given) {
        out.push(gap("core crush", true, "a prop without a pad: measure the pad that presses on the roof"));
    }
    if pads(survey, &stage.name).iter().any(|p| under_an_opening(survey, p)) {
        out.push(gap("core crush", true, "a prop's pad reaches under an opening: stand it beside"));
    }
    out
}

fn under_an_opening(survey: &Survey, pad: &Pad) -> bool {
    survey.openings.iter().map(|o| Rect::of(&o.patch)).any(|o| {
        let p = &pad.rect;
        o.x0 < p.x1 && p.x0 < o.x1 && o.y0 < p.y1 && p.y0 < o.y1
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{Bond, Materials};
    use crate::loads::Factors;
    use crate::survey;
    use section_tables::Tables;

    const ROOF: &str = r#"
survey = 1
title = "Seed library, sowing bench"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "30"
length = "1400"
[[layer]]
name = "outer skin"
material = "birch plywood"
thickness = "3 mm"
[[layer]]
name = "core"
material = "EPS 20"
thickness = "50 mm"
[[layer]]
name = "inner skin"
material = "birch plywood"
thickness = "3 mm"
[person]
way = "nobody"
[[stage]]
name = "outer skin off"
LAYERS
props = [ { across = "1000", along = "700", pad = ["300", "300"] } ]
[[reading]]
name = "over the prop"
across = "1000"
along = "700"
"#;

    /// Sag over the prop and its push under own weight, in a stage with these lines of its own.
    fn on_the_prop(lines: &str, stage: StageChoice, they_stand: bool) -> (f64, f64) {
        let tables = Tables::shipped();
        let text = ROOF.replace("LAYERS", lines);
        let survey = survey::read_text("bench.toml", &text, tables).expect("a sound survey");
        let factors = Factors::of(&survey, tables).expect("factors");
        let name = "outer skin off".to_owned();
        let job = Job::new(&survey, &factors, name, Vec::new()).on_props(they_stand);
        let variant = Variant {
            stage,
            bracing: Bracing::Without,
            bond: Bond::None,
            materials: Materials::Default,
            grain_across: true,
            hold: crate::model::Hold::all(&survey)[0],
        };
        let studied = job.study(variant).unwrap_or_else(|_| panic!("a studied roof"));
        let run = studied.runs.iter().find(|r| r.load == "own weight, first day").expect("a run");
        let push = largest(&studied.props, 1, "own weight, first day")[0][1];
        (run.readings[0].sag.get(), push)
    }

    /// A prop carries nothing while the roof is as it was found; with the outer skin off it keeps it there, with a lift
    /// so much higher; and the whole roof is never lighter than what the prop carries.
    #[test]
    fn a_prop_keeps_the_roof_where_it_was_found() {
        let bare = "layers = [\"core\", \"inner skin\"]";
        let named = StageChoice::Named(0);
        let (found, none) = on_the_prop("", StageChoice::AsFound, false);
        assert!(found > 0.0 && none == 0.0);
        let (as_it_was, touch) = on_the_prop("", named, true);
        assert!((as_it_was / found - 1.0).abs() < 1e-6 && touch < 1e-3, "{as_it_was} {found} {touch}");
        let (hanging, _) = on_the_prop(bare, named, false);
        let (held, push) = on_the_prop(bare, named, true);
        assert!(hanging > 2.0 * found, "without its skin it hangs: {hanging} {found}");
        assert!((held - found).abs() < 0.02 * hanging && push > FELT, "{held} {found} {push}");
        let (raised, more) = on_the_prop(&format!("{bare}\nraise = \"2 mm\""), named, true);
        assert!((raised - (found - 0.002)).abs() < 0.02 * hanging && more > push, "{raised} {more}");
    }

    /// A beam of `EI` over `L` with props at its third points under `q`: with both level with the ends the middle
    /// support moments of three equal spans give `1.1 q L/3` each (handbook of continuous beams, from memory).
    #[test]
    fn props_of_a_beam_are_its_middle_supports() {
        let (l, q) = (3.0_f64, 10.0);
        // EI = 1. Sag under q, and under a force at `a` seen at `x <= a`.
        let sag = |x: f64| q * x * (l.powi(3) - 2.0 * l * x * x + x.powi(3)) / 24.0;
        let influence = |x: f64, a: f64| {
            let (x, a) = if x <= a { (x, a) } else { (l - x, l - a) };
            let b = l - a;
            b * x * (l * l - b * b - x * x) / (6.0 * l)
        };
        let at = [1.0, 2.0];
        let give: Vec<Vec<f64>> = at.iter().map(|a| at.iter().map(|x| influence(*x, *a)).collect()).collect();
        let s0: Vec<f64> = at.iter().map(|x| sag(*x)).collect();
        for r in settle(&give, &s0, &[0.0, 0.0]).unwrap() {
            assert!((r - 1.1 * q * l / 3.0).abs() < 1e-6, "{r}");
        }
        // One lowered out of reach lets go: the other alone is `s0/f`.
        let one = settle(&give, &s0, &[0.0, 1e3]).unwrap();
        assert!(one[1] == 0.0 && (one[0] - s0[0] / give[0][0]).abs() < 1e-9, "{one:?}");
        // Lifted roof: nothing pulls.
        let lifted: Vec<f64> = s0.iter().map(|s| -s).collect();
        assert_eq!(settle(&give, &lifted, &[0.0, 0.0]).unwrap(), [0.0, 0.0]);
        // Raised past the straight line both push harder.
        assert!(settle(&give, &s0, &[-0.1, -0.1]).unwrap().iter().all(|r| *r > 1.1 * q * l / 3.0));
    }
}
