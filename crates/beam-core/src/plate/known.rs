//! Roofs laid out before: the same roof in another state, or of other materials, takes its numbering and its symbolic
//! analysis from there.

use std::sync::{Arc, Mutex, PoisonError};

use super::error::PlateError;
use super::layout::Layout;
use super::room::Room;
use super::support::NodalSupports;
use super::system::PlateModel;

/// Layouts by the roofs that they are of, and the memory that factors leave.
#[derive(Debug, Default)]
pub(crate) struct Layouts {
    known: Mutex<Vec<(PlateModel, Arc<Layout>)>>,
    room: Arc<Room>,
}

impl Layouts {
    /// The layout of a roof whose nodes that carry panel are `active`.
    ///
    /// # Errors
    /// A line that is not on the grid, a member that crosses an opening.
    pub(crate) fn of(&self, model: &PlateModel, active: &[bool]) -> Result<Arc<Layout>, PlateError> {
        let known = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, layout)) = known().iter().find(|(other, _)| is_laid_out_alike(model, other)) {
            return Ok(layout.clone());
        }
        let supports = NodalSupports::new(&model.supports, &model.grid, active)?;
        let layout = Layout::new(&model.grid, &model.rise, &model.braces, active, supports, &self.room)?;
        let layout = Arc::new(layout);
        known().push((PlateModel { laminates: Vec::new(), ..model.clone() }, layout.clone()));
        Ok(layout)
    }
}

/// Whether two roofs differ in nothing but how stiff they are.
fn is_laid_out_alike(a: &PlateModel, b: &PlateModel) -> bool {
    a.grid == b.grid
        && a.rise == b.rise
        && a.supports == b.supports
        && a.braces.iter().map(|b| b.place()).eq(b.braces.iter().map(|b| b.place()))
}
