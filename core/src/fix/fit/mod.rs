//! How each sighting fits the likeliest place.

mod plain;

use super::directed::Group;
use super::on_line::OnLine;
use super::{Account, Verdict};
use crate::measure::{Arg, Message};
use crate::sheet::LinePlace;

/// What was observed against what the sheet gives at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// By how much it is off there; nothing for what has no measure.
    pub off: Option<Off>,
    /// How many of its sigmas that is, everything included; endless where it cannot be at all.
    pub sigmas: f64,
}

/// By how much a sighting is off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Off {
    /// An angle: what was read minus what the sheet gives, degrees.
    Degrees(f64),
    /// A length: what was measured minus what the sheet gives, metres.
    Metres(f64),
}

impl Off {
    /// The number alone.
    #[must_use]
    pub fn value(self) -> f64 {
        match self {
            Self::Degrees(value) | Self::Metres(value) => value,
        }
    }
}

impl Fit {
    /// Off by so many metres.
    #[must_use]
    pub fn metres(off_m: f64, sigmas: f64) -> Self {
        Self { off: Some(Off::Metres(off_m)), sigmas }
    }

    /// Off by so many degrees, with one sigma of it.
    #[must_use]
    pub fn degrees(off_deg: f64, spread_deg: f64) -> Self {
        Self { off: Some(Off::Degrees(off_deg)), sigmas: off_deg.abs() / spread_deg }
    }

    /// As a likelihood against the one where it fits fully: as many sigmas as would lower a normal density as far.
    #[must_use]
    pub fn of_share(share: f64) -> Self {
        Self { off: None, sigmas: (-2.0 * share.clamp(0.0, 1.0).ln()).max(0.0).sqrt() }
    }

    /// Whether it fits: by chance it lies outside two sigmas one time in twenty, outside 2.6 one in a hundred.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        Verdict::of_sigmas(self.sigmas)
    }

    /// As the argument of a sentence.
    #[must_use]
    pub fn told(&self, message: Message) -> Message {
        with_off(message, self.off).text("verdict", self.verdict().word())
    }

    fn worse(self, other: Self) -> Self {
        if other.sigmas > self.sigmas { other } else { self }
    }
}

/// A sentence with by how much something is off, as the word that selects by its kind and the number.
pub(super) fn with_off(message: Message, off: Option<Off>) -> Message {
    match off {
        Some(Off::Degrees(deg)) => message.text("off", "degrees").with("by", Arg::Turn(deg.abs(), 0)),
        Some(Off::Metres(metres)) => message.text("off", "metres").with("by", Arg::Metres(metres.abs())),
        None => message.text("off", "none").text("by", ""),
    }
}

/// How each sighting fits a place of one of the lines, in the scene's order; nothing for one that says nothing there.
pub(super) fn fits(line: &OnLine<'_>, place: LinePlace, accounts: &[Account]) -> Vec<Option<Fit>> {
    accounts.iter().map(|account| fit_of(line, place, account.sighting, account.likeliest())).collect()
}

/// How one sighting fits a place of a line, to the likeliest of what it may be.
pub(super) fn fit_of(line: &OnLine<'_>, place: LinePlace, sighting: usize, likeliest: Option<&str>) -> Option<Fit> {
    directed(line, place, sighting, likeliest).or_else(|| line.plains.fit(sighting, place))
}

/// The worst reading of a compass sighting, to the likeliest of what it may be.
fn directed(line: &OnLine<'_>, place: LinePlace, sighting: usize, likeliest: Option<&str>) -> Option<Fit> {
    let group: &Group<'_> = line.groups.iter().find(|group| group.sightings.contains(&sighting))?;
    let spot = line.spot(place.along_m)?;
    let (lobe, readings) = group.against(&spot, likeliest)?;
    let own = readings.iter().zip(lobe.residuals.as_slice()).filter(|(reading, _)| reading.sighting == sighting);
    let fit = |one: &super::directed::Residual| {
        let shared_deg = line.shared_deg_of(one.gain);
        Fit::degrees(one.deg, one.own_deg.hypot(shared_deg).hypot(one.map_gain * lobe.map_deg))
    };
    own.map(|(_, residual)| fit(residual)).reduce(Fit::worse)
}
