//! Solving a roof for all its basis loads: the two-way roof, and the strip beside it.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::evaluate::{LetGo, Solved};
use super::places::PersonPlace;
use crate::check::Materials;
use crate::loads::{Basis, BasisLoad, Factors, basis_loads, person_basis, unit_rect};
use crate::model::{IdealRoof, LayerState, Time, lay_up, moduli};
use crate::plate::{Layouts, PlateRoof, PlateShape};
use crate::strip::{StripPlace, cut_strip, effective_sides_si, spread_factor_si};
use crate::survey::{LoadKind, Survey};

/// Basis loads that stay on, and those with each person place.
pub(crate) struct BasisSet {
    /// What stays on for years.
    pub lasting: Vec<(Basis, BasisLoad)>,
    /// Everything.
    pub all: Vec<(Basis, BasisLoad)>,
}

impl BasisSet {
    /// What is solved hot: people, and what the road shakes.
    pub(crate) fn hot(&self) -> Vec<(Basis, BasisLoad)> {
        let shaken = |b: &Basis| matches!(b, Basis::Person(_)) || self.lasting.iter().any(|(l, _)| l == b);
        self.all.iter().filter(|(b, _)| shaken(b)).cloned().collect()
    }
}

/// The basis loads of a survey with people at the places given.
pub(crate) fn basis_set(survey: &Survey, factors: &Factors, people: &[PersonPlace]) -> BasisSet {
    let fixed = basis_loads(survey, factors);
    let lasting = fixed
        .iter()
        .filter(|(basis, _)| match basis {
            Basis::SelfWeight | Basis::Unit(_) | Basis::Sprung => true,
            Basis::Load(i) => survey.loads[*i].kind == LoadKind::Fixed,
            Basis::Snow
            | Basis::Wind
            | Basis::Person(_)
            | Basis::Tipping(_)
            | Basis::Fitting(_)
            | Basis::Prop(_) => false,
        })
        .cloned()
        .collect();
    let mut all = fixed;
    all.extend(
        people
            .iter()
            .enumerate()
            .map(|(i, p)| (Basis::Person(i), person_basis(survey, factors, p.patch, p.x, p.y))),
    );
    BasisSet { lasting, all }
}

/// Solves a two-way roof: its responses, and how many unknowns it has.
pub(crate) type SolvePlate =
    fn(&IdealRoof, &Arc<PlateShape>, Materials, &BasisSet, &Layouts) -> Result<(Solved, usize), String>;

/// A two-way roof solved in its three states.
///
/// # Errors
/// In words.
pub(crate) fn solve_plate(
    roof: &IdealRoof,
    shape: &Arc<PlateShape>,
    materials: Materials,
    set: &BasisSet,
    layouts: &Layouts,
) -> Result<(Solved, usize), String> {
    let state = |time, loads: &[(Basis, BasisLoad)]| -> Result<(PlateRoof, BTreeMap<_, _>), String> {
        let plate = PlateRoof::new(roof, shape, materials, time, layouts)?;
        let responses = loads.iter().map(|(b, _)| *b).zip(plate.solve(loads)?).collect();
        Ok((plate, responses))
    };
    let later = |time, loads: &[(Basis, BasisLoad)]| state(time, loads).map(|(_, responses)| responses);
    let (fresh, (aged, hot)) = rayon::join(
        || state(Time::Fresh, &set.all),
        || rayon::join(|| later(Time::Aged, &set.lasting), || later(Time::Hot, &set.hot())),
    );
    let ((fresh_roof, fresh), aged, hot) = (fresh?, aged?, hot?);
    let unknowns = fresh_roof.unknowns();
    let layout = fresh_roof.layout.clone();
    let let_go = letting_go(Arc::new(fresh_roof));
    Ok((Solved { layout, fresh, aged, hot, let_go }, unknowns))
}

/// What changes where contacts of a solved roof let go; `None` where it has none.
pub(super) fn letting_go(roof: Arc<PlateRoof>) -> Option<Box<LetGo>> {
    roof.lets_go().then(|| {
        let closure: Box<LetGo> = Box::new(move |closed| roof.let_go(closed));
        closure
    })
}

/// A two-way roof solved fresh alone, as if it neither aged nor was heated.
///
/// # Errors
/// In words.
pub(crate) fn solve_fresh(
    roof: &IdealRoof,
    shape: &Arc<PlateShape>,
    materials: Materials,
    set: &BasisSet,
    layouts: &Layouts,
) -> Result<(Solved, usize), String> {
    let plate = PlateRoof::new(roof, shape, materials, Time::Fresh, layouts)?;
    let fresh: BTreeMap<_, _> = set.all.iter().map(|(b, _)| *b).zip(plate.solve(&set.all)?).collect();
    let lasts = |b: &Basis| set.lasting.iter().any(|(l, _)| l == b);
    let aged = fresh.iter().filter(|(b, _)| lasts(b)).map(|(b, r)| (*b, r.clone())).collect();
    let (unknowns, layout) = (plate.unknowns(), plate.layout.clone());
    let let_go = letting_go(Arc::new(plate));
    Ok((Solved { layout, fresh, aged, hot: BTreeMap::new(), let_go }, unknowns))
}

/// The strip that goes along with the unit, or half of a bare roof's length about its middle.
///
/// # Errors
/// In words.
pub(crate) fn pencil_place(
    survey: &Survey,
    roof: &IdealRoof,
    materials: Materials,
) -> Result<StripPlace, String> {
    let Some(r) = survey.unit.as_ref().and_then(|u| unit_rect(u, survey)) else {
        return Ok(StripPlace { y0: 0.25 * roof.length, y1: 0.75 * roof.length });
    };
    let x = r.centre().0.min(roof.span - r.centre().0).clamp(0.0, roof.span / 2.0);
    let moduli: Vec<_> = roof
        .layers
        .iter()
        .map(|l| moduli(&l.material, l.grain_across, materials, Time::Fresh, roof.creep_hours))
        .collect::<Result<_, _>>()?;
    let sound = vec![LayerState::SOUND; roof.layers.len()];
    let d = lay_up(roof, &moduli, &sound, roof.span / 2.0, Time::Fresh, None)
        .map_err(|e| e.to_string())?
        .ok_or("nothing carries in the sound roof")?
        .laminate
        .bending_free_si();
    let spread = spread_factor_si(d.xx, d.yy, d.xy, d.ss).map_err(|e| e.to_string())?;
    let edge = |free: bool, distance: f64| if free { distance.max(0.0) } else { f64::INFINITY };
    let to_edges = [edge(!roof.front_held, r.y0), edge(!roof.rear_held, roof.length - r.y1)];
    let [front, rear] = effective_sides_si(x, roof.span, to_edges, spread).map_err(|e| e.to_string())?;
    Ok(StripPlace { y0: (r.y0 - front).max(0.0), y1: (r.y1 + rear).min(roof.length) })
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
    // All loads in each, so that the strip is cut at the same places and read by one layout.
    let aged = solve(Time::Aged, &set.all)?;
    let hot = solve(Time::Hot, &set.all)?;
    Ok(Solved {
        layout: fresh.layout.clone(),
        fresh: fresh.responses.into_iter().collect(),
        aged: aged.responses.into_iter().collect(),
        hot: hot.responses.into_iter().collect(),
        let_go: None,
    })
}
