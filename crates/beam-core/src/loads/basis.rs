//! Basis loads: what is solved.

use super::Factors;
use crate::model::Rect;
use crate::quantity::STANDARD_GRAVITY;
use crate::survey::{Formed, HeavyEnd, LoadKind, Survey, Unit};

/// What a basis load is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) enum Basis {
    /// Panel, water in it, and braces.
    SelfWeight,
    /// The unit, with this quarter heavy.
    Unit(HeavyEnd),
    /// The unit tipping towards this side: a couple on its rim.
    Tipping(HeavyEnd),
    /// The whole unit set down on this edge of its rim.
    Fitting(HeavyEnd),
    /// A load of the survey, by index.
    Load(usize),
    /// Snow all over.
    Snow,
    /// Wind lifting all over.
    Wind,
    /// The person of the survey at a place under study, by index.
    Person(usize),
    /// What springing straight braces into the crown locks in.
    Sprung,
    /// One newton up on the pad of a prop, by index.
    Prop(usize),
}

/// Forces of a basis load.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum BasisLoad {
    /// The model weighs itself.
    OwnWeight,
    /// Forces on patches, N, down.
    Patches(Vec<(Rect, f64)>),
    /// Pressure all over, Pa.
    Pressure(f64),
    /// The model's own braces want back to the curve they were made with.
    SprungIn,
}

/// Share of the unit's weight on its heavy half.
const HEAVY_SHARE: f64 = 0.6;

/// Everything the unit rests on: the outer edge of its gasket ring, or the box round its pads.
pub(crate) fn unit_rect(unit: &Unit, survey: &Survey) -> Option<Rect> {
    let ring = unit.opening.map(|o| {
        let (r, g) = (Rect::of(&survey.openings[o].patch), unit.gasket_width.value);
        Rect { x0: r.x0 - g, x1: r.x1 + g, y0: r.y0 - g, y1: r.y1 + g }
    });
    unit.pads.iter().map(|p| Rect::of(&p.patch)).chain(ring).reduce(|a, b| Rect {
        x0: a.x0.min(b.x0),
        x1: a.x1.max(b.x1),
        y0: a.y0.min(b.y0),
        y1: a.y1.max(b.y1),
    })
}

/// The unit's weight on its pads and on the gasket ring, 60/40 towards its heavy end.
fn unit_patches(unit: &Unit, survey: &Survey, heavy: HeavyEnd) -> Vec<(Rect, f64)> {
    let weight = unit.mass.value * STANDARD_GRAVITY;
    let on_pads: f64 = unit.pads.iter().map(|p| p.share).sum();
    let mut patches: Vec<(Rect, f64)> =
        unit.pads.iter().map(|p| (Rect::of(&p.patch), weight * p.share)).collect();
    let (Some(opening), true) = (unit.opening, on_pads < 1.0) else { return patches };
    let (hole, g) = (Rect::of(&survey.openings[opening].patch), unit.gasket_width.value);
    let ring = weight * (1.0 - on_pads);
    let (xm, ym) = hole.centre();
    // Eight pieces, so that each lies wholly in one half.
    let (x, y) =
        ([hole.x0 - g, hole.x0, xm, hole.x1, hole.x1 + g], [hole.y0 - g, hole.y0, ym, hole.y1, hole.y1 + g]);
    let mut pieces = Vec::new();
    for i in 0..4 {
        for j in 0..4 {
            if (1..=2).contains(&i) && (1..=2).contains(&j) {
                continue;
            }
            pieces.push(Rect { x0: x[i], x1: x[i + 1], y0: y[j], y1: y[j + 1] });
        }
    }
    let is_heavy = |r: &Rect| {
        let (cx, cy) = r.centre();
        match heavy {
            HeavyEnd::Front => cy < ym,
            HeavyEnd::Rear => cy > ym,
            HeavyEnd::Left => cx < xm,
            HeavyEnd::Right => cx > xm,
        }
    };
    let half_area: f64 = pieces.iter().map(Rect::area).sum::<f64>() / 2.0;
    patches.extend(pieces.into_iter().map(|piece| {
        let share = if is_heavy(&piece) { HEAVY_SHARE } else { 1.0 - HEAVY_SHARE };
        let force = ring * share * piece.area() / half_area;
        (piece, force)
    }));
    patches
}

/// The couple that a share of the unit's weight, sideways at the height of its mass, puts on its rim.
fn tipping(unit: &Unit, survey: &Survey, factors: &Factors, side: HeavyEnd, share: f64) -> Vec<(Rect, f64)> {
    let Some(r) = unit_rect(unit, survey) else { return Vec::new() };
    let height = unit.height.map_or(factors.unit_height, |h| h.value);
    let moment = share * unit.mass.value * STANDARD_GRAVITY * height;
    let band = unit.gasket_width.value.min((r.x1 - r.x0) / 4.0).min((r.y1 - r.y0) / 4.0);
    let (pressed, lifted, arm) = match side {
        HeavyEnd::Front => (Rect { y1: r.y0 + band, ..r }, Rect { y0: r.y1 - band, ..r }, r.y1 - r.y0 - band),
        HeavyEnd::Rear => (Rect { y0: r.y1 - band, ..r }, Rect { y1: r.y0 + band, ..r }, r.y1 - r.y0 - band),
        HeavyEnd::Left => (Rect { x1: r.x0 + band, ..r }, Rect { x0: r.x1 - band, ..r }, r.x1 - r.x0 - band),
        HeavyEnd::Right => (Rect { x0: r.x1 - band, ..r }, Rect { x1: r.x0 + band, ..r }, r.x1 - r.x0 - band),
    };
    vec![(pressed, moment / arm), (lifted, -moment / arm)]
}

/// The whole unit on one edge of its rim, as it is set down or tilted.
fn fitting(unit: &Unit, survey: &Survey, side: HeavyEnd) -> Vec<(Rect, f64)> {
    let Some(r) = unit_rect(unit, survey) else { return Vec::new() };
    let band = unit.gasket_width.value.min((r.x1 - r.x0) / 4.0).min((r.y1 - r.y0) / 4.0);
    let edge = match side {
        HeavyEnd::Front => Rect { y1: r.y0 + band, ..r },
        HeavyEnd::Rear => Rect { y0: r.y1 - band, ..r },
        HeavyEnd::Left => Rect { x1: r.x0 + band, ..r },
        HeavyEnd::Right => Rect { x0: r.x1 - band, ..r },
    };
    vec![(edge, unit.mass.value * STANDARD_GRAVITY)]
}

/// Edges of the rim that a unit may be set down on first.
pub(crate) const EDGES: [HeavyEnd; 4] = [HeavyEnd::Front, HeavyEnd::Rear, HeavyEnd::Left, HeavyEnd::Right];

/// Ways round the unit may sit.
pub(crate) fn heavy_ends(unit: &Unit) -> Vec<HeavyEnd> {
    unit.heavy_end.map_or_else(
        || vec![HeavyEnd::Front, HeavyEnd::Rear, HeavyEnd::Left, HeavyEnd::Right],
        |end| vec![end],
    )
}

/// All basis loads of a survey but the person.
pub(crate) fn basis_loads(survey: &Survey, factors: &Factors) -> Vec<(Basis, BasisLoad)> {
    let mut out = vec![(Basis::SelfWeight, BasisLoad::OwnWeight)];
    if let Some(unit) = &survey.unit {
        for end in heavy_ends(unit) {
            out.push((Basis::Unit(end), BasisLoad::Patches(unit_patches(unit, survey, end))));
        }
        for (side, share) in [
            (HeavyEnd::Front, factors.braking),
            (HeavyEnd::Left, factors.sideways),
            (HeavyEnd::Right, factors.sideways),
        ] {
            out.push((Basis::Tipping(side), BasisLoad::Patches(tipping(unit, survey, factors, side, share))));
        }
        for side in EDGES {
            out.push((Basis::Fitting(side), BasisLoad::Patches(fitting(unit, survey, side))));
        }
    }
    for (i, load) in survey.loads.iter().enumerate() {
        let patch = (Rect::of(&load.patch), load.mass.value * STANDARD_GRAVITY);
        out.push((Basis::Load(i), BasisLoad::Patches(vec![patch])));
    }
    let snow = factors.snow(survey);
    if snow > 0.0 {
        out.push((Basis::Snow, BasisLoad::Pressure(snow)));
    }
    if let Some(wind) = survey.conditions.wind.filter(|w| w.value > 0.0) {
        out.push((Basis::Wind, BasisLoad::Pressure(-wind.value)));
    }
    if survey.braces.iter().any(|b| b.formed == Formed::Sprung) {
        out.push((Basis::Sprung, BasisLoad::SprungIn));
    }
    out
}

/// One person, or several side by side, with the first one's patch centred at `(x, y)`; inside the roof.
pub(crate) fn person_basis(survey: &Survey, factors: &Factors, patch: [f64; 2], x: f64, y: f64) -> BasisLoad {
    let force = survey.person.mass.value * STANDARD_GRAVITY;
    let (span, length) = (survey.roof.span.value, survey.roof.length.value);
    let half = [patch[0].min(span) / 2.0, patch[1].min(length) / 2.0];
    let patches = (0..survey.person.count).map(|k| {
        // Alternately to the right and to the left of the first.
        let side = if k % 2 == 1 { 1.0 } else { -1.0 };
        let away = side * f64::from(k.div_ceil(2)) * factors.people_apart;
        let (cx, cy) = ((x + away).clamp(half[0], span - half[0]), y.clamp(half[1], length - half[1]));
        (Rect { x0: cx - half[0], x1: cx + half[0], y0: cy - half[1], y1: cy + half[1] }, force)
    });
    BasisLoad::Patches(patches.collect())
}

/// Loads of one kind, by index.
pub(crate) fn loads_of(survey: &Survey, kind: LoadKind) -> Vec<usize> {
    survey.loads.iter().enumerate().filter(|(_, l)| l.kind == kind).map(|(i, _)| i).collect()
}
