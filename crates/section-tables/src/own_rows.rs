//! Which rows are a shop's own.

use std::fmt;

/// The rows that a shop's folder added to the shipped ones.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OwnRows {
    /// The folder, as it was named.
    pub folder: String,
    /// Table and what the row is called there, in the order they were read; a row over several lines once.
    pub rows: Vec<(&'static str, String)>,
}

impl OwnRows {
    pub(crate) fn add(&mut self, table: &'static str, name: &str) {
        let known = |(of, row): &(&str, String)| *of == table && row == name;
        if !self.rows.iter().any(known) {
            self.rows.push((table, name.to_owned()));
        }
    }
}

/// `tubes/metric.csv: 45 x 45 x 2.5, 45 x 45 x 5; walk_boards.csv: bench top`.
impl fmt::Display for OwnRows {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut last = None;
        for (table, name) in &self.rows {
            match last {
                Some(same) if same == table => write!(f, ", {name}")?,
                Some(_) => write!(f, "; {table}: {name}")?,
                None => write!(f, "{table}: {name}")?,
            }
            last = Some(table);
        }
        Ok(())
    }
}
