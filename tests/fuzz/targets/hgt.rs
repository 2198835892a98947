//! Bytes as the name of a tile, up to the first line's end, and as its heights, repeated to a whole tile when the name begins with one.
#![no_main]

use std::ops::ControlFlow;

use gatepost_core::exchange::{WantedHeights, join_heights, read_heights};
use gatepost_core::measure::Telling;
use gatepost_core::words::Words;

/// Bytes of a tile of 1201 posts a side.
const WHOLE: usize = 1201 * 1201 * 2;

thread_local! {
    static WORDS: Words = Words::english();
}

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let end = bytes.iter().position(|byte| *byte == b'\n').unwrap_or(bytes.len());
    let (name, rest) = bytes.split_at(end);
    let name = format!("{}.hgt", String::from_utf8_lossy(name));
    let whole: Vec<u8> = if rest.is_empty() { Vec::new() } else { rest.iter().copied().cycle().take(WHOLE).collect() };
    let body = if name.starts_with('/') { rest } else { &whole };
    match read_heights(&name, body, &WantedHeights::default(), &mut |_| ControlFlow::Continue(())) {
        Ok(heights) => {
            assert!(heights.layout().posts() == Ok(heights.values_m().len()) && !heights.values_m().iter().any(|h| h.abs() > 12_000.0));
            assert!(join_heights(&[&heights, &heights]).is_ok_and(|joined| joined.layout() == heights.layout()));
        }
        Err(error) => WORDS.with(|words| assert!(words.knows(error.message().id), "{error:?}")),
    }
});
