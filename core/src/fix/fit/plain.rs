//! How what was observed without a compass fits a place.

use super::Fit;
use crate::fix::counted::Counted;
use crate::fix::plain::{Plain, angle_off, seen_likelihood, side_sigmas};
use crate::fix::plains::{Plains, Said};
use crate::fix::{Fits, Way};
use crate::sheet::LinePlace;

impl Plains<'_> {
    /// How a sighting fits a place; nothing for one that says nothing there.
    pub(super) fn fit(&self, sighting: usize, place: LinePlace) -> Option<Fit> {
        let plain = match self.of(sighting)? {
            Said::Plain(plain) => plain,
            Said::Counted(counted) => return Some(counted_fit(counted, sighting, place)),
        };
        match plain {
            Plain::Here { alongs_m, spread_m, .. } => Some(here(alongs_m, *spread_m, place)),
            Plain::Side { landmark, quarter, facing, spread_deg, line } => {
                let (onward, backward) = side_sigmas(landmark, *quarter, *spread_deg, line, place);
                let sigmas = match facing.at(place) {
                    Way::Onward => onward,
                    Way::Backward => backward,
                    Way::Either => onward.max(backward),
                };
                Some(Fit { off: None, sigmas: (-sigmas).max(0.0) })
            }
            Plain::Angle { left, right, angle_deg, spread_deg, line_spread_m, .. } => {
                let (off_deg, spread_deg) = angle_off((left, right), (*angle_deg, *spread_deg), (*line_spread_m, 1.0), place);
                Some(Fit::degrees(off_deg, spread_deg))
            }
            Plain::Seen(chance) => Some(Fit::of_share(seen_likelihood(chance.at(place.along_m), true))),
            Plain::NotSeen(chance) => Some(Fit::of_share(seen_likelihood(chance.at(place.along_m), false))),
            Plain::Ground { table, fits: Fits::Most(most), .. } => Some(Fit::of_share(table.at(place.along_m) / most)),
            Plain::Ground { fits: Fits::Metres { off, spread }, line, .. } => {
                let (off_m, spread_m) = (off.get(*line)?.at(place.along_m), spread.get(*line)?.at(place.along_m));
                Some(Fit::metres(off_m, off_m.abs() / spread_m))
            }
        }
    }
}

fn here(alongs_m: &[f64], spread_m: f64, place: LinePlace) -> Fit {
    let offs = alongs_m.iter().map(|along_m| place.along_m - along_m);
    let nearest = offs.min_by(|one, other| one.abs().total_cmp(&other.abs()));
    nearest.map_or(Fit { off: None, sigmas: f64::INFINITY }, |off_m| Fit::metres(off_m, off_m.abs() / spread_m))
}

fn counted_fit(counted: &Counted<'_>, sighting: usize, place: LinePlace) -> Fit {
    // Gone the other way, it is not the distance that is off.
    let nowhere = Fit { off: None, sigmas: f64::INFINITY };
    counted.off(sighting, place.along_m).map_or(nowhere, |(off_m, sigmas)| Fit::metres(off_m, sigmas))
}
