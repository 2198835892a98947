//! Which stations are turned, weighed: every set of stations that may be attracted and lines that may be misread has its odds.

use std::collections::BTreeMap;

use super::stations::Numbered;
use super::sweep::Sweep;

/// One station in ten is attracted (our choice; common practice, no source).
const STATION_TURNED: f64 = 0.1;
/// One sigma of an attraction where there is one, degrees (our choice).
const ATTRACTION_DEG: f64 = 20.0;
/// One reading in fifty is plainly wrong, as in a fix; a line holds two.
const LINE_MISREAD: f64 = 0.04;
/// A misread closure may be anything: a normal of this sigma is as dense in its middle as a circle, degrees.
const MISREAD_DEG: f64 = 143.6;
/// So many sets are followed further at each size.
const FOLLOWED: usize = 64;
/// Where all sets of a size are this much less likely than the best, by the logarithm, the search ends.
const FAINT: f64 = 15.0;
/// What is left out of the weighing.
const LEAST_SHARE: f64 = 1e-5;

/// A set of unknowns that are let free, ascending, and its share of the odds.
#[derive(Debug, Clone)]
pub(super) struct Set {
    pub(super) free: Vec<usize>,
    pub(super) share: f64,
}

/// The unknowns: attractions of the stations, what lines are misread by, and the shared error as the last.
pub(super) struct Unknowns {
    pub(super) stations: usize,
    pub(super) lines: usize,
    pub(super) has_shared: bool,
}

impl Unknowns {
    pub(super) fn of(numbered: &Numbered) -> Self {
        let has_shared = !numbered.known.is_empty();
        Self { stations: numbered.names.len(), lines: numbered.lines.len(), has_shared }
    }

    pub(super) fn shared(&self) -> usize {
        self.stations + self.lines
    }

    /// One sigma beforehand, and the logarithm of the odds of being free.
    fn beforehand(&self, unknown: usize) -> (f64, f64) {
        let (sigma, chance) = if unknown < self.stations { (ATTRACTION_DEG, STATION_TURNED) } else { (MISREAD_DEG, LINE_MISREAD) };
        (sigma, (chance / (1.0 - chance)).ln())
    }

    /// The equations of everything that was read, all unknowns held at 0.
    pub(super) fn equations(&self, numbered: &Numbered, reading_spread_deg: f64) -> Sweep {
        let mut equations = Sweep::of(self.shared() + 1);
        for (number, line) in numbered.lines.iter().enumerate() {
            let ends = [(line.from, 1.0), (line.to, -1.0), (self.stations + number, 1.0)];
            equations.take(&ends, line.closure_deg, reading_spread_deg * 2f64.sqrt());
        }
        for known in &numbered.known {
            let ends = known.station.map(|station| (station, 1.0)).into_iter().chain([(self.shared(), 1.0)]);
            equations.take(&ends.collect::<Vec<_>>(), known.off_deg, reading_spread_deg.hypot(known.all_spread_deg()));
        }
        equations
    }
}

/// The sets that count, the likeliest first; their shares sum to 1.
pub(super) fn weigh(unknowns: &Unknowns, numbered: &Numbered, reading_spread_deg: f64) -> Vec<Set> {
    let mut equations = unknowns.equations(numbered, reading_spread_deg);
    for unknown in 0..unknowns.shared() {
        equations.hold_near_zero(unknown, unknowns.beforehand(unknown).0);
    }
    if unknowns.has_shared {
        equations.free(unknowns.shared(), 0.0);
    }
    shares(search(unknowns, equations))
}

type Weighed = BTreeMap<Vec<usize>, f64>;

/// A set that is followed: what is free, the logarithm of its weight, its equations.
type Followed = (Vec<usize>, f64, Sweep);

/// Sets with the logarithm of their weight, from the empty one to larger ones, the likeliest of each size followed.
fn search(unknowns: &Unknowns, equations: Sweep) -> Weighed {
    let mut all = Weighed::from([(Vec::new(), 0.0)]);
    let mut followed = vec![(Vec::new(), 0.0, equations)];
    let mut best = 0.0_f64;
    loop {
        let larger = larger_sets(unknowns, &followed);
        let most = larger.values().map(|(weight, ..)| *weight).fold(f64::NEG_INFINITY, f64::max);
        if most < best - FAINT || larger.is_empty() {
            return all;
        }
        best = best.max(most);
        followed = follow(&larger, &followed);
        all.extend(larger.into_iter().map(|(free, (weight, ..))| (free, weight)));
    }
}

/// Every set with one more unknown free: its weight, which set it grew from, and by which unknown.
fn larger_sets(unknowns: &Unknowns, followed: &[Followed]) -> BTreeMap<Vec<usize>, (f64, usize, usize)> {
    let mut larger = BTreeMap::new();
    for (parent, (free, weight, equations)) in followed.iter().enumerate() {
        for unknown in (0..unknowns.shared()).filter(|unknown| !free.contains(unknown)) {
            let (sigma, odds) = unknowns.beforehand(unknown);
            let mut set = free.clone();
            set.insert(set.partition_point(|other| *other < unknown), unknown);
            larger.entry(set).or_insert((weight + odds + equations.gain(unknown, sigma), parent, unknown));
        }
    }
    larger
}

fn follow(larger: &BTreeMap<Vec<usize>, (f64, usize, usize)>, parents: &[Followed]) -> Vec<Followed> {
    let mut order: Vec<_> = larger.iter().collect();
    order.sort_by(|one, other| other.1.0.total_cmp(&one.1.0));
    let grow = |(free, (weight, parent, unknown)): (&Vec<usize>, &(f64, usize, usize))| {
        let mut equations = parents.get(*parent)?.2.clone();
        equations.free(*unknown, 0.0).then(|| (free.clone(), *weight, equations))
    };
    order.into_iter().take(FOLLOWED).filter_map(grow).collect()
}

fn shares(weighed: Weighed) -> Vec<Set> {
    let best = weighed.values().copied().fold(f64::NEG_INFINITY, f64::max);
    let mut sets: Vec<Set> = weighed.into_iter().map(|(free, weight)| Set { free, share: (weight - best).exp() }).collect();
    let all: f64 = sets.iter().map(|set| set.share).sum();
    sets.retain(|set| set.share >= LEAST_SHARE * all);
    let kept: f64 = sets.iter().map(|set| set.share).sum();
    sets.iter_mut().for_each(|set| set.share /= kept);
    sets.sort_by(|one, other| other.share.total_cmp(&one.share));
    sets
}
