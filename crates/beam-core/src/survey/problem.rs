//! What is wrong with a survey: every problem of the file, each with its place, value and remedy.

use std::fmt;
use std::ops::Range;

/// One problem of a survey.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Stable code, e.g. `tube-deeper-than-core`.
    pub code: &'static str,
    /// Bytes in [`Problems::text`]; empty where there is no text.
    pub span: Range<usize>,
    /// Line, counted from 1; 0 where there is no text.
    pub line: usize,
    /// Character in the line, counted from 1; 0 where there is no text.
    pub column: usize,
    /// The value that was found.
    pub value: String,
    /// What is allowed.
    pub allowed: String,
    /// What to write instead.
    pub write_instead: String,
    /// What is wrong, in one sentence.
    pub message: String,
}

impl Problem {
    pub(super) fn new(code: &'static str, span: Range<usize>, message: impl Into<String>) -> Self {
        Problem {
            code,
            span,
            line: 0,
            column: 0,
            value: String::new(),
            allowed: String::new(),
            write_instead: String::new(),
            message: message.into(),
        }
    }

    pub(super) fn value(mut self, value: &str) -> Self {
        self.value = value.to_string();
        self
    }

    pub(super) fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = allowed.into();
        self
    }

    pub(super) fn write(mut self, instead: impl Into<String>) -> Self {
        self.write_instead = instead.into();
        self
    }
}

/// Every problem of one survey, in the order of its lines; never empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problems {
    /// Name of the file as asked for.
    pub file: String,
    /// Text of the file, without a byte-order mark; empty where it could not be read.
    pub text: String,
    /// The problems.
    pub list: Vec<Problem>,
}

impl Problems {
    /// Numbers the lines and sorts by them.
    pub(super) fn new(file: &str, text: &str, mut list: Vec<Problem>) -> Self {
        for problem in &mut list {
            if !text.is_empty() {
                problem.span = first_line(text, &problem.span);
                (problem.line, problem.column) = line_and_column(text, problem.span.start);
            }
        }
        list.sort_by_key(|problem| (problem.span.start, problem.code));
        Problems { file: file.to_string(), text: text.to_string(), list }
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.list.iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            write!(f, "{}", self.file)?;
            if problem.line > 0 {
                write!(f, ":{}:{}", problem.line, problem.column)?;
            }
            write!(f, ": {} [{}]", problem.message, problem.code)?;
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}

/// What of a span stands on its first line.
fn first_line(text: &str, span: &Range<usize>) -> Range<usize> {
    let typed = text.get(span.clone()).unwrap_or_default();
    let first = typed.split('\n').next().unwrap_or_default().trim_end();
    span.start..span.start + first.len()
}

/// Line and character, both from 1.
pub(super) fn line_and_column(text: &str, at: usize) -> (usize, usize) {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    let before = &text[..at];
    let line_start = before.rfind('\n').map_or(0, |nl| nl + 1);
    (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
}
