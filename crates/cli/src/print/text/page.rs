//! One page of text: headings, wrapped paragraphs, items with a hanging indent, tables.

use textwrap::{Options, WordSplitter};

use super::style;
use super::table::Table;

/// Indent of everything under a heading.
const INDENT: &str = "  ";

/// A page being laid out.
#[derive(Debug)]
pub(super) struct Page {
    width: usize,
    text: String,
}

impl Page {
    /// An empty page of so many columns.
    pub(super) fn new(width: usize) -> Page {
        Page { width, text: String::new() }
    }

    /// Its columns.
    pub(super) fn width(&self) -> usize {
        self.width
    }

    /// A heading, after a blank line.
    pub(super) fn heading(&mut self, words: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.line(&style::heading(words));
    }

    /// A line that is already laid out.
    pub(super) fn line(&mut self, line: &str) {
        self.text.push_str(&printable(line.trim_end()));
        self.text.push('\n');
    }

    /// An empty line.
    pub(super) fn gap(&mut self) {
        self.text.push('\n');
    }

    /// A paragraph from the left margin.
    pub(super) fn paragraph(&mut self, words: &str) {
        self.wrapped(words, "", "");
    }

    /// An indented paragraph.
    pub(super) fn note(&mut self, words: &str) {
        self.wrapped(words, INDENT, INDENT);
    }

    /// Words beside a mark ("1.", "-"): the lines that follow stand under the words.
    pub(super) fn item(&mut self, mark: &str, words: &str) {
        let first = format!("{INDENT}{mark} ");
        let next = " ".repeat(textwrap::core::display_width(&first));
        self.wrapped(words, &first, &next);
    }

    /// Words beside a label of a fixed width; each element of `words` starts a line.
    pub(super) fn labelled(&mut self, label: &str, label_width: usize, words: &[&str]) {
        let blank = " ".repeat(INDENT.len() + label_width + 2);
        let padding = " ".repeat(label_width.saturating_sub(textwrap::core::display_width(label)) + 2);
        let first = format!("{INDENT}{label}{padding}");
        for (i, words) in words.iter().enumerate() {
            self.wrapped(words, if i == 0 { &first } else { &blank }, &blank);
        }
    }

    /// A table.
    pub(super) fn table(&mut self, table: &Table) {
        for line in table.lines(self.width - INDENT.len()) {
            self.line(&format!("{INDENT}{line}"));
        }
    }

    /// The whole text.
    pub(super) fn finish(self) -> String {
        self.text
    }

    fn wrapped(&mut self, words: &str, first: &str, next: &str) {
        let options = Options::new(self.width)
            .initial_indent(first)
            .subsequent_indent(next)
            .word_splitter(WordSplitter::NoHyphenation);
        for line in textwrap::wrap(words, options) {
            self.line(&line);
        }
    }
}

/// What a survey says is not to steer the terminal: of all control characters only those that set a colour or
/// weight pass.
fn printable(line: &str) -> String {
    let mut safe = String::with_capacity(line.len());
    for (at, sign) in line.char_indices() {
        let styles = || {
            let rest = line[at + sign.len_utf8()..].strip_prefix('[')?;
            rest.trim_start_matches(|c: char| c.is_ascii_digit() || c == ';').strip_prefix('m')
        };
        let harmless = !sign.is_control() || (sign == '\u{1b}' && styles().is_some());
        safe.push(if harmless { sign } else { '\u{fffd}' });
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::Page;
    use crate::print::text::style;

    #[test]
    fn a_title_cannot_steer_the_terminal_and_a_style_can() {
        let mut page = Page::new(80);
        page.paragraph(&format!("{} \u{1b}[2J\u{7}van", style::strong("roof")));
        let text = page.finish();
        assert!(text.contains(&style::strong("roof")), "{text:?}");
        assert!(text.ends_with("\u{fffd}[2J\u{fffd}van\n"), "{text:?}");
    }
}
