//! Questions about the heights of the sheet: the profile of a way, the ground at a place, the contours.

use super::answer::{Answer, AnswerCutOrFill, AnswerDead, AnswerRise};
use super::buffers::{AnswerSample, AnswerSamples};
use super::commands::Done;
use super::ground::Turned;
use super::state::Trip;
use super::{Engine, Refusal, draw, questions, show, understand};
use crate::chart::svg;
use crate::earth::{DIGITS_FULL, LatLon, mgrs_of, read_place};
use crate::exchange::contours_geojson;
use crate::ground::{
    CutOrFill, DeadGround, DeadStretch, Footing, HeightUnit, Heights, Interval, Profile, Rise, Sightlines, Stand, cuts_and_fills,
};
use crate::measure::{Arg, Message, NamedBearing, North, Point, Telling, TrueBearing, decimals_of};
use crate::words::date_told;

/// Contours are simplified by this share of the distance from post to post: below what the posts can show.
const TOLERANCE_SHARE: f64 = 0.1;

/// Most places of contours together, so that the file of them and all that carries it stay below 512 MB.
const MOST_PLACES: usize = 4_500_000;

/// Cuts and fills are told within this distance, metres. Common practice, no source.
const MADE_WITHIN_M: f64 = 1000.0;

/// What [`Engine::contours`] is asked.
pub(super) struct ContoursQuestion<'a> {
    pub(super) interval_m: Option<f64>,
    pub(super) interval_ft: Option<f64>,
    pub(super) svg: Option<bool>,
    pub(super) theme: Option<&'a str>,
}

impl ContoursQuestion<'_> {
    /// The unit in which contours are counted, and how many of it they lie apart: the sheet's own where nothing else is asked.
    fn interval(&self, of_sheet: HeightUnit) -> Result<(HeightUnit, f64), Refusal> {
        match (self.interval_m, self.interval_ft) {
            (Some(_), Some(_)) => Err(Refusal::plain("contour-interval-twice")),
            (Some(metres), None) => Ok((HeightUnit::Metres, understand::bounded("interval_m", metres, (0.1, 1000.0))?)),
            (None, Some(feet)) => Ok((HeightUnit::Feet, understand::bounded("interval_ft", feet, (0.5, 3000.0))?)),
            (None, None) => Ok((of_sheet, of_sheet.usual_interval())),
        }
    }
}

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
    pub(super) fn profile(&self, from: &str, to: &str, step_m: Option<f64>, eye_m: Option<f64>) -> Result<Done, Refusal> {
        let (trip, heights) = self.on_sheet()?;
        let doubts = [from, to].map(|place| questions::doubt_on(place, Some(&trip.sheet)));
        let typed = [from, to];
        let (from, to) = (trip.place(from)?, trip.place(to)?);
        let profile = heights.profile(from, to, step_m.unwrap_or(spacing_m(heights)?))?;
        let eye_m = eye_m.map(|eye_m| understand::bounded("eye_m", eye_m, (0.0, 100.0))).transpose()?;
        if profile.samples.iter().all(|one| one.height_m.is_none()) {
            return Err(Refusal::plain("profile-off-heights"));
        }
        let without = [from, to].into_iter().zip(typed).find(|(place, _)| heights.at_m(*place).is_none());
        if let Some((_, typed)) = without.filter(|_| eye_m.is_some()) {
            return Err(Refusal::named("profile-end-unknown", typed));
        }
        let seen = eye_m.map(|eye_m| dead(heights, from, to, eye_m)).transpose()?;
        let samples = profile.samples.iter().map(|one| AnswerSample { distance_m: one.distance_m, height_m: one.height_m });
        let answer = Answer::Profile {
            length_m: profile.length_m,
            climb_m: profile.climb_m,
            descent_m: profile.descent_m,
            steepest_deg: profile.steepest.map(|step| step.slope_deg),
            steepest_from_m: profile.steepest.map(|step| step.from_m),
            samples: AnswerSamples(samples.collect()),
            dead: seen.as_ref().map_or_else(Vec::new, |seen| stretches(&seen.stretches)),
            untold: seen.as_ref().map_or_else(Vec::new, |seen| stretches(&seen.untold)),
        };
        let mut told = profile_told(&profile);
        told.extend(seen.iter().flat_map(dead_told));
        told.extend(trip.ellipsoid_minded());
        told.extend(doubts.into_iter().flatten());
        Ok(Done::answered(self.told(&told), answer))
    }

    /// How the ground lies at a place.
    pub(super) fn ground_at(&mut self, when: Option<&String>, place: Option<&str>, to: Option<&str>) -> Result<Done, Refusal> {
        let to = to.map_or(Ok(North::True), understand::north)?;
        let date = if to == North::True { None } else { Some(self.time(when)?.date()) };
        let (trip, heights) = self.on_sheet()?;
        let at = place.map_or_else(|| trip.stood_at(), |place| trip.place(place))?;
        let post = heights.layout().post_of(at)?;
        let height_m = heights.at_post_m(post).ok_or_else(|| Refusal::plain("ground-unknown"))?;
        let footing = Footing::new(heights, at)?;
        let towards = (0..8_u8).map(|eighth| TrueBearing::new(45.0 * f64::from(eighth)));
        let ways: Vec<(TrueBearing, Option<Rise>)> = towards.map(|bearing| (bearing, footing.rise(post, bearing, Rise::USUAL_M))).collect();
        let rises: Vec<&Rise> = ways.iter().filter_map(|(_, rise)| rise.as_ref()).collect();
        let slope = heights.slope_at(at);
        let height = Message::new("ground-height-told")
            .text("place", trip.sheet.reference(at, 8))
            .with("height", Arg::Height(height_m, 0))
            .with("spread", Arg::Height(heights.spread().sigma_m, 1));
        let mut messages: Vec<Message> = std::iter::once(height).chain(trip.ellipsoid_minded()).collect();
        let underfoot = footing.aspect(post);
        messages.extend(underfoot.map(|aspect| aspect.message()));
        let is_told = |is_told: bool| if is_told { "told" } else { "untold" };
        if !rises.is_empty() {
            let on_the_way = |bearing: TrueBearing| footing.on_the_way_m(post, bearing, Rise::USUAL_M).map(on_the_way_told);
            messages.extend(
                ways.iter()
                    .flat_map(|(bearing, rise)| match rise {
                        Some(rise) => vec![Some(rise.message()), on_the_way(*bearing)],
                        None => vec![Some(rise_unknown(*bearing))],
                    })
                    .flatten(),
            );
        }
        if underfoot.is_none() || rises.is_empty() {
            let unknown = Message::new("ground-part-unknown").with("distance", Arg::Metres(Rise::USUAL_M));
            messages.push(unknown.text("slope", is_told(underfoot.is_some())).text("rises", is_told(!rises.is_empty())));
        }
        let made = made_near(trip, heights, at);
        if let Some(date) = date {
            let norths = trip.norths(date)?;
            let turned = Turned { norths: &norths, from: trip.sheet.frame.to_plane(at), to };
            messages = messages.into_iter().map(|message| turned.turned(message)).chain(date_told(&norths)).collect();
        }
        messages.extend(made.iter().map(|(line, one)| one.message().text("line", line.clone())));
        messages.extend(place.and_then(|place| questions::doubt_on(place, Some(&trip.sheet))));
        let aspect = slope.and_then(|slope| slope.aspect);
        let answer = Answer::Ground {
            mgrs: mgrs_of(at, DIGITS_FULL),
            height_m,
            height_spread_m: heights.spread().sigma_m,
            slope_deg: slope.map(|slope| slope.slope_deg),
            slope_spread_deg: slope.map(|slope| slope.spread_deg),
            falls_to_deg_true: aspect.map(|aspect| aspect.falls_to.degrees()),
            falls_to_spread_deg: aspect.map(|aspect| aspect.spread_deg),
            rises: rises.iter().copied().map(rise).collect(),
            cuts_and_fills: made.iter().map(|(line, one)| cut_or_fill(line, one)).collect(),
        };
        Ok(Done::answered(self.told(&messages), answer))
    }

    /// The contours of the sheet's heights as `GeoJSON`, and as a drawing when it is asked for.
    pub(super) fn contours(&self, asked: &ContoursQuestion<'_>) -> Result<Done, Refusal> {
        let (trip, heights) = self.on_sheet()?;
        let (unit, interval) = asked.interval(trip.sheet.height_unit())?;
        let interval_m = interval * unit.metres();
        let apart_m = (spacing_m(heights)?, spacing_m(heights)?);
        let (mut contours, mut places) = (Vec::new(), 0);
        heights.each_contour(Interval { interval_m, base_m: 0.0 }, &mut |whole| {
            if places <= MOST_PLACES {
                let simple = whole.simplified(TOLERANCE_SHARE * apart_m.0, apart_m);
                places += simple.posts.len();
                contours.push(simple);
            }
        })?;
        if places > MOST_PLACES {
            return Err(Refusal::new(Message::new("contours-too-fine").with("most", Arg::Count(MOST_PLACES as i64))));
        }
        let told = Message::new("contours-told").with("count", Arg::Count(contours.len() as i64)).text("unit", unit.word());
        let told = told.with("interval", Arg::Number(interval, decimals_of(interval)));
        let theme = draw::theme(asked.theme)?;
        let drawn = || draw::ground(trip, &self.words, draw::desk_size("ground"), Some((interval_m, unit))).map(|list| svg(&list, theme));
        let drawing = asked.svg.unwrap_or(false).then(drawn).transpose()?;
        let geojson = contours_geojson(&contours, heights, unit)?;
        let answer = Answer::Contours { geojson, count: show::small(contours.len()), interval_m, svg: drawing };
        Ok(Done::answered(self.told(&std::iter::once(told).chain(trip.ellipsoid_minded()).collect::<Vec<_>>()), answer))
    }
}

/// Metres from post to post, the greater of the two ways.
fn spacing_m(heights: &Heights) -> Result<f64, Refusal> {
    let (east_m, south_m) = heights.layout().spacing_in_middle_m()?;
    Ok(east_m.max(south_m))
}

/// Ground on the way that an eye at its beginning does not see.
fn dead(heights: &Heights, from: LatLon, to: LatLon, eye_m: f64) -> Result<DeadGround, Refusal> {
    let layout = heights.layout();
    let eye = Stand::at(layout.post_of(from)?, eye_m);
    let found = Sightlines::over(heights)?.dead_ground(eye, layout.post_of(to)?, 0.0);
    found.ok_or_else(|| Refusal::plain("ground-unknown"))
}

fn stretches(all: &[DeadStretch]) -> Vec<AnswerDead> {
    all.iter().map(|stretch| AnswerDead { from_m: stretch.from_m, to_m: stretch.to_m }).collect()
}

/// What the eye does not see, and of how much that cannot be told.
fn dead_told(seen: &DeadGround) -> Vec<Message> {
    let length_m = |all: &[DeadStretch]| all.iter().map(DeadStretch::length_m).sum();
    let first_m = |all: &[DeadStretch]| all.first().map_or(0.0, |stretch| stretch.from_m);
    let has_gap = !seen.untold.is_empty();
    let dead = Message::new("profile-dead")
        .with("count", Arg::Count(seen.stretches.len() as i64))
        .with("hidden", Arg::Metres(length_m(&seen.stretches)))
        .with("first", Arg::Metres(first_m(&seen.stretches)))
        .with("until", Arg::Metres(first_m(&seen.untold)))
        .text("gap", if has_gap { "yes" } else { "no" });
    let untold = Message::new("profile-untold")
        .with("length", Arg::Metres(length_m(&seen.untold)))
        .with("until", Arg::Metres(first_m(&seen.untold)));
    std::iter::once(dead).chain(has_gap.then_some(untold)).collect()
}

/// Cuts and fills near a place, with the names of their lines: of those that people laid out; none where the heights cannot show them.
fn made_near(trip: &Trip, heights: &Heights, at: LatLon) -> Vec<(String, CutOrFill)> {
    let sheet = &trip.sheet;
    let here = sheet.frame.to_plane(at);
    let away_m = |at: Point| at.minus(here).length_m();
    let mut found = Vec::new();
    for line in sheet.lines.iter().filter(|line| line.is_laid_out() && away_m(line.nearest(here).at) <= MADE_WITHIN_M) {
        let places: Vec<LatLon> = line.points().map(|point| sheet.to_earth(point)).collect();
        let made = cuts_and_fills(heights, &places).unwrap_or_default();
        let near = made.into_iter().filter(|one| away_m(sheet.frame.to_plane(one.at)) <= MADE_WITHIN_M);
        found.extend(near.map(|one| (line.name.clone(), one)));
    }
    found
}

fn cut_or_fill(line: &str, one: &CutOrFill) -> AnswerCutOrFill {
    AnswerCutOrFill {
        line: line.into(),
        kind: one.kind.word().into(),
        from_m: one.from_m,
        to_m: one.to_m,
        most_at_m: one.most_at_m,
        mgrs: mgrs_of(one.at, DIGITS_FULL),
        most_m: one.most_m,
        strength: one.strength,
    }
}

/// That nothing is known of the ground in one direction.
fn rise_unknown(bearing: TrueBearing) -> Message {
    let message = Message::new("ground-rise-unknown").with("bearing", Arg::Bearing(NamedBearing::True(bearing)));
    message.with("distance", Arg::Metres(Rise::USUAL_M))
}

/// What lies or stands between the ends of a way.
fn on_the_way_told(off_m: f64) -> Message {
    let told = Message::new("ground-way-told").text("side", if off_m < 0.0 { "below" } else { "above" });
    told.with("height", Arg::Height(off_m.abs(), 0))
}

fn rise(rise: &Rise) -> AnswerRise {
    AnswerRise { bearing_deg_true: rise.bearing.degrees(), distance_m: rise.distance_m, rise_m: rise.rise_m, rise_spread_m: rise.spread_m }
}

fn profile_told(profile: &Profile) -> Vec<Message> {
    let told = Message::new("profile-told")
        .with("length", Arg::Metres(profile.length_m))
        .with("climb", Arg::Height(profile.climb_m, 0))
        .with("descent", Arg::Height(profile.descent_m, 0));
    let steepest = profile.steepest.map(|step| {
        Message::new("profile-steepest")
            .text("way", if step.slope_deg < 0.0 { "down" } else { "up" })
            .with("slope", Arg::Degrees(step.slope_deg.abs(), 0))
            .with("from", Arg::Metres(step.from_m))
    });
    let unknown = profile.samples.iter().filter(|sample| sample.height_m.is_none()).count();
    let share = unknown as f64 / profile.samples.len().max(1) as f64;
    let gaps = (unknown > 0).then(|| Message::new("profile-gaps").with("length", Arg::Metres(profile.length_m * share)));
    std::iter::once(told).chain(steepest).chain(gaps).collect()
}
