//! Why a text is not a quantity: where, what was found, what is allowed, what to write instead.

use std::fmt;
use std::ops::Range;

use super::units::Measure;

/// A text that could not be read as a quantity, or that two people could read differently.
///
/// # Examples
/// ```
/// use beam_core::quantity::{read, Headers, Measure};
/// let error = read("2,5 m", Measure::Length, Headers::default()).unwrap_err();
/// assert_eq!(error.code(), "decimal-comma");
/// assert_eq!(error.at(), 0..3);
/// assert_eq!(error.write_instead().as_deref(), Some("2.5 m"));
/// ```
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct QuantityError {
    kind: QuantityErrorKind,
    at: Range<usize>,
    found: String,
    measure: Measure,
    offers: Vec<String>,
}

/// The fault of a text that is not a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum QuantityErrorKind {
    /// Nothing but blanks.
    Empty,
    /// No number where one is needed.
    NotANumber,
    /// A sign other than one leading minus.
    Sign,
    /// A point without a digit behind it, a second point, or one that may end an abbreviation.
    Decimal,
    /// A comma as decimal sign.
    DecimalComma,
    /// Digits in groups, by commas, blanks or underscores.
    ThousandsSeparator,
    /// Two numbers with nothing that joins them.
    TwoNumbers,
    /// A fraction that is not one whole number over another.
    Fraction,
    /// A fraction over zero.
    ZeroDenominator,
    /// After a whole number, a fraction that is not less than one.
    ImproperFraction,
    /// A fraction after a decimal number.
    FractionAfterDecimal,
    /// Inches after feet that are not a whole number.
    FeetNotWhole,
    /// Twelve inches or more after feet.
    InchesOverTwelve,
    /// A number without a unit, where no header says which is meant.
    MissingUnit,
    /// A unit that is in no table.
    UnknownUnit,
    /// A unit of another kind of quantity (named).
    WrongMeasure(&'static str),
    /// Two units in one quantity, other than feet and inches.
    MixedUnits,
    /// One unit twice.
    DoubledUnit,
    /// A number too large or too small to compute with.
    OutOfRange,
}

impl QuantityErrorKind {
    fn code(self) -> &'static str {
        match self {
            Self::Empty => "empty-quantity",
            Self::NotANumber => "not-a-number",
            Self::Sign => "sign",
            Self::Decimal => "decimal-point",
            Self::DecimalComma => "decimal-comma",
            Self::ThousandsSeparator => "thousands-separator",
            Self::TwoNumbers => "two-numbers",
            Self::Fraction => "fraction",
            Self::ZeroDenominator => "zero-denominator",
            Self::ImproperFraction => "improper-fraction",
            Self::FractionAfterDecimal => "fraction-after-decimal",
            Self::FeetNotWhole => "feet-not-whole",
            Self::InchesOverTwelve => "inches-over-twelve",
            Self::MissingUnit => "missing-unit",
            Self::UnknownUnit => "unknown-unit",
            Self::WrongMeasure(_) => "wrong-measure",
            Self::MixedUnits => "mixed-units",
            Self::DoubledUnit => "doubled-unit",
            Self::OutOfRange => "out-of-range",
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Empty => "nothing is written here",
            Self::NotANumber => "a quantity starts with a number in digits",
            Self::Sign => "the only sign is one minus before the number",
            Self::Decimal => "this is no plain decimal point",
            Self::DecimalComma => "decimals are marked by a point, not by a comma",
            Self::ThousandsSeparator => "digits are written without grouping",
            Self::TwoNumbers => "two numbers stand side by side",
            Self::Fraction => "a fraction is one whole number, a slash and another whole number",
            Self::ZeroDenominator => "a fraction cannot be over zero",
            Self::ImproperFraction => "after a whole number the fraction must be less than one",
            Self::FractionAfterDecimal => "a number has decimals or a fraction, not both",
            Self::FeetNotWhole => "before inches the feet must be a whole number",
            Self::InchesOverTwelve => "after feet the inches must be fewer than twelve",
            Self::MissingUnit => "the unit is missing",
            Self::UnknownUnit => "this is no unit known here",
            Self::WrongMeasure(_) => "this is a unit of another kind",
            Self::MixedUnits => "only feet and inches are read together",
            Self::DoubledUnit => "the unit stands there twice",
            Self::OutOfRange => "this number is too large or too small to compute with",
        }
    }
}

impl QuantityError {
    pub(super) fn new(text: &str, measure: Measure, fault: Fault) -> Self {
        let found = text[fault.at.clone()].to_owned();
        Self { kind: fault.kind, at: fault.at, found, measure, offers: fault.offers }
    }

    /// What is wrong.
    pub fn kind(&self) -> QuantityErrorKind {
        self.kind
    }

    /// The place of the fault, as bytes of the text.
    pub fn at(&self) -> Range<usize> {
        self.at.clone()
    }

    /// A stable name of the fault, for programs.
    pub fn code(&self) -> &'static str {
        self.kind.code()
    }

    /// The text at the place of the fault.
    pub fn found(&self) -> &str {
        &self.found
    }

    /// What is wrong, without what to do about it.
    pub fn reason(&self) -> String {
        let place = if self.found.is_empty() { String::new() } else { format!("`{}`: ", self.found) };
        match self.kind {
            QuantityErrorKind::WrongMeasure(other) => {
                format!("{place}this is {other}, and {} is wanted", self.measure.words())
            }
            kind => format!("{place}{}", kind.words()),
        }
    }

    /// What may stand here, in words.
    pub fn allowed(&self) -> String {
        let mut units: Vec<_> = self.measure.units().iter().map(|unit| unit.symbol()).collect();
        let example = match self.measure {
            Measure::Length => "92 1/2 in",
            Measure::Weight => "100 lb",
            Measure::Force => "0.9 kN",
            Measure::Pressure => "6.0 GPa",
            Measure::Temperature => "70 C",
            Measure::Density => "20 kg/m3",
            Measure::MassPerArea => "5 kg/m2",
            Measure::LinePressure => "2 kN/m",
            Measure::LineStiffness => "50 kN/m2",
            Measure::Torque => "5 N m",
            Measure::Duration => "24 h",
            Measure::Ratio => "0.7",
        };
        if self.measure == Measure::Ratio {
            units.insert(0, "plain numbers");
        }
        let last = units.pop().unwrap_or_default();
        let before = if units.is_empty() { String::new() } else { format!("{} or ", units.join(", ")) };
        format!("{} in {before}{last}, such as `{example}`", self.measure.words())
    }

    /// What to write instead, where that can be told; two readings of one text are both given, joined by " or ".
    pub fn write_instead(&self) -> Option<String> {
        (!self.offers.is_empty()).then(|| self.offers.join(" or "))
    }
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.reason())?;
        match self.offers.as_slice() {
            [] => write!(f, "; allowed is {}", self.allowed()),
            [one] => write!(f, "; write `{one}`"),
            many => write!(f, "; write `{}`, whichever is meant", many.join("` or `")),
        }
    }
}

/// A fault as the parser meets it, before it is tied to the text.
#[derive(Debug)]
pub(super) struct Fault {
    pub(super) kind: QuantityErrorKind,
    pub(super) at: Range<usize>,
    pub(super) offers: Vec<String>,
}

impl Fault {
    pub(super) fn new(kind: QuantityErrorKind, at: Range<usize>) -> Self {
        Self { kind, at, offers: Vec::new() }
    }

    pub(super) fn offering(mut self, offer: String) -> Self {
        self.offers.push(offer);
        self
    }
}
