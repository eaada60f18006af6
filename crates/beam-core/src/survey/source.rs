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
    let bytes = bytes_of(path, &name).map_err(|problem| Problems::new(&name, "", vec![problem]))?;
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
    let text = decode(text.as_ref()).map_err(|problem| Problems::new(name, "", vec![problem]))?;
    read::survey(name, text, tables).map_err(|list| Problems::new(name, text, list))
}

fn bytes_of(path: &Path, name: &str) -> Result<Vec<u8>, Problem> {
    let problem = |code, message: String| Problem::new(code, 0..0, message).value(name);
    let unreadable = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => problem("file-missing", format!("there is no file {name}"))
            .allowed("a survey file that exists")
            .write("the path of the survey, or start one with `survey`"),
        _ => problem("file-unreadable", format!("{name} cannot be read: {error}"))
            .allowed("a file that you may read")
            .write("the path of a readable file"),
    };
    let about = std::fs::metadata(path).map_err(unreadable)?;
    if about.is_dir() {
        return Err(problem("file-is-folder", format!("{name} is a folder"))
            .allowed("a file")
            .write("the survey inside it"));
    }
    if about.len() > LARGEST_SURVEY {
        return Err(too_big(name));
    }
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(LARGEST_SURVEY + 1).read_to_end(&mut bytes));
    read.map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST_SURVEY {
        return Err(too_big(name));
    }
    Ok(bytes)
}

fn too_big(name: &str) -> Problem {
    Problem::new("file-too-big", 0..0, format!("{name} is larger than any survey"))
        .value(name)
        .allowed("up to 1 MB")
        .write("the path of the survey itself")
}

fn decode(bytes: &[u8]) -> Result<&str, Problem> {
    if bytes.len() as u64 > LARGEST_SURVEY {
        return Err(too_big("the survey"));
    }
    let marked = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    if marked || looks_like_utf16(bytes) {
        return Err(Problem::new("file-utf16", 0..0, "the file is written in UTF-16")
            .value("UTF-16")
            .allowed("UTF-8")
            .write("the same text, saved as UTF-8"));
    }
    let not_text = || {
        Problem::new("file-not-text", 0..0, "the file is not text, or not in UTF-8")
            .value("bytes that are no UTF-8 text")
            .allowed("a text file in UTF-8")
            .write("the same text, saved as UTF-8; not a spreadsheet, picture or word-processor file")
    };
    let text = std::str::from_utf8(bytes).map_err(|_| not_text())?;
    if text.contains('\0') {
        return Err(not_text());
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(Problem::new("file-empty", 0..0, "the file is empty")
            .value("nothing")
            .allowed("a survey")
            .write("survey = 1, then a [roof] table; `survey --blank` prints a sheet to fill in"));
    }
    Ok(text)
}

/// Text in UTF-16 without a mark: of its first bytes every second one is zero.
fn looks_like_utf16(bytes: &[u8]) -> bool {
    let start = &bytes[..bytes.len().min(64)];
    let zeros = |from: usize| start.iter().skip(from).step_by(2).filter(|byte| **byte == 0).count();
    let half = start.len() / 2;
    half >= 4 && ((zeros(0) * 4 >= half * 3 && zeros(1) == 0) || (zeros(1) * 4 >= half * 3 && zeros(0) == 0))
}
