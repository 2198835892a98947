//! From sighting records to what the fix room weighs: every name looked up on the sheet, every number checked.

use super::record_sighting::SightingRecord;
use super::said::here_kind;
use super::{Refusal, understand};
use crate::earth::{PlaceReading, read_place};
use crate::fix::{
    BearingSighting, Counter, Facing, Figure, MeasuredSighting, OtherPoint, Quarter, Run, RunningSighting, Sighting, Spot, Way,
    distance_along, kinds_along, misplaced, witness_along,
};
use crate::measure::{Message, NamedBearing};
use crate::sheet::{KnownPlace, Landmark, Line, Sheet, of_those_there};
use crate::travel::{Distance, Pace};

/// One sigma of a run, a trip meter's scale and standing at a known point when none is told (common practice, no source):
/// per cent, per cent, metres.
const RUN_PERCENT: f64 = 3.0;
/// See [`RUN_PERCENT`]; car makers allow 2.5 to 4 % (SAE J2976 and J1226, from memory).
const SCALE_PERCENT: f64 = 2.0;
/// See [`RUN_PERCENT`].
const HERE_SPREAD_M: f64 = 15.0;
/// One sigma of a distance estimated by eye, as a share of it (common practice, no source).
const BY_EYE_SHARE: f64 = 0.25;
/// The step of a trip meter's display, metres: a tenth of a kilometre.
const STEP_M: f64 = 100.0;
/// How surely a walker tells left from right, ahead from behind, degrees (common practice, no source).
const SIDE_SPREAD_DEG: f64 = 10.0;
/// An independent place is hardly known better than this, one sigma per axis, metres: receivers under trees err by 4 to 12 m (published
/// trials with phones, from memory).
const WITNESS_SPREAD_M: f64 = 10.0;
/// A roughly placed feature is at least so roughly placed, metres.
const ROUGH_SPREAD_M: f64 = 50.0;

/// At most so many other known points are asked about as mistaken for one.
const MOST_OTHERS: usize = 40;
/// A refusal names at most so many known points.
const MOST_NAMED: usize = 20;

/// Looks sightings up on a sheet, for the lines that may be stood on.
pub(super) struct Observer<'a> {
    pub(super) sheet: &'a Sheet,
    pub(super) lines: &'a [&'a Line],
    pub(super) pace: &'a Pace,
}

/// Refuses what cannot both be: a landmark that is seen and not seen, or stands on two sides of one who faces one way.
pub(super) fn refuse_contradiction(sightings: &[SightingRecord]) -> Result<(), Refusal> {
    let contradicted = sightings.iter().enumerate().find_map(|(nth, one)| {
        sightings.iter().skip(nth + 1).find_map(|other| match (one, other) {
            (SightingRecord::Seen { landmark }, SightingRecord::NotSeen { landmark: other })
            | (SightingRecord::NotSeen { landmark }, SightingRecord::Seen { landmark: other }) => {
                is_same(landmark, other).then_some(landmark)
            }
            (
                SightingRecord::Side { landmark, side, towards },
                SightingRecord::Side { landmark: other, side: other_side, towards: other_towards },
            ) => (is_same(landmark, other) && towards == other_towards && !is_same(side, other_side)).then_some(landmark),
            _ => None,
        })
    });
    contradicted.map_or(Ok(()), |landmark| Err(Refusal::named("sightings-contradict", landmark.trim())))
}

impl Observer<'_> {
    pub(super) fn sighting(&self, record: &SightingRecord) -> Result<Sighting, Refusal> {
        match record {
            SightingRecord::Bearing { landmark, one_of, place, spread_m, bearing, spread_deg } => {
                let candidates = self.candidates(landmark.as_deref(), one_of.as_deref(), place.as_deref(), *spread_m)?;
                let reading = NamedBearing::parse(bearing)?;
                Ok(Sighting::Bearing(BearingSighting { candidates, reading, spread_deg: spread(*spread_deg)? }))
            }
            SightingRecord::Running { .. } => self.running(record),
            SightingRecord::LineRun { bearing, spread_deg } => {
                Ok(Sighting::LineRun { reading: NamedBearing::parse(bearing)?, spread_deg: spread(*spread_deg)? })
            }
            SightingRecord::Angle { left, right, .. } if self.landmark(left)?.name == self.landmark(right)?.name => {
                Err(Refusal::named("angle-of-one", left.trim()))
            }
            SightingRecord::Angle { left, right, angle_deg, spread_deg } => Ok(Sighting::Angle {
                left: self.landmark(left)?,
                right: self.landmark(right)?,
                angle_deg: understand::bounded("angle_deg", *angle_deg, (0.0, 360.0))?,
                spread_deg: spread(*spread_deg)?,
            }),
            SightingRecord::Side { landmark, side, towards } => Ok(Sighting::Side {
                landmark: self.landmark(landmark)?,
                quarter: quarter(side)?,
                facing: self.facing(towards.as_deref())?,
                spread_deg: SIDE_SPREAD_DEG,
            }),
            SightingRecord::Seen { landmark } => Ok(Sighting::Seen { landmark: self.landmark(landmark)?, seen: true }),
            SightingRecord::NotSeen { landmark } => Ok(Sighting::Seen { landmark: self.landmark(landmark)?, seen: false }),
            SightingRecord::Here { known, kind, spread_m } => self.stood_at(known.as_deref(), kind.as_deref(), *spread_m),
            SightingRecord::Witness { place, spread_m } => {
                let (reading, spread_m) = self.witness(place, *spread_m)?;
                let at = self.sheet.frame.to_plane(reading.at);
                let told = witness_along(place.trim(), at, spread_m, self.lines);
                Ok(Sighting::Ground(told.or_misplaced(misplaced(self.sheet, (place.trim(), reading), spread_m), self.lines)))
            }
            SightingRecord::Distance { landmark, distance_m, spread_m } => {
                let (distance_m, spread_m) = distance(*distance_m, *spread_m)?;
                Ok(Sighting::Ground(distance_along(&self.landmark(landmark)?, distance_m, spread_m, self.lines)))
            }
            // These are weighed by the heights before anything else is looked up.
            SightingRecord::Slope { .. }
            | SightingRecord::Landform { .. }
            | SightingRecord::Aspect { .. }
            | SightingRecord::Height { .. } => Err(Refusal::plain("heights-needed")),
            SightingRecord::Trip { from, distance_m, step_m, cuts_off, scale_percent, towards } => {
                Ok(Sighting::Measured(MeasuredSighting {
                    known: from.trim().into(),
                    from: self.starts(from, towards.as_deref())?,
                    distance_m: understand::bounded("distance_m", *distance_m, (0.0, 1_000_000.0))?,
                    counter: Counter::Meter {
                        step_m: understand::bounded("step_m", step_m.unwrap_or(STEP_M), (1.0, 2_000.0))?,
                        figure: figure(*cuts_off),
                    },
                    scale_share: understand::bounded("scale_percent", scale_percent.unwrap_or(SCALE_PERCENT), (0.1, 20.0))? / 100.0,
                    others: self.others(from, towards.as_deref()),
                }))
            }
            SightingRecord::Paces { from, paces, pace_kind, towards } => {
                let kind = understand::pace_kind(pace_kind.as_deref())?;
                let distance = Distance::Paces { count: *paces, kind }.checked()?;
                Ok(Sighting::Measured(MeasuredSighting {
                    known: from.trim().into(),
                    from: self.starts(from, towards.as_deref())?,
                    distance_m: distance.metres(self.pace),
                    counter: Counter::Paces { each_m: Distance::Paces { count: 1.0, kind }.metres(self.pace) },
                    scale_share: self.pace.spread_share,
                    others: self.others(from, towards.as_deref()),
                }))
            }
        }
    }

    /// One that the sheet names, or any of a kind.
    fn stood_at(&self, known: Option<&str>, kind: Option<&str>, spread_m: Option<f64>) -> Result<Sighting, Refusal> {
        let spread_m = understand::bounded("spread_m", spread_m.unwrap_or(HERE_SPREAD_M), (1.0, 1_000.0))?;
        match (known, kind) {
            (Some(known), None) => {
                Ok(Sighting::Here { known: known.trim().into(), places: self.spots(known)?, spread_m, others: self.others(known, None) })
            }
            (None, Some(kind)) => {
                let found = kinds_along(self.sheet, here_kind(kind)?, spread_m, self.lines);
                found.map(Sighting::Ground).ok_or_else(|| Refusal::named("here-kind-none", kind.trim()))
            }
            _ => Err(Refusal::plain("here-what")),
        }
    }

    pub(super) fn landmark(&self, name: &str) -> Result<Landmark, Refusal> {
        Ok(self.sheet.landmark(name)?.clone())
    }

    /// What was sighted: exactly one of a name, several names and a rough place must be told.
    pub(super) fn candidates(
        &self,
        landmark: Option<&str>,
        one_of: Option<&[String]>,
        place: Option<&str>,
        spread_m: Option<f64>,
    ) -> Result<Vec<Landmark>, Refusal> {
        match (landmark, one_of, place) {
            (Some(name), None, None) => Ok(vec![self.landmark(name)?]),
            (None, Some([]), None) => Err(Refusal::plain("sighted-what")),
            (None, Some(names), None) => names.iter().map(|name| self.landmark(name)).collect(),
            (None, None, Some(place)) => {
                let reading = read_place(place, &self.sheet.terms())?;
                let wide_m = understand::bounded("spread_m", spread_m.unwrap_or(ROUGH_SPREAD_M), (1.0, 5_000.0))?;
                let spread_m = wide_m.hypot(reading.spread_m()).hypot(self.sheet.spread_m);
                let at = self.sheet.frame.to_plane(reading.at);
                Ok(vec![Landmark { name: place.trim().into(), kind: String::new(), at, spread_m, height_m: None }])
            }
            _ => Err(Refusal::plain("sighted-what")),
        }
    }

    /// An independent place as it was read, and its one sigma per axis, metres.
    pub(super) fn witness(&self, place: &str, spread_m: Option<f64>) -> Result<(PlaceReading, f64), Refusal> {
        let reading = read_place(place, &self.sheet.terms())?;
        let spread_m = spread_m.unwrap_or(reading.spread_m().max(WITNESS_SPREAD_M));
        Ok((reading, understand::bounded("spread_m", spread_m, (1.0, 5_000.0))?))
    }

    fn running(&self, record: &SightingRecord) -> Result<Sighting, Refusal> {
        let SightingRecord::Running { landmark, first, second, run_m, run_spread_percent, run, towards, spread_deg } = record else {
            return Err(Refusal::plain("sighted-what"));
        };
        let run = match (run, towards) {
            (Some(bearing), None) => Run::Straight(NamedBearing::parse(bearing)?),
            (None, towards) => Run::Along(self.facing(towards.as_deref())?),
            (Some(_), Some(_)) => return Err(Refusal::plain("run-twice")),
        };
        let percent = understand::bounded("run_spread_percent", run_spread_percent.unwrap_or(RUN_PERCENT), (0.1, 30.0))?;
        Ok(Sighting::Running(RunningSighting {
            landmark: self.landmark(landmark)?,
            first: NamedBearing::parse(first)?,
            second: NamedBearing::parse(second)?,
            spread_deg: spread(*spread_deg)?,
            run_m: understand::bounded("run_m", *run_m, (1.0, 100_000.0))?,
            run_spread_share: percent / 100.0,
            run,
        }))
    }

    /// A known point of a line that may be stood on, or a junction of it: everywhere the line comes by. A name that tells one of those
    /// apart is of that one alone.
    fn known(&self, line: &Line, name: &str) -> Vec<f64> {
        let mut of_line =
            self.sheet.known_places().iter().filter(|place| self.sheet.lines.get(place.line).is_some_and(|other| other.name == line.name));
        let Some(first) = of_line.find(|place| is_same(&place.name, name)) else { return Vec::new() };
        if line.known(name).is_some() { line.comes_by(first.along_m) } else { vec![first.along_m] }
    }

    /// The same on every line that has it.
    pub(super) fn spots(&self, name: &str) -> Result<Vec<Spot>, Refusal> {
        let on = |(line, one): (usize, &&Line)| self.known(one, name).into_iter().map(move |along_m| Spot { line, along_m });
        let found: Vec<Spot> = self.lines.iter().enumerate().flat_map(on).collect();
        if found.is_empty() { Err(self.known_unknown(name)) } else { Ok(found) }
    }

    /// The same, with the way that another known point lies in: the nearest of them, on a ring by the shorter way.
    fn starts(&self, from: &str, towards: Option<&str>) -> Result<Vec<(Spot, Way)>, Refusal> {
        let spots = self.spots(from)?;
        let Some(towards) = towards else { return Ok(spots.into_iter().map(|spot| (spot, Way::Either)).collect()) };
        if is_same(from, towards) {
            return Err(Refusal::named("towards-itself", from.trim()));
        }
        let ends = self.spots(towards)?;
        let faced = Facing::Towards(ends.clone());
        let ways = spots.into_iter().filter(|spot| ends.iter().any(|end| end.line == spot.line));
        let ways = ways.filter_map(|spot| Some((spot, faced.at(spot.line, self.lines.get(spot.line)?, spot.along_m))));
        let found: Vec<(Spot, Way)> = ways.collect();
        if found.is_empty() { Err(self.known_unknown(towards)) } else { Ok(found) }
    }

    /// Which way along the lines one faces who looks towards a known point.
    fn facing(&self, towards: Option<&str>) -> Result<Facing, Refusal> {
        Ok(match towards {
            None => Facing::Way(Way::Either),
            Some(towards) => Facing::Towards(self.spots(towards)?),
        })
    }

    /// The other known points of the lines, which may have been mistaken for one, with the way that another known point lies in.
    fn others(&self, named: &str, towards: Option<&str>) -> Vec<OtherPoint> {
        let mut names: Vec<&str> = Vec::new();
        for place in self.here() {
            let is_told = is_same(&place.name, named) || towards.is_some_and(|towards| is_same(&place.name, towards));
            if !is_told && !names.contains(&place.name.as_str()) {
                names.push(&place.name);
            }
        }
        let other = |name: &str| Some(OtherPoint { name: name.into(), from: self.starts(name, towards).ok()? });
        names.into_iter().filter_map(other).take(MOST_OTHERS).collect()
    }

    /// The known points of the lines that may be stood on.
    fn here(&self) -> impl Iterator<Item = &KnownPlace> {
        self.sheet.known_places().iter().filter(|place| {
            let on = self.sheet.lines.get(place.line).map(|line| &line.name);
            self.lines.iter().any(|line| Some(&line.name) == on)
        })
    }

    fn known_unknown(&self, name: &str) -> Refusal {
        let known: Vec<&str> = self.here().map(|place| place.name.as_str()).take(MOST_NAMED).collect();
        Refusal::new(of_those_there(Message::new("known-point-unknown").text("name", name), &known.join(", ")))
    }
}

/// Whether two names are of one known point.
pub(super) fn is_same(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// A distance and its sigma, metres: by eye when none is told.
pub(super) fn distance(distance_m: f64, spread_m: Option<f64>) -> Result<(f64, f64), Refusal> {
    let distance_m = understand::bounded("distance_m", distance_m, (1.0, 100_000.0))?;
    Ok((distance_m, understand::bounded("spread_m", spread_m.unwrap_or(BY_EYE_SHARE * distance_m), (0.1, 50_000.0))?))
}

pub(super) fn spread(spread_deg: Option<f64>) -> Result<Option<f64>, Refusal> {
    match spread_deg {
        Some(wrong) if !(0.1..=45.0).contains(&wrong) => Err(Refusal::number("spread-unreadable", wrong)),
        sound => Ok(sound),
    }
}

/// Which figure a display shows: not known when that is not told.
fn figure(cuts_off: Option<bool>) -> Figure {
    match cuts_off {
        Some(true) => Figure::UntilFull,
        Some(false) => Figure::Nearest,
        None => Figure::Unknown,
    }
}

fn quarter(word: &str) -> Result<Quarter, Refusal> {
    match word.trim().to_lowercase().as_str() {
        "ahead" => Ok(Quarter::Ahead),
        "behind" => Ok(Quarter::Behind),
        "left" => Ok(Quarter::Left),
        "right" => Ok(Quarter::Right),
        _ => Err(Refusal::named("quarter-unknown", word)),
    }
}
