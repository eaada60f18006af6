//! The local foot, once for each make-up of the panel that somebody may stand on.

use rayon::prelude::*;

use super::super::places::edge_strip;
use super::raster::Stance;
use crate::check::{Check, Context, FootPlace, Untried, counts, foot_findings, void_near};
use crate::loads::Footing;
use crate::model::{PanelState, Rect};
use crate::survey::Way;

/// Slices across the span that stand for a tapered core.
const SLICES: f64 = 16.0;

/// What a foot does on one make-up: the worst check that counts, and what could not be tried.
#[derive(Debug, Clone)]
pub(crate) struct Local {
    pub worst: Option<(Check, f64)>,
    pub untried: Vec<Untried>,
}

/// Make-ups met so far.
#[derive(Debug, Default)]
pub(crate) struct MakeUps {
    known: Vec<(PanelState, f64, f64, f64, Option<Rect>)>,
}

impl MakeUps {
    /// Number of the make-up at a place.
    pub(crate) fn at(&mut self, context: &Context<'_>, x: f64, y: f64) -> usize {
        let roof = context.roof;
        let slice =
            if roof.is_tapered() { (x / roof.span * SLICES).floor().clamp(0.0, SLICES - 1.0) } else { 0.0 };
        let middle = if roof.is_tapered() { (slice + 0.5) / SLICES * roof.span } else { x };
        let void = void_near(roof, x, y, 0.0);
        self.number((roof.state_at(x, y), slice, middle, y, void))
    }

    /// Number of the void within whose edge strip a place lies.
    pub(crate) fn void_by(&mut self, context: &Context<'_>, x: f64, y: f64) -> Option<usize> {
        let roof = context.roof;
        let rect = void_near(roof, x, y, edge_strip(roof))?;
        let (x, y) = rect.centre();
        Some(self.number((roof.state_at(x, y), f64::NEG_INFINITY, x, y, Some(rect))))
    }

    fn number(&mut self, one: (PanelState, f64, f64, f64, Option<Rect>)) -> usize {
        let like =
            |k: &(PanelState, f64, f64, f64, Option<Rect>)| k.0 == one.0 && k.1 == one.1 && k.4 == one.4;
        self.known.iter().position(like).unwrap_or_else(|| {
            self.known.push(one);
            self.known.len() - 1
        })
    }

    /// A foot on each of them, and the board under it, which the roof bends by `curvature` (1/m).
    pub(crate) fn try_feet(&self, context: &Context<'_>, stance: &Stance<'_>, curvature: f64) -> Vec<Local> {
        let way = if stance.footing == Footing::Bare { Way::Bare } else { Way::OnABoard };
        self.known
            .par_iter()
            .map(|(state, _, x, y, _)| {
                let place = FootPlace { state, x: *x, y: *y, curvature };
                let asked = |check, footing| counts(check, footing, way);
                let (found, untried) = foot_findings(context, stance.survey, &place, stance.patch, asked);
                let worst = found
                    .iter()
                    .map(|f| (f.check, if f.ratio.is_nan() { f64::INFINITY } else { f.ratio }))
                    .max_by(|a, b| a.1.total_cmp(&b.1));
                Local { worst, untried }
            })
            .collect()
    }
}
