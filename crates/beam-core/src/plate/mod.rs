//! The two-way roof.

mod brace;
mod contact;
mod element;
mod error;
mod factor;
mod grid;
mod held;
mod laminate;
mod layout;
mod loads;
mod order;
mod recover;
mod roof;
mod support;
mod system;

#[cfg(test)]
mod validation;

pub use brace::{Along, Bond, Brace};
pub use error::PlateError;
pub use grid::{Finer, Grid, graded_lines};
pub use laminate::{PlateLaminate, PlateLayer};
pub use loads::{Load, LoadVector};
pub use recover::{Balance, BraceForces, CellState, Response};
pub(crate) use roof::{GridSize, PlateRoof, PlateShape, Wanted, shape};
pub use support::{Edge, Supports, Thrust};
pub use system::{PlateModel, PlateSystem, arc_height};
