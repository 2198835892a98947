//! A fix in three sentences for the field, and what to take next.

use super::Words;
use super::fix::MUCH_ELSEWHERE;
use crate::fix::{Account, Fix, FixCaution, FixReport, NextSight, NextWhat, Slip, SlipKind, Slips, Verdict};
use crate::measure::{Arg, Message};

impl Words {
    /// A fix in sentences for the field: where, what fits, and what next unless nothing more is asked for.
    #[must_use]
    pub fn fix_in_the_field(&self, fix: &Fix, report: &FixReport, slips: &Slips, next: Option<&[NextSight]>) -> Vec<String> {
        let next = next.map(field_next);
        [field_where(fix, report), field_fits(fix, slips)].iter().chain(next.as_ref()).map(|message| self.say(message)).collect()
    }

    /// What to take next, and its gain.
    pub(super) fn next_told(&self, next: &NextSight) -> String {
        self.say(&next_told("next-told", next).text("gain", self.next_sight(next)))
    }
}

/// Where: the one place, or how many there are and the likeliest.
fn field_where(fix: &Fix, report: &FixReport) -> Message {
    let Some(place) = report.places.first().filter(|_| !fix.cautions.contains(&FixCaution::Anywhere)) else {
        return Message::new("field-nowhere");
    };
    let id = if fix.elsewhere > MUCH_ELSEWHERE || report.places.len() > 1 { "field-places" } else { "field-place" };
    Message::new(id)
        .text("reference", place.reference.clone())
        .text("line", place.line.clone())
        .with("count", Arg::Count(report.places.len() as i64))
        .with("share", Arg::Share(place.stretch.share))
        .with("spread", Arg::Metres(place.stretch.half_width_95_m()))
}

/// Whether everything fits, or what to read again.
fn field_fits(fix: &Fix, slips: &Slips) -> Message {
    let first = |verdict: Verdict| fix.accounts.iter().find(|one| one.fit.is_some_and(|fit| fit.verdict() == verdict));
    let (misfit, doubtful) = (first(Verdict::Misfit), first(Verdict::Doubtful));
    match (slips.finding(), misfit) {
        (Some(slip), _) => field_slip(fix, slip),
        (None, Some(_)) => of_account("field-misfit", misfit),
        (None, None) if fix.accounts.len() < 2 => Message::new("field-alone"),
        (None, None) if doubtful.is_some() => of_account("field-doubtful", doubtful),
        (None, None) => Message::new("field-fits").with("count", Arg::Count(fix.accounts.len() as i64)),
    }
}

/// Which sighting a slip is in, or what all bearings share.
fn field_slip(fix: &Fix, slip: &Slip) -> Message {
    let account = slip.sighting.and_then(|sighting| fix.accounts.get(sighting));
    match (account, &slip.kind) {
        (Some(_), _) => of_account("field-slip", account),
        (None, SlipKind::OtherLine(other)) => Message::new("field-slip-line").text("other", other.clone()),
        (None, SlipKind::Deflected) => Message::new("field-slip-all"),
        (None, SlipKind::FacedOtherWay) => Message::new("field-slip-sides"),
        (None, SlipKind::LandmarksExchanged { one, other }) => {
            Message::new("field-slip-landmarks").text("one", one.clone()).text("other", other.clone())
        }
        (None, _) => Message::new("field-slip-north"),
    }
}

fn of_account(id: &'static str, account: Option<&Account>) -> Message {
    let (what, of) = account.map_or(("", String::new()), |account| (account.what, account.of.clone()));
    Message::new(id).text("what", what).text("of", of)
}

/// What to sight next, or that nothing would help much.
fn field_next(next: &[NextSight]) -> Message {
    next.first().map_or_else(|| Message::new("field-keep"), |next| next_told("field-next", next))
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
