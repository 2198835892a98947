//! Questions: norths, light, places, bearings, legs in the plane. They change nothing.

mod bearings;
mod norths;
mod places;
mod walk;

use super::answer::{Answer, AnswerBackLeg};
use super::record::{LegRecord, Record};
use super::{Refusal, understand};
use crate::earth::{Grid, LatLon, PlaceReading, Terms, read_place};
use crate::measure::{Message, NorthDiagram};

/// A question's answer and the messages that tell it.
pub(super) use norths::printed;

pub(super) type Answered = Result<(Answer, Vec<Message>), Refusal>;

/// Answers a question.
#[allow(clippy::wildcard_enum_match_arm, reason = "every other record is a command and does not come here")]
pub(super) fn answer(record: &Record) -> Answered {
    match record {
        Record::Norths { place, date, height_m, grid, printed } => norths::answer_norths(&norths::NorthsQuestion {
            place,
            date,
            height_m: *height_m,
            grid: grid.as_ref(),
            printed: printed.as_ref(),
        }),
        Record::Mean { bearings } => bearings::answer_mean(bearings),
        Record::Place { place, beginning, digits, grid } => {
            places::answer_place(&places::PlaceQuestion { place, beginning: beginning.as_deref(), digits: *digits, grid: grid.as_ref() })
        }
        Record::Between { from, to, grid, date } => places::answer_between(from, to, grid.as_ref(), date.as_ref()),
        Record::Turn { bearing, to, unit, declination_deg, convergence_deg } => {
            let diagram = diagram(*declination_deg, *convergence_deg)?;
            bearings::answer_turn(bearing, to, understand::unit(unit.as_deref())?, &diagram)
        }
        Record::Reckon {
            legs,
            double_paces_per_100_m,
            declination_deg,
            convergence_deg,
            leg_bearing_spread_deg,
            leg_distance_spread_percent,
            shared_bearing_spread_deg,
            shared_distance_spread_percent,
        } => walk::reckon_legs(&walk::ReckonQuestion {
            legs,
            double_paces_per_100_m: *double_paces_per_100_m,
            declination_deg: *declination_deg,
            convergence_deg: *convergence_deg,
            spreads: crate::travel::WalkSpreads {
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
    Ok(read_place(text, &Terms::default())?)
}

fn grid_of(named: Option<&String>, at: LatLon) -> Result<Grid, Refusal> {
    named.map_or_else(|| Ok(Grid::of_place(at)), |name| Ok(Grid::named(name)?))
}

fn diagram(declination_deg: f64, convergence_deg: f64) -> Result<NorthDiagram, Refusal> {
    Ok(NorthDiagram {
        declination_deg: understand::bounded("declination_deg", declination_deg, (-180.0, 180.0))?,
        declination_spread_deg: 0.0,
        convergence_deg: understand::bounded("convergence_deg", convergence_deg, (-180.0, 180.0))?,
    })
}
