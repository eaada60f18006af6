//! Memory that is used again: fresh memory has to be mapped page by page, which takes a good part of a factorisation and
//! of a block of loads.

use std::sync::{Mutex, MutexGuard, PoisonError};

/// What is left over, kept apart by what it is for.
#[derive(Debug)]
pub(crate) struct Room {
    /// Values of factors: two for each of two threads.
    pub(crate) factors: Pool,
    /// Blocks of right-hand sides and their solutions, for as many.
    pub(crate) blocks: Pool,
}

impl Default for Room {
    fn default() -> Self {
        Self { factors: Pool::keeping(4), blocks: Pool::keeping(8) }
    }
}

/// Memory of one kind.
#[derive(Debug)]
pub(crate) struct Pool {
    left: Mutex<Vec<Vec<f64>>>,
    most: usize,
}

impl Pool {
    fn keeping(most: usize) -> Self {
        Self { left: Mutex::default(), most }
    }

    fn left(&self) -> MutexGuard<'_, Vec<Vec<f64>>> {
        self.left.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Values to be written over: the least room that they fit into, of those that were left.
    pub(crate) fn take(&self, size: usize) -> Vec<f64> {
        let mut left = self.left();
        let fits = (0..left.len()).filter(|k| left[*k].capacity() >= size);
        let least = fits.min_by_key(|k| left[*k].capacity());
        let found = least.map(|k| left.swap_remove(k));
        drop(left);
        let Some(mut values) = found else { return vec![0.0; size] };
        values.resize(size, 0.0);
        values
    }

    /// Keeps the largest.
    pub(crate) fn leave(&self, values: Vec<f64>) {
        if values.capacity() == 0 {
            return;
        }
        let mut left = self.left();
        left.push(values);
        if left.len() > self.most
            && let Some(least) = (0..left.len()).min_by_key(|k| left[*k].capacity())
        {
            left.swap_remove(least);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_room_that_fits_is_taken_and_the_largest_is_kept() {
        let pool = Pool::keeping(2);
        for size in [10, 40, 20] {
            pool.leave(Vec::with_capacity(size));
        }
        let values = pool.take(15);
        assert_eq!((values.len(), values.capacity()), (15, 20));
        assert!(pool.take(30).capacity() >= 40);
        assert_eq!(pool.take(5), [0.0; 5]);
    }
}
