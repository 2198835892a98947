//! Reads files of heights for `tests/rasters`: one request a line on standard input, one JSON reply a line.
//!
//! A request is JSON: `file`, and if wanted `name`, `grid` (a definition, or "degrees"), `bounds` (south, west, north, east),
//! `out` (a file for the heights: 32-bit decimals, lowest byte first, NaN for none) and `places` (latitude, longitude) to be told
//! as column and row.

use std::io::{BufRead, Write};
use std::ops::ControlFlow;
use std::time::Instant;

use gatepost_core::earth::{Grid, LatLon};
use gatepost_core::exchange::{WantedHeights, read_heights};
use gatepost_core::ground::{Bounds, Heights, Lattice};
use gatepost_core::measure::Telling;
use gatepost_core::words::Words;
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
struct Request {
    file: String,
    name: Option<String>,
    grid: Option<String>,
    bounds: Option<[f64; 4]>,
    out: Option<String>,
    #[serde(default)]
    places: Vec<[f64; 2]>,
}

type Failure = Box<dyn std::error::Error>;

fn wanted(request: &Request) -> Result<WantedHeights, Failure> {
    let lattice = match request.grid.as_deref() {
        None => None,
        Some("degrees") => Some(Lattice::Geographic),
        Some(grid) => Some(Lattice::Projected(Grid::named(grid)?)),
    };
    let bounds = match request.bounds {
        None => None,
        Some([south, west, north, east]) => Some(Bounds { south_west: LatLon::new(south, west)?, north_east: LatLon::new(north, east)? }),
    };
    Ok(WantedHeights { lattice, bounds, ..WantedHeights::default() })
}

fn reply(request: &Request) -> Result<Value, Failure> {
    let bytes = std::fs::read(&request.file)?;
    let name = request.name.as_ref().unwrap_or(&request.file);
    let started = Instant::now();
    let read = read_heights(name, &bytes, &wanted(request)?, &mut |_| ControlFlow::Continue(()));
    let ms = started.elapsed().as_secs_f64() * 1000.0;
    match read {
        Ok(heights) => told(request, &heights, ms),
        Err(error) => {
            let message = error.message();
            Ok(json!({ "refused": message.id, "sentence": Words::english().say(&message) }))
        }
    }
}

fn told(request: &Request, heights: &Heights, ms: f64) -> Result<Value, Failure> {
    if let Some(out) = &request.out {
        std::fs::write(out, heights.values_m().iter().flat_map(|value| value.to_le_bytes()).collect::<Vec<u8>>())?;
    }
    let layout = heights.layout();
    let lattice = match &layout.lattice {
        Lattice::Geographic => "degrees",
        Lattice::Projected(grid) => grid.definition(),
    };
    let mut posts = Vec::new();
    for [lat, lon] in &request.places {
        let post = layout.post_of(LatLon::new(*lat, *lon)?)?;
        posts.push([post.column, post.row]);
    }
    Ok(json!({
        "lattice": lattice, "columns": layout.columns, "rows": layout.rows, "west": layout.west, "north": layout.north,
        "step_east": layout.step_east, "step_south": layout.step_south, "ms": ms, "posts": posts,
        "sigma_m": heights.spread().sigma_m,
    }))
}

fn main() -> Result<(), Failure> {
    let mut output = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        let request: Request = serde_json::from_str(&line?)?;
        writeln!(output, "{}", reply(&request)?)?;
        output.flush()?;
    }
    Ok(())
}
