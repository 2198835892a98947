//! The fix in the open against published and reference values, and its areas against simulated walkers.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]
#![allow(clippy::print_stdout, reason = "figures that are measured, not held")]

mod coverage;
mod feet;
mod next;
mod odds;
mod squares;
mod told;

use serde_json::Value;

use super::equation::{Equation, Mark, Reading};
use super::*;
use crate::earth::{Grid, LatLon, LocalFrame, Norths, date_of};
use crate::measure::Point;

/// A case file, by its name below `tests/tables`.
fn vectors(name: &str) -> Value {
    let path = format!("{}/../tests/tables/{name}.json", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).expect("case file")).expect("JSON")
}

fn number(of: &Value, key: &str) -> f64 {
    of[key].as_f64().unwrap_or_else(|| panic!("no number {key} in {of}"))
}

fn list(of: &Value, key: &str) -> Vec<f64> {
    of[key].as_array().expect("list").iter().map(|one| one.as_f64().expect("number")).collect()
}

fn mark(told: &Value, name: &Value) -> Mark {
    let found = told["marks"].as_array().expect("marks").iter().find(|one| one["id"] == *name).expect("mark");
    Mark { at: Point::new(number(found, "east_m"), number(found, "north_m")), spread_m: found["spread_m"].as_f64().unwrap_or(0.0) }
}

/// The equations of a case; bearings to one thing together. Nothing for kinds that are no business of this room.
fn equations_of(told: &Value) -> Option<Vec<Equation>> {
    let mut all: Vec<Equation> = Vec::new();
    for one in told["readings"].as_array().expect("readings") {
        match one["kind"].as_str().expect("kind") {
            "bearing" => {
                let names: Vec<&Value> = one["marks"].as_array().map_or_else(|| vec![&one["mark"]], |names| names.iter().collect());
                let candidates: Vec<Mark> = names.into_iter().map(|name| mark(told, name)).collect();
                let reading =
                    Reading { plane_deg: number(one, "bearing_deg"), per_m: Point::default(), own_deg: number(one, "spread_deg") };
                let same = all.iter_mut().find_map(|other| match other {
                    Equation::Bearing { candidates: others, readings, .. } if *others == candidates => Some(readings),
                    Equation::Bearing { .. } | Equation::Angle { .. } | Equation::Distance { .. } => None,
                });
                match same {
                    Some(readings) => readings.push(reading),
                    None => all.push(Equation::Bearing { candidates, readings: vec![reading], sightings: vec![0] }),
                }
            }
            "angle" => all.push(Equation::Angle {
                left: mark(told, &one["from"]),
                right: mark(told, &one["to"]),
                angle_deg: number(one, "angle_deg"),
                own_deg: number(one, "spread_deg"),
                sighting: 0,
                again: 1.0,
            }),
            "distance" => all.push(Equation::Distance {
                mark: mark(told, &one["mark"]),
                distance_m: number(one, "distance_m"),
                own_m: number(one, "spread_m"),
                sighting: 0,
                again: 1.0,
            }),
            "ridge" => {}
            _ => return None,
        }
    }
    Some(all)
}

fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(36.59, -84.25).expect("place"));
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").expect("date")).expect("norths")
}

/// A small generator with a fixed start, so that the runs are the same everywhere (Marsaglia 2003, xorshift).
struct Dice(u64);

impl Dice {
    fn even(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (-2.0 * (1.0 - self.even()).ln()).sqrt() * (std::f64::consts::TAU * self.even()).cos()
    }
}
