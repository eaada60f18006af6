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
mod words;

pub use check::{AskError, CheckOptions, check};
