//! Solving with every contact closed, so that responses add; and what changes where contacts that push only let go.

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
}

impl Response<'_> {
    /// Push of every contact that pushes only, N; negative where it would have to pull.
    pub(crate) fn pushes(&self) -> Vec<f64> {
        let internal = self.internal();
        let contacts = &self.system.layout.supports.one_way;
        contacts.iter().map(|&c| internal[c] - self.load.force[c]).collect()
    }
}
