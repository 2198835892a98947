//! Stations by number, and what was read as sums of attractions.

use super::{CompassReadings, KnownReading, Pair};
use crate::measure::{circular_mean_deg, parted, signed_difference_deg};

/// A pair with its stations by number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) from: usize,
    pub(super) to: usize,
    /// Attraction of `from` less that of `to`, as read, degrees.
    pub(super) closure_deg: f64,
}

/// A reading whose answer is known, ready for sums.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Known {
    /// Its number among the known readings, from 0.
    pub(super) number: usize,
    /// Its station, where that is named.
    pub(super) station: Option<usize>,
    /// Read less known, degrees, within half a circle of the middle of all.
    pub(super) off_deg: f64,
    /// One sigma of the known bearing, degrees.
    pub(super) spread_deg: f64,
    /// What one sigma of the watch moves it by, degrees with their sign.
    pub(super) clock_deg: f64,
    /// Whether the declination stands in it.
    pub(super) by_declination: bool,
}

impl Known {
    /// One sigma of the known bearing with the watch in it, degrees.
    pub(super) fn all_spread_deg(&self) -> f64 {
        self.spread_deg.hypot(self.clock_deg)
    }
}

/// Everything that was read, by number.
pub(super) struct Numbered {
    /// Stations of the pairs in the order of their first appearance, then those of known readings alone.
    pub(super) names: Vec<String>,
    pub(super) lines: Vec<Line>,
    /// Those that point one way; none where they do not.
    pub(super) known: Vec<Known>,
    /// Numbers of the known readings that point the other way, from 0.
    pub(super) reversed: Vec<usize>,
}

impl Numbered {
    pub(super) fn of(readings: &CompassReadings) -> Self {
        let mut names: Vec<String> = Vec::new();
        let lines: Vec<Line> = readings.pairs.iter().map(|pair| line_of(pair, &mut names)).collect();
        let lines = carried_on(names.len(), &lines);
        let (known, reversed) = known_of(&readings.known, &mut names);
        Self { names, lines, known, reversed }
    }
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

fn known_of(all: &[KnownReading], names: &mut Vec<String>) -> (Vec<Known>, Vec<usize>) {
    let off = |(index, k): (usize, &KnownReading)| (index, signed_difference_deg(k.read_deg_mag, k.known_deg_mag));
    let (kept, reversed) = parted(&all.iter().enumerate().map(off).collect::<Vec<_>>());
    let offs: Vec<f64> = kept.iter().map(|(_, off)| *off).collect();
    let Some(middle_deg) = circular_mean_deg(&offs) else { return (Vec::new(), reversed) };
    let one = |(index, off): &(usize, f64)| {
        let reading = all.get(*index)?;
        let station = (!reading.station.is_empty()).then(|| number_of(&reading.station, names));
        let off_deg = middle_deg + signed_difference_deg(*off, middle_deg);
        let (spread_deg, clock_deg) = (reading.known_spread_deg, reading.clock_deg);
        Some(Known { number: *index, station, off_deg, spread_deg, clock_deg, by_declination: reading.by_declination })
    };
    (kept.iter().filter_map(one).collect(), reversed)
}

/// The lines with whole circles added so that attractions carried on along them meet: else a needle read at its wrong end
/// makes one closure 179 degrees and the next -179.
fn carried_on(count: usize, lines: &[Line]) -> Vec<Line> {
    let mut order: Vec<Line> = lines.to_vec();
    order.sort_by(|one, other| one.closure_deg.abs().total_cmp(&other.closure_deg.abs()));
    let mut carried: Vec<Option<f64>> = vec![None; count];
    while let Some(first) = carried.iter_mut().find(|attraction| attraction.is_none()) {
        *first = Some(0.0);
        while let Some((station, attraction)) = order.iter().find_map(|line| step(*line, &carried)) {
            carried.iter_mut().skip(station).take(1).for_each(|to| *to = Some(attraction));
        }
    }
    let at = |station: usize| carried.get(station).copied().flatten().unwrap_or(0.0);
    let whole = |line: &Line| {
        let by_ends = at(line.from) - at(line.to);
        Line { closure_deg: by_ends + signed_difference_deg(line.closure_deg, by_ends), ..*line }
    };
    lines.iter().map(whole).collect()
}

/// The far end of a line whose near end is known.
fn step(line: Line, carried: &[Option<f64>]) -> Option<(usize, f64)> {
    match (carried.get(line.from).copied().flatten(), carried.get(line.to).copied().flatten()) {
        (Some(from), None) => Some((line.to, from - line.closure_deg)),
        (None, Some(to)) => Some((line.from, to + line.closure_deg)),
        _ => None,
    }
}
