//! A fix in the open as it is shown: values copied into records, nothing reckoned.

use super::open::TakenOpen;
use super::open_told::ToldOpen;
use super::show::{full, slip_views, small};
use super::view_fix::{OpenFixView, OpenPlaceView, OpenSightingView, SharedTurnView};
use crate::fix::{Fit, OpenPlace, OpenSeenReport, OpenShape, SharedTurn, Verdict};
use crate::words::Words;

/// A fix in the open in sentences.
pub(super) fn said(taken: &TakenOpen, words: &Words) -> Vec<String> {
    let told = taken.told.iter().map(|one| told(taken, one, words)).collect();
    let told = Vec::into_iter(told).chain(ground_misfits(taken, words)).collect();
    words.open_fix((&taken.fix, &taken.report), told, &taken.slips, &taken.next)
}

/// What the ground, or a place that was weighed in, says against the likeliest place.
fn ground_misfits(taken: &TakenOpen, words: &Words) -> Vec<String> {
    let told = taken.told.iter().filter_map(|one| Some((one, Fit::of_share(one.fits?))));
    told.filter(|(_, fit)| fit.verdict() == Verdict::Misfit).map(|(one, fit)| words.other_misfit(one.what, &one.name, fit)).collect()
}

pub(super) fn view(taken: &TakenOpen, is_kept: bool, words: &Words) -> OpenFixView {
    let (fix, diagram) = (&taken.fix, &taken.report.diagram);
    let next = (!is_kept).then_some(taken.next.as_slice());
    OpenFixView {
        at_unix_ms: taken.at.unix_ms(),
        field: words.open_in_the_field((fix, &taken.report), taken.told.len(), &taken.slips, next),
        where_told: words.open_where_in_the_field(fix, &taken.report, &taken.slips),
        misfit_told: words.open_misfit_in_the_field(fix, taken.told.len(), &taken.slips),
        minded_first: minded_first(taken, words),
        shape: match fix.shape {
            OpenShape::Ellipse => "ellipse".into(),
            OpenShape::Regions => "regions".into(),
        },
        places: taken.report.places.iter().map(|place| place_view(place, words)).collect(),
        elsewhere_share: fix.elsewhere,
        sightings: taken.told.iter().map(|one| sighting_view(taken, one, words)).collect(),
        chance: fix.chance,
        shared_turn: fix.shared_turn.as_ref().filter(|turn| turn.is_unusual()).map(turn_view),
        no_slip_share: taken.slips.none,
        slips: slip_views(&taken.slips, &taken.report.slip_places, words),
        cautions: words.open_cautions(fix, &taken.report, &taken.slips).into_iter().chain(ground_misfits(taken, words)).collect(),
        rest_told: words.open_rest(&taken.report),
        declination_deg: diagram.declination_deg,
        declination_spread_deg: diagram.declination_spread_deg,
        convergence_deg: diagram.convergence_deg,
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
    }
}

/// What does not fit among the measurements goes before what the ground says against the place.
fn minded_first(taken: &TakenOpen, words: &Words) -> Vec<String> {
    let minded = words.open_minded(&taken.fix, taken.told.len(), &taken.slips);
    let misfit = words.open_misfit_in_the_field(&taken.fix, taken.told.len(), &taken.slips).is_some();
    let ground = if misfit { Vec::new() } else { ground_misfits(taken, words) };
    minded.into_iter().chain(ground).collect()
}

pub(super) fn place_view(place: &OpenPlace, words: &Words) -> OpenPlaceView {
    OpenPlaceView {
        share: place.share,
        reference: place.reference.clone(),
        mgrs: full(place.at),
        lat_deg: place.at.lat_deg(),
        lon_deg: place.at.lon_deg(),
        major_95_m: place.ellipse_95.map(|ellipse| ellipse.major_m),
        minor_95_m: place.ellipse_95.map(|ellipse| ellipse.minor_m),
        along_deg_grid: place.along_grid.degrees(),
        reach_95_m: place.reach_m,
        area_95_m2: place.area_95_m2,
        told: words.open_place(place),
    }
}

fn measured<'a>(taken: &'a TakenOpen, one: &ToldOpen) -> Option<&'a OpenSeenReport> {
    let number = one.measured?;
    taken.report.seen.iter().find(|seen| seen.seen.sighting == number)
}

fn sighting_view(taken: &TakenOpen, one: &ToldOpen, words: &Words) -> OpenSightingView {
    let seen = measured(taken, one);
    OpenSightingView {
        what: one.what.into(),
        of: one.of.clone(),
        read: seen.map(|seen| seen.grid.map_or(seen.seen.read, |grid| grid.degrees())),
        residual: seen.map(|seen| seen.seen.residual),
        spread: seen.map(|seen| seen.seen.spread),
        fits: one.fits,
        verdict: seen
            .map(|seen| seen.seen.verdict())
            .or_else(|| one.fits.map(|share| Fit::of_share(share).verdict()))
            .map(|one| one.word().into()),
        distance_m: seen.map(|seen| seen.seen.distance_m),
        told: told(taken, one, words),
    }
}

fn told(taken: &TakenOpen, one: &ToldOpen, words: &Words) -> String {
    measured(taken, one).map_or_else(|| words.open_ground(one.what, &one.name, one.fits), |seen| words.open_seen(seen, one.read))
}

fn turn_view(turn: &SharedTurn) -> SharedTurnView {
    SharedTurnView {
        turn_deg: turn.turn_deg,
        spread_deg: turn.spread_deg,
        rivals: turn.rivals.iter().map(|index| small(index + 1)).collect(),
    }
}
