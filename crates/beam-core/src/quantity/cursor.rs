//! A place in a text that moves forward by characters and counts in bytes.

/// Reads a text from the left; every place it gives is a character boundary.
#[derive(Debug, Clone)]
pub(super) struct Cursor<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Cursor<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        Self { text, at: 0 }
    }

    pub(super) fn text(&self) -> &'t str {
        self.text
    }

    pub(super) fn at(&self) -> usize {
        self.at
    }

    pub(super) fn rest(&self) -> &'t str {
        &self.text[self.at..]
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Whether the next character is of the given sort.
    pub(super) fn sees(&self, wanted: impl Fn(char) -> bool) -> bool {
        self.peek().is_some_and(wanted)
    }

    /// Takes the next character if it is of the given sort.
    pub(super) fn eat(&mut self, wanted: impl Fn(char) -> bool) -> bool {
        match self.peek() {
            Some(c) if wanted(c) => {
                self.at += c.len_utf8();
                true
            }
            _ => false,
        }
    }

    /// Takes all characters of the given sort that follow.
    pub(super) fn eat_while(&mut self, wanted: impl Fn(char) -> bool) -> &'t str {
        let start = self.at;
        while self.eat(&wanted) {}
        &self.text[start..self.at]
    }

    /// Takes blanks, the no-break ones included.
    pub(super) fn skip_blanks(&mut self) {
        self.eat_while(char::is_whitespace);
    }

    pub(super) fn digits(&mut self) -> &'t str {
        self.eat_while(|c| c.is_ascii_digit())
    }

    /// A cursor one or more characters further on.
    pub(super) fn after(&self, step: impl FnOnce(&mut Self)) -> Self {
        let mut next = self.clone();
        step(&mut next);
        next
    }
}
