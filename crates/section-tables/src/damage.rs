//! What is left of a damaged layer.

use std::fmt;

use serde::Deserialize;

use crate::Value;

/// Which layers an effect applies to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DamagedLayer {
    /// A skin or backer.
    Skin,
    /// A foam core.
    Core,
    /// Every layer that has no row of its own.
    Any,
}

impl fmt::Display for DamagedLayer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Skin => "skin",
            Self::Core => "core",
            Self::Any => "any",
        })
    }
}

/// What one state leaves of one kind of layer: shares of the sound layer's values, 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct DamageEffect {
    /// The layers it applies to.
    pub layer: DamagedLayer,
    /// Share of the moduli left.
    pub stiffness: Value,
    /// Share of the strengths left (crush strength aside).
    pub strength: Value,
    /// Share of the crush strength left.
    pub crush: Value,
    /// Whether the layer still holds to its neighbours.
    pub bond: bool,
    /// Water taken up, kg per cubic metre of the layer.
    pub added_water_kg_m3: Value,
    /// What else to know.
    pub note: String,
}

/// One state of damage (`damage.csv`, one row a state and kind of layer).
#[derive(Debug, Clone, PartialEq)]
pub struct DamageState {
    /// The word that a survey gives.
    pub id: String,
    /// Other names.
    pub names: Vec<String>,
    /// One effect for each kind of layer that the state is defined for.
    pub effects: Vec<DamageEffect>,
}

impl DamageState {
    /// The effect on one kind of layer: its own row, else the row for any layer; `None` where the
    /// state means nothing for such a layer.
    pub fn effect_on(&self, layer: DamagedLayer) -> Option<&DamageEffect> {
        let row = |wanted| self.effects.iter().find(|effect| effect.layer == wanted);
        row(layer).or_else(|| row(DamagedLayer::Any))
    }
}
