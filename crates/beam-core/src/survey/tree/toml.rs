//! The tree from TOML: every syntax error at once, each value with its bytes.

use std::ops::Range;

use ::toml::Spanned;
use ::toml::de::{DeTable, DeValue};

use super::{Entry, Node, Value};
use crate::survey::problem::Problem;

pub(super) fn parse(text: &str) -> Result<Node, Vec<Problem>> {
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Ok(Node { span: 0..text.len(), value: self::table(table.into_inner(), text) });
    }
    let at_end = text.len()..text.len();
    let mut slips: Vec<(Range<usize>, String)> =
        errors.iter().map(|e| (e.span().unwrap_or(at_end.clone()), e.message().to_string())).collect();
    slips.sort_by_key(|(span, _)| span.start);
    let mut problems = Vec::new();
    let mut last_line = None;
    for (span, message) in slips {
        let line = line_of(text, &span);
        // One slip often upsets the rest of its line; the first message says it.
        if last_line.replace(line.clone()) == Some(line.clone()) {
            continue;
        }
        let first_on_its_line = text[line.start..floor(text, span.start)].trim().is_empty();
        if message.starts_with("missing comma") && first_on_its_line {
            // What follows is read as part of the list: only its start is worth a message.
            problems.push(list_left_open(text, span, line));
            break;
        }
        problems.push(problem(text, span, line, &message));
    }
    Err(problems)
}

fn problem(text: &str, span: Range<usize>, line: Range<usize>, message: &str) -> Problem {
    if message.starts_with("duplicate key") {
        let key = text.get(span.clone()).unwrap_or_default();
        return Problem::new("key-doubled", span.clone(), format!("`{key}` is given twice"))
            .value(key)
            .allowed("each key and each [table] once")
            .write("one of the two, or [[double brackets]] where there are several of a kind");
    }
    let typed = text[line].trim();
    let problem = Problem::new("toml-syntax", span, format!("this line is not TOML: {message}")).value(typed);
    if has_inch_marks(typed) {
        problem
            .allowed("feet and inch marks inside a text only where they do not end it")
            .write("7 ft 8 1/2 in instead of the marks, or the whole value between ''' and '''")
    } else {
        problem
            .allowed("lines such as `key = \"value\"`, [table] or [[table]]")
            .write("text between double quotes")
    }
}

fn list_left_open(text: &str, span: Range<usize>, line: Range<usize>) -> Problem {
    Problem::new("toml-syntax", span, "the list above this line is not closed, or a comma is missing")
        .value(text[line].trim())
        .allowed("[from, to]: values with commas between them, closed by a bracket")
        .write("the bracket or the comma that is missing")
}

/// A `'` followed by a `"` on one line: feet and inches were meant.
fn has_inch_marks(line: &str) -> bool {
    line.find('\'').is_some_and(|feet| line[feet..].contains('"'))
        || line.matches('"').count() % 2 == 1 && line.contains(|c: char| c.is_ascii_digit())
}

/// The whole line round the start of a span.
fn line_of(text: &str, span: &Range<usize>) -> Range<usize> {
    let at = floor(text, span.start);
    let start = text[..at].rfind('\n').map_or(0, |nl| nl + 1);
    let end = text[at..].find('\n').map_or(text.len(), |nl| at + nl);
    start..end
}

fn floor(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn table(table: DeTable<'_>, text: &str) -> Value {
    let mut entries: Vec<Entry> = table
        .into_iter()
        .map(|(key, node)| {
            let key_span = key.span();
            Entry { key: key.into_inner().into_owned(), key_span, node: self::node(node, text) }
        })
        .collect();
    entries.sort_by_key(|entry| entry.key_span.start);
    Value::Table(entries)
}

fn node(spanned: Spanned<DeValue<'_>>, text: &str) -> Node {
    let span = spanned.span();
    let as_typed = |parsed: &str| text.get(span.clone()).unwrap_or(parsed).to_string();
    let value = match spanned.into_inner() {
        DeValue::String(text) => Value::Text(text.into_owned()),
        DeValue::Integer(number) => Value::Number(as_typed(number.as_str())),
        DeValue::Float(number) => Value::Number(as_typed(number.as_str())),
        DeValue::Boolean(value) => Value::Bool(value),
        DeValue::Datetime(_) => Value::Other("a date"),
        DeValue::Array(items) => Value::Array(items.into_iter().map(|item| node(item, text)).collect()),
        DeValue::Table(inner) => table(inner, text),
    };
    Node { span, value }
}
