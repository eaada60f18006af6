//! Solving with every contact closed, so that responses add; and what changes where contacts that push only let go.

use super::contact::Free;
use super::error::PlateError;
use super::loads::LoadVector;
use super::recover::Response;
use super::system::PlateSystem;

impl PlateSystem {
    /// Solves many loads with every contact closed; each response is reduced at once.
    pub(crate) fn solve_held_each<T: Send>(
        &self,
        loads: &[LoadVector],
        reduce: impl Fn(usize, &Response<'_>) -> T + Sync,
    ) -> Vec<T> {
        self.factor.solve_each(
            loads.len(),
            |k, x| self.take_unknowns(&loads[k].force, x),
            |k, x| reduce(k, &Response::new(self, self.full_vector(x), loads[k].clone())),
        )
    }
}

impl PlateSystem {
    /// As [`PlateSystem::solve_held_each`], for more loads than could be kept: each is made when its turn comes, and
    /// `None` is no load.
    pub(crate) fn solve_made_each<T: Send>(
        &self,
        count: usize,
        load: impl Fn(usize) -> Option<LoadVector> + Sync,
        reduce: impl Fn(usize, &Response<'_>) -> T + Sync,
    ) -> Vec<Option<T>> {
        self.factor.solve_each(
            count,
            |k, x| {
                if let Some(load) = load(k) {
                    self.take_unknowns(&load.force, x);
                }
            },
            |k, x| load(k).map(|load| reduce(k, &Response::new(self, self.full_vector(x), load))),
        )
    }

    /// Nodes under the contacts that push only, in their order; a brace's own contacts come last and have none.
    pub(crate) fn contact_nodes(&self) -> Vec<usize> {
        let nodes = self.model.grid.nodes();
        self.layout.supports.one_way.iter().map(|c| c / 5).take_while(|n| *n < nodes).collect()
    }

    /// Whether anything pushes only.
    pub(crate) fn has_contacts(&self) -> bool {
        !self.layout.supports.one_way.is_empty()
    }

    /// No load at all.
    pub(crate) fn no_load(&self) -> LoadVector {
        LoadVector {
            force: vec![0.0; self.layout.full + 1],
            brace_strain: vec![[0.0; 2]; self.model.braces.len()],
        }
    }

    /// Many loads, each with those of its free contacts open that would have to pull; `None` for a load under which
    /// none does.
    ///
    /// # Errors
    /// As [`PlateSystem::solve`], for the first load that fails.
    pub(crate) fn settle_each<T: Send>(
        &self,
        loads: &[(LoadVector, Free)],
        reduce: impl Fn(&Response<'_>) -> T + Sync,
    ) -> Result<Vec<Option<T>>, PlateError> {
        let opened: Vec<Option<Vec<f64>>> = self
            .factor
            .solve_each(
                loads.len(),
                |k, x| self.take_unknowns(&loads[k].0.force, x),
                |k, x| self.openings(&self.full_vector(x), &loads[k].0, loads[k].1),
            )
            .into_iter()
            .collect::<Result<_, PlateError>>()?;
        let open: Vec<(usize, &Vec<f64>)> =
            opened.iter().enumerate().filter_map(|(k, o)| o.as_ref().map(|o| (k, o))).collect();
        let mut again = self
            .factor
            .solve_each(
                open.len(),
                |at, x| {
                    let (k, opened) = open[at];
                    x.copy_from_slice(&self.opened_side(opened, &loads[k].0));
                },
                |at, x| {
                    let (k, opened) = open[at];
                    reduce(&Response::new(self, self.with_openings(x, opened), loads[k].0.clone()))
                },
            )
            .into_iter();
        Ok(opened.iter().map(|o| o.as_ref().and_then(|_| again.next())).collect())
    }
}

impl Response<'_> {
    /// Whole downward load, N.
    pub(crate) fn whole_load(&self) -> f64 {
        self.load.total(self.system)
    }

    /// Push of every contact that pushes only, N, up; negative where it would have to pull.
    pub(crate) fn pushes(&self) -> Vec<f64> {
        let layout = &self.system.layout;
        let force = layout.contact_force(&self.system.matrices, &self.u);
        layout.supports.one_way.iter().zip(force).map(|(&c, force)| force - self.load.force[c]).collect()
    }
}
