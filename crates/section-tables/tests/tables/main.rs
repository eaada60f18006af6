//! The shipped tables against published numbers and against their own rules.

mod names;
mod own_rows;
mod published;
mod whole;
