//! The result document of `bend`: SI throughout (m, N, Pa, rad).

use serde::Serialize;

use crate::check::{BasisWords, Finite, MadeWith, NotChecked, ReadIn, Words};

/// The whole result of `bend`.
///
/// Radii are those of the tube's centre line. The span is the chord of the centre line from end to end; heights stand
/// on that chord. What could not be worked out is left out, and told under `not_checked`.
#[derive(Debug, Clone, Serialize)]
pub struct BendDocument {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Quantities that people read it in.
    pub read_in: ReadIn,
    /// The answer in words.
    pub answer: String,
    /// Tube, as in the tables or as typed.
    pub tube: String,
    /// Alloy and temper.
    pub alloy: String,
    /// Chord.
    pub span: Finite,
    /// Height of the crown.
    pub rise: Finite,
    /// Radius wanted.
    pub radius: Finite,
    /// Length along the curve.
    pub arc_length: Finite,
    /// Slope of the ends against the chord, rad.
    pub end_angle: Finite,
    /// Length to cut before bending: the arc and a trim at each end.
    pub cut_length: Finite,
    /// Trim at each end.
    pub trim: Finite,
    /// Heights for a template.
    pub stations: Vec<Station>,
    /// A short gauge to bend by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gauge: Option<Gauge>,
    /// Radius to bend to if the metal yields as it typically does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loaded_radius: Option<Finite>,
    /// Smallest and largest radius to bend to, as the yield scatters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loaded_radius_range: Option<[Finite; 2]>,
    /// Yield strengths reckoned with: least, typical, high.
    pub yield_strength: [Finite; 3],
    /// Largest radius that leaves any set at typical yield.
    pub first_yield_radius: Finite,
    /// Outer-fibre strain at the radius wanted.
    pub fibre_strain: Finite,
    /// The same at the smallest radius to bend to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loaded_fibre_strain: Option<Finite>,
    /// Outer-fibre stress if the straight tube is sprung in instead of bent.
    pub sprung_stress: Finite,
    /// Push in the middle that holds it so.
    pub sprung_force: Finite,
    /// Whether it may be sprung in, and needs no bender.
    pub needs_no_bender: bool,
    /// Whether it can be bent cold; `null` where the alloy is not known.
    pub bendable: Option<bool>,
    /// The bend rules.
    pub limits: Vec<LimitRow>,
    /// Dishing of the flanges at the smallest radius.
    pub dishing: Finite,
    /// The arc against measured ordinates.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fit: Option<Fit>,
    /// What the answer rests on.
    pub basis: BasisWords,
    /// What to do.
    pub next_steps: Vec<Words>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

impl BendDocument {
    /// Whether a way to the curve was found, by bending or by springing in; `None`: cannot say.
    pub fn found(&self) -> Option<bool> {
        if self.needs_no_bender { Some(true) } else { self.bendable }
    }
}

/// A place along the chord and the height of the curve there.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Station {
    /// From one end.
    pub along_chord: Finite,
    /// Height of the finished curve.
    pub offset: Finite,
    /// Height of a curve of the loaded radius over the same chord.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loaded_offset: Option<Finite>,
}

/// Heights in the middle of a short straight edge.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Gauge {
    /// Its length.
    pub chord: Finite,
    /// Height of the finished curve.
    pub offset: Finite,
    /// Height while loaded.
    pub loaded_offset: Finite,
}

/// A bend rule.
#[derive(Debug, Clone, Serialize)]
pub struct LimitRow {
    /// The rule.
    pub rule: String,
    /// Smallest radius it allows.
    pub least_radius: Finite,
    /// Whether the bend keeps it; never where the radius to bend to is not known.
    pub kept: bool,
    /// Where it comes from.
    pub basis: BasisWords,
}

/// An arc against ordinates.
#[derive(Debug, Clone, Serialize)]
pub struct Fit {
    /// Largest gap while the brace touches the roof from below.
    pub worst_gap: Finite,
    /// Where.
    pub along_chord: Finite,
    /// Whether a shim is needed: a gap of more than 3 mm.
    pub shim_needed: bool,
    /// Shims.
    pub shims: Vec<Shim>,
}

/// A shim.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Shim {
    /// Where.
    pub along_chord: Finite,
    /// How thick.
    pub thickness: Finite,
}
