//! The two-way roof.

mod element;
mod error;
mod factor;
mod grid;
mod laminate;
mod order;
pub use error::PlateError;
pub use grid::{Finer, Grid, graded_lines};
pub use laminate::{PlateLaminate, PlateLayer};
