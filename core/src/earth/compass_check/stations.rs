//! Stations by number, and which of them hang together.

use super::Pair;
use crate::measure::signed_difference_deg;

/// A pair with its stations by number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) from: usize,
    pub(super) to: usize,
    /// Attraction of `from` less that of `to`, as read, degrees.
    pub(super) closure_deg: f64,
}

/// The stations of pairs in the order of their first appearance, and the pairs as lines between them.
pub(super) fn numbered(pairs: &[Pair]) -> (Vec<String>, Vec<Line>) {
    let mut names: Vec<String> = Vec::new();
    let lines = pairs.iter().map(|pair| line_of(pair, &mut names)).collect();
    (names, lines)
}

fn line_of(pair: &Pair, names: &mut Vec<String>) -> Line {
    let closure_deg = signed_difference_deg(pair.fore_deg_mag, pair.back_deg_mag + 180.0);
    Line { from: number_of(&pair.from, names), to: number_of(&pair.to, names), closure_deg }
}

fn number_of(name: &str, names: &mut Vec<String>) -> usize {
    names.iter().position(|known| known == name).unwrap_or_else(|| {
        names.push(name.to_owned());
        names.len() - 1
    })
}

/// For every station the least number of the stations that lines join it to: equal numbers hang together.
pub(super) fn groups(count: usize, lines: &[Line]) -> Vec<usize> {
    let mut of: Vec<usize> = (0..count).collect();
    for line in lines {
        let ends = [line.from, line.to].map(|end| of.get(end).copied().unwrap_or(end));
        let (keep, give) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        of.iter_mut().filter(|group| **group == give).for_each(|group| *group = keep);
    }
    of
}

/// The stations of each group, groups in the order of their first station.
pub(super) fn members(groups: &[usize]) -> Vec<Vec<usize>> {
    let all = |wanted: usize| (0..groups.len()).filter(|station| groups.get(*station) == Some(&wanted)).collect();
    let begins = |(station, group): (usize, &usize)| (station == *group).then_some(*group);
    groups.iter().enumerate().filter_map(begins).map(all).collect()
}
