//! The tree from JSON: a small reader that keeps the bytes of every value.
//!
//! JSON has no way on after a slip, so the first syntax error ends the reading. The grammar is RFC 8259 with one
//! rule more: a key may not stand twice in an object.

use std::ops::Range;

use super::{Entry, Node, Value};
use crate::survey::problem::Problem;

/// Deeper nesting than any survey has.
const DEEPEST: usize = 32;

pub(super) fn parse(text: &str) -> Result<Node, Vec<Problem>> {
    let mut reader = Reader { text, at: 0, doubled: Vec::new() };
    let outcome = reader.value(0).and_then(|node| {
        reader.blanks();
        if reader.at < text.len() {
            Err(reader.expected("nothing after the closing brace"))
        } else {
            Ok(node)
        }
    });
    let mut problems = reader.doubled;
    match outcome {
        Ok(node) if problems.is_empty() => Ok(node),
        Ok(_) => Err(problems),
        Err(problem) => {
            problems.push(*problem);
            Err(problems)
        }
    }
}

struct Reader<'t> {
    text: &'t str,
    at: usize,
    doubled: Vec<Problem>,
}

impl Reader<'_> {
    fn rest(&self) -> &str {
        &self.text[self.at..]
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn eat(&mut self, sign: char) -> bool {
        let there = self.peek() == Some(sign);
        if there {
            self.at += sign.len_utf8();
        }
        there
    }

    fn blanks(&mut self) {
        self.at += self.rest().len() - self.rest().trim_start_matches([' ', '\t', '\r', '\n']).len();
    }

    fn expected(&self, what: &str) -> Box<Problem> {
        let found = self.peek();
        let end = self.at + found.map_or(0, char::len_utf8);
        let value = found.map_or("the end of the file".to_string(), String::from);
        let problem = Problem::new("json-syntax", self.at..end, format!("this is not JSON: expected {what}"))
            .value(&value)
            .allowed(what)
            .write("the same tree as JSON: {\"survey\": 1, \"roof\": {\"span\": \"92 1/2 in\"}}");
        Box::new(problem)
    }

    fn value(&mut self, depth: usize) -> Result<Node, Box<Problem>> {
        if depth > DEEPEST {
            return Err(self.expected("fewer brackets inside each other"));
        }
        self.blanks();
        let start = self.at;
        let value = match self.peek() {
            Some('{') => self.object(depth)?,
            Some('[') => self.array(depth)?,
            Some('"') => Value::Text(self.string()?),
            Some('-' | '0'..='9') => self.number()?,
            _ => self.word()?,
        };
        Ok(Node { span: start..self.at, value })
    }

    fn object(&mut self, depth: usize) -> Result<Value, Box<Problem>> {
        self.eat('{');
        let mut entries: Vec<Entry> = Vec::new();
        self.blanks();
        if self.eat('}') {
            return Ok(Value::Table(entries));
        }
        loop {
            self.blanks();
            if self.peek() != Some('"') {
                return Err(self.expected("a key between double quotes"));
            }
            let start = self.at;
            let key = self.string()?;
            let key_span = start..self.at;
            self.blanks();
            if !self.eat(':') {
                return Err(self.expected("`:` after the key"));
            }
            let node = self.value(depth + 1)?;
            if entries.iter().any(|entry| entry.key == key) {
                self.doubled.push(doubled(&key, key_span));
            } else {
                entries.push(Entry { key, key_span, node });
            }
            self.blanks();
            if self.eat('}') {
                return Ok(Value::Table(entries));
            }
            if !self.eat(',') {
                return Err(self.expected("`,` or `}`"));
            }
        }
    }

    fn array(&mut self, depth: usize) -> Result<Value, Box<Problem>> {
        self.eat('[');
        let mut items = Vec::new();
        self.blanks();
        if self.eat(']') {
            return Ok(Value::Array(items));
        }
        loop {
            items.push(self.value(depth + 1)?);
            self.blanks();
            if self.eat(']') {
                return Ok(Value::Array(items));
            }
            if !self.eat(',') {
                return Err(self.expected("`,` or `]`"));
            }
        }
    }

    /// Finds where the string ends; serde_json undoes its escapes.
    fn string(&mut self) -> Result<String, Box<Problem>> {
        let start = self.at;
        self.eat('"');
        let mut escaped = false;
        loop {
            let Some(sign) = self.peek() else {
                return Err(self.expected("`\"` at the end of the text"));
            };
            self.at += sign.len_utf8();
            match sign {
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '"' => break,
                _ => {}
            }
        }
        serde_json::from_str(&self.text[start..self.at]).map_err(|_| {
            self.at = start;
            self.expected("a text without line breaks or unknown `\\` signs")
        })
    }

    fn number(&mut self) -> Result<Value, Box<Problem>> {
        let start = self.at;
        let length = self.rest().find(|c: char| !matches!(c, '0'..='9' | '+' | '-' | '.' | 'e' | 'E'));
        self.at += length.unwrap_or(self.rest().len());
        let typed = self.text[start..self.at].to_string();
        match serde_json::from_str::<serde_json::Number>(&typed) {
            Ok(_) => Ok(Value::Number(typed)),
            Err(_) => {
                self.at = start;
                Err(self.expected("a number such as 92.5; anything else between double quotes"))
            }
        }
    }

    fn word(&mut self) -> Result<Value, Box<Problem>> {
        let words =
            [("true", Value::Bool(true)), ("false", Value::Bool(false)), ("null", Value::Other("null"))];
        for (word, value) in words {
            if self.rest().starts_with(word) {
                self.at += word.len();
                return Ok(value);
            }
        }
        Err(self.expected("a value"))
    }
}

fn doubled(key: &str, span: Range<usize>) -> Problem {
    Problem::new("key-doubled", span, format!("`{key}` is given twice"))
        .value(key)
        .allowed("each key once")
        .write("one of the two, or a [list] where there are several of a kind")
}
