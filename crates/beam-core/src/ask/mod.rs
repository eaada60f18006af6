//! The questions people come with.

mod answers;
mod brace;
mod check;
mod document;
mod evaluate;
mod gaps;
mod places;
mod reading;
mod solve;
mod study;
mod words;

pub use brace::{
    BraceAnswer, BraceError, BraceLoad, BraceMadeWith, BraceQuestion, BraceStrength, SecondOrder,
    TubeSection, brace,
};
pub use check::{AskError, CheckOptions, check};
