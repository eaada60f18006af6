//! How a brace is brought to the curve of the crown.

mod bender;
mod document;
mod reading;
mod words;

pub use document::{BendDocument, Fit, Gauge, LimitRow, Shim, Station};
pub use reading::BendError;

use bender::Bender;

use super::typed::{ReadTube, TypedTube};
use crate::check::{BasisWords, Finite, MadeWith, NotFinite, ReadIn, own_tables};
use crate::forming::{Arc, ArcFit, BendLimits, BentSection, Dishing, Metal, Sprung};
use crate::quantity::{Family, INCH, KSI, Length, si};
use crate::strength::BasisKind;
use section_tables::{Alloy, Tables};

/// The row of an alloy that nobody has identified.
const NOT_KNOWN: &str = "alloy not known";

/// What is asked of [`bend()`], as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BendOptions {
    /// Chord of the centre line from end to end; its unit is the one people read the answer in.
    pub span: String,
    /// Height of the crown. It may be absent if ordinates are given.
    pub rise: Option<String>,
    /// Heights of the roof above a string, evenly spaced, both ends included, commas between them.
    pub ordinates: Option<String>,
    /// The tube.
    pub tube: TypedTube,
    /// Alloy and temper.
    pub alloy: String,
    /// Distance of the stations; 12 in or 300 mm if absent.
    pub station: Option<String>,
}

/// What was read and looked up.
struct Bend<'a> {
    family: Family,
    arc: Arc,
    fit: Option<ArcFit>,
    tube: ReadTube,
    section: BentSection,
    alloy: &'a Alloy,
    /// Least, typical, high, Pa.
    yields: [f64; 3],
    yield_source: String,
    yield_kind: BasisKind,
    /// Whether the yields were only guessed from the minimum.
    yield_guessed: bool,
    station: f64,
}

/// What was worked out.
struct Worked<'a> {
    /// Radius to bend to for each yield, or why not.
    loaded: Result<[f64; 3], String>,
    /// The smallest radius the tube ever has.
    tightest: f64,
    limits: BendLimits,
    sprung: Sprung,
    dishing: Dishing,
    bender: Bender<'a>,
    bendable: Option<bool>,
    trim: f64,
    gauge: Option<[f64; 3]>,
}

/// Works out how to bend a tube to a crown: radius, template, radius under load, limits, and whether it needs a bender.
///
/// # Errors
/// [`BendError`]: something typed cannot be read or is not in the tables, or no arc goes through it. A tube that cannot
/// be bent so far is an answer, not an error.
///
/// # Examples
/// ```
/// use beam_core::ask::{bend, BendOptions, TypedTube};
/// use section_tables::Tables;
///
/// let answer = bend(
///     &BendOptions {
///         span: "84 in".into(),
///         rise: Some("3 in".into()),
///         ordinates: None,
///         tube: TypedTube::Row("1 1/2 x 1 1/2 x 1/8".into()),
///         alloy: "6061-T6".into(),
///         station: None,
///     },
///     Tables::shipped(),
/// )?;
/// assert_eq!(answer.bendable, Some(true));
/// let loaded = answer.loaded_radius.expect("it can be bent").get();
/// assert!(loaded < 0.4 * answer.radius.get(), "a gentle crown is bent much further than it stays");
/// # Ok::<(), beam_core::ask::BendError>(())
/// ```
pub fn bend(options: &BendOptions, tables: &Tables) -> Result<BendDocument, BendError> {
    let bend = reading::read(options, tables)?;
    let worked = work(&bend, tables)?;
    document(&bend, &worked, tables)
}

fn work<'a>(bend: &Bend<'_>, tables: &'a Tables) -> Result<Worked<'a>, BendError> {
    let e = bend.alloy.e_ksi * KSI;
    let radius = bend.arc.radius();
    let mut loaded = [0.0; 3];
    let mut why = None;
    for (found, yield_) in loaded.iter_mut().zip(bend.yields) {
        let metal = Metal::new(si(e), si(yield_))?;
        match bend.section.loaded_radius(metal, radius) {
            Ok(radius) => *found = radius.value,
            Err(error) => why = Some(error.to_string()),
        }
    }
    let loaded = why.map_or(Ok(loaded), Err);
    let tightest = loaded.as_ref().map_or(radius.value, |[.., high]| *high);
    let limits = BendLimits::new(si(bend.tube.depth), si(bend.alloy.elongation_percent / 100.0))?;
    let least = limits.governing().least_radius.value;
    let bender = Bender::of(tables, &bend.tube, tightest);
    let bendable = if radius.value < least || bender.refuses() {
        Some(false)
    } else if bend.alloy.id == NOT_KNOWN {
        None
    } else {
        Some(loaded.is_ok() && tightest >= least)
    };
    let sprung = Sprung::new(bend.section, si(e), si(bend.yields[0]), None, bend.arc)?;
    let clear = bend.tube.width - 2.0 * bend.tube.wall;
    let dishing = Dishing::new(si(clear), si(bend.tube.wall), si(tightest), si(bend.yields[2]), si(e))?;
    let gauge = loaded.as_ref().ok().and_then(|[_, typical, _]| gauge(bend, *typical));
    let trim = match bend.family {
        Family::Inch => 4.0 * INCH,
        Family::Metric => 0.1,
    };
    Ok(Worked { loaded, tightest, limits, sprung, dishing, bender, bendable, trim, gauge })
}

/// Chord of a short straight edge, and the height of both curves in its middle.
fn gauge(bend: &Bend<'_>, loaded: f64) -> Option<[f64; 3]> {
    let usual = match bend.family {
        Family::Inch => 24.0 * INCH,
        Family::Metric => 0.6,
    };
    let chord = usual.min(bend.arc.span().value / 2.0).min(loaded);
    let rise = |radius: Length| Arc::with_radius(si(chord), radius).ok().map(|arc| arc.rise().value);
    Some([chord, rise(bend.arc.radius())?, rise(si(loaded))?])
}

fn document(bend: &Bend<'_>, worked: &Worked<'_>, tables: &Tables) -> Result<BendDocument, BendError> {
    let arc = bend.arc;
    let metal = Metal::new(si(bend.alloy.e_ksi * KSI), si(bend.yields[1]))?;
    let loaded_strain = match &worked.loaded {
        Ok(_) => Some(bend.section.fibre_strain(si(worked.tightest))?.value),
        Err(_) => None,
    };
    let optional = |value: Option<f64>, what| value.map(|value| Finite::new(value, what)).transpose();
    let [least, typical, high] = bend.yields;
    Ok(BendDocument {
        schema: 1,
        made_with: MadeWith::new(tables, &[], None),
        read_in: ReadIn(bend.family),
        answer: words::answer(bend, worked),
        tube: bend.tube.name.clone(),
        alloy: bend.alloy.id.clone(),
        span: Finite::new(arc.span().value, "span")?,
        rise: Finite::new(arc.rise().value, "rise")?,
        radius: Finite::new(arc.radius().value, "radius")?,
        arc_length: Finite::new(arc.length().value, "arc length")?,
        end_angle: Finite::new(arc.end_angle().value, "end angle")?,
        cut_length: Finite::new(arc.length().value + 2.0 * worked.trim, "cut length")?,
        trim: Finite::new(worked.trim, "trim")?,
        stations: stations(bend, worked)?,
        gauge: match worked.gauge {
            Some([chord, offset, loaded_offset]) => Some(Gauge {
                chord: Finite::new(chord, "gauge")?,
                offset: Finite::new(offset, "gauge")?,
                loaded_offset: Finite::new(loaded_offset, "gauge")?,
            }),
            None => None,
        },
        loaded_radius: optional(worked.loaded.as_ref().ok().map(|[_, r, _]| *r), "loaded radius")?,
        loaded_radius_range: match &worked.loaded {
            Ok([large, _, small]) => {
                Some([Finite::new(*small, "loaded radius")?, Finite::new(*large, "loaded radius")?])
            }
            Err(_) => None,
        },
        yield_strength: [
            Finite::new(least, "yield strength")?,
            Finite::new(typical, "yield strength")?,
            Finite::new(high, "yield strength")?,
        ],
        first_yield_radius: Finite::new(bend.section.first_yield_radius(metal).value, "first yield radius")?,
        fibre_strain: Finite::new(bend.section.fibre_strain(arc.radius())?.value, "fibre strain")?,
        loaded_fibre_strain: optional(loaded_strain, "fibre strain")?,
        sprung_stress: Finite::new(worked.sprung.stress().value, "sprung stress")?,
        sprung_force: Finite::new(worked.sprung.force().value, "sprung force")?,
        needs_no_bender: worked.sprung.needs_no_bender(),
        bendable: worked.bendable,
        limits: limits(worked)?,
        dishing: Finite::new(worked.dishing.number().value, "dishing")?,
        fit: bend.fit.as_ref().map(fit).transpose()?,
        basis: basis(bend, worked),
        next_steps: words::next_steps(bend, worked),
        not_checked: words::not_checked(worked),
        assumptions: words::assumptions(bend).into_iter().chain(own_tables(tables)).collect(),
        cautions: words::cautions(bend, worked),
    })
}

/// Every so far from one end, with the middle and the other end.
fn stations(bend: &Bend<'_>, worked: &Worked<'_>) -> Result<Vec<Station>, NotFinite> {
    /// Nearer than this two stations are one: the sixteenth of an inch of a tape.
    const SAME: f64 = INCH / 16.0;
    let span = bend.arc.span().value;
    let whole = (span / bend.station).floor() as usize;
    let named = [span / 2.0, span];
    let mut places: Vec<f64> = (0..=whole).map(|i| i as f64 * bend.station).collect();
    places.retain(|x| named.iter().all(|name| (x - name).abs() >= SAME));
    places.extend(named);
    places.sort_by(f64::total_cmp);
    let loaded = worked.loaded.as_ref().ok().and_then(|[_, r, _]| Arc::with_radius(si(span), si(*r)).ok());
    places
        .into_iter()
        .map(|x| {
            Ok(Station {
                along_chord: Finite::new(x, "station")?,
                offset: Finite::new(bend.arc.offset_si(x), "offset")?,
                loaded_offset: loaded
                    .map(|arc| Finite::new(arc.offset_si(x), "loaded offset"))
                    .transpose()?,
            })
        })
        .collect()
}

fn limits(worked: &Worked<'_>) -> Result<Vec<LimitRow>, NotFinite> {
    let rules = [&worked.limits.elongation, &worked.limits.extruders];
    let rules = rules
        .into_iter()
        .map(|limit| {
            Ok(LimitRow {
                rule: limit.rule.to_owned(),
                least_radius: Finite::new(limit.least_radius.value, "least radius")?,
                kept: worked.loaded.is_ok() && worked.tightest >= limit.least_radius.value,
                basis: BasisWords {
                    source: limit.basis.source.to_string(),
                    kind: limit.basis.kind.to_string(),
                },
            })
        })
        .collect::<Result<Vec<_>, NotFinite>>()?;
    Ok(rules.into_iter().chain(worked.bender.row()?).collect())
}

fn fit(fit: &ArcFit) -> Result<Fit, NotFinite> {
    let (at, gap) = fit.worst();
    let shims = fit.shims().map(|(x, gap)| {
        Ok(Shim { along_chord: Finite::new(x.value, "shim")?, thickness: Finite::new(gap.value, "shim")? })
    });
    let shims: Vec<Shim> = shims.collect::<Result<_, NotFinite>>()?;
    Ok(Fit {
        worst_gap: Finite::new(gap.value, "gap")?,
        along_chord: Finite::new(at.value, "gap")?,
        shim_needed: !shims.is_empty(),
        shims,
    })
}

fn basis(bend: &Bend<'_>, worked: &Worked<'_>) -> BasisWords {
    let limit = &worked.limits.governing().basis;
    BasisWords {
        source: format!(
            "spring-back: plane sections, hollow section without hardening; yield: {}; limit: {}",
            bend.yield_source, limit.source
        ),
        kind: bend.yield_kind.max(limit.kind).max(BasisKind::Computed).to_string(),
    }
}
