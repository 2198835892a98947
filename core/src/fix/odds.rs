//! The probability along the line, as a table of equal steps.

/// Probability per metre along a line, at the middle of equal steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Odds {
    /// Metres between two entries.
    pub step_m: f64,
    /// Probability per metre; entry `i` stands for `i·step` to `(i+1)·step`.
    pub per_m: Vec<f64>,
}

impl Odds {
    /// The middle of entry `index`, metres along the line.
    #[must_use]
    pub fn along_m(&self, index: usize) -> f64 {
        (index as f64 + 0.5) * self.step_m
    }

    /// The length that they stand for, metres.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.per_m.len() as f64 * self.step_m
    }

    /// Density per metre at a distance along the line; 0 outside.
    #[must_use]
    pub fn density(&self, along_m: f64) -> f64 {
        if along_m < 0.0 {
            return 0.0;
        }
        self.per_m.get((along_m / self.step_m) as usize).copied().unwrap_or(0.0)
    }

    /// The greatest density.
    #[must_use]
    pub fn peak(&self) -> f64 {
        self.per_m.iter().copied().fold(0.0, f64::max)
    }
}

/// The odds along one of a fix's lines.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LineOdds {
    /// Probability of standing on this line at all.
    pub(super) share: f64,
    /// Probability per metre along it; it sums to the share.
    pub(super) odds: Odds,
}

/// Places less likely than this share of the likeliest are left out of a sorted list: all together they hold no share that matters.
const LEAST_OF_PEAK: f64 = 1e-9;

/// For each share, the density above which the places of all lines together hold it: the highest-density set.
pub(super) fn levels_of_shares<'a, const N: usize>(lines: impl Iterator<Item = &'a Odds> + Clone, shares: [f64; N]) -> [f64; N] {
    let least = lines.clone().map(Odds::peak).fold(0.0, f64::max) * LEAST_OF_PEAK;
    let entries = lines.flat_map(|odds| odds.per_m.iter().map(|density| (*density, density * odds.step_m)));
    let mut sorted: Vec<(f64, f64)> = entries.filter(|(density, _)| *density > least).collect();
    sorted.sort_unstable_by(|a, b| b.0.total_cmp(&a.0));
    shares.map(|share| {
        let mut held = 0.0;
        let reached = sorted.iter().find(|(_, holds)| {
            held += holds;
            held >= share
        });
        reached.map_or(0.0, |(density, _)| *density)
    })
}
