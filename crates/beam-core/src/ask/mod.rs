//! The questions people come with.

mod answers;
pub mod bend;
mod brace;
mod check;
mod document;
mod evaluate;
mod gaps;
mod joints;
mod places;
mod probe;
mod props;
mod reading;
mod solve;
mod study;
mod tube;
mod typed;
mod walk;
mod water;
mod words;

pub use bend::{BendDocument, BendError, BendOptions, bend};
pub use brace::{
    BraceAnswer, BraceError, BraceLoad, BraceMadeWith, BraceQuestion, BraceStrength, SecondOrder, brace,
};
pub use check::{AskError, CheckOptions, check};
pub use tube::{
    Bending, Properties, TubeAnswer, TubeBasis, TubeError, TubeMadeWith, TubeQuestion, TubeSection, TubeSize,
    TubeStrength, tube,
};
pub use typed::{TypedError, TypedTube};
pub use walk::{Places, StageAnswer, WalkBoardWords, WalkDocument, WalkOptions, WorstPlace, walk};
