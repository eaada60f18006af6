//! One solved roof against its limits: every case, every check.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::probe::probe;
use crate::check::{
    CaseState, Check, Context, Finding, LoosePatch, PanelLimits, TubeStrength, Unknown, brace_findings,
    loose_findings, panel_findings, sag_findings,
};
use crate::loads::{Basis, Case, CaseKind, Term};
use crate::response::{Layout, Response};

/// A roof solved for its basis loads in the three states of its materials.
pub(crate) struct Solved {
    pub layout: Arc<Layout>,
    pub fresh: BTreeMap<Basis, Response>,
    pub aged: BTreeMap<Basis, Response>,
    pub hot: BTreeMap<Basis, Response>,
    /// Response to the sum of these basis loads, fresh, with supports that would have to pull letting go.
    pub let_go: Option<Box<LetGo>>,
}

/// See [`Solved::let_go`].
pub(crate) type LetGo = dyn Fn(&[Term]) -> Result<Option<Response>, String> + Send + Sync;

/// Every finding of one solved roof, worst place of each check, part and load.
#[derive(Default)]
pub(crate) struct Findings {
    pub findings: Vec<Finding>,
    pub unknown: Vec<Unknown>,
    /// Total response of each load, by name: the worst way round by sag.
    pub totals: Vec<(String, Response)>,
    pub trouble: Vec<String>,
    /// Ratio of the finding that was to be read again, at its own place.
    pub probed: Option<f64>,
}

fn sum(layout: &Layout, from: &BTreeMap<Basis, Response>, terms: &[Term]) -> Response {
    Response::sum(layout, terms.iter().filter_map(|(basis, factor)| from.get(basis).map(|r| (r, *factor))))
}

/// Contacts that would have to pull less than this share of the load are left closed: walls have some hold.
const PULL_IGNORED: f64 = 0.02;

/// Whether contacts that push only would have to pull.
fn pulls(closed: &Response) -> bool {
    let pull: f64 = closed.pushes.iter().map(|p| (-p).max(0.0)).sum();
    pull > PULL_IGNORED * closed.load.abs()
}

/// Evaluates every case.
pub(crate) fn evaluate(
    context: &Context<'_>,
    solved: &Solved,
    cases: &[Case],
    tubes: &[Result<TubeStrength, String>],
    framed: bool,
    like: Option<&Finding>,
) -> Findings {
    let mut out = Findings::default();
    let limits = PanelLimits::new(context, &solved.layout.states, framed);
    let mut lasting: Vec<(Vec<Term>, Response)> = Vec::new();
    for case in cases {
        let at = lasting.iter().position(|(terms, _)| *terms == case.years).unwrap_or_else(|| {
            lasting.push((case.years.clone(), sum(&solved.layout, &solved.aged, &case.years)));
            lasting.len() - 1
        });
        let mut top = sum(&solved.layout, if case.hot { &solved.hot } else { &solved.fresh }, &case.top);
        let all: Vec<Term> = case.years.iter().chain(&case.top).copied().collect();
        let mut closed = sum(&solved.layout, &solved.fresh, &case.years);
        closed.add(&top, 1.0);
        if let (Some(let_go), true) =
            (&solved.let_go, !matches!(case.kind, CaseKind::Test | CaseKind::Rebound) && pulls(&closed))
        {
            match let_go(&all) {
                Ok(Some(settled)) => {
                    top.add(&settled, 1.0);
                    top.add(&closed, -1.0);
                }
                Ok(None) => {}
                Err(why) if !out.trouble.contains(&why) => out.trouble.push(why),
                Err(_) => {}
            }
        }
        let total = if case.kind == CaseKind::Service {
            lasting[at].1.clone()
        } else {
            let mut total = sum(&solved.layout, &solved.fresh, &case.years);
            total.add(&top, 1.0);
            total
        };
        match out.totals.iter_mut().find(|(name, _)| *name == case.name) {
            Some((_, kept)) if kept.largest_sag().1 >= total.largest_sag().1 => {}
            Some((_, kept)) => *kept = total,
            None => out.totals.push((case.name.clone(), total)),
        }
        if case.kind == CaseKind::Test {
            continue;
        }
        let state = CaseState {
            name: &case.name,
            kind: case.kind,
            years: &lasting[at].1,
            top: &top,
            lasting: case.lasting,
            hot: case.hot,
            dynamic: case.dynamic,
            footing: case.footing,
            feet: &case.feet,
        };
        if let Some(like) = like.filter(|l| l.load == case.name && l.footing == case.footing) {
            let ratio = probe(context, &limits, &solved.layout, &state, tubes, like);
            out.probed = match (out.probed, ratio) {
                (Some(a), Some(b)) => Some(a.max(b)),
                (a, b) => a.or(b),
            };
        }
        let (found, unknown) = panel_findings(context, &limits, &solved.layout, &state);
        let sag = sag_findings(context, &solved.layout, &state);
        let braces = brace_findings(context, &solved.layout, &state, tubes);
        let all = found.into_iter().chain(sag).chain(braces);
        all.for_each(|f| keep_worst(&mut out.findings, Finding { person: case.person, ..f }));
        for what in unknown {
            if !out.unknown.contains(&what) {
                out.unknown.push(what);
            }
        }
    }
    out
}

/// Keeps the worst finding of each check, part and load.
pub(crate) fn keep_worst(kept: &mut Vec<Finding>, finding: Finding) {
    let same = |k: &Finding| {
        k.check == finding.check
            && k.part == finding.part
            && k.load == finding.load
            && k.footing == finding.footing
    };
    match kept.iter_mut().find(|k| same(k)) {
        Some(k) if k.ratio >= finding.ratio => {}
        Some(k) => *k = finding,
        None => kept.push(finding),
    }
}

/// Worst ratio of the glue lines, if any was judged.
pub(crate) fn glue_ratio(findings: &[Finding]) -> Option<f64> {
    findings.iter().filter(|f| f.check == Check::GlueLine).map(|f| f.ratio).reduce(f64::max)
}

/// Loose skins, by what they would carry if they were held: `solved` is the roof with every face bonded.
pub(crate) fn evaluate_loose(
    context: &Context<'_>,
    solved: &Solved,
    cases: &[Case],
    patches: &[LoosePatch],
    out: &mut Findings,
) {
    for case in cases.iter().filter(|c| c.kind != CaseKind::Test) {
        let years = sum(&solved.layout, &solved.aged, &case.years);
        let top = sum(&solved.layout, if case.hot { &solved.hot } else { &solved.fresh }, &case.top);
        let state = CaseState {
            name: &case.name,
            kind: case.kind,
            years: &years,
            top: &top,
            lasting: case.lasting,
            hot: case.hot,
            dynamic: case.dynamic,
            footing: case.footing,
            feet: &case.feet,
        };
        let found = loose_findings(context, patches, &solved.layout, &state);
        found.into_iter().for_each(|f| keep_worst(&mut out.findings, f));
    }
}
