//! What is wrong with a text whose number is followed by no unit of its measure.

use super::cursor::Cursor;
use super::error::{Fault, QuantityErrorKind as Kind};
use super::grammar::is_minus;
use super::number::{Number, begins, number};
use super::spelling::{alike, normalised};
use super::units::Measure;

/// A unit that belongs to another measure. A weight's `lb` where a force is wanted is offered as `lbf`.
pub(super) fn of_another_measure(
    cursor: &Cursor,
    tail: &str,
    spelled: &str,
    measure: Measure,
    other: &'static str,
) -> Fault {
    let fault = Fault::new(Kind::WrongMeasure(other), cursor.at()..cursor.at() + tail.len());
    if measure == Measure::Force && matches!(spelled, "lb" | "lbs") {
        return fault.offering(format!("{} lbf", cursor.text()[..cursor.at()].trim()));
    }
    fault
}

/// Says what is wrong with a tail that is no unit: doubled, mixed, followed by a number, or unknown.
pub(super) fn unreadable_tail(cursor: &Cursor, first: Number, measure: Measure) -> Fault {
    let start = cursor.at();
    let tail = cursor.rest().trim_end();
    let whole_tail = start..start + tail.len();
    if cursor.sees(|c| is_minus(c) || c == '+') {
        return Fault::new(Kind::Sign, whole_tail);
    }

    let mut ahead = cursor.clone();
    let is_mark = |c| matches!(c, '\'' | '′' | '’' | '‘' | '"' | '″' | '”' | '“');
    if !ahead.eat(is_mark) {
        ahead.eat_while(|c| !c.is_whitespace() && !c.is_ascii_digit() && !is_mark(c));
    }
    let head = &tail[..ahead.at() - start];
    let before = &cursor.text()[..start];
    if let Some(one) = measure.unit(&normalised(head)) {
        ahead.skip_blanks();
        let second = if ahead.sees(begins) {
            match number(&mut ahead) {
                Ok(second) => Some(second),
                Err(fault) => return fault,
            }
        } else {
            None
        };
        let rest = normalised(ahead.rest());
        match (measure.unit(&rest), second) {
            (Some(two), None) if two.symbol() == one.symbol() => {
                return Fault::new(Kind::DoubledUnit, whole_tail)
                    .offering(format!("{before}{head}").trim().to_owned());
            }
            (Some(two), _) if two.symbol() == one.symbol() => {
                return Fault::new(Kind::DoubledUnit, whole_tail);
            }
            (Some(two), Some(second)) => {
                let sum = one.to_si(first.numerator, first.denominator)
                    + two.to_si(second.numerator, second.denominator);
                let minus = if before.trim_start().starts_with(is_minus) { "-" } else { "" };
                return Fault::new(Kind::MixedUnits, whole_tail).offering(format!(
                    "{minus}{} {}",
                    tidy(one.count(sum)),
                    one.symbol()
                ));
            }
            (Some(_), None) => return Fault::new(Kind::MixedUnits, whole_tail),
            (None, Some(_)) if rest.is_empty() => return Fault::new(Kind::TwoNumbers, whole_tail),
            (None, _) => {}
        }
    }
    let fault = Fault::new(Kind::UnknownUnit, whole_tail);
    match alike(tail, measure) {
        Some(unit) => fault.offering(format!("{} {unit}", before.trim())),
        None => fault,
    }
}

/// A number to twelve significant digits in its shortest form, for proposals.
pub(super) fn tidy(value: f64) -> String {
    format!("{value:.11e}").parse::<f64>().unwrap_or(value).to_string()
}
