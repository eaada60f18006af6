//! Trimmers beside the opening: short members along, between the braces in front of it and behind it.

use serde::Serialize;

use super::places::{braced_opening, frame};
use crate::survey::{Interval, Opening, Survey};

/// Rounding, not measuring.
const SLACK: f64 = 1e-6;

/// Whether trimmers are tried.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Trimmers {
    /// Every candidate with a brace on both sides of the opening is tried without trimmers and with them.
    #[default]
    Both,
    /// None is tried with trimmers.
    Without,
    /// Only candidates with trimmers are tried.
    With,
}

impl Trimmers {
    /// Whether candidates without trimmers, and with them, are tried.
    pub(super) fn tried(self) -> [bool; 2] {
        [self != Trimmers::With, self != Trimmers::Without]
    }
}

/// Trimmers of one candidate, of the tube of its braces.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TrimmerPlaces {
    /// Centre lines from the left wall, m.
    pub across: Vec<f64>,
    /// The braces they run between, by their order from the front.
    pub between: [usize; 2],
    /// Front and rear end, m: the near faces of the braces.
    pub ends: [f64; 2],
}

impl TrimmerPlaces {
    /// Length of each, square cut between the faces of the braces, m.
    pub(super) fn length(&self) -> f64 {
        self.ends[1] - self.ends[0]
    }
}

/// Trimmers of that width for braces on those lines, each with its near face at the edge of the opening, or at its frame;
/// `None` where the opening has no brace on both sides, or where no trimmer has room.
pub(super) fn trimmers_beside(survey: &Survey, along: &[f64], width: f64) -> Option<TrimmerPlaces> {
    let opening = braced_opening(survey)?;
    let hole = opening.patch.along;
    let front = along.iter().rposition(|y| *y < hole.from.value)?;
    let rear = along.iter().position(|y| *y > hole.to.value)?;
    let ends = [along[front] + width / 2.0, along[rear] - width / 2.0];
    let beside = frame(opening) + width / 2.0;
    let sides = [opening.patch.across.from.value - beside, opening.patch.across.to.value + beside];
    let across: Vec<f64> = sides.into_iter().filter(|x| is_clear(survey, *x, ends, width)).collect();
    (!across.is_empty()).then_some(TrimmerPlaces { across, between: [front, rear], ends })
}

/// Whether a trimmer there lies on the roof, beside every opening and its frame, and between braces that are there.
fn is_clear(survey: &Survey, x: f64, [front, rear]: [f64; 2], width: f64) -> bool {
    let half = width / 2.0;
    let meets = |i: &Interval, [from, to]: [f64; 2], more: f64| {
        to > i.from.value - more + SLACK && from < i.to.value + more - SLACK
    };
    let on_it = |o: &Opening| {
        meets(&o.patch.across, [x - half, x + half], frame(o))
            && meets(&o.patch.along, [front, rear], frame(o))
    };
    let crosses = |y: f64, half: f64| y + half > front + SLACK && y - half < rear - SLACK;
    x - half >= -SLACK
        && x + half <= survey.roof.span.value + SLACK
        && !survey.openings.iter().any(on_it)
        && !survey
            .braces
            .iter()
            .filter(|b| b.existing)
            .any(|b| crosses(b.along.value, b.section.width().value / 2.0))
}

#[cfg(test)]
mod tests {
    use super::super::tests::theatre;
    use super::*;

    const INCH: f64 = 0.0254;

    #[track_caller]
    fn near(found: f64, inches: f64) {
        assert!((found - inches * INCH).abs() < 1e-9, "{} in, not {inches}", found / INCH);
    }

    /// A hole from 39 to 53 1/4 in with a frame 1 in wide, tubes 1 in wide on lines 49 1/2 and 68 3/4 in: centre lines at
    /// 39 - 1 - 1/2 and 53 1/4 + 1 + 1/2 in, cut from 50 to 68 1/4 in.
    #[test]
    fn trimmers_lie_beside_the_frame_between_the_braces() {
        let survey = theatre("");
        let along = [49.5 * INCH, 68.75 * INCH, 94.0 * INCH];
        let places = trimmers_beside(&survey, &along, INCH).expect("room");
        assert_eq!((places.across.len(), places.between), (2, [0, 1]));
        near(places.across[0], 37.5);
        near(places.across[1], 54.75);
        near(places.length(), 18.25);
        assert_eq!(trimmers_beside(&survey, &along[..1], INCH), None, "no brace behind");
        assert_eq!(trimmers_beside(&survey, &along[1..], INCH), None, "no brace in front");
    }

    #[test]
    fn trimmers_keep_clear_of_walls_other_openings_and_old_bows() {
        let along = [49.5 * INCH, 68.75 * INCH];
        let across = |survey: &Survey| trimmers_beside(survey, &along, INCH).map(|t| t.across);
        let mut survey = theatre("");
        survey.openings[0].patch.across.from = crate::quantity::si(1.5 * INCH);
        let right_only = across(&survey).expect("room at the right");
        assert_eq!(right_only.len(), 1);
        near(right_only[0], 54.75);
        let mut second = survey.openings[0].clone();
        second.patch.across.from = crate::quantity::si(56.0 * INCH);
        second.patch.across.to = crate::quantity::si(60.0 * INCH);
        survey.openings.push(second);
        assert_eq!(across(&survey), None, "its frame begins at 55 in, the trimmer would end at 55 1/4 in");
        let bow = "[[brace]]\nname = \"bow\"\ntube = \"1 x 1 x 1/8\"\nalloy = \"6063-T5\"\nalong = \"68\"\nexisting = true\nglued = []";
        assert_eq!(across(&theatre(bow)), None, "an old bow lies across them");
    }
}
