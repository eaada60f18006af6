//! Finding a row by what people call it.
//!
//! A name is taken only if it is the same after spelling is evened out; anything else is an error that
//! lists what is near. A fuzzy match would put the wrong wall thickness on a roof.

use std::fmt;

/// Nearer than this and a name is offered.
const NEAR: f64 = 0.5;
/// How many near names are offered.
const OFFERED: usize = 5;

/// A name that no row has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotFound {
    /// What was asked for, as written.
    pub wanted: String,
    /// What was looked for: "alloy", "tube", "material".
    pub what: &'static str,
    /// The ids nearest to it, best first, at most five.
    pub near: Vec<String>,
    /// Every id that would have been found.
    pub known: Vec<String>,
}

impl std::error::Error for NotFound {}

impl fmt::Display for NotFound {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no {} is called \"{}\"; ", self.what, self.wanted)?;
        if self.near.is_empty() {
            write!(f, "the tables know: {}", self.known.join("; "))
        } else {
            write!(f, "near it: {}", self.near.join("; "))
        }
    }
}

/// A row that people call by more than one name.
pub(crate) trait Named {
    fn id(&self) -> &str;
    fn names(&self) -> &[String] {
        &[]
    }
    /// The id and every other name, spelling evened out.
    fn spellings(&self) -> impl Iterator<Item = String> {
        std::iter::once(self.id()).chain(self.names().iter().map(String::as_str)).map(even_out)
    }
}

macro_rules! named {
    ($($record:ty),*) => {$(
        impl Named for $record {
            fn id(&self) -> &str {
                &self.id
            }
            fn names(&self) -> &[String] {
                &self.names
            }
        }
    )*};
}
named!(
    crate::Alloy,
    crate::EnAlloy,
    crate::Tube,
    crate::Material,
    crate::BuildUp,
    crate::DamageState,
    crate::Adhesive,
    crate::WalkBoard
);

impl Named for crate::Factor {
    fn id(&self) -> &str {
        &self.key
    }
}

impl Named for crate::YieldMet {
    fn id(&self) -> &str {
        &self.id
    }
}

impl Named for crate::RackTube {
    fn id(&self) -> &str {
        &self.id
    }
}

impl Named for crate::Die {
    fn id(&self) -> &str {
        &self.id
    }
}

impl Named for crate::Source {
    fn id(&self) -> &str {
        &self.key
    }
}

/// The row called `wanted`.
pub(crate) fn find<'a, T: Named>(rows: &'a [T], what: &'static str, wanted: &str) -> Result<&'a T, NotFound> {
    let spelling = even_out(wanted);
    rows.iter().find(|row| row.spellings().any(|name| name == spelling)).ok_or_else(|| {
        let mut near: Vec<(f64, &str)> = rows
            .iter()
            .map(|row| {
                let closeness = row
                    .spellings()
                    .map(|name| strsim::normalized_damerau_levenshtein(&spelling, &name))
                    .fold(0.0, f64::max);
                (closeness, row.id())
            })
            .filter(|(closeness, _)| *closeness >= NEAR)
            .collect();
        near.sort_by(|a, b| b.0.total_cmp(&a.0));
        NotFound {
            wanted: wanted.to_owned(),
            what,
            near: near.into_iter().take(OFFERED).map(|(_, id)| id.to_owned()).collect(),
            known: rows.iter().map(|row| row.id().to_owned()).collect(),
        }
    })
}

/// Evens out spelling: case, blanks, hyphens, `×`, inch marks, fraction signs, `.125` for `0.125` and
/// `1.50` for `1.5`. A blank between two digits stays (`1 1/4` is not `11/4`).
pub(crate) fn even_out(name: &str) -> String {
    let mut plain = String::with_capacity(name.len());
    for c in name.chars().flat_map(char::to_lowercase) {
        match c {
            '×' => plain.push('x'),
            '\u{2044}' => plain.push('/'),
            '-' | '_' | '\u{2010}' | '\u{2011}' | '\u{2013}' => plain.push(' '),
            '"' | '\u{2033}' | '\u{201d}' => plain.push_str("in"),
            '\u{bc}' => plain.push_str(" 1/4"),
            '\u{bd}' => plain.push_str(" 1/2"),
            '\u{be}' => plain.push_str(" 3/4"),
            '\u{215b}' => plain.push_str(" 1/8"),
            '\u{215c}' => plain.push_str(" 3/8"),
            '\u{215d}' => plain.push_str(" 5/8"),
            '\u{215e}' => plain.push_str(" 7/8"),
            other => plain.push(other),
        }
    }
    let mut even = String::with_capacity(plain.len());
    for word in plain.split_whitespace() {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit() || c == '.');
        if digit(even.chars().last()) && digit(word.chars().next()) {
            even.push(' ');
        }
        even.push_str(word);
    }
    even_out_decimals(&even)
}

fn even_out_decimals(name: &str) -> String {
    let numeric = |c: char| c.is_ascii_digit() || c == '.';
    let mut even = String::with_capacity(name.len());
    let mut rest = name;
    while !rest.is_empty() {
        let end = rest.find(|c| !numeric(c)).unwrap_or(rest.len());
        let (token, after) = rest.split_at(end);
        match token.split_once('.') {
            Some((whole, decimals)) if !decimals.is_empty() && !decimals.contains('.') => {
                even.push_str(if whole.is_empty() { "0" } else { whole });
                let decimals = decimals.trim_end_matches('0');
                if !decimals.is_empty() {
                    even.push('.');
                    even.push_str(decimals);
                }
            }
            _ => even.push_str(token),
        }
        let next = after.find(numeric).unwrap_or(after.len());
        even.push_str(&after[..next]);
        rest = &after[next..];
    }
    even
}

#[cfg(test)]
mod tests {
    use super::even_out;

    #[test]
    fn spelling_is_evened_out_without_changing_a_size() {
        for same in ["1 x 1 x 1/8", "1x1x1/8", "1 X 1 × 1/8", " 1  x 1 x  ⅛ "] {
            assert_eq!(even_out(same), "1x1x1/8", "{same}");
        }
        assert_eq!(even_out("1-1/2 x 1-1/2 x .125"), even_out("1½ × 1 1/2 x 0.1250"));
        assert_eq!(even_out("6061-T6"), even_out("6061 t6"));
        assert_ne!(even_out("1 1/4"), even_out("11/4"));
        assert_ne!(even_out("3.175"), even_out("3.2"));
        assert_ne!(even_out("10"), even_out("1"));
        assert_ne!(even_out("1\" x 1\""), even_out("1 x 1"));
    }
}
