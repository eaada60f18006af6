//! What the project is held against, and the harness that holds it.
//!
//! 1. [`Case`]: one row of a file under `data/`: inputs, the number expected, its source, its tolerance.
//! 2. [`route`]: how a row is put to the public interface of `beam-core`.
//! 3. [`suite`]: runs the rows of a file and reports every one that fails; shifts the most sensitive input of each row
//!    and demands that it then fails.
//! 4. [`index`]: the list of all rows, `tests/INDEX.md`.
//! 5. [`roof`]: whole roofs through `ask::check`, as JSON.

mod case;
mod folder;
pub mod index;
mod inputs;
pub mod roof;
pub mod route;
pub mod suite;
mod unit;

pub use case::{Case, Kind, read};
pub use folder::{FILES, Folder, blessing, data, written_or_blessed};
pub use inputs::Inputs;
