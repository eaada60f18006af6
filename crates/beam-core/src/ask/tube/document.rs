//! The answer about a tube: SI throughout (m, N, N m, Pa, kg).

use crate::check::{Finite, MadeWith, NotChecked, Words};
use serde::Serialize;

/// Outside measures, wall and outside corner radius.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TubeSize {
    /// Across the bending plane.
    pub width: Finite,
    /// In the bending plane.
    pub depth: Finite,
    /// Wall.
    pub wall: Finite,
    /// Outside corner radius.
    pub corner: Finite,
}

/// Section properties, bent upright.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Properties {
    /// Area, m2.
    pub area: Finite,
    /// Second moment, m4.
    pub second_moment: Finite,
    /// Elastic section modulus, m3.
    pub elastic_modulus: Finite,
    /// Plastic section modulus, m3.
    pub plastic_modulus: Finite,
    /// Radius of gyration, m.
    pub radius_of_gyration: Finite,
    /// Torsion constant (Bredt), m4.
    pub torsion_constant: Finite,
    /// Shear area, both webs over the full depth, m2.
    pub shear_area: Finite,
    /// Mass per length, kg/m; absent where the alloy is not listed in the book.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mass_per_length: Option<Finite>,
}

/// Bending strengths, N m: each check of the book, and the least.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Bending {
    /// ADM F.2 yielding; EN `W_pl fo/gamma_M1`, the section yielded whole.
    #[serde(rename = "yield", skip_serializing_if = "Option::is_none")]
    pub yield_: Option<Finite>,
    /// ADM F.2 rupture; EN only beside a weld.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rupture: Option<Finite>,
    /// ADM F.3.1; EN `M_c,Rd` with the shape factor of its class.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub local: Option<Finite>,
    /// ADM F.4; EN 6.3.2, only for tubes deeper than wide.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lateral_torsional: Option<Finite>,
    /// The least of them.
    pub least: Finite,
}

/// Strengths, allowable or design by the rules named. What the rules do not speak about is absent.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct TubeStrength {
    /// Tension, N.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tension: Option<Finite>,
    /// Compression, N.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub compression: Option<Finite>,
    /// Bending.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bending: Option<Bending>,
    /// Shear along the depth, N.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shear: Option<Finite>,
    /// Torsion, N m.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub torsion: Option<Finite>,
}

/// One check behind the strengths, with its clause.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TubeBasis {
    /// "tension", "compression", "bending", "shear" or "torsion".
    pub of: String,
    /// The check, in words.
    pub check: String,
    /// What it allows.
    pub value: Finite,
    /// SI symbol of it.
    pub si: String,
    /// Whether it is the least of its kind.
    pub governs: bool,
    /// Book and clause.
    pub source: String,
    /// "published", "computed", "memory" or "practice": the weaker of rule and strengths.
    pub kind: String,
}

/// What a tube is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TubeAnswer {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Id of its row, or its measures.
    pub tube: String,
    /// Measures.
    pub size: TubeSize,
    /// Id of the alloy's row, or the name asked for.
    pub alloy: String,
    /// Rule book.
    pub rules: String,
    /// Length between the ends, m.
    pub length: Finite,
    /// Distance between points held sideways, m.
    pub held_every: Finite,
    /// Section properties.
    pub properties: Properties,
    /// Strengths.
    pub strength: TubeStrength,
    /// EN: class of the section in bending, 1 to 4.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub class: Option<u8>,
    /// EN: class of the section in compression.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub class_in_compression: Option<u8>,
    /// The checks behind the strengths.
    pub basis: Vec<TubeBasis>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

impl TubeAnswer {
    /// Whether a strength that was asked for could not be given.
    pub fn cannot_say(&self) -> bool {
        self.not_checked.iter().any(|gap| gap.blocks)
    }
}
