//! Questions: norths, light, places, bearings, legs in the plane. They change nothing.

mod bearings;
mod between;
mod declination;
mod doubts;
mod grids;
mod norths;
mod places;
mod turn;
mod walk;

use super::answer::{Answer, AnswerBackLeg};
use super::record::{LegRecord, Record};
use super::{Refusal, understand};
use crate::earth::{PrintedNorths, Terms};
use crate::measure::{Message, NorthDiagram};

pub(super) use declination::Declination;
pub(super) use doubts::{doubt_on, doubts_of};
pub(super) use grids::{grid_minded, grid_told, outside_area, read_on};
pub(super) use norths::{printed, printed_there};
pub(super) use places::grid_lies;

/// A question's answer and the messages that tell it.
pub(super) type Answered = Result<(Answer, Vec<Message>), Refusal>;

/// Answers a question; short places are completed by what is said of the open sheet.
#[allow(clippy::wildcard_enum_match_arm, reason = "every other record is a command and does not come here")]
pub(super) fn answer(record: &Record, sheet: &Terms, of_sheet: Option<&PrintedNorths>) -> Answered {
    match record {
        Record::Norths { place, date, height_m, grid, printed } => norths::answer_norths(&norths::NorthsQuestion {
            place,
            date,
            height_m: *height_m,
            grid: grid.as_ref(),
            printed: printed.as_ref(),
            sheet,
            of_sheet,
        }),
        Record::Mean { bearings } => bearings::answer_mean(bearings),
        Record::Place { place, beginning, digits, grid } => {
            let grid = grid.as_ref();
            places::answer_place(&places::PlaceQuestion { place, beginning: beginning.as_deref(), digits: *digits, grid, sheet })
        }
        Record::Between { from, to, grid, date } => {
            between::answer_between(&between::BetweenQuestion { from, to, grid: grid.as_ref(), date: date.as_ref(), sheet, of_sheet })
        }
        Record::Turn(turn) => turn::answer_turn(&turn::TurnQuestion { turn, sheet, of_sheet }),
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

fn diagram(declination_deg: f64, convergence_deg: f64) -> Result<NorthDiagram, Refusal> {
    Ok(NorthDiagram {
        declination_deg: angle_typed("declination_deg", declination_deg)?,
        convergence_deg: angle_typed("convergence_deg", convergence_deg)?,
        ..NorthDiagram::default()
    })
}

/// The angle of a diagram that was typed.
fn angle_typed(name: &str, typed_deg: f64) -> Result<f64, Refusal> {
    understand::bounded(name, typed_deg, (-180.0, 180.0))
}
