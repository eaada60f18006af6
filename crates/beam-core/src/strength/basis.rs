//! Where a number comes from, and the limit that carries it.

use std::borrow::Cow;
use std::fmt;

/// How well a number is founded, best first: the larger of two is the weaker.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BasisKind {
    /// Printed in a published source that was at hand.
    Published,
    /// Derived or computed; the theory is named.
    Computed,
    /// Remembered from a standard or book that was not at hand.
    Memory,
    /// Common practice without a source.
    Practice,
    /// A shop's own tables: only the shop answers for it.
    Own,
}

impl fmt::Display for BasisKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Published => "published",
            Self::Computed => "computed",
            Self::Memory => "memory",
            Self::Practice => "practice",
            Self::Own => "own",
        })
    }
}

impl From<section_tables::SourceKind> for BasisKind {
    fn from(kind: section_tables::SourceKind) -> Self {
        match kind {
            section_tables::SourceKind::Published => Self::Published,
            section_tables::SourceKind::Computed => Self::Computed,
            section_tables::SourceKind::Memory => Self::Memory,
            section_tables::SourceKind::Practice => Self::Practice,
            section_tables::SourceKind::Own => Self::Own,
        }
    }
}

/// The source of a number and its standing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Basis {
    /// Book, clause, table, theory.
    pub source: Cow<'static, str>,
    /// How well it is founded.
    pub kind: BasisKind,
}

impl Basis {
    /// Printed in a source that was at hand.
    pub fn published(source: impl Into<Cow<'static, str>>) -> Self {
        Self { source: source.into(), kind: BasisKind::Published }
    }

    /// Derived or computed.
    pub fn computed(source: impl Into<Cow<'static, str>>) -> Self {
        Self { source: source.into(), kind: BasisKind::Computed }
    }

    /// Remembered.
    pub fn memory(source: impl Into<Cow<'static, str>>) -> Self {
        Self { source: source.into(), kind: BasisKind::Memory }
    }

    /// Common practice, no source.
    pub fn practice(source: impl Into<Cow<'static, str>>) -> Self {
        Self { source: source.into(), kind: BasisKind::Practice }
    }
}

/// What one failure mode allows.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit<Q> {
    /// The failure mode, in the words of the trade.
    pub mode: &'static str,
    /// What is allowed.
    pub value: Q,
    /// What it rests on.
    pub basis: Basis,
}

impl<Q> Limit<Q> {
    /// A limit.
    pub(crate) fn new(mode: &'static str, value: Q, basis: Basis) -> Self {
        Self { mode, value, basis }
    }
}
