//! The three norths in sentences: by what they are known, and what a printed diagram is worth.

use super::Words;
use crate::earth::{BesideModel, Compared, DeclinationBy, Norths, OLD_YEARS, PrintedNorths, PrintedReport, TurnedSign};
use crate::measure::{Arg, LINE_95, Message, NorthDiagram};

impl Words {
    /// The three norths at a place.
    #[must_use]
    pub fn diagram(&self, diagram: &NorthDiagram, by: DeclinationBy) -> String {
        let message = Message::new("fix-norths")
            .text("by", by_word(by))
            .with("declination", Arg::Turn(diagram.declination_deg.abs(), 2))
            .text("declination-side", side(diagram.declination_deg))
            .with("spread", Arg::Turn(LINE_95 * diagram.declination_spread_deg, 1))
            .with("convergence", Arg::Turn(diagram.convergence_deg.abs(), 2))
            .text("convergence-side", side(diagram.convergence_deg))
            .with("angle", Arg::Turn(diagram.grid_magnetic_deg().abs(), 2))
            .text("angle-side", side(diagram.grid_magnetic_deg()));
        self.say(&message)
    }

    /// The sheet's printed diagram beside the model's.
    #[must_use]
    pub fn printed_norths(&self, printed: &PrintedNorths, report: &PrintedReport, date: &str) -> Vec<String> {
        printed_told(printed, report, date).iter().map(|message| self.say(message)).collect()
    }
}

/// A printed diagram beside the model's, as messages; the second asks for its sign.
#[must_use]
pub fn printed_told(printed: &PrintedNorths, report: &PrintedReport, date: &str) -> Vec<Message> {
    let Some(beside) = report.beside else { return Vec::new() };
    let told = match beside.when {
        Compared::OnDate => on_date(printed, report, &beside, date),
        Compared::InOwnYear => on_other_day(&beside, ("yes", printed.year.to_string())),
        Compared::On(day) => on_other_day(&beside, ("no", day.to_string())),
    };
    let turned = beside.turned.map(|sign| {
        let message = Message::new("norths-printed-turned").with("differs", Arg::Turn(beside.differs_deg.abs(), 1));
        message.text("sign", sign_word(sign))
    });
    std::iter::once(told).chain(turned).collect()
}

fn sign_word(sign: TurnedSign) -> &'static str {
    match sign {
        TurnedSign::Angle => "angle",
        TurnedSign::Change => "change",
        TurnedSign::Both => "both",
    }
}

fn on_other_day(beside: &BesideModel, (is_own, day): (&str, String)) -> Message {
    Message::new("norths-printed-other-day")
        .text("own", is_own)
        .text("day", day)
        .with("differs", Arg::Turn(beside.differs_deg.abs(), 1))
        .with("joint", Arg::Turn(LINE_95 * beside.spread_deg, 1))
        .text("wrong", wrong_word(beside))
}

/// Whether a diagram differs too much from the model, and by what measure, as the identifiers that sentences select by.
fn wrong_word(beside: &BesideModel) -> &'static str {
    match (beside.is_beyond_spread(), beside.is_wrong()) {
        (true, _) => "beyond",
        (false, true) => "yes",
        (false, false) => "no",
    }
}

fn on_date(printed: &PrintedNorths, report: &PrintedReport, beside: &BesideModel, date: &str) -> Message {
    Message::new("norths-printed")
        .text("year", printed.year.to_string())
        .text("date", date)
        .text("has-change", if printed.annual_change_min.is_some() { "yes" } else { "no" })
        .with("change", Arg::Number(printed.annual_change_min.unwrap_or(0.0), 1))
        .with("angle", Arg::Turn(report.grid_magnetic_deg, 1))
        .with("spread", Arg::Turn(LINE_95 * report.off.map_or(0.0, |off| off.spread_deg), 1))
        .with("unchanged", Arg::Turn(LINE_95 * report.off.map_or(0.0, |off| off.change_deg), 1))
        .with("differs", Arg::Turn(beside.differs_deg, 1))
        .with("joint", Arg::Turn(LINE_95 * beside.spread_deg, 1))
        .text("wrong", wrong_word(beside))
        .with("age", Arg::Count(report.age_years.round().max(0.0) as i64))
        .text("old", age_word(report.age_years))
}

/// Whether what was printed so many years ago is old, or is said to be of a later year than that of the date, as the identifiers that
/// sentences select by: the middle of its own year lies up to half of one ahead.
pub(super) fn age_word(age_years: f64) -> &'static str {
    match age_years {
        age if age > OLD_YEARS => "yes",
        age if age < -0.5 => "future",
        _ => "no",
    }
}

/// That the model does not hold on the date of the norths, and what tells the declination then; nothing where it holds.
#[must_use]
pub fn date_told(norths: &Norths) -> Option<Message> {
    by_told(norths.by(), &norths.date().to_string())
}

/// That the model does not hold on a date, and what tells the declination then; nothing where it holds.
#[must_use]
pub fn by_told(by: DeclinationBy, date: &str) -> Option<Message> {
    let message = |id, age: f64| Message::new(id).text("date", date).with("age", Arg::Count(age.round().max(0.0) as i64));
    match by {
        DeclinationBy::Model => None,
        DeclinationBy::Diagram { age_years, is_wrong } => {
            let told = message("norths-by-diagram", age_years).text("old", age_word(age_years));
            Some(told.text("wrong", if is_wrong { "yes" } else { "no" }))
        }
        DeclinationBy::NearestDay(years) => Some(message("norths-by-nearest-day", years)),
    }
}

fn by_word(by: DeclinationBy) -> &'static str {
    match by {
        DeclinationBy::Model => "model",
        DeclinationBy::Diagram { .. } => "diagram",
        DeclinationBy::NearestDay(_) => "nearest-day",
    }
}

/// East or west, as the identifier that the sentence selects by.
pub(super) fn side(angle_deg: f64) -> &'static str {
    if angle_deg < 0.0 { "west" } else { "east" }
}
