//! Laying out: documents of the library in, text or JSON out. Nothing is computed here.

pub(crate) mod cut_list;
#[cfg(test)]
mod example;
pub(crate) mod json;
pub(crate) mod problems;
pub(crate) mod text;
mod words;

/// Cautions that go with a roof of which nothing was calculated: code and sentence.
const PLAN_CAUTIONS: [(&str, &str); 2] = [
    (
        "nothing-calculated",
        "This shows what was read, not whether the roof holds. Compare it with the sheet from the roof, then run check.",
    ),
    (
        "fragile-roof",
        "Until it is shown to hold, treat the roof as fragile: do not climb on it; prop it if it has sunk.",
    ),
];
