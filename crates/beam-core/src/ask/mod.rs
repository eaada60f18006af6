//! The questions people come with.

mod answers;
pub mod bend;
mod beside;
mod brace;
mod check;
mod document;
mod each;
mod edge_feet;
mod evaluate;
mod explain;
mod gaps;
mod hot_bow;
mod on_the_road;
mod over_opening;
mod pieces;
mod places;
mod probe;
mod props;
mod reading;
mod rebound;
mod seat;
pub mod size;
mod solve;
mod states;
mod study;
mod test_weight;
mod trimmer_ends;
mod tube;
mod typed;
mod untried;
mod walk;
mod water;
mod words;
mod work;
mod working;

pub use bend::{BendDocument, BendError, BendOptions, bend};
pub use brace::{BraceAnswer, BraceError, BraceLoad, BraceQuestion, BraceStrength, SecondOrder, brace};
pub use check::{AskError, CheckOptions, check};
pub use explain::{CodeKind, Explanation, UnknownCode, explain};
pub use seat::{SeatDocument, SeatOptions, Sits, seat};
pub use size::{
    AloneDocument, AloneQuestion, CandidateRow, CutRow, FirstBy, SizeDocument, SizeError, SizeOptions,
    Trimmers, size, size_alone,
};
#[doc(hidden)]
pub use states::{States, solve_states};
pub use tube::{
    Bending, Properties, TubeAnswer, TubeBasis, TubeError, TubeQuestion, TubeSection, TubeSize, TubeStrength,
    tube,
};
pub use typed::{TypedError, TypedTube};
pub use walk::{Places, StageAnswer, WalkBoardWords, WalkDocument, WalkOptions, WorstPlace, walk};

/// Feet of a finished, unbraced roof of default materials, for tests of single checks.
#[cfg(test)]
pub(crate) mod for_tests {
    use super::study::{Job, Variant};
    use crate::check::{Bracing, Finding, Untried};
    use crate::loads::Factors;
    use crate::model::Hold;
    use crate::survey::Survey;
    use section_tables::Tables;

    pub(crate) fn feet(survey: &Survey, curvature: f64) -> (Vec<Finding>, Vec<Untried>) {
        let factors = Factors::of(survey, Tables::shipped()).expect("the factors of the tables");
        let job = Job::new(survey, &factors, "finished".to_owned(), Vec::new());
        let variant = Variant::finished(Bracing::Without, Hold::all(survey)[0]);
        job.feet(variant, curvature).unwrap_or_else(|e| panic!("{e:?}"))
    }
}
