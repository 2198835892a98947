//! The way from one place to another.

use super::declination::Declination;
use super::grids::{Asked, counted_grid, named_grid};
use super::norths::printed_there;
use super::{Answer, Answered, Refusal};
use crate::earth::{
    DecimalYear, LatLon, PlaceReading, PrintedNorths, Terms, geodesic_between, geodesic_from, read_place, reduced_length_m,
};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, NorthDiagram, TrueBearing, signed_difference_deg};

/// What [`answer_between`] is asked.
pub(super) struct BetweenQuestion<'a> {
    pub(super) from: &'a str,
    pub(super) to: &'a str,
    pub(super) grid: Option<&'a String>,
    pub(super) date: Option<&'a String>,
    pub(super) sheet: &'a Terms<'a>,
    /// The diagram that the sheet prints, for a way that begins on it.
    pub(super) of_sheet: Option<&'a PrintedNorths>,
}

/// Nearer than this two places are one, metres.
const SAME_PLACE_M: f64 = 1e-3;
/// Beyond this latitude, a kilometre from the pole, a bearing changes by a degree within 20 m.
const NEAR_POLE_DEG: f64 = 89.99;
/// Farther than this the shortest way begins to lead over the far side of the earth, metres; half of it is 20,004 km.
const FAR_SIDE_M: f64 = 19_900_000.0;
/// A place typed to all figures is still off by so much, metres: what a bearing turns about within is not determined.
const LEAST_OFF_M: f64 = 1.0;
/// A bearing that turns farther than this within what the places may be off is not determined, degrees (our choice).
const MOST_TURNED_DEG: f64 = 30.0;
/// One sigma of a bearing that may be any.
const ANY_BEARING_DEG: f64 = 103.9;

/// What a sentence can show, degrees and metres.
const LEAST_TOLD_DEG: f64 = 0.05;
const LEAST_TOLD_M: f64 = 0.5;

/// The shortest way between two places as they were written.
struct Way {
    ends: [PlaceReading; 2],
    distance_m: f64,
    /// How far its end moves aside for a small turn at its beginning, metres per radian.
    reduced_m: f64,
    leaves: TrueBearing,
    arrives: TrueBearing,
    /// One sigma of the distance, and of what one end is moved aside, metres.
    spread_m: f64,
    bearing_spread_deg: f64,
    /// Another bearing on which a way as short may leave, where none is determined.
    or_on: Option<TrueBearing>,
}

impl Way {
    fn between(from: PlaceReading, to: PlaceReading) -> Self {
        let (distance_m, leaves, arrives) = geodesic_between(from.at, to.at);
        let spread_m = from.spread_m().hypot(to.spread_m());
        let reduced_m = reduced_length_m(from.at, to.at);
        let bearing_spread_deg = spread_m.atan2(reduced_m).to_degrees();
        let mut way = Self { ends: [from, to], distance_m, reduced_m, leaves, arrives, spread_m, bearing_spread_deg, or_on: None };
        way.or_on = way.other_bearing();
        if way.or_on.is_some() {
            way.bearing_spread_deg = ANY_BEARING_DEG;
        }
        way
    }

    fn is_one_place(&self) -> bool {
        self.distance_m < SAME_PLACE_M
    }

    /// Nearer than the places are known: they may lie either way.
    fn is_too_near(&self) -> bool {
        !self.is_one_place() && self.distance_m < LINE_95 * self.spread_m
    }

    fn spread_told(&self) -> Option<Message> {
        // Near places: what one end moves aside is the sine of the turn, not its arc.
        let distance_m = LINE_95 * self.spread_m;
        let near_deg = (distance_m / self.distance_m).min(1.0).asin().to_degrees();
        let bearing_deg = near_deg.max(LINE_95 * self.bearing_spread_deg);
        let worth = distance_m >= LEAST_TOLD_M || bearing_deg >= LEAST_TOLD_DEG || self.is_far();
        (worth && !self.is_one_place() && !self.is_too_near() && self.or_on.is_none()).then(|| {
            let message = Message::new("between-spread").with("distance", short(distance_m));
            message.with("bearing", Arg::Turn(bearing_deg, if bearing_deg < LEAST_TOLD_DEG { 3 } else { 1 }))
        })
    }

    /// The bearing of the shortest way with the farther end moved by what it may be off, where that is no bearing near the one told.
    fn other_bearing(&self) -> Option<TrueBearing> {
        let [from, to] = self.ends.map(|end| end.at);
        let off_m = (LINE_95 * self.spread_m).max(LEAST_OFF_M);
        let moved = |side: f64| geodesic_between(from, geodesic_from(to, TrueBearing::new(side), off_m).0).1;
        let away_deg = |bearing: TrueBearing| signed_difference_deg(bearing.degrees(), self.leaves.degrees()).abs();
        let others = [0.0, 90.0, 180.0, 270.0].map(moved);
        others.into_iter().filter(|_| self.is_far()).find(|other| away_deg(*other) > MOST_TURNED_DEG)
    }

    fn is_far(&self) -> bool {
        self.distance_m > FAR_SIDE_M
    }

    /// Where a bearing says little, wherever the places are known to.
    fn cautions(&self) -> impl Iterator<Item = Message> {
        let at_pole = self.ends.iter().any(|end| end.at.lat_deg().abs() > NEAR_POLE_DEG);
        let turned_m = self.reduced_m * 1f64.to_radians().sin();
        let [from, to] = self.ends.map(|end| end.at);
        let apart_m = geodesic_between(opposite(from), to).0;
        let opposite = Message::new("between-antipodes").with("apart", short(apart_m)).with("off", short(turned_m));
        let pole = at_pole.then(|| Message::new("between-pole"));
        pole.into_iter().chain((self.is_far() && self.or_on.is_none()).then_some(opposite))
    }
}

/// The point on the other side of the earth.
fn opposite(at: LatLon) -> LatLon {
    LatLon::computed(-at.lat_deg(), at.lon_deg() + if at.lon_deg() > 0.0 { -180.0 } else { 180.0 })
}

/// Distance and bearings from one place to another.
pub(super) fn answer_between(asked: &BetweenQuestion) -> Answered {
    let named = named_grid(asked.grid)?;
    let by = Asked { named: named.as_ref(), sheet: asked.sheet };
    let terms = by.terms();
    let way = Way::between(read_place(asked.from, &terms)?, read_place(asked.to, &terms)?);
    let [from, _] = way.ends;
    let grid = by.grid_at(&from, counted_grid);
    let convergence_deg = grid.factors(from.at)?.convergence_deg;
    let printed = (printed_there(asked.of_sheet, asked.sheet, from.at), convergence_deg);
    let declination = asked.date.map(|date| declination_on(from.at, date, printed)).transpose()?;
    let diagram = NorthDiagram {
        declination_deg: declination.as_ref().map_or(0.0, |declination| declination.deg),
        declination_spread_deg: declination.as_ref().map_or(0.0, |declination| declination.spread_deg),
        convergence_deg,
        year: declination.as_ref().map(|declination| declination.year.years()),
        ..NorthDiagram::default()
    };
    let answer = Answer::Between {
        distance_m: way.distance_m,
        distance_spread_m: way.spread_m,
        bearing_spread_deg: way.bearing_spread_deg,
        bearing_deg_true: way.leaves.degrees(),
        arrival_deg_true: way.arrives.degrees(),
        back_deg_true: way.arrives.back().degrees(),
        bearing_deg_grid: diagram.true_to_grid(way.leaves).degrees(),
        bearing_deg_mag: declination.as_ref().map(|_| diagram.true_to_magnetic(way.leaves).degrees()),
        grid_name: grid.name().into(),
    };
    let cautions: Vec<Message> =
        declination.as_ref().zip(asked.date).into_iter().flat_map(|(declination, date)| declination.minded(date.trim())).collect();
    let told = way_told(&way, (&diagram, grid.name()), declination.is_some());
    let mut all = vec![told];
    all.extend(way.spread_told().into_iter().chain(way.cautions()));
    all.extend(declination.filter(|_| !way.is_one_place() && !way.is_too_near() && way.or_on.is_none()).map(|declination| {
        let by = if declination.field.is_some() { "model" } else { "diagram" };
        let message = Message::new("between-magnetic").with("spread", Arg::Turn(LINE_95 * declination.spread_deg, 1));
        message.text("by", by)
    }));
    for end in &way.ends {
        // The grid bearing counts where the way begins: how far the zone of the other end lies is of no matter.
        let is_end = end.at != from.at;
        let matters = |new: &Message| !(is_end && new.id == "place-outside-zone") && all.iter().all(|told| told.id != new.id);
        let new: Vec<Message> = by.cautions(end, &grid).into_iter().filter(matters).collect();
        all.extend(new);
    }
    all.extend(cautions);
    Ok((answer, all))
}

fn declination_on(at: LatLon, date: &str, printed: (Option<&PrintedNorths>, f64)) -> Result<Declination, Refusal> {
    Ok(Declination::at((at, 0.0), DecimalYear::parse(date)?, printed)?)
}

fn way_told(way: &Way, (diagram, grid): (&NorthDiagram, &str), has_magnetic: bool) -> Message {
    if way.is_one_place() {
        return Message::new("between-same").with("spread", short(LINE_95 * way.spread_m));
    }
    if way.is_too_near() {
        let spread = short(LINE_95 * way.spread_m);
        return Message::new("between-too-near").with("distance", short(way.distance_m)).with("spread", spread);
    }
    if let Some(other) = way.or_on {
        let bearing = |bearing| Arg::Bearing(NamedBearing::True(bearing));
        let message = Message::new("between-undetermined").with("distance", short(way.distance_m));
        return message.with("one", bearing(way.leaves)).with("other", bearing(other));
    }
    Message::new("between-told")
        .with("distance", short(way.distance_m))
        .with("true", Arg::Bearing(NamedBearing::True(way.leaves)))
        .with("grid", Arg::Bearing(NamedBearing::Grid(diagram.true_to_grid(way.leaves))))
        .text("named", grid)
        .text("has-magnetic", if has_magnetic { "yes" } else { "no" })
        .with("magnetic", Arg::Bearing(NamedBearing::Magnetic(diagram.true_to_magnetic(way.leaves))))
        .with("back", Arg::Bearing(NamedBearing::True(way.arrives.back())))
}

/// Metres, to the centimetre where whole ones would say little or nothing.
fn short(metres: f64) -> Arg {
    if metres < 9.995 { Arg::Text(format!("{metres:.2}\u{a0}m")) } else { Arg::Metres(metres) }
}
