//! The questions people come with.

mod answers;
pub mod bend;
mod beside;
mod brace;
mod check;
mod document;
mod edge_feet;
mod evaluate;
mod explain;
mod gaps;
mod hot_bow;
mod on_the_road;
mod places;
mod probe;
mod props;
mod reading;
mod seat;
pub mod size;
mod solve;
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
    AloneDocument, AloneQuestion, CandidateRow, CutRow, FirstBy, SizeDocument, SizeError, SizeOptions, size,
    size_alone,
};
pub use tube::{
    Bending, Properties, TubeAnswer, TubeBasis, TubeError, TubeQuestion, TubeSection, TubeSize, TubeStrength,
    tube,
};
pub use typed::{TypedError, TypedTube};
pub use walk::{Places, StageAnswer, WalkBoardWords, WalkDocument, WalkOptions, WorstPlace, walk};
