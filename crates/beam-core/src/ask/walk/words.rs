//! The words of a walk: answers, the board, assumptions, cautions, what is not checked.

use super::boards::{board_told, board_words};
use super::document::{StageAnswer, WalkBoardWords};
use super::judge::Together;
use super::{Map, Told, Walked};
use crate::check::{NotChecked, NotFinite, Unknown, Untried, Verdict, Words};
use crate::loads::{Factors, Footing};
use crate::model::{StageChoice, parts};
use crate::quantity::{percent, tape, weight};
use crate::survey::{AluminiumRules, Formed, Origin, Snow, Survey, Way};

/// Checks that a person on the roof puts to it; gaps in others do not bear on where to stand.
const OF_A_PERSON: [&str; 7] =
    ["all", "outer skin", "inner skin", "brace", "seat bearing", "dent", "glue line"];
/// Parts that belong to the unit or to years of use.
const NOT_OF_A_PERSON: [&str; 2] = ["unit", "braces"];

/// Gaps of the survey that bear on a standing person.
pub(super) fn gaps(survey: &Survey, factors: &Factors, stage: StageChoice) -> Vec<NotChecked> {
    let mut gaps = super::super::gaps::gaps(survey, factors, stage);
    gaps.retain(|g| OF_A_PERSON.contains(&g.check.as_str()) && !NOT_OF_A_PERSON.contains(&g.part.as_str()));
    let mut also = |check: &str, part: &str, why: &str| {
        let (check, part, why) = (check.to_owned(), part.to_owned(), why.to_owned());
        gaps.push(NotChecked { check, part, why, blocks: true });
    };
    for b in survey.braces.iter().filter(|b| b.formed == Formed::Sprung) {
        also(
            "brace",
            &format!("brace {}", b.name),
            "what springing it in locks in is not added under a person here",
        );
    }
    if survey.limits.aluminium == AluminiumRules::En1999 && !survey.braces.is_empty() {
        gaps.push(NotChecked {
            check: "brace".to_owned(),
            part: "formats".to_owned(),
            why: "tubes under a person are judged by ADM 2020 ASD here: ask `check` for EN 1999-1-1"
                .to_owned(),
            blocks: false,
        });
    }
    if !survey.trimmers.is_empty() && survey.braces.iter().any(|b| !b.existing) {
        gaps.push(NotChecked {
            check: "brace shear".to_owned(),
            part: "trimmers".to_owned(),
            why: "the end joints of trimmers carry their shear: their strength is not checked".to_owned(),
            blocks: true,
        });
    }
    gaps
}

/// Feet that could not be tried.
pub(super) fn add_untried(gaps: &mut Vec<NotChecked>, feet: &[Untried]) {
    for (check, footing, why) in feet {
        let how = match footing {
            Footing::Bare => "panel under a bare foot",
            Footing::OnABoard => "panel under the board",
            Footing::NotAFoot => "panel",
        };
        // The places themselves are marked: the gap blocks there, and not for the rest of the roof.
        let gap = NotChecked {
            check: check.name().to_owned(),
            part: how.to_owned(),
            why: why.clone(),
            blocks: false,
        };
        if !gaps.contains(&gap) {
            gaps.push(gap);
        }
    }
}

/// Strengths that nobody knows.
pub(super) fn add_unknown(gaps: &mut Vec<NotChecked>, unknown: &[Unknown]) {
    for one in unknown {
        let gap = NotChecked {
            check: one.check.name().to_owned(),
            part: one.part.clone(),
            why: format!("no {} is known for it", one.what),
            blocks: true,
        };
        if !gaps.contains(&gap) {
            gaps.push(gap);
        }
    }
}

fn blocked(gaps: &[NotChecked]) -> Option<&NotChecked> {
    gaps.iter().find(|g| g.blocks)
}

/// Verdict of a stage in words: without a board, on one, not at all.
pub(super) fn answer(
    survey: &Survey,
    walked: &Walked,
    strip: Option<f64>,
    gaps: &[NotChecked],
) -> StageAnswer {
    let family = survey.family;
    let not_near =
        strip.map_or(String::new(), |s| format!(", and not within {} of the hole", tape(s, family)));
    let board = board_told(&survey.person.board, family);
    let who = format!("a person of {}", weight(survey.person.mass.value, family));
    let (verdict, mut text) = match (walked.bare.together, walked.on_board.together) {
        (Together::Holds, _) => {
            let text = strip.map_or_else(
                || format!("{who} may stand everywhere, without a board"),
                |s| {
                    format!("{who} may stand without a board, but not within {} of the hole", tape(s, family))
                },
            );
            (Verdict::Holds, format!("{text}; {}", uses(survey, &walked.bare)))
        }
        (bare, Together::Holds) => {
            let why = if bare == Together::Fails {
                format!("without it {}", fails(survey, &walked.bare))
            } else {
                format!("without it nobody can say: {}", uses(survey, &walked.bare))
            };
            let on = uses(survey, &walked.on_board);
            (Verdict::OnlyOnABoard, format!("only on a {board}{not_near}; on it {on}; {why}"))
        }
        (_, Together::Fails) => {
            let share = walked.on_board.failing;
            let keep_off = if share > 0.5 { "keep off" } else { "not everywhere, see the map" };
            let text = format!("{keep_off}: even on a {board} {}", fails(survey, &walked.on_board));
            (Verdict::DoesNotHold, text)
        }
        (_, Together::Disagrees) => (
            Verdict::CannotSay,
            format!(
                "nobody can say, so keep off: on a {board} {}, and what the materials really are decides",
                uses(survey, &walked.on_board)
            ),
        ),
        (_, Together::NotKnown) => (
            Verdict::CannotSay,
            format!(
                "not everywhere: some places could not be checked, keep off them; elsewhere on a {board} {}",
                uses(survey, &walked.on_board)
            ),
        ),
    };
    let mut verdict = verdict;
    if let (Verdict::Holds | Verdict::OnlyOnABoard, Some(gap)) = (verdict, blocked(gaps)) {
        verdict = Verdict::CannotSay;
        text = format!(
            "nobody can say, so keep off: {} ({}): {}. What was checked: {text}",
            gap.check, gap.part, gap.why
        );
    }
    StageAnswer { stage: walked.stage.clone(), verdict, words: format!("{text}.") }
}

/// An answer where nothing was solved.
pub(super) fn not_known(stage: &str, gaps: &[NotChecked]) -> StageAnswer {
    let why = blocked(gaps).map_or("nothing was checked", |g| g.why.as_str());
    StageAnswer {
        stage: stage.to_owned(),
        verdict: Verdict::CannotSay,
        words: format!("nobody can say, so keep off: {why}."),
    }
}

fn worst(survey: &Survey, told: &Told) -> Option<(f64, String)> {
    let (w, (x, y)) = told.most?;
    let family = survey.family;
    let place = format!(
        "{} with the foot {} from the left wall and {} from the front mark",
        w.check.name(),
        tape(x, family),
        tape(y, family)
    );
    Some((w.ratio, place))
}

fn uses(survey: &Survey, told: &Told) -> String {
    worst(survey, told).map_or_else(
        || "no place was found to try".to_owned(),
        |(most, place)| format!("uses up to {} ({place})", percent(most)),
    )
}

fn fails(survey: &Survey, told: &Told) -> String {
    worst(survey, told).map_or_else(
        || "it fails".to_owned(),
        |(most, place)| {
            format!("it fails at {} of the places: up to {} in {place}", percent(told.failing), percent(most))
        },
    )
}

/// The smallest stock board that does, and what to say of it.
///
/// # Errors
/// A number that is not finite.
pub(super) fn board(
    survey: &Survey,
    walked: Option<&Walked>,
) -> Result<(Option<WalkBoardWords>, String), NotFinite> {
    let Some(walked) = walked else { return Ok((None, "no board was tried".to_owned())) };
    if walked.bare.together == Together::Holds {
        return Ok((None, "no board is needed".to_owned()));
    }
    match walked.boards.iter().find(|(_, t)| *t == Together::Holds) {
        Some((board, _)) => Ok((
            Some(board_words(board)?),
            format!("the smallest stock board that does: {}", board_told(board, survey.family)),
        )),
        None => Ok((None, "no stock board does".to_owned())),
    }
}

/// Whether what was asked holds: as surveyed, or on the board chosen.
pub(super) fn verdict(walked: &Walked, footing: Footing, board: bool, gaps: &[NotChecked]) -> Verdict {
    let told = if footing == Footing::Bare { &walked.bare } else { &walked.on_board };
    let verdict = match told.together.verdict() {
        Verdict::Holds => Verdict::Holds,
        _ if board => Verdict::OnlyOnABoard,
        other => other,
    };
    match verdict {
        Verdict::Holds | Verdict::OnlyOnABoard if blocked(gaps).is_some() => Verdict::CannotSay,
        other => other,
    }
}

/// What was taken, and what was made simple.
pub(super) fn assumptions(survey: &Survey, factors: &Factors, map: Option<&Map>) -> Vec<Words> {
    let words = |code: &str, text: String| Words { code: code.to_owned(), words: text };
    let mut out: Vec<Words> = Vec::new();
    for given in &survey.givens {
        let one = match &given.from {
            Origin::Default { code, words: text } => words(code, text.clone()),
            Origin::BuildUp(id) => words(
                "build-up",
                format!(
                    "Layers are those of the build-up \"{id}\" (common practice, no source): measure them."
                ),
            ),
            Origin::Line(_) => continue,
        };
        if !out.contains(&one) {
            out.push(one);
        }
    }
    let Some(map) = map else { return out };
    if survey.person.way == Way::Nobody {
        out.push(words("nobody", "The survey says that nobody is to walk on it: the map is for a person on the board all the same.".to_owned()));
    }
    let way = if survey.person.way == Way::Bare { "without a board" } else { "on the surveyed board" };
    out.push(words("map", format!("The map is for one foot at a time {way}, tried both ways round at each of {} x {} places, on top of everything that stays on, aged; a walking person counts {} times (common practice, no source).", map.raster.across.len(), map.raster.along.len(), factors.walking)));
    out.push(words("map-bracket", "The map is for default materials. The places that use most are tried again with low and high ones; the words rest on all three.".to_owned()));
    out.push(words("other-ways", "Other ways of standing, and the roof as found, are tried on a coarser raster; boards at the places that use most.".to_owned()));
    if survey.joints.iter().any(parts) {
        out.push(words("foot-by-joint", "Near a joint of a skin the foot is tried as if that skin were gone there, which is worse than a joint: what holds so holds; where it does not, the map says that it is not known.".to_owned()));
    }
    out.push(words(
        "ends",
        "Where the roof runs on, nobody is tried close to the end of what was surveyed.".to_owned(),
    ));
    let cold = if map.cold_everywhere {
        "Hot and cold roof were both tried at every place."
    } else {
        "The hot roof was tried at every place, the cold one at every eighth: nowhere did it use more."
    };
    out.push(words("hot-and-cold", cold.to_owned()));
    if map.pulls > 0 {
        out.push(words("walls-hold", format!("At {} of the tries of the cold roof walls would have to hold it down by more than 5 % of the load, or a brace that lies loose would have to: the map takes them to. At the places that use most they were let go.", map.pulls)));
    } else {
        out.push(words(
            "walls-hold",
            "Walls are taken to hold the roof down by as much as 5 % of the load; more was nowhere needed."
                .to_owned(),
        ));
    }
    out
}

/// The cautions that stand under every answer.
pub(super) fn cautions(survey: &Survey, strip: Option<f64>) -> Vec<Words> {
    let words = |code: &str, text: String| Words { code: code.to_owned(), words: text };
    let mut out = vec![
        words("fragile-roof", "Treat this roof as fragile until a competent person has said otherwise. People have died falling through vehicle roofs and off them: work from a platform, never alone.".to_owned()),
        words("props-first", "Prop from inside before anyone climbs up or cuts, on pads above and below; floors are sandwich too.".to_owned()),
        words("not-an-engineer", "This is a calculation from what was surveyed. It is no substitute for a licensed engineer who has seen the roof.".to_owned()),
        words("hidden-damage", "Damage that was not found is not in it: tap, probe and look wider than the patch.".to_owned()),
    ];
    if let Some(s) = strip {
        out.push(words(
            "edge-strip",
            format!(
                "Keep feet and board {} away from the edge of an opening: nothing was checked there.",
                tape(s, survey.family)
            ),
        ));
    }
    if survey.person.way != Way::Bare {
        out.push(words(
            "board",
            "Lay the board on padding, flat on the skin, so that no edge or screw presses on it.".to_owned(),
        ));
    }
    if survey.conditions.snow == Snow::None {
        out.push(words("snow", "Clear all snow, from a ladder: none was counted.".to_owned()));
    }
    out
}
