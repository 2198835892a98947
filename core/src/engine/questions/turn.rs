//! Bearings from one north to another, through the diagram of a place and a date.

use super::declination::Declination;
use super::grids::{Asked, counted_grid, named_grid};
use super::norths::printed_there;
use super::{Answer, Answered, Refusal, angle_typed, understand};
use crate::earth::{DecimalYear, LatLon, PrintedNorths, Terms, read_place};
use crate::engine::record::TurnRecord;
use crate::measure::{AngleUnit, LINE_95, Message, NamedBearing, North, NorthDiagram};
use crate::words::Words;

/// What [`answer_turn`] is asked.
pub(super) struct TurnQuestion<'a> {
    pub(super) turn: &'a TurnRecord,
    pub(super) sheet: &'a Terms<'a>,
    /// The diagram that the sheet prints, for places on it.
    pub(super) of_sheet: Option<&'a PrintedNorths>,
}

/// An angle between two norths, and one sigma of it where that is known, degrees.
#[derive(Clone, Copy)]
struct Angle {
    deg: f64,
    spread_deg: Option<f64>,
}

/// What a place tells of the norths there.
struct There {
    at: LatLon,
    /// The name of the grid whose north is meant.
    grid: String,
    convergence_deg: f64,
    minded: Vec<Message>,
}

/// A bearing that was turned, and through what.
struct Turned {
    from: NamedBearing,
    into: NamedBearing,
    diagram: NorthDiagram,
    declination: Option<Angle>,
    convergence: Option<Angle>,
    /// One sigma of the bearing as it was read, degrees.
    read_deg: Option<f64>,
}

/// A bearing from another north, written in a unit.
pub(super) fn answer_turn(asked: &TurnQuestion) -> Answered {
    let turn = asked.turn;
    let (from, to) = (NamedBearing::parse(&turn.bearing)?, understand::north(&turn.to)?);
    let unit = understand::unit(turn.unit.as_deref())?;
    let year = turn.date.as_deref().map(DecimalYear::parse).transpose()?;
    let there = asked.there()?;
    let asks_model = crosses(North::Magnetic, from, to) && turn.declination_deg.is_none();
    let by_place = there.as_ref().zip(year).filter(|_| asks_model).map(|(there, year)| asked.declination_at(there, year)).transpose()?;
    let (declination, convergence) = (asked.declination(by_place.as_ref())?, asked.convergence(there.as_ref())?);
    needed((from, to), declination.is_some(), convergence.is_some())?;
    let diagram = diagram(declination, convergence, year);
    let read_deg = spread("spread_deg", turn.spread_deg)?;
    let turned = Turned { from, into: diagram.turn(from, to), diagram, declination, convergence, read_deg };
    let date = turn.date.as_deref().unwrap_or_default().trim();
    let words = Words::english();
    let by = by_place.as_ref().map(|declination| by_told(declination, date, unit, &words));
    let asks_grid = crosses(North::Grid, from, to) && turn.convergence_deg.is_none();
    let by_grid = there.as_ref().filter(|_| asks_grid).map(|there| there.grid_told(unit, &words));
    let minded = by_place.iter().flat_map(|declination| declination.minded(date));
    let minded = minded.chain(there.into_iter().flat_map(|there| there.minded));
    let told = std::iter::once(turned.told(unit, &words)).chain(by).chain(by_grid).chain(minded);
    Ok((turned.answer(unit, &words), told.collect()))
}

/// Whether the angle of a north lies between that of a bearing and another.
fn crosses(north: North, from: NamedBearing, to: North) -> bool {
    (from.north() == north) != (to == north)
}

fn diagram(declination: Option<Angle>, convergence: Option<Angle>, year: Option<DecimalYear>) -> NorthDiagram {
    let value = |angle: Option<Angle>| angle.map_or((0.0, 0.0), |angle| (angle.deg, angle.spread_deg.unwrap_or_default()));
    let ((declination_deg, declination_spread_deg), (convergence_deg, convergence_spread_deg)) = (value(declination), value(convergence));
    let year = year.map(DecimalYear::years);
    NorthDiagram { declination_deg, declination_spread_deg, convergence_deg, convergence_spread_deg, year }
}

/// Whether the angles between the two norths are there.
fn needed((from, to): (NamedBearing, North), has_declination: bool, has_convergence: bool) -> Result<(), Refusal> {
    let lacking = match (crosses(North::Magnetic, from, to) && !has_declination, crosses(North::Grid, from, to) && !has_convergence) {
        (false, false) => return Ok(()),
        (true, true) => "both",
        (true, false) => "declination",
        (false, true) => "convergence",
    };
    let message = Message::new("turn-diagram-needed").text("lacking", lacking).text("from", from.north().word());
    Err(Refusal::new(message.text("to", to.word())))
}

/// By which declination was turned.
fn by_told(declination: &Declination, date: &str, unit: AngleUnit, words: &Words) -> Message {
    Message::new("turn-by-place")
        .text("declination", words.turn_in(declination.deg, unit, 2))
        .text("spread", words.turn_in(LINE_95 * declination.spread_deg, unit, 1))
        .text("date", date)
}

impl There {
    /// By which grid's convergence was turned.
    fn grid_told(&self, unit: AngleUnit, words: &Words) -> Message {
        Message::new("turn-by-grid")
            .text("grid", self.grid.clone())
            .text("convergence", words.turn_in(self.convergence_deg.abs(), unit, 2))
            .text("side", if self.convergence_deg < 0.0 { "west" } else { "east" })
    }
}

impl Turned {
    /// One sigma of the bearing told, degrees; none where that of an angle between the two norths is not known.
    fn spread_deg(&self) -> Option<f64> {
        let (from, to) = (self.from, self.into.north());
        let is_known = |north, angle: Option<Angle>| !crosses(north, from, to) || angle.is_some_and(|angle| angle.spread_deg.is_some());
        let all_known = is_known(North::Magnetic, self.declination) && is_known(North::Grid, self.convergence);
        all_known.then(|| self.diagram.turning_spread_deg(from.north(), to).hypot(self.read_deg.unwrap_or_default()))
    }

    fn grid_magnetic_deg(&self) -> Option<f64> {
        self.declination.and(self.convergence).map(|_| self.diagram.grid_magnetic_deg())
    }

    fn told(&self, unit: AngleUnit, words: &Words) -> Message {
        let written = |bearing| words.bearing_in(bearing, unit, 1);
        let (spread_deg, angle_deg) = (self.spread_deg(), self.grid_magnetic_deg());
        let sure = match (spread_deg, self.read_deg) {
            (None, _) => "unknown",
            (Some(spread_deg), _) if spread_deg <= 0.0 => "none",
            (Some(_), None) => "turning",
            (Some(_), Some(_)) => "whole",
        };
        Message::new("turn-told")
            .text("from", written(self.from))
            .text("bearing", written(self.into))
            .text("sure", sure)
            .text("spread", words.turn_in(LINE_95 * spread_deg.unwrap_or_default(), unit, 1))
            .text("back", written(self.into.back()))
            .text("has-angle", if angle_deg.is_some() { "yes" } else { "no" })
            .text("angle", words.turn_in(angle_deg.unwrap_or_default(), unit, 2))
    }

    fn answer(&self, unit: AngleUnit, words: &Words) -> Answer {
        Answer::Turn {
            bearing_deg: self.into.degrees(),
            spread_deg: self.spread_deg(),
            north: self.into.north().word().into(),
            back_deg: self.into.back().degrees(),
            grid_magnetic_deg: self.grid_magnetic_deg(),
            declination_deg: self.declination.map(|angle| angle.deg),
            declination_spread_deg: self.declination.and_then(|angle| angle.spread_deg),
            convergence_deg: self.convergence.map(|angle| angle.deg),
            told: words.bearing_in(self.into, unit, 1),
        }
    }
}

/// One sigma of an angle between the norths, degrees: refused where that angle was not typed with it.
fn spread_of(angle: &'static str, angle_deg: Option<f64>, (name, typed_deg): (&str, Option<f64>)) -> Result<Option<f64>, Refusal> {
    let spread_deg = spread(name, typed_deg)?;
    if spread_deg.is_some() && angle_deg.is_none() {
        return Err(Refusal::new(Message::new("turn-spread-alone").text("angle", angle)));
    }
    Ok(spread_deg)
}

fn spread(name: &str, typed_deg: Option<f64>) -> Result<Option<f64>, Refusal> {
    typed_deg.map(|typed_deg| understand::bounded(name, typed_deg, (0.0, 180.0))).transpose()
}

impl TurnQuestion<'_> {
    /// The convergence of the grid at the place: the one that is named, else the sheet's, else that of its zone.
    fn there(&self) -> Result<Option<There>, Refusal> {
        let Some(place) = self.turn.place.as_deref() else { return Ok(None) };
        let named = named_grid(self.turn.grid.as_ref())?;
        let by = Asked { named: named.as_ref(), sheet: self.sheet };
        let reading = read_place(place, &by.terms())?;
        let grid = by.grid_at(&reading, counted_grid);
        let convergence_deg = grid.factors(reading.at)?.convergence_deg;
        let minded = by.cautions(&reading, &grid);
        Ok(Some(There { at: reading.at, grid: grid.name().into(), convergence_deg, minded }))
    }

    /// The one that was typed, else the grid's at the place.
    fn convergence(&self, there: Option<&There>) -> Result<Option<Angle>, Refusal> {
        let typed = ("convergence_spread_deg", self.turn.convergence_spread_deg);
        let typed_spread_deg = spread_of("convergence", self.turn.convergence_deg, typed)?;
        Ok(match (self.turn.convergence_deg, there) {
            (Some(typed_deg), _) => Some(Angle { deg: angle_typed("convergence_deg", typed_deg)?, spread_deg: typed_spread_deg }),
            (None, Some(there)) => Some(Angle { deg: there.convergence_deg, spread_deg: Some(0.0) }),
            (None, None) => None,
        })
    }

    /// The declination at the place on the date: the model's, else that of the diagram which the sheet prints.
    fn declination_at(&self, there: &There, year: DecimalYear) -> Result<Declination, Refusal> {
        let printed = printed_there(self.of_sheet, self.sheet, there.at);
        Ok(Declination::at((there.at, 0.0), year, (printed, there.convergence_deg))?)
    }

    /// The one that was typed, else that of the place.
    fn declination(&self, by_place: Option<&Declination>) -> Result<Option<Angle>, Refusal> {
        let typed = ("declination_spread_deg", self.turn.declination_spread_deg);
        let typed_spread_deg = spread_of("declination", self.turn.declination_deg, typed)?;
        Ok(match (self.turn.declination_deg, by_place) {
            (Some(typed_deg), _) => Some(Angle { deg: angle_typed("declination_deg", typed_deg)?, spread_deg: typed_spread_deg }),
            (None, Some(there)) => Some(Angle { deg: there.deg, spread_deg: Some(there.spread_deg) }),
            (None, None) => None,
        })
    }
}
