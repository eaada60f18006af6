//! A bare foot right at the edge of an opening that is not framed: told beside the verdict, which is about the roof
//! outside that strip.

use super::document::Summary;
use super::study::{Job, Variant};
use crate::check::{AtEdge, Context, Finite, Materials, NotFinite, QuestionAnswer, Verdict, foot_at_edge};
use crate::model::Rect;
use crate::quantity::{percent, tape};
use crate::survey::{Survey, Way};

const QUESTION: &str = "a foot at the edge of the opening";

/// The worst foot at any unframed edge, in one bracket of the materials.
pub(crate) type EdgeFoot = Result<AtEdge, String>;

/// Openings whose edge is free.
fn unframed(survey: &Survey) -> impl Iterator<Item = Rect> + '_ {
    survey.openings.iter().filter(|o| o.frame.is_none()).map(|o| Rect::of(&o.patch))
}

/// A foot at every unframed edge, in each bracket; none where nobody is to step or no edge is free.
pub(crate) fn edge_feet(job: &Job<'_>, variant: Variant) -> Vec<EdgeFoot> {
    if job.survey.person.way == Way::Nobody || unframed(job.survey).next().is_none() {
        return Vec::new();
    }
    Materials::ALL
        .iter()
        .filter_map(|m| at_edges(job, Variant { materials: *m, ..variant }).transpose())
        .collect()
}

fn at_edges(job: &Job<'_>, variant: Variant) -> Result<Option<AtEdge>, String> {
    let roof = job.roof(&variant).map_err(|_| "the roof there is not known well enough".to_owned())?;
    let context = Context::new(job.survey, &roof, job.factors, variant.materials)?;
    let mut worst: Option<AtEdge> = None;
    for opening in unframed(job.survey) {
        if let Some(one) = foot_at_edge(&context, job.survey, &opening)?
            && worst.is_none_or(|w| one.ratio > w.ratio)
        {
            worst = Some(one);
        }
    }
    Ok(worst)
}

/// What is told of it.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn answer(s: &Summary<'_>) -> Result<Option<QuestionAnswer>, NotFinite> {
    let feet = &s.study.edge_feet;
    if feet.is_empty() {
        return Ok(None);
    }
    let told = |verdict, worst: Option<&AtEdge>, words: String| -> Result<_, NotFinite> {
        Ok(Some(QuestionAnswer {
            question: QUESTION.to_owned(),
            verdict,
            check: worst.map(|w| w.check.name().to_owned()),
            ratio: worst.map(|w| Finite::new(w.ratio, "ratio")).transpose()?,
            words,
        }))
    };
    if let Some(Err(why)) = feet.iter().find(|f| f.is_err()) {
        return told(Verdict::CannotSay, None, format!("cannot say: {why}; keep off the edge"));
    }
    let known: Vec<&AtEdge> = feet.iter().flatten().collect();
    let Some(worst) = known.iter().copied().max_by(|a, b| a.ratio.total_cmp(&b.ratio)) else {
        return Ok(None);
    };
    let family = s.survey.family;
    let what = format!(
        "uses {} in {} right at the free edge, {} from the left wall, {} from the front mark",
        percent(worst.ratio),
        worst.check.name(),
        tape(worst.x, family),
        tape(worst.y, family)
    );
    let beyond = known.iter().filter(|f| f.ratio > 1.0).count();
    let off = "keep bare feet off it, or lay a board that reaches well beyond";
    match beyond {
        0 => told(
            Verdict::Holds,
            Some(worst),
            format!("holds, {what}; the roof as a whole was not tried there"),
        ),
        n if n == known.len() => {
            told(Verdict::DoesNotHold, Some(worst), format!("does not hold: a bare foot {what}: {off}"))
        }
        _ => told(
            Verdict::CannotSay,
            Some(worst),
            format!("cannot say: a bare foot {what}, depending on what the material really is: {off}"),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::super::check::{CheckOptions, check};
    use super::*;
    use crate::check::Bracing;
    use crate::loads::Factors;
    use crate::model::Hold;
    use crate::survey::read_text;
    use section_tables::Tables;

    fn store(frame: &str, way: &str) -> Survey {
        let text = format!(
            r#"
survey = 1
title = "Mask store, roof over the costume rail"
lengths = "mm"
weights = "kg"
[roof]
kind = "laminated"
span = "2000"
rise = "0"
length = "1600"
front = "cross wall"
rear = "cross wall"
[[layer]]
name = "outer skin"
material = "lauan plywood"
thickness = "3"
grain = "across"
[[layer]]
name = "core"
material = "EPS 20"
thickness = "50"
[[layer]]
name = "inner skin"
material = "lauan plywood"
thickness = "3"
grain = "across"
[[opening]]
name = "hatch"
across = ["800", "1150"]
along = ["600", "950"]
{frame}
[person]
{way}
"#
        );
        read_text("store.toml", &text, Tables::shipped()).unwrap_or_else(|p| panic!("{p}"))
    }

    /// How many brackets a foot is tried in.
    fn tried(survey: &Survey) -> usize {
        let factors = Factors::of(survey, Tables::shipped()).unwrap();
        let job = Job::new(survey, &factors, "finished".to_owned(), Vec::new());
        let variant = Variant::finished(Bracing::Without, Hold::all(survey)[0]);
        edge_feet(&job, variant).len()
    }

    /// A bare foot on the free edge of thin plywood on bead foam does not pass; framed, or where nobody steps, nothing is said of it.
    #[test]
    fn bare_edge_is_told() {
        let person = "mass = \"80\"";
        let survey = store("", person);
        let document = check(&survey, Tables::shipped(), CheckOptions::default()).unwrap();
        let weak =
            document.answers.into_iter().find(|a| a.question == QUESTION).expect("a free edge is told");
        assert!(weak.verdict != Verdict::Holds && weak.words.contains("edge"), "{weak:?}");
        assert_eq!(tried(&survey), 3);
        assert_eq!(tried(&store("frame = { width = \"25\", material = \"softwood\" }", person)), 0);
        assert_eq!(tried(&store("", "way = \"nobody\"")), 0);
    }
}
