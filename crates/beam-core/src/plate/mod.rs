//! The two-way roof.

mod brace;
mod condense;
mod contact;
mod element;
mod error;
mod factor;
mod grid;
mod laminate;
mod layout;
mod loads;
mod order;
mod output;
mod recover;
mod support;
mod system;

#[cfg(test)]
mod validation;

pub use brace::{Along, Bond, Brace};
pub use condense::{BraceLine, Candidate, CondensedPanel, Trial};
pub use error::PlateError;
pub use grid::{Finer, Grid, graded_lines};
pub use laminate::{PlateLaminate, PlateLayer};
pub use loads::{Load, LoadVector};
pub use output::{Influence, Output};
pub use recover::{Balance, BraceForces, CellState, Response};
pub use support::{Edge, Supports, Thrust};
pub use system::{PlateModel, PlateSystem, arc_height};
