//! Whether the readings of a fix can all be right.

use super::{Fix, OpenFix, Slips, Verdict};

impl Fix {
    /// Whether one of its sightings does not fit the place, or slips explain them better than the place does: no place told is sure then.
    #[must_use]
    pub fn is_contradicted(&self, slips: &Slips) -> bool {
        let misfit = self.accounts.iter().any(|one| one.fit.is_some_and(|fit| fit.verdict() == Verdict::Misfit));
        misfit || slips.finding().is_some() || slips.some_made()
    }
}

impl OpenFix {
    /// As [`Fix::is_contradicted`].
    #[must_use]
    pub fn is_contradicted(&self, slips: &Slips) -> bool {
        self.seen.iter().any(|one| one.verdict() == Verdict::Misfit) || slips.finding().is_some() || slips.some_made()
    }
}
