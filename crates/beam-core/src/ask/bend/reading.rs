//! From what was typed to what is to be bent.

use super::{Bend, BendOptions};
use crate::ask::typed::{ReadTube, TypedError, length, length_within};
use crate::check::NotFinite;
use crate::forming::{Arc, ArcFit, BentSection, FormingError, Ordinates};
use crate::quantity::{Family, INCH, KSI, Length, si};
use crate::section::{Hollow, SectionError};
use crate::strength::BasisKind;
use section_tables::{Alloy, Tables};

/// Without a row of yields as met: typical and high over the minimum (common practice, no source).
const TYPICAL_OVER_LEAST: f64 = 1.15;
const HIGH_OVER_LEAST: f64 = 1.30;
/// More stations than this are no help on the floor.
const MOST_STATIONS: f64 = 100.0;

/// Why nothing could be worked out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BendError {
    /// Something typed cannot be read, or is in no table.
    #[error(transparent)]
    Typed(#[from] TypedError),
    /// Nothing says how high the crown is.
    #[error(
        "neither rise nor ordinates are given: measure the crown in the middle, or every foot along a string"
    )]
    NoCrown,
    /// The measures make no tube.
    #[error(transparent)]
    Section(#[from] SectionError),
    /// The wall is thicker than the alloy's strengths are given for.
    #[error(
        "wall is {wall_in:.3} in; {alloy} is in the tables for walls up to {most_in} in; take an alloy of that product"
    )]
    Wall {
        /// Wall, in.
        wall_in: f64,
        /// Alloy.
        alloy: String,
        /// Thickest wall of its row, in.
        most_in: f64,
    },
    /// No arc, or outside what a rule holds for.
    #[error(transparent)]
    Forming(#[from] FormingError),
    /// A number came out that is none.
    #[error(transparent)]
    NotFinite(#[from] NotFinite),
}

pub(super) fn read<'a>(options: &BendOptions, tables: &'a Tables) -> Result<Bend<'a>, BendError> {
    const SPAN: &str = "300 mm to 3.5 m (12 in to 137 in)";
    let span = length_within("span", &options.span, 0.3..=3.5, SPAN)?;
    let family = Family::of_length(&options.span);
    let alloy = tables.alloy(&options.alloy).map_err(TypedError::from)?;
    let tube = options.tube.read(tables)?;
    // The section's own rules about wall and corner come first: they say more.
    Hollow::tube_si(tube.width, tube.depth, tube.wall, tube.corner)?;
    let section = BentSection::tube(si(tube.width), si(tube.depth), si(tube.wall))?;
    wall_in_range(&tube, alloy)?;
    let (arc, fit) = arc(options, span)?;
    let (yields, yield_source, yield_kind, yield_guessed) = yields(alloy, tables);
    let station = match &options.station {
        Some(typed) => {
            let least = span.value / MOST_STATIONS;
            length_within("station", typed, least..=span.value, "a hundredth of the span to the span")?.value
        }
        None => match family {
            Family::Inch => 12.0 * INCH,
            Family::Metric => 0.3,
        },
    };
    Ok(Bend {
        family,
        arc,
        fit,
        tube,
        section,
        alloy,
        yields,
        yield_source,
        yield_kind,
        yield_guessed,
        station,
    })
}

fn wall_in_range(tube: &ReadTube, alloy: &Alloy) -> Result<(), BendError> {
    let wall_in = tube.wall / INCH;
    if wall_in > alloy.wall_max_in {
        return Err(BendError::Wall { wall_in, alloy: alloy.id.clone(), most_in: alloy.wall_max_in });
    }
    Ok(())
}

/// A given rise decides; ordinates alone are met by the arc nearest to them.
fn arc(options: &BendOptions, span: Length) -> Result<(Arc, Option<ArcFit>), BendError> {
    let rise = options.rise.as_deref().map(|typed| length("rise", typed)).transpose()?;
    let given = rise.map(|rise| Arc::new(span, rise)).transpose()?;
    let Some(typed) = &options.ordinates else {
        return given.map(|arc| (arc, None)).ok_or(BendError::NoCrown);
    };
    let heights = typed.split(',').map(|one| length("ordinates", one.trim()));
    let ordinates = Ordinates::new(span, &heights.collect::<Result<Vec<_>, _>>()?)?;
    let fit = match given {
        Some(arc) => ordinates.against(arc)?,
        None => ordinates.nearest_arc()?,
    };
    Ok((fit.arc(), Some(fit)))
}

/// Least, typical and high yield, Pa; their source; whether they are guessed from the minimum.
fn yields(alloy: &Alloy, tables: &Tables) -> ([f64; 3], String, BasisKind, bool) {
    let least = alloy.f_ty_ksi * KSI;
    let minimum = cited(tables, &alloy.source);
    match tables.yield_met(alloy) {
        Ok(met) => {
            let kind = BasisKind::from(met.kind).max(alloy.kind.into());
            let source = format!("{minimum}, {}", cited(tables, &met.source));
            ([least, met.typical_ksi * KSI, met.high_ksi * KSI], source, kind, false)
        }
        Err(_) => {
            let yields = [least, TYPICAL_OVER_LEAST * least, HIGH_OVER_LEAST * least];
            (yields, format!("{minimum}, usual scatter"), BasisKind::Practice, true)
        }
    }
}

/// Who stands behind source keys: author and year.
fn cited(tables: &Tables, keys: &str) -> String {
    let author = |key: &str| {
        tables.source(key.trim()).map_or_else(
            |_| key.trim().to_owned(),
            |source| format!("{} {}", source.author, source.year).trim().to_owned(),
        )
    };
    keys.split(';').map(author).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::super::{BendError, bend};
    use super::BendOptions;
    use crate::ask::TypedTube;
    use section_tables::Tables;

    fn options(alloy: &str, wall: &str) -> BendOptions {
        BendOptions {
            span: "2.1 m".into(),
            rise: Some("60 mm".into()),
            ordinates: None,
            tube: TypedTube::Own {
                outside: "40 mm x 40 mm".into(),
                wall: wall.into(),
                corner: Some("3 mm".into()),
            },
            alloy: alloy.into(),
            station: None,
        }
    }

    /// A shop's own alloy has no yields as met: they are guessed, and that is said.
    #[test]
    fn a_guessed_scatter_is_told() {
        let mut tables = Tables::shipped().clone();
        tables.yields_met.clear();
        let answer = bend(&options("6063-T6", "3 mm"), &tables).unwrap();
        let codes: Vec<&str> = answer.assumptions.iter().map(|words| words.code.as_str()).collect();
        assert!(codes.contains(&"default-yield-scatter") && codes.contains(&"sharp-corners"), "{codes:?}");
        assert_eq!(answer.basis.kind, "practice");
        let [least, typical, high] = answer.yield_strength.map(|y| y.get());
        assert!(least < typical && typical < high);
        let met = bend(&options("6063-T6", "3 mm"), Tables::shipped()).unwrap();
        assert_eq!(met.basis.kind, "memory");
        assert!(met.basis.source.contains("Aluminum Association 2020"), "{}", met.basis.source);
    }

    #[test]
    fn a_wall_beyond_the_alloys_product_is_refused() {
        let error = bend(&options("6063-T5", "14 mm"), Tables::shipped()).unwrap_err();
        assert!(matches!(error, BendError::Wall { .. }), "{error}");
        let error = bend(&options("6063-T5", "20 mm"), Tables::shipped()).unwrap_err();
        assert!(matches!(error, BendError::Section(_)), "{error}");
    }
}
