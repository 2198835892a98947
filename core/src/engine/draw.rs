//! Charts of the state: the chart room draws, the words room letters.

use super::Refusal;
use super::state::Trip;
use crate::chart::{DisplayList, Drawn, Lettering, Relief, Size, Theme, Walk, fix_chart, ground_chart, open_chart, walk_chart};
use crate::earth::Norths;
use crate::fix::{Fix, OpenFix, Stretch};
use crate::ground::HeightUnit;
use crate::measure::{Arg, Message, NamedBearing, PLANE_95, Point, decimals_of};
use crate::sheet::{Line, Sheet};
use crate::travel::{Leg, LegEnd};
use crate::words::Words;

/// Size of a fix with its ruler, of a walk, and of the ground, at the desk.
pub(super) fn desk_size(of: &str) -> Size {
    match of {
        "fix" => Size::new(412.0, 330.0),
        "ground" => Size::new(824.0, 824.0),
        _ => Size::new(412.0, 380.0),
    }
}

/// The chart of the last fix, of the walk with the way back, or of the sheet with its ground.
pub(super) fn chart(trip: &Trip, of: &str, words: &Words, size: Size) -> Result<DisplayList, Refusal> {
    match of {
        "fix" => fix(trip, words, size).ok_or_else(|| Refusal::plain("fix-needed")),
        "walk" => walk(trip, words, size).ok_or_else(|| Refusal::plain("keep-needed")),
        "ground" => ground(trip, words, size, None),
        other => Err(Refusal::named("chart-unknown", other)),
    }
}

/// The theme of this name.
pub(super) fn theme(name: Option<&str>) -> Result<Theme, Refusal> {
    match name.map(|name| name.trim().to_lowercase()).as_deref() {
        None | Some("day") => Ok(Theme::Day),
        Some("night") => Ok(Theme::Night),
        Some("high") => Ok(Theme::High),
        Some(other) => Err(Refusal::named("theme-unknown", other)),
    }
}

fn fix(trip: &Trip, words: &Words, size: Size) -> Option<DisplayList> {
    if let Some(taken) = trip.open.as_deref() {
        let letters = Letters { words, sheet: &trip.sheet, car: "" };
        let north_deg = grid_north_deg(&trip.sheet, &taken.norths, taken.fix.at);
        let read: Vec<(String, NamedBearing)> = taken.told.iter().filter_map(|one| Some((one.of.clone(), one.read?))).collect();
        let drawn = Drawn { sheet: &trip.sheet, relief: relief(trip, None), grid_north_deg: north_deg };
        return Some(open_chart(&drawn, &taken.fix, &read, &letters, size));
    }
    let taken = trip.fix.as_ref()?;
    let line = trip.sheet.lines.get(*taken.lines.get(taken.fix.best()?.line)?)?;
    let best = taken.fix.stretches.first().map_or(Point::default(), |stretch| stretch.best.at);
    let letters = Letters { words, sheet: &trip.sheet, car: "" };
    let north_deg = grid_north_deg(&trip.sheet, &taken.norths, best);
    let drawn = Drawn { sheet: &trip.sheet, relief: relief(trip, None), grid_north_deg: north_deg };
    Some(fix_chart(&drawn, line, &taken.fix, &letters, size))
}

/// The sheet over its ground. Without a date the true north of the sheet's middle stands for grid north's convergence.
pub(super) fn ground(trip: &Trip, words: &Words, size: Size, apart: Option<(f64, HeightUnit)>) -> Result<DisplayList, Refusal> {
    trip.heights()?;
    let relief = relief(trip, apart).ok_or_else(|| Refusal::plain("heights-needed"))?;
    let convergence_deg = trip.sheet.grid.factors(trip.sheet.frame.origin())?.convergence_deg;
    let letters = Letters { words, sheet: &trip.sheet, car: "" };
    Ok(ground_chart(&trip.sheet, &relief, convergence_deg, &letters, size))
}

/// The heights as a chart draws them, with contours so many metres apart and counted in a unit where that was asked for.
fn relief(trip: &Trip, apart: Option<(f64, HeightUnit)>) -> Option<Relief<'_>> {
    let unit = apart.map_or_else(|| trip.sheet.height_unit(), |(_, unit)| unit);
    trip.ground.as_ref().map(|ground| Relief { heights: &ground.heights, unit, interval_m: apart.map(|(interval_m, _)| interval_m) })
}

/// On the way back only what is left of the log is drawn, up to the present place.
fn walk(trip: &Trip, words: &Words, size: Size) -> Option<DisplayList> {
    let (car, out, mut way) = trip.way_back()?;
    let (_, walked, _) = trip.here()?;
    let done = trip.back.unwrap_or(0).min(trip.legs.len());
    let left = trip.legs.len() - done;
    let legs: Vec<Leg> = trip.legs.iter().take(left).map(|(_, leg)| leg.clone()).collect();
    let mut ends: Vec<LegEnd> = out.ends.iter().take(left).copied().collect();
    if let Some(last) = ends.last_mut() {
        last.covariance = walked.covariance();
    }
    way.legs.drain(..done.min(way.legs.len()));
    // With all of the log walked back one stands where it leads: at the car, off by what was walked.
    let car_covariance = if ends.is_empty() { car.covariance.plus(walked.covariance()) } else { car.covariance };
    let walk = Walk { car: car.point, car_covariance, ends: &ends, legs: &legs, way: (!legs.is_empty()).then_some(&way) };
    let letters = Letters { words, sheet: &trip.sheet, car: &car.name };
    let north_deg = grid_north_deg(&trip.sheet, &car.norths, walk.end());
    let drawn = Drawn { sheet: &trip.sheet, relief: relief(trip, None), grid_north_deg: north_deg };
    Some(walk_chart(&drawn, &walk, &letters, size))
}

/// Bearing of grid north in the sheet's plane at a point, degrees.
fn grid_north_deg(sheet: &Sheet, norths: &Norths, at: Point) -> f64 {
    norths.diagram(at).convergence_deg - sheet.frame.true_minus_plane_deg(at)
}

/// The lettering of charts in the words of the sheet.
struct Letters<'a> {
    words: &'a Words,
    sheet: &'a Sheet,
    car: &'a str,
}

impl Letters<'_> {
    fn reference(&self, at: Point) -> String {
        self.sheet.reference(self.sheet.to_earth(at), 8)
    }
}

impl Lettering for Letters<'_> {
    fn share(&self, share: f64) -> String {
        self.words.share(share)
    }

    fn metres(&self, metres: f64) -> String {
        self.words.metres_or_kilometres(metres)
    }

    fn plus_minus(&self, metres: f64) -> String {
        self.words.say(&Message::new("chart-plus-minus").with("spread", Arg::Metres(metres)))
    }

    fn bearing(&self, bearing: NamedBearing) -> String {
        self.words.bearing(bearing)
    }

    fn height(&self, height: f64, unit: HeightUnit) -> String {
        let unit = if unit == self.sheet.height_unit() { "own" } else { unit.word() };
        self.words.say(&Message::new("chart-height").with("height", Arg::Number(height, decimals_of(height))).text("unit", unit))
    }

    fn interval(&self, interval: f64, unit: HeightUnit) -> String {
        let message = Message::new("chart-interval").with("interval", Arg::Number(interval, decimals_of(interval)));
        self.words.say(&message.text("unit", unit.word()))
    }

    fn no_heights(&self) -> String {
        self.words.say(&Message::new("chart-no-heights"))
    }

    fn grid_north(&self) -> String {
        self.words.say(&Message::new("chart-grid-north"))
    }

    fn car(&self) -> String {
        self.car.to_owned()
    }

    fn spoken_fix(&self, line: &Line, fix: &Fix) -> String {
        let best = fix.stretches.first();
        let message = Message::new("chart-fix-spoken")
            .text("line", line.name.clone())
            .with("count", Arg::Count(fix.stretches.len() as i64))
            .with("share", Arg::Share(best.map_or(0.0, |stretch| stretch.share)))
            .text("reference", best.map_or_else(String::new, |stretch| self.reference(stretch.best.at)));
        self.words.say(&message)
    }

    fn spoken_stretch(&self, _line: &Line, stretch: &Stretch) -> String {
        let message = Message::new("chart-stretch-spoken")
            .with("share", Arg::Share(stretch.share))
            .text("reference", self.reference(stretch.best.at))
            .with("spread", Arg::Metres(stretch.half_width_95_m()));
        self.words.say(&message)
    }

    fn spoken_open_fix(&self, fix: &OpenFix) -> String {
        let places = fix.places();
        let (best, covariance) = places.first().copied().unwrap_or_default();
        let message = Message::new("chart-open-spoken")
            .with("count", Arg::Count(places.len() as i64))
            .text("reference", self.reference(best))
            .with("major", Arg::Metres(PLANE_95 * covariance.ellipse().major_m));
        self.words.say(&message)
    }

    fn spoken_walk(&self, walk: &Walk<'_>) -> String {
        let message = Message::new("chart-walk-spoken")
            .with("legs", Arg::Count(walk.legs.len() as i64))
            .text("car", self.car)
            .with("major", Arg::Metres(PLANE_95 * walk.covariance().ellipse().major_m));
        self.words.say(&message)
    }

    fn spoken_ground(&self, interval: f64, unit: HeightUnit) -> String {
        let message = Message::new("chart-ground-spoken").text("name", self.sheet.name.clone());
        self.words.say(&message.with("interval", Arg::Number(interval, decimals_of(interval))).text("unit", unit.word()))
    }

    fn spoken_turn(&self, walk: &Walk<'_>, number: usize) -> String {
        let leg = number.checked_sub(1).and_then(|index| walk.legs.get(index));
        let met = leg.and_then(|leg| leg.met.clone());
        let message = Message::new("chart-turn-spoken")
            .with("number", Arg::Count(number as i64))
            .text("has-met", if met.is_some() { "yes" } else { "no" })
            .text("met", met.unwrap_or_default());
        self.words.say(&message)
    }
}
