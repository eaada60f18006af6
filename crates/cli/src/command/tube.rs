//! `tube`: lengths as typed become a question, the answer is laid out.

use beam_core::ask::{self, TubeQuestion, TubeSection};
use beam_core::quantity::{Family, Headers, Length, read_length};
use beam_core::survey::AluminiumRules;
use section_tables::Tables;

use super::{Answer, Outcome, Refusal, refuse, unwritable};
use crate::args::{self, Format, Rules};
use crate::exit::Exit;
use crate::print::{json, text};
use crate::terminal;

/// `tube`.
pub(crate) fn tube(args: &args::Tube) -> Outcome {
    let question = question(args)?;
    let answer = ask::tube(&question, Tables::shipped()).map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::tube(&answer, family(&args.length), terminal::width()),
        Format::Json => json::tube(&answer).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: if answer.cannot_say() { Exit::CannotSay } else { Exit::Holds } })
}

fn question(args: &args::Tube) -> Result<TubeQuestion, Refusal> {
    let given =
        |option: &str, value: &Option<String>| value.as_deref().map(|v| length(option, v)).transpose();
    let section = match (&args.tube, &args.outside, &args.wall) {
        (None, Some(outside), Some(wall)) => {
            let [width, depth] = outside_measures(outside)?;
            let corner = given("--corner", &args.corner)?.unwrap_or_default();
            TubeSection::Measured { width, depth, wall: length("--wall", wall)?, corner }
        }
        // Without the one, the other is there: arguments are read so.
        (name, ..) => TubeSection::Named(name.clone().unwrap_or_default()),
    };
    Ok(TubeQuestion {
        section,
        alloy: args.alloy.clone(),
        length: length("--length", &args.length)?,
        held_every: given("--held-every", &args.held_every)?,
        rules: match args.rules {
            Rules::AdmAsd => AluminiumRules::Adm2020Asd,
            Rules::AdmLrfd => AluminiumRules::Adm2020Lrfd,
            Rules::En1999 => AluminiumRules::En1999,
        },
        weld_at: given("--weld-at", &args.weld_at)?,
    })
}

fn length(option: &str, text: &str) -> Result<Length, Refusal> {
    read_length(text, Headers::default())
        .map_err(|error| refuse(Exit::WrongInput, &format!("{option}: {error}")))
}

/// `W x D`: a unit at the end serves both, where the first has none.
fn outside_measures(outside: &str) -> Result<[Length; 2], Refusal> {
    let parts: Vec<&str> = outside.split(['x', 'X', '×']).map(str::trim).collect();
    let [width, depth] = parts[..] else {
        let why = format!("--outside \"{outside}\": write width x depth, as \"40 mm x 60 mm\"");
        return Err(refuse(Exit::WrongInput, &why));
    };
    let bare = width.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '/' | ' ' | '-'));
    let unit = depth.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | ' ' | '-'));
    let width = if bare { format!("{width} {unit}") } else { width.to_owned() };
    Ok([length("--outside", &width)?, length("--outside", depth)?])
}

/// Text answers in the quantities the length was typed in: metres and millimetres, else inches.
fn family(length: &str) -> Family {
    let unit = length.trim_start_matches(|c: char| !c.is_alphabetic()).trim_end();
    if matches!(unit, "m" | "mm" | "cm") { Family::Metric } else { Family::Inch }
}

#[cfg(test)]
mod tests {
    use super::{family, outside_measures};
    use beam_core::quantity::Family;

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

    #[test]
    fn answers_come_in_the_quantities_of_the_length() {
        assert_eq!(family("2.3 m"), Family::Metric);
        assert_eq!(family("2300mm"), Family::Metric);
        assert_eq!(family("7 ft 6 in"), Family::Inch);
        assert_eq!(family("90\""), Family::Inch);
    }
}
