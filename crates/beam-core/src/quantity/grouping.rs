//! Digits in groups and decimal commas: never read, but what was meant can often be told.

use std::ops::Range;

use super::cursor::Cursor;
use super::error::{Fault, QuantityErrorKind as Kind};

/// A comma or underscore with a digit behind it.
pub(super) fn grouping(cursor: &Cursor) -> bool {
    cursor.sees(is_group_mark) && cursor.after(|c| _ = c.eat(is_group_mark)).sees(|c| c.is_ascii_digit())
}

/// The fault of a number with commas or underscores in it, with what was probably meant.
pub(super) fn grouped(text: &str, start: usize) -> Fault {
    let run = Cursor::new(&text[start..]).eat_while(|c| c.is_ascii_digit() || c == '.' || is_group_mark(c));
    let run = run.trim_end_matches(|c: char| !c.is_ascii_digit());
    let at = start..start + run.len();
    let offer =
        |number: String| format!("{}{number}{}", &text[..at.start], &text[at.end..]).trim().to_owned();

    let (whole, decimals) = run.split_once('.').map_or((run, None), |(w, d)| (w, Some(d)));
    let groups: Vec<&str> = whole.split(is_group_mark).collect();
    let in_threes = (1..=3).contains(&groups[0].len())
        && !groups[0].starts_with('0')
        && groups[1..].iter().all(|group| group.len() == 3)
        && decimals.is_none_or(|d| d.bytes().all(|b| b.is_ascii_digit()));
    let ungrouped = run.replace(is_group_mark, "");
    if in_threes || run.contains('_') {
        let fault = Fault::new(Kind::ThousandsSeparator, at.clone()).offering(offer(ungrouped));
        let could_be_decimal = groups.len() == 2 && decimals.is_none() && !run.contains('_');
        return if could_be_decimal { fault.offering(offer(run.replace(',', "."))) } else { fault };
    }
    let fault = Fault::new(Kind::DecimalComma, at.clone());
    match run.rsplit_once(',') {
        Some((whole, decimals)) if !whole.contains(',') && !decimals.contains('.') => {
            fault.offering(offer(format!("{}.{decimals}", whole.replace('.', ""))))
        }
        _ => fault,
    }
}

/// Two numbers side by side: digits in groups of three are taken for one number with blanks in it.
pub(super) fn side_by_side(text: &str, at: Range<usize>) -> Fault {
    let groups: Vec<&str> = text[at.clone()].split_whitespace().collect();
    let all_digits = groups.iter().all(|group| group.bytes().all(|b| b.is_ascii_digit()));
    let in_threes =
        groups.len() > 1 && groups[0].len() <= 3 && groups[1..].iter().all(|group| group.len() == 3);
    if all_digits && in_threes {
        let offer = format!("{}{}{}", &text[..at.start], groups.concat(), &text[at.end..]);
        return Fault::new(Kind::ThousandsSeparator, at).offering(offer.trim().to_owned());
    }
    Fault::new(Kind::TwoNumbers, at)
}

fn is_group_mark(c: char) -> bool {
    matches!(c, ',' | '_')
}
