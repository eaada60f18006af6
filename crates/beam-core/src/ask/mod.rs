//! The questions people come with.

mod answers;
mod check;
mod document;
mod evaluate;
mod gaps;
mod places;
mod reading;
mod solve;
mod study;
mod tube;
mod words;

pub use check::{AskError, CheckOptions, check};
pub use tube::{
    Bending, Properties, TubeAnswer, TubeBasis, TubeError, TubeMadeWith, TubeQuestion, TubeSection, TubeSize,
    TubeStrength, tube,
};
