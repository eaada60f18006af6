//! One spelling for the many ways a unit is typed, and the unit that a mistyped one resembles.

use super::units::Measure;

/// A unit as the tables spell it: `N·m`, `N-m` and `N m` are one, and so are `″`, `”` and `''`; `kN / m²` is
/// `kN/m2`, and the full stop of an abbreviation is dropped.
pub(super) fn normalised(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let chars: Vec<char> = text.trim().chars().collect();
    for (i, &c) in chars.iter().enumerate() {
        let between_letters =
            out.ends_with(char::is_alphabetic) && chars.get(i + 1).is_some_and(|next| next.is_alphabetic());
        match c {
            '-' | '·' | '⋅' | '*' if between_letters => out.push(' '),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '^' | '.' if out.ends_with(char::is_alphabetic) => {}
            'º' | '˚' => out.push('°'),
            '″' | '”' | '“' => out.push('"'),
            '\'' | '′' | '’' | '‘' if out.ends_with('\'') => {
                out.pop();
                out.push('"');
            }
            '′' | '’' | '‘' => out.push('\''),
            c if c.is_whitespace() => {
                if !out.ends_with([' ', '/']) {
                    out.push(' ');
                }
            }
            '/' => {
                out.truncate(out.trim_end().len());
                out.push('/');
            }
            c => out.push(c),
        }
    }
    out
}

/// The longest unit anybody mistypes; beyond it a text is a sentence.
const LONGEST: usize = 16;

/// The spelling that a mistyped unit of this measure most resembles.
pub(super) fn alike(tail: &str, measure: Measure) -> Option<&'static str> {
    let typed = normalised(tail);
    let length = typed.chars().count();
    if length > LONGEST {
        return None;
    }
    let spellings = || measure.units().iter().flat_map(|unit| unit.spellings.iter().copied());
    if let Some(same) = spellings().find(|known| known.to_lowercase() == typed.to_lowercase()) {
        return Some(same);
    }
    let slips = if length > 4 { 2 } else { 1 };
    spellings()
        .filter(|known| known.len() > 1 && length > 1)
        .map(|known| (strsim::damerau_levenshtein(known, &typed), known))
        .filter(|(distance, _)| *distance <= slips)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, known)| known)
}
