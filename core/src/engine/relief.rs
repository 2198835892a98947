//! Questions about the heights of the sheet: the profile of a way, the ground at a place, the contours.

use super::answer::{Answer, AnswerRise, AnswerSample};
use super::commands::Done;
use super::state::Trip;
use super::{Engine, Refusal, show, understand};
use crate::earth::{DIGITS_FULL, LatLon, mgrs_of, read_place};
use crate::exchange::contours_geojson;
use crate::ground::{Footing, Heights, Interval, Profile, Rise};
use crate::measure::{Arg, Message, Telling, TrueBearing};

/// From contour to contour when nothing is said, metres. Common practice, no source.
const INTERVAL_M: f64 = 10.0;
/// Contours are simplified by this share of the distance from post to post: below what the posts can show.
const TOLERANCE_SHARE: f64 = 0.1;

impl Trip {
    /// A place as it is typed from this sheet.
    fn place(&self, text: &str) -> Result<LatLon, Refusal> {
        Ok(read_place(text, &self.sheet.terms())?.at)
    }
}

impl Engine {
    fn on_sheet(&self) -> Result<(&Trip, &Heights), Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        let heights: &Heights = &trip.heights()?.heights;
        Ok((trip, heights))
    }

    fn told(&self, messages: &[Message]) -> Vec<String> {
        messages.iter().map(|message| self.words.say(message)).collect()
    }

    /// The heights along the way from one place to another.
    pub(super) fn profile(&self, from: &str, to: &str, step_m: Option<f64>) -> Result<Done, Refusal> {
        let (trip, heights) = self.on_sheet()?;
        let (from, to) = (trip.place(from)?, trip.place(to)?);
        let profile = heights.profile(from, to, step_m.unwrap_or(spacing_m(heights)?))?;
        let samples = profile.samples.iter().map(|one| AnswerSample { distance_m: one.distance_m, height_m: one.height_m });
        let answer = Answer::Profile {
            length_m: profile.length_m,
            climb_m: profile.climb_m,
            descent_m: profile.descent_m,
            steepest_deg: profile.steepest.map(|step| step.slope_deg),
            steepest_from_m: profile.steepest.map(|step| step.from_m),
            samples: samples.collect(),
        };
        Ok(Done::answered(self.told(&profile_told(&profile)), answer))
    }

    /// How the ground lies at a place.
    pub(super) fn ground_at(&self, place: Option<&str>) -> Result<Done, Refusal> {
        let (trip, heights) = self.on_sheet()?;
        let at = place.map_or_else(|| Ok(trip.likeliest()), |place| trip.place(place))?;
        let post = heights.layout().post_of(at)?;
        let height_m = heights.at_post_m(post).ok_or_else(|| Refusal::plain("ground-unknown"))?;
        let footing = Footing::new(heights, at)?;
        let towards = (0..8_u8).map(|eighth| TrueBearing::new(45.0 * f64::from(eighth)));
        let rises: Vec<Rise> = towards.filter_map(|bearing| footing.rise(post, bearing, Rise::USUAL_M)).collect();
        let slope = heights.slope_at(at);
        let height = Message::new("ground-height-told")
            .text("place", trip.sheet.reference(at, 8))
            .with("height", Arg::Number(height_m, 0))
            .with("spread", Arg::Number(heights.spread().sigma_m, 1));
        let mut messages = vec![height];
        messages.extend(footing.aspect(post).map(|aspect| aspect.message()));
        messages.extend(rises.iter().map(Rise::message));
        let aspect = slope.and_then(|slope| slope.aspect);
        let answer = Answer::Ground {
            mgrs: mgrs_of(at, DIGITS_FULL),
            height_m,
            height_spread_m: heights.spread().sigma_m,
            slope_deg: slope.map(|slope| slope.slope_deg),
            slope_spread_deg: slope.map(|slope| slope.spread_deg),
            falls_to_deg_true: aspect.map(|aspect| aspect.falls_to.degrees()),
            falls_to_spread_deg: aspect.map(|aspect| aspect.spread_deg),
            rises: rises.iter().map(rise).collect(),
        };
        Ok(Done::answered(self.told(&messages), answer))
    }

    /// The contours of the sheet's heights as `GeoJSON`.
    pub(super) fn contours(&self, interval_m: Option<f64>) -> Result<Done, Refusal> {
        let (_, heights) = self.on_sheet()?;
        let interval_m = understand::bounded("interval_m", interval_m.unwrap_or(INTERVAL_M), (0.1, 1000.0))?;
        let apart_m = (spacing_m(heights)?, spacing_m(heights)?);
        let whole = heights.contours(Interval { interval_m, base_m: 0.0 })?;
        let contours: Vec<_> = whole.iter().map(|one| one.simplified(TOLERANCE_SHARE * apart_m.0, apart_m)).collect();
        let told = Message::new("contours-told").with("count", Arg::Count(contours.len() as i64)).with("interval", Arg::Metres(interval_m));
        let answer = Answer::Contours { geojson: contours_geojson(&contours, heights)?, count: show::small(contours.len()) };
        Ok(Done::answered(self.told(&[told]), answer))
    }
}

/// Metres from post to post, the greater of the two ways.
fn spacing_m(heights: &Heights) -> Result<f64, Refusal> {
    let (east_m, south_m) = heights.layout().spacing_in_middle_m()?;
    Ok(east_m.max(south_m))
}

fn rise(rise: &Rise) -> AnswerRise {
    AnswerRise { bearing_deg_true: rise.bearing.degrees(), distance_m: rise.distance_m, rise_m: rise.rise_m, rise_spread_m: rise.spread_m }
}

fn profile_told(profile: &Profile) -> Vec<Message> {
    let told = Message::new("profile-told")
        .with("length", Arg::Metres(profile.length_m))
        .with("climb", Arg::Metres(profile.climb_m))
        .with("descent", Arg::Metres(profile.descent_m));
    let steepest = profile.steepest.map(|step| {
        Message::new("profile-steepest")
            .text("way", if step.slope_deg < 0.0 { "down" } else { "up" })
            .with("slope", Arg::Degrees(step.slope_deg.abs(), 0))
            .with("from", Arg::Metres(step.from_m))
    });
    let gaps = profile.samples.iter().any(|sample| sample.height_m.is_none()).then(|| Message::new("profile-gaps"));
    std::iter::once(told).chain(steepest).chain(gaps).collect()
}
