//! Solving with every contact closed, so that responses add; and what changes where contacts that push only let go.

use super::error::PlateError;
use super::loads::LoadVector;
use super::recover::Response;
use super::system::PlateSystem;

impl PlateSystem {
    /// Solves many loads with every contact closed; each response is reduced at once.
    pub(crate) fn solve_held_each<T: Send>(
        &self,
        loads: &[LoadVector],
        reduce: impl Fn(&Response<'_>) -> T + Sync,
    ) -> Vec<T> {
        self.factor.solve_each(
            loads.len(),
            |k, x| x.copy_from_slice(&self.unknown_part(&loads[k].force)),
            |k, x| reduce(&Response::new(self, self.full_vector(x), loads[k].clone())),
        )
    }

    /// Responses to one load with every contact closed, and with those open that would have to pull.
    ///
    /// # Errors
    /// As [`PlateSystem::solve`].
    pub(crate) fn closed_and_settled(&self, load: &LoadVector) -> Result<[Response<'_>; 2], PlateError> {
        let mut x = self.unknown_part(&load.force);
        self.factor.solve_in_place(&mut x, 1);
        let closed = Response::new(self, self.full_vector(&x), load.clone());
        let settled = self.settle(self.full_vector(&x), load)?;
        Ok([closed, settled])
    }

    /// Push of every contact that pushes only, N; negative where it would have to pull.
    pub(crate) fn pushes(&self, response: &Response<'_>) -> Vec<f64> {
        self.layout.supports.one_way.iter().map(|&s| response.reaction(s)).collect()
    }
}
