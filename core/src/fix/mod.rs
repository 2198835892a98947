//! Floor 5. Sightings, and what they say about where on a line one stands.
//!
//! The posterior over the distance along the line, with the compass error that all bearings
//! share summed out, is the fix. It is reported as stretches with their share of the probability.

mod crossing;
mod instrument;
mod odds;
mod report;
mod stretch;
mod take;

pub use crossing::Crossing;
pub use instrument::{Instrument, InstrumentError};
pub use odds::Odds;
pub use report::{CrossingReport, FixReport, PlaceReport, SightedReport};
pub use stretch::Stretch;
use take::SightedFrom;
pub use take::{BearingSighting, Fix, FixCaution, FixError, Sighted, take};
