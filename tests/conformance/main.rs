//! Holds the whole to the outside world.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

mod after;
mod again;
mod architecture;
mod codes;
mod command;
mod coverage;
mod fits;
mod fix;
mod imports;
mod imports_again;
mod imports_minded;
mod imports_named;
mod imports_told;
mod logbook;
mod memory;
mod minded;
mod next;
mod open;
mod photo;
mod ridges;
mod run;
mod scenes;
mod seen;
mod slips;
mod stage;
mod strip;
mod vague;
mod vectors;
mod way_back;
mod weighed_in;
mod witness;
