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
    /// Sorts by place and numbers the lines, in one walk through the text.
    pub(super) fn new(file: &str, text: &str, mut list: Vec<Problem>) -> Self {
        list.sort_by_key(|problem| (problem.span.start, problem.code));
        let (mut seen, mut line, mut column) = (0, 1, 1);
        for problem in list.iter_mut().filter(|_| !text.is_empty()) {
            problem.span = first_line(text, &problem.span);
            for sign in text[seen..problem.span.start].chars() {
                (line, column) = if sign == '\n' { (line + 1, 1) } else { (line, column + 1) };
            }
            seen = problem.span.start;
            (problem.line, problem.column) = (line, column);
        }
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

/// What of a span stands on its first line, between whole signs of the text.
fn first_line(text: &str, span: &Range<usize>) -> Range<usize> {
    let mut start = span.start.min(text.len());
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let typed = text.get(start..span.end).unwrap_or_default();
    let first = typed.split('\n').next().unwrap_or_default().trim_end();
    start..start + first.len()
}
