//! A fix in sentences.

use super::Words;
use super::field::{alone, doubt};
use crate::earth::{Compass, Norths};
use crate::fix::{
    Account, Check, Fix, FixCaution, FixReport, NextSight, PlaceReport, SightedReport, Slip, SlipPlace, Slips, Verdict, WitnessSlip,
    WitnessSlips,
};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, Point, Telling};

/// The set that stretches are cut from leaves a few thousandths outside anyway; only what goes beyond it is told.
const TOLD_ELSEWHERE: f64 = 0.005;
/// So many explanations of a place that does not fit are told.
const MOST_EXPLAINED: usize = 3;

/// A place held against a fix, or against where the log puts the walker, as it is told.
#[derive(Debug, Clone, Copy)]
pub struct HeldTold<'a> {
    /// How they agree.
    pub check: &'a Check,
    /// Whether the fix itself was told with a slip.
    pub misread: bool,
    /// Whether it was held against where the log puts the walker.
    pub by_the_log: bool,
    /// Side of the square that was told, metres; 0 for a point.
    pub square_m: f64,
}

/// Of a square from this side on the middle is told as such, metres.
const WIDE_SQUARE_M: f64 = 100.0;

/// Whether it is a slip for which a sighting does not fit: its own, or any where something was surely misread, for the place is then another.
fn of_slip(fix: &Fix, slips: &Slips, sighted: &str) -> bool {
    let of = |slip: &Slip| slip.sightings().filter_map(|index| fix.accounts.get(index)).any(|one| one.of == sighted);
    slips.finding().is_some_and(|slip| slips.some_made() || of(slip))
}

impl Words {
    /// A fix in sentences: where, how surely, from what, and what to be told.
    #[must_use]
    pub fn fix(&self, fix: &Fix, report: &FixReport, slips: &Slips, next: &[NextSight]) -> Vec<String> {
        let mut said = self.places(fix, report, slips);
        said.extend((fix.things < 2).then(|| self.say(&alone(fix.accounts.len()))));
        said.push(self.diagram(&report.diagram, report.by));
        said.extend(report.sighted.iter().flat_map(|one| self.sighted(one)));
        said.extend(fix.accounts.iter().filter(|one| one.identity.len() > 1).map(|one| self.account(one)));
        said.extend(self.fix_cautions(fix, report, slips));
        said.extend(next.iter().map(|next| self.next_told(next)));
        said.push(self.estimate());
        said
    }

    /// What must be told with a fix. That a reading does not fit is not said again beside the slip that explains it.
    #[must_use]
    pub fn fix_cautions(&self, fix: &Fix, report: &FixReport, slips: &Slips) -> Vec<String> {
        self.slips(slips, &report.slip_places).into_iter().chain(self.fix_cautions_beside(fix, slips)).collect()
    }

    /// Of these what is beside the slip.
    pub(super) fn fix_cautions_beside(&self, fix: &Fix, slips: &Slips) -> Vec<String> {
        let is_said = |caution: &&FixCaution| !matches!(caution, FixCaution::Misfit { landmark, .. } if of_slip(fix, slips, landmark));
        fix.cautions.iter().filter(is_said).map(|caution| self.say(&caution.message())).collect()
    }

    /// What else is told of a fix: how far along the line each place is, the norths, each bearing, how far it is to be trusted.
    #[must_use]
    pub fn fix_rest(&self, report: &FixReport) -> Vec<String> {
        let mut said: Vec<String> = report.places.iter().map(|place| self.along(place)).collect();
        said.push(self.diagram(&report.diagram, report.by));
        said.extend(report.sighted.iter().flat_map(|one| self.sighted(one)));
        said.push(self.estimate());
        said
    }

    /// How far a fix is to be trusted.
    pub(super) fn estimate(&self) -> String {
        self.say(&Message::new("caution-estimate"))
    }

    fn places(&self, fix: &Fix, report: &FixReport, slips: &Slips) -> Vec<String> {
        let doubtful = fix.is_much_elsewhere();
        let several = report.places.len() > 1 || doubtful;
        let lines = fix.lines_told().join(" / ");
        let mut said = Vec::new();
        if doubtful {
            said.push(self.say(&Message::new("fix-doubtful").with("share", Arg::Share(fix.elsewhere)).text("line", lines.clone())));
        } else if several {
            said.push(
                self.say(
                    &Message::new("fix-several")
                        .with("count", Arg::Count(report.places.len() as i64))
                        .text("line", lines.clone())
                        .text("doubt", doubt(fix.is_contradicted(slips))),
                ),
            );
        }
        for place in &report.places {
            let id = if several { "fix-place-of-several" } else { "fix-place" };
            let message = Message::new(id)
                .text("reference", place.reference.clone())
                .with("spread", Arg::Metres(place.stretch.half_width_95_m()))
                .with("across", Arg::Metres(place.across_95_m))
                .with("share", Arg::Share(place.stretch.share))
                .text("line", place.line.clone())
                .text("shape", place.stretch.shape())
                .text("low", place.ends_95_references.0.clone())
                .text("high", place.ends_95_references.1.clone())
                .text("doubt", doubt(fix.is_contradicted(slips)));
            said.push(self.say(&message));
            said.push(self.along(place));
        }
        if fix.elsewhere >= TOLD_ELSEWHERE && !doubtful {
            said.push(self.say(&Message::new("fix-elsewhere").with("share", Arg::Share(fix.elsewhere)).text("line", lines.clone())));
        }
        said
    }

    /// The slip that explains the readings, or the one that might.
    pub(super) fn slips(&self, slips: &Slips, places: &[Option<SlipPlace>]) -> Vec<String> {
        let Some(slip) = slips.told() else { return Vec::new() };
        let possible = slips.finding().is_none().then(|| self.say(&slip_possible(slips)));
        let told = self.slip(slip, places.first().and_then(Option::as_ref));
        possible.into_iter().chain([told, self.say(&Message::new("slip-limits"))]).collect()
    }

    /// A slip, the others that no sighting tells from it, and where one would then stand.
    #[must_use]
    pub fn slip(&self, slip: &Slip, place: Option<&SlipPlace>) -> String {
        let also = slip.also.iter().map(|also| self.say(&also.message()));
        let again = Message::new("slip-again").with("count", Arg::Count(slip.again.len() as i64));
        let again = (!slip.again.is_empty()).then(|| self.say(&again));
        let told = std::iter::once(self.say(&slip.message())).chain(also).chain(again).collect::<Vec<_>>().join(" ");
        let Some(place) = place else { return told };
        let then = Message::new("slip-then")
            .text("reference", place.reference.clone())
            .text("where", if place.line.is_empty() { "open" } else { "line" })
            .text("line", place.line.clone())
            .with("spread", Arg::Metres(place.reach_95_m));
        format!("{told} {}", self.say(&then))
    }

    /// What one sighting gave to the fix.
    #[must_use]
    pub fn account(&self, account: &Account) -> String {
        let id = match (account.identity.first(), account.moves_m) {
            (Some(_), _) => "account-identity",
            (None, Some(_)) => "account-moves",
            (None, None) => "account-only",
        };
        let (likeliest, share) = account.identity.first().cloned().unwrap_or_default();
        let message = Message::new(id)
            .text("what", account.what)
            .text("of", account.of.clone())
            .text("likeliest", likeliest)
            .with("share", Arg::Share(share))
            .with("moves", Arg::Metres(account.moves_m.unwrap_or(0.0)));
        let told = self.say(&message);
        account.fit.map_or_else(|| told.clone(), |fit| format!("{told} {}", self.say(&fit.told(Message::new("account-fit")))))
    }

    fn along(&self, place: &PlaceReport) -> String {
        let id = match (place.along.from.is_empty(), &place.along.towards) {
            (true, _) => "fix-along-start",
            (false, Some(_)) => "fix-along-towards",
            (false, None) => "fix-along",
        };
        let message = Message::new(id)
            .text("from", place.along.from.clone())
            .with("distance", Arg::Metres(place.along.distance_m))
            .with("spread", Arg::Metres(place.stretch.half_width_95_m()))
            .text("towards", place.along.towards.clone().unwrap_or_default())
            .with("bearing", Arg::Bearing(NamedBearing::Grid(place.along_grid)))
            .text("low", place.ends_95_references.0.clone())
            .text("high", place.ends_95_references.1.clone())
            .with("lat", Arg::Number(place.at.lat_deg(), 5))
            .with("lon", Arg::Number(place.at.lon_deg(), 5));
        self.say(&message)
    }

    /// A place of a fix with its share and spread.
    #[must_use]
    pub fn place(&self, place: &PlaceReport) -> String {
        let message = Message::new("fix-place-told")
            .with("share", Arg::Share(place.stretch.share))
            .text("reference", place.reference.clone())
            .with("spread", Arg::Metres(place.stretch.half_width_95_m()))
            .text("line", place.line.clone());
        self.say(&message)
    }

    /// An independent place held against a place of a fix; and what would explain it where it does not fit.
    #[must_use]
    pub fn check(&self, held: &HeldTold<'_>, slips: &WitnessSlips, best: Point, norths: &Norths) -> Vec<String> {
        let told = self.check_told(held, best, norths);
        let unknown = slips.leads_unknown().then(|| self.say(&Message::new("witness-slip-unknown").with("chance", Arg::Share(slips.none))));
        let explained = slips.found.iter().take(MOST_EXPLAINED).enumerate().map(|(rank, slip)| self.witness_slip(slips, rank, slip));
        let fits = held.check.verdict() == Verdict::Fits;
        let none = if held.by_the_log { "check-log-off" } else { "witness-slip-none" };
        let unexplained = (!fits && slips.found.is_empty()).then(|| self.say(&Message::new(none)));
        let taken_in = (fits && !held.by_the_log).then(|| self.say(&Message::new("check-taken-in")));
        std::iter::once(told).chain(unknown).chain(explained).chain(unexplained).chain(taken_in).collect()
    }

    /// One of the slips that would explain a place, by its rank from 0.
    #[must_use]
    pub fn witness_slip(&self, slips: &WitnessSlips, rank: usize, slip: &WitnessSlip) -> String {
        let is_first = rank == 0 && !slips.leads_unknown();
        self.say(&slip.message().text("order", if is_first { "first" } else { "other" }))
    }

    /// How an independent place agrees with a place of a fix.
    #[must_use]
    pub fn check_told(&self, held: &HeldTold<'_>, best: Point, norths: &Norths) -> String {
        let check = held.check;
        let message = Message::new("check-told")
            .text("verdict", check.verdict().word())
            .with("distance", Arg::Metres(check.distance_m))
            .with("bearing", Arg::Bearing(NamedBearing::Grid(norths.to_grid(check.plane_deg, best))))
            .with("number", Arg::Count(check.stretch as i64 + 1))
            .text("from", if held.by_the_log { "log" } else { "fix" })
            .text("square", if held.square_m >= WIDE_SQUARE_M { "wide" } else { "point" })
            .with("side", Arg::Metres(held.square_m))
            // So small a chance may be nothing as a number: it is never told as impossible.
            .with("chance", Arg::Share(check.chance.max(f64::MIN_POSITIVE)));
        let told = self.say(&message);
        if held.misread { format!("{told} {}", self.say(&Message::new("check-misread"))) } else { told }
    }

    fn sighted(&self, one: &SightedReport) -> Vec<String> {
        let grid = NamedBearing::Grid(one.grid);
        let reading = Message::new("fix-sighted")
            .text("landmark", one.sighted.landmark.clone())
            .with("reading", Arg::Bearing(one.sighted.reading))
            .with("spread", Arg::Turn(LINE_95 * one.sighted.spread_deg, 1))
            .with("grid", Arg::Bearing(grid))
            .with("back", Arg::Bearing(grid.back()))
            .with("back-mag", Arg::Bearing(NamedBearing::Magnetic(one.magnetic.back())));
        let mut said = vec![self.say(&reading)];
        said.extend(one.crossings.iter().enumerate().map(|(index, crossing)| {
            let message = Message::new("fix-crossing")
                .with("number", Arg::Count(index as i64 + 1))
                .text("reference", crossing.reference.clone())
                .with("distance", Arg::Metres(crossing.crossing.distance_m))
                .with("cut", Arg::Turn(crossing.crossing.cut_deg, 0))
                .with("spread", Arg::Metres(crossing.crossing.half_width_95_m()));
            self.say(&message)
        }));
        said
    }
}

/// That something may have been misread, or was.
pub(super) fn slip_possible(slips: &Slips) -> Message {
    Message::new("slip-possible").text("some", if slips.some_made() { "made" } else { "maybe" })
}
