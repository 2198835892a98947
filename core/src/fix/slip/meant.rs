//! What a sighting would have been without a slip.

use super::SlipKind;
use super::kinds::{DEG_PER_GRADIAN, DEG_PER_MIL};
use super::run::of_run;
use crate::earth::Norths;
use crate::fix::{BearingSighting, Counter, GroundSighting, MeasuredSighting, OtherPoint, Quarter, Sighting, Spot, Way, WitnessSlipKind};
use crate::measure::{NamedBearing, Point, signed_difference_deg};
use crate::sheet::Landmark;

/// Metres to a mile, and to a kilometre: the ratio of the two.
const MILE_KM: f64 = 1.609_344;
/// Another landmark is only asked about within this much of the reading from somewhere near, degrees.
const OTHER_WITHIN_DEG: f64 = 40.0;
/// Most other landmarks asked about for one reading.
const MOST_OTHERS: usize = 8;

/// What shifts a reading by no more than this, degrees or metres, is the same reading.
const LEAST_SHIFT: f64 = 0.05;

/// One way in which a single sighting may have gone wrong, and what it would have been.
pub(in crate::fix) struct Meant {
    pub(in crate::fix) kind: SlipKind,
    pub(in crate::fix) sighting: Sighting,
    /// By how much the bearing differs from what was told, degrees; or the distance, metres.
    pub(in crate::fix) shift: f64,
    /// Among how many of its kind: each has its part of the chance.
    pub(in crate::fix) among: f64,
    /// The bearing as it was told, and as it would have been.
    pub(in crate::fix) read: Option<(NamedBearing, NamedBearing)>,
}

/// The slip that a bearing was told with, made again in another reading of the same thing; none where it cannot have been made there.
pub(in crate::fix) fn again(
    kind: &SlipKind,
    told: NamedBearing,
    meant: &BearingSighting,
    other: &BearingSighting,
) -> Option<BearingSighting> {
    if let SlipKind::OtherLandmark(_) = kind {
        return Some(BearingSighting { candidates: meant.candidates.clone(), ..other.clone() });
    }
    let off_deg = |one: &NamedBearing, another: &NamedBearing| signed_difference_deg(one.degrees(), another.degrees()).abs();
    let figures = other_figures(other.reading).into_iter().filter(|(also, ..)| also == kind).map(|(_, reading, _)| reading);
    let reading = figures.min_by(|a, b| off_deg(a, &meant.reading).total_cmp(&off_deg(b, &meant.reading)))?;
    // Readings of one thing that are misread alike are as far from each other as they were told.
    let is_alike = off_deg(&reading, &meant.reading) <= off_deg(&other.reading, &told) + LEAST_SHIFT;
    is_alike.then(|| BearingSighting { reading, ..other.clone() })
}

/// Every way in which one sighting may have gone wrong. A slip that changes nothing is none.
pub(in crate::fix) fn of_sighting(sighting: &Sighting, landmarks: &[Landmark], from: Point, norths: &Norths) -> Vec<Meant> {
    let mut all = every(sighting, landmarks, from, norths);
    all.retain(|meant| meant.shift > LEAST_SHIFT);
    all
}

fn every(sighting: &Sighting, landmarks: &[Landmark], from: Point, norths: &Norths) -> Vec<Meant> {
    match sighting {
        Sighting::Bearing(bearing) => {
            let mut all = figures(bearing);
            all.extend(others(bearing, landmarks, from, norths));
            all
        }
        Sighting::Measured(measured) => distances(measured),
        Sighting::Side { landmark, quarter, facing, spread_deg } => {
            let turned = match quarter {
                Quarter::Left => Quarter::Right,
                Quarter::Right => Quarter::Left,
                Quarter::Ahead => Quarter::Behind,
                Quarter::Behind => Quarter::Ahead,
            };
            let sighting = Sighting::Side { landmark: landmark.clone(), quarter: turned, facing: facing.clone(), spread_deg: *spread_deg };
            vec![Meant { kind: SlipKind::OtherSide, sighting, shift: 180.0, among: 1.0, read: None }]
        }
        Sighting::Angle { left, right, angle_deg, spread_deg } => {
            let sighting = Sighting::Angle { left: right.clone(), right: left.clone(), angle_deg: *angle_deg, spread_deg: *spread_deg };
            vec![Meant { kind: SlipKind::MarksExchanged, sighting, shift: (360.0 - 2.0 * angle_deg).abs(), among: 1.0, read: None }]
        }
        Sighting::Here { places, spread_m, others, .. } => stood_elsewhere(places, *spread_m, others),
        Sighting::Running(running) => of_run(running),
        Sighting::Ground(ground) => in_feet(ground).into_iter().chain(ground.misplaced.iter().map(misplaced)).collect(),
        Sighting::LineRun { .. } | Sighting::Seen { .. } => Vec::new(),
    }
}

/// Feet told as metres.
fn in_feet(ground: &GroundSighting) -> Option<Meant> {
    let feet = ground.in_feet.as_deref()?;
    let shift = ground.fits.apart_m(&feet.fits);
    Some(Meant { kind: SlipKind::Feet, sighting: Sighting::Ground(feet.clone()), shift, among: 1.0, read: None })
}

/// An independent place told wrongly: by how much is told by the others.
fn misplaced((kind, share, said): &(WitnessSlipKind, f64, GroundSighting)) -> Meant {
    let (kind, sighting) = (SlipKind::Misplaced(kind.clone()), Sighting::Ground(said.clone()));
    Meant { kind, sighting, shift: f64::INFINITY, among: 1.0 / share, read: None }
}

/// Readings that differ from the one told by their figures.
fn figures(bearing: &BearingSighting) -> Vec<Meant> {
    let read = |(kind, reading, among): (SlipKind, NamedBearing, f64)| Meant {
        kind,
        sighting: Sighting::Bearing(BearingSighting { reading, ..bearing.clone() }),
        shift: signed_difference_deg(reading.degrees(), bearing.reading.degrees()).abs(),
        among,
        read: Some((bearing.reading, reading)),
    };
    other_figures(bearing.reading).into_iter().map(read).collect()
}

/// What a reading may have been when its figures were mistaken, and among how many of each kind.
pub(super) fn other_figures(reading: NamedBearing) -> Vec<(SlipKind, NamedBearing, f64)> {
    let degrees = reading.degrees();
    let mut meant = vec![(SlipKind::Reversed, degrees + 180.0)];
    meant.extend([-10.0, 10.0].map(|by| (SlipKind::Tens, degrees + by)));
    meant.extend([-200.0, -100.0, 100.0, 200.0].map(|by| (SlipKind::Hundreds, degrees + by)).into_iter().filter(|one| is_dial(one.1)));
    meant.extend(exchanged(degrees).into_iter().map(|other| (SlipKind::Exchanged, other)));
    meant.push((SlipKind::DialReversed, 360.0 - degrees));
    if degrees <= 90.0 {
        meant.extend([180.0 - degrees, 180.0 + degrees, 360.0 - degrees].map(|other| (SlipKind::Quadrant, other)));
    }
    meant.push((SlipKind::Gradians, degrees * DEG_PER_GRADIAN));
    meant.push((SlipKind::Mils, degrees * DEG_PER_MIL));
    let among = |kind: &SlipKind| meant.iter().filter(|(other, _)| other == kind).count() as f64;
    meant.iter().map(|(kind, other)| (kind.clone(), NamedBearing::new(*other, reading.north()), among(kind))).collect()
}

/// What a bearing may have been when its figures were misread, likeliest first.
pub(in crate::fix) fn misread(bearing: &BearingSighting) -> Vec<(SlipKind, NamedBearing)> {
    let mut all = figures(bearing);
    all.sort_by(|a, b| (b.kind.chance() / b.among).total_cmp(&(a.kind.chance() / a.among)));
    let reading = |meant: Meant| if let Sighting::Bearing(other) = meant.sighting { Some((meant.kind, other.reading)) } else { None };
    all.into_iter().filter_map(reading).collect()
}

fn is_dial(degrees: f64) -> bool {
    (0.0..=360.0).contains(&degrees)
}

/// The whole degrees with two neighbouring figures exchanged.
fn exchanged(degrees: f64) -> Vec<f64> {
    let whole = degrees.floor();
    let (hundreds, tens, ones) = ((whole / 100.0).floor(), (whole / 10.0).floor() % 10.0, whole % 10.0);
    let number = |a: f64, b: f64, c: f64| a * 100.0 + b * 10.0 + c + degrees - whole;
    let mut all = vec![number(hundreds, ones, tens), number(tens, hundreds, ones)];
    all.retain(|other| is_dial(*other) && (other - degrees).abs() > 0.5);
    all
}

/// The other landmarks of the sheet that lie roughly where the reading points.
fn others(bearing: &BearingSighting, landmarks: &[Landmark], from: Point, norths: &Norths) -> Vec<Meant> {
    use crate::earth::Compass;
    let Some(sure) = bearing.sure() else { return Vec::new() };
    let read_deg = norths.to_plane_deg(bearing.reading, from);
    let off = |mark: &Landmark| signed_difference_deg(mark.at.minus(from).bearing_deg(), read_deg).abs();
    let mut near: Vec<(f64, &Landmark)> = landmarks.iter().filter(|mark| mark.name != sure.name).map(|mark| (off(mark), mark)).collect();
    near.retain(|(off_deg, _)| *off_deg <= OTHER_WITHIN_DEG);
    near.sort_by(|a, b| a.0.total_cmp(&b.0));
    near.truncate(MOST_OTHERS);
    // Beforehand it may have been any of the others, wherever the reading points.
    let among = landmarks.len().saturating_sub(1).max(1) as f64;
    let shift = |mark: &Landmark| signed_difference_deg(mark.at.minus(from).bearing_deg(), sure.at.minus(from).bearing_deg()).abs();
    let meant = |(_, mark): (f64, &Landmark)| Meant {
        kind: SlipKind::OtherLandmark(mark.name.clone()),
        sighting: Sighting::Bearing(BearingSighting { candidates: vec![mark.clone()], ..bearing.clone() }),
        shift: shift(mark),
        among,
        read: Some((bearing.reading, bearing.reading)),
    };
    near.into_iter().map(meant).collect()
}

fn distances(measured: &MeasuredSighting) -> Vec<Meant> {
    let told_m = measured.distance_m;
    let others_m = |kind: SlipKind, others_m: Vec<f64>| {
        let among = others_m.len() as f64;
        let meant = move |distance_m: f64| {
            let sighting = Sighting::Measured(MeasuredSighting { distance_m, ..measured.clone() });
            Meant { kind: kind.clone(), sighting, shift: (distance_m - told_m).abs(), among, read: None }
        };
        others_m.into_iter().map(meant).collect::<Vec<Meant>>()
    };
    let by_hundred = |each_m: f64| [told_m + 100.0 * each_m, (told_m - 100.0 * each_m).max(0.0)];
    let mut all = match measured.counter {
        Counter::Meter { .. } => others_m(SlipKind::MilesKilometres, vec![told_m * MILE_KM, told_m / MILE_KM])
            .into_iter()
            .chain(others_m(SlipKind::Point, vec![told_m * 10.0, told_m / 10.0]))
            .collect::<Vec<Meant>>(),
        // A tally is kept of hundreds of metres, or of hundreds of paces.
        Counter::Paces { each_m } => others_m(SlipKind::PaceKind, vec![told_m * 2.0, told_m / 2.0])
            .into_iter()
            .chain(others_m(SlipKind::LostHundred, [by_hundred(1.0), by_hundred(each_m)].concat()))
            .collect(),
    };
    all.extend(counted_elsewhere(measured));
    all
}

/// A distance counted from another known point, or the other way along the line.
fn counted_elsewhere(measured: &MeasuredSighting) -> Vec<Meant> {
    let counted = |kind: SlipKind, known: String, from: Vec<(Spot, Way)>, shift: f64, among: f64| {
        let sighting = Sighting::Measured(MeasuredSighting { known, from, ..measured.clone() });
        Meant { kind, sighting, shift, among, read: None }
    };
    let among = measured.others.len() as f64;
    let other = |point: &OtherPoint| {
        let kind = SlipKind::OtherPoint { name: point.name.clone(), counted: true };
        counted(kind, point.name.clone(), point.from.clone(), apart_m(measured.from.iter().map(|(spot, _)| spot), &point.from), among)
    };
    let mut all: Vec<Meant> = measured.others.iter().map(other).collect();
    if measured.from.iter().any(|(_, way)| *way != Way::Either) {
        let from = measured.from.iter().map(|(spot, way)| (*spot, way.turned())).collect();
        all.push(counted(SlipKind::OtherWay, measured.known.clone(), from, 2.0 * measured.distance_m, 1.0));
    }
    all
}

/// Another known point than the one that was named.
fn stood_elsewhere(places: &[Spot], spread_m: f64, others: &[OtherPoint]) -> Vec<Meant> {
    let other = |point: &OtherPoint| {
        let there = point.from.iter().map(|(spot, _)| *spot).collect();
        Meant {
            kind: SlipKind::OtherPoint { name: point.name.clone(), counted: false },
            sighting: Sighting::Here { known: point.name.clone(), places: there, spread_m, others: others.to_vec() },
            shift: apart_m(places.iter(), &point.from),
            among: others.len() as f64,
            read: None,
        }
    };
    others.iter().map(other).collect()
}

/// How far two known points lie apart along a line that has both, metres; endless where none has.
fn apart_m<'a>(one: impl Iterator<Item = &'a Spot>, other: &[(Spot, Way)]) -> f64 {
    let apart = |spot: &Spot| {
        let on_same = other.iter().filter(|(there, _)| there.line == spot.line);
        on_same.map(|(there, _)| (there.along_m - spot.along_m).abs()).fold(f64::INFINITY, f64::min)
    };
    one.map(apart).fold(f64::INFINITY, f64::min)
}
