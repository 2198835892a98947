//! What the heights say: what should be seen from a place, and how the fix and the check list use it.

use std::collections::BTreeMap;

use super::along::{ALONG_M, Chances};
use super::answer::{Answer, AnswerSeenLandform};
use super::buffers::{AnswerSeenLandmark, AnswerSeenLandmarks};
use super::commands::Done;
use super::state::{Ground, Trip};
use super::{Engine, Record, Refusal, Reply, questions, understand};
use crate::earth::{Compass, DIGITS_FULL, LatLon, Norths, mgrs_of, read_place};
use crate::fix::{Sighting, Table};
use crate::ground::{Around, Heights, least_cliff_m};
use crate::measure::{Arg, Message, NamedBearing, North, Point, Telling};
use crate::sheet::{EYE_M, LANDFORMS_WITHIN_M, Landmark, Line, MoreOfKind, SeenFrom, SeenLandmark, Sheet};
use crate::words::{Words, date_told};

/// Landmarks farther than this are not asked for unless it is said, metres.
const WITHIN_M: f64 = 10_000.0;

/// What [`Engine::seen`] is asked.
pub(super) struct SeenQuestion<'a> {
    pub(super) at: Option<&'a String>,
    pub(super) place: Option<&'a str>,
    pub(super) eye_m: Option<f64>,
    pub(super) within_m: Option<f64>,
    pub(super) to: Option<&'a str>,
}

impl<'a> SeenQuestion<'a> {
    /// As a record asks it; none where it asks something else.
    pub(super) fn of(record: &'a Record) -> Option<Self> {
        let Record::Seen { at, place, eye_m, within_m, to } = record else { return None };
        Some(Self { at: at.as_ref(), place: place.as_deref(), eye_m: *eye_m, within_m: *within_m, to: to.as_deref() })
    }
}

impl Trip {
    /// The norths over the sheet on a date, the magnetic one as the checked compass reads.
    pub(super) fn norths(&self, date: chrono::NaiveDate) -> Result<Norths, Refusal> {
        let error_deg = self.compass.as_ref().map_or(0.0, |compass| compass.row.error_deg);
        Ok(self.sheet.norths(date)?.with_compass_error(error_deg))
    }

    /// That heights of the sheet are none above the sea, where they are not.
    pub(super) fn ellipsoid_minded(&self) -> Option<Message> {
        let is_ellipsoidal = self.ground.as_ref().is_some_and(|ground| ground.row.origin.is_ellipsoidal);
        is_ellipsoidal.then(|| Message::new("heights-from-ellipsoid"))
    }

    /// The heights of the sheet, or why there are none.
    pub(super) fn heights(&self) -> Result<&Ground, Refusal> {
        let trouble = || self.ground_trouble.clone().unwrap_or_else(|| Refusal::plain("heights-needed"));
        self.ground.as_ref().ok_or_else(trouble)
    }
}

/// What should be seen from a place, with all that it takes to find out: that may be done away from the engine, which takes other
/// records meanwhile.
#[derive(Debug)]
pub struct SeenAsked {
    sheet: Sheet,
    ground: Ground,
    norths: Norths,
    place: LatLon,
    /// What to mind of the place as it was typed.
    doubt: Option<Message>,
    from: Point,
    eye_m: f64,
    within_m: f64,
    to: North,
}

impl SeenAsked {
    /// Finds it out. Over fine heights this takes seconds.
    ///
    /// # Errors
    /// A [`Refusal`] when the grid of the heights does not reach the place.
    pub fn look(&self) -> Result<SeenFrom<'_>, Refusal> {
        Ok(self.sheet.seen_from(&self.ground.sightlines()?, self.from, self.eye_m, self.within_m)?)
    }
}

impl Engine {
    /// Understands a `seen` record, to be found out without the engine; nothing of any other record.
    ///
    /// # Errors
    /// A [`Refusal`] when there is no place or are no heights to tell it by.
    pub fn ask_seen(&mut self, record: &Record) -> Result<Option<SeenAsked>, Refusal> {
        SeenQuestion::of(record).map(|asked| self.seen_asked(&asked)).transpose()
    }

    /// The reply to a `seen` record.
    ///
    /// # Errors
    /// A [`Refusal`] when the logbook cannot be read.
    pub fn reply_seen(&mut self, asked: &SeenAsked, seen: &SeenFrom<'_>) -> Result<Reply, Refusal> {
        self.replied(|engine| Ok(engine.seen_told(asked, seen)))
    }

    /// What should be seen from a place.
    pub(super) fn seen(&mut self, asked: &SeenQuestion<'_>) -> Result<Done, Refusal> {
        let asked = self.seen_asked(asked)?;
        Ok(self.seen_told(&asked, &asked.look()?))
    }

    /// Understands what [`Engine::seen`] is asked.
    pub(super) fn seen_asked(&mut self, asked: &SeenQuestion<'_>) -> Result<SeenAsked, Refusal> {
        let at = self.time(asked.at)?;
        let eye_m = understand::bounded("eye_m", asked.eye_m.unwrap_or(EYE_M), (0.0, 100.0))?;
        let within_m = understand::bounded("within_m", asked.within_m.unwrap_or(WITHIN_M), (1.0, 300_000.0))?;
        let to = asked.to.map_or(Ok(North::Magnetic), understand::north)?;
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        let ground = trip.heights()?.clone();
        let doubt = asked.place.and_then(|place| questions::doubt_on(place, Some(&trip.sheet)));
        let place = asked.place.map(|place| read_place(place, &trip.sheet.terms())).transpose()?.map(|reading| reading.at);
        let place = place.map_or_else(|| trip.stood_at(), Ok)?;
        let norths = trip.norths(at.date())?;
        let from = trip.sheet.frame.to_plane(place);
        Ok(SeenAsked { sheet: trip.sheet.clone(), ground, norths, place, doubt, from, eye_m, within_m, to })
    }

    /// Tells what was found out.
    pub(super) fn seen_told(&self, asked: &SeenAsked, seen: &SeenFrom<'_>) -> Done {
        let turned = Turned { norths: &asked.norths, from: asked.from, to: asked.to };
        let mut said = vec![self.words.say(&Message::new("seen-from").text("place", asked.sheet.reference(asked.place, 8)))];
        said.extend(asked.doubt.iter().chain(&date_told(&asked.norths)).map(|minded| self.words.say(minded)));
        let heights = &asked.ground.heights;
        let on_heights = heights.at_m(asked.place).is_some();
        let untold: Vec<Message> = if on_heights {
            self.ground_untold(seen).into_iter().chain(cliffs_left_out(heights)).collect()
        } else {
            vec![Message::new("seen-off-heights")]
        };
        let untold: Vec<String> = untold.iter().map(|message| self.words.say(message)).collect();
        // Without heights that comes first: it tells why no sight can be told.
        said.extend(untold.iter().filter(|_| !on_heights).cloned());
        said.extend(seen.landmarks.iter().map(|one| self.words.seen_landmark(one, turned.wanted(one.plane_deg))));
        let landforms: Vec<AnswerSeenLandform> = seen.landforms.iter().map(|one| turned.landform(one, &self.words)).collect();
        said.extend(landforms.iter().map(|one| one.told.clone()));
        said.extend(untold.iter().filter(|_| on_heights).cloned());
        said.push(self.words.say(&Message::new("seen-caution")));
        let landmarks = AnswerSeenLandmarks(seen.landmarks.iter().map(|one| turned.landmark(one)).collect());
        Done::answered(said, Answer::Seen { mgrs: mgrs_of(asked.place, DIGITS_FULL), landmarks, landforms, untold })
    }

    /// What of the ground near is only counted or cannot be told, from a place on the heights.
    fn ground_untold(&self, seen: &SeenFrom<'_>) -> Vec<Message> {
        let within = Arg::Metres(LANDFORMS_WITHIN_M);
        let cliffs = seen.more_cliffs.map(|more| {
            let told = Message::new("seen-more-cliffs").with("count", Arg::Count(more.count as i64)).with("distance", within.clone());
            let falling = match more.falling {
                0 => "none",
                some if some == more.count => "all",
                _ => "some",
            };
            let told = told.with("height", Arg::Height(more.highest_m, 0)).with("nearest", Arg::Metres(more.nearest_m));
            told.text("falling", falling).with("falls", Arg::Count(more.falling as i64))
        });
        let of_kind = |more: &MoreOfKind| {
            let told = Message::new("seen-more-of-kind").with("count", Arg::Count(more.count as i64)).text("kind", more.kind.word());
            self.words.say(&told.with("nearest", Arg::Metres(more.nearest_m)))
        };
        let list: Vec<String> = seen.more.iter().map(of_kind).collect();
        let more =
            (!list.is_empty()).then(|| Message::new("seen-more-landforms").with("distance", within.clone()).text("list", list.join(", ")));
        let none = (seen.landforms.is_empty() && seen.heights_end_m.is_none()).then(|| {
            let gap = if seen.gap.is_some() { "yes" } else { "no" };
            Message::new("seen-no-landform").with("distance", within.clone()).text("gap", gap)
        });
        let end = seen.heights_end_m.map(|end_m| Message::new("seen-heights-end").with("distance", Arg::Metres(end_m)));
        let gap = seen.gap.map(|gap| {
            let told = Message::new("seen-gap").with("from", Arg::Metres(gap.from_m)).with("share", Arg::Share(gap.share));
            told.with("distance", within.clone())
        });
        [cliffs, more, none, end, gap].into_iter().flatten().collect()
    }
}

/// Which cliffs the heights cannot show.
fn cliffs_left_out(heights: &Heights) -> Option<Message> {
    let (east_m, south_m) = heights.layout().spacing_in_middle_m().ok()?;
    let told = Message::new("seen-cliffs").with("height", Arg::Height(least_cliff_m(east_m.max(south_m)), 0));
    Some(told.with("spacing", Arg::Metres(east_m.max(south_m))))
}

/// Norths at the place that is asked from, and the one that is wanted.
pub(super) struct Turned<'a> {
    pub(super) norths: &'a Norths,
    pub(super) from: Point,
    pub(super) to: North,
}

impl Turned<'_> {
    fn wanted(&self, plane_deg: f64) -> NamedBearing {
        match self.to {
            North::Magnetic => NamedBearing::Magnetic(self.norths.to_magnetic(plane_deg, self.from)),
            North::Grid => NamedBearing::Grid(self.norths.to_grid(plane_deg, self.from)),
            North::True => NamedBearing::True(self.norths.to_true(plane_deg, self.from)),
        }
    }

    fn plane_deg(&self, true_deg: f64) -> f64 {
        true_deg - self.norths.to_true(0.0, self.from).degrees()
    }

    /// The same message with its bearings from the wanted north.
    pub(super) fn turned(&self, mut message: Message) -> Message {
        for (_, arg) in &mut message.args {
            if let Arg::Bearing(NamedBearing::True(bearing)) = arg {
                *arg = Arg::Bearing(self.wanted(self.plane_deg(bearing.degrees())));
            }
        }
        message
    }

    fn landform(&self, one: &Around, words: &Words) -> AnswerSeenLandform {
        let plane_deg = self.plane_deg(one.bearing.degrees());
        AnswerSeenLandform {
            kind: one.landform.kind.word().into(),
            bearing_deg_mag: self.norths.to_magnetic(plane_deg, self.from).degrees(),
            distance_m: one.distance_m,
            relief_m: one.landform.relief_m,
            strength: one.landform.strength,
            told: words.with_whole_bearings(self.turned(one.message())),
        }
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
            bearing_deg_mag: self.norths.to_magnetic(one.plane_deg, self.from).degrees(),
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
