//! The command line: arguments as typed, nothing resolved.

use beam_core::survey::AluminiumRules;
use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::own_tables::OwnTables;
use crate::section_args::SectionArgs;

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
    #[arg(long, global = true, value_enum, default_value_t = Color::Auto, value_name = "WHEN", hide_possible_values = true)]
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
    /// How to bend a tube to a crown: radius, template, spring-back, limits
    ///
    /// A crown is gentle: a tube bent to it springs back almost straight and has to be bent much further. Says
    /// how far, as the yield of the metal scatters, with heights for a template, the length to cut, and
    /// whether the tube needs a bender at all.
    #[command(after_help = SHORT_END, after_long_help = BEND_END)]
    Bend(Bend),
    /// Where may a person stand, and on which board
    ///
    /// Tries a person at every place of the roof, both ways round, on top of what stays on it, and answers in words
    /// first: as found, and in the stage asked for. Then a map in lettered zones, the worst place, and the smallest
    /// stock board that does.
    #[command(after_help = SHORT_END, after_long_help = WALK_END)]
    Walk(Walk),
    /// How the unit sits on the crown: gap, packing, bolt length, gasket
    ///
    /// A base is flat and a crowned roof is not. Says what the gasket takes up, what must be packed, and whether the
    /// bolts would pull the roof flat.
    #[command(after_help = SHORT_END, after_long_help = SEAT_END)]
    Seat(Seat),
    /// Which tube is enough for this roof, or for this span and crown
    ///
    /// Tries the stocked tubes beside the opening, lightest first, each as a whole roof, and judges in full what passes.
    /// Answers in words first, then with the list of those tried and what to cut, bend and glue. Without a survey,
    /// --span, --rise and --load ask for a curved tube alone.
    #[command(after_help = SHORT_END, after_long_help = SIZE_END)]
    Size(Box<Size>),
    /// Print a sheet to fill in on the roof
    ///
    /// One printed page for tape readings, make-up, damage, unit and people. A line left empty means "not
    /// known". The readings are then typed into a survey file.
    #[command(after_help = SHORT_END, after_long_help = SURVEY_END)]
    Survey(SurveySheet),
    /// What a tube is worth: properties and strength by a rule book
    ///
    /// Area, moments and moduli, and what the tube may carry in tension, compression, bending and shear, each
    /// check with its clause. A rule that does not speak about the tube gives no number.
    #[command(after_help = SHORT_END, after_long_help = TUBE_END)]
    Tube(Tube),
    /// What a curved brace does alone, between two walls
    ///
    /// Push on the walls, moments, sag, the load it snaps or sways under, and whether the tube is strong enough by
    /// a rule book. Without more said, its ends are free to spread, as between the side walls of a vehicle.
    #[command(after_help = SHORT_END, after_long_help = BRACE_END)]
    Brace(Box<Brace>),
    /// List what is known about alloys, tubes, materials and the rest, and from where
    ///
    /// Without a name, lists the tables. Each row carries its source, and says whether that is published,
    /// computed, from memory, or common practice.
    #[command(after_help = SHORT_END, after_long_help = TABLES_END)]
    Tables(Tables),
    /// What a check, caution, assumption or input error means
    ///
    /// Its meaning, formula, source, where it is valid, and what to do about it. Codes stand in brackets behind the
    /// sentences of an answer, names of checks in its table.
    #[command(after_help = SHORT_END, after_long_help = EXPLAIN_END)]
    Explain(Explain),
}

/// Arguments of `explain`.
#[derive(Debug, Args)]
pub(crate) struct Explain {
    /// Code, or name of a check: core-shear
    ///
    /// Blanks, hyphens and capitals make no difference. A code that is only near is named, not taken.
    #[arg(value_name = "CODE", required = true)]
    pub(crate) code: Vec<String>,
    #[command(flatten)]
    pub(crate) output: Output,
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
    /// Work through what governs, step by step
    ///
    /// The check that decides and the tightest of each part: what acts, each formula with its source, the numbers put
    /// in, and the ratio of the table.
    #[arg(long)]
    pub(crate) working: bool,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
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
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `bend`.
#[derive(Debug, Args)]
pub(crate) struct Bend {
    /// From end to end of the brace, straight across: "92 1/2 in"
    ///
    /// The chord of the tube's centre line. The answer comes in the same family of units.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) span: String,
    /// Height of the crown in the middle: "1 3/4 in"
    ///
    /// Measured from a string across, on a sound part of the roof. May be left out if --ordinates is given; with
    /// both, the brace gets this rise and the ordinates tell where it gaps.
    #[arg(long, value_name = "LENGTH", required_unless_present = "ordinates")]
    pub(crate) rise: Option<String>,
    /// Heights along a string across: "0 in, 1 in, 1 3/4 in, 1 in, 0 in"
    ///
    /// At least five, evenly spaced from one end to the other, both ends included. The nearest arc is found, and
    /// where it gaps more than 3 mm a shim is told.
    #[arg(long, value_name = "LENGTHS", allow_hyphen_values = true)]
    pub(crate) ordinates: Option<String>,
    #[command(flatten)]
    pub(crate) section: SectionArgs,
    /// Distance of the stations of the template
    ///
    /// 12 in or 300 mm if not given. Both ends and the middle are always listed.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) station: Option<String>,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `walk`.
#[derive(Debug, Args)]
pub(crate) struct Walk {
    /// Survey file (TOML or JSON), or - for standard input
    ///
    /// The file describes one roof. Its `person` section says how heavy, how many, and on which board.
    #[arg(value_name = "SURVEY")]
    pub(crate) survey: String,
    /// Stage of the work to walk in
    ///
    /// A name from the stages that the survey lists, or "as found" or "finished". Without it the finished roof is
    /// walked on. The roof as found is answered for in any case.
    #[arg(long, value_name = "NAME")]
    pub(crate) stage: Option<String>,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `seat`.
#[derive(Debug, Args)]
pub(crate) struct Seat {
    /// Survey file (TOML or JSON), or - for standard input
    ///
    /// Its unit, the opening below it, span, rise and layers are read.
    #[arg(value_name = "SURVEY")]
    pub(crate) survey: String,
    /// Thickness of the gasket as it comes: "1 in"
    ///
    /// 1 in if not given (common practice, no source).
    #[arg(long, value_name = "LENGTH")]
    pub(crate) gasket: Option<String>,
    /// Base plate, ceiling frame, washers and nut together: "3/4 in"
    ///
    /// What a bolt passes beside roof, gasket and packing; 20 mm if not given (common practice, no source).
    #[arg(long, value_name = "LENGTH")]
    pub(crate) hardware: Option<String>,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `size`.
#[derive(Debug, Args)]
pub(crate) struct Size {
    /// Survey file (TOML or JSON), or - for standard input
    ///
    /// Its new braces are left out of the search; how the first of them is glued and seated is taken for every
    /// candidate.
    #[arg(value_name = "SURVEY", required_unless_present = "span")]
    pub(crate) survey: Option<String>,
    /// Without a survey: from wall to wall
    ///
    /// With its unit. Asks for a curved tube alone, its ends free to spread; needs --rise and --load or --uniform.
    #[arg(long, value_name = "LENGTH", conflicts_with = "survey", requires = "rise")]
    pub(crate) span: Option<String>,
    /// Height of the crown, with --span
    ///
    /// With its unit; 0 in is a straight tube.
    #[arg(long, value_name = "LENGTH", requires = "span")]
    pub(crate) rise: Option<String>,
    /// Load in one place, with --span: "250 lb", "300 lbf"
    ///
    /// N, kN, lbf and kip are forces; lb and kg are masses, which press with their weight.
    #[arg(long, value_name = "LOAD", requires = "span", allow_hyphen_values = true)]
    pub(crate) load: Option<String>,
    /// Place of the load from the left end; the middle if absent
    ///
    /// With its unit, along the span.
    #[arg(long, value_name = "PLACE", requires = "load", hide_short_help = true)]
    pub(crate) at: Option<String>,
    /// Even load, with --span: "20 N/m" or "2 lb/ft"
    ///
    /// Per length of span, beside --load or instead of it.
    #[arg(long, value_name = "LOAD", requires = "span", hide_short_help = true)]
    pub(crate) uniform: Option<String>,
    /// Alloys to try, with commas: "6061-T6, 6063-T52"
    ///
    /// These two if not given. "bracewright tables alloys" lists what is known.
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub(crate) alloys: Vec<String>,
    /// Tubes to try, with commas; in, mm or all for the stock
    ///
    /// Without it, all stock of the inch or of the millimetre, as the survey is written.
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub(crate) tubes: Vec<String>,
    /// Numbers of braces to try, with commas: 2,3
    ///
    /// 1, 2 and 3 if not given; at most 6.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',', conflicts_with = "span")]
    pub(crate) count: Vec<usize>,
    /// Trimmers beside the opening: both ways, only with, only without
    ///
    /// Short members along the vehicle between the brace in front of the opening and the one behind. The strength of
    /// their end joints is not checked: with them no roof is told to hold.
    #[arg(long, value_enum, default_value_t = Trimmers::Both, value_name = "WHICH", conflicts_with = "span", hide_short_help = true)]
    pub(crate) trimmers: Trimmers,
    /// Foam left beside a brace in the core: "1/2 in"
    ///
    /// 10 mm if not given.
    #[arg(long, value_name = "LENGTH", conflicts_with = "span", hide_short_help = true)]
    pub(crate) cover: Option<String>,
    /// Depth of the tube at most: "1 1/2 in"
    ///
    /// In the core it is never more than the core less its cover.
    #[arg(long, value_name = "LENGTH", hide_short_help = true)]
    pub(crate) max_depth: Option<String>,
    /// What comes first: weight, or price from the shop's rack
    ///
    /// A price needs a table "rack.csv" in the folder named with --tables, with a price for every tube tried. With
    /// such a table only what it lists is tried.
    #[arg(long, value_enum, default_value_t = FirstBy::Weight, value_name = "WHAT", hide_short_help = true)]
    pub(crate) first_by: FirstBy,
    /// Also write the cut list as CSV (mm, kg) to this file
    ///
    /// One row a brace. Nothing is written where no brace was found.
    #[arg(long, value_name = "FILE", conflicts_with = "span")]
    pub(crate) cut_list: Option<String>,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
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

/// Arguments of `tube`.
#[derive(Debug, Args)]
pub(crate) struct Tube {
    #[command(flatten)]
    pub(crate) section: SectionArgs,
    /// Length between the held ends, with its unit
    ///
    /// It is also the unbraced length, unless --held-every is given.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) length: String,
    /// Distance between points held sideways
    ///
    /// With its unit. Upright the tube may still buckle over its whole length.
    #[arg(long, value_name = "DISTANCE")]
    pub(crate) held_every: Option<String>,
    #[command(flatten)]
    pub(crate) book: Book,
    /// Place of a weld across the tube, from one end
    ///
    /// With its unit. Beside a weld the metal is softer; in the length the whole member pays for it.
    #[arg(long, value_name = "PLACE")]
    pub(crate) weld_at: Option<String>,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Arguments of `brace`.
#[derive(Debug, Args)]
pub(crate) struct Brace {
    /// From wall to wall, with its unit
    ///
    /// Inside face to inside face, as "92 1/2 in" or "2.30 m".
    #[arg(long, value_name = "LENGTH")]
    pub(crate) span: String,
    /// Height of the crown above the ends
    ///
    /// With its unit; 0 in is a straight brace.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) rise: String,
    #[command(flatten)]
    pub(crate) section: SectionArgs,
    /// Load at one place: a force, or a weight as "250 lb"
    ///
    /// N, kN, lbf and kip are forces; lb and kg are masses, which press with their weight.
    #[arg(long, value_name = "LOAD", required_unless_present = "uniform", allow_hyphen_values = true)]
    pub(crate) load: Option<String>,
    /// Its place from the left end (middle if absent)
    ///
    /// With its unit, along the span.
    #[arg(long, value_name = "PLACE", allow_hyphen_values = true)]
    pub(crate) at: Option<String>,
    /// Even load, as "20 N/m" or "2 lb/ft"
    ///
    /// Per length of span, beside --load or instead of it.
    #[arg(long, value_name = "LOAD", allow_hyphen_values = true)]
    pub(crate) uniform: Option<String>,
    /// roller (if absent), pinned or fixed
    ///
    /// Roller: free to turn and to spread. Pinned: free to turn, held sideways. Fixed: held against both. The last
    /// two count on walls that hold the thrust.
    #[arg(long, value_enum, value_name = "ENDS", hide_possible_values = true)]
    pub(crate) ends: Option<Ends>,
    /// Force per movement of each wall, as "50 kN/m"
    ///
    /// How hard a wall is to push outward where the brace sits. With it the ends are pinned, or --ends fixed.
    #[arg(long, value_name = "STIFFNESS", allow_hyphen_values = true)]
    pub(crate) thrust_spring: Option<String>,
    #[command(flatten)]
    pub(crate) book: Book,
    #[command(flatten)]
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// Which rule book, with what a nation may set in it.
#[derive(Debug, Args)]
pub(crate) struct Book {
    /// ADM 2020 ASD (if absent), ADM 2020 LRFD or EN 1999-1-1
    ///
    /// The rule book, by the names that a survey takes for "aluminium" under limits. ASD: allowable strengths, loads
    /// without factors. LRFD and EN 1999-1-1: design strengths, loads factored.
    #[arg(
        long,
        value_enum,
        ignore_case = true,
        default_value_t = Rules::AdmAsd,
        value_name = "RULES",
        hide_possible_values = true,
        hide_default_value = true
    )]
    rules: Rules,
    /// Partial factor gamma_M1 of EN 1999-1-1 (1.10 if absent)
    ///
    /// For yielding and buckling; a national annex may set another than the recommended 1.10. From 1 to 2.
    #[arg(long, value_name = "FACTOR", hide_short_help = true)]
    gamma_m1: Option<f64>,
    /// Partial factor gamma_M2 of EN 1999-1-1 (1.25 if absent)
    ///
    /// For rupture, as beside welds. From 1 to 2.
    #[arg(long, value_name = "FACTOR", hide_short_help = true)]
    gamma_m2: Option<f64>,
}

impl Book {
    /// The rule book.
    pub(crate) fn rules(&self) -> AluminiumRules {
        match self.rules {
            Rules::AdmAsd => AluminiumRules::Adm2020Asd,
            Rules::AdmLrfd => AluminiumRules::Adm2020Lrfd,
            Rules::En1999 => AluminiumRules::En1999,
        }
    }

    /// National `gamma_M1` and `gamma_M2`.
    pub(crate) fn partial_factors(&self) -> [Option<f64>; 2] {
        [self.gamma_m1, self.gamma_m2]
    }
}

/// Rule books for aluminium.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Rules {
    /// Allowable strengths, loads without factors.
    #[value(name = "ADM 2020 ASD")]
    AdmAsd,
    /// Design strengths, loads factored.
    #[value(name = "ADM 2020 LRFD")]
    AdmLrfd,
    /// Design resistances, loads factored.
    #[value(name = "EN 1999-1-1")]
    En1999,
}

/// How the ends of a brace sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Ends {
    /// Free to turn and to spread
    Roller,
    /// Free to turn, held sideways
    Pinned,
    /// Held against turning and sideways
    Fixed,
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
    pub(crate) tables: OwnTables,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// The tables there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum TableName {
    /// Aluminium alloys and tempers by ADM 2020 and EN 1999-1-1
    Alloys,
    /// Stock tubes: outside sizes, wall, corner
    Tubes,
    /// Skins, cores and timber: stiffness, strength, density, creep
    Materials,
    /// Usual make-ups of roofs, layer by layer
    BuildUps,
    /// Boards to stand on
    WalkBoards,
    /// What lies on the rack, with weights and prices: a shop's own
    Rack,
    /// What the bender takes: a shop's own
    Dies,
    /// What is left of a damaged layer
    Damage,
    /// Glues: shear strength, heat limit, cure
    Adhesives,
    /// Safety, load and duration factors
    Factors,
    /// Documents and habits that the numbers come from
    Sources,
}

/// What the braces that are tried are put in order by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FirstBy {
    /// The lightest first.
    Weight,
    /// The cheapest first.
    Price,
}

/// Which candidates `size` tries: those without trimmers, with them, or both.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Trimmers {
    /// Without trimmers and with them
    Both,
    /// Only with trimmers
    With,
    /// Only without trimmers
    Without,
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
  bracewright check theatre.toml --working
  bracewright check theatre.toml --format json > theatre.json
  cat theatre.toml | bracewright check -

Here 1 means that the verdict is \"brace needed\", \"brace too weak\" or \"does not hold\"."
);

const PLAN_END: &str = with_exit_status!(
    "Examples:
  bracewright plan theatre.toml
  bracewright plan theatre.toml --format json"
);

const BEND_END: &str = with_exit_status!(
    "Examples:
  bracewright bend --span \"92 1/2 in\" --rise \"1 3/4 in\" --tube \"1 x 1 x 1/8\" --alloy 6061-T6
  bracewright bend --span \"2.35 m\" --rise \"45 mm\" --outside \"40 mm x 40 mm\" --wall \"3 mm\" --alloy 6063-T6
  bracewright bend --span \"96 in\" --ordinates \"0 in, 3 in, 4 in, 3 in, 0 in\" --tube \"2 x 2 x 1/8\" --alloy 6063-T52

Here 1 means that the tube cannot be brought to the crown, 2 that its alloy must be known first (\"not known\" is an
alloy to ask for)."
);

const WALK_END: &str = with_exit_status!(
    "Examples:
  bracewright walk theatre.toml
  bracewright walk theatre.toml --stage \"as found\"
  bracewright walk theatre.toml --format json > places.json

Here 0 means that every place outside the edge strip of an opening holds as surveyed, or does on the board that
was found; 1 that some place fails on every board; 2 that nobody can say, so keep off."
);

const SEAT_END: &str = with_exit_status!(
    "Examples:
  bracewright seat theatre.toml
  bracewright seat theatre.toml --gasket \"1 1/8 in\" --hardware \"3/4 in\"

Here 0 means that the gasket takes the curve up, 1 that packing is needed, 2 that no unit sits over an opening."
);

const SIZE_END: &str = with_exit_status!(
    "Examples:
  bracewright size theatre.toml
  bracewright size theatre.toml --count 2 --alloys 6061-T6 --cut-list cut.csv
  bracewright size theatre.toml --tubes \"1 x 1 x 1/8, 1 1/2 x 1 1/2 x 1/8\"
  bracewright size theatre.toml --format json > sizes.json
  bracewright size --span \"92 1/2 in\" --rise \"1 3/4 in\" --load \"250 lb\"

Here 0 means that braces were found with which the roof holds, or that it needs none; 1 that none were; 2 that
nothing that was checked fails, but something needed was not checked."
);

const SURVEY_END: &str = with_exit_status!(
    "Examples:
  bracewright survey --blank
  bracewright survey --blank --metric > sheet.txt"
);

const TUBE_END: &str = with_exit_status!(
    "Examples:
  bracewright tube --tube \"1-1/2 x 1-1/2 x 1/8\" --alloy 6061-T6 --length \"90 in\"
  bracewright tube --tube \"40 x 40 x 3\" --alloy 6063-T66 --length \"2.3 m\" --rules \"EN 1999-1-1\"
  bracewright tube --outside \"1 in x 2 in\" --wall \"1/8 in\" --alloy 6063-T5 --length \"7 ft\" --held-every \"16 in\"

Here 2 means that a rule does not speak about this tube; the clause is named, its number is not given."
);

const BRACE_END: &str = with_exit_status!(
    "Examples:
  bracewright brace --span \"92 1/2 in\" --rise \"1 3/4 in\" --tube \"1 x 1 x 1/8\" --alloy 6061-T6 --load \"250 lb\"
  bracewright brace --span \"2.3 m\" --rise \"60 mm\" --tube \"40 x 40 x 3\" --alloy 6063-T5 --uniform \"200 N/m\"
  bracewright brace --span \"84 in\" --rise \"3 in\" --outside \"1 in x 2 in\" --wall \"1/8 in\" --alloy 6061-T6 \\
      --load \"300 lbf\" --at \"21 in\" --ends pinned --thrust-spring \"5 kip/in\"

Here 1 means that the tube is not strong enough for this, or gives way first; 2 that the rules say nothing about it.
The numbers are printed in any case."
);

const TABLES_END: &str = with_exit_status!(
    "Examples:
  bracewright tables
  bracewright tables materials
  bracewright tables tubes --format json
  bracewright tables tubes --tables our-rack"
);

const EXPLAIN_END: &str = with_exit_status!(
    "Examples:
  bracewright explain core shear
  bracewright explain default-person
  bracewright explain tube-deeper-than-core --format json

Here 0 means that the code is known, 3 that it is not."
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
