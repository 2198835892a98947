//! A fix in three sentences for the field, and what to take next.

use super::Words;
use crate::fix::{Account, Fix, FixCaution, FixReport, NextSight, NextWhat, OpenFix, OpenReport, OpenSeen, Slip, SlipKind, Slips, Verdict};
use crate::measure::{Arg, Message};

impl Words {
    /// A fix in sentences for the field: where, what fits, and what next unless nothing more is asked for.
    #[must_use]
    pub fn fix_in_the_field(&self, fix: &Fix, report: &FixReport, slips: &Slips, next: Option<&[NextSight]>) -> Vec<String> {
        let undecided = report.places.len() > 1 || fix.is_much_elsewhere();
        let next = next.map(|next| field_next(next, undecided, fix.is_contradicted(slips)));
        [field_where(fix, report, slips), field_fits(fix, slips)].iter().chain(next.as_ref()).map(|message| self.say(message)).collect()
    }

    /// A fix in the open in sentences for the field; `told` is how many sightings were told.
    #[must_use]
    pub fn open_in_the_field(
        &self,
        (fix, report): (&OpenFix, &OpenReport),
        told: usize,
        slips: &Slips,
        next: Option<&[NextSight]>,
    ) -> Vec<String> {
        let undecided = report.places.len() > 1 || fix.is_much_elsewhere();
        let next = next.map(|next| field_next(next, undecided, fix.is_contradicted(slips)));
        let fits = open_fits(fix, told, slips);
        [open_where(fix, report, slips), fits].iter().chain(next.as_ref()).map(|message| self.say(message)).collect()
    }

    /// Where: the sentence of those for the field that tells it.
    #[must_use]
    pub fn where_in_the_field(&self, fix: &Fix, report: &FixReport, slips: &Slips) -> String {
        self.say(&field_where(fix, report, slips))
    }

    /// The same of a fix in the open.
    #[must_use]
    pub fn open_where_in_the_field(&self, fix: &OpenFix, report: &OpenReport, slips: &Slips) -> String {
        self.say(&open_where(fix, report, slips))
    }

    /// What does not fit: the sentence of those for the field that tells it; none where everything fits or nothing was to be compared.
    #[must_use]
    pub fn misfit_in_the_field(&self, fix: &Fix, slips: &Slips) -> Option<String> {
        fix.is_contradicted(slips).then(|| self.say(&field_fits(fix, slips)))
    }

    /// The same of a fix in the open.
    #[must_use]
    pub fn open_misfit_in_the_field(&self, fix: &OpenFix, told: usize, slips: &Slips) -> Option<String> {
        fix.is_contradicted(slips).then(|| self.say(&open_fits(fix, told, slips)))
    }

    /// What to take next, and its gain.
    pub(super) fn next_told(&self, next: &NextSight) -> String {
        self.say(&next_told("next-told", next).text("gain", self.next_sight(next)))
    }
}

/// Where: the one place, or how many there are and the likeliest.
fn field_where(fix: &Fix, report: &FixReport, slips: &Slips) -> Message {
    let Some(place) = report.places.first().filter(|_| !fix.cautions.contains(&FixCaution::Anywhere)) else {
        return Message::new("field-nowhere");
    };
    let id = match report.places.len() {
        1 if fix.is_much_elsewhere() => "field-likeliest",
        1 => "field-place",
        _ => "field-places",
    };
    Message::new(id)
        .text("reference", place.reference.clone())
        .text("line", place.line.clone())
        .text("on", if fix.lines_told().len() > 1 { "several" } else { "one" })
        .with("count", Arg::Count(report.places.len() as i64))
        .with("share", Arg::Share(place.stretch.share))
        .with("spread", Arg::Metres(place.stretch.half_width_95_m()))
        .text("shape", place.stretch.shape())
        .text("low", place.ends_95_references.0.clone())
        .text("high", place.ends_95_references.1.clone())
        .text("doubt", doubt(fix.is_contradicted(slips)))
}

/// Whether the place that is told first holds only if no reading is false.
pub(super) fn doubt(is_contradicted: bool) -> &'static str {
    if is_contradicted { "doubted" } else { "none" }
}

fn open_where(fix: &OpenFix, report: &OpenReport, slips: &Slips) -> Message {
    let undecided = report.places.len() > 1 || fix.is_much_elsewhere();
    let Some(place) = report.places.first() else { return Message::new("field-open-nowhere") };
    let spread_m = place.ellipse_95.map_or(place.reach_m, |ellipse| ellipse.major_m);
    let id = match (report.places.len(), undecided, place.ellipse_95) {
        (1, false, Some(_)) => "field-open-place",
        (1, true, Some(_)) => "field-open-likeliest",
        // A strip or a ring has no middle to stand at.
        (1, false, None) => "field-open-region",
        (1, true, None) => "field-open-region-likeliest",
        _ => "field-open-places",
    };
    Message::new(id)
        .text("reference", place.reference.clone())
        .with("count", Arg::Count(report.places.len() as i64))
        .with("share", Arg::Share(place.share))
        .with("spread", Arg::Metres(spread_m))
        .text("doubt", doubt(fix.is_contradicted(slips)))
}

fn open_fits(fix: &OpenFix, told: usize, slips: &Slips) -> Message {
    let of = |one: &OpenSeen| (one.measured.word(), one.landmark.clone());
    let first = |verdict: Verdict| fix.seen.iter().find(|one| one.verdict() == verdict).map(of);
    let (misfit, doubtful) = (first(Verdict::Misfit), first(Verdict::Doubtful));
    let misread = |slip: &Slip| slip.sighting.and_then(|index| fix.seen.iter().find(|one| one.sighting == index)).map(of);
    match field_wrong(slips, misread, misfit) {
        Some(wrong) => wrong,
        None if fix.things < 2 => alone(told),
        None if fix.things == 2 => Message::new("field-meet"),
        None if doubtful.is_some() => of_sighting("field-doubtful", doubtful),
        None => Message::new("field-fits").with("count", Arg::Count(told as i64)),
    }
}

/// That one thing alone was observed, in so many sightings.
pub(super) fn alone(sightings: usize) -> Message {
    Message::new("field-alone").with("count", Arg::Count(sightings as i64))
}

/// Whether everything fits, or what to read again.
fn field_fits(fix: &Fix, slips: &Slips) -> Message {
    let of = |one: &Account| (one.what, one.of.clone());
    let first = |verdict: Verdict| fix.accounts.iter().find(|one| one.fit.is_some_and(|fit| fit.verdict() == verdict)).map(of);
    let (misfit, doubtful) = (first(Verdict::Misfit), first(Verdict::Doubtful));
    match field_wrong(slips, |slip| slip.sighting.and_then(|sighting| fix.accounts.get(sighting)).map(of), misfit) {
        Some(wrong) => wrong,
        None if fix.things < 2 => alone(fix.accounts.len()),
        None if doubtful.is_some() => of_sighting("field-doubtful", doubtful),
        None => Message::new("field-fits").with("count", Arg::Count(fix.accounts.len() as i64)),
    }
}

/// What a sighting is, and of what.
type Of = (&'static str, String);

/// What is to be read again: what the slip that is told is in, else the sighting that does not fit.
fn field_wrong(slips: &Slips, misread: impl Fn(&Slip) -> Option<Of>, misfit: Option<Of>) -> Option<Message> {
    match (slips.finding(), slips.all_turned(), slips.told()) {
        (Some(slip), _, _) => Some(field_slip("field-slip", misread(slip), slip)),
        (None, Some(slip), _) => {
            Some(Message::new("field-slip-all").text("first", if slip.kind == SlipKind::Deflected { "needle" } else { "norths" }))
        }
        (None, None, Some(slip)) => Some(field_slip("field-slip-maybe", misread(slip), slip)),
        (None, None, None) => misfit.map(|misfit| of_sighting("field-misfit", Some(misfit))),
    }
}

/// Which sighting a slip is in, or what all bearings share.
fn field_slip(id: &'static str, sighting: Option<Of>, slip: &Slip) -> Message {
    match (sighting, &slip.kind) {
        (Some(sighting), _) => of_sighting(id, Some(sighting)),
        (None, SlipKind::Misplaced(_)) => of_sighting(id, Some(("witness", slip.of.clone()))),
        (None, SlipKind::OtherLine(other)) => Message::new("field-slip-line").text("other", other.clone()),
        (None, SlipKind::Deflected) => Message::new("field-slip-all").text("first", "needle"),
        (None, SlipKind::AllReversed) => Message::new("field-slip-reversed"),
        (None, SlipKind::FacedOtherWay) => Message::new("field-slip-sides"),
        (None, SlipKind::Feet) => Message::new("field-slip-feet"),
        (None, SlipKind::LandmarksExchanged { one, other }) => {
            Message::new("field-slip-landmarks").text("one", one.clone()).text("other", other.clone())
        }
        (None, _) => Message::new("field-slip-north"),
    }
}

pub(super) fn of_sighting(id: &'static str, sighting: Option<Of>) -> Message {
    let (what, of) = sighting.unwrap_or_default();
    Message::new(id).text("what", what).text("of", of)
}

/// What to sight next, or that nothing would help much. What does not fit is looked at again before.
fn field_next(next: &[NextSight], undecided: bool, is_contradicted: bool) -> Message {
    let nothing = match (is_contradicted, undecided) {
        (true, _) => "field-again",
        (false, true) => "field-undecided",
        (false, false) => "field-keep",
    };
    next.first().map_or_else(|| Message::new(nothing), |next| next_told("field-next", next).text("doubt", doubt(is_contradicted)))
}

fn next_told(id: &'static str, next: &NextSight) -> Message {
    let (what, landmark) = match &next.what {
        NextWhat::Bearing(landmark) => ("bearing", landmark.clone()),
        NextWhat::LineRun => ("line-run", String::new()),
    };
    Message::new(id)
        .text("what", what)
        .text("landmark", landmark)
        .with("left", Arg::Metres(next.leaves_m))
        .with("now", Arg::Metres(next.now_m))
}
