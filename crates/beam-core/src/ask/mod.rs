//! The questions people come with.
mod evaluate;
mod places;
mod solve;
