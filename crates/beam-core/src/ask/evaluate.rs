//! One solved roof against its limits: every case, every check.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use crate::check::{
    CaseState, Check, Context, EdgePlaces, Finding, LoosePatch, PanelLimits, TubeStrength, Unknown,
    beside_joints, brace_findings, curvature_under, edge_findings, joint_findings, joint_forces,
    loose_findings, panel_findings, sag_findings, thermal_findings, trimmer_findings,
};
use crate::loads::{Basis, Case, CaseKind, Footing, LockedIn, Term};
use crate::plate::Free;
use crate::response::{Layout, Response, is_worse};

/// A roof solved for its basis loads in the three states of its materials.
pub(crate) struct Solved {
    pub layout: Arc<Layout>,
    pub fresh: BTreeMap<Basis, Response>,
    pub aged: BTreeMap<Basis, Response>,
    pub hot: BTreeMap<Basis, Response>,
    /// What changes, fresh, when contacts that would have to pull let go, from the pushes of all while they are closed;
    /// `None` where none would.
    pub let_go: Option<Box<LetGo>>,
}

/// See [`Solved::let_go`].
pub(crate) type LetGo = dyn Fn(&[(Vec<f64>, Free)]) -> Result<Vec<Option<Response>>, String> + Send + Sync;

/// Every finding of one solved roof, worst place of each check, part and load.
#[derive(Default)]
pub(crate) struct Findings {
    pub findings: Vec<Finding>,
    pub unknown: Vec<Unknown>,
    /// Total response of each load, by name: the worst way round by sag.
    pub totals: Vec<(String, Response)>,
    pub trouble: Vec<String>,
    /// Whether contacts let go in any case.
    pub let_go: bool,
    /// Largest force in the end joints of each trimmer, N.
    pub joints: Vec<f64>,
    /// The most that the roof is bent under anybody on a board, 1/m.
    pub curvature: f64,
}

/// Sum of basis responses.
pub(crate) fn sum(layout: &Layout, from: &BTreeMap<Basis, Response>, terms: &[Term]) -> Response {
    Response::sum(layout, terms.iter().filter_map(|(basis, factor)| from.get(basis).map(|r| (r, *factor))))
}

/// What acts for years in a case, aged, with what sprung braces lock in.
fn years(solved: &Solved, case: &Case) -> Response {
    let mut years = sum(&solved.layout, &solved.aged, &case.years);
    let locked_in = match case.locked_in {
        LockedIn::Nothing => None,
        LockedIn::Fresh => solved.fresh.get(&Basis::Sprung),
        LockedIn::Aged => solved.aged.get(&Basis::Sprung),
    };
    if let Some(locked_in) = locked_in {
        years.add(locked_in, 1.0);
    }
    years
}

/// Contacts that would have to pull less than this share of the load are left closed: walls have some hold.
const PULL_IGNORED: f64 = 0.05;

/// A member that lies loose has no hold at all; less than this share of the load is left to the numbers.
const LOOSE_PULL_IGNORED: f64 = 0.01;

/// Whether free contacts would have to pull too much with these pushes under this load.
pub(crate) fn must_let_go(layout: &Layout, pushes: &[f64], load: f64, free: Free) -> bool {
    let (walls, members) = pushes.split_at(layout.wall_contacts.min(pushes.len()));
    let pull = |pushes: &[f64]| pushes.iter().map(|p| (-p).max(0.0)).sum::<f64>();
    pull(members) > LOOSE_PULL_IGNORED * load.abs()
        || (free == Free::All && pull(walls) > PULL_IGNORED * load.abs())
}

/// Which contacts a case leaves free: where the roof is thrown up its edges are taken to be held down.
fn free(case: &Case) -> Free {
    if case.kind == CaseKind::Rebound { Free::Members } else { Free::All }
}

/// Pushes of the contacts under a sum of loads, fresh, all closed; nothing where none would have to pull.
fn pulling(solved: &Solved, case: &Case) -> Option<(Vec<f64>, Free)> {
    let mut pushes: Vec<f64> = Vec::new();
    let mut load = 0.0;
    let terms = case.years_and_locked_in().into_iter().chain(case.top.iter().copied());
    for (response, factor) in terms.filter_map(|(b, f)| solved.fresh.get(&b).map(|r| (r, f))) {
        pushes.resize(pushes.len().max(response.pushes.len()), 0.0);
        pushes.iter_mut().zip(&response.pushes).for_each(|(sum, p)| *sum += factor * p);
        load += factor * response.load;
    }
    let free = free(case);
    must_let_go(&solved.layout, &pushes, load, free).then_some((pushes, free))
}

/// Whether contacts would have to pull too much in a case.
pub(crate) fn pulls_open(solved: &Solved, case: &Case) -> bool {
    pulling(solved, case).is_some()
}

/// For each case what changes, fresh, where contacts let go; nothing where none does. Cases that differ in nothing but
/// how they are judged share it.
fn changes(solved: &Solved, cases: &[Case], trouble: &mut Vec<String>) -> BTreeMap<usize, Arc<Response>> {
    let Some(let_go) = &solved.let_go else { return BTreeMap::new() };
    let mut asked: Vec<(Vec<f64>, Free)> = Vec::new();
    let mut numbers: Vec<(usize, usize)> = Vec::new();
    for (index, case) in cases.iter().enumerate().filter(|(_, c)| c.kind != CaseKind::Test) {
        let Some(pushes) = pulling(solved, case) else { continue };
        let known = asked.iter().position(|a| *a == pushes).unwrap_or(asked.len());
        if known == asked.len() {
            asked.push(pushes);
        }
        numbers.push((index, known));
    }
    match let_go(&asked) {
        Ok(changes) => {
            let changes: Vec<Option<Arc<Response>>> = changes.into_iter().map(|c| c.map(Arc::new)).collect();
            numbers.into_iter().filter_map(|(index, n)| Some((index, changes[n].clone()?))).collect()
        }
        Err(why) => {
            trouble.push(why);
            BTreeMap::new()
        }
    }
}

/// What changes in one case where contacts let go; nothing where none does.
pub(crate) fn contacts_let_go(solved: &Solved, case: &Case) -> Option<Response> {
    changes(solved, std::slice::from_ref(case), &mut Vec::new()).remove(&0).map(Arc::unwrap_or_clone)
}

/// Evaluates every case.
pub(crate) fn evaluate(
    context: &Context<'_>,
    solved: &Solved,
    cases: &[Case],
    tubes: &[Result<TubeStrength, String>],
    framed: bool,
) -> Findings {
    let mut out = Findings::default();
    let limits = PanelLimits::new(context, &solved.layout.states, framed);
    let gaps = beside_joints(context, &solved.layout);
    let edges = EdgePlaces::new(context, &solved.layout);
    let changes = changes(solved, cases, &mut out.trouble);
    out.let_go = !changes.is_empty();
    let mut lasting: Vec<(&Case, Response, Response)> = Vec::new();
    let alike = |a: &Case, b: &Case| a.years == b.years && a.locked_in == b.locked_in;
    // Largest sag of each load, by name, and the case it came from.
    let mut deepest: Vec<(&str, f64, usize)> = Vec::new();
    let top_of = |index: usize, case: &Case| -> Cow<'_, Response> {
        let solved_for = if case.hot { &solved.hot } else { &solved.fresh };
        let change = changes.get(&index);
        // A person alone, nothing let go: the response is there already.
        if let ([(basis, 1.0)], None) = (&case.top[..], change)
            && let Some(alone) = solved_for.get(basis)
        {
            return Cow::Borrowed(alone);
        }
        let mut top = sum(&solved.layout, solved_for, &case.top);
        if let Some(change) = change {
            top.add(change, 1.0);
        }
        Cow::Owned(top)
    };
    for (index, case) in cases.iter().enumerate() {
        let at = lasting.iter().position(|(other, ..)| alike(other, case)).unwrap_or_else(|| {
            let fresh = sum(&solved.layout, &solved.fresh, &case.years_and_locked_in());
            lasting.push((case, years(solved, case), fresh));
            lasting.len() - 1
        });
        let (_, aged, fresh) = &lasting[at];
        let top = top_of(index, case);
        let under = if case.kind == CaseKind::Service { aged } else { fresh };
        let sag = under.sag.iter().zip(&top.sag).map(|(a, b)| a + b).fold(f64::NEG_INFINITY, f64::max);
        match deepest.iter_mut().find(|(name, ..)| *name == case.name) {
            Some((_, kept, _)) if !is_worse(sag, *kept) => {}
            Some(entry) => (entry.1, entry.2) = (sag, index),
            None => deepest.push((&case.name, sag, index)),
        }
        if case.kind == CaseKind::Test {
            continue;
        }
        if case.footing == Footing::OnABoard {
            for board in &case.feet {
                let sags = solved.layout.sag.iter().copied().zip(top.sag.iter().copied());
                match curvature_under(sags, board) {
                    Ok(bent) => out.curvature = out.curvature.max(bent),
                    Err(why) if !out.trouble.contains(&why) => out.trouble.push(why),
                    Err(_) => {}
                }
            }
        }
        let state = CaseState::new(case, aged, &top);
        let (found, unknown) = panel_findings(context, &limits, &solved.layout, &state);
        let joints = joint_findings(context, &limits, &solved.layout, &gaps, &state);
        let sag = sag_findings(context, &solved.layout, &state);
        let braces = brace_findings(context, &solved.layout, &state, tubes);
        let edges = edge_findings(context, &solved.layout, &edges, &state);
        let (strained, lacking) = thermal_findings(context, &limits, &solved.layout, &state, tubes);
        let trimmers = trimmer_findings(context, &solved.layout, &state);
        out.joints.resize(context.roof.trimmers.len(), 0.0);
        let ends = joint_forces(context, &solved.layout, &state);
        out.joints.iter_mut().zip(ends).for_each(|(most, force)| *most = most.max(force));
        let of_braces = braces.into_iter().chain(trimmers).chain(strained);
        let all = found.into_iter().chain(joints).chain(sag).chain(of_braces).chain(edges);
        all.for_each(|f| keep_worst(&mut out.findings, Finding { person: case.person, ..f }));
        for what in unknown.into_iter().chain(lacking) {
            if !out.unknown.contains(&what) {
                out.unknown.push(what);
            }
        }
    }
    for (name, _, index) in deepest {
        let case = &cases[index];
        let mut total = top_of(index, case).into_owned();
        if let Some((_, aged, fresh)) = lasting.iter().find(|(other, ..)| alike(other, case)) {
            total.add(if case.kind == CaseKind::Service { aged } else { fresh }, 1.0);
        }
        out.totals.push((name.to_owned(), total));
    }
    out
}

/// Keeps the worst finding of each check, part and load. A ratio that is no number is worse than any.
pub(crate) fn keep_worst(kept: &mut Vec<Finding>, finding: Finding) {
    let same = |k: &Finding| {
        k.check == finding.check
            && k.part == finding.part
            && k.load == finding.load
            && k.footing == finding.footing
    };
    match kept.iter_mut().find(|k| same(k)) {
        Some(k) if !is_worse(finding.ratio, k.ratio) => {}
        Some(k) => *k = finding,
        None => kept.push(finding),
    }
}

/// Worst ratio of the glue lines, if any was judged.
pub(crate) fn glue_ratio(findings: &[Finding]) -> Option<f64> {
    findings.iter().filter(|f| f.check == Check::GlueLine).map(|f| f.ratio).reduce(f64::max)
}

/// The same with what heat and cold do at the ends of the glue.
pub(crate) fn glue_and_ends_ratio(findings: &[Finding]) -> Option<f64> {
    let glued = findings.iter().filter(|f| matches!(f.check, Check::GlueLine | Check::GlueEnds));
    glued.map(|f| f.ratio).reduce(f64::max)
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
        let years = years(solved, case);
        let top = sum(&solved.layout, if case.hot { &solved.hot } else { &solved.fresh }, &case.top);
        let state = CaseState::new(case, &years, &top);
        let found = loose_findings(context, patches, &solved.layout, &state);
        found.into_iter().for_each(|f| keep_worst(&mut out.findings, f));
    }
}
