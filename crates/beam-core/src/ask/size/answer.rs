//! From the search to the result document.

use super::cut_list::cut_list;
use super::document::{CandidateRow, Searched, SizeDocument, Without};
use super::pattern::words;
use super::places::gaps;
use super::rack::{currency, from_the_rack};
use super::rows::{row, stays_over, told};
use super::search::{Field, IN_FULL, Judged, Search};
use super::words::{cures, described, held_back, not_modelled, over, trimmer_joints, uses};
use super::{Room, SizeError, Trimmers, needs_nothing};
use crate::check::{Bracing, CheckDocument, Finite, MadeWith, NotChecked, ReadIn, Verdict, Words};
use crate::quantity::{percent, tape};
use crate::survey::{Condition, RoofKind};

/// Code of the step where nobody can say what the roof does.
const SETTLE_FIRST: &str = "settle-first";

/// A brace with which the roof uses more than this share of what it uses without is no help (judged).
const NO_HELP: f64 = 0.98;

/// What came out, before it is told.
enum Outcome {
    NotModelled,
    NothingCanBeSaid,
    SoftLedger,
    NotNeeded,
    Found,
    Mend,
    NothingFits,
    None,
}

pub(super) fn document(
    field: &Field<'_>,
    room: &Room<'_>,
    bare: &CheckDocument,
    search: &Search<'_>,
) -> Result<SizeDocument, SizeError> {
    let survey = field.survey;
    let outcome = outcome(field, bare, search);
    let found = search.found.map(|i| &search.tried[i]);
    let found_row = found.map(|(candidate, judged)| row(field, candidate, judged)).transpose()?;
    let whole = match found {
        Some((_, Judged::InFull(document))) => Some(&**document),
        _ => None,
    };
    let told_from = whole.unwrap_or(bare);
    let clean = field.beyond_bracing.is_empty();
    let (chosen, once_mended) = if clean { (found_row, None) } else { (None, found_row) };
    let lighter = search.with_trimmers.filter(|_| clean).map(|i| &search.tried[i]);
    let with_trimmers = lighter.map(|(candidate, judged)| row(field, candidate, judged)).transpose()?;
    let stays_over = stays_over(bare, field.beyond_bracing, search)?;
    let cut_list = match (found, &chosen) {
        (Some((candidate, _)), Some(_)) => cut_list(field, room.core, candidate)?,
        _ => Vec::new(),
    };
    let candidates = told(field, search)?;
    let mut answer = answer(
        &outcome,
        field,
        bare,
        search,
        chosen.as_ref().or(once_mended.as_ref()),
        &stays_over,
        told_from,
    );
    let mut next_steps = cures(&stays_over);
    if matches!(outcome, Outcome::SoftLedger) {
        next_steps.insert(
            0,
            words(
                "new-ledger",
                "Replace the ledger along the side walls before anything lands on it; then ask again."
                    .to_owned(),
            ),
        );
    }
    next_steps.extend(steps(&outcome));
    if chosen.as_ref().is_some_and(|row| !row.trimmers.is_empty()) {
        next_steps.push(words(
            "trimmer-joints",
            "Before relying on the trimmers: have someone who may say so design their end joints for the forces under \"Not checked\". Until then prop the roof and stay off.".to_owned(),
        ));
    }
    let mut tubes: Vec<String> = Vec::new();
    let mut alloys: Vec<String> = Vec::new();
    for stock in &room.stock {
        if !tubes.contains(&stock.tube.id) {
            tubes.push(stock.tube.id.clone());
        }
        if !alloys.contains(&stock.alloy.id) {
            alloys.push(stock.alloy.id.clone());
        }
    }
    let worst = bare
        .checks
        .iter()
        .filter(|r| r.counts && r.bracing == Bracing::Without)
        .max_by(|a, b| a.ratio.get().total_cmp(&b.ratio.get()));
    answer.push_str(&match outcome {
        Outcome::Found => chosen.as_ref().map_or_else(String::new, |row| one_before(row, &candidates, field)),
        Outcome::None => worst.and_then(|w| came_nearest(w, &candidates, field)).unwrap_or_default(),
        _ => String::new(),
    });
    if let (Some(row), Some((_, Judged::InFull(whole)))) = (&with_trimmers, lighter) {
        let joints = trimmer_joints(&whole.not_checked).unwrap_or_else(|| held_back(&whole.not_checked));
        answer.push_str(&format!(
            " Still {}: {}. They fail nothing that was checked, but nobody can say that the roof holds with them ({joints}).",
            field.first_by.before(),
            described(row, field),
        ));
    }
    let mut not_checked = told_from.not_checked.clone();
    if !survey.stages.is_empty() {
        not_checked.push(NotChecked {
            check: "all".to_owned(),
            part: "stages".to_owned(),
            why: "only the finished roof was judged: run `check --stage` with the braces written in"
                .to_owned(),
            blocks: false,
        });
    }
    let mut assumptions = assumptions(field, room);
    assumptions.extend(told_from.assumptions.iter().cloned());
    Ok(SizeDocument {
        schema: 1,
        made_with: MadeWith::new(field.tables, &["ADM 2020 ASD"], Some(&survey.hash)),
        title: survey.title.clone(),
        read_in: ReadIn(survey.family),
        answer,
        verdict: told_from.verdict,
        brace_needed: whole.map_or(bare.brace_needed, |d| d.brace_needed),
        without: Without {
            verdict: bare.verdict,
            check: worst.map(|r| r.check.clone()),
            ratio: worst.map(|r| r.ratio),
        },
        searched: Searched {
            candidates: search.candidates,
            tried: search.tried.len(),
            in_full: search.in_full,
            gave_up: search.gave_up,
            tubes,
            alloys,
            counts: room.counts.clone(),
            trimmers: room.trimmers,
            max_depth: Finite::new(room.max_depth, "depth of tubes")?,
            first_by: field.first_by,
            currency: currency(field.tables).map(str::to_owned),
        },
        chosen,
        once_mended,
        with_trimmers,
        candidates,
        stays_over,
        cut_list,
        next_steps,
        not_checked,
        assumptions,
        cautions: told_from.cautions.clone(),
    })
}

impl SizeDocument {
    /// Whether what was asked was found: braces that hold, or that none are needed; `None`: cannot say.
    pub fn found(&self) -> Option<bool> {
        let holds = (self.verdict == Verdict::Holds).then_some(true);
        if self.chosen.is_some() {
            return holds;
        }
        // Nothing was looked for: because nothing is needed, because nobody can say, or because of something to mend.
        let to_mend = self.next_steps.iter().any(|step| step.code != SETTLE_FIRST);
        if self.searched.candidates == 0 && !to_mend { holds } else { Some(false) }
    }
}

fn outcome(field: &Field<'_>, bare: &CheckDocument, search: &Search<'_>) -> Outcome {
    if field.survey.roof.kind != RoofKind::Laminated {
        Outcome::NotModelled
    } else if field.survey.wall.condition == Condition::Soft {
        Outcome::SoftLedger
    } else if bare.checks.is_empty() || bare.not_checked.iter().any(|n| n.blocks && n.check == "all") {
        Outcome::NothingCanBeSaid
    } else if needs_nothing(bare) {
        Outcome::NotNeeded
    } else if !field.beyond_bracing.is_empty() {
        Outcome::Mend
    } else if search.found.is_some() {
        Outcome::Found
    } else if search.candidates == 0 {
        Outcome::NothingFits
    } else {
        Outcome::None
    }
}

fn answer(
    outcome: &Outcome,
    field: &Field<'_>,
    bare: &CheckDocument,
    search: &Search<'_>,
    found: Option<&CandidateRow>,
    stays_over: &[super::StaysOver],
    told_from: &CheckDocument,
) -> String {
    let (survey, tried, first) = (field.survey, search.tried.len(), field.first_by.word());
    match outcome {
        Outcome::NotModelled => {
            format!("Cannot say which tube is enough: {}.", not_modelled(survey.roof.kind))
        }
        Outcome::NothingCanBeSaid => {
            format!("Cannot say which tube is enough: {}.", held_back(&bare.not_checked))
        }
        Outcome::SoftLedger => {
            "No tube is enough: the ledger is soft, and every brace lands on it. Replace it first.".to_owned()
        }
        Outcome::NotNeeded if bare.verdict == Verdict::Holds => {
            "No brace is needed: the roof holds without one.".to_owned()
        }
        Outcome::NotNeeded => format!(
            "No brace was sized: nothing that was checked fails without one. It cannot be said that the roof holds: {}.",
            held_back(&bare.not_checked)
        ),
        Outcome::Found => match found {
            Some(row) if told_from.verdict == Verdict::Holds => {
                format!("The {first} that holds: {}. {}", described(row, field), uses(row))
            }
            Some(row) => format!(
                "The {first} that fails nothing that was checked: {}. {} It cannot be said that the roof holds with it: {}.",
                described(row, field),
                uses(row),
                held_back(&told_from.not_checked)
            ),
            None => String::new(),
        },
        Outcome::Mend => {
            let then = match found {
                Some(row) => format!(
                    " Once that is mended, the {first} of those tried that fails nothing else that was checked is {}; ask again then.",
                    described(row, field)
                ),
                None if tried > 0 => " And no brace tried cures the rest.".to_owned(),
                None => String::new(),
            };
            let beyond: Vec<_> = stays_over.iter().filter(|s| s.beyond_bracing).cloned().collect();
            format!("No tube is enough: no brace changes {}. Mend that first.{then}", over(&beyond))
        }
        Outcome::NothingFits if !field.tables.rack.is_empty() => {
            "Nothing on the rack is what was asked for and fits into the core with its cover.".to_owned()
        }
        Outcome::NothingFits => "No tube asked for fits into the core with its cover.".to_owned(),
        Outcome::None => {
            let gave_up = if search.gave_up {
                format!(" The search ended after {IN_FULL} whole checks: name fewer tubes or other places.")
            } else {
                String::new()
            };
            if stays_over.is_empty() {
                format!("No brace tried is enough: each of {tried} fails something.{gave_up}")
            } else {
                format!(
                    "No brace tried is enough: with each of {tried} there stays {}.{gave_up}",
                    over(stays_over)
                )
            }
        }
    }
}

/// Why the one just before the chosen one, of another tube, alloy or number, is not enough.
fn one_before(chosen: &CandidateRow, rows: &[CandidateRow], field: &Field<'_>) -> String {
    let trimmed = |row: &CandidateRow| !row.trimmers.is_empty();
    let before = rows.iter().take_while(|row| *row != chosen).filter(|row| trimmed(row) == trimmed(chosen));
    let Some(last) = before.filter(|row| row.kind() != chosen.kind()).last() else { return String::new() };
    let used = |row: &&CandidateRow| row.ratio.map_or(f64::INFINITY, Finite::get);
    let best = rows
        .iter()
        .take_while(|row| *row != chosen)
        .filter(|row| row.kind() == last.kind())
        .min_by(|a, b| used(a).total_cmp(&used(b)));
    // Where it is used most stands with it among the nearest.
    match best.and_then(|row| Some((row, row.check.as_ref()?, row.ratio?.get()))) {
        Some((row, check, used)) => {
            format!(
                " The next {} one fails: {}. It uses {} in {check}.",
                field.first_by.before(),
                described(row, field),
                percent(used)
            )
        }
        None => String::new(),
    }
}

/// How near the nearest comes, beside the roof without braces; where it comes no nearer, no brace helps.
fn came_nearest(bare: &crate::check::CheckRow, rows: &[CandidateRow], field: &Field<'_>) -> Option<String> {
    let rows = rows.iter().filter_map(|row| Some((row, row.ratio?.get(), row.check.as_ref()?)));
    let (row, used, check) = rows.min_by(|a, b| a.1.total_cmp(&b.1))?;
    let (without, tightest) = (bare.ratio.get(), &bare.check);
    Some(if used > NO_HELP * without {
        format!(
            " No brace helps: without any, {tightest} uses {}, and with the nearest of those tried {check} still uses {}.",
            percent(without),
            percent(used)
        )
    } else {
        format!(
            " Nearest comes {}: {check} uses {}, against {} in {tightest} without braces.",
            described(row, field),
            percent(used),
            percent(without)
        )
    })
}

fn steps(outcome: &Outcome) -> Vec<Words> {
    let told: &[(&str, &str)] = match outcome {
        Outcome::Found => &[
            (
                "write-it-in",
                "Write what is chosen into the survey and run `check` on it: it says what is left to look at and in which order to work.",
            ),
            (
                "template-first",
                "Cut one, bend it to the heights of its stations, and hold it to a template before cutting the next.",
            ),
            ("dry-fit", "Before gluing: dry-fit each brace; no gap to the skin wider than 1/8 in (3 mm)."),
        ],
        Outcome::NotModelled | Outcome::NothingCanBeSaid => {
            &[(SETTLE_FIRST, "Settle first what is listed under \"Not checked\", then ask again.")]
        }
        Outcome::Mend | Outcome::None | Outcome::SoftLedger => &[(
            "ask-again",
            "Write what was mended into the survey and ask again. Until then keep the roof propped and people off.",
        )],
        Outcome::NothingFits => &[(
            "more-room",
            "Ask for less cover (--cover), other tubes (--tubes), or survey a brace that sits under the ceiling.",
        )],
        Outcome::NotNeeded => &[],
    };
    told.iter().map(|(code, told)| words(code, (*told).to_owned())).collect()
}

fn assumptions(field: &Field<'_>, room: &Room<'_>) -> Vec<Words> {
    let survey = field.survey;
    let inch = |m: f64| tape(m, survey.family);
    let mut out = field.pattern.words.clone();
    if room.core.is_some() {
        out.push(words(
            "cover",
            format!(
                "at least {} of foam is left beside a brace in the core (common practice, no source): tubes up to {} deep are tried",
                inch(room.cover),
                inch(room.max_depth)
            ),
        ));
    } else {
        out.push(words(
            "headroom",
            format!(
                "tubes up to {} deep are tried (headroom; common practice, no source)",
                inch(room.max_depth)
            ),
        ));
    }
    let places = if survey.openings.is_empty() {
        "braces are tried evenly spread along the roof".to_owned()
    } else {
        let [a, b, c] = gaps(survey.family).map(inch);
        format!(
            "braces are tried {a}, {b} and {c} from the edge of the opening to their near face, beside frames and whatever is in the roof already; a third in the middle of the longest stretch left"
        )
    };
    out.push(words("places-tried", places));
    if !survey.openings.is_empty() {
        out.push(if room.trimmers == Trimmers::Without {
            words(
                "no-trimmers-tried",
                "braces were tried without trimmers between them beside the opening, as asked for: trimmers carry the rim to the braces, and with them a lighter tube may do".to_owned(),
            )
        } else {
            words(
                "trimmers-tried",
                "braces on both sides of the opening were tried with trimmers between them too: of the same tube, one on either side with its near face at the opening's edge or frame, loose against the skin that the braces touch; their end joints carry shear alone. A survey has no way to describe such a joint, so its strength is not checked, and with trimmers nobody can say that a roof holds".to_owned(),
            )
        });
    }
    out.extend(from_the_rack(field.tables));
    out.push(words(
        "cut-wall-to-wall",
        "braces are cut from inside wall to inside wall, as the survey has its span; what the ends bear beyond that is added at each end".to_owned(),
    ));
    out.push(words(
        "coarse-first",
        "every candidate was sorted out on a coarse grid with low, high and default materials, its braces condensed onto the panel and every contact closed: a case in which a contact would have to pull puts none aside; what was left was solved as a whole on the grid of the answer, in their order; the chosen one and those told as judged in full had the whole check".to_owned(),
    ));
    out
}
