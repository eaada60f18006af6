//! What the candidates are put in order by.

use serde::Serialize;

/// The order in which candidates are tried: the first that fails nothing is the one chosen.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum FirstBy {
    /// By weight, the lightest first.
    #[default]
    Weight,
    /// By what the shop pays for the length along the curve, the cheapest first; equal ones by weight.
    Price,
}

impl FirstBy {
    /// "lightest", "cheapest".
    pub fn word(self) -> &'static str {
        match self {
            FirstBy::Weight => "lightest",
            FirstBy::Price => "cheapest",
        }
    }

    /// What candidates are sorted by: first key, then mass.
    pub(super) fn key(self, mass: f64, price: Option<f64>) -> [f64; 2] {
        match self {
            FirstBy::Weight => [mass, mass],
            FirstBy::Price => [price.unwrap_or(f64::INFINITY), mass],
        }
    }
}
