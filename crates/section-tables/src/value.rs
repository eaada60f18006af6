//! A number that is known only within a band.

use crate::SourceKind;

/// A low, a default and a high number, with their source.
///
/// The three are ordered as numbers: which end is the worse one depends on the question.
///
/// # Units
/// Those of [`Property::unit`](crate::Property::unit) for the property it belongs to.
#[derive(Debug, Clone, PartialEq)]
pub struct Value {
    /// The smallest that has to be reckoned with.
    pub low: f64,
    /// The one to take where nothing better is known.
    pub default: f64,
    /// The largest that has to be reckoned with.
    pub high: f64,
    /// Keys of `sources.csv`, `;` between them where the band rests on several.
    pub source: String,
    /// How far the weakest of the three numbers can be traced.
    pub kind: SourceKind,
}

impl Value {
    /// The same without a band: the default alone, as if it had been measured.
    pub fn at_default(&self) -> Value {
        Value { low: self.default, high: self.default, ..self.clone() }
    }

    /// The source keys one by one.
    pub fn source_keys(&self) -> impl Iterator<Item = &str> {
        keys(&self.source)
    }
}

/// Splits a `;`-separated cell and drops the blanks round the parts.
pub(crate) fn keys(cell: &str) -> impl Iterator<Item = &str> {
    cell.split(';').map(str::trim).filter(|part| !part.is_empty())
}
