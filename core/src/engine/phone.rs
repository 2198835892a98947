//! What the phone itself believes: its magnetic field and its place. Witnesses, never the judge; nothing is written.

use super::answer::Answer;
use super::commands::Done;
use super::{Engine, Refusal, questions, understand};
use crate::earth::{Attracted, FieldReading, Grid, Instant, LatLon, Terms, attraction, magnetic_field, mgrs_of, read_place};
use crate::fix::{Check, Instrument};
use crate::logbook::Witness;
use crate::measure::{Arg, Message, PLANE_68, Telling};

/// A place told by a receiver is out of date after so long.
const STALE_S: f64 = 30.0;
/// Nanotesla in a microtesla, the unit of a phone's sensor.
const NT_PER_UT: f64 = 1_000.0;

/// A magnetometer's reading as the record brings it.
pub(super) struct Felt<'a> {
    pub(super) place: Option<&'a str>,
    pub(super) field_ut: &'a [f64],
    pub(super) up: Option<&'a Vec<f64>>,
    pub(super) down: Option<&'a Vec<f64>>,
}

/// A receiver's place as the record brings it.
pub(super) struct Received<'a> {
    pub(super) lat_deg: f64,
    pub(super) lon_deg: f64,
    pub(super) accuracy_m: f64,
    pub(super) seen_at: &'a str,
}

impl Engine {
    /// Holds the phone's magnetic field against the model's.
    pub(super) fn attraction(&mut self, at: Option<&String>, felt: &Felt) -> Result<Done, Refusal> {
        let at = understand::instant(at)?;
        let model = magnetic_field(self.place_asked(felt.place)?, 0.0, at.date())?;
        let reading = reading(felt)?;
        let told = attraction(&reading, &model).ok_or_else(|| Refusal::plain("attraction-unreadable"))?;
        let trust = Instrument::Phone.trust();
        let half_95_deg = told.heading_half_95_deg(trust.reading_spread_deg, trust.shared_spread_deg);
        let sure = half_95_deg.filter(|_| told.verdict() == Attracted::Clean);
        let heading_told = told.heading.map(|heading| self.words.heading(heading, sure));
        let mut said = self.words.attraction(&told, &model);
        said.push(self.words.attraction_heading(heading_told.as_deref()));
        said.extend(moved(&reading).map(|moved| self.words.say(&moved)));
        said.extend(model.caution.map(|caution| self.words.say(&caution.message())));
        let sheet = self.trip.as_ref().map(|trip| &trip.sheet);
        said.extend(felt.place.and_then(|place| questions::doubt_on(place, sheet)).map(|doubt| self.words.say(&doubt)));
        let answer = Answer::Attraction {
            strength_nt: told.strength_nt,
            dip_deg: told.dip_deg,
            heading_deg_mag: told.heading.map(|heading| heading.degrees()),
            heading_told,
            heading_figures: told.heading.map(|heading| self.words.heading_figures(heading)),
            caution_told: (told.verdict() == Attracted::Near).then(|| self.words.attraction_next(&told, &model)),
            model_strength_nt: model.total_nt,
            model_dip_deg: model.inclination_deg,
            strength_spread_nt: told.strength_spread_nt,
            dip_spread_deg: told.dip_spread_deg,
            chi_square: told.chi_square,
            attracted_share: told.share,
            verdict: told.verdict().word().into(),
        };
        Ok(Done::answered(said, answer))
    }

    /// The place that is named, else where the trip is.
    pub(super) fn place_asked(&self, place: Option<&str>) -> Result<LatLon, Refusal> {
        match (place, &self.trip) {
            (Some(place), Some(trip)) => Ok(read_place(place, &trip.sheet.terms())?.at),
            (Some(place), None) => Ok(read_place(place, &Terms::default())?.at),
            (None, Some(trip)) => Ok(trip.likeliest()),
            (None, None) => Err(Refusal::plain("place-missing")),
        }
    }

    /// Tells a receiver's place beside the fix.
    pub(super) fn witness(&mut self, at: Option<&String>, received: &Received) -> Result<Done, Refusal> {
        let (at, seen_at) = (self.time(at)?, Instant::parse(received.seen_at)?);
        let place = LatLon::new(received.lat_deg, received.lon_deg)?;
        let accuracy_m = understand::bounded("accuracy_m", received.accuracy_m, (0.0, 100_000.0))?;
        let witness = Witness { typed: String::new(), at: place, spread_m: accuracy_m / PLANE_68 };
        let age_s = at.seconds_since(seen_at);
        let check = self.trip.as_ref().and_then(|trip| trip.held_against(&witness).ok()).map(|held| held.check);
        let half_axis_95_m = crate::measure::PLANE_95 * witness.spread_m;
        let digits = crate::earth::digits_for_spread(half_axis_95_m);
        let reference = self.reference(place, digits);
        let is_stale = age_s > STALE_S;
        let answer = Answer::Witness {
            mgrs: mgrs_of(place, crate::earth::DIGITS_FULL),
            place: format!("{:.7}, {:.7}", place.lat_deg(), place.lon_deg()),
            spread_m: witness.spread_m,
            age_s,
            stale: is_stale,
            distance_m: check.map(|check| check.distance_m),
            chance: check.map(|check| check.chance),
            verdict: check.map(|check| check.verdict().word().into()),
            reference: reference.clone(),
            spread_told: self.words.plus_minus(half_axis_95_m),
            age_told: self.words.age_to_the_second(age_s),
        };
        Ok(Done::answered(self.witness_said(&reference, half_axis_95_m, age_s, check.as_ref()), answer))
    }

    /// On a sheet its own grid's reference, else MGRS.
    fn reference(&self, at: LatLon, digits: u8) -> String {
        self.trip.as_ref().map_or_else(|| Grid::of_place(at).reference(at, digits), |trip| trip.sheet.reference(at, digits))
    }

    fn witness_said(&self, reference: &str, half_axis_95_m: f64, age_s: f64, check: Option<&Check>) -> Vec<String> {
        let bearing = check.zip(self.trip.as_ref()).and_then(|(check, trip)| {
            let (best, norths) = trip.fixed_at(check.stretch)?;
            Some(crate::earth::Compass::to_grid(norths, check.plane_deg, best))
        });
        let mut said = vec![self.words.witness(reference, half_axis_95_m, age_s, check.zip(bearing))];
        if age_s > STALE_S {
            said.push(self.words.say(&Message::new("witness-stale")));
        }
        said
    }
}

/// That the vertical is as long as an acceleration, metres per second squared, but not as that of gravity: the phone was moved, and what is
/// taken for the vertical leans. Other lengths are of another unit.
fn moved(reading: &FieldReading) -> Option<Message> {
    const GRAVITY: f64 = 9.806_65;
    let length = reading.up.iter().map(|part| part * part).sum::<f64>().sqrt();
    let (is_near, is_gravity) = ((0.5..=2.0).contains(&(length / GRAVITY)), (length / GRAVITY - 1.0).abs() < STILL_SHARE);
    (is_near && !is_gravity).then(|| Message::new("attraction-moved").with("length", Arg::Number(length, 1)))
}

/// A phone held still feels gravity within this share of it (our choice: a cheap sensor is some hundredths off).
const STILL_SHARE: f64 = 0.1;

fn reading(felt: &Felt) -> Result<FieldReading, Refusal> {
    let axes = |values: &[f64]| <[f64; 3]>::try_from(values).map_err(|_| Refusal::plain("attraction-unreadable"));
    let up = match (felt.up, felt.down) {
        (Some(up), None) => axes(up)?,
        (None, Some(down)) => axes(down)?.map(|part| -part),
        _ => return Err(Refusal::plain("attraction-vertical")),
    };
    Ok(FieldReading { field_nt: axes(felt.field_ut)?.map(|part| part * NT_PER_UT), up })
}
