//! What a rule book said about a tube, check by check.

use super::document::{Bending, TubeBasis, TubeStrength};
use crate::check::{Finite, NotChecked, NotFinite};
use crate::strength::{BasisKind, OutOfRange};

/// Kinds of strength.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    Tension,
    Compression,
    Bending(Bend),
    Shear,
    Torsion,
}

/// Checks of bending.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Bend {
    Yield,
    Rupture,
    Local,
    LateralTorsional,
}

impl Of {
    fn name(self) -> &'static str {
        match self {
            Self::Tension => "tension",
            Self::Compression => "compression",
            Self::Bending(_) => "bending",
            Self::Shear => "shear",
            Self::Torsion => "torsion",
        }
    }

    fn si(self) -> &'static str {
        if matches!(self, Self::Bending(_) | Self::Torsion) { "N m" } else { "N" }
    }
}

struct Check {
    of: Of,
    check: &'static str,
    value: f64,
    source: String,
    kind: BasisKind,
}

/// Checks made, checks that could not be made.
pub(super) struct Found {
    pub alloy: String,
    pub density: Option<f64>,
    pub class: Option<u8>,
    pub class_in_compression: Option<u8>,
    pub gaps: Vec<NotChecked>,
    book: &'static str,
    strengths_are: BasisKind,
    checks: Vec<Check>,
}

impl Found {
    pub(super) fn new(book: &'static str, alloy: &str, density: Option<f64>, kind: BasisKind) -> Self {
        Self {
            alloy: alloy.to_owned(),
            density,
            class: None,
            class_in_compression: None,
            gaps: elsewhere(),
            book,
            strengths_are: kind,
            checks: Vec::new(),
        }
    }

    /// A book that gives no strength at all, and why.
    pub(super) fn nothing(book: &'static str, alloy: &str, density: Option<f64>, why: String) -> Self {
        let mut found = Self::new(book, alloy, density, BasisKind::Published);
        found.blocked("strength", why);
        found
    }

    /// One check made.
    pub(super) fn made(&mut self, of: Of, check: &'static str, value: f64, clause: &str, kind: BasisKind) {
        let source = format!("{}, {clause}", self.book);
        self.checks.push(Check { of, check, value, source, kind: kind.max(self.strengths_are) });
    }

    /// One check that its rule does not speak about.
    pub(super) fn out_of_range(&mut self, what: &str, why: &OutOfRange) {
        self.blocked(what, why.to_string());
    }

    /// Something that keeps the answer from being given.
    pub(super) fn blocked(&mut self, what: &str, why: String) {
        self.gaps
            .insert(0, NotChecked { check: what.to_owned(), part: "tube".to_owned(), why, blocks: true });
    }

    /// Whether anything could be said.
    pub(super) fn any(&self) -> bool {
        !self.checks.is_empty()
    }

    /// Whether a number rests on memory alone.
    pub(super) fn rests_on_memory(&self) -> bool {
        self.checks.iter().any(|c| c.kind == BasisKind::Memory)
    }

    fn least(&self, name: &str) -> Option<f64> {
        self.checks.iter().filter(|c| c.of.name() == name).map(|c| c.value).reduce(f64::min)
    }

    pub(super) fn strength(&self) -> Result<TubeStrength, NotFinite> {
        let finite = |v: Option<f64>, what: &str| v.map(|v| Finite::new(v, what)).transpose();
        let bend = |which: Bend| {
            let found = self.checks.iter().find(|c| c.of == Of::Bending(which));
            finite(found.map(|c| c.value), "bending strength")
        };
        let bending = match finite(self.least("bending"), "bending strength")? {
            None => None,
            Some(least) => Some(Bending {
                yield_: bend(Bend::Yield)?,
                rupture: bend(Bend::Rupture)?,
                local: bend(Bend::Local)?,
                lateral_torsional: bend(Bend::LateralTorsional)?,
                least,
            }),
        };
        Ok(TubeStrength {
            tension: finite(self.least("tension"), "tensile strength")?,
            compression: finite(self.least("compression"), "compressive strength")?,
            bending,
            shear: finite(self.least("shear"), "shear strength")?,
            torsion: finite(self.least("torsion"), "torsional strength")?,
        })
    }

    pub(super) fn basis(&self) -> Result<Vec<TubeBasis>, NotFinite> {
        let governs = |i: usize, c: &Check| {
            let mut alike = self.checks.iter().enumerate().filter(|(_, o)| o.of.name() == c.of.name());
            // Of equals the first counts.
            alike.all(|(j, o)| c.value < o.value || (c.value == o.value && i <= j))
        };
        let row = |(i, c): (usize, &Check)| {
            Ok(TubeBasis {
                of: c.of.name().to_owned(),
                check: c.check.to_owned(),
                value: Finite::new(c.value, c.check)?,
                si: c.of.si().to_owned(),
                governs: governs(i, c),
                source: c.source.clone(),
                kind: c.kind.to_string(),
            })
        };
        self.checks.iter().enumerate().map(row).collect()
    }
}

/// What belongs to a tube in place, not to a tube by itself.
fn elsewhere() -> Vec<NotChecked> {
    [
        (
            "seat and fasteners",
            "how the ends are held is not part of this question; survey the brace and run check",
        ),
        ("forces together", "each strength is for its force alone; run check for axial force with bending"),
        ("fatigue", "no load history is part of this question"),
    ]
    .map(|(check, why)| NotChecked {
        check: check.to_owned(),
        part: "tube".to_owned(),
        why: why.to_owned(),
        blocks: false,
    })
    .into()
}
