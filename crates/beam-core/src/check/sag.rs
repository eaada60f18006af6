//! Sag: short standing loads, lasting loads with creep, and water standing on a flat roof.

use super::context::{CaseState, Context, SagLimits};
use super::finding::{Check, Finding, Numbers};
use crate::loads::CaseKind;
use crate::response::Layout;
use crate::strength::Basis;
use crate::survey::{SagLimit, Survey};

/// Limits of the survey, m. A crowned roof may lose half its rise at most, or water stands on it.
pub(crate) fn limits(survey: &Survey) -> SagLimits {
    let span = survey.roof.span.value;
    let of = |limit: SagLimit| match limit {
        SagLimit::SpanOver(n) => span / n,
        SagLimit::Length(l) => l.value,
    };
    let rise = survey.roof.rise.value;
    let lasting = of(survey.limits.sag_lasting);
    SagLimits {
        short: of(survey.limits.sag),
        lasting: if rise > 0.0 { lasting.min(rise / 2.0) } else { lasting },
    }
}

/// Findings of sag in one case. Road shock and test weights have no limit on sag; standing loads are judged by the
/// sag they add, without a dynamic factor.
pub(crate) fn sag_findings(context: &Context<'_>, layout: &Layout, case: &CaseState<'_>) -> Vec<Finding> {
    let (check, response, limit, basis) = match case.kind {
        CaseKind::Person | CaseKind::Standing => (
            Check::Sag,
            case.top,
            context.sag.short,
            Basis::practice(
                "span/180 for live load on a roof, as IBC Table 1604.3 has it for buildings; or the survey's",
            ),
        ),
        CaseKind::Service => (
            Check::SagLasting,
            case.years,
            context.sag.lasting,
            Basis::memory(
                "span/100 with creep (EN 14509, from memory), half the rise on a crowned roof (practice)",
            ),
        ),
        CaseKind::FirstDay | CaseKind::Road | CaseKind::Rebound | CaseKind::Test => return Vec::new(),
    };
    let (index, sag) = response.largest_sag();
    let Some(&(x, y)) = layout.sag.get(index) else { return Vec::new() };
    vec![case.finding(
        check,
        "panel".to_owned(),
        (x, y),
        Numbers { demand: sag, limit, si: "m", ratio: sag * context.model_factor / limit },
        basis,
    )]
}
