//! Texts, choices of words, yes and no.

use std::ops::Range;

use super::{Context, Take};
use crate::survey::problem::Problem;
use crate::survey::tree::{Node, Value};

/// Nearer than this and a word is offered.
const NEAR: f64 = 0.6;

/// The candidate nearest to what was written, if it is near at all.
pub(in crate::survey) fn near<'c>(
    written: &str,
    candidates: impl IntoIterator<Item = &'c str>,
) -> Option<String> {
    let written = written.to_lowercase();
    candidates
        .into_iter()
        .map(|candidate| {
            (strsim::normalized_damerau_levenshtein(&written, &candidate.to_lowercase()), candidate)
        })
        .filter(|(closeness, _)| *closeness >= NEAR)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, candidate)| candidate.to_string())
}

/// One line of text that is not blank.
pub(in crate::survey) struct Text;

impl Take<String> for Text {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<String> {
        let Value::Text(text) = &node.value else {
            cx.wrong_kind(path, node, "text", "the text between double quotes");
            return None;
        };
        let text = text.trim();
        if text.is_empty() {
            let message = format!("`{path}` is empty");
            cx.fault("text-empty", node.span.clone(), message, "text", "the text, or leave the line out");
            return None;
        }
        one_line(cx, path, &node.span, text)?;
        cx.given(path, node, text, None);
        Some(text.to_string())
    }
}

/// Records a text that would not print as it is: on paper and screen a name is one line of plain signs.
pub(in crate::survey) fn one_line(
    cx: &mut Context<'_>,
    path: &str,
    span: &Range<usize>,
    text: &str,
) -> Option<()> {
    if !text.chars().any(char::is_control) {
        return Some(());
    }
    let message = format!("`{path}` holds a line break or a control sign");
    cx.fault("text-not-plain", span.clone(), message, "one line of plain text", "the text without it");
    None
}

/// One of several words; the first spelling of a value is the one that is offered.
pub(in crate::survey) struct Words<T: 'static>(pub(in crate::survey) &'static [(&'static str, T)]);

impl<T: Copy> Words<T> {
    /// The value of a word, whatever its case.
    pub(in crate::survey) fn find(&self, written: &str) -> Option<T> {
        let written = written.trim();
        self.0.iter().find(|(word, _)| word.eq_ignore_ascii_case(written)).map(|(_, value)| *value)
    }

    /// Records that a word is none of them; `or` names what else may stand here.
    pub(in crate::survey) fn refuse(
        &self,
        cx: &mut Context<'_>,
        path: &str,
        node: &Node,
        written: &str,
        or: &str,
    ) {
        let quoted: Vec<String> = self.0.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        let guess = near(written, self.0.iter().map(|(word, _)| *word));
        let message = match &guess {
            Some(guess) => format!("`{path}` cannot be \"{written}\"; did you mean \"{guess}\"?"),
            None => format!("`{path}` cannot be \"{written}\""),
        };
        cx.problem(
            Problem::new("word-unknown", node.span.clone(), message)
                .value(written)
                .allowed(format!("{}{or}", quoted.join(", ")))
                .write(guess.map_or("one of the words above".to_string(), |guess| format!("\"{guess}\""))),
        );
    }
}

impl<T: Copy> Take<T> for Words<T> {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<T> {
        let Value::Text(text) = &node.value else {
            let words: Vec<String> = self.0.iter().map(|(word, _)| format!("\"{word}\"")).collect();
            cx.wrong_kind(path, node, "a word", &format!("one of {}", words.join(", ")));
            return None;
        };
        let found = self.find(text);
        match found {
            Some(_) => cx.given(path, node, text.trim(), None),
            None => self.refuse(cx, path, node, text, ""),
        }
        found
    }
}

/// `true` or `false`; "yes" and "no" serve too.
pub(in crate::survey) struct YesNo;

impl Take<bool> for YesNo {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<bool> {
        match &node.value {
            Value::Bool(value) => {
                cx.given(path, node, if *value { "true" } else { "false" }, None);
                Some(*value)
            }
            _ => {
                Words(&[("yes", true), ("no", false), ("true", true), ("false", false)]).take(cx, path, node)
            }
        }
    }
}
