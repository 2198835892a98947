//! What a shell lists at once, and what is found by a part of its name.

use crate::measure::{Arg, Message};
use crate::sheet::folded;
use crate::words::Words;

/// So many are listed at once: a sheet brought in from a file may have thousands. The others are asked for by their names.
pub(super) const LISTED: usize = 24;

/// Whether these words are a part of a name, without case and accents.
pub(super) fn is_named(name: &str, part: &str) -> bool {
    folded(name).contains(&folded(part))
}

/// As many as are listed, of more than those the ones of the least rank, the least first: whether they come after others, and how far
/// they are, metres.
pub(super) fn nearest<T>(all: Vec<T>, rank: impl Fn(&T) -> (bool, f64)) -> Vec<T> {
    if all.len() <= LISTED {
        return all;
    }
    let mut ranked: Vec<_> = all.into_iter().map(|one| (rank(&one), one)).collect();
    ranked.sort_by(|((a, a_m), _), ((b, b_m), _)| a.cmp(b).then(a_m.total_cmp(b_m)));
    ranked.into_iter().take(LISTED).map(|(_, one)| one).collect()
}

/// How many of a sort there are, by the name of the sentence for all of them or for those that were asked for by a part of their names,
/// and a row for each that is listed.
pub(super) fn told(words: &Words, of: &'static str, left: u32, rows: Vec<String>) -> Vec<String> {
    let count = Arg::Count(rows.len() as i64 + i64::from(left));
    let heading = Message::new(of).with("count", count).with("left", Arg::Count(left.into()));
    std::iter::once(words.say(&heading)).chain(rows).collect()
}

/// Of two sentences, that for all or that for those with a part of their names.
pub(super) fn of_named(named: &str, all: &'static str, some: &'static str) -> &'static str {
    if named.trim().is_empty() { all } else { some }
}
