//! A place with its norths and an instrument, for walkers whose errors are as stated.

use gatepost_core::earth::{Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{Instrument, Trust};
use gatepost_core::measure::{NamedBearing, North, Point};

/// Where walkers of our own making read a compass.
pub(crate) struct Stage {
    pub(crate) norths: Norths,
    pub(crate) trust: Trust,
}

impl Stage {
    pub(crate) fn with(instrument: Instrument) -> Self {
        let frame = LocalFrame::around(LatLon::new(58.6, 25.2).unwrap());
        let norths = Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap();
        Self { norths, trust: instrument.trust() }
    }

    /// One sigma of a reading and its rounding, degrees.
    pub(crate) fn own_deg(&self) -> f64 {
        self.trust.reading_spread_deg.hypot(self.trust.graduation_deg / 12f64.sqrt())
    }

    /// One sigma of the error that all readings share, degrees.
    pub(crate) fn shared_deg(&self) -> f64 {
        self.trust.shared_spread_deg.hypot(self.norths.declination_spread_deg())
    }

    /// A bearing of the plane as the compass shows it.
    pub(crate) fn shown(&self, plane_deg: f64, at: Point) -> NamedBearing {
        NamedBearing::new(plane_deg - self.norths.plane_minus_magnetic_deg(at), North::Magnetic)
    }
}
