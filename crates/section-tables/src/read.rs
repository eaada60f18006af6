//! Strict reading of one CSV file: the columns are known by name, every row is whole, every number is
//! finite and not negative, and every fault is kept with its place.

use std::rc::Rc;

use serde::de::{DeserializeOwned, Error as _, IntoDeserializer};
use serde::{Deserialize, Deserializer};

use crate::Fault;
use crate::value::keys;

/// A data file: which table it belongs to, what to call it in a fault, and its text.
#[derive(Debug, Clone)]
pub(crate) struct DataFile {
    pub(crate) table: &'static str,
    pub(crate) shown_as: String,
    /// Whether it is a shop's own.
    pub(crate) own: bool,
    pub(crate) text: String,
}

/// Where a row stands.
#[derive(Debug, Clone)]
pub(crate) struct Place {
    file: Rc<str>,
    line: u64,
    /// What the row is called: its cell in the first of the known columns.
    pub(crate) name: String,
    /// Whether the row is a shop's own.
    pub(crate) own: bool,
}

impl Place {
    pub(crate) fn fault(&self, value: impl Into<String>, why: impl Into<String>) -> Fault {
        Fault { file: self.file.to_string(), line: self.line, value: value.into(), why: why.into() }
    }
}

/// A row and where it stands.
#[derive(Debug, Clone)]
pub(crate) struct Row<R> {
    pub(crate) place: Place,
    pub(crate) cells: R,
}

/// Reads all rows of `table` from all `files` that belong to it.
pub(crate) fn rows<R: DeserializeOwned>(
    files: &[DataFile],
    table: &str,
    columns: &[&str],
    faults: &mut Vec<Fault>,
) -> Vec<Row<R>> {
    files
        .iter()
        .filter(|file| file.table == table)
        .flat_map(|file| file_rows(file, columns, faults))
        .collect()
}

fn file_rows<R: DeserializeOwned>(file: &DataFile, columns: &[&str], faults: &mut Vec<Fault>) -> Vec<Row<R>> {
    let name: Rc<str> = file.shown_as.as_str().into();
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(file.text.trim_start_matches('\u{feff}').as_bytes());
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(error) => {
            faults.push(Fault {
                file: file.shown_as.clone(),
                line: 1,
                value: "header".into(),
                why: error.to_string(),
            });
            return Vec::new();
        }
    };
    let at = |line, called: &str| Place { file: name.clone(), line, name: called.to_owned(), own: file.own };
    let place = at(header.position().map_or(1, csv::Position::line), "");
    let before = faults.len();
    for (i, column) in header.iter().enumerate() {
        if !columns.contains(&column) {
            faults
                .push(place.fault(column, format!("unknown column; the columns are {}", columns.join(", "))));
        } else if header.iter().take(i).any(|earlier| earlier == column) {
            faults.push(place.fault(column, "this column stands twice"));
        }
    }
    for column in columns {
        if !header.iter().any(|found| found == *column) {
            faults.push(place.fault(*column, "this column is missing"));
        }
    }
    if faults.len() > before {
        return Vec::new();
    }
    let id = columns.first().and_then(|first| header.iter().position(|found| found == *first));
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(0, csv::Position::line);
                faults.push(at(line, "").fault("row", error.to_string()));
                continue;
            }
        };
        let called = id.and_then(|id| record.get(id)).unwrap_or_default();
        let place = at(record.position().map_or(0, csv::Position::line), called);
        match record.deserialize(Some(&header)) {
            Ok(cells) => rows.push(Row { place, cells }),
            Err(error) => {
                let typed = record.iter().collect::<Vec<_>>().join(",");
                faults.push(place.fault(typed, reason(&error)));
            }
        }
    }
    rows
}

fn reason(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::Deserialize { err, .. } => err.kind().to_string(),
        _ => error.to_string(),
    }
}

/// A cell that holds a finite number of zero or more.
pub(crate) fn number<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let cell = String::deserialize(deserializer)?;
    match cell.parse::<f64>() {
        Ok(value) if value.is_finite() && value >= 0.0 => Ok(value),
        Ok(_) => Err(D::Error::custom(format!("`{cell}` must be finite and not negative"))),
        Err(_) => Err(D::Error::custom(format!("`{cell}` is not a number; write it with a decimal point"))),
    }
}

/// A cell that holds a finite number above zero.
pub(crate) fn positive<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    match number(deserializer)? {
        value if value > 0.0 => Ok(value),
        _ => Err(D::Error::custom("`0` must be above 0")),
    }
}

/// A cell that holds a finite number above zero, or nothing.
pub(crate) fn positive_or_empty<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    let cell = String::deserialize(deserializer)?;
    if cell.is_empty() { Ok(None) } else { positive(cell.into_deserializer()).map(Some) }
}

/// A cell that holds names, `;` between them.
pub(crate) fn names<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<String>, D::Error> {
    Ok(keys(&String::deserialize(deserializer)?).map(str::to_owned).collect())
}

/// A cell that holds `yes` or `no`.
pub(crate) fn yes_or_no<'de, D: Deserializer<'de>>(deserializer: D) -> Result<bool, D::Error> {
    match String::deserialize(deserializer)?.as_str() {
        "yes" => Ok(true),
        "no" => Ok(false),
        other => Err(D::Error::custom(format!("`{other}` must be `yes` or `no`"))),
    }
}
