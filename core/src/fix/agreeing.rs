//! Whether the readings of a fix can all be right.

use super::{Fix, OpenFix, Slips, Verdict};

/// With more than this elsewhere the limits of a place no longer hold 95 % of the whole.
const MUCH_ELSEWHERE: f64 = 0.05;

impl Fix {
    /// Whether one of its sightings does not fit the place, or a slip is told: no place told is sure then.
    #[must_use]
    pub fn is_contradicted(&self, slips: &Slips) -> bool {
        let misfit = self.accounts.iter().any(|one| one.fit.is_some_and(|fit| fit.verdict() == Verdict::Misfit));
        misfit || slips.told().is_some()
    }

    /// Whether so much is left for standing elsewhere that the limits of the one place do not hold 95 % of the whole, only its share.
    #[must_use]
    pub fn is_much_elsewhere(&self) -> bool {
        self.elsewhere > MUCH_ELSEWHERE
    }
}

impl OpenFix {
    /// As [`Fix::is_contradicted`].
    #[must_use]
    pub fn is_contradicted(&self, slips: &Slips) -> bool {
        self.seen.iter().any(|one| one.verdict() == Verdict::Misfit) || slips.told().is_some()
    }

    /// As [`Fix::is_much_elsewhere`].
    #[must_use]
    pub fn is_much_elsewhere(&self) -> bool {
        self.elsewhere > MUCH_ELSEWHERE
    }
}
