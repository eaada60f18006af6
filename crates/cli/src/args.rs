//! The command line: arguments as typed, nothing resolved.

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Will a laminated vehicle roof hold, does it need a brace, and why.
///
/// From tape readings of a roof (thin skins on foam, a slight crown) written in a survey file, this program
/// says whether the roof holds the rooftop unit and the people on it, with braces and without. A check that
/// could not be made never counts as passed.
#[derive(Debug, Parser)]
#[command(name = "bracewright", version, propagate_version = false, arg_required_else_help = true)]
#[command(after_help = SHORT_END, after_long_help = TOP_END, subcommand_required = true)]
pub(crate) struct Cli {
    /// Colour in text: auto, always or never
    ///
    /// "auto" colours on a terminal only, and never where NO_COLOR is set. Colour only repeats what the words
    /// say already.
    #[arg(long, global = true, value_enum, default_value_t = Color::Auto, value_name = "WHEN")]
    pub(crate) color: Color,

    #[command(subcommand)]
    pub(crate) command: Command,
}

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Color {
    /// On a terminal.
    Auto,
    /// Everywhere.
    Always,
    /// Nowhere.
    Never,
}

impl From<Color> for anstream::ColorChoice {
    fn from(color: Color) -> anstream::ColorChoice {
        match color {
            Color::Auto => anstream::ColorChoice::Auto,
            Color::Always => anstream::ColorChoice::Always,
            Color::Never => anstream::ColorChoice::Never,
        }
    }
}

/// What is asked.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Will this roof hold, does it need a brace, and why
    ///
    /// Puts the unit, the people, the road and the weather on the surveyed roof, with its new braces and
    /// without them, and answers in words first: what holds, what does not, what cannot be said, and what
    /// to do next. Every limit is listed with its source.
    #[command(after_help = SHORT_END, after_long_help = CHECK_END)]
    Check(Check),
    /// Show the roof as it was read, without calculating anything
    ///
    /// Draws the plan, lists the layers from the weather side down and the braces, and shows every value as
    /// typed, in SI, and where it came from. Look at it before you trust an answer.
    #[command(after_help = SHORT_END, after_long_help = PLAN_END)]
    Plan(Plan),
    /// Where may a person stand, and on which board
    ///
    /// Tries a person at every place of the roof, both ways round, on top of what stays on it, and answers in words
    /// first: as found, and in the stage asked for. Then a map in lettered zones, the worst place, and the smallest
    /// stock board that does.
    #[command(after_help = SHORT_END, after_long_help = WALK_END)]
    Walk(Walk),
    /// Print a sheet to fill in on the roof
    ///
    /// One printed page for tape readings, make-up, damage, unit and people. A line left empty means "not
    /// known". The readings are then typed into a survey file.
    #[command(after_help = SHORT_END, after_long_help = SURVEY_END)]
    Survey(SurveySheet),
    /// List what is known about alloys, tubes, materials and the rest, and from where
    ///
    /// Without a name, lists the tables. Each row carries its source, and says whether that is published,
    /// computed, from memory, or common practice.
    #[command(after_help = SHORT_END, after_long_help = TABLES_END)]
    Tables(Tables),
}

/// Arguments of `check`.
#[derive(Debug, Args)]
pub(crate) struct Check {
    /// Survey file (TOML or JSON), or - for standard input
    ///
    /// The file describes one roof. "bracewright plan SURVEY" shows how it was read.
    #[arg(value_name = "SURVEY")]
    pub(crate) survey: String,
    /// Stage of the work to judge
    ///
    /// A name from the stages that the survey lists, or "as found" or "finished". Without it the finished roof
    /// is judged.
    #[arg(long, value_name = "NAME")]
    pub(crate) stage: Option<String>,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `plan`.
#[derive(Debug, Args)]
pub(crate) struct Plan {
    /// Survey file (TOML or JSON), or - for standard input
    ///
    /// The file describes one roof; nothing is calculated from it here.
    #[arg(value_name = "SURVEY")]
    pub(crate) survey: String,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `walk`.
#[derive(Debug, Args)]
pub(crate) struct Walk {
    /// Survey file (TOML or JSON), or - for standard input
    ///
    /// The file describes one roof. Its [person] says how heavy, how many, and on which board.
    #[arg(value_name = "SURVEY")]
    pub(crate) survey: String,
    /// Stage of the work to walk in
    ///
    /// A name from the stages that the survey lists, or "as found" or "finished". Without it the finished roof is
    /// walked on. The roof as found is answered for in any case.
    #[arg(long, value_name = "NAME")]
    pub(crate) stage: Option<String>,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `survey`.
#[derive(Debug, Args)]
pub(crate) struct SurveySheet {
    /// Print the empty sheet
    ///
    /// One side of paper: at most 60 lines of 80 columns.
    #[arg(long, required = true)]
    pub(crate) blank: bool,
    /// Inches and pounds on the sheet (default)
    ///
    /// Spaces and examples are in inches and pounds.
    #[arg(long, conflicts_with = "metric")]
    pub(crate) inch: bool,
    /// Millimetres and kilograms on the sheet
    ///
    /// Spaces and examples are in millimetres and kilograms.
    #[arg(long)]
    pub(crate) metric: bool,
}

/// Arguments of `tables`.
#[derive(Debug, Args)]
pub(crate) struct Tables {
    /// Table to list
    ///
    /// Without it, the tables themselves are listed.
    #[arg(value_enum, value_name = "TABLE")]
    pub(crate) table: Option<TableName>,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// The tables there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum TableName {
    /// Aluminium alloys and tempers: strengths, moduli, density
    Alloys,
    /// Stock tubes: outside sizes, wall, corner
    Tubes,
    /// Skins, cores and timber: stiffness, strength, density, creep
    Materials,
    /// Usual make-ups of roofs, layer by layer
    BuildUps,
    /// What is left of a damaged layer
    Damage,
    /// Glues: shear strength, heat limit, cure
    Adhesives,
    /// Safety, load and duration factors
    Factors,
    /// Documents and habits that the numbers come from
    Sources,
}

/// How to write the answer.
#[derive(Debug, Args)]
pub(crate) struct Output {
    /// text for people, json for programs
    ///
    /// JSON is in SI throughout (m, N, Pa, kg) whatever the survey was written in.
    #[arg(long, value_enum, default_value_t = Format::Text, value_name = "FORMAT")]
    pub(crate) format: Format,
}

/// Form of the answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// Words and tables for people.
    Text,
    /// JSON for programs.
    Json,
}

const SHORT_END: &str = "\
Exit status: 0 holds or found, 1 does not, 2 cannot say, 3 input or command line wrong, 4 not written.
--help says more.";

macro_rules! with_exit_status {
    ($examples:literal) => {
        concat!(
            $examples,
            "

Exit status:
  0  what was asked holds, or was found
  1  it does not
  2  cannot say: something needed is not known
  3  the survey or the command line is wrong; nothing was computed
  4  computed, but the answer could not be written"
        )
    };
}

const TOP_END: &str = with_exit_status!(
    "Examples:
  bracewright survey --blank > sheet.txt       a sheet to fill in on the roof
  bracewright plan theatre.toml                was it read as it was meant?
  bracewright check theatre.toml               does the roof hold, does it need a brace?
  bracewright tables build-ups                 make-ups to write after `like =`"
);

const CHECK_END: &str = with_exit_status!(
    "Examples:
  bracewright check theatre.toml
  bracewright check theatre.toml --stage \"as found\"
  bracewright check theatre.toml --format json > theatre.json
  cat theatre.toml | bracewright check -

Here 1 means that the verdict is \"brace needed\", \"brace too weak\" or \"does not hold\"."
);

const PLAN_END: &str = with_exit_status!(
    "Examples:
  bracewright plan theatre.toml
  bracewright plan theatre.toml --format json"
);

const WALK_END: &str = with_exit_status!(
    "Examples:
  bracewright walk theatre.toml
  bracewright walk theatre.toml --stage \"as found\"
  bracewright walk theatre.toml --format json > places.json

Here 0 means that every place outside the edge strip of an opening holds as surveyed, or does on the board that
was found; 1 that some place fails on every board; 2 that nobody can say, so keep off."
);

const SURVEY_END: &str = with_exit_status!(
    "Examples:
  bracewright survey --blank
  bracewright survey --blank --metric > sheet.txt"
);

const TABLES_END: &str = with_exit_status!(
    "Examples:
  bracewright tables
  bracewright tables materials
  bracewright tables tubes --format json"
);

#[cfg(test)]
mod tests {
    use super::Cli;
    use clap::CommandFactory;

    #[test]
    fn clap_finds_no_contradiction() {
        Cli::command().debug_assert();
    }

    /// `-h` fits a screen because each option has a short text; `--help` has the long one.
    #[test]
    fn every_option_has_a_short_and_a_long_text() {
        for command in Cli::command().get_subcommands() {
            assert!(
                command.get_about().is_some() && command.get_long_about().is_some(),
                "{}",
                command.get_name()
            );
            for argument in command.get_arguments().filter(|argument| argument.get_id() != "help") {
                let texts = argument.get_help().is_some() && argument.get_long_help().is_some();
                assert!(texts, "{} {}", command.get_name(), argument.get_id());
            }
        }
    }
}
