//! A table that fits its page: columns as wide as their cells, the widest of those that may wrap give way.

use textwrap::core::display_width;
use textwrap::{Options, WordSplitter};

/// Between two columns.
const GAP: usize = 2;
/// A column does not give way below this.
const NARROWEST: usize = 7;
/// A longer word than this may be broken before another column is made narrower.
const WORD: usize = 16;

/// How a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Set {
    /// Words: left, wrapped where there is no room.
    Words,
    /// A short value: left, never wrapped.
    Left,
    /// A number: right, never wrapped.
    Right,
}

/// A table being filled.
#[derive(Debug)]
pub(super) struct Table {
    columns: Vec<(&'static str, Set)>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// An empty table with headings.
    pub(super) fn new(columns: &[(&'static str, Set)]) -> Table {
        Table { columns: columns.to_vec(), rows: Vec::new() }
    }

    /// Adds a row; it must have a cell for every column.
    pub(super) fn row<const N: usize>(&mut self, cells: [String; N]) {
        debug_assert_eq!(N, self.columns.len(), "a cell for every column");
        self.rows.push(cells.into());
    }

    /// The heading, a rule and the rows, in at most `room` columns where the words give way that far.
    pub(super) fn lines(&self, room: usize) -> Vec<String> {
        let widths = self.widths(room);
        let headings: Vec<String> = self.columns.iter().map(|(heading, _)| (*heading).to_owned()).collect();
        let mut lines = self.row_lines(&headings, &widths);
        lines.push(widths.iter().map(|width| "-".repeat(*width)).collect::<Vec<_>>().join(&" ".repeat(GAP)));
        lines.extend(self.rows.iter().flat_map(|row| self.row_lines(row, &widths)));
        lines
    }

    fn widths(&self, room: usize) -> Vec<usize> {
        let mut widths: Vec<usize> = (0..self.columns.len()).map(|i| self.widest(i, display_width)).collect();
        let longest_words: Vec<usize> = (0..self.columns.len())
            .map(|i| self.widest(i, |cell| cell.split(' ').map(display_width).max().unwrap_or(0)))
            .map(|width| width.clamp(NARROWEST, WORD))
            .collect();
        self.give_way(&mut widths, room, &longest_words);
        self.give_way(&mut widths, room, &vec![NARROWEST; self.columns.len()]);
        widths
    }

    /// The most of what `measure` says about the heading and the cells of a column.
    fn widest(&self, column: usize, measure: impl Fn(&str) -> usize) -> usize {
        let cells = self.rows.iter().map(|row| measure(&row[column]));
        cells.chain([measure(self.columns[column].0)]).max().unwrap_or(0)
    }

    /// Narrows the widest of the columns of words, again and again, down to `least`.
    fn give_way(&self, widths: &mut [usize], room: usize, least: &[usize]) {
        let gaps = GAP * widths.len().saturating_sub(1);
        while widths.iter().sum::<usize>() + gaps > room {
            let giving_way = (0..widths.len())
                .filter(|&i| self.columns[i].1 == Set::Words && widths[i] > least[i])
                .max_by_key(|&i| widths[i]);
            match giving_way {
                Some(i) => widths[i] -= 1,
                None => break,
            }
        }
    }

    fn row_lines(&self, cells: &[String], widths: &[usize]) -> Vec<String> {
        let wrapped: Vec<Vec<String>> =
            cells.iter().zip(widths).map(|(cell, width)| wrap(cell, *width)).collect();
        let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
        (0..height)
            .map(|line| {
                let parts: Vec<String> = wrapped
                    .iter()
                    .zip(widths)
                    .zip(&self.columns)
                    .map(|((cell, width), (_, set))| {
                        let part = cell.get(line).map_or("", String::as_str);
                        let padding = " ".repeat(width.saturating_sub(display_width(part)));
                        if *set == Set::Right { padding + part } else { part.to_owned() + &padding }
                    })
                    .collect();
                parts.join(&" ".repeat(GAP)).trim_end().to_owned()
            })
            .collect()
    }
}

fn wrap(cell: &str, width: usize) -> Vec<String> {
    let options = Options::new(width.max(1)).word_splitter(WordSplitter::NoHyphenation);
    textwrap::wrap(cell, options).into_iter().map(std::borrow::Cow::into_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::{Set, Table};

    #[test]
    fn words_give_way_and_numbers_do_not() {
        let mut table = Table::new(&[("uses", Set::Right), ("part", Set::Words)]);
        table.row(["83 %".to_owned(), "skin beside the opening".to_owned()]);
        let lines = table.lines(16);
        assert!(lines.iter().all(|line| line.len() <= 16), "{lines:?}");
        assert_eq!(lines[2], "83 %  skin");
    }

    #[test]
    fn colour_takes_no_room() {
        let mut table = Table::new(&[("a", Set::Left), ("b", Set::Left)]);
        table.row([super::super::style::strong("xx"), "y".to_owned()]);
        table.row(["zzz".to_owned(), "y".to_owned()]);
        let plain: Vec<String> =
            table.lines(80).iter().map(|line| anstream::adapter::strip_str(line).to_string()).collect();
        assert_eq!(plain[2..], ["xx   y", "zzz  y"]);
    }
}
