//! Feet and inches, the one quantity of two numbers: `7 ft 8 1/2 in`, `7'-8 1/2"`, `7' 8-1/2`.

use super::cursor::Cursor;
use super::diagnosis::tidy;
use super::error::{Fault, QuantityErrorKind as Kind};
use super::number::{Form, Number, begins, number};
use super::spelling::normalised;
use super::units::{FEET, INCHES};

/// Feet and inches, in inches; `None` if no foot mark stands here or nothing that is a number follows it.
pub(super) fn feet_and_inches(
    cursor: &mut Cursor,
    feet: Number,
    start: usize,
) -> Result<Option<Number>, Fault> {
    let mut ahead = cursor.clone();
    if !eat_foot(&mut ahead) {
        return Ok(None);
    }
    eat_full_stop(&mut ahead, cursor.at())?;
    ahead.skip_blanks();
    if ahead.eat(|c| c == '-') {
        ahead.skip_blanks();
    }
    if !ahead.sees(begins) {
        return Ok(None);
    }
    let inches_start = ahead.at();
    let inches = number(&mut ahead)?;
    let inches_end = ahead.at();
    let tail = normalised(ahead.rest());
    if !tail.is_empty() && !INCHES.spellings.contains(&tail.as_str()) {
        return Ok(None);
    }
    if feet.form != Form::Whole {
        return Err(Fault::new(Kind::FeetNotWhole, start..inches_end));
    }
    let total = Number { numerator: feet.numerator * 12.0 * inches.denominator + inches.numerator, ..inches };
    if inches.value() >= 12.0 {
        let offer = format!("{}{} in", cursor.text()[..start].trim(), tidy(total.value()));
        return Err(Fault::new(Kind::InchesOverTwelve, inches_start..inches_end).offering(offer));
    }
    *cursor = ahead;
    Ok(Some(total))
}

/// Takes one foot mark or foot word.
fn eat_foot(cursor: &mut Cursor) -> bool {
    let foot_mark = |c| matches!(c, '\'' | '′' | '’' | '‘');
    if cursor.eat(foot_mark) {
        return !cursor.sees(foot_mark);
    }
    FEET.spellings.contains(&cursor.eat_while(char::is_alphabetic))
}

/// Takes the full stop of `ft.`; in `7 ft.8 in` it may as well mark decimals.
fn eat_full_stop(cursor: &mut Cursor, start: usize) -> Result<(), Fault> {
    let (before, after) = cursor.text().split_at(cursor.at());
    if !before.ends_with(char::is_alphabetic)
        || !cursor.eat(|c| c == '.')
        || !cursor.sees(|c| c.is_ascii_digit())
    {
        return Ok(());
    }
    let end = cursor.after(|c| _ = c.digits()).at();
    Err(Fault::new(Kind::Decimal, start..end)
        .offering(format!("{} {}", before.trim(), after[1..].trim()))
        .offering(format!("{} 0{}", before.trim(), after.trim())))
}
