//! The answer of `check`: verdict first, then what to do, then the evidence.

use beam_core::check::{CheckDocument, Finite, MadeWith, NotChecked, QuestionAnswer, Words};
use beam_core::quantity::{Family, percent, sag};

use super::checks::checks;
use super::page::Page;
use super::style;
use super::table::{Set, Table};
use super::work::work;
use super::working::workings;
use crate::print::words;

/// Lays out the answer of `check` in so many columns.
pub(crate) fn check(document: &CheckDocument, width: usize) -> String {
    let mut page = Page::new(width);
    verdict(&mut page, document);
    answers(&mut page, &document.answers);
    sags(&mut page, document);
    next_steps(&mut page, &document.next_steps);
    work(&mut page, document);
    measured(&mut page, document);
    checks(&mut page, document);
    workings(&mut page, document);
    not_checked(&mut page, &document.not_checked);
    listed(&mut page, "Assumed, because the survey does not say", &document.assumptions);
    listed(&mut page, "Cautions", &document.cautions);
    made_with(&mut page, &document.made_with);
    page.finish()
}

fn verdict(page: &mut Page, document: &CheckDocument) {
    let verdict = document.verdict;
    let word = style::judged(verdict, &format!("{}.", verdict.words().to_uppercase()));
    page.paragraph(&format!("{word} {}", words::verdict_sentence(verdict)));
    page.gap();
    let label = |page: &mut Page, label: &str, words: &str| {
        if !words.is_empty() {
            page.labelled(label, "Brace needed".len(), &[words]);
        }
    };
    label(page, "Roof", &document.title);
    label(page, "Stage", &document.stage);
    label(page, "Why", &document.why);
    if let Some(governing) = &document.governing {
        let tightest = format!(
            "{}, {}, under {}: uses {}",
            governing.check,
            governing.part,
            governing.load,
            percent(governing.ratio.get())
        );
        label(page, "Tightest", &tightest);
    }
    label(page, "Brace needed", brace_needed(document.brace_needed));
    label(page, "Scope", &document.scope);
}

fn brace_needed(needed: Option<bool>) -> &'static str {
    match needed {
        Some(true) => "yes: without new braces this roof fails something that bracing cures",
        Some(false) => "no: without new braces nothing fails that bracing cures",
        None => "cannot say",
    }
}

fn answers(page: &mut Page, answers: &[QuestionAnswer]) {
    if answers.is_empty() {
        return;
    }
    page.heading("Answers");
    let label_width = answers.iter().map(|answer| answer.question.chars().count()).max().unwrap_or(0);
    for answer in answers {
        let judged = style::judged(answer.verdict, answer.verdict.words());
        if let Some(rest) = answer.words.strip_prefix(answer.verdict.words()) {
            // The words say it all: verdict, how much, what and where.
            page.labelled(&words::capital(&answer.question), label_width, &[&format!("{judged}{rest}")]);
            continue;
        }
        let first = match answer.ratio {
            Some(ratio) => format!("{judged}, uses {}", percent(ratio.get())),
            None => judged,
        };
        let lines: &[&str] = if answer.words.is_empty() { &[&first] } else { &[&first, &answer.words] };
        page.labelled(&words::capital(&answer.question), label_width, lines);
    }
}

fn sags(page: &mut Page, document: &CheckDocument) {
    let sags = document.sag;
    let family = document.read_in.0;
    let rows = [
        ("now: own weight and unit, first day", sags.now_with, sags.now_without),
        ("later: the same after its years in service", sags.later_with, sags.later_without),
    ];
    if rows.iter().all(|(_, with, without)| with.is_none() && without.is_none()) {
        return;
    }
    page.heading("Sag");
    let mut table =
        Table::new(&[("when", Set::Words), ("with new braces", Set::Right), ("without", Set::Right)]);
    for (when, with, without) in rows {
        table.row([when.to_owned(), one_sag(with, family), one_sag(without, family)]);
    }
    page.table(&table);
}

fn one_sag(value: Option<Finite>, family: Family) -> String {
    value.map_or_else(|| "not computed".to_owned(), |value| sag(value.get(), family))
}

/// Numbered steps.
pub(super) fn next_steps(page: &mut Page, steps: &[Words]) {
    if steps.is_empty() {
        return;
    }
    page.heading("Next steps");
    for (i, step) in steps.iter().enumerate() {
        page.item(&format!("{}.", i + 1), &step.words);
    }
}

fn measured(page: &mut Page, document: &CheckDocument) {
    if document.measured.is_empty() {
        return;
    }
    page.heading("Measured against computed");
    let family = document.read_in.0;
    let mut table = Table::new(&[
        ("reading", Set::Words),
        ("measured", Set::Right),
        ("computed", Set::Right),
        ("what it means", Set::Words),
    ]);
    for reading in &document.measured {
        table.row([
            reading.name.clone(),
            sag(reading.measured.get(), family),
            sag(reading.computed.get(), family),
            reading.words.clone(),
        ]);
    }
    page.table(&table);
}

/// What was not checked: what keeps the verdict from "holds" first.
pub(super) fn not_checked(page: &mut Page, not_checked: &[NotChecked]) {
    page.heading("Not checked");
    if not_checked.is_empty() {
        page.note("Nothing that was asked was left out.");
        return;
    }
    let (blocking, noted): (Vec<_>, Vec<_>) = not_checked.iter().partition(|left_out| left_out.blocks);
    for left_out in blocking {
        let mark = style::warning("keeps the verdict from \"holds\":");
        page.item("!", &format!("{mark} {}, {}: {}", left_out.check, left_out.part, left_out.why));
    }
    for left_out in noted {
        page.item("-", &format!("{}, {}: {}", left_out.check, left_out.part, left_out.why));
    }
}

/// Sentences with their codes, under a heading.
pub(super) fn listed(page: &mut Page, heading: &str, sentences: &[Words]) {
    if sentences.is_empty() {
        return;
    }
    page.heading(heading);
    for sentence in sentences {
        page.item("-", &format!("{} {}", sentence.words, style::faint(&format!("[{}]", sentence.code))));
    }
}

/// What made it, last and faint.
pub(super) fn made_with(page: &mut Page, made: &MadeWith) {
    page.gap();
    let rules =
        if made.rules.is_empty() { String::new() } else { format!(", rules {}", made.rules.join(", ")) };
    let survey = made.survey_hash.as_ref().map_or_else(String::new, |hash| format!(", survey {hash}"));
    page.paragraph(&style::faint(&format!(
        "bracewright {}, tables {}{rules}{survey}",
        made.version, made.tables,
    )));
}

#[cfg(test)]
mod tests {
    use super::check;
    use crate::print::example::document;
    use beam_core::check::Verdict;

    fn plain(verdict: Verdict, width: usize) -> String {
        anstream::adapter::strip_str(&check(&document(verdict), width)).to_string()
    }

    #[test]
    fn the_verdict_stands_first_in_words() {
        for (verdict, start) in [
            (Verdict::Holds, "HOLDS. "),
            (Verdict::BraceNeeded, "BRACE NEEDED. "),
            (Verdict::BraceTooWeak, "BRACE TOO WEAK. "),
            (Verdict::DoesNotHold, "DOES NOT HOLD. "),
            (Verdict::CannotSay, "CANNOT SAY. "),
        ] {
            assert!(plain(verdict, 100).starts_with(start), "{start}");
        }
    }

    #[test]
    fn sections_come_in_the_order_of_use() {
        let text = plain(Verdict::CannotSay, 100);
        let places: Vec<usize> = [
            "Scope",
            "\nAnswers\n",
            "\nSag\n",
            "\nNext steps\n",
            "\nMeasured against computed\n",
            "\nChecks, finished",
            "\nNot checked\n",
            "\nAssumed",
            "\nCautions\n",
        ]
        .iter()
        .map(|heading| text.find(heading).unwrap_or_else(|| panic!("{heading} is missing in\n{text}")))
        .collect();
        assert!(places.is_sorted(), "{places:?}");
    }

    /// Every fail is told in a word: stripped of colour, the page still says which check does not hold.
    #[test]
    fn verdicts_are_words_and_ratios_are_uses() {
        let text = plain(Verdict::Holds, 100);
        assert!(text.contains("holds, uses 61 %"), "{text}");
        let failing = text.lines().find(|line| line.trim_start().starts_with("121 %")).unwrap_or_default();
        assert!(failing.contains("does not hold"), "{failing}");
        let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("{words} is missing in\n{text}"));
        assert!(place("with new braces, worst first") < place(" 83 %  holds"));
        assert!(place("without new braces, worst first") < place("121 %"));
        assert!(place(" 40 %  holds") < place("121 %"), "what stands in the roof comes first");
    }

    #[test]
    fn what_blocks_is_listed_before_what_does_not() {
        let text = plain(Verdict::CannotSay, 100);
        let place = |words: &str| text.find(words).unwrap_or(usize::MAX);
        assert!(place("glue line, brace front: no glue given") < place("water, panel: no fall was measured"));
        assert!(text.contains("keeps the verdict from \"holds\": glue line"));
    }

    #[test]
    fn no_line_is_wider_than_the_page() {
        for width in [60, 80, 95, 100, 140] {
            for line in plain(Verdict::Holds, width).lines() {
                assert!(line.chars().count() <= width, "{} of {width} columns: {line}", line.chars().count());
            }
        }
    }
}
