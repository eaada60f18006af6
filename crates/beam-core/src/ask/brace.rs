//! What does a curved brace do alone, between two walls.

mod document;
mod strength;
mod words;

pub use document::{BraceAnswer, BraceStrength, SecondOrder};

use super::TubeSection;
use super::tube::LONGEST;
use crate::check::{Finite, MadeWith, NotFinite, own_tables};
use crate::quantity::{Force, ForcePerLength, Length, Mass, STANDARD_GRAVITY, si};
use crate::section::{Hollow, SectionError, SectionProperties, ring_factors};
use crate::strip::{Arch, ArchEnds, ArchLoad, ArchState, LargeState, SnapKind, Station, StripError};
use crate::survey::{AluminiumRules, ListedAlloy};
use section_tables::{NotFound, Tables};

/// A load as people say it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BraceLoad {
    /// A force.
    Force(Force),
    /// Something that weighs so much.
    Weight(Mass),
}

/// What is asked of [`brace()`].
#[derive(Debug, Clone, PartialEq)]
pub struct BraceQuestion {
    /// From wall to wall.
    pub span: Length,
    /// Height of the crown above its ends; 0 is flat.
    pub rise: Length,
    /// Tube.
    pub section: TubeSection,
    /// Alloy and temper, by id or another name.
    pub alloy: String,
    /// A load at one place.
    pub load: Option<BraceLoad>,
    /// Its distance from the left end; the middle if absent.
    pub at: Option<Length>,
    /// An even load per length of span.
    pub uniform: Option<ForcePerLength>,
    /// How the ends sit; a roller if absent, pinned if a spring is given.
    pub ends: Option<ArchEnds>,
    /// Sideways stiffness of each wall: force per movement.
    pub thrust_spring: Option<ForcePerLength>,
    /// Rule book that its strength is judged by. By ADM 2020 LRFD and EN 1999-1-1 the load is taken as a factored one.
    pub rules: AluminiumRules,
    /// National values of `gamma_M1` and `gamma_M2` of EN 1999-1-1; the recommended ones if absent.
    pub partial_factors: [Option<f64>; 2],
}

/// Why a question about a brace has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BraceError {
    /// No such tube or alloy.
    #[error(transparent)]
    NotFound(#[from] NotFound),
    /// An alloy without a temper that is held.
    #[error("{0}")]
    NoTemper(String),
    /// A measure or load that cannot be.
    #[error("{what} is {value:.6} {unit}; allowed: {allowed}; {remedy}")]
    Measure {
        /// Which.
        what: &'static str,
        /// What was given.
        value: f64,
        /// SI unit of the value.
        unit: &'static str,
        /// What can be.
        allowed: String,
        /// What to do.
        remedy: &'static str,
    },
    /// Options that contradict each other, or too few of them.
    #[error("{0}")]
    Contradiction(&'static str),
    /// A tube that cannot be.
    #[error(transparent)]
    Section(#[from] SectionError),
    /// An arch that cannot be, or whose equilibrium could not be followed.
    #[error(transparent)]
    Arch(#[from] StripError),
    /// A number came out that is none.
    #[error(transparent)]
    NotFinite(#[from] NotFinite),
}

impl BraceError {
    /// Whether the question was sound and only the answer is missing.
    pub fn cannot_say(&self) -> bool {
        matches!(self, Self::Arch(StripError::Mechanism { .. }) | Self::NotFinite(_) | Self::NoTemper(_))
    }
}

/// A flat brace is taken as an arc this small a part of its span high.
const FLAT: f64 = 1e-5;
/// Lopsidedness of a real brace, part of the span (practice).
const LOPSIDED: f64 = 1.0 / 500.0;
/// Above so many depths of radius a curved bar is bent like a straight one, within 1 percent.
const GENTLE: f64 = 50.0;

/// The question, looked over, with what the tables say.
struct Case<'a> {
    question: &'a BraceQuestion,
    arch: Arch,
    loads: Vec<ArchLoad>,
    total: f64,
    name: String,
    /// Width, depth, wall, corner, m.
    size: [f64; 4],
    properties: SectionProperties,
    /// Stress at the inside of the curve over that of a straight bar.
    curved: f64,
    alloy: ListedAlloy,
}

/// What a curved brace does alone: push on the walls, moments, sag, the load it snaps or sways under, and whether the
/// tube is strong enough by the rule book chosen.
///
/// Thrust, moments, sag and stress are those of small movements; `second_order` takes the change of shape into
/// account. The strength is judged by second-order forces.
///
/// # Errors
/// [`BraceError`]; its [`cannot_say`](BraceError::cannot_say) tells a sound question without an answer from a wrong
/// one. A strength that the rules do not speak about is no error: it stands under `not_checked`.
///
/// # References
/// Arch by the force method; snap by a corotational chain; ADM 2020 C.2 (from memory), E, F, G, H; EN 1999-1-1:2007 5.3,
/// 6.2, 6.3 (from memory).
///
/// # Examples
/// 1.5 x 1/8 in tube over 84 in, crown 3 in, 300 lbf in its middle: free to spread, it is a bent beam, P L/4.
/// ```
/// use beam_core::ask::{brace, BraceLoad, BraceQuestion, TubeSection};
/// use beam_core::quantity::{si, INCH, POUND_FORCE};
/// use beam_core::survey::AluminiumRules;
/// use section_tables::Tables;
///
/// let answer = brace(
///     &BraceQuestion {
///         span: si(84.0 * INCH),
///         rise: si(3.0 * INCH),
///         section: TubeSection::Named("1-1/2 x 1-1/2 x 1/8".to_owned()),
///         alloy: "6061-T6".to_owned(),
///         load: Some(BraceLoad::Force(si(300.0 * POUND_FORCE))),
///         at: None,
///         uniform: None,
///         ends: None,
///         thrust_spring: None,
///         rules: AluminiumRules::Adm2020Asd,
///         partial_factors: [None; 2],
///     },
///     Tables::shipped(),
/// )?;
/// assert_eq!(answer.thrust.get(), 0.0);
/// assert!((answer.crown_moment.get() / (6300.0 * POUND_FORCE * INCH) - 1.0).abs() < 1e-9);
/// assert!(answer.snap_load.is_none());
/// # Ok::<(), beam_core::ask::BraceError>(())
/// ```
pub fn brace(question: &BraceQuestion, tables: &Tables) -> Result<BraceAnswer, BraceError> {
    let case = looked_over(question, tables)?;
    let arch = &case.arch;
    let small = Small::new(&case)?;
    let snap = arch.snap(&case.loads, si(0.0))?;
    // A steep arch may sway stably and carry more in the end, far to the side: no one wants that load.
    let lopsided = match (snap, arch.snap(&case.loads, arch.span * LOPSIDED)?) {
        (Some(perfect), Some(lopsided)) if lopsided.total > perfect.total => Some(perfect),
        (_, lopsided) => lopsided,
    };
    let large = arch.solve_large(&case.loads, si(0.0))?;
    let (strength, gap) = strength::judge(&case, tables)?;
    let finite = |value: f64, what: &str| Finite::new(value, what);
    let second_order = large.as_ref().map(|state| case.second_order(state)).transpose()?;
    let worst = largest(small.stations.iter().copied());
    Ok(BraceAnswer {
        schema: 1,
        made_with: MadeWith::new(tables, &[question.rules.name()], None),
        tube: case.name.clone(),
        alloy: case.alloy.id.clone(),
        span: finite(arch.span.value, "span")?,
        rise: finite(question.rise.value, "rise")?,
        ends: words::ends(arch).to_owned(),
        total_load: finite(case.total, "total load")?,
        thrust: finite(small.sum(|state| state.thrust().value), "thrust")?,
        crown_moment: finite(small.sum(|state| state.crown_moment().value), "crown moment")?,
        end_moment: finite(small.end_moment(), "end moment")?,
        max_moment: finite(worst.moment.value, "largest moment")?,
        max_moment_at: finite(worst.x.value, "place of the largest moment")?,
        crown_sag: finite(small.sum(|state| state.crown_sag().value), "sag")?,
        max_stress: finite(case.stress(&small.stations), "stress")?,
        snap_load: snap.map(|snap| finite(snap.total.value, "snap load")).transpose()?,
        snap_kind: snap.map(|snap| {
            match snap.kind {
                SnapKind::Limit => "snaps through",
                SnapKind::Sway => "sways",
            }
            .to_owned()
        }),
        snap_load_lopsided: lopsided.map(|snap| finite(snap.total.value, "snap load")).transpose()?,
        model: "circular arch, small movements, by the force method; snap load by a chain that moves far"
            .to_owned(),
        second_order,
        strength,
        not_checked: words::not_checked(gap),
        assumptions: words::assumptions(&case).into_iter().chain(own_tables(tables)).collect(),
        cautions: words::cautions(&case, &small, snap.map(|snap| snap.total.value), large.as_ref()),
    })
}

fn looked_over<'a>(question: &'a BraceQuestion, tables: &'a Tables) -> Result<Case<'a>, BraceError> {
    let measure = |what, value, unit, allowed: String, remedy| {
        Err(BraceError::Measure { what, value, unit, allowed, remedy })
    };
    let span = question.span.value;
    if !(span > 0.0 && span <= LONGEST) {
        let allowed = format!("above 0, at most {LONGEST} m");
        return measure("span", span, "m", allowed, "measure from wall to wall");
    }
    let rise = question.rise.value;
    if !(0.0..=span / 2.0).contains(&rise) {
        let allowed = format!("0 to half the span, {:.4} m", span / 2.0);
        return measure("rise", rise, "m", allowed, "measure the crown above the line between the ends");
    }
    let at = question.at.unwrap_or(question.span / 2.0);
    if !(0.0..=span).contains(&at.value) {
        let allowed = format!("0 to {span:.4} m");
        return measure("place of the load", at.value, "m", allowed, "count from the left end");
    }
    let force = match question.load {
        Some(BraceLoad::Force(force)) => force.value,
        Some(BraceLoad::Weight(mass)) => mass.value * STANDARD_GRAVITY,
        None if question.at.is_some() => {
            return Err(BraceError::Contradiction("a place is given (at), and no load there: give the load"));
        }
        None => 0.0,
    };
    let even = question.uniform.map_or(0.0, |load| load.value);
    for (what, value, unit) in [("load", force, "N"), ("even load", even, "N/m")] {
        if !(value.is_finite() && value >= 0.0) {
            return measure(
                what,
                value,
                unit,
                "0 or above".into(),
                "give what presses down; uplift is not asked here",
            );
        }
    }
    let total = force + even * span;
    if total <= 0.0 {
        return Err(BraceError::Contradiction(
            "there is no load: give one at a place, or an even one, above 0",
        ));
    }
    if question.ends == Some(ArchEnds::Roller) && question.thrust_spring.is_some() {
        return Err(BraceError::Contradiction(
            "ends on a roller and a thrust spring contradict each other: with a spring, the ends are pinned or fixed",
        ));
    }
    if let Some(k) = question.thrust_spring.filter(|k| !(k.value.is_finite() && k.value >= 0.0)) {
        return measure(
            "thrust spring",
            k.value,
            "N/m",
            "0 or above".into(),
            "give force per movement of one wall",
        );
    }
    if question.rules != AluminiumRules::En1999 && question.partial_factors != [None; 2] {
        return Err(BraceError::Contradiction(
            "gamma_M1 and gamma_M2 are factors of EN 1999-1-1: leave them out, or choose that rule book",
        ));
    }
    if let Some(factor) = question.partial_factors.into_iter().flatten().find(|f| !(1.0..=2.0).contains(f)) {
        let remedy = "take it from the national annex";
        return measure("partial factor", factor, "", "1 to 2".into(), remedy);
    }
    if let Some((what, value, remedy)) = question.section.beyond_belief() {
        return measure(what, value, "m", "a wall from 0.3 mm, sides up to 0.5 m".into(), remedy);
    }
    let (row, size) = question.section.read(tables)?;
    let name = row.unwrap_or_else(|| measured(size));
    let [width, depth, wall, corner] = size;
    let properties = Hollow::new(si(width), si(depth), si(wall), si(corner))?.properties();
    let alloy = ListedAlloy::find(&question.alloy, tables).map_err(|missing| {
        ListedAlloy::no_temper(&question.alloy, tables)
            .map_or(BraceError::NotFound(missing), BraceError::NoTemper)
    })?;
    let (e, g) = (alloy.e.value, alloy.g.value);
    let default = if question.thrust_spring.is_some() { ArchEnds::Pinned } else { ArchEnds::Roller };
    let arch = Arch {
        span: question.span,
        rise: si(rise.max(FLAT * span)),
        axial: si(e * properties.area.value),
        bending: si(e * properties.second_moment.value),
        shear: si(g * properties.shear_area.value),
        ends: question.ends.unwrap_or(default),
        hold: question.thrust_spring,
    };
    let radius = arch.radius()?;
    let curved = if radius.value < GENTLE * depth {
        ring_factors(si(width), si(depth), si(wall), radius)?.inner.value
    } else {
        1.0
    };
    let mut loads = Vec::new();
    if force > 0.0 {
        loads.push(ArchLoad::Point { force: si(force), x: at });
    }
    if even > 0.0 {
        loads.push(ArchLoad::Uniform(si(even)));
    }
    Ok(Case { question, arch, loads, total, name, size, properties, curved, alloy })
}

/// `40.00 x 60.00 x 3.000 mm, as measured`.
fn measured([width, depth, wall, _]: [f64; 4]) -> String {
    let [width, depth, wall] = [width, depth, wall].map(|m| crate::quantity::significant(m * 1e3, 4));
    format!("{width} x {depth} x {wall} mm, as measured")
}

impl Case<'_> {
    /// Largest stress, without its sign.
    fn stress(&self, stations: &[Station]) -> f64 {
        let (area, elastic) = (self.properties.area.value, self.properties.elastic.value);
        stations
            .iter()
            .map(|s| s.compression.value.abs() / area + self.curved * s.moment.value.abs() / elastic)
            .fold(0.0, f64::max)
    }

    fn second_order(&self, state: &LargeState) -> Result<SecondOrder, NotFinite> {
        Ok(SecondOrder {
            thrust: Finite::new(state.thrust().value, "thrust")?,
            crown_moment: Finite::new(state.crown_moment().value, "crown moment")?,
            max_moment: Finite::new(
                largest(state.stations().iter().copied()).moment.value,
                "largest moment",
            )?,
            crown_sag: Finite::new(state.crown_sag().value, "sag")?,
            max_stress: Finite::new(self.stress(state.stations()), "stress")?,
        })
    }
}

/// Small movements: the loads one by one, added.
struct Small {
    states: Vec<ArchState>,
    stations: Vec<Station>,
}

impl Small {
    fn new(case: &Case<'_>) -> Result<Self, StripError> {
        /// Places looked at, beside the load.
        const PLACES: usize = 400;
        const NOISE: f64 = 1e-12;
        let states = case.loads.iter().map(|load| case.arch.solve(*load)).collect::<Result<Vec<_>, _>>()?;
        // What is so small beside `W L/4` is a zero with the noise of its sum.
        let still = |of: f64, value: f64| if value.abs() < NOISE * of { 0.0 } else { value };
        let bent = case.total * case.arch.span.value / 4.0;
        let span = case.arch.span;
        let mut places: Vec<Length> = (0..=PLACES).map(|i| span * (i as f64 / PLACES as f64)).collect();
        for load in &case.loads {
            if let ArchLoad::Point { x, .. } = load {
                places.extend([si((x.value - 1e-9 * span.value).max(0.0)), *x]);
            }
        }
        let stations = places
            .into_iter()
            .map(|x| {
                let mut sum = Station { x, moment: si(0.0), compression: si(0.0), shear: si(0.0) };
                for station in states.iter().filter_map(|state| state.station(x)) {
                    sum.moment += station.moment;
                    sum.compression += station.compression;
                    sum.shear += station.shear;
                }
                sum.moment = si(still(bent, sum.moment.value));
                sum
            })
            .collect();
        Ok(Self { states, stations })
    }

    fn sum(&self, part: impl Fn(&ArchState) -> f64) -> f64 {
        self.states.iter().map(part).sum()
    }

    /// The larger of both, with its sign.
    fn end_moment(&self) -> f64 {
        let [left, right] = [0, 1].map(|end| self.sum(|state| state.end_moments()[end].value));
        if right.abs() > left.abs() { right } else { left }
    }
}

/// Where the moment is largest, whatever its sign.
fn largest(stations: impl Iterator<Item = Station>) -> Station {
    let none = Station { x: si(0.0), moment: si(0.0), compression: si(0.0), shear: si(0.0) };
    stations.fold(none, |a, b| if b.moment.value.abs() > a.moment.value.abs() { b } else { a })
}

#[cfg(test)]
mod tests;
