//! What a shop's bender takes.

use crate::check::{BasisWords, Finite, NotFinite};
use crate::quantity::{Family, radius};
use crate::strength::BasisKind;
use section_tables::{Die, Tables};

use super::LimitRow;
use super::ReadTube;

/// Dies and tubes that differ by less fit each other, mm.
const FITS: f64 = 0.5;

/// What the shop's dies say of a bend.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Bender<'a> {
    /// The shop lists no dies: nothing is known of its bender.
    NotListed,
    /// None of its dies takes this tube.
    NoDies,
    /// These dies take it, the tightest of those that do, m.
    Takes { dies: &'a Die, least: f64, kept: bool },
}

impl<'a> Bender<'a> {
    /// What the dies of the tables say of a tube that is bent to a radius of `tightest`, m, under load.
    pub(super) fn of(tables: &'a Tables, tube: &ReadTube, tightest: f64) -> Self {
        let fits = |die: &&Die| {
            (die.width_mm - 1e3 * tube.width).abs() <= FITS && (die.depth_mm - 1e3 * tube.depth).abs() <= FITS
        };
        let fitting = tables.dies.iter().filter(fits);
        match fitting.min_by(|a, b| a.least_radius_mm.total_cmp(&b.least_radius_mm)) {
            Some(dies) => {
                let least = dies.least_radius_mm / 1e3;
                Bender::Takes { dies, least, kept: tightest >= least }
            }
            None if tables.dies.is_empty() => Bender::NotListed,
            None => Bender::NoDies,
        }
    }

    /// Whether it keeps the tube from being bent.
    pub(super) fn refuses(&self) -> bool {
        matches!(self, Bender::NoDies | Bender::Takes { kept: false, .. })
    }

    /// Why it does, to a bender.
    pub(super) fn why(&self, family: Family) -> Option<String> {
        match self {
            Bender::NoDies => Some("none of the shop's dies takes this tube".to_owned()),
            Bender::Takes { dies, least, kept: false } => Some(format!(
                "the shop's dies \"{}\" bend it to {} at the tightest",
                dies.id,
                radius(*least, family)
            )),
            Bender::NotListed | Bender::Takes { .. } => None,
        }
    }

    /// As a row beside the bend rules.
    ///
    /// # Errors
    /// A number that is none.
    pub(super) fn row(&self) -> Result<Option<LimitRow>, NotFinite> {
        let Bender::Takes { dies, least, kept } = self else { return Ok(None) };
        Ok(Some(LimitRow {
            rule: format!("the shop's dies \"{}\"", dies.id),
            least_radius: Finite::new(*least, "least radius")?,
            kept: *kept,
            basis: BasisWords { source: dies.source.clone(), kind: BasisKind::from(dies.kind).to_string() },
        }))
    }
}
