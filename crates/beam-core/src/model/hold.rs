//! What may help a roof and cannot be relied on: it is judged with each and without, and the worse counts.

use super::joint::parts;
use crate::survey::{Survey, Thrust};

/// What is counted on.
///
/// A part that is stiffer draws more load to itself: leaving a help out is not always the worse.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Hold {
    /// Side walls hold what pushes them outward, as far as the survey says. They may spread.
    pub walls: bool,
    /// Butt and backed joints pass force, as where they are pressed shut. They may gape.
    pub joints: bool,
}

impl Hold {
    /// Every state of a surveyed roof: first walls as surveyed with its joints gaping.
    pub(crate) fn all(survey: &Survey) -> Vec<Hold> {
        let walls: &[bool] = if survey.wall.thrust == Thrust::None { &[false] } else { &[true, false] };
        let joints: &[bool] = if survey.joints.iter().any(parts) { &[false, true] } else { &[false] };
        joints.iter().flat_map(|&joints| walls.iter().map(move |&walls| Hold { walls, joints })).collect()
    }
}
