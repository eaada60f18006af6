//! Work on many roofs, few at a time.

use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::prelude::*;

/// `work` on every item, on no more of them at once than there are threads. A thread that waits for another then helps with
/// what is under way; it does not begin one more roof, all of whose numbers would have to be kept beside those of the first.
pub(crate) fn each<I: Sync, T: Send>(items: &[I], work: impl Fn(&I) -> T + Sync) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let in_turn = || {
        std::iter::from_fn(|| {
            let number = next.fetch_add(1, Ordering::Relaxed);
            Some((number, work(items.get(number)?)))
        })
    };
    let workers = rayon::current_num_threads().min(items.len());
    let mut done: Vec<(usize, T)> =
        (0..workers).into_par_iter().with_max_len(1).flat_map_iter(|_| in_turn()).collect();
    done.sort_by_key(|(number, _)| *number);
    done.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_item_once_in_order_and_few_at_a_time() {
        let (under_way, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        let items: Vec<u64> = (0..50).collect();
        let squares = each(&items, |n| {
            let now = under_way.fetch_add(1, Ordering::SeqCst) + 1;
            most.fetch_max(now, Ordering::SeqCst);
            // What waits inside may be stolen, a whole item never.
            let (a, b) = rayon::join(|| (0..*n).sum::<u64>(), || (0..=*n).sum::<u64>());
            under_way.fetch_sub(1, Ordering::SeqCst);
            a + b
        });
        assert_eq!(squares, items.iter().map(|n| n * n).collect::<Vec<_>>());
        assert!(most.into_inner() <= rayon::current_num_threads());
        assert_eq!(each(&[] as &[u64], |n| *n), [0u64; 0]);
    }
}
