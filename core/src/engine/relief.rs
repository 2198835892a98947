//! Questions about the heights of the sheet: the ground at a place, the contours.

use super::answer::{Answer, AnswerCutOrFill, AnswerRise};
use super::commands::Done;
use super::ground::Turned;
use super::state::Trip;
use super::{Engine, Refusal, draw, questions, show, understand};
use crate::chart::svg;
use crate::earth::{DIGITS_FULL, LatLon, mgrs_of, read_place};
use crate::exchange::contours_geojson;
use crate::ground::{CutOrFill, Footing, HeightUnit, Heights, Interval, Rise, cuts_and_fills};
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
    pub(super) fn place(&self, text: &str) -> Result<LatLon, Refusal> {
        Ok(read_place(text, &self.sheet.terms())?.at)
    }
}

impl Engine {
    pub(super) fn on_sheet(&self) -> Result<(&Trip, &Heights), Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        let heights: &Heights = &trip.heights()?.heights;
        Ok((trip, heights))
    }

    pub(super) fn told(&self, messages: &[Message]) -> Vec<String> {
        messages.iter().map(|message| self.words.say(message)).collect()
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
        let minded = contours_minded(trip, heights, interval_m, asked.svg.unwrap_or(false));
        let all: Vec<Message> = std::iter::once(told).chain(minded).chain(trip.ellipsoid_minded()).collect();
        Ok(Done::answered(self.told(&all), answer))
    }
}

/// What to mind of contours: an interval finer than the heights carry, and ground without heights.
fn contours_minded(trip: &Trip, heights: &Heights, interval_m: f64, is_drawn: bool) -> Vec<Message> {
    let (least_m, sigma_m) = (Interval::least_m(heights.spread()), heights.spread().sigma_m);
    let fine = (interval_m < least_m)
        .then(|| Message::new("contours-fine").with("spread", Arg::Height(sigma_m, 1)).with("least", Arg::Height(least_m.ceil(), 0)));
    let share = heights.share_without(&trip.sheet.bounds(0.0));
    let drawn = if is_drawn { "yes" } else { "no" };
    let blank = (share > 0.0).then(|| Message::new("contours-blank").with("share", Arg::Share(share)).text("drawn", drawn));
    fine.into_iter().chain(blank).collect()
}

/// Metres from post to post, the greater of the two ways.
pub(super) fn spacing_m(heights: &Heights) -> Result<f64, Refusal> {
    let (east_m, south_m) = heights.layout().spacing_in_middle_m()?;
    Ok(east_m.max(south_m))
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
