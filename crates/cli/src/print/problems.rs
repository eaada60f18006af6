//! Problems of a survey, each with its line, what is allowed and what to write instead.

use annotate_snippets::{AnnotationKind, Element, Level, Origin, Renderer, Snippet};
use beam_core::survey::{Problem, Problems};

/// All problems, one paragraph each, and a last line that counts them.
pub(crate) fn render(problems: &Problems, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let mut text = String::new();
    for problem in &problems.list {
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
        let spot = AnnotationKind::Primary.span(problem.span.clone());
        Snippet::source(problems.text.as_str()).path(file).annotation(spot).into()
    };
    let mut group = Level::ERROR.primary_title(printable(&problem.message)).id(problem.code).element(place);
    for (name, words) in [("allowed", &problem.allowed), ("write", &problem.write_instead)] {
        if !words.is_empty() {
            group = group.element(Level::NOTE.with_name(name).message(printable(words)));
        }
    }
    renderer.render(&[group])
}

fn count(problems: &Problems) -> String {
    let many = problems.list.len();
    let noun = if many == 1 { "problem" } else { "problems" };
    format!("{}: {many} {noun}; nothing was computed", printable(&problems.file))
}

/// What a file says is not to steer the terminal.
fn printable(text: &str) -> String {
    text.chars().map(|sign| if sign.is_control() { '\u{fffd}' } else { sign }).collect()
}

#[cfg(test)]
mod tests {
    use super::render;
    use beam_core::survey::read_text;
    use section_tables::Tables;

    #[test]
    fn plain_text_has_no_escapes_and_colour_has() {
        let problems =
            read_text("van.toml", "survey = 1\ncrown = \"\\u001b[2J\"\n", Tables::shipped()).unwrap_err();
        assert!(!render(&problems, false).contains('\u{1b}'));
        assert!(render(&problems, true).contains('\u{1b}'));
    }
}
