//! Tells the landforms of a grid of heights: what `tests/landforms/run` holds against its reference.
//!
//! Argument 1: a JSON file with the layout and the heights. Arguments 2 and 3, optional: `time`, to tell milliseconds instead;
//! `weigh` and a JSON file of landforms seen from somewhere on a line, to tell how well each place of the line fits.

use std::io::{BufReader, Error, Write};
use std::time::Instant;

use gatepost_core::earth::LocalFrame;
use gatepost_core::ground::{
    Footing, HeightSpread, Heights, Landform, LandformKind, LandformScale, LandformTable, Lattice, Layout, Post, Rise, SeenLandform, Trend,
    aspect_log_likelihood, forms, landforms, landforms_near, rise_log_likelihood,
};
use gatepost_core::measure::{Point, Telling, TrueBearing};
use gatepost_core::words::Words;
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
struct Given {
    columns: usize,
    rows: usize,
    west: f64,
    north: f64,
    step_east: f64,
    step_south: f64,
    sigma_m: f64,
    correlation_m: f64,
    values_m: Vec<f32>,
}

/// Places asked in the timed run.
const EYES: u32 = 10_000;

fn main() -> Result<(), Error> {
    let mut args = std::env::args().skip(1);
    let path = args.next().ok_or_else(|| Error::other("name a file of heights"))?;
    let heights = read(&path)?;
    let told = match args.next().as_deref() {
        Some("time") => timed(&heights)?,
        Some("weigh") => weighed(&heights, &args.next().ok_or_else(|| Error::other("name a file of landforms seen"))?)?,
        _ => found(&heights)?,
    };
    writeln!(std::io::stdout().lock(), "{told}")
}

fn read(path: &str) -> Result<Heights, Error> {
    let given: Given = serde_json::from_reader(BufReader::new(std::fs::File::open(path)?))?;
    let layout = Layout {
        lattice: Lattice::Geographic,
        columns: given.columns,
        rows: given.rows,
        west: given.west,
        north: given.north,
        step_east: given.step_east,
        step_south: given.step_south,
    };
    let spread = HeightSpread { sigma_m: given.sigma_m, correlation_m: given.correlation_m };
    Heights::new(layout, spread, given.values_m).map_err(Error::other)
}

fn found(heights: &Heights) -> Result<Value, Error> {
    let scale = LandformScale::default();
    let shapes = forms(heights, &scale).map_err(Error::other)?;
    let shapes: Vec<Option<String>> = shapes.into_iter().map(|form| form.map(|form| format!("{form:?}"))).collect();
    let all: Vec<Value> = landforms(heights, &scale).map_err(Error::other)?.iter().map(told).collect();
    Ok(json!({ "sight_m": scale.sight_m, "around_m": scale.around_m, "level_deg": scale.level_deg,
        "least_relief_m": scale.least_relief_m, "least_strength": scale.least_strength, "forms": shapes, "landforms": all, "said": said(heights, &scale)? }))
}

fn told(landform: &Landform) -> Value {
    json!({ "kind": landform.kind.word(), "row": landform.post.row, "column": landform.post.column, "lat": landform.at.lat_deg(),
        "lon": landform.at.lon_deg(), "height_m": landform.height_m, "relief_m": landform.relief_m, "strength": landform.strength,
        "reach_m": landform.reach_m })
}

/// The nearest landform of each kind, the rise and the aspect at the middle of the grid, in sentences.
fn said(heights: &Heights, scale: &LandformScale) -> Result<Vec<String>, Error> {
    let (words, middle) = (Words::english(), middle(heights));
    let at = heights.layout().place_of(middle).map_err(Error::other)?;
    let around = landforms_near(heights, at, 10_000.0, scale).map_err(Error::other)?;
    let nearest = LandformKind::ALL.iter().filter_map(|kind| around.iter().find(|one| one.landform.kind == *kind));
    let footing = Footing::new(heights, at).map_err(Error::other)?;
    let rises = [0.0, 90.0, 180.0, 270.0].into_iter().filter_map(|deg| footing.rise(middle, TrueBearing::new(deg), Rise::USUAL_M));
    let messages =
        nearest.map(Telling::message).chain(rises.map(|rise| rise.message())).chain(footing.aspect(middle).map(|aspect| aspect.message()));
    Ok(messages.map(|message| words.say(&message)).collect())
}

#[derive(Deserialize)]
struct Seen {
    kind: String,
    bearing_deg: f64,
    bearing_spread_deg: f64,
    distance_m: f64,
    distance_factor: f64,
    /// Places of the line, metres east and north of the grid's middle.
    eyes_m: Vec<(f64, f64)>,
}

/// For each landform seen, how well every place of its line fits.
fn weighed(heights: &Heights, path: &str) -> Result<Value, Error> {
    let given: Vec<Seen> = serde_json::from_reader(BufReader::new(std::fs::File::open(path)?))?;
    let frame = LocalFrame::around(heights.layout().place_of(middle(heights)).map_err(Error::other)?);
    let table = LandformTable::new(&landforms(heights, &LandformScale::default()).map_err(Error::other)?, &frame);
    let weigh = |one: &Seen| {
        let Seen { bearing_deg, bearing_spread_deg, distance_m, distance_factor, .. } = *one;
        let kind = LandformKind::ALL.into_iter().find(|kind| kind.word() == one.kind)?;
        let seen = SeenLandform { kind, bearing_deg, bearing_spread_deg, distance_m, distance_factor };
        Some(one.eyes_m.iter().map(|(east_m, north_m)| table.log_likelihood(Point::new(*east_m, *north_m), &seen)).collect::<Vec<f64>>())
    };
    Ok(json!(given.iter().map(weigh).collect::<Vec<_>>()))
}

fn middle(heights: &Heights) -> Post {
    Post { column: heights.layout().columns as f64 / 2.0, row: heights.layout().rows as f64 / 2.0 }
}

/// Milliseconds of each step on a grid: the table of landforms, then 10,000 places along its diagonal held against three words.
fn timed(heights: &Heights) -> Result<Value, Error> {
    let layout = heights.layout();
    let middle = layout.place_of(middle(heights)).map_err(Error::other)?;
    let frame = LocalFrame::around(middle);
    let start = Instant::now();
    let all = landforms(heights, &LandformScale::default()).map_err(Error::other)?;
    let landforms_ms = start.elapsed().as_secs_f64() * 1e3;
    let start = Instant::now();
    let table = LandformTable::new(&all, &frame);
    let table_ms = start.elapsed().as_secs_f64() * 1e3;
    let eyes = (0..EYES).map(|eye| Point::polar(f64::from(eye) - 5000.0, 45.0));
    let start = Instant::now();
    let mut seen =
        SeenLandform { kind: LandformKind::Spur, bearing_deg: 40.0, bearing_spread_deg: 5.0, distance_m: 400.0, distance_factor: 1.5 };
    let mut sums = [0.0; 4];
    for eye in eyes.clone() {
        sums[0] += table.log_likelihood(eye, &seen);
    }
    let seen_ms = start.elapsed().as_secs_f64() * 1e3;
    let start = Instant::now();
    (seen.bearing_spread_deg, seen.distance_m) = (30.0, 1000.0);
    for eye in eyes.clone() {
        sums[1] += table.log_likelihood(eye, &seen);
    }
    let vaguely_seen_ms = start.elapsed().as_secs_f64() * 1e3;
    let posts: Vec<Post> = eyes.filter_map(|eye| layout.post_of(frame.to_earth(eye)).ok()).collect();
    let footing = Footing::new(heights, middle).map_err(Error::other)?;
    let bearing = TrueBearing::new(40.0);
    let start = Instant::now();
    for post in &posts {
        sums[2] += rise_log_likelihood(footing.rise(*post, bearing, Rise::USUAL_M).as_ref(), Trend::Rises);
    }
    let rise_ms = start.elapsed().as_secs_f64() * 1e3;
    let start = Instant::now();
    for post in &posts {
        sums[3] += aspect_log_likelihood(footing.aspect(*post).as_ref(), bearing, 15.0);
    }
    let aspect_ms = start.elapsed().as_secs_f64() * 1e3;
    Ok(
        json!({ "posts": layout.columns * layout.rows, "landforms": all.len(), "landforms_ms": landforms_ms, "table_ms": table_ms, "eyes": EYES,
        "seen_ms": seen_ms, "vaguely_seen_ms": vaguely_seen_ms, "rise_ms": rise_ms, "aspect_ms": aspect_ms, "sums": sums }),
    )
}
