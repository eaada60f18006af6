//! Where a number comes from.

use std::fmt;

use serde::Deserialize;

/// How far a number can be traced.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SourceKind {
    /// Read in a published document.
    Published,
    /// Worked out from published numbers by a stated rule.
    Computed,
    /// Remembered from the named standard or book, or judged; not read again.
    Memory,
    /// Common practice; no source is known.
    Practice,
    /// A shop's own row: only the shop answers for it.
    Own,
}

impl fmt::Display for SourceKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Published => "published",
            Self::Computed => "computed",
            Self::Memory => "memory",
            Self::Practice => "practice",
            Self::Own => "own",
        })
    }
}

/// One document, or one habit, that numbers are taken from (`sources.csv`).
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct Source {
    /// What the rows of the other tables name.
    pub key: String,
    /// Who wrote or issued it.
    pub author: String,
    /// Year of issue; empty if none applies.
    pub year: String,
    /// Title, or the habit in words.
    pub title: String,
    /// Table, page or clause; empty if the whole is meant.
    pub place: String,
    /// What may be done with the document itself.
    pub licence_note: String,
    /// The best grade a number from here can have.
    pub kind: SourceKind,
}
