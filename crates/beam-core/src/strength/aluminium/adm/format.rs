//! Factors of ADM 2020, table 1-3 of part VI: safety (ASD) and resistance (LRFD).

/// Which format the check is made in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Format {
    /// Allowable strength design: loads unfactored, nominal strength over `Omega`.
    Asd,
    /// Load and resistance factor design: loads factored, nominal strength times `phi`.
    Lrfd,
}

/// Groups of limit states that share their factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LimitState {
    /// Yielding and buckling in tension, compression, flexure, shear, torsion.
    YieldOrBuckling,
    /// Rupture in tension, flexure, shear, torsion; crippling of webs; bearing of bolts and rivets.
    RuptureOrCrippling,
    /// Shear of a bolt or rivet.
    FastenerShear,
    /// Everything about a screw: bearing, tilting, pull-out, pull-over, its own shear and tension.
    Screw,
}

impl Format {
    /// What the nominal strength is multiplied with: `1/Omega` or `phi`.
    pub fn factor(self, state: LimitState) -> f64 {
        match (self, state) {
            (Self::Asd, LimitState::YieldOrBuckling) => 1.0 / 1.65,
            (Self::Asd, LimitState::RuptureOrCrippling) => 1.0 / 1.95,
            (Self::Asd, LimitState::FastenerShear) => 1.0 / 2.34,
            (Self::Asd, LimitState::Screw) => 1.0 / 3.0,
            (Self::Lrfd, LimitState::YieldOrBuckling) => 0.90,
            (Self::Lrfd, LimitState::RuptureOrCrippling) => 0.75,
            (Self::Lrfd, LimitState::FastenerShear) => 0.65,
            (Self::Lrfd, LimitState::Screw) => 0.50,
        }
    }

    /// As written on a sheet.
    pub fn name(self) -> &'static str {
        match self {
            Self::Asd => "ADM 2020 ASD",
            Self::Lrfd => "ADM 2020 LRFD",
        }
    }
}
