//! Questions that touch no logbook: norths, places, bearings, legs in the plane.

use serde::Serialize;

use super::Refusal;
use super::record::{LegRecord, Record};
use super::understand;
use crate::earth::{Caution, DIGITS_FULL, Grid, Instant, LatLon, PlaceReading, date_of, light_from, magnetic_field, mgrs_of, read_place};
use crate::homeward::reversed_log;
use crate::measure::{Arg, Message, NamedBearing, North, NorthDiagram, Point};
use crate::travel::{DEFAULT_DOUBLE_PACES_PER_100_M, Leg, Pace, PaceKind, Side, WalkSpreads, reckon};

/// The answer to a question, with the unit in each name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name; the schema is in DEVELOPERS.md")]
pub enum Answer {
    /// To `norths`.
    Norths {
        lat_deg: f64,
        lon_deg: f64,
        declination_deg: f64,
        declination_spread_deg: f64,
        inclination_deg: f64,
        horizontal_nt: f64,
        total_nt: f64,
        convergence_deg: f64,
        grid_magnetic_deg: f64,
        grid_name: String,
    },
    /// To `light`.
    Light { sunset_unix_ms: Option<i64>, dark_unix_ms: Option<i64> },
    /// To `place`.
    Place {
        lat_deg: f64,
        lon_deg: f64,
        mgrs: String,
        grid_name: String,
        easting_m: f64,
        northing_m: f64,
        convergence_deg: f64,
        scale: f64,
        square_m: f64,
    },
    /// To `turn`.
    Turn { bearing_deg: f64, north: String, back_deg: f64, grid_magnetic_deg: f64 },
    /// To `reckon`.
    Reckon {
        east_m: f64,
        north_m: f64,
        direct_m: f64,
        direct_bearing_deg_grid: f64,
        home_bearing_deg_grid: f64,
        walked_m: f64,
        axis_major_m: f64,
        axis_minor_m: f64,
        back: Vec<AnswerBackLeg>,
        closes_m: f64,
    },
    /// To `chart`: the drawing as SVG.
    Chart { svg: String },
}

/// A leg of the way back in [`Answer::Reckon`].
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerBackLeg {
    pub bearing_deg_grid: f64,
    pub bearing_deg_mag: f64,
    pub metres: f64,
    pub detour_side: Option<String>,
}

/// A question's answer and the messages that tell it.
pub(super) type Answered = Result<(Answer, Vec<Message>), Refusal>;

/// Answers a question.
#[allow(clippy::wildcard_enum_match_arm, reason = "every other record is a command and does not come here")]
pub(super) fn answer(record: &Record) -> Answered {
    match record {
        Record::Norths { place, date, height_m, grid } => answer_norths(place, date, *height_m, grid.as_ref()),
        Record::Light { at, place } => answer_light(place, understand::instant(at.as_ref())?),
        Record::Place { place, digits, grid } => answer_place(place, *digits, grid.as_ref()),
        Record::Turn { bearing, to, declination_deg, convergence_deg } => answer_turn(bearing, to, *declination_deg, *convergence_deg),
        Record::Reckon {
            legs,
            double_paces_per_100_m,
            declination_deg,
            convergence_deg,
            leg_bearing_spread_deg,
            leg_distance_spread_percent,
            shared_bearing_spread_deg,
            shared_distance_spread_percent,
        } => reckon_legs(&ReckonQuestion {
            legs,
            double_paces_per_100_m: *double_paces_per_100_m,
            declination_deg: *declination_deg,
            convergence_deg: *convergence_deg,
            spreads: WalkSpreads {
                leg_bearing_deg: *leg_bearing_spread_deg,
                leg_distance_share: leg_distance_spread_percent / 100.0,
                shared_bearing_deg: *shared_bearing_spread_deg,
                shared_distance_share: shared_distance_spread_percent / 100.0,
            },
        }),
        _ => Err(Refusal::plain("internal")),
    }
}

fn place_of(text: &str) -> Result<PlaceReading, Refusal> {
    Ok(read_place(text, None)?)
}

fn grid_of(named: Option<&String>, at: LatLon) -> Result<Grid, Refusal> {
    named.map_or_else(|| Ok(Grid::of_place(at)), |name| Ok(Grid::named(name)?))
}

/// The three norths at a place.
fn answer_norths(place: &str, date: &str, height_m: Option<f64>, grid: Option<&String>) -> Answered {
    let at = place_of(place)?.at;
    let height_m = understand::bounded("height_m", height_m.unwrap_or(0.0), (-1_000.0, 850_000.0))?;
    let field = magnetic_field(at, height_m, date_of(date)?)?;
    let grid = grid_of(grid, at)?;
    let convergence_deg = grid.factors(at)?.convergence_deg;
    let answer = Answer::Norths {
        lat_deg: at.lat_deg(),
        lon_deg: at.lon_deg(),
        declination_deg: field.declination_deg,
        declination_spread_deg: field.declination_spread_deg,
        inclination_deg: field.inclination_deg,
        horizontal_nt: field.horizontal_nt,
        total_nt: field.total_nt,
        convergence_deg,
        grid_magnetic_deg: field.declination_deg - convergence_deg,
        grid_name: grid.name().into(),
    };
    let told = Message::new("norths-told")
        .with("declination", Arg::Degrees(field.declination_deg, 2))
        .with("spread", Arg::Degrees(crate::measure::LINE_95 * field.declination_spread_deg, 1))
        .with("convergence", Arg::Degrees(convergence_deg, 2))
        .text("grid", grid.name())
        .with("angle", Arg::Degrees(field.declination_deg - convergence_deg, 2));
    let caution = field.caution.map(|caution| match caution {
        Caution::Blackout => Message::new("caution-blackout"),
        Caution::Weak => Message::new("caution-weak-field"),
    });
    Ok((answer, std::iter::once(told).chain(caution).collect()))
}

/// The light that is left at a place.
fn answer_light(place: &str, from: Instant) -> Answered {
    let light = light_from(place_of(place)?.at, from);
    let [sunset_unix_ms, dark_unix_ms] = [light.sunset, light.dark].map(|time| time.map(Instant::unix_ms));
    let told = Message::new("light-told")
        .text("has-sunset", if sunset_unix_ms.is_some() { "yes" } else { "no" })
        .with("sunset", Arg::Time(sunset_unix_ms.unwrap_or_default()))
        .text("has-dark", if dark_unix_ms.is_some() { "yes" } else { "no" })
        .with("dark", Arg::Time(dark_unix_ms.unwrap_or_default()));
    Ok((Answer::Light { sunset_unix_ms, dark_unix_ms }, vec![told]))
}

/// A place in other terms.
fn answer_place(text: &str, digits: Option<u8>, grid: Option<&String>) -> Answered {
    let reading = place_of(text)?;
    let digits = digits.unwrap_or(DIGITS_FULL);
    if ![2, 4, 6, 8, 10].contains(&digits) {
        return Err(Refusal::plain("digits-unreadable"));
    }
    let grid = grid_of(grid, reading.at)?;
    let (at, factors) = (grid.project(reading.at)?, grid.factors(reading.at)?);
    let mgrs = mgrs_of(reading.at, digits);
    let told = Message::new("place-told")
        .text("reference", crate::earth::spaced(&mgrs))
        .with("lat", Arg::Number(reading.at.lat_deg(), 6))
        .with("lon", Arg::Number(reading.at.lon_deg(), 6))
        .text("grid", grid.name())
        .with("east", Arg::Number(at.east_m, 1))
        .with("north", Arg::Number(at.north_m, 1));
    let answer = Answer::Place {
        lat_deg: reading.at.lat_deg(),
        lon_deg: reading.at.lon_deg(),
        mgrs,
        grid_name: grid.name().into(),
        easting_m: at.east_m,
        northing_m: at.north_m,
        convergence_deg: factors.convergence_deg,
        scale: factors.scale,
        square_m: reading.square_m,
    };
    Ok((answer, vec![told]))
}

/// A bearing from another north.
fn answer_turn(bearing: &str, to: &str, declination_deg: f64, convergence_deg: f64) -> Answered {
    let diagram = diagram(declination_deg, convergence_deg)?;
    let (from, to_north) = (NamedBearing::parse(bearing)?, understand::north(to)?);
    let turned = diagram.turn(from, to_north);
    let told = Message::new("turn-told")
        .with("from", Arg::Bearing(from))
        .with("bearing", Arg::Bearing(turned))
        .with("back", Arg::Bearing(turned.back()))
        .with("angle", Arg::Degrees(diagram.grid_magnetic_deg(), 2));
    let answer = Answer::Turn {
        bearing_deg: turned.degrees(),
        north: to.trim().to_lowercase(),
        back_deg: turned.back().degrees(),
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
    };
    Ok((answer, vec![told]))
}

fn diagram(declination_deg: f64, convergence_deg: f64) -> Result<NorthDiagram, Refusal> {
    Ok(NorthDiagram {
        declination_deg: understand::bounded("declination_deg", declination_deg, (-180.0, 180.0))?,
        declination_spread_deg: 0.0,
        convergence_deg: understand::bounded("convergence_deg", convergence_deg, (-180.0, 180.0))?,
    })
}

/// What [`reckon_legs`] is asked.
struct ReckonQuestion<'a> {
    legs: &'a [LegRecord],
    double_paces_per_100_m: Option<f64>,
    declination_deg: f64,
    convergence_deg: f64,
    spreads: WalkSpreads,
}

/// Legs reckoned in the plane of the grid.
fn reckon_legs(asked: &ReckonQuestion) -> Answered {
    let diagram = diagram(asked.declination_deg, asked.convergence_deg)?;
    let per_100_m = asked.double_paces_per_100_m.unwrap_or(DEFAULT_DOUBLE_PACES_PER_100_M);
    let pace = Pace::measured(per_100_m, PaceKind::Double, None)?;
    let legs: Result<Vec<Leg>, Refusal> = asked.legs.iter().map(understand::leg).collect();
    let legs = legs?;
    if legs.is_empty() {
        return Err(Refusal::plain("leg-needed"));
    }
    let spreads = checked_spreads(asked.spreads)?;
    let walk = reckon(Point::default(), &legs, &pace, &diagram, &spreads);
    let way = reversed_log(&legs, &walk, &pace, &diagram, &spreads);
    let (end, ellipse) = (walk.end(), walk.covariance().ellipse());
    let back = way.legs.iter().map(|leg| AnswerBackLeg {
        bearing_deg_grid: leg.grid.degrees(),
        bearing_deg_mag: leg.magnetic.degrees(),
        metres: leg.metres,
        detour_side: leg.detour.map(|(side, _)| if side == Side::Left { "left".into() } else { "right".into() }),
    });
    let told = Message::new("reckon-told")
        .with("legs", Arg::Count(legs.len() as i64))
        .with("walked", Arg::Metres(walk.walked_m))
        .with("direct", Arg::Metres(end.length_m()))
        .with("bearing", Arg::Bearing(NamedBearing::new(end.bearing_deg(), North::Grid)))
        .with("spread", Arg::Metres(crate::measure::PLANE_95 * ellipse.major_m));
    let answer = Answer::Reckon {
        east_m: end.east_m,
        north_m: end.north_m,
        direct_m: end.length_m(),
        direct_bearing_deg_grid: end.bearing_deg(),
        home_bearing_deg_grid: end.times(-1.0).bearing_deg(),
        walked_m: walk.walked_m,
        axis_major_m: ellipse.major_m,
        axis_minor_m: ellipse.minor_m,
        back: back.collect(),
        closes_m: way.closes_m,
    };
    Ok((answer, vec![told]))
}

fn checked_spreads(spreads: WalkSpreads) -> Result<WalkSpreads, Refusal> {
    understand::bounded("leg_bearing_spread_deg", spreads.leg_bearing_deg, (0.0, 90.0))?;
    understand::bounded("leg_distance_spread_percent", spreads.leg_distance_share, (0.0, 1.0))?;
    understand::bounded("shared_bearing_spread_deg", spreads.shared_bearing_deg, (0.0, 90.0))?;
    understand::bounded("shared_distance_spread_percent", spreads.shared_distance_share, (0.0, 1.0))?;
    Ok(spreads)
}
