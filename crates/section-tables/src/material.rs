//! Panel materials: skins, cores, blocking.

use std::collections::BTreeMap;
use std::fmt;

use serde::Deserialize;

use crate::{Property, Value};

/// What kind of stuff a material is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum MaterialFamily {
    /// Cross-laid veneers.
    Plywood,
    /// Thin glass-fibre sheet.
    Sheet,
    /// Plastic foam.
    Foam,
    /// Sawn wood.
    Timber,
    /// Thin metal.
    Metal,
    /// Other boards.
    Board,
}

impl fmt::Display for MaterialFamily {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Plywood => "plywood",
            Self::Sheet => "sheet",
            Self::Foam => "foam",
            Self::Timber => "timber",
            Self::Metal => "metal",
            Self::Board => "board",
        })
    }
}

/// What a strength stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
pub enum StrengthIs {
    /// 19 of 20 pieces are stronger (characteristic value).
    #[serde(rename = "5 percent")]
    FivePercent,
    /// Half the pieces are weaker: not a value to check against as it stands.
    #[serde(rename = "mean")]
    Mean,
    /// The least a product standard allows.
    #[serde(rename = "minimum")]
    Minimum,
}

impl fmt::Display for StrengthIs {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::FivePercent => "5 percent",
            Self::Mean => "mean",
            Self::Minimum => "minimum",
        })
    }
}

/// One panel material with all that is known about it (`materials/*.csv`).
///
/// What is not known is absent: a check that needs it cannot be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// The name that results print.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// What kind of stuff it is.
    pub family: MaterialFamily,
    /// What else to know.
    pub note: String,
    pub(crate) values: BTreeMap<Property, Value>,
    pub(crate) strength_is: BTreeMap<Property, StrengthIs>,
}

impl Material {
    /// The value of one property, `None` where the tables have none.
    pub fn get(&self, property: Property) -> Option<&Value> {
        self.values.get(&property)
    }

    /// What a strength stands for; `None` where the property is no strength or is absent.
    pub fn strength_is(&self, property: Property) -> Option<StrengthIs> {
        self.strength_is.get(&property).copied()
    }

    /// The same material with the band of the properties wanted closed onto their defaults, as if they had been measured.
    pub fn at_default(&self, wanted: impl Fn(Property) -> bool) -> Material {
        let close = |(p, v): (&Property, &Value)| (*p, if wanted(*p) { v.at_default() } else { v.clone() });
        Material { values: self.values.iter().map(close).collect(), ..self.clone() }
    }

    /// Every known property with its value, in the order of [`Property::ALL`].
    pub fn iter(&self) -> impl Iterator<Item = (Property, &Value)> {
        self.values.iter().map(|(property, value)| (*property, value))
    }
}
