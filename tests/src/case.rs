//! One row: what goes in, what must come out, who says so, and how near.

use std::collections::BTreeSet;
use std::fmt;
use std::path::Path;

use serde::Deserialize;

use crate::inputs::Inputs;
use crate::unit;

/// How well the expected number is founded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Printed by others; the number is given as printed.
    Published,
    /// Computed by a route that is not the code under test.
    Computed,
    /// Remembered from a book or standard that was not at hand.
    Memory,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Published => "published",
            Self::Computed => "computed",
            Self::Memory => "memory",
        })
    }
}

/// One check value.
#[derive(Debug, Clone)]
pub struct Case {
    /// Id, unique in all files.
    pub id: String,
    /// Route to the public interface, see [`crate::route`].
    pub route: String,
    /// What comes out of the route.
    pub quantity: String,
    /// Inputs.
    pub inputs: Inputs,
    /// The number expected, as printed.
    pub printed: String,
    /// Its unit.
    pub unit: String,
    /// The tolerance as written: `0.5u` counts units of the last printed digit, a bare number is relative.
    pub within: String,
    /// The input that is shifted to show that the row can fail, or `none: ` and why there is none.
    pub shift: String,
    /// How well founded.
    pub kind: Kind,
    /// Who says so, and what was noticed.
    pub source: String,
    expected: f64,
    slack: f64,
    size: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    id: String,
    route: String,
    quantity: String,
    printed: String,
    unit: String,
    within: String,
    shift: String,
    kind: Kind,
    source: String,
    inputs: String,
}

/// Reads a file of rows, strictly.
///
/// # Errors
/// Every row at fault, by line.
pub fn read(path: &Path) -> Result<Vec<Case>, String> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(path)
        .map_err(|e| format!("{}: {e}", path.display()))?;
    let (mut cases, mut faults, mut ids) = (Vec::new(), Vec::new(), BTreeSet::new());
    for row in reader.deserialize::<Row>() {
        match row.map_err(|e| e.to_string()).and_then(Case::from_row) {
            Ok(case) if ids.insert(case.id.clone()) => cases.push(case),
            Ok(case) => faults.push(format!("{}: the id is there twice", case.id)),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(cases) } else { Err(format!("{}:\n{}", path.display(), faults.join("\n"))) }
}

impl Case {
    fn from_row(row: Row) -> Result<Self, String> {
        let fault = |what: String| format!("{}: {what}", row.id);
        for (column, text) in
            [("id", &row.id), ("quantity", &row.quantity), ("source", &row.source), ("shift", &row.shift)]
        {
            if text.trim().is_empty() {
                return Err(fault(format!("{column} is empty")));
            }
        }
        let expected: f64 = row.printed.parse().map_err(|e| fault(format!("\"{}\": {e}", row.printed)))?;
        let slack = slack(&row.printed, expected, &row.within).map_err(fault)?;
        let size = unit::size(&row.unit).ok_or_else(|| fault(format!("unknown unit {}", row.unit)))?;
        let inputs = Inputs::parse(&row.inputs).map_err(fault)?;
        Ok(Self {
            id: row.id,
            route: row.route,
            quantity: row.quantity,
            inputs,
            printed: row.printed,
            unit: row.unit,
            within: row.within,
            shift: row.shift,
            kind: row.kind,
            source: row.source,
            expected,
            slack,
            size,
        })
    }

    /// How far off a result (SI) is, in tolerances: at most 1 holds. NaN never does.
    ///
    /// # Errors
    /// The row with what was found, where it does not hold.
    pub fn compare(&self, found: f64) -> Result<f64, String> {
        let found = found / self.size;
        let off = (found - self.expected).abs() / self.slack;
        if off <= 1.0 {
            Ok(off)
        } else {
            Err(format!(
                "{} {}: found {found} {}, expected {} within {} ({}; {})",
                self.id, self.quantity, self.unit, self.printed, self.within, self.kind, self.source
            ))
        }
    }

    /// The tolerance against the expected number.
    pub fn relative_slack(&self) -> f64 {
        self.slack / self.expected.abs()
    }
}

/// The tolerance in printed units, from the digits printed.
fn slack(printed: &str, expected: f64, within: &str) -> Result<f64, String> {
    let number = |text: &str| match text.parse::<f64>() {
        Ok(v) if v.is_finite() && v > 0.0 => Ok(v),
        _ => Err(format!("within \"{within}\": must be a number above 0, with or without u")),
    };
    let slack = match within.strip_suffix('u') {
        Some(units) => {
            let (digits, power) = printed.split_once(['e', 'E']).unwrap_or((printed, "0"));
            let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len() as i32);
            let power: i32 = power.parse().map_err(|e| format!("{printed}: {e}"))?;
            number(units)? * 10f64.powi(power - decimals)
        }
        None => number(within)? * expected.abs(),
    };
    // Room for the last bit of the arithmetic of the comparison itself.
    let slack = slack * (1.0 + 1e-9);
    if expected.is_finite() && slack.is_finite() && slack > 0.0 {
        Ok(slack)
    } else {
        Err(format!("expected {printed} within {within} leaves no tolerance"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn case(printed: &str, within: &str) -> Case {
        Case::from_row(Row {
            id: "one".into(),
            route: "-".into(),
            quantity: "width".into(),
            printed: printed.into(),
            unit: "in".into(),
            within: within.into(),
            shift: "b".into(),
            kind: Kind::Published,
            source: "a ruler".into(),
            inputs: "b[in]=1".into(),
        })
        .unwrap()
    }

    #[test]
    fn tolerance_comes_from_the_digits() {
        assert!(case("1.50", "0.5u").compare(1.5049 * 0.0254).is_ok());
        assert!(case("1.50", "0.5u").compare(1.5051 * 0.0254).is_err());
        assert!(case("150", "2u").compare(151.9 * 0.0254).is_ok());
        assert!(case("1.50e3", "0.5u").compare(1505.1 * 0.0254).is_err());
        assert!(case("1.50", "1e-3").compare(1.5016 * 0.0254).is_err());
    }

    #[test]
    fn no_number_is_never_near() {
        assert!(case("1.50", "0.5u").compare(f64::NAN).is_err());
        assert!(case("1.50", "0.5u").compare(f64::INFINITY).is_err());
    }

    #[test]
    fn no_tolerance_is_a_fault() {
        for (printed, within) in [("NaN", "1e-3"), ("0", "1e-3"), ("1", "0u"), ("1", "-1"), ("1", "NaN")] {
            let expected = printed.parse().unwrap();
            assert!(slack(printed, expected, within).is_err(), "{printed} {within}");
        }
    }
}
