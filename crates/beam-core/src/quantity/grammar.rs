//! Reading a quantity: a sign, a number as people write it, a unit; for lengths also feet and inches.
//!
//! ```text
//! quantity = [minus] number [unit]
//!          | [minus] number foot [hyphen] number [inch]
//! number   = digits | digits "." digits | digits [joint] fraction | fraction
//! joint    = "-" | blanks
//! ```
//!
//! Whatever two people could read differently is refused, with what to write instead.

use super::cursor::Cursor;
use super::diagnosis::{of_another_measure, unreadable_tail};
use super::error::{Fault, QuantityError, QuantityErrorKind as Kind};
use super::feet::feet_and_inches;
use super::number::{Form, Number, number};
use super::spelling::normalised;
use super::units::{Family, INCHES, Measure, Unit};

/// What a number without a unit is, for lengths and for weights; by default it is an error.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Headers {
    /// A bare length is in inches or in millimetres.
    pub lengths: Option<Family>,
    /// A bare weight is in pounds or in kilograms.
    pub weights: Option<Family>,
}

/// Magnitudes outside this range belong to nothing that is built; inside it no product of a few overflows.
const SMALLEST: f64 = 1e-30;
const LARGEST: f64 = 1e30;

/// Reads a quantity as people write it.
///
/// Fractions (`92 1/2 in`, `92-1/2"`, `92½″`), feet and inches (`7 ft 8 1/2 in`, `7' 8-1/2`), decimals and
/// powers of ten (`2.30 m`, `1e-3 m`) are read; straight and curly marks, primes and no-break blanks too. A
/// minus before the number applies to all of it; whether a negative value makes sense is the caller's to say.
///
/// # Units
/// The answer is in m, kg, N, Pa, degrees C, kg/m3, kg/m2, N/m, N/m2, N m, hours or 1, by the measure. A
/// weight given as a force is divided by 9.80665 m/s2.
///
/// # Valid for
/// Magnitudes from 1e-30 to 1e30 in those units, and zero.
///
/// # Errors
/// [`QuantityError`] for everything else, in particular: a bare number where `headers` name no unit (a bare
/// fraction is never taken for millimetres), a decimal comma, digits in groups, units of another measure.
///
/// # Examples
/// ```
/// use beam_core::quantity::{read, Family, Headers, Measure};
/// let inches = Headers { lengths: Some(Family::Inch), ..Headers::default() };
/// assert_eq!(read("92 1/2", Measure::Length, inches)?, 2.3495);
/// assert_eq!(read("7' 8-1/2\"", Measure::Length, Headers::default())?, 2.3495);
/// assert_eq!(read("6.0 GPa", Measure::Pressure, Headers::default())?, 6.0e9);
/// # Ok::<(), beam_core::quantity::QuantityError>(())
/// ```
pub fn read(text: &str, measure: Measure, headers: Headers) -> Result<f64, QuantityError> {
    parse(text, measure, headers).map_err(|mut fault| {
        fault.offers.retain(|offer| parse(offer, measure, headers).is_ok());
        QuantityError::new(text, measure, fault)
    })
}

fn parse(text: &str, measure: Measure, headers: Headers) -> Result<f64, Fault> {
    let mut cursor = Cursor::new(text);
    cursor.skip_blanks();
    if cursor.rest().is_empty() {
        return Err(Fault::new(Kind::Empty, 0..text.len()));
    }
    let minus = sign(&mut cursor)?;
    let start = cursor.at();
    let first = number(&mut cursor)?;
    let (total, unit) = with_unit(&mut cursor, first, start, measure, headers)?;

    let numerator = if minus { -total.numerator } else { total.numerator };
    let value = unit.map_or(numerator / total.denominator, |unit| unit.to_si(numerator, total.denominator));
    let in_range = |x: f64| x == 0.0 || (SMALLEST..=LARGEST).contains(&x.abs());
    let lost = value == 0.0 && numerator != 0.0 && measure != Measure::Temperature;
    if !in_range(value) || !in_range(numerator) || lost {
        return Err(Fault::new(Kind::OutOfRange, start..text.trim_end().len()));
    }
    Ok(if value == 0.0 { 0.0 } else { value })
}

/// Takes a leading minus; says whether there was one.
fn sign(cursor: &mut Cursor) -> Result<bool, Fault> {
    let start = cursor.at();
    let minus = cursor.eat(is_minus);
    if minus {
        cursor.skip_blanks();
    }
    if cursor.sees(|c| is_minus(c) || c == '+') {
        let signs = cursor.after(|c| _ = c.eat_while(|c| is_minus(c) || c == '+' || c.is_whitespace()));
        let fault = Fault::new(Kind::Sign, start..signs.at());
        return Err(if minus { fault } else { fault.offering(signs.rest().trim().to_owned()) });
    }
    Ok(minus)
}

/// Hyphen or the typographic minus.
pub(super) fn is_minus(c: char) -> bool {
    matches!(c, '-' | '\u{2212}')
}

/// The number and its unit (none: a plain ratio), from what stands behind the first number.
fn with_unit(
    cursor: &mut Cursor,
    first: Number,
    start: usize,
    measure: Measure,
    headers: Headers,
) -> Result<(Number, Option<&'static Unit>), Fault> {
    let number_end = cursor.at();
    cursor.skip_blanks();
    let tail = cursor.rest().trim_end();
    if tail.is_empty() {
        return bare(first, cursor.text(), start..number_end, measure, headers);
    }
    let spelled = normalised(tail);
    if let Some(unit) = measure.unit(&spelled) {
        return Ok((first, Some(unit)));
    }
    if let Some(other) = measure.elsewhere(&spelled) {
        return Err(of_another_measure(cursor, tail, &spelled, measure, other));
    }
    if measure == Measure::Length
        && let Some(total) = feet_and_inches(cursor, first, start)?
    {
        return Ok((total, Some(&INCHES)));
    }
    Err(unreadable_tail(cursor, first, measure))
}

/// A number without a unit is what the headers say, or a fault.
fn bare(
    number: Number,
    text: &str,
    at: std::ops::Range<usize>,
    measure: Measure,
    headers: Headers,
) -> Result<(Number, Option<&'static Unit>), Fault> {
    let by_header = match measure {
        Measure::Ratio => return Ok((number, None)),
        Measure::Length => headers.lengths,
        Measure::Weight => headers.weights,
        _ => None,
    };
    let [inch_pound, metric] = match measure.usual() {
        [inch_pound, metric] => [Some(*inch_pound), Some(*metric)],
        [only] => [None, Some(*only)],
        _ => [None, None],
    };
    let fraction_of_length = measure == Measure::Length && number.form == Form::Fraction;
    match by_header {
        Some(Family::Inch) => return Ok((number, inch_pound)),
        Some(Family::Metric) if !fraction_of_length => return Ok((number, metric)),
        _ => {}
    }
    let proposed = if fraction_of_length { [inch_pound, None] } else { [inch_pound, metric] };
    let fault = Fault::new(Kind::MissingUnit, at);
    Err(proposed
        .into_iter()
        .flatten()
        .fold(fault, |fault, unit| fault.offering(format!("{} {}", text.trim(), unit.symbol()))))
}
