//! A long reckoning over items that do not depend on each other, shared among the processors.

use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{Builder, ScopedJoinHandle, available_parallelism, scope};

/// At most so many parts: more gain little, and a phone's further processors are slow ones.
const MOST_PARTS: usize = 4;
/// A part with fewer terms than this is not worth a thread: one costs as much as some hundred of them.
const LEAST_TERMS: usize = 10_000;

/// What `reckon` gives for the items in parts, in their order; each item has so many terms.
pub(crate) fn in_parts<T: Sync, R: Send + Sync>(items: &[T], terms: usize, reckon: impl Fn(&[T]) -> R + Sync) -> Vec<R> {
    let wanted = (items.len().saturating_mul(terms) / LEAST_TERMS).clamp(1, processors());
    let parts: Vec<&[T]> = items.chunks(items.len().div_ceil(wanted).max(1)).collect();
    one_by_one(&parts, |part| reckon(part))
}

/// What `find` gives for each item, in their order: each processor takes the next one as soon as it is free. For items that are long to reckon.
pub(crate) fn one_by_one<T: Sync, R: Send + Sync>(items: &[T], find: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let found: Vec<OnceLock<R>> = items.iter().map(|_| OnceLock::new()).collect();
    let next = AtomicUsize::new(0);
    let work = || {
        while let Some((item, place)) = items.iter().zip(&found).nth(next.fetch_add(1, Ordering::Relaxed)) {
            place.get_or_init(|| find(item));
        }
    };
    scope(|scope| {
        let others: Vec<_> = (1..processors().min(items.len())).map(|_| Builder::new().spawn_scoped(scope, work)).collect();
        work();
        // What a thread that broke left is reckoned below.
        others.into_iter().flatten().map(ScopedJoinHandle::join).for_each(drop);
    });
    found.into_iter().zip(items).map(|(found, item)| found.into_inner().unwrap_or_else(|| find(item))).collect()
}

fn processors() -> usize {
    static COUNT: OnceLock<usize> = OnceLock::new();
    *COUNT.get_or_init(|| available_parallelism().map_or(1, usize::from).min(MOST_PARTS))
}

#[cfg(test)]
mod tests {
    use super::{in_parts, one_by_one};

    #[test]
    fn each_comes_in_its_order() {
        let items: Vec<usize> = (0..1_000).collect();
        assert_eq!(one_by_one(&items, |item| *item), items);
        assert!(one_by_one(&[], |item: &usize| *item).is_empty());
    }

    #[test]
    fn parts_come_in_their_order_and_none_is_lost() {
        for count in [0, 1, 2, 7, 9_999, 100_001] {
            let items: Vec<usize> = (0..count).collect();
            for terms in [0, 1, 1_000] {
                assert_eq!(in_parts(&items, terms, <[usize]>::to_vec).concat(), items);
            }
        }
    }
}
