//! The inputs of a row: `b[in]=1.5; t[in]=0.125; ends=pinned`.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use crate::unit;

/// Named inputs. Reading one marks it as read; a row with an input that nobody reads is a fault.
#[derive(Debug, Clone, Default)]
pub struct Inputs {
    given: BTreeMap<String, Given>,
    read: RefCell<BTreeSet<String>>,
}

#[derive(Debug, Clone)]
struct Given {
    text: String,
    unit: Option<f64>,
}

impl Inputs {
    /// Takes the text of a row apart.
    ///
    /// # Errors
    /// A part without `=`, a name given twice, or a unit that is not known.
    pub fn parse(text: &str) -> Result<Self, String> {
        let mut given = BTreeMap::new();
        for part in text.split(';').map(str::trim) {
            let (name, value) = part.split_once('=').ok_or(format!("\"{part}\" has no ="))?;
            let (name, unit) = match name.split_once('[') {
                Some((name, unit)) => {
                    let unit = unit.strip_suffix(']').ok_or(format!("\"{part}\" has no ]"))?;
                    (name, Some(unit::size(unit).ok_or(format!("unknown unit [{unit}]"))?))
                }
                None => (name, None),
            };
            if given.insert(name.to_owned(), Given { text: value.to_owned(), unit }).is_some() {
                return Err(format!("{name} is given twice"));
            }
        }
        Ok(Self { given, read: RefCell::default() })
    }

    /// A number in SI.
    ///
    /// # Errors
    /// An input that is not there, is no finite number, or has no unit in brackets.
    pub fn si(&self, name: &str) -> Result<f64, String> {
        let unit = self.get(name)?.unit.ok_or(format!("{name} has no unit; [-] for a pure number"))?;
        Ok(self.number(name)? * unit)
    }

    /// The same, or `None` where it is not given.
    ///
    /// # Errors
    /// As [`Inputs::si`].
    pub fn maybe(&self, name: &str) -> Result<Option<f64>, String> {
        if self.given.contains_key(name) { self.si(name).map(Some) } else { Ok(None) }
    }

    /// A word.
    ///
    /// # Errors
    /// An input that is not there.
    pub fn word(&self, name: &str) -> Result<&str, String> {
        Ok(&self.get(name)?.text)
    }

    /// A word, or the one given here where the row has none.
    pub fn word_or<'a>(&'a self, name: &str, otherwise: &'a str) -> &'a str {
        self.word(name).unwrap_or(otherwise)
    }

    /// The same inputs with one number times `factor`.
    ///
    /// # Errors
    /// An input that is not there or is no finite number.
    pub fn shifted(&self, name: &str, factor: f64) -> Result<Self, String> {
        let mut other = Self { given: self.given.clone(), read: RefCell::default() };
        let value = self.number(name)? * factor;
        if let Some(given) = other.given.get_mut(name) {
            given.text = value.to_string();
        }
        Ok(other)
    }

    /// Names of the inputs that were never read.
    pub fn unread(&self) -> Vec<&str> {
        let read = self.read.borrow();
        self.given.keys().filter(|name| !read.contains(*name)).map(String::as_str).collect()
    }

    fn get(&self, name: &str) -> Result<&Given, String> {
        self.read.borrow_mut().insert(name.to_owned());
        self.given.get(name).ok_or_else(|| format!("no input {name}"))
    }

    fn number(&self, name: &str) -> Result<f64, String> {
        let text = &self.get(name)?.text;
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() => Ok(number),
            _ => Err(format!("{name} = \"{text}\" is no number")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_is_there_and_nothing_else() {
        let inputs = Inputs::parse("b[in]=2; ends=pinned; n[-]=NaN").unwrap();
        assert!((inputs.si("b").unwrap() - 0.0508).abs() < 1e-15);
        assert_eq!(inputs.word("ends").unwrap(), "pinned");
        assert!(inputs.si("n").is_err());
        assert!(inputs.si("ends").is_err());
        assert!(inputs.si("h").is_err());
        assert_eq!(inputs.maybe("h").unwrap(), None);
    }

    #[test]
    fn tells_what_nobody_read() {
        let inputs = Inputs::parse("b[in]=2; t[in]=1").unwrap();
        inputs.si("b").unwrap();
        assert_eq!(inputs.unread(), ["t"]);
    }

    #[test]
    fn refuses_doubled_names_and_unknown_units() {
        assert!(Inputs::parse("b[in]=2; b[in]=3").is_err());
        assert!(Inputs::parse("b[cubit]=2").is_err());
        assert!(Inputs::parse("b").is_err());
    }
}
