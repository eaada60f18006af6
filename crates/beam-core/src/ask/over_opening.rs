//! The walk board over an opening: whether it would bear somebody there, told beside the verdict, which is about a board that
//! lies on the roof with all of itself.

use super::document::Summary;
use crate::check::{Finite, Materials, NotFinite, QuestionAnswer, RATIO_CAP, Verdict, bridging};
use crate::loads::Factors;
use crate::quantity::{percent, tape};
use crate::survey::{Survey, Way};

const QUESTION: &str = "the board over an opening";
/// Least rest of the board on the roof on either side, m (judged).
const REST: f64 = 0.1;
const NEVER: &str = "never lay it over the hole, nor step on a part of it that lies over one: keep all of it on the roof, outside the edge strip";

/// The opening over which it is worst.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn answers(s: &Summary<'_>) -> Result<Option<QuestionAnswer>, NotFinite> {
    let told = |j: Judged| {
        Ok(QuestionAnswer {
            question: QUESTION.to_owned(),
            verdict: j.verdict,
            check: j.ratio.map(|_| "walk board".to_owned()),
            ratio: j.ratio.map(|r| Finite::new(r.min(RATIO_CAP), "ratio")).transpose()?,
            words: j.words,
        })
    };
    worst(s.survey, s.factors).map(told).transpose()
}

fn worst(survey: &Survey, factors: &Factors) -> Option<Judged> {
    if survey.person.way != Way::OnABoard {
        return None;
    }
    let judged = survey.openings.iter().map(|o| {
        let sides = [o.patch.across.size().value, o.patch.along.size().value];
        judge(survey, &o.name, sides, |clear| Materials::ALL.map(|m| bridging(survey, factors, m, clear)))
    });
    let rank = |j: &Judged| (u8::from(j.verdict == Verdict::DoesNotHold), j.ratio.unwrap_or(0.0));
    judged.max_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    })
}

#[derive(Debug)]
struct Judged {
    verdict: Verdict,
    ratio: Option<f64>,
    words: String,
}

/// One opening of these sides, m; `used` is what the board uses over a clear width, in each bracket.
fn judge(
    survey: &Survey,
    name: &str,
    sides: [f64; 2],
    used: impl Fn(f64) -> [Result<f64, String>; 3],
) -> Judged {
    let family = survey.family;
    let [w, l] = survey.person.board.size.map(|s| s.value);
    let reaches = |side: &f64| w.max(l) >= side + 2.0 * REST;
    // Whichever way round somebody lays it: the longer way that it reaches.
    let Some(clear) = sides.into_iter().filter(reaches).reduce(f64::max) else {
        let words = format!(
            "does not hold: it is too short to lie over \"{name}\" with {} on the roof on either side: {NEVER}",
            tape(REST, family)
        );
        return Judged { verdict: Verdict::DoesNotHold, ratio: None, words };
    };
    let used = used(clear);
    if let Some(why) = used.iter().find_map(|u| u.as_ref().err()) {
        return Judged {
            verdict: Verdict::CannotSay,
            ratio: None,
            words: format!("cannot say: {why}; {NEVER}"),
        };
    }
    let used: Vec<f64> = used.into_iter().flatten().collect();
    let most = used.iter().copied().fold(0.0, f64::max);
    let bends = format!(
        "over \"{name}\" ({} clear) with somebody in its middle it uses up to {} of its bending strength, as a beam from rim to rim with its grain the worse way",
        tape(clear, family),
        percent(most.min(RATIO_CAP))
    );
    let (verdict, words) = if used.iter().all(|u| *u > 1.0) {
        (Verdict::DoesNotHold, format!("does not hold: {bends}: {NEVER}"))
    } else {
        let but = "what its ends press on the rim with, and a foot near its corner, is not worked out";
        (Verdict::CannotSay, format!("cannot say: {bends}; {but}: {NEVER}"))
    };
    Judged { verdict, ratio: Some(most), words }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::read_text;
    use section_tables::Tables;

    fn told(hatch: u32, person: &str) -> Option<Judged> {
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
like = "ply 3 / bead foam 50 / ply 3"
[[opening]]
name = "hatch"
across = ["600", "{}"]
along = ["200", "{}"]
[person]
mass = "100"
{person}
"#,
            600 + hatch,
            200 + hatch
        );
        let survey = read_text("store.toml", &text, Tables::shipped()).unwrap_or_else(|p| panic!("{p}"));
        worst(&survey, &Factors::of(&survey, Tables::shipped()).unwrap())
    }

    /// Thin ply breaks over a hole, thick ply may not, and neither is ever said to hold there; what is too short to reach
    /// over goes down.
    #[test]
    fn a_board_is_never_told_to_hold_over_a_hole() {
        let board = |t: &str, long: &str| {
            format!(
                "board = {{ size = [\"600\", \"{long}\"], material = \"birch plywood\", thickness = \"{t}\" }}"
            )
        };
        let of = |hatch, t: &str, long: &str| told(hatch, &board(t, long)).expect("it is told");
        let (thin, thick, short) = (of(400, "6", "1200"), of(400, "40", "1200"), of(450, "40", "600"));
        assert_eq!(thin.verdict, Verdict::DoesNotHold);
        assert!(thin.ratio.is_some_and(|r| r > 1.0) && thin.words.contains("never lay it over"));
        assert_eq!(thick.verdict, Verdict::CannotSay);
        assert!(thick.ratio.is_some_and(|r| r < 1.0) && thick.words.contains("never lay it over"));
        assert_eq!(short.verdict, Verdict::DoesNotHold);
        assert!(short.ratio.is_none() && short.words.contains("too short"));
        assert!(told(400, "way = \"nobody\"").is_none() && told(400, "way = \"bare\"").is_none());
    }
}
