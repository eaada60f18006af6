//! Where braces are tried.

use crate::quantity::{Family, INCH};
use crate::survey::{Interval, Opening, Survey};

/// Rounding, not measuring.
const SLACK: f64 = 1e-6;

/// Gaps tried between the edge of an opening and the near face of a brace, m.
pub(super) fn gaps(family: Family) -> [f64; 3] {
    match family {
        Family::Inch => [INCH, 2.0 * INCH, 4.0 * INCH],
        Family::Metric => [0.025, 0.05, 0.1],
    }
}

/// The opening that braces lie beside: the unit's, or the first one.
pub(super) fn braced_opening(survey: &Survey) -> Option<&Opening> {
    survey.openings.get(survey.unit.as_ref().and_then(|u| u.opening).unwrap_or(0))
}

/// Width of the frame round an opening, m.
pub(super) fn frame(opening: &Opening) -> f64 {
    opening.frame.as_ref().map_or(0.0, |f| f.width.value)
}

/// Centre lines tried for so many braces of one width, each set from the front.
///
/// Beside the unit's opening, or the first one: one brace on either side, two with one on each, a third in the middle
/// of the longest stretch that is left. Without an opening: evenly spread.
pub(super) fn arrangements(survey: &Survey, count: usize, width: f64) -> Vec<Vec<f64>> {
    let length = survey.roof.length.value;
    let mut out: Vec<Vec<f64>> = Vec::new();
    match braced_opening(survey) {
        None => out.push((1..=count).map(|i| length * i as f64 / (count + 1) as f64).collect()),
        Some(opening) => {
            let hole = opening.patch.along;
            for gap in gaps(survey.family) {
                let [front, rear] = [hole.from.value - gap - width / 2.0, hole.to.value + gap + width / 2.0];
                match count {
                    1 => out.extend([vec![front], vec![rear]]),
                    2 => out.push(vec![front, rear]),
                    _ => out.push(filled(survey, vec![front, rear], count)),
                }
            }
        }
    }
    out.iter_mut().for_each(|set| set.sort_by(f64::total_cmp));
    out.retain(|set| set.iter().all(|y| is_clear(survey, *y, width)) && apart(set, width));
    out
}

/// More braces in the middle of the longest stretch, one by one.
fn filled(survey: &Survey, mut set: Vec<f64>, count: usize) -> Vec<f64> {
    while set.len() < count {
        let mut lines = vec![0.0, survey.roof.length.value];
        lines.extend(&set);
        lines.sort_by(f64::total_cmp);
        let widest = lines.windows(2).max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])));
        match widest {
            Some(pair) => set.push((pair[0] + pair[1]) / 2.0),
            None => break,
        }
    }
    set
}

fn apart(set: &[f64], width: f64) -> bool {
    set.windows(2).all(|pair| pair[1] - pair[0] > width + SLACK)
}

/// Whether a brace there lies on the roof, beside every opening and its frame, and beside what is in the roof already.
fn is_clear(survey: &Survey, y: f64, width: f64) -> bool {
    let half = width / 2.0;
    let meets = |i: &Interval, more: f64| {
        y + half > i.from.value - more + SLACK && y - half < i.to.value + more - SLACK
    };
    y - half >= -SLACK
        && y + half <= survey.roof.length.value + SLACK
        && !survey.openings.iter().any(|o| meets(&o.patch.along, frame(o)))
        && !survey
            .braces
            .iter()
            .filter(|b| b.existing)
            .any(|b| meets(&Interval { from: b.along, to: b.along }, b.section.width().value / 2.0))
}
