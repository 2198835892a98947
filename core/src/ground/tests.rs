//! Constructed grounds whose answers are known by hand; open heights and other programs are asked in `tests/ground`.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

mod lines;
mod sights;

use super::{HeightSpread, Heights, Lattice, Layout, Post};

/// Three seconds of arc.
const STEP: f64 = 3.0 / 3600.0;

/// Heights by column and row on a degree grid whose first post lies at 46 N 7 E.
fn ground(columns: usize, rows: usize, sigma_m: f64, height_m: impl Fn(usize, usize) -> f32) -> Heights {
    let layout = Layout { lattice: Lattice::Geographic, columns, rows, west: 7.0, north: 46.0, step_east: STEP, step_south: STEP };
    let values = (0..rows).flat_map(|row| (0..columns).map(move |column| (column, row))).map(|(column, row)| height_m(column, row));
    Heights::new(layout, HeightSpread { sigma_m, correlation_m: 300.0 }, values.collect()).expect("heights")
}

fn at(column: f64, row: f64) -> Post {
    Post { column, row }
}

/// A number between 0 and 1 that looks random, the same for the same seed (the mixer of `SplitMix64`).
fn mixed(seed: usize) -> f64 {
    let mut z = (seed as u64).wrapping_add(1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
}

/// Errors of posts in a row, of one sigma, whose correlation falls as `exp(-distance)` of so many lengths from post to post: each is its share of the
/// one before and a normal number of its own (G. E. P. Box and M. E. Muller (1958)).
fn drawn_errors(count: usize, lengths: f64, draw: usize) -> Vec<f64> {
    let normal = |i: usize| {
        let seed = 2 * (draw * count + i);
        (-2.0 * (1.0 - mixed(seed)).ln()).sqrt() * (std::f64::consts::TAU * mixed(seed + 1)).cos()
    };
    let shared = (-lengths).exp();
    let mut last = normal(0);
    let next = |i: usize| {
        last = if i == 0 { last } else { shared * last + (1.0 - shared * shared).sqrt() * normal(i) };
        last
    };
    (0..count).map(next).collect()
}

/// Rough hills.
fn hills(column: usize, row: usize) -> f32 {
    let (x, y) = (column as f64, row as f64);
    (600.0 + 90.0 * (x / 9.0).sin() * (y / 7.0).cos() + 40.0 * (x / 3.1 + y / 4.3).sin() + 12.0 * mixed(column * 1000 + row)) as f32
}
