//! How the flat base of the unit sits on the crowned roof: gap, packing, bolts, gasket.

use serde::Serialize;

use super::check::AskError;
use crate::check::{Finite, MadeWith, NotChecked, NotFinite, ReadIn, Verdict, Words};
use crate::forming::{Arc, FormingError, Seat, Seating};
use crate::quantity::{Family, Length, si, tape};
use crate::survey::{Opening, Survey, Unit};
use section_tables::Tables;

/// Gasket as it comes, m (common practice, no source).
const GASKET: f64 = 0.0254;
/// Share of it that is left where it is pressed most: half an inch of one inch stays (common practice, no source).
const PRESSED_TO: f64 = 0.5;
/// Largest share left with which it still seals (judged).
const SEALS_BELOW: f64 = 0.75;
/// Base plate, ceiling frame, washers and nut, m (common practice, no source).
const HARDWARE: f64 = 0.02;
/// Tilt from which a unit wants levelling, rad: one degree (judged; its maker's sheet goes first).
const TILT: f64 = 0.0175;

/// Radius of a roof without a crown, m: only what was given is looked over on it.
const FLAT: f64 = 1e6;

/// What is asked of [`seat`] beside the survey; what is left out takes a default that the answer states.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct SeatOptions {
    /// Gasket as it comes.
    pub gasket: Option<Length>,
    /// What a bolt passes beside roof, gasket and packing: base plate, ceiling frame, washers, nut.
    pub hardware: Option<Length>,
}

/// The whole result of [`seat`]: SI (m, rad).
#[derive(Debug, Clone, Serialize)]
pub struct SeatDocument {
    /// Schema number: 1.
    pub schema: u32,
    /// What made it.
    pub made_with: MadeWith,
    /// Title of the survey.
    pub title: String,
    /// Quantities that people read it in.
    pub read_in: ReadIn,
    /// The answer in words.
    pub answer: String,
    /// "holds": the gasket takes the curve up; "does not hold": packing is needed; "cannot say".
    pub verdict: Verdict,
    /// How it sits; `null` where that cannot be said.
    pub sits: Option<Sits>,
    /// What to do.
    pub next_steps: Vec<Words>,
    /// Checks not made.
    pub not_checked: Vec<NotChecked>,
    /// Assumptions.
    pub assumptions: Vec<Words>,
    /// Cautions.
    pub cautions: Vec<Words>,
}

/// How the base sits.
#[derive(Debug, Clone, Serialize)]
pub struct Sits {
    /// Width of the gasket ring across, outside to outside.
    pub width: Finite,
    /// Gap under both edges of the ring while its middle touches: the packing there.
    pub gap: Finite,
    /// Gap under both edges of the whole base, where its width is surveyed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap_at_base: Option<Finite>,
    /// Slope of the packing's face at the edge, rad; level in the middle.
    pub taper: Finite,
    /// Tilt of the unit across, rad.
    pub tilt: Finite,
    /// Gasket left in the middle, and at the edges without packing.
    pub gasket_left: [Finite; 2],
    /// Roof between gasket and ceiling frame.
    pub roof: Finite,
    /// Length of a bolt at the edge, packing included: the next longer one is taken.
    pub bolt_length: Finite,
    /// Whether the bolts would have to pull the roof flat before the edges seal.
    pub pulls_flat: bool,
}

/// Works out how the unit's base sits over its opening on the crown of the survey.
///
/// # Errors
/// [`AskError`]: an option that cannot be read as such is told in the document, not here; only numbers that are none.
///
/// # Examples
/// ```
/// use beam_core::{ask, survey};
/// use section_tables::Tables;
///
/// let text = r#"
/// survey = 1
/// title = "Puppet theatre, unit"
/// lengths = "in"
/// weights = "lb"
/// [roof]
/// kind = "laminated"
/// span = "92 1/2"
/// rise = "1 3/4"
/// length = "120"
/// like = "ply 1/8 / bead foam 2 / ply 1/8"
/// [[opening]]
/// name = "unit opening"
/// across = ["39", "53 1/4"]
/// along = ["52", "66 1/4"]
/// [unit]
/// weight = "100"
/// opening = "unit opening"
/// "#;
/// let survey = survey::read_text("unit.toml", text, Tables::shipped()).expect("a sound survey");
/// let answer = ask::seat(&survey, Tables::shipped(), ask::SeatOptions::default())?;
/// let sits = answer.sits.expect("a crown and an opening");
/// // Half width 8.125 in on a radius of 612 in: 8.125^2 / (2 x 612) = 0.0539 in.
/// assert!((sits.gap.get() / 0.0254 - 0.0539).abs() < 0.0002);
/// assert!(!sits.pulls_flat);
/// # Ok::<(), ask::AskError>(())
/// ```
pub fn seat(survey: &Survey, tables: &Tables, options: SeatOptions) -> Result<SeatDocument, AskError> {
    let found = survey.unit.as_ref().and_then(|u| u.opening.map(|o| (u, &survey.openings[o])));
    let worked = match found {
        None => Err("the survey has no unit over an opening".to_owned()),
        Some((unit, opening)) => sits(survey, unit, opening, options),
    };
    let told = |m: Length| tape(m.value, survey.family);
    let mut out = SeatDocument {
        schema: 1,
        made_with: MadeWith::new(tables, &[], Some(&survey.hash)),
        title: survey.title.clone(),
        read_in: ReadIn(survey.family),
        answer: String::new(),
        verdict: Verdict::CannotSay,
        sits: None,
        next_steps: Vec::new(),
        not_checked: not_checked(),
        assumptions: assumptions(survey, options),
        cautions: cautions(),
    };
    match worked {
        Err(why) => out.answer = format!("Cannot say how the unit sits: {why}."),
        Ok(seated) => {
            out.verdict = if seated.pulls_flat() { Verdict::DoesNotHold } else { Verdict::Holds };
            out.answer = answer(&seated, survey.family);
            out.next_steps = steps(&seated, survey.family, told(seated.bolt_length()));
            out.sits = Some(rows(&seated)?);
        }
    }
    Ok(out)
}

/// The base on the roof.
struct Seated {
    seat: Seat,
    /// `None` on a flat roof.
    on_curve: Option<Seating>,
    gap_at_base: Option<f64>,
}

impl Seated {
    fn gap(&self) -> f64 {
        self.on_curve.map_or(0.0, |s| s.gap().value)
    }
    fn tilt(&self) -> f64 {
        self.on_curve.map_or(0.0, |s| s.tilt().value)
    }
    fn gasket_left(&self) -> [Length; 2] {
        let least = self.seat.gasket * self.seat.pressed_to.value;
        self.on_curve.map_or([least, least], |s| s.gasket_left())
    }
    fn bolt_length(&self) -> Length {
        let least = self.seat.gasket * self.seat.pressed_to.value;
        self.on_curve.map_or(self.seat.roof + self.seat.hardware + least, |s| s.bolt_length())
    }
    fn pulls_flat(&self) -> bool {
        self.on_curve.is_some_and(|s| s.pulls_flat())
    }
}

fn sits(survey: &Survey, unit: &Unit, opening: &Opening, options: SeatOptions) -> Result<Seated, String> {
    let words = |e: FormingError| e.to_string();
    let across = opening.patch.across;
    let middle = across.middle();
    let flat = survey.roof.rise.value <= survey.roof.span.value * 1e-6;
    let radius =
        if flat { si(FLAT) } else { Arc::new(survey.roof.span, survey.roof.rise).map_err(words)?.radius() };
    let seat = Seat {
        radius,
        width: across.size() + unit.gasket_width * 2.0,
        off_crown: middle - survey.roof.span / 2.0,
        roof: thickness(survey, middle),
        gasket: options.gasket.unwrap_or(si(GASKET)),
        pressed_to: si(PRESSED_TO),
        seals_below: si(SEALS_BELOW),
        hardware: options.hardware.unwrap_or(si(HARDWARE)),
    };
    let on_curve = seat.seating().map_err(words)?;
    let base = unit.base.map(|[width, _]| Seat { width, ..seat }.seating()).transpose().map_err(words)?;
    let gap = |s: Seating| if flat { 0.0 } else { s.gap().value };
    Ok(Seated { seat, on_curve: (!flat).then_some(on_curve), gap_at_base: base.map(gap) })
}

/// All layers together at a distance from the left wall; tapered ones follow the crown.
fn thickness(survey: &Survey, across: Length) -> Length {
    let from_middle = 2.0 * across.value / survey.roof.span.value - 1.0;
    let share = 1.0 - from_middle * from_middle;
    survey
        .layers
        .iter()
        .map(|l| l.thickness.wall + (l.thickness.crown - l.thickness.wall) * share)
        .fold(Length::default(), |sum, t| sum + t)
}

fn rows(seated: &Seated) -> Result<Sits, NotFinite> {
    let n = |value: f64| Finite::new(value, "seat of the unit");
    let [middle, edge] = seated.gasket_left();
    Ok(Sits {
        width: n(seated.seat.width.value)?,
        gap: n(seated.gap())?,
        gap_at_base: seated.gap_at_base.map(n).transpose()?,
        taper: n(seated.on_curve.map_or(0.0, |s| s.taper().value))?,
        tilt: n(seated.tilt())?,
        gasket_left: [n(middle.value)?, n(edge.value)?],
        roof: n(seated.seat.roof.value)?,
        bolt_length: n(seated.bolt_length().value)?,
        pulls_flat: seated.pulls_flat(),
    })
}

fn answer(seated: &Seated, family: Family) -> String {
    let told = |m: f64| tape(m, family);
    if seated.pulls_flat() {
        format!(
            "Packing is needed: the gasket ring gaps {} at its edges, more than the gasket takes up. Tightened without packing, the bolts pull the roof flat.",
            told(seated.gap())
        )
    } else if seated.gap() > 0.0 {
        format!("The gasket takes up the curve: the ring gaps {} at its edges.", told(seated.gap()))
    } else {
        "The roof is flat: the base lies on its gasket all over.".to_owned()
    }
}

fn words(code: &str, words: String) -> Words {
    Words { code: code.to_owned(), words }
}

fn steps(seated: &Seated, family: Family, bolt: String) -> Vec<Words> {
    let told = |m: f64| tape(m, family);
    let mut out = Vec::new();
    if seated.pulls_flat() {
        let taper = seated.on_curve.map_or(0.0, |s| s.taper().value.to_degrees());
        out.push(words(
            "pack-the-edges",
            format!(
                "Pack the left and right edges of the ring by {}, tapering to nothing in the middle ({taper:.1} degrees at the edge), of a stuff that does not rot or crush.",
                told(seated.gap())
            ),
        ));
    }
    if let Some(gap) = seated.gap_at_base.filter(|gap| *gap > seated.gap()) {
        out.push(words(
            "pads-under-the-base",
            format!(
                "The edges of the base hang {} over the roof: pads go only where the maker puts them, as thick as the gap there.",
                told(gap)
            ),
        ));
    }
    if seated.tilt() > TILT {
        out.push(words(
            "level-it",
            format!(
                "Off the crown the unit tilts {:.1} degrees: pack its low side if its maker allows less, and keep the drain at the lowest place.",
                seated.tilt().to_degrees()
            ),
        ));
    }
    let [least, _] = seated.gasket_left();
    out.push(words(
        "tighten-evenly",
        format!(
            "Tighten evenly, crosswise, and stop when {} of gasket is left in the middle; look along a string whether the roof goes flat, and stop if it does.",
            told(least.value)
        ),
    ));
    out.push(words("bolts", format!("Take bolts at least {bolt} long under the head.")));
    out
}

fn not_checked() -> Vec<NotChecked> {
    let gap = |check: &str, why: &str| NotChecked {
        check: check.to_owned(),
        part: "unit".to_owned(),
        why: why.to_owned(),
        blocks: false,
    };
    vec![
        gap("clamp", "what the bolts press on the core: `check` says it where hole and bolts are surveyed"),
        gap(
            "seat",
            "a roof that has sunk is no arc: lay a straight edge across the opening and measure the gap",
        ),
    ]
}

fn assumptions(survey: &Survey, options: SeatOptions) -> Vec<Words> {
    let told = |m: f64| tape(m, survey.family);
    let mut out = Vec::new();
    if options.gasket.is_none() {
        out.push(words(
            "default-gasket-thickness",
            format!("The gasket is taken {} thick as it comes (common practice, no source).", told(GASKET)),
        ));
    }
    out.push(words(
        "gasket-pressed",
        "Half of the gasket is left where it is pressed most (common practice, no source), and it seals up to three quarters (judged).".to_owned(),
    ));
    if options.hardware.is_none() {
        out.push(words(
            "default-hardware",
            format!(
                "Base plate, ceiling frame, washers and nut are taken {} together (common practice, no source): lay them together and measure.",
                told(HARDWARE)
            ),
        ));
    }
    out.push(words(
        "arc-of-the-crown",
        "The outer face is the arc of span and rise; along the vehicle it is straight.".to_owned(),
    ));
    out
}

fn cautions() -> Vec<Words> {
    vec![
        words(
            "never-flatten",
            "Bolts that pull a crowned roof flat make the low place that water finds. The gasket seals, not the pull.".to_owned(),
        ),
        words("drain-free", "Never seal round the rim: what runs off inside must find its way out.".to_owned()),
    ]
}
