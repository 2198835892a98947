//! Floor 5. Sightings, and what they say about where on a line one stands.
//!
//! The posterior over the distance along the lines that may be stood on, with the compass error that all
//! bearings share and the identity of what was sighted summed out, is the fix. It is reported as stretches with their share of the probability.

mod account;
mod agreeing;
mod bell;
mod cautions;
mod check;
mod counted;
mod crossing;
mod curve;
mod directed;
mod error;
mod facing;
mod fit;
mod instrument;
mod left_out;
mod next;
mod nowhere;
mod odds;
mod on_line;
mod open;
mod passes;
mod plain;
mod plains;
mod report;
mod said;
mod scene;
mod shared;
mod sighted;
mod sighting;
mod slip;
mod steps;
mod stretch;
mod table;
mod take;
mod weigh;

pub use account::Account;
pub use cautions::FixCaution;
pub use check::{
    Check, Misplaced, SlipOfFix, Standing, There, Told, Verdict, WitnessSlip, WitnessSlipKind, WitnessSlips, misplaced, witness_slips,
};
pub use crossing::Crossing;
pub use error::FixError;
pub use facing::{Facing, Spot, Way};
pub use fit::{Fit, Off};
pub use instrument::{Instrument, InstrumentError, Trust};
pub use next::{NextSight, NextWhat, next_sights};
pub use odds::Odds;
pub use open::{
    Bounds, Cell, Measured, OpenCaution, OpenError, OpenFix, OpenGround, OpenOdds, OpenPlace, OpenReport, OpenScene, OpenSeen,
    OpenSeenReport, OpenShape, OpenSighting, OpenWitness, Region, ResectionError, SharedTurn, Squares, open_next, open_slips,
    open_slips_beside_place, resect, take_open,
};
pub use plain::seen_likelihood;
pub use report::{CrossingReport, FixReport, PlaceReport, SightedReport, SlipPlace};
pub use said::{
    GroundSaid, HereKind, Lattice, Lay, SaidAt, along, distance_along, kinds_along, said_along, witness_along, witness_likelihood,
};
pub use scene::{Choice, Scene, WRONG_READING};
pub use sighted::Sighted;
pub use sighting::{BearingSighting, Counter, Figure, MeasuredSighting, OtherPoint, Quarter, Run, RunningSighting, Sighting, told_apart};
pub use slip::{Also, Beside, OnOther, Slip, SlipKind, Slips, Then, ThenPlace, slips, slips_beside_place};
pub use stretch::Stretch;
pub use table::{Fits, GroundSighting, Table};
pub use take::{Fix, FixLine, take};
