//! A bare foot right at the edge of an opening. Where people go bare it counts: what does not hold there, or is not known,
//! keeps the roof from "holds". Where they stand on a board it is told beside the verdict, which is about the roof outside
//! that strip.

use super::document::{Summary, footed};
use super::study::{Job, Variant};
use crate::check::{
    AtEdge, Context, Finite, Materials, NotChecked, NotFinite, QuestionAnswer, RATIO_CAP, Verdict,
    foot_at_edge,
};
use crate::loads::Footing;
use crate::model::Rect;
use crate::quantity::{percent, tape};
use crate::survey::{Survey, Way};
use rayon::prelude::*;

const QUESTION: &str = "a foot at the edge of the opening";
const KEEP_OFF: &str = "keep bare feet off it, and stand on a board that lies whole outside the edge strip";

/// The worst foot at the edges of openings in one bracket of the materials: free ones, and framed ones, which are judged
/// as if they were free.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct EdgeFoot {
    /// Nothing where no edge is free.
    pub free: Option<Result<AtEdge, String>>,
    /// Nothing where none is framed.
    pub framed: Option<Result<AtEdge, String>>,
}

/// A foot at every edge of an opening, in each bracket; none where nobody is to step or nothing is open.
pub(crate) fn edge_feet(job: &Job<'_>, variant: Variant) -> Vec<EdgeFoot> {
    if job.survey.person.way == Way::Nobody || job.survey.openings.is_empty() {
        return Vec::new();
    }
    Materials::ALL
        .par_iter()
        .map(|m| {
            let v = Variant { materials: *m, ..variant };
            let at = |framed| at_edges(job, v, framed).transpose();
            EdgeFoot { free: at(false), framed: at(true) }
        })
        .collect()
}

fn at_edges(job: &Job<'_>, variant: Variant, framed: bool) -> Result<Option<AtEdge>, String> {
    let mut edges = job.survey.openings.iter().filter(|o| o.frame.is_some() == framed).peekable();
    if edges.peek().is_none() {
        return Ok(None);
    }
    let roof = job.roof(&variant).map_err(|_| "the roof there is not known well enough".to_owned())?;
    let context = Context::new(job.survey, &roof, job.factors, variant.materials)?;
    let mut worst: Option<AtEdge> = None;
    for opening in edges {
        if let Some(one) = foot_at_edge(&context, job.survey, &Rect::of(&opening.patch))?
            && worst.is_none_or(|w| one.ratio > w.ratio)
        {
            worst = Some(one);
        }
    }
    Ok(worst)
}

/// What the brackets say together of one kind of edge.
struct Judged<'a> {
    verdict: Verdict,
    worst: Option<&'a AtEdge>,
    words: String,
}

fn judge<'a>(survey: &Survey, feet: &'a [EdgeFoot], framed: bool) -> Option<Judged<'a>> {
    let list: Vec<&Result<AtEdge, String>> =
        feet.iter().filter_map(|f| if framed { f.framed.as_ref() } else { f.free.as_ref() }).collect();
    if let Some(why) = list.iter().find_map(|f| f.as_ref().err()) {
        let words = format!("cannot say: {why}; keep off the edge");
        return Some(Judged { verdict: Verdict::CannotSay, worst: None, words });
    }
    let known: Vec<&AtEdge> = list.iter().filter_map(|f| f.as_ref().ok()).collect();
    let worst = known.iter().copied().max_by(|a, b| a.ratio.total_cmp(&b.ratio))?;
    let family = survey.family;
    let edge = if framed { "at the framed edge, taken as free" } else { "right at the free edge" };
    let what = format!(
        "uses {} in {} {edge}, {} from the left wall, {} from the front mark",
        percent(worst.ratio.min(RATIO_CAP)),
        worst.check.name(),
        tape(worst.x, family),
        tape(worst.y, family)
    );
    let beyond = known.iter().filter(|f| f.ratio > 1.0).count();
    let (verdict, words) = match beyond {
        0 => (Verdict::Holds, format!("holds, {what}")),
        _ if framed => (
            Verdict::CannotSay,
            format!(
                "cannot say: a bare foot {what}; what the frame takes off it is not worked out: {KEEP_OFF}"
            ),
        ),
        n if n == known.len() => {
            (Verdict::DoesNotHold, format!("does not hold: a bare foot {what}: {KEEP_OFF}"))
        }
        _ => (
            Verdict::CannotSay,
            format!("cannot say: a bare foot {what}, depending on what the material really is: {KEEP_OFF}"),
        ),
    };
    Some(Judged { verdict, worst: Some(worst), words })
}

/// What is told of it.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn answers(s: &Summary<'_>) -> Result<Vec<QuestionAnswer>, NotFinite> {
    let both = [false, true].into_iter().filter_map(|framed| judge(s.survey, &s.study.edge_feet, framed));
    both.map(|judged| {
        Ok(QuestionAnswer {
            question: QUESTION.to_owned(),
            verdict: judged.verdict,
            check: judged.worst.map(|w| w.check.name().to_owned()),
            ratio: judged.worst.map(|w| Finite::new(w.ratio.min(RATIO_CAP), "ratio")).transpose()?,
            words: judged.words,
        })
    })
    .collect()
}

/// What keeps a roof that is walked on bare from "holds": an edge on which a foot was not shown to hold.
pub(crate) fn gaps(survey: &Survey, feet: &[EdgeFoot]) -> Vec<NotChecked> {
    if survey.person.way != Way::Bare {
        return Vec::new();
    }
    let both = [false, true].into_iter().filter_map(|framed| judge(survey, feet, framed));
    both.filter(|judged| judged.verdict != Verdict::Holds)
        .map(|judged| NotChecked {
            check: judged.worst.map_or("heel", |w| w.check.name()).to_owned(),
            part: footed("edge of the opening", Footing::Bare),
            why: judged.words,
            blocks: true,
        })
        .collect()
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

    const FRAME: &str = "frame = { width = \"25\", material = \"softwood\" }";

    /// Where people go bare an edge that a foot breaks keeps the roof from holding, free or framed; on a board it does
    /// not, and no more does the edge of stiff skins on hard foam.
    #[test]
    fn an_edge_counts_where_people_go_bare() {
        let gaps_of = |survey: &Survey| {
            let factors = Factors::of(survey, Tables::shipped()).unwrap();
            let job = Job::new(survey, &factors, "finished".to_owned(), Vec::new());
            let variant = Variant::finished(Bracing::Without, Hold::all(survey)[0]);
            gaps(survey, &edge_feet(&job, variant))
        };
        let bare = "mass = \"80\"\nway = \"bare\"";
        for frame in ["", FRAME] {
            let found = gaps_of(&store(frame, bare));
            assert!(found.len() == 1 && found[0].blocks, "{found:?}");
            assert!(gaps_of(&store(frame, "mass = \"80\"")).is_empty());
        }
    }

    /// A bare foot on the free edge of thin plywood on bead foam does not pass; where nobody steps, nothing is said of it.
    #[test]
    fn bare_edge_is_told() {
        let person = "mass = \"80\"";
        let survey = store("", person);
        let document = check(&survey, Tables::shipped(), CheckOptions::default()).unwrap();
        let weak =
            document.answers.into_iter().find(|a| a.question == QUESTION).expect("a free edge is told");
        assert!(weak.verdict != Verdict::Holds && weak.words.contains("edge"), "{weak:?}");
        assert_eq!(tried(&survey), 3);
        assert_eq!(tried(&store(FRAME, person)), 3);
        assert_eq!(tried(&store("", "way = \"nobody\"")), 0);
    }
}
