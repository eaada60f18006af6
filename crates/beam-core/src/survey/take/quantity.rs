//! Quantities within bounds.

use std::ops::Range;

use super::{Context, Take};
use crate::quantity::{Measure, QuantityError, read};
use crate::survey::problem::Problem;
use crate::survey::tree::{Node, Value};

/// Which signs a quantity may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sign {
    AboveZero,
    ZeroOrMore,
    Any,
}

/// The range in which a value is believed without being vouched for.
#[derive(Debug, Clone, Copy)]
struct Plausible {
    from: f64,
    to: f64,
    /// The range in words, in both families.
    words: &'static str,
    /// "narrower than any vehicle"
    below: &'static str,
    /// "wider than any vehicle"
    above: &'static str,
}

/// How one quantity is read: its measure, sign and plausible range.
#[derive(Debug, Clone, Copy)]
pub(in crate::survey) struct Bound {
    measure: Measure,
    sign: Sign,
    plausible: Option<Plausible>,
}

impl Bound {
    /// A quantity above zero.
    pub(in crate::survey) const fn above_zero(measure: Measure) -> Self {
        Bound { measure, sign: Sign::AboveZero, plausible: None }
    }

    /// A quantity of zero or more.
    pub(in crate::survey) const fn zero_or_more(measure: Measure) -> Self {
        Bound { measure, sign: Sign::ZeroOrMore, plausible: None }
    }

    /// A quantity of any sign.
    pub(in crate::survey) const fn any(measure: Measure) -> Self {
        Bound { measure, sign: Sign::Any, plausible: None }
    }

    /// With the range in which it is believed, SI and in words, and what it is outside it.
    pub(in crate::survey) const fn plausible(
        self,
        range: Range<f64>,
        words: &'static str,
        below: &'static str,
        above: &'static str,
    ) -> Self {
        let plausible = Plausible { from: range.start, to: range.end, words, below, above };
        Bound { plausible: Some(plausible), ..self }
    }

    /// SI symbol of its values.
    pub(in crate::survey) fn unit(&self) -> &'static str {
        match self.measure {
            Measure::Length => "m",
            Measure::Weight => "kg",
            Measure::Force => "N",
            Measure::Pressure => "Pa",
            Measure::Temperature => "C",
            Measure::Density => "kg/m3",
            Measure::MassPerArea => "kg/m2",
            Measure::LinePressure => "N/m",
            Measure::LineStiffness => "N/m2",
            Measure::Torque => "N m",
            Measure::Duration => "h",
            Measure::Ratio => "",
        }
    }

    /// Whether a value that may be a word or a quantity is meant as a quantity.
    pub(in crate::survey) fn has_digits(node: &Node) -> bool {
        match &node.value {
            Value::Text(text) => text.chars().any(char::is_numeric),
            Value::Number(_) => true,
            _ => false,
        }
    }

    fn check(&self, cx: &mut Context<'_>, path: &str, node: &Node, text: &str, si: f64) -> Option<()> {
        let least = match self.sign {
            Sign::AboveZero if si <= 0.0 => "more than zero",
            Sign::ZeroOrMore if si < 0.0 => "zero or more",
            _ => return self.believe(cx, path, node, text, si),
        };
        cx.problem(
            Problem::new(
                "not-positive",
                node.span.clone(),
                format!("`{path}` is {text}, and must be {least}"),
            )
            .value(text)
            .allowed(least)
            .write("the measured value, without a minus sign"),
        );
        None
    }

    fn believe(&self, cx: &mut Context<'_>, path: &str, node: &Node, text: &str, si: f64) -> Option<()> {
        let Some(plausible) = self.plausible else {
            return Some(());
        };
        if (plausible.from..=plausible.to).contains(&si) || cx.is_sure(path) {
            return Some(());
        }
        let what = if si < plausible.from { plausible.below } else { plausible.above };
        let sure = format!("sure = [\"{path}\"]");
        let guess = self.other_unit(text, &plausible);
        let (message, instead) = match &guess {
            Some(guess) => (
                format!("`{path}`: {text} is {what}; did you mean {guess}?"),
                format!("\"{guess}\"; or {sure} at the head of the file, if it is so"),
            ),
            None => (
                format!("`{path}`: {text} is {what}"),
                format!("the value measured again; or {sure} at the head of the file, if it is so"),
            ),
        };
        cx.problem(
            Problem::new("not-plausible", node.span.clone(), message)
                .value(text)
                .allowed(plausible.words)
                .write(instead),
        );
        None
    }

    /// The same number in another unit, where that is believable.
    fn other_unit(&self, text: &str, plausible: &Plausible) -> Option<String> {
        let units: &[&str] = match self.measure {
            Measure::Length => &["in", "mm", "cm", "ft", "m"],
            Measure::Weight => &["lb", "kg", "g"],
            Measure::Pressure => &["MPa", "GPa", "kPa", "psi", "psf", "Pa"],
            Measure::Temperature => &["F", "C"],
            Measure::Density => &["kg/m3", "lb/ft3"],
            _ => &[],
        };
        let number = text.trim().trim_end_matches(|c: char| !c.is_ascii_digit() && !"½¼¾⅛⅜⅝⅞".contains(c));
        units.iter().map(|unit| format!("{number} {unit}")).find(|guess| {
            read(guess, self.measure, Default::default())
                .is_ok_and(|si| (plausible.from..=plausible.to).contains(&si))
        })
    }
}

impl Take<f64> for Bound {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<f64> {
        let (Value::Text(text) | Value::Number(text)) = &node.value else {
            cx.wrong_kind(path, node, "a quantity", "a number with its unit between double quotes");
            return None;
        };
        cx.quantity_keys.push(path.to_string());
        match read(text, self.measure, cx.headers) {
            Ok(si) => {
                self.check(cx, path, node, text, si)?;
                cx.given(path, node, text.trim(), Some((si, self.unit())));
                Some(si)
            }
            Err(error) => {
                cx.quantity_problem(path, node, text, &error);
                None
            }
        }
    }
}

/// Two quantities in a list, such as a size across and along.
#[derive(Debug, Clone, Copy)]
pub(in crate::survey) struct Pair(pub(in crate::survey) Bound);

impl Take<[f64; 2]> for Pair {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<[f64; 2]> {
        cx.quantities::<2>(path, node, &self.0)
    }
}

impl Context<'_> {
    /// A list of exactly `N` quantities.
    pub(in crate::survey) fn quantities<const N: usize>(
        &mut self,
        path: &str,
        node: &Node,
        bound: &Bound,
    ) -> Option<[f64; N]> {
        let nodes = self.list(path, node)?;
        if nodes.len() != N {
            let value = self.typed(&node.span);
            self.problem(
                Problem::new(
                    "list-length",
                    node.span.clone(),
                    format!("`{path}` has {} values, and {N} are wanted", nodes.len()),
                )
                .value(value)
                .allowed(format!("{N} values"))
                .write(format!("[{}]", vec!["..."; N].join(", "))),
            );
            return None;
        }
        let mut values = Some([0.0; N]);
        for (index, node) in nodes.iter().enumerate() {
            let one = bound.take(self, &format!("{path}.{}", index + 1), node);
            values = match (values, one) {
                (Some(mut all), Some(one)) => {
                    all[index] = one;
                    Some(all)
                }
                _ => None,
            };
        }
        values
    }

    /// Records what is wrong with the text of a quantity, at the sign where it is wrong.
    pub(in crate::survey) fn quantity_problem(
        &mut self,
        path: &str,
        node: &Node,
        text: &str,
        error: &QuantityError,
    ) {
        let span = inside(self.text, &node.span, text, error.at());
        let again = "the measured value, with one of these units".to_string();
        let instead = error.write_instead().map_or(again, |instead| match &node.value {
            Value::Number(_) => format!("\"{instead}\"").replace(" or ", "\" or \""),
            _ => instead,
        });
        self.problem(
            Problem::new(error.code(), span, format!("`{path}`: {}", error.reason()))
                .value(text)
                .allowed(error.allowed())
                .write(instead),
        );
    }
}

/// The span in the file of a piece of a text; the whole value where escapes hide it.
fn inside(file: &str, span: &Range<usize>, text: &str, at: Range<usize>) -> Range<usize> {
    let typed = file.get(span.clone()).unwrap_or_default();
    match typed.find(text) {
        Some(start) if !text.is_empty() && at.start < at.end => {
            span.start + start + at.start..span.start + start + at.end
        }
        _ => span.clone(),
    }
}
