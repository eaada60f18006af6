//! Load cases: what stays on for years, and what comes on top.
//!
//! Lasting loads are solved with aged moduli, what comes on top with fresh ones, and the demands add: a multiplier
//! on the sag would leave brace, seat and glue at their day-one values.

use super::basis::{EDGES, heavy_ends, loads_of};
use super::{Basis, BasisLoad, Factors};
use crate::model::Rect;
use crate::survey::{HeavyEnd, LoadKind, Survey, Way};

/// How long the upper part of a case acts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Lasting {
    /// Seconds to hours: people, road.
    Short,
    /// Days to weeks: snow.
    Medium,
}

/// How a person stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Footing {
    /// Nobody stands in it.
    NotAFoot,
    /// Without a board.
    Bare,
    /// On the board.
    OnABoard,
}

impl Footing {
    /// How people stand who walk this way; `None` where nobody does.
    pub(crate) fn of(way: Way) -> Option<Footing> {
        match way {
            Way::Nobody => None,
            Way::Bare => Some(Footing::Bare),
            Way::OnABoard => Some(Footing::OnABoard),
        }
    }
}

/// Factor on one basis load.
pub(crate) type Term = (Basis, f64);

/// What a case is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum CaseKind {
    /// On from the first day, moduli fresh.
    FirstDay,
    /// On for years.
    Service,
    /// On the road.
    Road,
    /// The body drops away: fixed mass pulls upward.
    Rebound,
    /// A person, or several.
    Person,
    /// Snow, or another standing load that comes and goes.
    Standing,
    /// Test weights: the difference they make.
    Test,
}

/// What springing braces in still locks into the roof: it relaxes, nobody knows how far.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum LockedIn {
    /// Nothing: relaxed, or no brace is sprung in.
    Nothing,
    /// All of it, held by a roof that has not crept yet: the tube is bent most.
    Fresh,
    /// All of it, held by a roof that has crept for years: the roof is flattened most.
    Aged,
}

/// A load case.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Case {
    /// Name of the contract.
    pub name: String,
    pub kind: CaseKind,
    /// Acts for years: solved with aged moduli.
    pub years: Vec<Term>,
    /// Comes on top: solved with fresh or hot moduli.
    pub top: Vec<Term>,
    pub lasting: Lasting,
    /// Solved hot.
    pub hot: bool,
    /// Dynamic factor on the upper part in strength checks.
    pub dynamic: f64,
    pub footing: Footing,
    /// Which of the people under study.
    pub person: Option<usize>,
    /// Where somebody stands.
    pub feet: Vec<Rect>,
    /// What sprung braces lock in beside the loads.
    pub locked_in: LockedIn,
}

impl Case {
    /// What acts for years, with what is locked in as one more load.
    pub(crate) fn years_and_locked_in(&self) -> Vec<Term> {
        let mut terms = self.years.clone();
        if self.locked_in != LockedIn::Nothing {
            terms.push((Basis::Sprung, 1.0));
        }
        terms
    }
}

/// Every case once more with what sprung braces lock in, held fresh and held aged. Test weights are differences, which
/// it does not touch.
pub(crate) fn with_locked_in(cases: Vec<Case>) -> Vec<Case> {
    let states = |case: Case| {
        let states: &[LockedIn] = match case.kind {
            CaseKind::Test => &[LockedIn::Nothing],
            _ => &[LockedIn::Nothing, LockedIn::Fresh, LockedIn::Aged],
        };
        states.iter().map(move |&locked_in| Case { locked_in, ..case.clone() })
    };
    cases.into_iter().flat_map(states).collect()
}

fn fixed(survey: &Survey, unit: Option<Basis>) -> Vec<Term> {
    let mut terms = vec![(Basis::SelfWeight, 1.0)];
    terms.extend(unit.map(|u| (u, 1.0)));
    terms.extend(loads_of(survey, LoadKind::Fixed).into_iter().map(|i| (Basis::Load(i), 1.0)));
    terms
}

/// The unit's ways round, or nothing once.
fn ways(survey: &Survey) -> Vec<Option<Basis>> {
    match &survey.unit {
        Some(unit) => heavy_ends(unit).into_iter().map(|e| Some(Basis::Unit(e))).collect(),
        None => vec![None],
    }
}

/// Every case without a person under study.
pub(crate) fn permanent_cases(survey: &Survey, factors: &Factors) -> Vec<Case> {
    let mut cases = Vec::new();
    let (first, service, road) = if survey.unit.is_some() {
        ("unit parked, first day", "unit parked, service life", "unit on the road")
    } else {
        ("own weight, first day", "own weight, service life", "own weight on the road")
    };
    let case = |name: &str, kind| Case {
        name: name.to_owned(),
        kind,
        years: Vec::new(),
        top: Vec::new(),
        lasting: Lasting::Short,
        hot: false,
        dynamic: 1.0,
        footing: Footing::NotAFoot,
        person: None,
        feet: Vec::new(),
        locked_in: LockedIn::Nothing,
    };
    for (nth, way) in ways(survey).into_iter().enumerate() {
        let fixed = fixed(survey, way);
        cases.push(Case { top: fixed.clone(), ..case(first, CaseKind::FirstDay) });
        cases.push(Case { years: fixed.clone(), ..case(service, CaseKind::Service) });
        let shaken: Vec<Term> = fixed.iter().map(|(b, f)| (*b, f * (factors.road - 1.0))).collect();
        cases.push(Case { years: fixed.clone(), top: shaken.clone(), ..case(road, CaseKind::Road) });
        cases.push(Case { years: fixed.clone(), top: shaken, hot: true, ..case("hot", CaseKind::Road) });
        let lifted: Vec<Term> = fixed.iter().map(|(b, f)| (*b, -f * (1.0 + factors.rebound))).collect();
        let rebound = if survey.unit.is_some() { "unit rebound" } else { "own weight rebound" };
        cases.push(Case { years: fixed.clone(), top: lifted, ..case(rebound, CaseKind::Rebound) });
        // Tipping is the unit's own couple: one way round shows it.
        if survey.unit.is_some() && nth == 0 {
            for (name, side) in
                [("braking", HeavyEnd::Front), ("sideways", HeavyEnd::Left), ("sideways", HeavyEnd::Right)]
            {
                cases.push(Case {
                    years: fixed.clone(),
                    top: vec![(Basis::Tipping(side), 1.0)],
                    ..case(name, CaseKind::Road)
                });
            }
        }
        if factors.snow(survey) > 0.0 {
            cases.push(Case {
                years: fixed.clone(),
                top: vec![(Basis::Snow, 1.0)],
                lasting: Lasting::Medium,
                ..case("snow", CaseKind::Standing)
            });
        }
        for i in loads_of(survey, LoadKind::Snow) {
            cases.push(Case {
                years: fixed.clone(),
                top: vec![(Basis::Load(i), 1.0)],
                lasting: Lasting::Medium,
                ..case(&survey.loads[i].name, CaseKind::Standing)
            });
        }
        for i in loads_of(survey, LoadKind::Person) {
            cases.push(Case {
                years: fixed.clone(),
                top: vec![(Basis::Load(i), 1.0)],
                dynamic: factors.walking,
                ..case(&survey.loads[i].name, CaseKind::Person)
            });
        }
    }
    let bare = fixed(survey, None);
    if survey.unit.is_some() {
        cases.extend(EDGES.map(|side| Case {
            years: bare.clone(),
            top: vec![(Basis::Fitting(side), 1.0)],
            dynamic: factors.walking,
            ..case("fitting the unit", CaseKind::Standing)
        }));
    }
    if survey.conditions.wind.is_some_and(|w| w.value > 0.0) {
        // The unit's weight would help, and may be off.
        cases.push(Case {
            years: bare.clone(),
            top: vec![(Basis::Wind, 1.0)],
            ..case("wind", CaseKind::Rebound)
        });
    }
    cases.push(Case { top: vec![(Basis::SelfWeight, 1.0)], ..case("self-weight", CaseKind::Test) });
    if survey.unit.is_some() {
        cases.push(Case { years: bare, ..case("self-weight, service life", CaseKind::Service) });
    }
    let test = loads_of(survey, LoadKind::Test);
    if !test.is_empty() {
        cases.push(Case {
            top: test.into_iter().map(|i| (Basis::Load(i), 1.0)).collect(),
            ..case("test weight", CaseKind::Test)
        });
    }
    cases
}

/// The person of the survey, at a place under study, on top of everything fixed, cold and hot. The unit sits
/// one way round.
pub(crate) fn person_cases(
    survey: &Survey,
    factors: &Factors,
    place: usize,
    footing: Footing,
    feet: &BasisLoad,
) -> Vec<Case> {
    let feet: Vec<Rect> = match feet {
        BasisLoad::Patches(patches) => patches.iter().map(|(rect, _)| *rect).collect(),
        BasisLoad::OwnWeight | BasisLoad::Pressure(_) | BasisLoad::SprungIn => Vec::new(),
    };
    let name = if survey.person.count > 1 { "two persons" } else { "person" };
    let mut cases = Vec::new();
    // One way round: a person's own share does not change with it, and the unit's is judged without a person too.
    for way in ways(survey).into_iter().take(1) {
        for hot in [false, true] {
            cases.push(Case {
                name: if hot { "hot".to_owned() } else { name.to_owned() },
                kind: CaseKind::Person,
                years: fixed(survey, way),
                top: vec![(Basis::Person(place), 1.0)],
                lasting: Lasting::Short,
                hot,
                dynamic: factors.walking,
                footing,
                person: Some(place),
                feet: feet.clone(),
                locked_in: LockedIn::Nothing,
            });
        }
    }
    cases
}
