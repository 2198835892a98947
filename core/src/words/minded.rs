//! What is to be minded with a fix before all else, in a sentence or two: the rest of its cautions may stand behind one touch.

use super::Words;
use super::field::of_sighting;
use super::fix::slip_possible;
use crate::fix::{Fix, OpenFix, Slips};
use crate::measure::Message;

impl Words {
    /// With a fix on a line: what does not fit and what to read again, or what may have been misread; where nothing is, its cautions.
    #[must_use]
    pub fn fix_minded(&self, fix: &Fix, slips: &Slips) -> Vec<String> {
        let misfit = self.misfit_in_the_field(fix, slips);
        let of = |sighting: usize| fix.accounts.get(sighting).map(|one| (one.what, one.of.clone()));
        self.minded(misfit, slips, of, || self.fix_cautions_beside(fix, slips))
    }

    /// The same with a fix in the open; `told` is how many sightings were told.
    #[must_use]
    pub fn open_minded(&self, fix: &OpenFix, told: usize, slips: &Slips) -> Vec<String> {
        let misfit = self.open_misfit_in_the_field(fix, told, slips);
        let of =
            |sighting: usize| fix.seen.iter().find(|one| one.sighting == sighting).map(|one| (one.measured.word(), one.landmark.clone()));
        self.minded(misfit, slips, of, || self.open_cautions_beside(fix, slips))
    }

    fn minded(
        &self,
        misfit: Option<String>,
        slips: &Slips,
        of: impl Fn(usize) -> Option<(&'static str, String)>,
        beside: impl Fn() -> Vec<String>,
    ) -> Vec<String> {
        if let Some(misfit) = misfit {
            return vec![misfit, self.say(&Message::new("minded-misfit"))];
        }
        let possible = slips.told().map(|slip| match slip.sighting.and_then(of) {
            Some(of) => of_sighting("minded-possible", Some(of)),
            None => slip_possible(slips),
        });
        possible.map(|message| self.say(&message)).into_iter().chain(beside()).collect()
    }
}
