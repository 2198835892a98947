//! A long reckoning over places that do not depend on each other, shared among the processors.

use std::sync::OnceLock;
use std::thread::{Builder, ScopedJoinHandle, available_parallelism, scope};

/// At most so many parts: more gain little, and a phone's further processors are slow ones.
const MOST_PARTS: usize = 4;
/// A part with fewer terms than this is not worth a thread: one costs as much as some hundred of them.
const LEAST_TERMS: usize = 10_000;

/// What `reckon` gives for the items in parts, in their order; each item has so many terms.
pub(crate) fn in_parts<T: Sync, R: Send>(items: &[T], terms: usize, reckon: impl Fn(&[T]) -> R + Sync) -> Vec<R> {
    let wanted = (items.len().saturating_mul(terms) / LEAST_TERMS).clamp(1, processors());
    let size = items.len().div_ceil(wanted).max(1);
    let reckon = &reckon;
    scope(|scope| {
        let mut parts = items.chunks(size);
        let own = parts.next().unwrap_or_default();
        let begin = |part| (part, Builder::new().spawn_scoped(scope, move || reckon(part)));
        let others: Vec<_> = parts.map(begin).collect();
        let mut all = vec![reckon(own)];
        // Where no thread is to be had, or one broke, the part is reckoned here.
        all.extend(others.into_iter().map(|(part, thread)| match thread.map(ScopedJoinHandle::join) {
            Ok(Ok(reckoned)) => reckoned,
            Ok(Err(_)) | Err(_) => reckon(part),
        }));
        all
    })
}

fn processors() -> usize {
    static COUNT: OnceLock<usize> = OnceLock::new();
    *COUNT.get_or_init(|| available_parallelism().map_or(1, usize::from).min(MOST_PARTS))
}

#[cfg(test)]
mod tests {
    use super::in_parts;

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
