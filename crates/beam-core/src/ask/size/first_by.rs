//! What the candidates are put in order by.

use std::cmp::Ordering;

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

    /// "lighter", "cheaper".
    pub(super) fn before(self) -> &'static str {
        match self {
            FirstBy::Weight => "lighter",
            FirstBy::Price => "cheaper",
        }
    }

    /// Which of two, each by mass and price, comes first; a tube without a price comes last by price.
    pub(super) fn order(self, a: (f64, Option<f64>), b: (f64, Option<f64>)) -> Ordering {
        let by_mass = a.0.total_cmp(&b.0);
        match self {
            FirstBy::Weight => by_mass,
            FirstBy::Price => {
                let price = |p: Option<f64>| p.unwrap_or(f64::INFINITY);
                price(a.1).total_cmp(&price(b.1)).then(by_mass)
            }
        }
    }
}
