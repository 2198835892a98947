//! Reads lines of "latitude longitude" in degrees and writes the MGRS reference of each to the metre:
//! what the benchmark `tests/bench/convert` holds against other programs.

use std::io::{BufRead, BufWriter, Write};

use gatepost_core::earth::{DIGITS_FULL, LatLon, mgrs_of};

fn main() -> std::io::Result<()> {
    let mut output = BufWriter::new(std::io::stdout().lock());
    let mut line = String::new();
    let mut input = std::io::stdin().lock();
    while input.read_line(&mut line)? > 0 {
        let mut numbers = line.split_ascii_whitespace().map(str::parse::<f64>);
        match (numbers.next(), numbers.next()) {
            (Some(Ok(lat)), Some(Ok(lon))) => match LatLon::new(lat, lon) {
                Ok(at) => writeln!(output, "{}", mgrs_of(at, DIGITS_FULL))?,
                Err(error) => writeln!(output, "{error}")?,
            },
            _ => writeln!(output, "no numbers")?,
        }
        line.clear();
    }
    output.flush()
}
