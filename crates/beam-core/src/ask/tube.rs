//! What is this tube worth: properties and strength by the rules named.

mod adm;
mod document;
mod en1999;
mod found;
mod words;

pub use document::{Bending, Properties, TubeAnswer, TubeBasis, TubeSize, TubeStrength};

use crate::check::{Finite, MadeWith, NotFinite, own_tables};
use crate::loads::partial_factors;
use crate::quantity::{INCH, Length};
use crate::section::Hollow;
use crate::strength::OutOfRange;
use crate::strength::aluminium::RectangularTube;
use crate::survey::AluminiumRules;
use section_tables::{NotFound, Tables, TubeSystem};

/// The tube asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum TubeSection {
    /// A row of the tables, by its id or another name.
    Named(String),
    /// A tube as measured.
    Measured {
        /// Outside, across the bending plane.
        width: Length,
        /// Outside, in the bending plane.
        depth: Length,
        /// Wall.
        wall: Length,
        /// Outside corner radius; 0 is sharp.
        corner: Length,
    },
}

/// What is asked of [`tube()`].
#[derive(Debug, Clone, PartialEq)]
pub struct TubeQuestion {
    /// Tube.
    pub section: TubeSection,
    /// Alloy and temper, by id or another name.
    pub alloy: String,
    /// Between its ends, which are held in place.
    pub length: Length,
    /// Distance between points where it is held sideways, if nearer than its ends.
    pub held_every: Option<Length>,
    /// Rule book.
    pub rules: AluminiumRules,
    /// A weld across the tube, from one end.
    pub weld_at: Option<Length>,
    /// National values of `gamma_M1` and `gamma_M2` of EN 1999-1-1; the recommended ones if absent.
    pub partial_factors: [Option<f64>; 2],
}

/// Why a question about a tube is no question.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TubeError {
    /// No such tube or alloy.
    #[error(transparent)]
    NotFound(#[from] NotFound),
    /// A measure that cannot be.
    #[error("{what} is {value} m; {allowed}")]
    Measure {
        /// Which.
        what: &'static str,
        /// What was given.
        value: f64,
        /// What can be.
        allowed: &'static str,
    },
    /// A tube that cannot be.
    #[error(transparent)]
    Section(#[from] OutOfRange),
    /// Partial factors of EN 1999-1-1 beside another book.
    #[error("gamma_M1 and gamma_M2 are factors of EN 1999-1-1: leave them out, or choose that rule book")]
    FactorsOfAnotherBook,
    /// A number came out that is none.
    #[error(transparent)]
    NotFinite(#[from] NotFinite),
}

/// The tube, the lengths and the weld, looked over.
struct Case {
    tube: RectangularTube,
    length: Length,
    held: Length,
    weld_at: Option<Length>,
}

/// What a tube is worth: section properties, and its strength in tension, compression, bending and shear.
///
/// Bending is about the horizontal axis, `depth` upright. Held sideways or not, in compression it may buckle upright
/// over its whole length. The wall is taken as given.
///
/// # Errors
/// [`TubeError`] for a tube or alloy that the tables do not know and measures that cannot be. What a rule does not
/// speak about is no error: it stands under `not_checked` with its clause, its number is absent, and
/// [`TubeAnswer::cannot_say`] is true.
///
/// # References
/// ADM 2020 chapters D to G; EN 1999-1-1:2007 6.2, 6.3.
///
/// # Examples
/// 1 1/2 x 1 1/2 x 1/8 in of 6061-T6 over 90 in: 6.338 kip-in, governed by lateral-torsional buckling.
/// ```
/// use beam_core::ask::{tube, TubeQuestion, TubeSection};
/// use beam_core::quantity::si;
/// use beam_core::survey::AluminiumRules;
/// use section_tables::Tables;
///
/// let answer = tube(
///     &TubeQuestion {
///         section: TubeSection::Named("1-1/2 x 1-1/2 x 1/8".to_owned()),
///         alloy: "6061-T6".to_owned(),
///         length: si(90.0 * 0.0254),
///         held_every: None,
///         rules: AluminiumRules::Adm2020Asd,
///         weld_at: None,
///         partial_factors: [None; 2],
///     },
///     Tables::shipped(),
/// )?;
/// let bending = answer.strength.bending.expect("within the rules");
/// assert!((bending.least.get() / 112.9848 - 6.338).abs() < 0.001);
/// # Ok::<(), beam_core::ask::TubeError>(())
/// ```
pub fn tube(question: &TubeQuestion, tables: &Tables) -> Result<TubeAnswer, TubeError> {
    if let Some((what, value, allowed)) = question.section.beyond_belief() {
        return Err(TubeError::Measure { what, value, allowed });
    }
    let (row, sizes) = question.section.read(tables)?;
    let [width, depth, wall, corner] = sizes;
    let si = crate::quantity::si;
    let case = Case {
        tube: RectangularTube::new(si(width), si(depth), si(wall))?.with_corner(si(corner))?,
        length: question.length,
        held: question.held_every.unwrap_or(question.length),
        weld_at: question.weld_at,
    };
    lengths(&case)?;
    if question.rules != AluminiumRules::En1999 && question.partial_factors != [None; 2] {
        return Err(TubeError::FactorsOfAnotherBook);
    }
    let found = match question.rules {
        AluminiumRules::Adm2020Asd => adm::judge(&case, question, tables, false)?,
        AluminiumRules::Adm2020Lrfd => adm::judge(&case, question, tables, true)?,
        AluminiumRules::En1999 => en1999::judge(&case, question, tables)?,
    };
    let rules = question.rules.name();
    let finite = |value: f64, what: &str| Finite::new(value, what);
    Ok(TubeAnswer {
        schema: 1,
        made_with: MadeWith::new(tables, &[rules], None),
        tube: row.unwrap_or_else(|| measured(sizes)),
        size: TubeSize {
            width: finite(width, "width")?,
            depth: finite(depth, "depth")?,
            wall: finite(wall, "wall")?,
            corner: finite(corner, "corner radius")?,
        },
        alloy: found.alloy.clone(),
        rules: rules.to_owned(),
        length: finite(case.length.value, "length")?,
        held_every: finite(case.held.value, "held length")?,
        properties: properties(sizes, found.density)?,
        strength: found.strength()?,
        class: found.class,
        class_in_compression: found.class_in_compression,
        basis: found.basis()?,
        assumptions: words::assumptions(
            &case,
            question,
            corner,
            partial_factors(question.partial_factors, tables)?,
        )
        .into_iter()
        .chain(own_tables(tables))
        .collect(),
        cautions: words::cautions(&case, question, &found),
        not_checked: found.gaps,
    })
}

impl TubeSection {
    /// The id of its row, if it has one, and width, depth, wall and corner in m.
    pub(super) fn read(&self, tables: &Tables) -> Result<(Option<String>, [f64; 4]), NotFound> {
        match self {
            Self::Named(name) => {
                let row = tables.tube(name)?;
                let unit = match row.system {
                    TubeSystem::Inch => INCH,
                    TubeSystem::Metric => 1e-3,
                };
                Ok((Some(row.id.clone()), [row.width, row.depth, row.wall, row.corner].map(|v| v * unit)))
            }
            Self::Measured { width, depth, wall, corner } => {
                Ok((None, [width, depth, wall, corner].map(|v| v.value)))
            }
        }
    }
}

/// `40.000 x 60.000 x 3.0000 mm`.
fn measured([width, depth, wall, _]: [f64; 4]) -> String {
    let [width, depth, wall] = [width, depth, wall].map(|v| crate::quantity::significant(v * 1e3, 5));
    format!("{width} x {depth} x {wall} mm")
}

impl TubeSection {
    /// Whether a measured tube is one of this world: a wall from 0.3 mm, a side up to half a metre; what is not, in words
    /// with its size in m.
    pub(super) fn beyond_belief(&self) -> Option<(&'static str, f64, &'static str)> {
        let Self::Measured { width, depth, wall, .. } = self else { return None };
        if wall.value > 0.0 && wall.value < 0.3e-3 {
            return Some(("the wall", wall.value, "tube walls are 0.3 mm (1/64 in) or more; check the unit"));
        }
        let side = width.value.max(depth.value);
        (side > 0.5).then_some((
            "the side",
            side,
            "tubes are at most 0.5 m (20 in) wide and deep; check the unit",
        ))
    }
}

/// Lengths longer than this belong to no vehicle, m; the buckling curves are made for members that are built.
pub(super) const LONGEST: f64 = 30.0;

fn lengths(case: &Case) -> Result<(), TubeError> {
    let (length, held) = (case.length.value, case.held.value);
    let refuse = |what, value, allowed| Err(TubeError::Measure { what, value, allowed });
    if !(length > 0.0 && length <= LONGEST) {
        return refuse("the length", length, "it must be above 0 and at most 30 m");
    }
    if !(held > 0.0 && held <= length) {
        return refuse("the held length", held, "it must be above 0 and no more than the length");
    }
    match case.weld_at.map(|x| x.value) {
        Some(x) if !(0.0..=length).contains(&x) => {
            refuse("the place of the weld", x, "it is counted from one end and must lie on the tube")
        }
        _ => Ok(()),
    }
}

fn properties(sizes: [f64; 4], density: Option<f64>) -> Result<Properties, TubeError> {
    let [width, depth, wall, corner] = sizes;
    // Looked over as a `RectangularTube` already.
    let solid = Hollow::tube_si(width, depth, wall, corner)
        .map_err(|e| OutOfRange::new("rectangular tube", "corner radius (m)", corner, e.to_string()))?;
    let p = solid.properties_si();
    Ok(Properties {
        area: Finite::new(p.area, "area")?,
        second_moment: Finite::new(p.second_moment, "second moment")?,
        elastic_modulus: Finite::new(p.elastic, "elastic modulus")?,
        plastic_modulus: Finite::new(p.plastic, "plastic modulus")?,
        radius_of_gyration: Finite::new(p.gyration, "radius of gyration")?,
        torsion_constant: Finite::new(p.torsion, "torsion constant")?,
        shear_area: Finite::new(p.shear_area, "shear area")?,
        mass_per_length: density.map(|d| Finite::new(p.area * d, "mass per length")).transpose()?,
    })
}

#[cfg(test)]
mod tests;
