//! Plain answers to the questions people come with.

use super::document::Summary;
use crate::check::{
    Bond, Bracing, Check, Cure, Finding, Finite, Key, Materials, NotFinite, Outcome, QuestionAnswer,
    SagSummary, Verdict, outcome_of,
};
use crate::loads::Footing;
use crate::quantity::{force, percent, sag, tape};
use crate::survey::Way;

/// The worst of a set of findings, and what they say together.
struct Worst {
    outcome: Outcome,
    check: Check,
    finding: Finding,
}

fn worst_of(s: &Summary<'_>, wanted: impl Fn(&Key) -> bool) -> Option<Worst> {
    let mut out: Option<Worst> = None;
    let mut together = Outcome::Holds;
    for (key, found) in s.ledger.iter().filter(|(k, _)| k.bracing == s.surveyed && wanted(k)) {
        let one = outcome_of(key.check, found);
        together = match (together, one) {
            (Outcome::Fails, _) | (_, Outcome::Fails) => Outcome::Fails,
            (Outcome::Disagrees, _) | (_, Outcome::Disagrees) => Outcome::Disagrees,
            _ => Outcome::Holds,
        };
        let rank = |outcome: Outcome, check: Check| match (outcome, check.cure()) {
            (Outcome::Fails, Cure::NotBracing) => 4,
            (Outcome::Fails, Cure::StrongerBrace) => 3,
            (Outcome::Fails, _) => 2,
            (Outcome::Disagrees, _) => 1,
            (Outcome::Holds, _) => 0,
        };
        for finding in found.iter().flatten() {
            let worse = out.as_ref().is_none_or(|w| {
                let (new, old) = (rank(one, key.check), rank(w.outcome, w.check));
                new > old || (new == old && finding.ratio > w.finding.ratio)
            });
            if worse {
                out = Some(Worst { outcome: one, check: key.check, finding: finding.clone() });
            }
        }
    }
    out.map(|w| Worst { outcome: together, ..w })
}

/// The verdict word for a check that fails for sure.
fn failing(s: &Summary<'_>, check: Check) -> Verdict {
    match check.cure() {
        Cure::NotBracing => Verdict::DoesNotHold,
        Cure::StrongerBrace => Verdict::BraceTooWeak,
        Cure::Bracing | Cure::NotSure if s.asked.new_braces => Verdict::BraceTooWeak,
        Cure::Bracing | Cure::NotSure => Verdict::BraceNeeded,
    }
}

fn is_parked(load: &str) -> bool {
    load.starts_with("unit parked") || load.starts_with("own weight,") || load.starts_with("self-weight")
}

fn is_road(load: &str) -> bool {
    load == "unit on the road" || load == "own weight on the road"
}

/// Where a finding is, in the survey's own quantities.
pub(crate) fn place(s: &Summary<'_>, f: &Finding) -> String {
    format!(
        "{} from the left wall, {} from the front mark",
        tape(f.x, s.survey.family),
        tape(f.y, s.survey.family)
    )
}

/// Gaps that bear on a question.
fn gaps(s: &Summary<'_>, checks: &[(&str, &str)]) -> Vec<String> {
    s.not_checked
        .iter()
        .filter(|n| n.blocks)
        .filter(|n| {
            n.check == "all"
                || checks
                    .iter()
                    .any(|(check, part)| n.check == *check && (part.is_empty() || n.part.starts_with(part)))
        })
        .map(|n| n.why.clone())
        .collect()
}

/// Why a check beyond its limit is no failure.
fn doubt(check: Check) -> &'static str {
    if check.cure() == Cure::NotSure {
        "against an estimated limit"
    } else {
        "depending on what the material really is"
    }
}

fn judged(
    s: &Summary<'_>,
    question: &str,
    worst: Option<Worst>,
    gaps: &[String],
) -> Result<QuestionAnswer, NotFinite> {
    let Some(w) = worst else {
        let why = gaps.first().cloned().unwrap_or_else(|| "nothing was checked".to_owned());
        return Ok(answer(question, Verdict::CannotSay, None, format!("cannot say: {why}")));
    };
    let uses = percent(w.finding.ratio);
    let what = format!("{} ({}), {}", w.check.name(), w.finding.part, place(s, &w.finding));
    let (verdict, words) = match w.outcome {
        Outcome::Fails => {
            let fails = failing(s, w.check);
            (fails, format!("{}: uses {uses} in {what}", fails.words()))
        }
        Outcome::Disagrees => {
            (Verdict::CannotSay, format!("cannot say: up to {uses} in {what}, {}", doubt(w.check)))
        }
        Outcome::Holds if !gaps.is_empty() => {
            (Verdict::CannotSay, format!("cannot say: what was checked uses {uses}, but {}", gaps[0]))
        }
        Outcome::Holds => (Verdict::Holds, format!("holds, uses {uses} in {what}")),
    };
    Ok(QuestionAnswer {
        question: question.to_owned(),
        verdict,
        check: Some(w.check.name().to_owned()),
        ratio: Some(Finite::new(w.finding.ratio, "ratio")?),
        words,
    })
}

fn answer(question: &str, verdict: Verdict, ratio: Option<Finite>, words: String) -> QuestionAnswer {
    QuestionAnswer { question: question.to_owned(), verdict, check: None, ratio, words }
}

/// All answers, in the order people ask.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn answers(s: &Summary<'_>) -> Result<Vec<QuestionAnswer>, NotFinite> {
    let plain = |k: &Key| k.footing == Footing::NotAFoot;
    let mut out = vec![
        judged(
            s,
            "unit parked",
            worst_of(s, |k| {
                plain(k) && is_parked(&k.load) && !matches!(k.check, Check::Sag | Check::SagLasting)
            }),
            &gaps(s, &[("clamp", ""), ("core crush", ""), ("skin at opening corner", "")]),
        )?,
        judged(
            s,
            "unit on the road",
            worst_of(s, |k| {
                plain(k)
                    && (is_road(&k.load)
                        || matches!(
                            k.load.as_str(),
                            "hot"
                                | "cold"
                                | "braking"
                                | "sideways"
                                | "unit rebound"
                                | "own weight rebound"
                                | "wind"
                        ))
            }),
            &gaps(
                s,
                &[
                    ("brace", "unit"),
                    ("skin at opening corner", ""),
                    ("clamp", ""),
                    ("fatigue", ""),
                    ("seat screws", ""),
                ],
            ),
        )?,
    ];
    if s.survey.unit.is_none() {
        out[0].words.push_str(" (no unit: own weight and fixed loads)");
        out[1].words.push_str(" (no unit: own weight and fixed loads)");
    }
    out.push(standing(s, Footing::Bare)?);
    out.push(standing(s, Footing::OnABoard)?);
    out.extend(super::edge_feet::answers(s)?);
    out.extend(super::over_opening::answers(s)?);
    let sags = sags(s)?;
    let told = |m: Option<Finite>| m.map_or("not known".to_owned(), |m| sag(m.get(), s.survey.family));
    let short = worst_of(s, |k| k.check == Check::Sag && k.footing != Footing::Bare);
    let mut now = judged(s, "sag now", short, &gaps(s, &[]))?;
    now.words = format!(
        "{}; first day, everything fixed: {}",
        now.words,
        told(if s.asked.new_braces { sags.now_with } else { sags.now_without })
    );
    out.push(now);
    let lasting = worst_of(s, |k| k.check == Check::SagLasting);
    let mut later = judged(s, "sag later", lasting, &gaps(s, &[]))?;
    later.words = format!(
        "{}; after years: {}",
        later.words,
        told(if s.asked.new_braces { sags.later_with } else { sags.later_without })
    );
    out.push(later);
    if s.survey.braces.is_empty() {
        out.push(answer("braces", Verdict::CannotSay, None, "no brace surveyed".to_owned()));
        out.push(answer(
            "ends",
            Verdict::CannotSay,
            None,
            "no brace surveyed: nothing lands on the ledgers but the panel".to_owned(),
        ));
    } else {
        let own = |k: &Key| {
            matches!(
                k.check,
                Check::Brace | Check::BraceShear | Check::GlueLine | Check::GlueEnds | Check::Fatigue
            )
        };
        out.push(judged(
            s,
            "braces",
            worst_of(s, own),
            &gaps(s, &[("brace", "brace"), ("glue line", ""), ("fatigue", "")]),
        )?);
        let seats =
            worst_of(s, |k| matches!(k.check, Check::SeatBearing | Check::SeatScrews | Check::WebCrippling));
        out.push(judged(s, "ends", seats, &gaps(s, &[("seat bearing", ""), ("seat screws", "")]))?);
    }
    out.extend(walls(s));
    out.push(props(s));
    Ok(out)
}

/// Whether what is in place carries without the props of the stage.
fn props(s: &Summary<'_>) -> QuestionAnswer {
    let question = |verdict, words: String| answer("props", verdict, None, words);
    let Some(told) = &s.props else {
        return question(
            Verdict::CannotSay,
            "cannot say: moving the roof onto its braces is not worked out yet. Leave the props in until every glue line has its full cure time, then ease them one at a time and read the string line".to_owned(),
        );
    };
    let each = &told.each;
    if told.uncured {
        let words = "a bond that is new in this stage has not cured and is counted as not there: leave the props in until it has";
        return question(Verdict::CannotSay, format!("cannot say: {words}; {each}"));
    }
    match told.without {
        Verdict::Holds => match s.not_checked.iter().find(|n| n.blocks) {
            Some(gap) => question(
                Verdict::CannotSay,
                format!("cannot say: what was checked carries without the props, but {}; {each}", gap.why),
            ),
            None => question(
                Verdict::Holds,
                format!(
                    "holds: what is in place carries without the props. Ease them one at a time and read the string line; {each}"
                ),
            ),
        },
        Verdict::CannotSay | Verdict::OnlyOnABoard => question(
            Verdict::CannotSay,
            format!(
                "cannot say: whether what is in place carries without the props depends on what the material really is, or could not be checked: leave them in; {each}"
            ),
        ),
        failing => question(
            failing,
            format!(
                "{}: what is in place does not carry without the props: leave them in; {each}",
                failing.words()
            ),
        ),
    }
}

/// What the walls must hold sideways where the survey counts on them. Nobody knows what they bear: the verdict on the
/// roof does not rest on it.
fn walls(s: &Summary<'_>) -> Option<QuestionAnswer> {
    let pushes = s.study.studied.iter().filter(|v| v.variant.bracing == s.surveyed);
    let most = pushes.filter_map(|v| v.push.as_ref()).max_by(|a, b| a.whole.total_cmp(&b.whole))?;
    let family = s.survey.family;
    let (whole, metre) = (force(most.whole, family), force(most.per_length, family));
    Some(answer(
        "wall thrust",
        Verdict::CannotSay,
        None,
        format!(
            "cannot say what the walls bear: if they hold the roof as surveyed, each is pushed outward by up to {whole}, {metre} on each metre (3.3 ft) of wall, under {}; what the roof does if they spread is in every check",
            most.load
        ),
    ))
}

fn standing(s: &Summary<'_>, footing: Footing) -> Result<QuestionAnswer, NotFinite> {
    let question = if footing == Footing::Bare { "standing without a board" } else { "standing on a board" };
    if s.survey.person.way == Way::Nobody {
        return Ok(answer(
            question,
            Verdict::CannotSay,
            None,
            "not asked: surveyed as not to be walked on".to_owned(),
        ));
    }
    let stumble = |k: &Key| k.check == Check::FallThrough;
    let on_it = |k: &Key| k.footing == footing || (footing == Footing::OnABoard && stumble(k));
    let worst = worst_of(s, on_it);
    let through = worst_of(s, stumble).is_some_and(|w| w.outcome != Outcome::Holds);
    let own_gaps: Vec<String> = s
        .not_checked
        .iter()
        .filter(|n| {
            let bare = n.part.ends_with("under a bare foot");
            let board = n.part.ends_with("under the board");
            n.check == "all" || (footing == Footing::Bare && bare) || (footing == Footing::OnABoard && board)
        })
        .map(|n| n.why.clone())
        .collect();
    let mut told = judged(s, question, worst, &own_gaps)?;
    if footing == Footing::Bare && told.verdict == Verdict::DoesNotHold && !through {
        let on_board =
            worst_of(s, |k| k.footing == Footing::OnABoard).is_some_and(|w| w.outcome == Outcome::Holds);
        let local =
            worst_of(s, |k| k.footing == Footing::Bare && !matches!(k.check, Check::Dent | Check::Heel));
        if on_board && local.is_none_or(|w| w.outcome == Outcome::Holds) {
            told.verdict = Verdict::OnlyOnABoard;
            told.words = told.words.replacen("does not hold", "only on a board", 1);
        }
    }
    Ok(told)
}

/// Sag now and later, with and without braces, default materials.
///
/// # Errors
/// A number that is not finite.
pub(crate) fn sags(s: &Summary<'_>) -> Result<SagSummary, NotFinite> {
    let of = |bracing: Bracing, load: &str| -> Option<f64> {
        s.study
            .studied
            .iter()
            .filter(|v| {
                let bond = if bracing == Bracing::With && s.glue_holds { Bond::Full } else { Bond::None };
                v.variant.bracing == bracing
                    && v.variant.bond == bond
                    && v.variant.materials == Materials::Default
            })
            .flat_map(|v| &v.runs)
            .filter(|r| {
                (r.load.starts_with("unit parked") || r.load.starts_with("own weight"))
                    && r.load.ends_with(load)
            })
            .map(|r| r.sag_max.value.get())
            .reduce(f64::max)
    };
    let finite = |v: Option<f64>| v.map(|v| Finite::new(v, "sag")).transpose();
    Ok(SagSummary {
        now_with: finite(of(Bracing::With, "first day"))?,
        now_without: finite(of(Bracing::Without, "first day"))?,
        later_with: finite(of(Bracing::With, "service life"))?,
        later_without: finite(of(Bracing::Without, "service life"))?,
    })
}
