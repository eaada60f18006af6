//! One demand against one limit, and the ledger that keeps the worst of each kind.

use super::{Bracing, Materials};
use crate::loads::Footing;
use crate::strength::Basis;
use std::collections::BTreeMap;

/// What a check is about: its name in results, whether bracing cures it, and the order in which people meet it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Check {
    Sag,
    SagLasting,
    OuterSkin,
    InnerSkin,
    OpeningCorner,
    Wrinkling,
    CoreShear,
    CoreCrush,
    Dent,
    Heel,
    FootShear,
    FallThrough,
    /// The walk board breaks.
    WalkBoard,
    PadBending,
    Slot,
    LooseSkin,
    GlueLine,
    /// The glue at a brace's ends in heat and cold.
    GlueEnds,
    Brace,
    BraceShear,
    SeatBearing,
    /// What the walls pull down.
    HoldDown,
    SeatScrews,
    WebCrippling,
    Fatigue,
    Clamp,
    NaturalFrequency,
}

/// Who can mend a failing check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cure {
    /// A brace.
    Bracing,
    /// A stronger brace, glue or seat.
    StrongerBrace,
    /// Nothing that a brace does.
    NotBracing,
    /// The limit is an estimate: beyond it nobody can say.
    NotSure,
}

impl Check {
    /// Name of the contract.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Check::Sag => "sag",
            Check::SagLasting => "sag, lasting",
            Check::OuterSkin | Check::PadBending => "outer skin",
            Check::InnerSkin => "inner skin",
            Check::OpeningCorner => "skin at opening corner",
            Check::Wrinkling => "wrinkling",
            Check::CoreShear | Check::FootShear => "core shear",
            Check::CoreCrush => "core crush",
            Check::Dent => "dent",
            Check::Heel => "heel",
            Check::FallThrough => "fall through",
            Check::WalkBoard => "walk board",
            Check::Slot => "slot",
            Check::LooseSkin => "loose skin",
            Check::GlueLine | Check::GlueEnds => "glue line",
            Check::Brace => "brace",
            Check::BraceShear => "brace shear",
            Check::SeatBearing => "seat bearing",
            Check::HoldDown => "seat screws",
            Check::SeatScrews => "seat screws",
            Check::WebCrippling => "web crippling",
            Check::Fatigue => "fatigue",
            Check::Clamp => "clamp",
            Check::NaturalFrequency => "natural frequency",
        }
    }

    /// Whether a brace may change it: what a foot or the unit's rim presses into the foam it does not.
    pub(crate) fn moved_by_bracing(self) -> bool {
        (self.cure() != Cure::NotBracing && self != Check::WalkBoard) || self == Check::Slot
    }

    pub(crate) fn cure(self) -> Cure {
        match self {
            // What bends a board is bounded from above several times over: beyond its limit nobody can say.
            Check::OpeningCorner | Check::GlueEnds | Check::WalkBoard => Cure::NotSure,
            Check::Sag
            | Check::SagLasting
            | Check::OuterSkin
            | Check::InnerSkin
            | Check::Wrinkling
            | Check::CoreShear
            | Check::NaturalFrequency => Cure::Bracing,
            Check::GlueLine
            | Check::Brace
            | Check::BraceShear
            | Check::SeatBearing
            | Check::SeatScrews
            | Check::WebCrippling
            | Check::Fatigue => Cure::StrongerBrace,
            Check::CoreCrush
            | Check::HoldDown
            | Check::Clamp
            | Check::Dent
            | Check::Heel
            | Check::FootShear
            | Check::FallThrough
            | Check::PadBending
            | Check::Slot
            | Check::LooseSkin => Cure::NotBracing,
        }
    }
}

/// One demand against one limit.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Finding {
    pub check: Check,
    pub part: String,
    pub load: String,
    pub footing: Footing,
    /// Which of the people under study it was found with.
    pub person: Option<usize>,
    pub x: f64,
    pub y: f64,
    pub demand: f64,
    pub limit: f64,
    pub si: &'static str,
    /// Demand times model factor over limit.
    pub ratio: f64,
    pub basis: Basis,
}

/// What a check compares: demand and limit in SI, and demand times model factor over limit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Numbers {
    pub demand: f64,
    pub limit: f64,
    pub si: &'static str,
    pub ratio: f64,
}

/// What findings are compared under.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Key {
    pub bracing: Bracing,
    pub check: Check,
    pub part: String,
    pub footing: Footing,
    pub load: String,
}

/// A ratio is not told beyond this: nothing is left there that carries.
pub(crate) const RATIO_CAP: f64 = 1000.0;

/// The worst finding of each key in each material bracket.
#[derive(Debug, Clone, Default)]
pub(crate) struct Ledger {
    entries: BTreeMap<Key, [Option<Finding>; 3]>,
}

impl Ledger {
    /// Keeps a finding if it is the worst of its key. A ratio that is no number counts as the worst there is.
    pub(crate) fn keep(&mut self, bracing: Bracing, materials: Materials, mut finding: Finding) {
        finding.ratio = if finding.ratio.is_nan() { RATIO_CAP } else { finding.ratio.min(RATIO_CAP) };
        let key = Key {
            bracing,
            check: finding.check,
            part: finding.part.clone(),
            footing: finding.footing,
            load: finding.load.clone(),
        };
        let slot = &mut self.entries.entry(key).or_default()[materials as usize];
        if slot.as_ref().is_none_or(|kept| finding.ratio > kept.ratio) {
            *slot = Some(finding);
        }
    }

    /// Multiplies the ratios of what `like` stands for, in every bracket, where a finer grid reads more.
    pub(crate) fn raise(&mut self, bracing: Bracing, like: &Finding, factor: f64) {
        if !(factor > 1.0 && factor.is_finite()) {
            return;
        }
        for (key, found) in &mut self.entries {
            if key.bracing == bracing
                && key.check == like.check
                && key.part == like.part
                && key.footing == like.footing
            {
                for f in found.iter_mut().flatten() {
                    f.demand *= factor;
                    f.ratio = (f.ratio * factor).min(RATIO_CAP);
                }
            }
        }
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = (&Key, &[Option<Finding>; 3])> {
        self.entries.iter()
    }
}

/// What three brackets say together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    Holds,
    Fails,
    /// The brackets disagree, or one was not evaluated.
    Disagrees,
}

/// Outcome of the ratios of the three brackets.
pub(crate) fn outcome(ratios: [Option<f64>; 3]) -> Outcome {
    if ratios.iter().all(|r| r.is_some_and(|r| r <= 1.0)) {
        Outcome::Holds
    } else if ratios.iter().all(|r| r.is_some_and(|r| r > 1.0)) {
        Outcome::Fails
    } else {
        Outcome::Disagrees
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bracket_not_evaluated_is_no_pass() {
        assert_eq!(outcome([Some(0.5), None, Some(0.5)]), Outcome::Disagrees);
        assert_eq!(outcome([Some(0.5), Some(1.0), Some(0.9)]), Outcome::Holds);
        assert_eq!(outcome([Some(1.1), Some(2.0), Some(1.000_001)]), Outcome::Fails);
        assert_eq!(outcome([Some(1.1), Some(0.9), Some(0.9)]), Outcome::Disagrees);
    }

    #[test]
    fn a_ratio_that_is_no_number_never_loses_to_one_that_is() {
        let mut ledger = Ledger::default();
        let finding = |ratio| Finding {
            check: Check::Sag,
            part: "panel".into(),
            load: "person".into(),
            footing: Footing::NotAFoot,
            person: None,
            x: 0.0,
            y: 0.0,
            demand: 1.0,
            limit: 1.0,
            si: "m",
            ratio,
            basis: Basis::practice("invented"),
        };
        ledger.keep(Bracing::Without, Materials::Low, finding(f64::NAN));
        ledger.keep(Bracing::Without, Materials::Low, finding(0.4));
        let (_, kept) = ledger.iter().next().unwrap();
        assert_eq!(kept[0].as_ref().unwrap().ratio, RATIO_CAP);
    }
}
