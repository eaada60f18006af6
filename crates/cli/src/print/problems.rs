//! Problems of a survey, each with its line, what is allowed and what to write instead.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Element, Level, Origin, Renderer, Snippet};
use beam_core::survey::{Problem, Problems};

/// Nobody reads more; the count tells how many there are.
const SHOWN: usize = 500;
/// A line longer than this, in bytes, is named and not shown.
const LONGEST_LINE: usize = 2000;

/// The problems, one paragraph each, and a last line that counts them.
pub(crate) fn render(problems: &Problems, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let mut text = String::new();
    for problem in problems.list.iter().take(SHOWN) {
        text.push_str(&paragraph(problems, problem, &renderer));
        text.push_str("\n\n");
    }
    text.push_str(&count(problems));
    text.push('\n');
    text
}

fn paragraph(problems: &Problems, problem: &Problem, renderer: &Renderer) -> String {
    let file = printable(&problems.file);
    let place: Element<'_> = if problem.line == 0 {
        Origin::path(file).into()
    } else {
        let (line, spot) = line_of(&problems.text, problem);
        if line.len() > LONGEST_LINE {
            Origin::path(file).line(problem.line).char_column(problem.column).into()
        } else {
            let spot = AnnotationKind::Primary.span(spot);
            Snippet::source(line).line_start(problem.line).path(file).annotation(spot).into()
        }
    };
    let mut group = Level::ERROR.primary_title(printable(&problem.message)).id(problem.code).element(place);
    for (name, words) in [("allowed", &problem.allowed), ("write", &problem.write_instead)] {
        if !words.is_empty() {
            group = group.element(Level::NOTE.with_name(name).message(printable(words)));
        }
    }
    renderer.render(&[group])
}

/// The line a problem stands on, and its span in it.
fn line_of<'t>(text: &'t str, problem: &Problem) -> (&'t str, Range<usize>) {
    let start = text[..problem.span.start].rfind('\n').map_or(0, |end| end + 1);
    let end = text[problem.span.start..].find('\n').map_or(text.len(), |end| problem.span.start + end);
    (text[start..end].trim_end_matches('\r'), problem.span.start - start..problem.span.end - start)
}

fn count(problems: &Problems) -> String {
    let many = problems.list.len();
    let noun = if many == 1 { "problem" } else { "problems" };
    let shown = if many > SHOWN { format!(", the first {SHOWN} above") } else { String::new() };
    format!("{}: {many} {noun}{shown}; nothing was computed", printable(&problems.file))
}

/// What a file says is not to steer the terminal.
fn printable(text: &str) -> String {
    text.chars().map(|sign| if sign.is_control() { '\u{fffd}' } else { sign }).collect()
}

#[cfg(test)]
mod tests {
    use super::{SHOWN, render};
    use beam_core::survey::read_text;
    use section_tables::Tables;

    #[test]
    fn plain_text_has_no_escapes_and_colour_has() {
        let problems =
            read_text("van.toml", "survey = 1\ncrown = \"\\u001b[2J\"\n", Tables::shipped()).unwrap_err();
        assert!(!render(&problems, false).contains('\u{1b}'));
        assert!(render(&problems, true).contains('\u{1b}'));
    }

    #[test]
    fn a_flood_of_problems_on_one_long_line_is_cut_and_counted() {
        let loads = vec!["{\"weight\":\"1\"}"; SHOWN].join(",");
        let text = format!("{{\"survey\":1,\"load\":[{loads}]}}");
        let problems = read_text("van.json", text, Tables::shipped()).unwrap_err();
        let said = render(&problems, false);
        assert_eq!(said.matches("error[").count(), SHOWN);
        let many = problems.list.len();
        assert!(
            said.ends_with(&format!(
                "van.json: {many} problems, the first 500 above; nothing was computed\n"
            ))
        );
        assert!(said.contains("--> van.json:1:"), "{}", &said[..200]);
        assert!(said.lines().all(|line| line.len() < 300), "the long line is not shown");
    }
}
