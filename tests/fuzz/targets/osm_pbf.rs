#![no_main]

use gatepost_core::exchange::Format;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| gatepost_fuzz::read(bytes, Format::OsmPbf, &gatepost_fuzz::rows));
