//! Will this roof hold, does it need a brace, and why.

use rayon::prelude::*;

use super::beside::{Around, Beside, look};
use super::document::{Study, bonded_counts, document};
use super::each::each;
use super::places::{edge_strip, people_walking};
use super::solve::pencil_place;
use super::study::{Job, Studied, Trouble, Variant};
use crate::check::{
    Bond, Bracing, Check, CheckDocument, Finding, Materials, NotChecked, NotFinite, Untried, counts,
};
use crate::loads::Factors;
use crate::model::{Hold, StageChoice, idealise, kind_is_modelled};
use crate::plate::GridSize;
use crate::survey::{LayerMaterial, Measured, Survey, Way};
use section_tables::{NotFound, Property, Tables};

/// What is asked of [`check`] beside the survey.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CheckOptions {
    /// Name of the stage to judge: "as found", "finished" (the default), or one of the survey's.
    pub stage: Option<String>,
    /// Whether what governs is worked through step by step.
    pub working: bool,
}

/// Why a question could not be answered at all.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AskError {
    /// No such stage.
    #[error("there is no stage \"{wanted}\"; the survey has: {known}")]
    UnknownStage {
        /// What was asked for.
        wanted: String,
        /// What there is.
        known: String,
    },
    /// The tables lack a factor.
    #[error("the tables are not complete: {0}")]
    Tables(#[from] NotFound),
    /// A number came out that is none.
    #[error(transparent)]
    NotFinite(#[from] NotFinite),
}

/// Judges a roof.
///
/// The roof is solved by the two-way model with and without its new braces, with their glue and without, with low,
/// default and high material values, fresh, aged and hot; the strip stands beside it as a pencil check.
///
/// # Errors
/// [`AskError`]. What merely cannot be judged is no error: it is told in the document, and keeps it from "holds".
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
/// [person]
/// way = "nobody"
/// "#;
/// let tables = Tables::shipped();
/// let survey = survey::read_text("bay.toml", text, tables).expect("a sound survey");
/// let answer = ask::check(&survey, tables, ask::CheckOptions::default())?;
/// assert_eq!(answer.schema, 1);
/// assert!(!answer.checks.is_empty());
/// # Ok::<(), ask::AskError>(())
/// ```
pub fn check(survey: &Survey, tables: &Tables, options: CheckOptions) -> Result<CheckDocument, AskError> {
    let factors = Factors::of(survey, tables)?;
    let (stage, stage_name) = stage(survey, options.stage.as_deref())?;
    let mut not_checked = super::gaps::gaps(survey, &factors, stage);
    if !kind_is_modelled(survey.roof.kind) {
        return document(survey, &factors, tables, Study::empty(stage_name), not_checked).map_err(Into::into);
    }
    let (first, braced) = as_surveyed(survey, stage);
    let surveyed = first.bracing;
    let holds = Hold::all(survey);
    let roof = match idealise(survey, first.configuration(), Materials::Default, true) {
        Ok(roof) => roof,
        Err(missing) => {
            not_checked.extend(missing.into_iter().map(|m| NotChecked {
                check: "all".to_owned(),
                part: m.part,
                why: m.why,
                blocks: true,
            }));
            return document(survey, &factors, tables, Study::empty(stage_name), not_checked)
                .map_err(Into::into);
        }
    };
    not_checked.extend(super::rebound::gap(survey, &factors, &roof));
    let people = people_walking(survey, &roof, &factors, survey.person.way);
    not_checked.extend(super::untried::nobody_placed(survey, &people));
    not_checked.extend(super::pieces::nobody_on_a_piece(survey, &roof, &people));
    let job = Job::new(survey, &factors, stage_name.clone(), people.clone()).on_props(true);
    let grains: &[bool] = if grain_matters(survey) { &[true, false] } else { &[true] };
    let variants = variants(first, braced, grains, &holds);
    let mut studied = Vec::new();
    let mut feet: Vec<(Materials, Vec<Finding>, Vec<Untried>)> = Vec::new();
    let mut take = |trouble: Trouble| -> Result<(), NotFinite> {
        match trouble {
            Trouble::NotFinite(e) => return Err(e),
            Trouble::Missing(list) => {
                for m in list {
                    let gap = NotChecked { check: "all".to_owned(), part: m.part, why: m.why, blocks: true };
                    if !not_checked.contains(&gap) {
                        not_checked.push(gap);
                    }
                }
            }
        }
        Ok(())
    };
    let solved = each(&variants, |v| job.study(*v));
    for result in solved {
        match result {
            Ok(s) => studied.push(s),
            Err(trouble) => take(trouble)?,
        }
    }
    if survey.person.way != Way::Nobody {
        // What the roof as surveyed does under a board, glued where its glue holds.
        let bent = |materials: Materials| {
            let counts = |v: &Variant| {
                v.materials == materials
                    && v.bracing == surveyed
                    && (!braced || (v.bond == Bond::Full) == bonded_counts(&studied, *v))
            };
            studied.iter().filter(|s| counts(&s.variant)).map(|s| s.found.curvature).fold(0.0, f64::max)
        };
        let tried: Vec<_> = Materials::ALL
            .par_iter()
            .map(|m| (*m, job.feet(Variant { materials: *m, ..first }, bent(*m))))
            .collect();
        for (materials, result) in tried {
            match result {
                Ok((found, untried)) => feet.push((materials, found, untried)),
                Err(trouble) => take(trouble)?,
            }
        }
    }
    let pencil =
        pencil_place(survey, &roof, Materials::Default).ok().and_then(|place| job.pencil(first, place).ok());
    let deciding = studied
        .iter()
        .filter(|s| Variant { hold: first.hold, ..s.variant } == counted(first, braced))
        .flat_map(|s| s.found.findings.iter().map(move |f| (s.variant, f)))
        .filter(|(_, f)| {
            on_the_grid(f) && job.solves(&f.load) && counts(f.check, f.footing, survey.person.way)
        })
        .max_by(|a, b| a.1.ratio.total_cmp(&b.1.ratio))
        .map(|(variant, f)| (variant, f.clone()));
    let finer = deciding.and_then(|(variant, most)| {
        let again = |size| job.read_again(variant, size, &most).ok().flatten();
        let (answer, fine) = rayon::join(|| again(GridSize::DEFAULT), || again(GridSize::FINER));
        let (answer, fine) = (answer?, fine?);
        // Where nothing is used on either grid, none moves.
        Some((most.clone(), if answer == fine { 1.0 } else { fine / answer }))
    });
    let tested = super::test_weight::is_asked(survey);
    let mut as_found = Vec::new();
    for result in studied_as_found(survey, &factors, first, tested) {
        match result {
            Ok(s) => as_found.push(s),
            // A dip that is not explained is only told; a test weight that cannot be compared blocks.
            Err(trouble) if tested => take(trouble)?,
            Err(_) => {}
        }
    }
    // The same stage once more with its props taken out: what is in place by itself.
    let without_props = (!job.pads.is_empty()).then(|| {
        let job = Job::new(survey, &factors, stage_name.clone(), people.clone()).on_props(false);
        let alone = each(&variants, |v| job.study(*v));
        alone.into_iter().collect::<Result<Vec<_>, _>>().ok()
    });
    let mut study = Study {
        stage_name,
        pads: job.pads.clone(),
        without_props: without_props.flatten(),
        braced,
        edge_strip: edge_strip(&roof),
        studied,
        feet,
        edge_feet: super::edge_feet::edge_feet(&job, first),
        pencil,
        finer,
        as_found,
        beside: Beside::default(),
        working: Vec::new(),
    };
    let around = Around {
        survey,
        factors: &factors,
        stage_name: &study.stage_name,
        people: &people,
        first,
        grains,
        holds: &holds,
    };
    study.beside = look(&around, &study);
    if options.working {
        study.working = super::working::working(&around, &study, tables)?;
    }
    document(survey, &factors, tables, study, not_checked).map_err(Into::into)
}

/// The roof as found, without new braces, where something was measured on it: in all brackets for a test weight, with
/// default materials for a dip.
fn studied_as_found(
    survey: &Survey,
    factors: &Factors,
    first: Variant,
    tested: bool,
) -> Vec<Result<Studied, Trouble>> {
    let dipped = survey.readings.iter().any(|r| matches!(r.measured, Some(Measured::Dip(_))));
    let brackets: &[Materials] = match (tested, dipped) {
        (true, _) => &Materials::ALL,
        (false, true) => &[Materials::Default],
        (false, false) => &[],
    };
    let found = Variant { stage: StageChoice::AsFound, bracing: Bracing::Without, ..first };
    let job = Job::new(survey, factors, "as found".to_owned(), Vec::new());
    each(brackets, |m| job.study(Variant { materials: *m, ..found }))
}

/// The roof as surveyed in a stage, of default materials, its glue holding; and whether new braces are in it.
pub(super) fn as_surveyed(survey: &Survey, stage: StageChoice) -> (Variant, bool) {
    let braced = survey.braces.iter().any(|b| !b.existing) && stage != StageChoice::AsFound;
    let first = Variant {
        stage,
        bracing: if braced { Bracing::With } else { Bracing::Without },
        bond: Bond::Full,
        materials: Materials::Default,
        grain_across: true,
        hold: Hold::all(survey)[0],
    };
    (first, braced)
}

/// The stage asked for.
pub(super) fn stage(survey: &Survey, wanted: Option<&str>) -> Result<(StageChoice, String), AskError> {
    let Some(wanted) = wanted else { return Ok((StageChoice::Finished, "finished".to_owned())) };
    match wanted {
        "finished" => Ok((StageChoice::Finished, wanted.to_owned())),
        "as found" => Ok((StageChoice::AsFound, wanted.to_owned())),
        _ => match survey.stages.iter().position(|s| s.name == wanted) {
            Some(i) => Ok((StageChoice::Named(i), wanted.to_owned())),
            None => {
                let mut known = vec!["as found".to_owned()];
                known.extend(survey.stages.iter().map(|s| s.name.clone()));
                known.push("finished".to_owned());
                Err(AskError::UnknownStage { wanted: wanted.to_owned(), known: known.join(", ") })
            }
        },
    }
}

/// Whether a skin's grain is not given and would make a difference.
pub(super) fn grain_matters(survey: &Survey) -> bool {
    survey.layers.iter().filter(|l| l.grain.is_none()).any(|l| match &l.material {
        LayerMaterial::Table(m) => match (m.get(Property::E1Membrane), m.get(Property::E2Membrane)) {
            (Some(a), Some(b)) => a.default != b.default || a.low != b.low,
            _ => false,
        },
        LayerMaterial::Own(m) => m.e1 != m.e2,
    })
}

/// The variant of default materials that stands for the roof as surveyed.
fn counted(first: Variant, braced: bool) -> Variant {
    Variant { bond: if braced { Bond::Full } else { Bond::None }, ..first }
}

pub(super) fn variants(first: Variant, braced: bool, grains: &[bool], holds: &[Hold]) -> Vec<Variant> {
    let mut out = Vec::new();
    for (&hold, &grain_across) in holds.iter().flat_map(|h| grains.iter().map(move |g| (h, g))) {
        for materials in Materials::ALL {
            let base = Variant { materials, grain_across, hold, ..first };
            if braced {
                out.push(Variant { bracing: Bracing::With, bond: Bond::Full, ..base });
                out.push(Variant { bracing: Bracing::With, bond: Bond::None, ..base });
            }
            out.push(Variant { bracing: Bracing::Without, bond: Bond::None, ..base });
        }
    }
    out
}

/// Whether a finding is read off the two-way model of the roof as it is, and so rests on its grid.
pub(super) fn on_the_grid(finding: &Finding) -> bool {
    matches!(
        finding.check,
        Check::Sag
            | Check::SagLasting
            | Check::OuterSkin
            | Check::InnerSkin
            | Check::Wrinkling
            | Check::CoreShear
            | Check::GlueLine
            | Check::Brace
            | Check::BraceShear
            | Check::SeatBearing
            | Check::SeatScrews
            | Check::WebCrippling
            | Check::Fatigue
    )
}

#[cfg(test)]
mod tests;
