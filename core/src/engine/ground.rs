//! What the heights say: what should be seen from a place, and how the fix and the check list use it.

use std::collections::BTreeMap;

use super::along::{ALONG_M, Chances};
use super::answer::{Answer, AnswerSeenLandform, AnswerSeenLandmark};
use super::commands::Done;
use super::state::{Ground, Trip};
use super::{Engine, Refusal, understand};
use crate::earth::{Compass, DIGITS_FULL, Norths, mgrs_of, read_place};
use crate::fix::{Sighting, Table};
use crate::measure::{Message, NamedBearing};
use crate::sheet::{EYE_M, Landmark, Line, SeenLandmark, Sheet};

/// Landmarks farther than this are not asked for unless it is said, metres.
const WITHIN_M: f64 = 10_000.0;

/// What [`Engine::seen`] is asked.
pub(super) struct SeenQuestion<'a> {
    pub(super) at: Option<&'a String>,
    pub(super) place: Option<&'a str>,
    pub(super) eye_m: Option<f64>,
    pub(super) within_m: Option<f64>,
}

impl Trip {
    /// The heights of the sheet, or why there are none.
    pub(super) fn heights(&self) -> Result<&Ground, Refusal> {
        let trouble = || self.ground_trouble.clone().unwrap_or_else(|| Refusal::plain("heights-needed"));
        self.ground.as_ref().ok_or_else(trouble)
    }
}

impl Engine {
    /// What should be seen from a place.
    pub(super) fn seen(&mut self, asked: &SeenQuestion<'_>) -> Result<Done, Refusal> {
        let at = self.time(asked.at)?;
        let eye_m = understand::bounded("eye_m", asked.eye_m.unwrap_or(EYE_M), (0.0, 100.0))?;
        let within_m = understand::bounded("within_m", asked.within_m.unwrap_or(WITHIN_M), (1.0, 300_000.0))?;
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        let ground = trip.heights()?;
        let place = asked.place.map(|place| read_place(place, &trip.sheet.terms())).transpose()?.map(|reading| reading.at);
        let place = place.map_or_else(|| trip.stood_at(), Ok)?;
        let error_deg = trip.compass.as_ref().map_or(0.0, |compass| compass.row.error_deg);
        let norths = trip.sheet.norths(at.date())?.with_compass_error(error_deg);
        let from = trip.sheet.frame.to_plane(place);
        let seen = trip.sheet.seen_from(&ground.sightlines()?, from, eye_m, within_m)?;
        let turned = Turned { norths: &norths, from };
        let mut said = vec![self.words.say(&Message::new("seen-from").text("place", trip.sheet.reference(place, 8)))];
        if ground.heights.at_m(place).is_none() {
            said.push(self.words.say(&Message::new("seen-off-heights")));
        }
        said.extend(seen.landmarks.iter().map(|one| self.words.seen_landmark(one, turned.magnetic(one.plane_deg))));
        said.extend(seen.landforms.iter().map(|one| self.words.landform(one, turned.of_true(one.bearing.degrees()))));
        said.push(self.words.say(&Message::new("seen-caution")));
        let landforms = seen.landforms.iter().map(|one| AnswerSeenLandform {
            kind: one.landform.kind.word().into(),
            bearing_deg_mag: turned.of_true(one.bearing.degrees()).degrees(),
            distance_m: one.distance_m,
            relief_m: one.landform.relief_m,
            strength: one.landform.strength,
        });
        let answer = Answer::Seen {
            mgrs: mgrs_of(place, DIGITS_FULL),
            landmarks: seen.landmarks.iter().map(|one| turned.landmark(one)).collect(),
            landforms: landforms.collect(),
        };
        Ok(Done::answered(said, answer))
    }
}

/// Norths at the place that is asked from.
struct Turned<'a> {
    norths: &'a Norths,
    from: crate::measure::Point,
}

impl Turned<'_> {
    fn magnetic(&self, plane_deg: f64) -> NamedBearing {
        NamedBearing::Magnetic(self.norths.to_magnetic(plane_deg, self.from))
    }

    fn of_true(&self, true_deg: f64) -> NamedBearing {
        let turn_deg = self.norths.to_true(0.0, self.from).degrees();
        self.magnetic(true_deg - turn_deg)
    }

    fn landmark(&self, one: &SeenLandmark<'_>) -> AnswerSeenLandmark {
        AnswerSeenLandmark {
            landmark: one.landmark.name.clone(),
            kind: one.landmark.kind.clone(),
            seen: one.sight.seen.word().into(),
            chance: one.sight.chance,
            margin_m: one.sight.margin_m,
            hidden_at_m: one.sight.nearest.filter(|_| one.sight.margin_m.is_some_and(|margin_m| margin_m < 0.0)).map(|on| on.distance_m),
            distance_m: one.distance_m,
            bearing_deg_mag: self.magnetic(one.plane_deg).degrees(),
            bearing_deg_grid: self.norths.to_grid(one.plane_deg, self.from).degrees(),
        }
    }
}

/// The chance that each landmark of the sightings is in sight along each of the lines; those of which nothing is known are left out.
pub(super) fn in_sight(
    sheet: &Sheet,
    ground: Option<&Ground>,
    lines: &[&Line],
    sightings: &[Sighting],
) -> Result<BTreeMap<String, Vec<Table>>, Refusal> {
    let Some(ground) = ground else { return Ok(BTreeMap::new()) };
    let named: BTreeMap<&str, &Landmark> =
        sightings.iter().flat_map(Sighting::landmarks).filter(|one| sheet.holds(one)).map(|one| (one.name.as_str(), one)).collect();
    if named.is_empty() {
        return Ok(BTreeMap::new());
    }
    let landmarks: Vec<&Landmark> = named.values().copied().collect();
    let sights = ground.sightlines()?;
    let on_lines: Vec<Vec<Chances>> = lines.iter().map(|line| ground.in_sight.along(sheet, &sights, line, &landmarks)).collect();
    let of_landmark = |index: usize| on_lines.iter().map(|line| line.get(index).map_or_else(Vec::new, |one| one.to_vec())).collect();
    let tables =
        named.keys().enumerate().filter_map(|(index, name)| Some(((*name).to_owned(), Table::of_chances(ALONG_M, of_landmark(index))?)));
    Ok(tables.collect())
}
