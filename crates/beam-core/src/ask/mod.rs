//! The questions people come with.

mod answers;
mod check;
mod document;
mod evaluate;
mod gaps;
mod places;
mod probe;
mod reading;
mod solve;
mod study;
mod walk;
mod words;

pub use check::{AskError, CheckOptions, check};
pub use walk::{Places, StageAnswer, WalkBoardWords, WalkDocument, WalkOptions, WorstPlace, walk};
