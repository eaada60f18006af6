//! A tube on the command line: by its name in the tables, or as measured.

use beam_core::ask::{TubeSection, TypedTube};
use beam_core::quantity::{Headers, Length, QuantityError, read_length};
use clap::Args;

use crate::command::{Refusal, refuse};
use crate::exit::Exit;

/// Which tube, and of what.
#[derive(Debug, Args)]
pub(crate) struct SectionArgs {
    /// Tube of the tables, as "1 x 1 x 1/8"
    ///
    /// "bracewright tables tubes" lists them. The size that stands upright comes second.
    #[arg(long, value_name = "TUBE", required_unless_present = "outside", conflicts_with = "outside")]
    tube: Option<String>,
    /// Measured tube instead, as "40 mm x 60 mm"; needs --wall
    ///
    /// Outside width first, then the depth that stands upright; each with its unit, or one unit at the end for both.
    #[arg(long, value_name = "W x D", requires = "wall")]
    outside: Option<String>,
    /// Wall thickness, with --outside
    ///
    /// With its unit, as "3 mm" or "1/8 in". It is taken as given, without a tolerance.
    #[arg(long, value_name = "WALL", requires = "outside", conflicts_with = "tube", hide_short_help = true)]
    wall: Option<String>,
    /// Outside corner radius, with --outside (sharp if absent)
    ///
    /// With its unit. Most extruded tube has sharp outside corners, drawn and seamed tube has not.
    #[arg(
        long,
        value_name = "RADIUS",
        requires = "outside",
        conflicts_with = "tube",
        hide_short_help = true
    )]
    corner: Option<String>,
    /// Alloy and temper, as 6061-T6
    ///
    /// "bracewright tables alloys" lists them.
    #[arg(long, value_name = "ALLOY")]
    pub(crate) alloy: String,
}

impl SectionArgs {
    /// The tube asked for.
    pub(crate) fn section(&self) -> Result<TubeSection, Refusal> {
        match (&self.tube, &self.outside, &self.wall) {
            (None, Some(outside), Some(wall)) => {
                let [width, depth] = outside_measures(outside)?;
                let corner =
                    self.corner.as_deref().map_or(Ok(Length::default()), |text| length("--corner", text))?;
                Ok(TubeSection::Measured { width, depth, wall: length("--wall", wall)?, corner })
            }
            // Without the one, the other is there: arguments are read so.
            (name, ..) => Ok(TubeSection::Named(name.clone().unwrap_or_default())),
        }
    }
}

impl From<&SectionArgs> for TypedTube {
    /// The tube asked for, as typed.
    fn from(args: &SectionArgs) -> Self {
        match (&args.outside, &args.wall) {
            (Some(outside), Some(wall)) => {
                Self::Own { outside: outside.clone(), wall: wall.clone(), corner: args.corner.clone() }
            }
            // Without the one, the other is there: arguments are read so.
            _ => Self::Row(args.tube.clone().unwrap_or_default()),
        }
    }
}

/// A length as typed after an option.
pub(crate) fn length(option: &str, text: &str) -> Result<Length, Refusal> {
    read_length(text, Headers::default()).map_err(|error| unreadable(option, text, &error))
}

/// Why what was typed after an option is no quantity.
pub(crate) fn unreadable(option: &str, text: &str, error: &QuantityError) -> Refusal {
    refuse(Exit::WrongInput, &format!("{option} \"{text}\": {error}"))
}

/// `W x D`: a unit at the end serves both, where the first has none.
fn outside_measures(outside: &str) -> Result<[Length; 2], Refusal> {
    let parts: Vec<&str> = outside.split(['x', 'X', '×']).map(str::trim).collect();
    let [width, depth] = parts[..] else {
        let why = format!("--outside \"{outside}\": write width x depth, as \"40 mm x 60 mm\"");
        return Err(refuse(Exit::WrongInput, &why));
    };
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | ' ' | '-');
    let unit = depth.trim_start_matches(of_number);
    let width = if width.chars().all(of_number) { format!("{width} {unit}") } else { width.to_owned() };
    Ok([length("--outside", &width)?, length("--outside", depth)?])
}

#[cfg(test)]
mod tests {
    use super::outside_measures;

    #[test]
    fn outside_is_read_with_one_unit_or_two() {
        for text in ["40 mm x 60 mm", "40 x 60 mm", "4 cm × 0.06 m"] {
            let [width, depth] = outside_measures(text).map_err(|r| r.text).unwrap();
            assert!((width.value - 0.04).abs() < 1e-12 && (depth.value - 0.06).abs() < 1e-12, "{text}");
        }
        for text in ["40 x 60", "40 mm", "40 mm x 60 mm x 3 mm", "40 mm x 60", "", "x"] {
            assert!(outside_measures(text).is_err(), "{text}");
        }
    }
}
