//! What a shop's own rack adds to the answer: prices, and that only it was tried.

use super::document::CandidateRow;
use super::pattern::words;
use crate::check::Words;
use crate::quantity::{Family, significant, weight};
use section_tables::Tables;

/// Currency of the rack's prices, if it has any.
pub(super) fn currency(tables: &Tables) -> Option<&str> {
    tables.rack.iter().find(|row| row.price_per_m.is_some()).map(|row| row.currency.as_str())
}

impl CandidateRow {
    /// What it weighs and, with a price, costs: "6.2 lb, 31 crowns".
    pub fn measured(&self, family: Family, currency: Option<&str>) -> String {
        let mass = weight(self.mass.get(), family);
        match (self.price, currency) {
            (Some(price), Some(currency)) => format!("{mass}, {} {currency}", significant(price.get(), 3)),
            _ => mass,
        }
    }
}

/// What is said where a rack was read.
pub(super) fn from_the_rack(tables: &Tables) -> Vec<Words> {
    if tables.rack.is_empty() {
        return Vec::new();
    }
    vec![words(
        "own-rack",
        format!(
            "Only what lies on the shop's own rack was tried ({} rows). Weights and prices are those of the length along the curve; stock lengths, trims and offcuts come on top. A weighed mass serves for the weight told; the roof carries the tube's mass by its section.",
            tables.rack.len()
        ),
    )]
}
