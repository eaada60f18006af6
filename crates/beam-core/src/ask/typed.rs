//! Quantities and tubes as typed beside a question, for those questions that need no survey.

use super::TubeSection;
use crate::quantity::{Headers, Length, QuantityError, read_length, si};
use section_tables::{NotFound, Tables};

/// A tube as typed: a row of the tables, or its own measures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TypedTube {
    /// The name of a row: `1 1/2 x 1 1/2 x 1/8`.
    Row(String),
    /// Its own measures.
    Own {
        /// Width and depth, `x` between them: `1 1/2 in x 1 1/2 in`.
        outside: String,
        /// Wall.
        wall: String,
        /// Outside corner radius; sharp if absent.
        corner: Option<String>,
    },
}

/// What is wrong with something typed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TypedError {
    /// A quantity that cannot be read.
    #[error("{what}: {fault}")]
    Quantity {
        /// What it was typed for.
        what: &'static str,
        /// What is wrong with it.
        fault: QuantityError,
    },
    /// An outside that is not two lengths.
    #[error(
        "outside: \"{0}\" is not a width and a depth; write \"1 1/2 in x 1 1/2 in\" or \"40 mm x 40 mm\""
    )]
    Outside(String),
    /// A length that nothing of the kind has.
    #[error("{what} is \"{typed}\"; allowed: {allowed}; check the unit")]
    Implausible {
        /// What it was typed for.
        what: &'static str,
        /// As typed.
        typed: String,
        /// What is allowed.
        allowed: &'static str,
    },
    /// No such row.
    #[error(transparent)]
    NotFound(#[from] NotFound),
}

/// A tube that was read: m.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ReadTube {
    pub(super) name: String,
    pub(super) width: f64,
    pub(super) depth: f64,
    pub(super) wall: f64,
    pub(super) corner: f64,
}

/// Reads a length; the unit must be there.
pub(super) fn length(what: &'static str, typed: &str) -> Result<Length, TypedError> {
    read_length(typed, Headers::default()).map_err(|fault| TypedError::Quantity { what, fault })
}

/// Reads a length that must lie in a range, m.
pub(super) fn length_within(
    what: &'static str,
    typed: &str,
    range: std::ops::RangeInclusive<f64>,
    allowed: &'static str,
) -> Result<Length, TypedError> {
    let length = length(what, typed)?;
    if range.contains(&length.value) {
        Ok(length)
    } else {
        Err(TypedError::Implausible { what, typed: typed.to_owned(), allowed })
    }
}

impl TypedTube {
    pub(super) fn read(&self, tables: &Tables) -> Result<ReadTube, TypedError> {
        const SIDE: &str = "5 mm to 200 mm (1/4 in to 7 7/8 in)";
        const WALL: &str = "0.5 mm to 20 mm (1/32 in to 25/32 in)";
        match self {
            Self::Row(name) => {
                let (row, [width, depth, wall, corner]) = TubeSection::Named(name.clone()).read(tables)?;
                Ok(ReadTube { name: row.unwrap_or_default(), width, depth, wall, corner })
            }
            Self::Own { outside, wall: typed_wall, corner } => {
                let sides: Vec<&str> = outside.split(['x', 'X', '×']).map(str::trim).collect();
                let &[width, depth] = sides.as_slice() else {
                    return Err(TypedError::Outside(outside.clone()));
                };
                let side = |typed| length_within("outside", typed, 0.005..=0.2, SIDE);
                let corner = match corner {
                    Some(typed) => length_within("corner", typed, 0.0..=0.1, "0 to half the smaller side")?,
                    None => si(0.0),
                };
                Ok(ReadTube {
                    name: format!("{width} x {depth} x {typed_wall}"),
                    width: side(width)?.value,
                    depth: side(depth)?.value,
                    wall: length_within("wall", typed_wall, 0.5e-3..=0.02, WALL)?.value,
                    corner: corner.value,
                })
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn own(outside: &str, wall: &str) -> Result<ReadTube, TypedError> {
        TypedTube::Own { outside: outside.into(), wall: wall.into(), corner: None }.read(Tables::shipped())
    }

    #[test]
    fn a_row_and_its_own_measures_are_the_same_tube() {
        let row = TypedTube::Row("1-1/2 x 1-1/2 x 1/8".into()).read(Tables::shipped()).unwrap();
        let typed = own("1 1/2 in x 38.1 mm", "1/8 in").unwrap();
        assert_relative_eq!(row.width, typed.width, max_relative = 1e-15);
        assert_relative_eq!(row.depth, typed.depth, max_relative = 1e-15);
        assert_relative_eq!(row.wall, typed.wall, max_relative = 1e-15);
    }

    #[test]
    fn what_is_no_tube_says_what_to_write() {
        assert!(own("40 mm", "3 mm").unwrap_err().to_string().contains("40 mm x 40 mm"));
        assert!(own("40 mm x 40 m", "3 mm").unwrap_err().to_string().contains("check the unit"));
        assert!(own("40 x 40", "3 mm").is_err());
        assert!(own("40 mm x 40 mm", "3").is_err());
    }
}
