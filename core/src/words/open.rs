//! A fix in the open in sentences.

use super::Words;
use crate::fix::{Fit, Measured, NextSight, OpenCaution, OpenFix, OpenPlace, OpenReport, OpenSeenReport, Slip, Slips, Verdict};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, Telling};

impl Words {
    /// A fix in the open in sentences: where, how surely, from what (told already), and what to be told.
    #[must_use]
    pub fn open_fix(&self, (fix, report): (&OpenFix, &OpenReport), told: Vec<String>, slips: &Slips, next: &[NextSight]) -> Vec<String> {
        let mut said: Vec<String> = report.places.iter().map(|place| self.open_place(place)).collect();
        said.extend((fix.things == 2).then(|| self.say(&Message::new("field-meet"))));
        said.push(self.diagram(&report.diagram, report.by));
        said.extend(told);
        said.extend(self.open_cautions(fix, report, slips));
        said.extend(next.iter().map(|next| self.next_told(next)));
        said.push(self.estimate());
        said
    }

    /// What must be told with a fix in the open. That a reading does not fit is not said again beside the slip that explains it.
    #[must_use]
    pub fn open_cautions(&self, fix: &OpenFix, report: &OpenReport, slips: &Slips) -> Vec<String> {
        let beside = self.open_cautions_beside(fix, slips);
        let slips = self.slips(slips, &report.slip_places);
        // What is off by far more than chance allows, and by no known slip, leaves nothing to rely on either.
        let gross = slips.is_empty() && fix.seen.iter().any(|one| one.verdict() == Verdict::Misfit);
        slips.into_iter().chain(beside).chain(gross.then(|| self.say(&Message::new("slip-limits")))).collect()
    }

    /// Of these what is beside the slip.
    pub(super) fn open_cautions_beside(&self, fix: &OpenFix, slips: &Slips) -> Vec<String> {
        let of = |slip: &Slip, sighted: &str| {
            let seen = |index: usize| fix.seen.iter().find(|one| one.sighting == index);
            slip.sightings().filter_map(seen).any(|one| one.landmark == sighted)
        };
        let of_slip = |sighted: &str| slips.finding().is_some_and(|slip| slips.some_made() || of(slip, sighted));
        let is_said = |caution: &&OpenCaution| !matches!(caution, OpenCaution::Misfit { landmark, .. } if of_slip(landmark));
        fix.cautions.iter().filter(is_said).map(|caution| self.say(&caution.message())).collect()
    }

    /// What else is told of a fix in the open: the norths, how far it is to be trusted.
    #[must_use]
    pub fn open_rest(&self, report: &OpenReport) -> Vec<String> {
        vec![self.diagram(&report.diagram, report.by), self.estimate()]
    }

    /// That something observed without measuring does not fit the likeliest place.
    #[must_use]
    pub fn other_misfit(&self, what: &str, of: &str, fit: Fit) -> String {
        // What was seen, or looked for and not seen, goes by one name in sentences.
        let what = if what == "not-seen" { "seen" } else { what };
        self.say(&fit.told(Message::new("caution-other-misfit").text("what", what).text("of", of)))
    }

    /// A measurement as the fix sees it; a bearing as it was read.
    #[must_use]
    pub fn open_seen(&self, one: &OpenSeenReport, read: Option<NamedBearing>) -> String {
        self.say(&seen(one, read))
    }

    /// What the ground says, by its kind and what it is of: how well the likeliest place fits, where that is known.
    #[must_use]
    pub fn open_ground(&self, what: &str, of: &str, fits: Option<f64>) -> String {
        let message = if fits.is_some() { Message::new("open-ground") } else { Message::new("open-ground-unknown") };
        self.say(&message.text("what", what).text("of", of).with("fits", Arg::Share(fits.unwrap_or(0.0))))
    }

    /// A place in the open, with its ellipse or the reach of its region.
    #[must_use]
    pub fn open_place(&self, place: &OpenPlace) -> String {
        let message = match place.ellipse_95 {
            Some(ellipse) => {
                Message::new("open-place").with("major", Arg::Metres(ellipse.major_m)).with("minor", Arg::Metres(ellipse.minor_m))
            }
            None => Message::new("open-region"),
        };
        let message = message
            .text("reference", place.reference.clone())
            .with("along", Arg::Bearing(NamedBearing::Grid(place.along_grid)))
            .with("share", Arg::Share(place.share))
            .with("reach", Arg::Metres(place.reach_m))
            .with("hectares", Arg::Number(place.area_95_m2 / 10_000.0, 1))
            .with("lat", Arg::Number(place.at.lat_deg(), 5))
            .with("lon", Arg::Number(place.at.lon_deg(), 5));
        self.say(&message)
    }
}

fn seen(one: &OpenSeenReport, read: Option<NamedBearing>) -> Message {
    let named = |message: Message| message.text("landmark", one.seen.landmark.clone()).with("distance", Arg::Metres(one.seen.distance_m));
    let degrees = |value: f64| Arg::Turn(value, 1);
    // To which side it is off stands in the view; in a sentence a minus would say nothing.
    let off = one.seen.residual.abs();
    match (one.seen.measured, read.or(one.grid)) {
        (Measured::Distance, _) => named(Message::new("open-seen-distance"))
            .with("read", Arg::Metres(one.seen.read))
            .with("off", Arg::Metres(off))
            .with("spread", Arg::Metres(LINE_95 * one.seen.spread)),
        (Measured::Bearing, Some(read)) => named(Message::new("open-seen-bearing"))
            .with("read", Arg::Bearing(read))
            .with("off", degrees(off))
            .with("spread", degrees(LINE_95 * one.seen.spread)),
        (Measured::Bearing | Measured::Angle, _) => named(Message::new("open-seen-angle"))
            .with("read", degrees(one.seen.read))
            .with("off", degrees(off))
            .with("spread", degrees(LINE_95 * one.seen.spread)),
    }
}
