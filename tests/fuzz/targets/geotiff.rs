//! Bytes as a picture of heights: whole, and cut to an area.
#![no_main]

use std::ops::ControlFlow;

use gatepost_core::earth::LatLon;
use gatepost_core::exchange::{WantedHeights, read_heights};
use gatepost_core::ground::{Bounds, Lattice};
use gatepost_core::measure::Telling;
use gatepost_core::words::Words;

thread_local! {
    static WORDS: Words = Words::english();
}

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let bounds = || Some(Bounds { south_west: LatLon::new(36.2, -84.3).ok()?, north_east: LatLon::new(36.3, -84.2).ok()? });
    for (bounds, lattice) in [(None, Some(Lattice::Geographic)), (bounds(), None)] {
        let wanted = WantedHeights { bounds, lattice, ..WantedHeights::default() };
        match read_heights("grid.tif", bytes, &wanted, &mut |_| ControlFlow::Continue(())) {
            Ok(heights) => assert!(heights.layout().posts() == Ok(heights.values_m().len()) && !heights.values_m().iter().any(|h| h.abs() > 12_000.0)),
            Err(error) => WORDS.with(|words| assert!(words.knows(error.message().id), "{error:?}")),
        }
    }
});
