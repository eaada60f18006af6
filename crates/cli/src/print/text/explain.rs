//! What a code means, laid out.

use beam_core::ask::Explanation;

use super::page::Page;
use super::style;
use crate::print::words;

/// Lays out an explanation in so many columns.
pub(crate) fn explain(told: &Explanation, width: usize) -> String {
    let mut page = Page::new(width);
    page.paragraph(&format!("{} ({})", style::strong(&told.code), told.kind.words()));
    page.gap();
    let rows = [
        ("means", &told.means),
        ("formula", &told.formula),
        ("source", &told.source),
        ("valid", &told.range),
        ("do", &told.todo),
    ];
    for (label, text) in rows.into_iter().filter(|(_, text)| !text.is_empty()) {
        page.labelled(&words::capital(label), "formula".len(), &[text.as_str()]);
    }
    page.finish()
}
