//! Shaking in step with the body of the vehicle.
//!
//! The road factor is a static one: it holds for a roof that follows the body. The body bounces on its springs at up to
//! some 3 Hz; a roof whose own frequency is no more than sqrt(2) times that at least doubles the motion, and the factor no
//! longer covers it. Axle hop, 8 to 15 Hz, is where nearly every light roof has its own frequency: the road factors are
//! the trade's experience with just such roofs, so that is told and not judged.

use super::context::Context;
use super::finding::{Check, Finding};
use crate::loads::{BasisLoad, Footing};
use crate::model::panel_weight;
use crate::response::Layout;
use crate::strength::frequency::rayleigh_si;
use crate::strength::{Basis, OutOfRange};

/// Ratio of frequencies at which motion is doubled.
const DOUBLED: f64 = std::f64::consts::SQRT_2;

/// Finding on the roof with what is fixed on it: `sag` under all of that at the layout's places, `loads` what it is.
///
/// # Errors
/// [`OutOfRange`] where nothing sags.
pub(crate) fn frequency_finding(
    context: &Context<'_>,
    layout: &Layout,
    sag: &[f64],
    loads: &[&BasisLoad],
    load: &str,
) -> Result<Finding, OutOfRange> {
    let own = rayleigh_si(&weights(context, layout, sag, loads))?;
    let least = DOUBLED * context.factors.body_bounce;
    let (x, y) =
        layout.sag.iter().zip(sag).max_by(|a, b| a.1.total_cmp(b.1)).map_or((0.0, 0.0), |(place, _)| *place);
    Ok(Finding {
        check: Check::NaturalFrequency,
        part: "panel".to_owned(),
        load: load.to_owned(),
        footing: Footing::NotAFoot,
        person: None,
        x,
        y,
        demand: least,
        limit: own,
        si: "Hz",
        ratio: least * context.model_factor / own,
        basis: Basis::practice(
            "own frequency (Rayleigh) at least sqrt(2) times the body's bounce of 3 Hz, or the motion is doubled",
        ),
    })
}

/// Weights and the sags they stand at: panel by the places' own patches, members, and patches of load.
fn weights(context: &Context<'_>, layout: &Layout, sag: &[f64], loads: &[&BasisLoad]) -> Vec<(f64, f64)> {
    let roof = context.roof;
    let lines = |of: fn(&(f64, f64)) -> f64| -> Vec<f64> {
        let mut all: Vec<f64> = layout.sag.iter().map(of).collect();
        all.sort_by(f64::total_cmp);
        all.dedup_by(|a, b| *a - *b < 1e-9);
        all
    };
    let (xs, ys) = (lines(|p| p.0), lines(|p| p.1));
    // Half way to the next line on either side; none beyond the edge.
    let halves = |lines: &[f64], at: f64| -> [f64; 2] {
        let i = lines.partition_point(|l| *l < at - 1e-9);
        let before = if i > 0 { (lines[i] - lines[i - 1]) / 2.0 } else { 0.0 };
        let after = lines.get(i + 1).map_or(0.0, |next| (next - lines[i]) / 2.0);
        [-before, after]
    };
    let mut out = Vec::new();
    for (&(x, y), &s) in layout.sag.iter().zip(sag) {
        for dx in halves(&xs, x) {
            for dy in halves(&ys, y) {
                let (cx, cy) = (x + dx / 2.0, y + dy / 2.0);
                if dx != 0.0 && dy != 0.0 && !roof.is_open(cx, cy) {
                    out.push((panel_weight(roof, &roof.state_at(cx, cy), cx) * (dx * dy).abs(), s));
                }
            }
        }
    }
    for brace in &roof.braces {
        let line = ys.iter().copied().min_by(|a, b| (a - brace.y).abs().total_cmp(&(b - brace.y).abs()));
        let Some(line) = line else { continue };
        let on = |p: &(f64, f64)| (p.1 - line).abs() < 1e-9 && (brace.x0..=brace.x1).contains(&p.0);
        for (place, &s) in layout.sag.iter().zip(sag).filter(|(p, _)| on(p)) {
            let [before, after] = halves(&xs, place.0);
            out.push((brace.weight * (after - before), s));
        }
    }
    for patch in loads.iter().filter_map(|l| if let BasisLoad::Patches(p) = l { Some(p) } else { None }) {
        for (rect, force) in patch {
            let (cx, cy) = rect.centre();
            let nearest =
                layout.sag.iter().zip(sag).min_by(|(a, _), (b, _)| {
                    (a.0 - cx).hypot(a.1 - cy).total_cmp(&(b.0 - cx).hypot(b.1 - cy))
                });
            out.extend(nearest.map(|(_, s)| (force.max(0.0), *s)));
        }
    }
    out
}
