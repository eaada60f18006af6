//! The two-way roof: a crowned laminate with openings, damaged zones and eccentric braces, in SI throughout.
//!
//! 1. [`graded_lines`] and [`Grid`]: rectangles whose lines fall on every edge that matters.
//! 2. [`PlateModel`]: build-up of each zone ([`PlateLaminate`]), crown, [`Brace`]s, [`Supports`].
//! 3. [`PlateSystem::new`]: unknowns in elimination order, one stiffness matrix a class of cells, one factor.
//!    [`PlateSystem::with_state`] factorises another state of the materials on the same numbering.
//! 4. [`PlateSystem::load`], [`PlateSystem::solve`], [`PlateSystem::solve_each`]: right-hand sides of that factor.
//!    Walls, props and loose braces that can only push open where they would have to pull.
//! 5. [`Response`]: sag, strains and forces, brace forces, reactions, thrust, and its own [`Balance`].
//! 6. [`PlateSystem::influence`]: one output for every place of a load; [`CondensedPanel`]: one more candidate
//!    brace for the price of a small dense solve.
//!
//! Axes: `x` across, `y` along, `z` up from one reference plane. Loads and sag are positive downwards, sagging
//! moments and tension positive. Inside, `w` points up.
//!
//! A grid with 32 cells across the span and 10 across a loaded patch keeps sags within 0.2 percent and moments
//! within 1 percent of the series solutions in the tests.
//!
//! # Valid for
//! Small movements of a shallow roof (rise up to about a tenth of the span); layers that stay together in a zone;
//! no local dent under a foot and no bending of a skin by itself.
//!
//! # References
//! Named beside each part: Dvorkin and Bathe (1984), Taylor, Beresford and Wilson (1976), Marguerre (1938),
//! MacNeal (1978), George (1973), Judice and Pires (1994); all from memory.
//!
//! # Examples
//! A sandwich panel 2.3 m by 1.2 m on four walls under 1 kPa (Navier's series: 5.023 mm).
//! ```
//! use beam_core::plate::*;
//!
//! let isotropic = |k: f64| [[k, 0.25 * k, 0.0], [0.25 * k, k, 0.0], [0.0, 0.0, 0.375 * k]];
//! let panel = PlateLaminate {
//!     a: isotropic(4.48e7),
//!     b: [[0.0; 3]; 3],
//!     d: isotropic(8814.4),
//!     ks: [59_584.0; 2],
//!     layers: vec![],
//! };
//! let x = graded_lines(2.3, &[1.15], 0.07, &[])?;
//! let y = graded_lines(1.2, &[0.6], 0.07, &[])?;
//! let system = PlateSystem::new(PlateModel {
//!     grid: Grid::new(x, y, |_, _| Some(0))?,
//!     laminates: vec![panel],
//!     rise: vec![],
//!     braces: vec![],
//!     supports: Supports::all_round(Edge::Hard),
//! })?;
//! let response = system.solve(&system.load(&[Load::Pressure(1000.0)])?)?;
//! let sag = response.sag(1.15, 0.6).expect("there is panel in the middle");
//! assert!((sag - 5.022844e-3).abs() < 0.002 * sag);
//! # Ok::<(), PlateError>(())
//! ```

mod brace;
mod condense;
mod contact;
mod element;
mod error;
mod factor;
mod forces;
mod grid;
mod held;
mod known;
mod laminate;
mod lay;
mod layout;
mod loads;
mod member;
mod numbering;
mod order;
mod output;
mod recover;
mod roof;
mod room;
mod scatter;
mod support;
mod system;

#[cfg(test)]
mod validation;

pub use brace::{Along, Bond, Brace};
pub use condense::{BraceLine, Candidate, CondensedPanel, Ready, Trial};
pub use error::PlateError;
pub use grid::{Finer, Grid, graded_lines};
pub use laminate::{PlateLaminate, PlateLayer};
pub use loads::{Load, LoadVector};
pub use output::{Influence, Output};
pub use recover::{Balance, BraceForces, CellState, Response};
pub use support::{Edge, Supports, Thrust};
pub use system::{PlateModel, PlateSystem, arc_height};

pub(crate) use contact::Free;
pub(crate) use known::Layouts;
pub(crate) use roof::{
    CellPlace, CondensedRoof, GridSize, Kept, Kinds, LaidBraces, NewBraces, PlateRoof, PlateShape, Reader,
    Standing, TrimmerLine, Wanted, coupling, shape,
};
