//! Ends of braces: bearing on the ledger and of wood itself, webs over the bearing, screws against lifting and sliding.

use super::context::{CaseState, Context};
use super::finding::{Check, Finding, Numbers};
use super::tube::{TubeStrength, factors};
use crate::loads::CaseKind;
use crate::response::Layout;
use crate::strength::Basis;

/// One end of a brace: what rests on it for years and what comes on top, N up on the brace.
struct End<'a, 'b> {
    context: &'a Context<'b>,
    case: &'a CaseState<'b>,
    brace: usize,
    x: f64,
    years: f64,
    top: f64,
}

/// Findings of all ends in one case.
pub(super) fn end_findings(
    context: &Context<'_>,
    layout: &Layout,
    case: &CaseState<'_>,
    strengths: &[Result<TubeStrength, String>],
) -> Vec<Finding> {
    let mut out = Vec::new();
    for (i, (years, top)) in case.years.ends.iter().zip(&case.top.ends).enumerate() {
        let brace = layout.ends[i];
        let ideal = &context.roof.braces[brace];
        for (end, x) in [(0, ideal.x0), (1, ideal.x1)] {
            let end = End { context, case, brace, x, years: years[end], top: case.dynamic * top[end] };
            out.extend(end.bearing());
            out.extend(end.own_bearing());
            out.extend(strengths[brace].as_ref().ok().and_then(|s| end.crippling(s)));
            out.extend(end.screws());
        }
    }
    out
}

impl End<'_, '_> {
    fn finding(
        &self,
        check: Check,
        [demand, limit, ratio]: [f64; 3],
        si: &'static str,
        basis: &Basis,
    ) -> Finding {
        let brace = &self.context.roof.braces[self.brace];
        self.case.finding(
            check,
            format!("brace {}", brace.name),
            (self.x, brace.y),
            Numbers { demand, limit, si, ratio: ratio * self.context.model_factor },
            basis.clone(),
        )
    }

    /// Wood pressed across its grain.
    fn bearing(&self) -> Option<Finding> {
        let brace = &self.context.roof.braces[self.brace];
        let (seat, bearing) = (brace.seat.as_ref()?, self.context.ledger.as_ref()?);
        let area = seat.bearing_length.value * brace.width;
        let (lasting, short) = (self.years.max(0.0) / area, self.top.max(0.0) / area);
        let used = lasting / bearing.lasting + short / bearing.short;
        let limit = if used > 0.0 { (lasting + short) / used } else { bearing.short };
        Some(self.finding(Check::SeatBearing, [lasting + short, limit, used], "Pa", &bearing.basis))
    }

    /// A wood member's own end, pressed across its grain.
    fn own_bearing(&self) -> Option<Finding> {
        let ([years, brief], basis) = self.context.rafters[self.brace].as_ref()?.seat(self.case.lasting)?;
        let (lasting, short) = (self.years.max(0.0), self.top.max(0.0));
        let used = lasting / years + short / brief;
        // One number beside another: the reaction that alone would use as much for a moment.
        Some(self.finding(Check::SeatBearing, [used * brief, brief, used], "N", basis))
    }

    /// Webs that the ledger presses up into the tube.
    fn crippling(&self, strength: &TubeStrength) -> Option<Finding> {
        let carries = strength.crippling.as_ref()?;
        let limit = carries.value.value;
        let demand = factors(&self.context.factors.aluminium, self.case.kind, 1.0)
            .into_iter()
            .map(|[lasting, passing]| lasting * self.years + passing * self.top)
            .fold(0.0, f64::max);
        let source = format!("{}, wall less 10 % (practice)", carries.basis.source).into();
        let basis = Basis { source, kind: carries.basis.kind };
        Some(self.finding(Check::WebCrippling, [demand, limit, demand / limit], "N", &basis))
    }

    /// Screws: what lifts, and in braking or a bend the weight that rests there pushing sideways; friction is not
    /// counted.
    fn screws(&self) -> Option<Finding> {
        let limits = self.context.screws[self.brace].as_ref()?;
        let brace = &self.context.roof.braces[self.brace];
        let lift = (-(self.years + self.top)).max(0.0);
        let slide = if matches!(self.case.kind, CaseKind::Road | CaseKind::Rebound) {
            let own = brace.weight * (brace.x1 - brace.x0) / 2.0;
            let share = self.context.factors.braking.max(self.context.factors.sideways);
            share * self.years.abs().max(own)
        } else {
            0.0
        };
        let used = lift / limits.pull + slide / limits.push;
        // One number beside another: the pull that alone would use as much.
        Some(self.finding(Check::SeatScrews, [used * limits.pull, limits.pull, used], "N", &limits.basis))
    }
}
