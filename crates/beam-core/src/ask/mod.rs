//! The questions people come with.
mod evaluate;
