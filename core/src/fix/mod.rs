//! Floor 5. Sightings, and what they say about where on a line one stands.
//!
//! The posterior over the distance along the line, with the compass error that all bearings
//! share summed out, is the fix. It is reported as stretches with their share of the probability.

mod cautions;
mod check;
mod crossing;
mod instrument;
mod next;
mod odds;
mod report;
mod sighted;
mod stretch;
mod take;
mod weigh;

pub use cautions::FixCaution;
pub use check::{Check, Verdict};
pub use crossing::Crossing;
pub use instrument::{Instrument, InstrumentError, Trust};
pub use next::NextSight;
pub use odds::Odds;
pub use report::{CrossingReport, FixReport, PlaceReport, SightedReport};
pub use sighted::{BearingSighting, Sighted};
pub use stretch::Stretch;
pub use take::{Fix, FixError, take};
