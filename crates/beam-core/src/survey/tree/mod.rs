//! The neutral tree: what stands in the file and where, before anyone asks what it means.

mod json;
mod toml;

use std::ops::Range;

use super::problem::Problem;

/// One value with its place in the file.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Node {
    /// Bytes in the file.
    pub(super) span: Range<usize>,
    /// The value.
    pub(super) value: Value,
}

/// What a value can be.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    /// Keys with their values, in the order of the file.
    Table(Vec<Entry>),
    /// Values in a row.
    Array(Vec<Node>),
    /// Text, without its quotes.
    Text(String),
    /// A number as typed.
    Number(String),
    /// True or false.
    Bool(bool),
    /// Something no key of a survey takes: a date, a null.
    Other(&'static str),
}

/// One key of a table.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    /// The key.
    pub(super) key: String,
    /// Where the key stands.
    pub(super) key_span: Range<usize>,
    /// Its value.
    pub(super) node: Node,
}

impl Node {
    /// What it is, for a message.
    pub(super) fn kind(&self) -> &'static str {
        match &self.value {
            Value::Table(_) => "a table",
            Value::Array(_) => "a list",
            Value::Text(_) => "text",
            Value::Number(_) => "a number",
            Value::Bool(_) => "true or false",
            Value::Other(what) => what,
        }
    }
}

/// Reads the text as JSON if its first sign is `{`, else as TOML. Every syntax problem is reported; where there is
/// one, the tree may be incomplete and is not to be taken apart.
pub(super) fn parse(text: &str) -> Result<Node, Vec<Problem>> {
    if text.trim_start().starts_with('{') { json::parse(text) } else { toml::parse(text) }
}
