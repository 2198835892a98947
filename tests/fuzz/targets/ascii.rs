//! Bytes as an ASCII grid, on degrees and on a projected grid.
#![no_main]

use std::ops::ControlFlow;

use gatepost_core::earth::Grid;
use gatepost_core::exchange::{WantedHeights, read_heights};
use gatepost_core::ground::Lattice;
use gatepost_core::measure::Telling;
use gatepost_core::words::Words;

thread_local! {
    static WORDS: Words = Words::english();
}

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let projected = Grid::named("33N").map(Lattice::Projected).ok();
    for lattice in [Some(Lattice::Geographic), projected, None] {
        match read_heights("grid.asc", bytes, &WantedHeights { lattice, ..WantedHeights::default() }, &mut |_| ControlFlow::Continue(())) {
            Ok(heights) => assert!(heights.layout().posts() == Ok(heights.values_m().len()) && !heights.values_m().iter().any(|h| h.abs() > 12_000.0)),
            Err(error) => WORDS.with(|words| assert!(words.knows(error.message().id), "{error:?}")),
        }
    }
});
