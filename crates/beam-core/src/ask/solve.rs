//! Solving a roof for all its basis loads: the two-way roof, and the strip beside it.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::evaluate::Solved;
use super::places::PersonPlace;
use crate::check::Materials;
use crate::loads::{Basis, BasisLoad, Factors, basis_loads, person_basis, unit_rect};
use crate::model::{IdealRoof, Time};
use crate::plate::{PlateRoof, PlateShape};
use crate::strip::{StripPlace, cut_strip, effective_width};
use crate::survey::{LoadKind, Survey};

/// Basis loads that stay on, and those with each person place.
pub(crate) struct BasisSet {
    /// What stays on for years.
    pub lasting: Vec<(Basis, BasisLoad)>,
    /// Everything.
    pub all: Vec<(Basis, BasisLoad)>,
}

/// The basis loads of a survey with people at the places given.
pub(crate) fn basis_set(survey: &Survey, factors: &Factors, people: &[PersonPlace]) -> BasisSet {
    let fixed = basis_loads(survey, factors);
    let lasting = fixed
        .iter()
        .filter(|(basis, _)| match basis {
            Basis::SelfWeight | Basis::Unit(_) => true,
            Basis::Load(i) => survey.loads[*i].kind == LoadKind::Fixed,
            Basis::Snow | Basis::Person(_) => false,
        })
        .cloned()
        .collect();
    let mut all = fixed;
    all.extend(
        people.iter().enumerate().map(|(i, p)| (Basis::Person(i), person_basis(survey, factors, p.patch, p.x, p.y))),
    );
    BasisSet { lasting, all }
}

/// A two-way roof solved in its three states.
///
/// # Errors
/// In words.
pub(crate) fn solve_plate(
    roof: &IdealRoof,
    shape: &Arc<PlateShape>,
    materials: Materials,
    set: &BasisSet,
) -> Result<(Solved, usize), String> {
    let fresh_roof = PlateRoof::new(roof, shape, materials, Time::Fresh, None)?;
    let responses = |plate: &PlateRoof, loads: &[(Basis, BasisLoad)]| -> Result<BTreeMap<_, _>, String> {
        Ok(loads.iter().map(|(b, _)| *b).zip(plate.solve(loads)?).collect())
    };
    let fresh = responses(&fresh_roof, &set.all)?;
    let aged = responses(&PlateRoof::new(roof, shape, materials, Time::Aged, Some(&fresh_roof))?, &set.lasting)?;
    let shaken: Vec<(Basis, BasisLoad)> = set
        .all
        .iter()
        .filter(|(b, _)| matches!(b, Basis::Person(_)) || set.lasting.iter().any(|(l, _)| l == b))
        .cloned()
        .collect();
    let hot = responses(&PlateRoof::new(roof, shape, materials, Time::Hot, Some(&fresh_roof))?, &shaken)?;
    let unknowns = fresh_roof.unknowns();
    let layout = fresh_roof.layout.clone();
    let vectors: BTreeMap<Basis, _> =
        set.all.iter().map(|(b, _)| *b).zip(fresh_roof.vectors(&set.all)?).collect();
    let let_go = (!roof.hold_down).then(|| {
        let closure: Box<super::evaluate::LetGo> = Box::new(move |terms| fresh_roof.let_go(&vectors, terms));
        closure
    });
    Ok((Solved { layout, fresh, aged, hot, let_go }, unknowns))
}

/// The strip under the unit, or under the middle of the roof where there is none.
pub(crate) fn pencil_place(survey: &Survey, roof: &IdealRoof) -> StripPlace {
    let (x, y, along) = match survey.unit.as_ref().and_then(|u| unit_rect(u, survey)) {
        Some(r) => (r.centre().0, r.centre().1, r.y1 - r.y0),
        None => (roof.span / 2.0, roof.length / 2.0, 0.0),
    };
    StripPlace::centred(y, effective_width(along, x, roof.span), roof.length)
}

/// The strip solved in its three states.
///
/// # Errors
/// In words.
pub(crate) fn solve_strip(
    roof: &IdealRoof,
    place: StripPlace,
    materials: Materials,
    set: &BasisSet,
) -> Result<Solved, String> {
    let solve = |time: Time, loads: &[(Basis, BasisLoad)]| cut_strip(roof, place, materials, time, loads);
    let fresh = solve(Time::Fresh, &set.all)?;
    let aged = solve(Time::Aged, &set.lasting)?;
    let hot = solve(Time::Hot, &set.all)?;
    Ok(Solved {
        layout: fresh.layout.clone(),
        fresh: fresh.responses.into_iter().collect(),
        aged: aged.responses.into_iter().collect(),
        hot: hot.responses.into_iter().collect(),
        let_go: None,
    })
}
