//! The car's place: where the log begins, on a line or in the open.

use super::Refusal;
use super::state::Trip;
use crate::earth::{Instant, Norths};
use crate::fix::{OpenPlace, PlaceReport, Trust};
use crate::logbook::KeptEntry;
use crate::measure::{Arg, Covariance, Message, PLANE_95, Point};

/// The car's place.
#[derive(Debug, Clone)]
pub(super) struct Car {
    pub(super) name: String,
    pub(super) point: Point,
    pub(super) covariance: Covariance,
    pub(super) stands: Stands,
    /// Whether the readings of its fix contradict each other.
    pub(super) is_doubted: bool,
    /// When the fix was taken.
    pub(super) at: Instant,
    pub(super) trust: Trust,
    pub(super) norths: Norths,
}

/// What the car stands on.
#[derive(Debug, Clone)]
pub(super) enum Stands {
    /// A line, and its direction there.
    OnLine(Box<PlaceReport>, Point),
    /// None.
    InTheOpen(OpenPlace),
}

impl Car {
    /// The line it stands on, if it does.
    pub(super) fn line(&self) -> Option<&str> {
        match &self.stands {
            Stands::OnLine(place, _) => Some(&place.line),
            Stands::InTheOpen(_) => None,
        }
    }

    /// Grid reference with the digits that its spread deserves.
    pub(super) fn reference(&self) -> &str {
        match &self.stands {
            Stands::OnLine(place, _) => &place.reference,
            Stands::InTheOpen(place) => &place.reference,
        }
    }

    /// That the readings of its fix contradict each other, for as long as one reckons from it.
    pub(super) fn doubt(&self) -> Option<Message> {
        self.is_doubted.then(|| Message::new("kept-doubted").text("name", self.name.clone()))
    }

    /// Half-width at 95 %, metres: along the line, or the greater half-axis.
    pub(super) fn half_width_95_m(&self) -> f64 {
        match &self.stands {
            Stands::OnLine(place, _) => place.stretch.half_width_95_m(),
            Stands::InTheOpen(_) => PLANE_95 * self.covariance.ellipse().major_m,
        }
    }
}

/// A place with less of the probability is kept with a warning, where there are others.
const SURE_SHARE: f64 = 0.9;

impl Trip {
    /// That a place of the last fix is only one of several.
    pub(super) fn unsure(&self, kept: &KeptEntry) -> Option<Message> {
        let on_line = self.fix.as_ref().map(|taken| taken.report.places.iter().map(|place| place.stretch.share).collect::<Vec<_>>());
        let in_the_open = self.open.as_ref().map(|taken| taken.report.places.iter().map(|place| place.share).collect());
        let shares = in_the_open.or(on_line)?;
        let share = *shares.get(kept.stretch.wrapping_sub(1))?;
        let message = Message::new("kept-unsure").with("count", Arg::Count(shares.len() as i64)).with("share", Arg::Share(share));
        (shares.len() > 1 && share < SURE_SHARE).then_some(message)
    }

    /// A place of the last fix, from 1, as that of the car.
    pub(super) fn kept(&self, kept: &KeptEntry) -> Result<Car, Refusal> {
        let unknown = |count: usize| {
            let message = Message::new("stretch-unknown").with("number", Arg::Count(kept.stretch as i64));
            Refusal::new(message.with("count", Arg::Count(count as i64)))
        };
        let (name, index) = (kept.name.clone(), kept.stretch.wrapping_sub(1));
        if let Some(taken) = &self.open {
            let places = taken.fix.places();
            let (place, spot) = taken.report.places.get(index).zip(places.get(index)).ok_or_else(|| unknown(places.len()))?;
            let (stands, (point, covariance)) = (Stands::InTheOpen(place.clone()), *spot);
            let is_doubted = taken.fix.is_contradicted(&taken.slips);
            return Ok(Car { name, point, covariance, stands, is_doubted, at: taken.at, trust: taken.trust, norths: taken.norths.clone() });
        }
        let taken = self.fix.as_ref().ok_or_else(|| Refusal::plain("fix-needed"))?;
        let place = taken.report.places.get(index).ok_or_else(|| unknown(taken.report.places.len()))?;
        let (best, covariance) = (place.stretch.best, place.stretch.covariance);
        let stands = Stands::OnLine(Box::new(place.clone()), best.direction);
        let is_doubted = taken.fix.is_contradicted(&taken.slips);
        Ok(Car { name, point: best.at, covariance, stands, is_doubted, at: taken.at, trust: taken.trust, norths: taken.norths.clone() })
    }
}
