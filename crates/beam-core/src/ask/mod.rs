//! The questions people come with.
