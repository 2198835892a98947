//! What Gatepost knows: where on a line one stands, what was walked, and the way back.
//!
//! The rooms stand on floors; a room imports only from floors below its own
//! (`DEVELOPERS.md`, "The house"). From [`measure`] to [`homeward`] everything is pure:
//! values in, values out, no clock, no file. [`engine`] is the one door for every shell.
//!
//! Degrees at every edge, radians only as locals ending in `_rad`; metres everywhere;
//! a spread is one standard deviation unless its name says otherwise; east is positive.

pub mod measure;

pub mod earth;

pub mod ground;

pub mod sheet;

pub mod fix;
pub mod travel;

pub mod homeward;

pub mod chart;
pub mod exchange;
pub mod logbook;
pub mod words;

pub mod engine;
