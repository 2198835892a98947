//! A compass check in sentences.

use super::Words;
use crate::earth::{CompassCheck, CorrectedLine, ReadingSpread, SharedError, Station, TURNED_DEG, Verdict};
use crate::measure::{Arg, LINE_95, Message, Telling, student_95};

impl Words {
    /// What a check says of the compass, of each station, and what it cannot say.
    #[must_use]
    pub fn compass(&self, check: &CompassCheck) -> Vec<String> {
        let shared = check.shared.iter().map(|shared| self.shared_error(shared, &check.reading));
        let alone: Vec<&CorrectedLine> = check.lines.iter().filter(|line| line.stands_alone).collect();
        let legs = alone.iter().map(|line| self.leg_alone(line, &check.stations));
        let is_of_leg = |station: &&Station| alone.iter().any(|line| [&line.from, &line.to].contains(&&station.name));
        let stations = legs.chain(check.stations.iter().filter(|station| !is_of_leg(station)).map(|station| self.station(station)));
        let untold = check.untold.iter().map(|untold| self.say(&untold.message()));
        let strays = check.reading.strays().then(|| self.strays(&check.reading));
        let wild = check.wild.iter().map(|wild| self.say(&wild.message()));
        shared.chain(strays).chain(wild).chain(stations).chain(untold).collect()
    }

    fn strays(&self, reading: &ReadingSpread) -> String {
        let message = Message::new("compass-strays").with("spread", one_more(reading));
        self.say(&message.with("usual", half_width(reading.believed_deg)))
    }

    fn shared_error(&self, shared: &SharedError, reading: &ReadingSpread) -> String {
        let message = Message::new("compass-told")
            .with("error", Arg::Turn(shared.error_deg.abs(), 1))
            .text("side", if shared.error_deg < 0.0 { "low" } else { "high" })
            .with("spread", Arg::Turn(shared.half_width_95_deg, 1))
            .text("by", if shared.spread_deg > shared.own_spread_deg { "declination" } else { "readings" })
            .with("count", Arg::Count(shared.readings as i64))
            .with("reading", one_more(reading));
        self.say(&message)
    }

    /// A line whose closure is all that is known of its two ends: told once, of both.
    fn leg_alone(&self, line: &CorrectedLine, stations: &[Station]) -> String {
        let ends = || stations.iter().filter(|station| [&line.from, &line.to].contains(&&station.name));
        let message = Message::new("compass-leg")
            .text("from", line.from.clone())
            .text("to", line.to.clone())
            .with("closure", Arg::Turn(line.closure_deg.abs(), 1))
            .text("agrees", if line.agrees { "yes" } else { "no" })
            .text("verdict", if ends().all(|station| station.verdict == Verdict::Clean) { "clean" } else { "unknown" })
            .with("worth", Arg::Turn(TURNED_DEG, 0));
        self.say(&message.with("share", Arg::Share(ends().map(|station| station.attracted_share).fold(0.0, f64::max))))
    }

    fn station(&self, station: &Station) -> String {
        let verdict = match station.verdict {
            Verdict::Clean => "clean",
            Verdict::Attracted => "attracted",
            Verdict::NotToBeTold => "unknown",
        };
        let message = Message::new("compass-station")
            .text("station", station.name.clone())
            .text("verdict", verdict)
            .with("share", Arg::Share(station.attracted_share))
            .with("worth", Arg::Turn(TURNED_DEG, 0));
        let Some(attraction) = station.attraction else { return self.say(&message.text("side", "untold")) };
        let message = message.with("attraction", Arg::Turn(attraction.deg.abs(), 1));
        let side = if attraction.deg < 0.0 { "low" } else { "high" };
        self.say(&message.text("side", side).with("spread", half_width(attraction.spread_deg)))
    }

    /// What is taken off each reading of a checked compass.
    #[must_use]
    pub fn compass_taken_off(&self, error_deg: f64, spread_deg: f64) -> String {
        let message = Message::new("compass-taken-off")
            .with("error", Arg::Turn(error_deg.abs(), 1))
            .text("side", if error_deg < 0.0 { "low" } else { "high" })
            .with("spread", Arg::Turn(LINE_95 * spread_deg, 1));
        self.say(&message)
    }
}

/// The half-width at 95 % of one sigma, no more than half the circle.
fn half_width(spread_deg: f64) -> Arg {
    Arg::Turn((LINE_95 * spread_deg).min(180.0), 1)
}

/// The half-width at 95 % of one more reading, no more than half the circle: few readings tell little of it.
fn one_more(reading: &ReadingSpread) -> Arg {
    Arg::Turn((student_95(reading.freedom) * reading.spread_deg).min(180.0), 1)
}
