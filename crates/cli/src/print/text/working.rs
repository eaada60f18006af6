//! What governs, worked through.

use beam_core::check::{CheckDocument, Materials, Step, Working};
use beam_core::quantity::{Family, force, percent, sag, significant, stress, tape};

use super::page::Page;
use super::style;

/// Lays out the workings; nothing where none was asked for.
pub(super) fn workings(page: &mut Page, document: &CheckDocument) {
    let family = document.read_in.0;
    for working in &document.working {
        page.heading(&format!("Worked through: {}, {}, under {}", working.check, working.part, working.load));
        page.note(&format!(
            "{} from the left wall, {} from the front mark; materials {}.",
            tape(working.at.across.get(), family),
            tape(working.at.along.get(), family),
            bracket(working.materials)
        ));
        causes(page, working, family);
        for step in &working.steps {
            steps(page, step, family);
        }
    }
}

fn bracket(materials: Materials) -> &'static str {
    match materials {
        Materials::Low => "low in stiffness and strength",
        Materials::Default => "default",
        Materials::High => "high in stiffness, low in strength",
    }
}

fn causes(page: &mut Page, working: &Working, family: Family) {
    for cause in &working.causes {
        page.item(
            "-",
            &format!("{}, {}: {}", cause.what, cause.acts, told(cause.part.get(), &cause.si, family)),
        );
    }
}

fn steps(page: &mut Page, step: &Step, family: Family) {
    let ratio = step.sign == "ratio";
    let value = if ratio { percent(step.value.get()) } else { told(step.value.get(), &step.si, family) };
    let mut equals: Vec<&str> = vec![&step.sign];
    equals.extend([step.formula.as_str(), step.numbers.as_str()].into_iter().filter(|t| !t.is_empty()));
    equals.push(&value);
    let line = format!("{}: {}", step.what, equals.join(" = "));
    let source = if step.source.is_empty() {
        String::new()
    } else {
        format!(" {}", style::faint(&format!("({})", step.source)))
    };
    page.item(if ratio { "=" } else { ">" }, &format!("{line}{source}"));
}

/// A value in SI, and in the survey's own quantities where those are others.
fn told(value: f64, si: &str, family: Family) -> String {
    let metric = match si {
        "Pa" if value.abs() >= 1e6 => format!("{} MPa", significant(value / 1e6, 4)),
        "Pa" => format!("{} kPa", significant(value / 1e3, 4)),
        "m" => format!("{} mm", significant(value * 1e3, 4)),
        "-" => significant(value, 4),
        other => format!("{} {other}", significant(value, 4)),
    };
    let own = match (si, family) {
        ("Pa", Family::Inch) => stress(value, family),
        ("N", Family::Inch) => force(value, family),
        ("m", Family::Inch) => sag(value, family),
        _ => return metric,
    };
    format!("{metric} ({own})")
}
