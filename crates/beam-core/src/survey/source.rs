//! From a path or bytes to a text: what is no survey at all is told apart here.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use super::problem::{Problem, Problems};
use super::{Survey, read};
use section_tables::Tables;

/// The largest survey that is read, bytes: a roof with a thousand patches stays far below.
pub const LARGEST_SURVEY: u64 = 1_000_000;

/// Reads the survey at a path.
///
/// # Errors
/// [`Problems`]: the file cannot be read, is no text, or does not say what a survey must say. Every problem that can
/// be told is told at once.
pub fn read_path(path: &Path, tables: &Tables) -> Result<Survey, Problems> {
    let name = path.display().to_string();
    let bytes = bytes_of(path, &name).map_err(|problem| Problems::new(&name, "", vec![*problem]))?;
    read_text(&name, bytes, tables)
}

/// Reads a survey from its text, TOML or JSON; `name` is what messages call it.
///
/// # Errors
/// As [`read_path`].
///
/// # Examples
/// ```
/// use beam_core::survey::read_text;
/// let tables = section_tables::Tables::shipped();
/// let problems = read_text("van.toml", "survey = 1\n[roof]\nspan = 92", tables).unwrap_err();
/// assert_eq!(problems.list[0].line, 2);
/// ```
pub fn read_text(name: &str, text: impl AsRef<[u8]>, tables: &Tables) -> Result<Survey, Problems> {
    let text = decode(name, text.as_ref()).map_err(|problem| Problems::new(name, "", vec![*problem]))?;
    read::survey(name, text, tables).map_err(|list| Problems::new(name, text, list))
}

fn bytes_of(path: &Path, name: &str) -> Result<Vec<u8>, Box<Problem>> {
    let unreadable = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => no_survey(
            "file-missing",
            &format!("there is no file {name}"),
            name,
            ["a survey file that exists", "the path of the survey, or start one with `survey`"],
        ),
        _ => no_survey(
            "file-unreadable",
            &format!("{name} cannot be read: {error}"),
            name,
            ["a file that you may read", "the path of a readable file"],
        ),
    };
    let about = std::fs::metadata(path).map_err(unreadable)?;
    if about.is_dir() {
        let message = format!("{name} is a folder");
        return Err(no_survey("file-is-folder", &message, name, ["a file", "the survey inside it"]));
    }
    if about.len() > LARGEST_SURVEY {
        return Err(too_big(name));
    }
    // What has no length of its own, such as a pipe, is read no further either.
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(LARGEST_SURVEY + 1).read_to_end(&mut bytes));
    read.map_err(unreadable)?;
    Ok(bytes)
}

fn decode<'b>(name: &str, bytes: &'b [u8]) -> Result<&'b str, Box<Problem>> {
    if bytes.len() as u64 > LARGEST_SURVEY {
        return Err(too_big(name));
    }
    let marked = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    if marked || looks_like_utf16(bytes) {
        let remedy = ["UTF-8", "the same text, saved as UTF-8"];
        return Err(no_survey("file-utf16", "the file is written in UTF-16", "UTF-16", remedy));
    }
    let text = std::str::from_utf8(bytes).ok().filter(|text| !text.contains('\0')).ok_or_else(|| {
        let instead = "the same text, saved as UTF-8; not a spreadsheet, picture or word-processor file";
        let remedy = ["a text file in UTF-8", instead];
        no_survey(
            "file-not-text",
            "the file is not text, or not in UTF-8",
            "bytes that are no UTF-8 text",
            remedy,
        )
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        let instead = "survey = 1, then a [roof] table; `survey --blank` prints a sheet to fill in";
        return Err(no_survey("file-empty", "the file is empty", "nothing", ["a survey", instead]));
    }
    Ok(text)
}

fn too_big(name: &str) -> Box<Problem> {
    let message = format!("{name} is larger than any survey");
    no_survey("file-too-big", &message, name, ["up to 1 MB", "the path of the survey itself"])
}

/// A problem of the file as a whole; the remedy is what is allowed and what to write.
fn no_survey(code: &'static str, message: &str, value: &str, remedy: [&str; 2]) -> Box<Problem> {
    let [allowed, instead] = remedy;
    Box::new(Problem::new(code, 0..0, message).value(value).allowed(allowed).write(instead))
}

/// Text in UTF-16 without a mark: of its first bytes every second one is zero.
fn looks_like_utf16(bytes: &[u8]) -> bool {
    let start = &bytes[..bytes.len().min(64)];
    let zeros = |from: usize| start.iter().skip(from).step_by(2).filter(|byte| **byte == 0).count();
    let half = start.len() / 2;
    half >= 4 && ((zeros(0) * 4 >= half * 3 && zeros(1) == 0) || (zeros(1) * 4 >= half * 3 && zeros(0) == 0))
}
