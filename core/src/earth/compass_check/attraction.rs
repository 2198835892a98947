//! The attraction of each station, and the lines corrected, over all sets of turned stations that count.

use super::odds::{Set, Unknowns, weigh};
use super::stations::{Line, Numbered};
use super::sweep::Sweep;
use super::{
    AGREES_WITHIN_SIGMAS, CLEAN_BELOW, CompassReadings, CorrectedLine, NAMED_FROM, Pair, Station, StationAttraction, TURNED_DEG, Untold,
    Verdict,
};
use crate::measure::{MagneticBearing, signed_difference_deg};

/// What the pairs and the known readings tell of the stations.
pub(super) struct Surveyed<'a> {
    numbered: &'a Numbered,
    unknowns: Unknowns,
    reading_spread_deg: f64,
    /// Every set that counts, its share.
    sets: Vec<Set>,
    /// Those that can be solved, with their equations; the likeliest first.
    solved: Vec<Solved>,
}

/// A set with its attractions, nothing known of them beforehand.
struct Solved {
    set: Set,
    equations: Sweep,
}

/// A number by the likeliest set, and its variance over all sets.
struct Across {
    value: f64,
    variance: f64,
    /// Whether the sets that count tell the same.
    is_sure: bool,
}

/// Fore and back bearing that differ by no more than this are nearly the same, degrees (our choice).
const TURNED_WITHIN_DEG: f64 = 20.0;
/// The other sets may widen a spread by this factor; beyond it they tell another number (our choice).
const MOST_WIDENED: f64 = 2.0;
/// The sets that say nothing of a number may have no more than this share (our choice).
const MOST_SILENT: f64 = 0.2;
/// Sets below this share are in the odds of a station, not in its spread: far off, they would widen it beyond what 95 % hold (our choice).
const SOLVED_FROM: f64 = 0.02;
/// 95 % of a normal lie below so many sigmas.
const BELOW_95: f64 = 1.644_854;

impl<'a> Surveyed<'a> {
    pub(super) fn of(numbered: &'a Numbered, reading_spread_deg: f64) -> Self {
        let unknowns = Unknowns::of(numbered);
        let sets = weigh(&unknowns, numbered, reading_spread_deg);
        let equations = unknowns.equations(numbered, reading_spread_deg);
        let worth = sets.iter().enumerate().filter(|(place, set)| *place == 0 || set.share >= SOLVED_FROM);
        let solved = worth.filter_map(|(_, set)| solve(set, &unknowns, equations.clone())).collect();
        Self { numbered, unknowns, reading_spread_deg, sets, solved }
    }

    /// Every station with its verdict.
    pub(super) fn stations(&self) -> Vec<Station> {
        self.numbered.names.iter().enumerate().map(|(number, name)| self.station(number, name)).collect()
    }

    fn station(&self, number: usize, name: &str) -> Station {
        let has_station = |set: &&Set| set.free.contains(&number);
        let attracted_share = self.sets.iter().filter(has_station).map(|set| set.share).sum::<f64>().clamp(0.0, 1.0);
        let across = self.across(|solved| self.if_freed(solved, number)).filter(|across| across.is_sure);
        let attraction = across.map(|across| StationAttraction { deg: across.value, spread_deg: across.variance.sqrt() });
        Station { name: name.to_owned(), attraction, attracted_share, verdict: verdict(attraction, attracted_share) }
    }

    /// A station's attraction where it is free, else what it would be.
    fn if_freed(&self, solved: &Solved, number: usize) -> Option<(f64, f64)> {
        if solved.set.free.contains(&number) {
            return Some((solved.equations.estimate(number), solved.equations.covariance(number, number)));
        }
        solved.equations.if_freed(number, self.weight_of(number))
    }

    /// How much was read of a station: precision of its attraction if all else were known.
    fn weight_of(&self, number: usize) -> f64 {
        let lines = self.numbered.lines.iter().filter(|line| line.from == number || line.to == number).count();
        let known = self.numbered.known.iter().filter(|known| known.station == Some(number));
        let of = |spread_deg: f64| 1.0 / (self.reading_spread_deg.powi(2) + spread_deg.powi(2));
        lines as f64 * of(self.reading_spread_deg) + known.map(|known| of(known.all_spread_deg())).sum::<f64>()
    }

    /// A number that each set tells with its variance; none where the likeliest set does not tell it.
    fn across(&self, of: impl Fn(&Solved) -> Option<(f64, f64)>) -> Option<Across> {
        let (value, own_variance) = self.solved.first().and_then(&of)?;
        let told: Vec<(f64, f64, f64)> =
            self.solved.iter().filter_map(|solved| of(solved).map(|(value, variance)| (solved.set.share, value, variance))).collect();
        let (all, says) =
            (self.solved.iter().map(|solved| solved.set.share).sum::<f64>(), told.iter().map(|(share, ..)| share).sum::<f64>());
        let squares: f64 = told.iter().map(|(share, other, variance)| share * (variance + (other - value).powi(2))).sum();
        let variance = squares / says;
        let is_sure = says >= (1.0 - MOST_SILENT) * all && variance <= MOST_WIDENED.powi(2) * own_variance;
        Some(Across { value, variance, is_sure })
    }

    /// Lines that were likelier misread than turned by their ends.
    pub(super) fn contradictions(&self, pairs: &[Pair]) -> Vec<Untold> {
        let wrong = |number: usize| self.best_has(self.unknowns.stations + number);
        let told = |(_, pair): (usize, &Pair)| {
            let off_deg = signed_difference_deg(pair.fore_deg_mag, pair.back_deg_mag);
            Untold::Contradicts { from: pair.from.clone(), to: pair.to.clone(), is_turned: off_deg.abs() <= TURNED_WITHIN_DEG }
        };
        pairs.iter().enumerate().filter(|(number, _)| wrong(*number)).map(told).collect()
    }

    fn best_has(&self, unknown: usize) -> bool {
        self.solved.first().is_some_and(|best| best.set.free.contains(&unknown))
    }

    /// The sets by which known readings speak of the compass: each with its share, and whether it turns a station.
    pub(super) fn turned(&self) -> impl Iterator<Item = (f64, impl Fn(Option<usize>) -> bool + '_)> {
        self.solved.iter().map(|solved| {
            let is_turned = move |station: Option<usize>| station.is_some_and(|station| solved.set.free.contains(&station));
            (solved.set.share, is_turned)
        })
    }

    /// Sum of the squared misfits of the lines by the likeliest set, in terms of one reading, and how many of them are free.
    pub(super) fn scatter(&self) -> (f64, usize) {
        let Some(best) = self.solved.first() else { return (0.0, 0) };
        let misread = |number: usize| best.set.free.contains(&(self.unknowns.stations + number));
        let lines: Vec<&Line> =
            self.numbered.lines.iter().enumerate().filter(|(number, _)| !misread(*number)).map(|(_, line)| line).collect();
        let at = |station: usize| if best.set.free.contains(&station) { best.equations.estimate(station) } else { 0.0 };
        let squares = lines.iter().map(|line| (line.closure_deg - at(line.from) + at(line.to)).powi(2) / 2.0).sum();
        let joined = |station: &&usize| lines.iter().any(|line| line.from == **station || line.to == **station);
        let turned = best.set.free.iter().filter(|unknown| **unknown < self.unknowns.stations).filter(joined).count();
        (squares, lines.len().saturating_sub(turned))
    }

    /// The lines with the attraction of their ends taken off.
    pub(super) fn corrected_lines(&self, readings: &CompassReadings) -> Vec<CorrectedLine> {
        let corrected = |(pair, (number, line)): (&Pair, (usize, Line))| self.corrected_line(pair, number, line);
        readings.pairs.iter().zip(self.numbered.lines.iter().copied().enumerate()).map(corrected).collect()
    }

    /// Sum and difference of two readings are independent, and the attractions rest on differences and on other readings: the
    /// mean of fore and reversed back bearing errs apart from them. A line that was misread has no bearing.
    fn corrected_line(&self, pair: &Pair, number: usize, line: Line) -> CorrectedLine {
        let misread = self.unknowns.stations + number;
        let both = |solved: &Solved| solved.both_ends(line, 2.0 * self.reading_spread_deg.powi(2));
        let ends = self.across(|solved| (!solved.set.free.contains(&misread)).then(|| both(solved)));
        let middle_deg = pair.fore_deg_mag - 0.5 * line.closure_deg;
        CorrectedLine {
            from: pair.from.clone(),
            to: pair.to.clone(),
            closure_deg: line.closure_deg,
            agrees: line.closure_deg.abs() <= AGREES_WITHIN_SIGMAS * 2f64.sqrt() * self.reading_spread_deg,
            stands_alone: self.stands_alone(number, line),
            corrected: ends.as_ref().filter(|ends| ends.is_sure).map(|ends| MagneticBearing::new(middle_deg - 0.5 * ends.value)),
            spread_deg: ends.map_or(0.0, |ends| 0.5 * ends.variance.sqrt()),
        }
    }
}

impl Surveyed<'_> {
    /// Whether neither end of a line is one of another line or of a known reading.
    fn stands_alone(&self, number: usize, line: Line) -> bool {
        let is_end = |station: usize| station == line.from || station == line.to;
        let others = self.numbered.lines.iter().enumerate().filter(|(other, _)| *other != number).map(|(_, other)| other);
        let known = self.numbered.known.iter().filter_map(|known| known.station);
        !others.flat_map(|other| [other.from, other.to]).chain(known).any(is_end)
    }
}

impl Solved {
    /// The attractions of both ends together, and the variance of twice the mean of a line: of its readings and of them.
    fn both_ends(&self, line: Line, readings_variance: f64) -> (f64, f64) {
        let free: Vec<usize> = [line.from, line.to].into_iter().filter(|end| self.set.free.contains(end)).collect();
        let value = free.iter().map(|end| self.equations.estimate(*end)).sum();
        let pairs = free.iter().flat_map(|one| free.iter().map(move |other| (*one, *other)));
        (value, readings_variance + pairs.map(|(one, other)| self.equations.covariance(one, other)).sum::<f64>())
    }
}

fn solve(set: &Set, unknowns: &Unknowns, mut equations: Sweep) -> Option<Solved> {
    let shared = unknowns.has_shared.then(|| unknowns.shared());
    let before: Vec<(usize, f64)> = set.free.iter().copied().chain(shared).map(|unknown| (unknown, equations.known_of(unknown))).collect();
    let is_solved = before.iter().all(|(unknown, before)| equations.free(*unknown, *before));
    is_solved.then(|| Solved { set: set.clone(), equations })
}

/// Clean is said only where a turn of [`TURNED_DEG`] would have shown.
fn verdict(attraction: Option<StationAttraction>, attracted_share: f64) -> Verdict {
    let shows = |attraction: StationAttraction| attraction.deg.abs() + BELOW_95 * attraction.spread_deg <= TURNED_DEG;
    match attraction {
        _ if attracted_share >= NAMED_FROM => Verdict::Attracted,
        Some(attraction) if attracted_share <= CLEAN_BELOW && shows(attraction) => Verdict::Clean,
        _ => Verdict::NotToBeTold,
    }
}
