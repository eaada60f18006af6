//! One table of the tree, taken apart key by key.

use std::ops::Range;

use super::{Context, Take, near};
use crate::survey::problem::Problem;
use crate::survey::tree::{Entry, Node, Value};

/// A table, what it is called, and which of its keys were asked for.
pub(in crate::survey) struct Table<'n> {
    /// Dotted path; empty for the file itself.
    pub(in crate::survey) path: String,
    span: Range<usize>,
    entries: &'n [Entry],
    asked: Vec<&'static str>,
}

impl<'n> Table<'n> {
    /// Opens a node that must be a table.
    pub(in crate::survey) fn open(cx: &mut Context<'_>, path: &str, node: &'n Node) -> Option<Self> {
        let Value::Table(entries) = &node.value else {
            cx.wrong_kind(path, node, "a table", "keys between { and }, or under a [table] line");
            return None;
        };
        Some(Table { path: path.to_string(), span: node.span.clone(), entries, asked: Vec::new() })
    }

    /// A table inside this one; without keys if it is absent.
    pub(in crate::survey) fn section(
        &mut self,
        cx: &mut Context<'_>,
        key: &'static str,
    ) -> Option<Table<'n>> {
        let path = self.path_of(key);
        match self.node(key) {
            Some(node) => Table::open(cx, &path, node),
            None => Some(Table { path, span: 0..0, entries: &[], asked: Vec::new() }),
        }
    }

    /// Dotted path of one of its keys.
    pub(in crate::survey) fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_string() } else { format!("{}.{key}", self.path) }
    }

    /// Where a key's value stands, or the table's head where it is absent.
    pub(in crate::survey) fn span_of(&self, key: &str) -> Range<usize> {
        self.entries.iter().find(|entry| entry.key == key).map_or(self.span.clone(), |e| e.node.span.clone())
    }

    /// Whether a key stands in the file, without asking for it.
    pub(in crate::survey) fn holds(&self, key: &str) -> bool {
        self.entries.iter().any(|entry| entry.key == key)
    }

    /// Whether a key is there; asks for it.
    pub(in crate::survey) fn has(&mut self, key: &'static str) -> bool {
        self.node(key).is_some()
    }

    /// The value of a key.
    pub(in crate::survey) fn node(&mut self, key: &'static str) -> Option<&'n Node> {
        self.asked.push(key);
        self.entries.iter().find(|entry| entry.key == key).map(|entry| &entry.node)
    }

    /// Every key, for a table whose keys are names; nothing is unknown in it.
    pub(in crate::survey) fn entries(&self) -> &'n [Entry] {
        self.entries
    }

    /// A key that must be there.
    pub(in crate::survey) fn required<T>(
        &mut self,
        cx: &mut Context<'_>,
        key: &'static str,
        take: &impl Take<T>,
        example: &str,
    ) -> Option<T> {
        let path = self.path_of(key);
        match self.node(key) {
            Some(node) => take.take(cx, &path, node),
            None => {
                self.missing(cx, key, example);
                None
            }
        }
    }

    /// A key that may be absent: the inner `None`. The outer one is a problem.
    pub(in crate::survey) fn optional<T>(
        &mut self,
        cx: &mut Context<'_>,
        key: &'static str,
        take: &impl Take<T>,
    ) -> Option<Option<T>> {
        let path = self.path_of(key);
        match self.node(key) {
            Some(node) => take.take(cx, &path, node).map(Some),
            None => Some(None),
        }
    }

    /// A key with a default, which is recorded with its code and a sentence.
    pub(in crate::survey) fn or<T>(
        &mut self,
        cx: &mut Context<'_>,
        key: &'static str,
        take: &impl Take<T>,
        default: (T, &'static str, &str),
    ) -> Option<T> {
        let (value, code, words) = default;
        match self.optional(cx, key, take)? {
            Some(given) => Some(given),
            None => {
                cx.default(&self.path_of(key), None, code, words);
                Some(value)
            }
        }
    }

    /// A quantity or number with a default in SI.
    pub(in crate::survey) fn or_si(
        &mut self,
        cx: &mut Context<'_>,
        key: &'static str,
        take: &impl Take<f64>,
        default: (f64, &'static str, &'static str, &str),
    ) -> Option<f64> {
        let (si, unit, code, words) = default;
        match self.optional(cx, key, take)? {
            Some(given) => Some(given),
            None => {
                cx.default(&self.path_of(key), Some((si, unit)), code, words);
                Some(si)
            }
        }
    }

    /// Records that a key is missing.
    pub(in crate::survey) fn missing(&self, cx: &mut Context<'_>, key: &str, example: &str) {
        let path = self.path_of(key);
        cx.problem(
            Problem::new("key-missing", self.span.clone(), format!("`{path}` is missing"))
                .allowed(format!("a value for `{key}`: it is never guessed"))
                .write(format!("{key} = {example}")),
        );
    }

    /// Of two keys that say the same thing, at most one.
    pub(in crate::survey) fn not_both(
        &mut self,
        cx: &mut Context<'_>,
        one: &'static str,
        other: &'static str,
    ) {
        if self.has(one) && self.has(other) {
            let span = self.span_of(other);
            let value = cx.typed(&span);
            let what =
                format!("`{}` and `{}` say the same thing twice", self.path_of(one), self.path_of(other));
            cx.problem(
                Problem::new("either-or", span, what)
                    .value(value)
                    .allowed(format!("`{one}` or `{other}`"))
                    .write(format!("`{one}` alone, or `{other}` alone")),
            );
        }
    }

    /// Says which keys nobody asked for.
    pub(in crate::survey) fn close(self, cx: &mut Context<'_>) {
        let mut known = self.asked;
        known.sort_unstable();
        known.dedup();
        for entry in self.entries.iter().filter(|entry| !known.contains(&entry.key.as_str())) {
            let place =
                if self.path.is_empty() { "a survey".to_string() } else { format!("`{}`", self.path) };
            let guess = near(&entry.key, known.iter().copied());
            let problem = Problem::new(
                "key-unknown",
                entry.key_span.clone(),
                match &guess {
                    Some(guess) => format!("{place} has no key `{}`; did you mean `{guess}`?", entry.key),
                    None => format!("{place} has no key `{}`", entry.key),
                },
            );
            cx.problem(
                problem
                    .value(&entry.key)
                    .allowed(known.join(", "))
                    .write(guess.unwrap_or("one of the keys above, or leave the line out".to_string())),
            );
        }
    }
}

impl Context<'_> {
    /// Records that a value is of the wrong kind.
    pub(in crate::survey) fn wrong_kind(&mut self, path: &str, node: &Node, wanted: &str, instead: &str) {
        let value = self.typed(&node.span);
        self.problem(
            Problem::new(
                "wrong-kind",
                node.span.clone(),
                format!("`{path}` is {}, and {wanted} is wanted", node.kind()),
            )
            .value(value)
            .allowed(wanted)
            .write(instead),
        );
    }
}
