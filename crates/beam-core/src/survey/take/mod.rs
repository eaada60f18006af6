//! Takers: each asks a table for one key and notes what it gets, or what is wrong with it.
//!
//! A taker that finds a problem records it and answers `None`; the section goes on with its next key, so that every
//! problem of a file is told at once. What was asked for is remembered: the keys left over at the end are unknown.

mod items;
mod number;
mod place;
mod quantity;
mod table;
mod words;

use std::ops::Range;

pub(super) use items::{Items, Naming};
pub(super) use number::{Number, Whole};
pub(super) use place::{interval, on_roof, patch, point};
pub(super) use quantity::{Bound, Pair};
pub(super) use table::Table;
pub(super) use words::{Text, Words, YesNo, near, one_line};

use section_tables::Tables;

use super::problem::Problem;
use super::tree::Node;
use super::{Given, Origin, OwnMaterial};
use crate::quantity::Headers;

/// How one value is read.
pub(super) trait Take<T> {
    /// The value at `path`, or `None` with the problem recorded.
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<T>;
}

impl<T, F: Fn(&mut Context<'_>, &str, &Node) -> Option<T>> Take<T> for F {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<T> {
        self(cx, path, node)
    }
}

/// One extent of the roof: SI and as typed.
#[derive(Debug, Clone)]
pub(super) struct Extent {
    pub(super) key: &'static str,
    pub(super) si: f64,
    pub(super) typed: String,
}

/// What all takers share while one file is read.
pub(super) struct Context<'a> {
    pub(super) tables: &'a Tables,
    pub(super) text: &'a str,
    /// Where each line starts.
    line_starts: Vec<usize>,
    pub(super) headers: Headers,
    /// Keys whose values the technician vouches for.
    pub(super) sure: Vec<(String, Range<usize>)>,
    /// Inside wall to inside wall, once read.
    pub(super) span: Option<Extent>,
    /// Front mark to the end, once read.
    pub(super) length: Option<Extent>,
    /// The survey's own materials by their id; `None` where one had a problem.
    pub(super) own_materials: Vec<(String, Option<OwnMaterial>)>,
    /// Every key that held a quantity, for `sure`.
    pub(super) quantity_keys: Vec<String>,
    pub(super) problems: Vec<Problem>,
    pub(super) givens: Vec<Given>,
}

impl<'a> Context<'a> {
    pub(super) fn new(tables: &'a Tables, text: &'a str) -> Self {
        Context {
            tables,
            text,
            line_starts: std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect(),
            headers: Headers::default(),
            sure: Vec::new(),
            span: None,
            length: None,
            own_materials: Vec::new(),
            quantity_keys: Vec::new(),
            problems: Vec::new(),
            givens: Vec::new(),
        }
    }

    pub(super) fn problem(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// Records a problem whose value is what stands at the span.
    pub(super) fn fault(
        &mut self,
        code: &'static str,
        span: Range<usize>,
        message: impl Into<String>,
        allowed: impl Into<String>,
        instead: impl Into<String>,
    ) {
        let value = self.typed(&span);
        self.problem(Problem::new(code, span, message).value(value).allowed(allowed).write(instead));
    }

    /// The text of the file at a span.
    pub(super) fn typed(&self, span: &Range<usize>) -> &'a str {
        let text = self.text.get(span.clone()).unwrap_or_default();
        text.split_once('\n').map_or(text, |(first, _)| first).trim()
    }

    /// Records a value that stands in the file.
    pub(super) fn given(&mut self, key: &str, node: &Node, typed: &str, si: Option<(f64, &'static str)>) {
        let line = self.line_starts.partition_point(|start| *start <= node.span.start);
        self.note(key, typed, si, Origin::Line(line));
    }

    /// Records a value that nobody gave.
    pub(super) fn default(
        &mut self,
        key: &str,
        si: Option<(f64, &'static str)>,
        code: &'static str,
        words: impl Into<String>,
    ) {
        self.note(key, "", si, Origin::Default { code, words: words.into() });
    }

    /// Records a value with its origin.
    pub(super) fn note(&mut self, key: &str, typed: &str, si: Option<(f64, &'static str)>, from: Origin) {
        let (si, unit) = si.map_or((None, ""), |(si, unit)| (Some(si), unit));
        self.givens.push(Given { key: key.to_string(), typed: typed.to_string(), si, unit, from });
    }

    /// Whether the technician vouches for this key, by itself or for all of its kind (`layer.thickness`).
    pub(super) fn is_sure(&self, path: &str) -> bool {
        self.sure.iter().any(|(key, _)| key == path || *key == without_counters(path))
    }
}

/// `layer.2.thickness` without its counters: `layer.thickness`.
pub(super) fn without_counters(path: &str) -> String {
    let words: Vec<&str> = path.split('.').filter(|word| word.parse::<usize>().is_err()).collect();
    words.join(".")
}
