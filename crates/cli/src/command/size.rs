//! `size`: options as typed become a question, the answer is laid out, the cut list written.

use beam_core::ask::{self, AloneQuestion, FirstBy, SizeDocument, SizeOptions, Trimmers};
use beam_core::quantity::{Family, read_force_per_length};
use section_tables::Tables;

use super::{Answer, Outcome, Refusal, read_survey, refuse, unwritable};
use crate::args::{self, Format};
use crate::exit::Exit;
use crate::print::{cut_list, json, text};
use crate::progress::watched;
use crate::section_args::{length, unreadable};
use crate::terminal;

/// `size`.
pub(crate) fn size(args: &args::Size, notes_in_colour: bool) -> Outcome {
    let tables = args.tables.read()?;
    let options = options(args)?;
    let Some(path) = &args.survey else {
        return alone(args, &tables, &options);
    };
    let survey = read_survey(path, &tables, notes_in_colour)?;
    let document = watched("trying braces one after another", || ask::size(&survey, &tables, &options))
        .map_err(|error| refuse(Exit::WrongInput, &error))?;
    if let Some(file) = &args.cut_list {
        write_cut_list(file, &document)?;
    }
    let text = match args.output.format {
        Format::Text => text::size(&document, terminal::width()),
        Format::Json => json::size(&document).map_err(unwritable)?,
    };
    let exit = match document.found() {
        Some(true) => Exit::Holds,
        Some(false) => Exit::DoesNotHold,
        None => Exit::CannotSay,
    };
    Ok(Answer { text, exit })
}

/// A tube alone, for a span, a crown and a load.
fn alone(args: &args::Size, tables: &Tables, options: &SizeOptions) -> Outcome {
    let (Some(span), Some(rise)) = (&args.span, &args.rise) else {
        return Err(refuse(Exit::WrongInput, &"give a survey, or --span, --rise and --load"));
    };
    let per_length =
        |text: &str| read_force_per_length(text).map_err(|error| unreadable("--uniform", text, &error));
    let question = AloneQuestion {
        span: length("--span", span)?,
        rise: length("--rise", rise)?,
        load: args.load.as_deref().map(super::brace::load).transpose()?,
        at: args.at.as_deref().map(|text| length("--at", text)).transpose()?,
        uniform: args.uniform.as_deref().map(per_length).transpose()?,
        read_in: Family::of_length(span),
    };
    let document = watched("trying tubes one after another", || ask::size_alone(&question, tables, options))
        .map_err(|error| refuse(Exit::WrongInput, &error))?;
    let text = match args.output.format {
        Format::Text => text::size_alone(&document, terminal::width()),
        Format::Json => json::size_alone(&document).map_err(unwritable)?,
    };
    Ok(Answer { text, exit: if document.chosen.is_some() { Exit::Holds } else { Exit::DoesNotHold } })
}

fn options(args: &args::Size) -> Result<SizeOptions, Refusal> {
    let trimmed = |list: &[String]| list.iter().map(|name| name.trim().to_owned()).collect();
    let given =
        |option: &str, value: &Option<String>| value.as_deref().map(|v| length(option, v)).transpose();
    Ok(SizeOptions {
        alloys: trimmed(&args.alloys),
        tubes: trimmed(&args.tubes),
        counts: args.count.clone(),
        cover: given("--cover", &args.cover)?,
        max_depth: given("--max-depth", &args.max_depth)?,
        trimmers: match args.trimmers {
            args::Trimmers::Both => Trimmers::Both,
            args::Trimmers::With => Trimmers::With,
            args::Trimmers::Without => Trimmers::Without,
        },
        first_by: match args.first_by {
            args::FirstBy::Weight => FirstBy::Weight,
            args::FirstBy::Price => FirstBy::Price,
        },
    })
}

fn write_cut_list(file: &str, document: &SizeDocument) -> Result<(), Refusal> {
    if document.cut_list.is_empty() {
        return Ok(());
    }
    std::fs::write(file, cut_list::csv(&document.cut_list))
        .map_err(|error| refuse(Exit::NotWritten, &format!("{file} could not be written: {error}")))
}
