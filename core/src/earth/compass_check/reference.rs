//! Which stations of a chain are held free of attraction.
//!
//! Both ends of a line that agrees are free: that is the trade's rule, and it may name several groups of stations with
//! attracted ones between them. A group whose attraction, carried on from another over the stations between, comes out
//! as nothing is free together with it.

use super::AGREES_WITHIN_SIGMAS;
use super::adjustment::{Adjusted, adjust};
use super::stations::{Line, groups, members};
use crate::measure::signed_difference_deg;

/// What a chain offers to carry attraction on from.
pub(super) enum Reference {
    /// These stations are free.
    Free(Vec<usize>),
    /// No line agrees.
    Nothing,
    /// Sets of equal size contradict each other; one of them.
    Tied(Vec<usize>),
}

/// The largest set of stations in a chain that lines which agree join and that agree with each other.
pub(super) fn reference_of(chain: &[usize], lines: &[Line], agrees: impl Fn(Line) -> bool, closure_spread_deg: f64) -> Reference {
    let count = chain.iter().max().map_or(0, |last| last + 1);
    let agreeing: Vec<Line> = lines.iter().copied().filter(|line| agrees(*line)).collect();
    let group_of = groups(count, &agreeing);
    let joined: Vec<Vec<usize>> = members(&group_of).into_iter().filter(|group| group.len() > 1).collect();
    let Some(between) = adjust_groups(chain, lines, &group_of) else { return Reference::Nothing };
    let agree = |one: &[usize], other: &[usize]| groups_agree(&between, one, other, closure_spread_deg);
    let united = |one: &Vec<usize>| joined.iter().filter(|other| agree(one, other)).flatten().copied().collect();
    largest(joined.iter().map(united).collect())
}

fn largest(sets: Vec<Vec<usize>>) -> Reference {
    let most = sets.iter().map(Vec::len).max();
    let mut best = sets.into_iter().filter(|set| Some(set.len()) == most);
    match best.next() {
        None => Reference::Nothing,
        Some(set) if best.all(|other| other == set) => Reference::Free(set),
        Some(set) => Reference::Tied(set),
    }
}

/// The attraction of each group as one station, named by its first, against the first of the chain.
fn adjust_groups(chain: &[usize], lines: &[Line], group_of: &[usize]) -> Option<Adjusted> {
    let group = |station: usize| group_of.get(station).copied().unwrap_or(station);
    let mut stations: Vec<usize> = chain.iter().map(|station| group(*station)).collect();
    stations.sort_unstable();
    stations.dedup();
    let (first, others) = stations.split_first()?;
    let whole = lines.iter().map(|line| Line { from: group(line.from), to: group(line.to), ..*line });
    let between: Vec<Line> = whole.filter(|line| line.from != line.to).collect();
    adjust(&between, &[*first], others)
}

/// Whether the attraction of two groups differs by no more than their lines scatter.
fn groups_agree(between: &Adjusted, one: &[usize], other: &[usize], closure_spread_deg: f64) -> bool {
    let (Some(&i), Some(&j)) = (one.first(), other.first()) else { return false };
    let apart_deg = signed_difference_deg(between.attraction_deg(i), between.attraction_deg(j));
    let cofactor = between.cofactor(i, i) + between.cofactor(j, j) - 2.0 * between.cofactor(i, j);
    i == j || apart_deg.abs() <= AGREES_WITHIN_SIGMAS * closure_spread_deg * cofactor.max(0.0).sqrt()
}
