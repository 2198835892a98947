//! Places of a sheet that were typed far from all the others: a figure or a letter may be wrong.

use super::typed_places::TypedPlace;
use crate::earth::{FAR_M, LatLon, PlaceDoubt, PlaceReading, Terms, doubt_of, figure_doubt_of, geodesic_between};
use crate::measure::{Message, Telling};

/// A place that lies far from the rest of its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Stray {
    /// Of which line or landmark.
    pub record: String,
    /// What is wrong with it.
    pub doubt: PlaceDoubt,
}

impl Telling for Stray {
    fn message(&self) -> Message {
        self.doubt.message().text("record", self.record.clone()).renamed("sheet-place-far")
    }
}

/// The typed places that lie farther than [`FAR_M`] from where most of the sheet lies; `known` are the places that it had before.
pub(super) fn strays(typed: &[TypedPlace], known: &[(f64, f64)], terms: &Terms<'_>) -> Vec<Stray> {
    let of_typed = typed.iter().map(|place| (place.reading.at.lat_deg(), place.reading.at.lon_deg()));
    let places: Vec<(f64, f64)> = of_typed.chain(known.iter().copied()).collect();
    let figures = |index: &usize| typed.get(*index).map_or(0, |place| place.typed.chars().filter(char::is_ascii_digit).count());
    let groups = groups(&places);
    // Of two that are as large, the one with more figures: none was lost there.
    let Some(home) = groups.iter().rev().max_by_key(|group| (group.len(), group.iter().map(figures).sum::<usize>())) else {
        return Vec::new();
    };
    let away = groups.iter().filter(|group| *group != home).flatten().copied().collect::<Vec<_>>();
    let (usual, others) = by_figures(home, typed.len(), figures);
    // From the nearest other place of the sheet.
    let away_m = |at: LatLon| {
        let others = home.iter().filter_map(|index| places.get(*index)).map(|(lat, lon)| LatLon::computed(*lat, *lon));
        others.map(|other| geodesic_between(at, other).0).filter(|away_m| *away_m > 0.0).fold(f64::INFINITY, f64::min)
    };
    let doubted = |indices: &[usize], (near, reach_m): (LatLon, f64), doubt_of: Doubt| -> Vec<Stray> {
        let terms = Terms { near: Some(near), ..*terms };
        let places = indices.iter().filter_map(|index| typed.get(*index));
        let doubt = |place: &TypedPlace| {
            let doubt = doubt_of(&place.typed, &place.reading, &terms, reach_m)?;
            let PlaceDoubt::Far { typed, part, .. } = doubt else { return Some(doubt) };
            Some(PlaceDoubt::Far { typed, part, away_m: away_m(place.reading.at) })
        };
        let doubted = places.filter_map(|place| Some(Stray { record: place.record.clone(), doubt: doubt(place)? }));
        doubted.filter(|stray| matches!(stray.doubt, PlaceDoubt::Far { .. })).collect()
    };
    let mut strays = doubted(&away, around(home, &places), doubt_of);
    strays.extend(doubted(&others, around(&usual, &places), figure_doubt_of));
    strays
}

/// What makes a place doubted beside a place and so many metres around it.
type Doubt = fn(&str, &PlaceReading, &Terms, f64) -> Option<PlaceDoubt>;

/// Those of a group with as many figures as most of it was typed with, what the sheet had before among them, and the others.
fn by_figures(group: &[usize], typed: usize, figures: impl Fn(&usize) -> usize) -> (Vec<usize>, Vec<usize>) {
    const MOST_FIGURES: usize = 40;
    let counts: Vec<usize> = group.iter().filter(|index| **index < typed).map(&figures).collect();
    let most = (0..=MOST_FIGURES).max_by_key(|count| counts.iter().filter(|other| *other == count).count());
    group.iter().partition(|index| **index >= typed || Some(figures(index)) == most)
}

/// Middle and reach of a group, metres.
fn around(group: &[usize], places: &[(f64, f64)]) -> (LatLon, f64) {
    let own = || group.iter().filter_map(|index| places.get(*index));
    let first_deg = own().next().map_or(0.0, |(_, lon)| *lon);
    let count = own().count().max(1) as f64;
    let lat_deg = own().map(|(lat, _)| lat).sum::<f64>() / count;
    let east_deg = own().map(|(_, lon)| turned(lon - first_deg)).sum::<f64>() / count;
    let middle = LatLon::computed(lat_deg, first_deg + east_deg);
    let reach_m = own().map(|(lat, lon)| geodesic_between(middle, LatLon::computed(*lat, *lon)).0).fold(0.0, f64::max);
    (middle, reach_m)
}

/// Groups of places with no gap of [`FAR_M`] between the parallels or between the meridians of each.
fn groups(places: &[(f64, f64)]) -> Vec<Vec<usize>> {
    const METRES_PER_DEGREE: f64 = 111_320.0;
    let at = |index: usize| places.get(index).copied().unwrap_or_default();
    let rows = split((0..places.len()).collect(), FAR_M / METRES_PER_DEGREE, |index| at(index).0);
    let columns = |row: Vec<usize>| {
        let (lat_deg, lon_deg) = row.first().map_or((0.0, 0.0), |first| at(*first));
        let gap_deg = FAR_M / METRES_PER_DEGREE / lat_deg.to_radians().cos().max(0.01);
        split(row, gap_deg, move |index| turned(at(index).1 - lon_deg))
    };
    rows.into_iter().flat_map(columns).collect()
}

/// Parts what lies farther apart than a gap along one axis.
fn split(mut indices: Vec<usize>, gap: f64, value: impl Fn(usize) -> f64) -> Vec<Vec<usize>> {
    indices.sort_by(|a, b| value(*a).total_cmp(&value(*b)));
    let parts = indices.chunk_by(|before, after| value(*after) - value(*before) <= gap);
    parts
        .map(|part| {
            let mut part = part.to_vec();
            part.sort_unstable();
            part
        })
        .collect()
}

fn turned(lon_deg: f64) -> f64 {
    (lon_deg + 180.0).rem_euclid(360.0) - 180.0
}
