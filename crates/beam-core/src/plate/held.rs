//! Solving with every contact closed, so that responses add; and what changes where contacts that push only let go.

use std::borrow::Cow;

use super::contact::{Free, Openings};
use super::error::PlateError;
use super::forces::Forces;
use super::loads::LoadVector;
use super::recover::Response;
use super::system::{PlateSystem, put};

impl PlateSystem {
    /// Solves many loads with every contact closed; each response is reduced at once.
    pub(crate) fn solve_held_each<T: Send>(
        &self,
        loads: &[LoadVector],
        reduce: impl Fn(usize, &Response<'_>) -> T + Sync,
    ) -> Vec<T> {
        self.factor.solve_each(
            loads.len(),
            |k, side| put(&loads[k], side),
            |k, u, ()| reduce(k, &Response::new(self, Cow::Borrowed(u), Cow::Borrowed(&loads[k]))),
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
            |k, side| {
                let load = load(k)?;
                put(&load, side);
                Some(load)
            },
            |k, u, load| Some(reduce(k, &Response::new(self, Cow::Borrowed(u), Cow::Owned(load?)))),
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
        LoadVector { force: Forces::default(), brace_strain: vec![[0.0; 2]; self.model.braces.len()] }
    }

    /// What changes under each of many loads when those of its free contacts open that would have to pull, from the
    /// pushes of all contacts while they are closed, N; `None` where none would.
    ///
    /// # Errors
    /// As [`PlateSystem::solve`], for the first load that fails.
    pub(crate) fn let_go_each<T: Send>(
        &self,
        closed: &[(Vec<f64>, Free)],
        reduce: impl Fn(&Response<'_>) -> T + Sync,
    ) -> Result<Vec<Option<T>>, PlateError> {
        let opened: Vec<Option<Openings>> = closed
            .iter()
            .map(|(pushes, free)| self.openings_from(pushes, 0.0, *free))
            .collect::<Result<_, PlateError>>()?;
        let open: Vec<&Openings> = opened.iter().flatten().collect();
        let none = self.no_load();
        let mut changes = self
            .factor
            .solve_each(
                open.len(),
                |k, side| self.put_openings(open[k], side),
                |k, u, ()| reduce(&Response::new(self, self.with_openings(u, open[k]), Cow::Borrowed(&none))),
            )
            .into_iter();
        Ok(opened.iter().map(|o| o.as_ref().and_then(|_| changes.next())).collect())
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
        layout.supports.one_way.iter().zip(force).map(|(&c, force)| force - self.load.force.at(c)).collect()
    }
}
