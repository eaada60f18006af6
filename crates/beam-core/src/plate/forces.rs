//! Forces on a few of the full unknowns: people stand on a handful of nodes.

/// Forces by full number, ascending, each number once.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Forces(Vec<(u32, f64)>);

impl Forces {
    /// Adds up what comes several times.
    pub(crate) fn sum_of(mut parts: Vec<(u32, f64)>) -> Self {
        parts.sort_by_key(|(full, _)| *full);
        parts.dedup_by(|next, kept| {
            let same = next.0 == kept.0;
            if same {
                kept.1 += next.1;
            }
            same
        });
        Self(parts)
    }

    /// Full numbers and forces.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.0.iter().map(|&(full, force)| (full as usize, force))
    }

    /// The force on a full unknown.
    pub(crate) fn at(&self, full: usize) -> f64 {
        self.0.binary_search_by_key(&full, |(f, _)| *f as usize).map_or(0.0, |at| self.0[at].1)
    }

    /// Multiplies all by `factor`.
    pub(crate) fn scale(&mut self, factor: f64) {
        self.0.iter_mut().for_each(|(_, force)| *force *= factor);
    }

    /// Work on movements by full number.
    pub(crate) fn dot(&self, movements: &[f64]) -> f64 {
        self.iter().map(|(full, force)| force * movements[full]).sum()
    }

    /// The largest, without sign.
    pub(crate) fn largest(&self) -> f64 {
        self.0.iter().fold(0.0, |most, (_, force)| most.max(force.abs()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forces_on_one_unknown_add_up() {
        let mut forces = Forces::sum_of(vec![(7, 1.0), (2, -4.0), (7, 0.5), (2, 1.0)]);
        forces.scale(2.0);
        assert_eq!(forces.iter().collect::<Vec<_>>(), [(2, -6.0), (7, 3.0)]);
        assert_eq!((forces.at(7), forces.at(3), forces.largest()), (3.0, 0.0, 6.0));
        assert_eq!(forces.dot(&[0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 10.0]), 24.0);
    }
}
