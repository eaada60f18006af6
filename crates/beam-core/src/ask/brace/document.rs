//! The answer about a lone brace: SI throughout (m, N, N m, Pa).

use crate::check::{BasisWords, Finite, MadeWith, NotChecked, Verdict, Words};
use serde::Serialize;

/// The brace with its change of shape taken into account.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SecondOrder {
    /// Push on each wall, positive outward.
    pub thrust: Finite,
    /// Moment at the crown, sagging positive.
    pub crown_moment: Finite,
    /// Moment of the largest size, with its sign.
    pub max_moment: Finite,
    /// Sag of the crown.
    pub crown_sag: Finite,
    /// Largest stress, without its sign.
    pub max_stress: Finite,
}

/// The tube held against the rules.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BraceStrength {
    /// "holds" or "does not hold".
    pub verdict: Verdict,
    /// The check that decides: "axial force and bending", "shear", "snap".
    pub check: String,
    /// Demand over limit; absent where the brace snaps or sways before it carries the factored load.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ratio: Option<Finite>,
    /// Allowable moment, N m.
    pub bending: Finite,
    /// Allowable compression, N.
    pub compression: Finite,
    /// Allowable shear, N.
    pub shear: Finite,
    /// What the limits rest on.
    pub basis: BasisWords,
}

/// What a curved brace does alone.
#[derive(Debug, Clone, Serialize)]
pub struct BraceAnswer {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Tube, by its id or measures.
    pub tube: String,
    /// Alloy and temper.
    pub alloy: String,
    /// Span.
    pub span: Finite,
    /// Rise.
    pub rise: Finite,
    /// "roller", "pinned" or "fixed", and whether on springs.
    pub ends: String,
    /// All load on it.
    pub total_load: Finite,
    /// Push on each wall, positive outward.
    pub thrust: Finite,
    /// Moment at the crown, sagging positive.
    pub crown_moment: Finite,
    /// Moment at an end, the larger of both, sagging positive.
    pub end_moment: Finite,
    /// Moment of the largest size, with its sign.
    pub max_moment: Finite,
    /// Its distance from the left end.
    pub max_moment_at: Finite,
    /// Sag of the crown.
    pub crown_sag: Finite,
    /// Largest stress, without its sign.
    pub max_stress: Finite,
    /// Total load at which the perfect arch first snaps or sways; `None` where none exists.
    pub snap_load: Option<Finite>,
    /// "snaps through" or "sways"; absent where it does neither.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub snap_kind: Option<String>,
    /// The same for an arch that is lopsided by 1/500 of its span, never above the perfect one; absent where none
    /// exists.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub snap_load_lopsided: Option<Finite>,
    /// How it was worked out.
    pub model: String,
    /// With the change of shape; absent where the brace gives way before it carries the load.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub second_order: Option<SecondOrder>,
    /// The tube by the rules; absent where they do not speak about it, which then stands under `not_checked`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strength: Option<BraceStrength>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

impl BraceAnswer {
    /// Whether the tube is strong enough for this by the rules; `None`: they do not speak about it.
    pub fn holds(&self) -> Option<bool> {
        self.strength.as_ref().map(|strength| strength.verdict == Verdict::Holds)
    }
}
