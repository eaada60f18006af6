//! Numbers as people write them on a job: `92.5`, `92 1/2`, `92-1/2`, `92½`, `5/8`, `1e-3`.

use super::cursor::Cursor;
use super::error::{Fault, QuantityErrorKind as Kind};
use super::grouping::{grouped, grouping, side_by_side};

/// A number without sign, as a quotient of two numbers that are read exactly.
#[derive(Debug, Clone, Copy)]
pub(super) struct Number {
    pub(super) numerator: f64,
    pub(super) denominator: f64,
    pub(super) form: Form,
}

/// How a number was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Whole,
    Decimal,
    Fraction,
}

impl Number {
    fn whole(value: f64) -> Self {
        Self { numerator: value, denominator: 1.0, form: Form::Whole }
    }

    fn plus(self, fraction: Self) -> Self {
        let numerator = self.numerator * fraction.denominator + fraction.numerator;
        Self { numerator, ..fraction }
    }

    pub(super) fn value(self) -> f64 {
        self.numerator / self.denominator
    }
}

/// Reads one number and makes sure that nothing follows that belongs to a number too.
pub(super) fn number(cursor: &mut Cursor) -> Result<Number, Fault> {
    let start = cursor.at();
    let number = if let Some(vulgar) = vulgar(cursor) { vulgar } else { written_out(cursor)? };
    what_follows(cursor, start, number.form)?;
    Ok(number)
}

/// Whether a number begins here.
pub(super) fn begins(c: char) -> bool {
    c.is_ascii_digit() || c == '.' || vulgar_parts(c).is_some()
}

fn written_out(cursor: &mut Cursor) -> Result<Number, Fault> {
    let start = cursor.at();
    let lead = cursor.digits();
    if cursor.sees(|c| c == '.') {
        return decimal(cursor, start);
    }
    if lead.is_empty() {
        let word = cursor.eat_while(|c| !c.is_whitespace());
        return Err(Fault::new(Kind::NotANumber, start..start + word.len()));
    }
    if grouping(cursor) {
        return Err(grouped(cursor.text(), start));
    }
    if exponent_ahead(cursor) {
        return decimal(cursor, start);
    }
    let whole = Number::whole(finite(lead, start)?);
    if cursor.eat(is_slash) {
        return over(cursor, whole, start);
    }

    let mut ahead = cursor.clone();
    if !ahead.eat(|c| c == '-') {
        ahead.skip_blanks();
    }
    let fraction_start = ahead.at();
    let fraction = if let Some(vulgar) = vulgar(&mut ahead) {
        vulgar
    } else {
        let top = ahead.digits();
        if top.is_empty() || !ahead.eat(is_slash) {
            return Ok(whole);
        }
        let top = Number::whole(finite(top, fraction_start)?);
        over(&mut ahead, top, fraction_start)?
    };
    if fraction.numerator >= fraction.denominator {
        return Err(Fault::new(Kind::ImproperFraction, fraction_start..ahead.at()));
    }
    *cursor = ahead;
    Ok(whole.plus(fraction))
}

/// The part behind the slash.
fn over(cursor: &mut Cursor, top: Number, start: usize) -> Result<Number, Fault> {
    let bottom_start = cursor.at();
    let bottom = cursor.digits();
    if bottom.is_empty() {
        return Err(Fault::new(Kind::Fraction, start..cursor.at()));
    }
    let denominator = finite(bottom, bottom_start)?;
    if denominator == 0.0 {
        return Err(Fault::new(Kind::ZeroDenominator, start..cursor.at()));
    }
    Ok(Number { numerator: top.numerator, denominator, form: Form::Fraction })
}

/// Digits with a point, an exponent or both, from `start`; the cursor stands behind the leading digits.
fn decimal(cursor: &mut Cursor, start: usize) -> Result<Number, Fault> {
    if cursor.eat(|c| c == '.') && cursor.digits().is_empty() {
        return Err(Fault::new(Kind::Decimal, start..cursor.at()));
    }
    if grouping(cursor) {
        return Err(grouped(cursor.text(), start));
    }
    if exponent_ahead(cursor) {
        cursor.eat(|c| matches!(c, 'e' | 'E'));
        cursor.eat(|c| matches!(c, '+' | '-'));
        cursor.digits();
    }
    let written = &cursor.text()[start..cursor.at()];
    let (numerator, denominator) = match exact_quotient(written) {
        Some(quotient) => quotient,
        None => (finite(written, start)?, 1.0),
    };
    Ok(Number { numerator, denominator, form: Form::Decimal })
}

/// A decimal number as a whole number over a power of ten, where `f64` holds both exactly.
fn exact_quotient(written: &str) -> Option<(f64, f64)> {
    let (whole, decimals) = written.split_once('.')?;
    let numerator: u64 =
        format!("{whole}{decimals}").parse().ok().filter(|n| *n < 1 << f64::MANTISSA_DIGITS)?;
    let power = i32::try_from(decimals.len()).ok().filter(|power| *power <= 22)?;
    Some((numerator as f64, 10f64.powi(power)))
}

/// A complete number may not be followed by another one, or by a piece of one.
fn what_follows(cursor: &Cursor, start: usize, form: Form) -> Result<(), Fault> {
    let fault = |kind, end| Err(Fault::new(kind, start..end));
    let one_on = cursor.after(|c| {
        c.eat(|_| true);
    });
    if cursor.sees(|c| c == '.') {
        let kind = if form == Form::Fraction { Kind::Fraction } else { Kind::Decimal };
        return fault(kind, one_on.at());
    }
    if grouping(cursor) {
        return fault(Kind::Fraction, one_on.at());
    }
    let at_next = cursor.after(Cursor::skip_blanks);
    let at_slash = cursor.sees(is_slash);
    let after_slash = at_next.after(|c| {
        c.eat(is_slash);
        c.skip_blanks();
    });
    if at_slash || (at_next.sees(is_slash) && after_slash.sees(|c| c.is_ascii_digit())) {
        return fault(Kind::Fraction, after_slash.after(|c| _ = c.digits()).at());
    }
    let at_next = if cursor.sees(|c| c == '-') { one_on } else { at_next };
    if !at_next.sees(begins) {
        return Ok(());
    }
    let run = at_next.after(|c| _ = c.eat_while(|c| begins(c) || is_slash(c) || c.is_whitespace()));
    let end = cursor.text()[..run.at()].trim_end().len();
    let is_fraction = |c| is_slash(c) || vulgar_parts(c).is_some();
    if form == Form::Decimal && cursor.text()[at_next.at()..end].contains(is_fraction) {
        return fault(Kind::FractionAfterDecimal, end);
    }
    Err(side_by_side(cursor.text(), start..end))
}

fn exponent_ahead(cursor: &Cursor) -> bool {
    cursor.sees(|c| matches!(c, 'e' | 'E'))
        && cursor
            .after(|c| {
                c.eat(|_| true);
                c.eat(|c| matches!(c, '+' | '-'));
            })
            .sees(|c| c.is_ascii_digit())
}

/// The value of digits; refuses what `f64` would make infinite, or zero of what is not.
fn finite(digits: &str, start: usize) -> Result<f64, Fault> {
    let out_of_range = || Fault::new(Kind::OutOfRange, start..start + digits.len());
    let value: f64 = digits.parse().map_err(|_| out_of_range())?;
    let mantissa = digits.split(['e', 'E']).next().unwrap_or(digits);
    let is_zero = mantissa.bytes().all(|b| matches!(b, b'0' | b'.'));
    if value.is_finite() && (value != 0.0 || is_zero) { Ok(value) } else { Err(out_of_range()) }
}

/// Slash, fraction slash or division slash.
fn is_slash(c: char) -> bool {
    matches!(c, '/' | '\u{2044}' | '\u{2215}')
}

fn vulgar(cursor: &mut Cursor) -> Option<Number> {
    let (numerator, denominator) = cursor.peek().and_then(vulgar_parts)?;
    cursor.eat(|_| true);
    Some(Number { numerator, denominator, form: Form::Fraction })
}

/// The fractions that have a character of their own.
pub(super) const VULGAR: [(char, f64, f64); 9] = [
    ('½', 1.0, 2.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
];

fn vulgar_parts(c: char) -> Option<(f64, f64)> {
    VULGAR.iter().find(|(mark, ..)| *mark == c).map(|&(_, n, d)| (n, d))
}
