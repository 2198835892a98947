//! Asks the room `ground` about heights that a reference script names, one request on standard input, one answer in JSON on
//! standard output: what `tests/ground` and `tests/bench/ground` hold against other programs.

use std::error::Error;
use std::io::{Read, Write};
use std::time::Instant;

use gatepost_core::earth::{Grid, LatLon};
use gatepost_core::ground::{HeightSpread, Heights, Interval, Lattice, Layout, Post, Seen, Sight, Sightlines, Slope, Stand};
use gatepost_core::measure::TrueBearing;
use serde::Deserialize;
use serde_json::{Value, json};

/// Heights as numbers or as a file of 32-bit floats, row by row from the north-west; null and NaN are voids.
#[derive(Deserialize)]
struct Source {
    file: Option<String>,
    values_m: Option<Vec<Option<f32>>>,
    columns: usize,
    rows: usize,
    west: f64,
    north: f64,
    step_east: f64,
    step_south: f64,
    grid: Option<String>,
    sigma_m: f64,
    correlation_m: f64,
}

/// An eye and an object: column, row, metres above the ground of each.
type Pair = ([f64; 3], [f64; 3]);

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Task {
    Sights { pairs: Vec<Pair> },
    View { eye: [f64; 3], above_m: f64 },
    InSight { eyes: Vec<[f64; 2]>, eye_m: f64, objects: Vec<[f64; 3]>, within_m: f64, chance: bool },
    Dead { pairs: Vec<Pair> },
    Slopes { posts: Vec<[f64; 2]> },
    Contours { interval_m: f64, base_m: f64, tolerance_m: Option<f64>, lines: bool },
    Profile { from: [f64; 2], to: [f64; 2], step_m: f64 },
    Horizon { eyes: Vec<[f64; 3]>, eye_m: f64 },
}

#[derive(Deserialize)]
struct Request {
    heights: Source,
    task: Task,
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut text = String::new();
    std::io::stdin().lock().read_to_string(&mut text)?;
    let request: Request = serde_json::from_str(&text)?;
    let heights = request.heights.read()?;
    writeln!(std::io::stdout().lock(), "{}", answer(&heights, request.task)?)?;
    Ok(())
}

impl Source {
    fn read(self) -> Result<Heights, Box<dyn Error>> {
        let values = match (&self.file, self.values_m) {
            (Some(file), _) => floats(&std::fs::read(file)?),
            (None, Some(values)) => values.into_iter().map(|value| value.unwrap_or(f32::NAN)).collect(),
            (None, None) => return Err("neither file nor values_m".into()),
        };
        let lattice = match &self.grid {
            None => Lattice::Geographic,
            Some(definition) => Lattice::Projected(Grid::named(definition).map_err(|error| format!("{error:?}"))?),
        };
        let layout = Layout {
            lattice,
            columns: self.columns,
            rows: self.rows,
            west: self.west,
            north: self.north,
            step_east: self.step_east,
            step_south: self.step_south,
        };
        let spread = HeightSpread { sigma_m: self.sigma_m, correlation_m: self.correlation_m };
        Ok(Heights::new(layout, spread, values)?)
    }
}

fn floats(bytes: &[u8]) -> Vec<f32> {
    let number = |four: &[u8]| four.try_into().map_or(f32::NAN, f32::from_le_bytes);
    bytes.chunks_exact(4).map(number).collect()
}

fn answer(heights: &Heights, task: Task) -> Result<Value, Box<dyn Error>> {
    let started = Instant::now();
    let lines = Sightlines::over(heights).map_err(|error| format!("{error:?}"))?;
    let built_s = started.elapsed().as_secs_f64();
    let pair = |(eye, object): &Pair| (stand(*eye), stand(*object));
    Ok(match task {
        Task::Sights { pairs } => pairs.iter().map(pair).map(|(eye, object)| told(&lines.sight(eye, object))).collect(),
        Task::View { eye, above_m } => view(&lines, heights.layout(), stand(eye), above_m),
        Task::InSight { eyes, eye_m, objects, within_m, chance } => {
            let eyes: Vec<Post> = eyes.into_iter().map(|[column, row]| Post { column, row }).collect();
            let objects: Vec<Stand> = objects.into_iter().map(stand).collect();
            let started = Instant::now();
            let seen = if chance {
                json!(lines.chances(&eyes, eye_m, &objects, within_m))
            } else {
                json!(lines.in_sight(&eyes, eye_m, &objects, within_m))
            };
            let first_s = started.elapsed().as_secs_f64();
            let started = Instant::now();
            let again = if chance { 0 } else { lines.in_sight(&eyes, eye_m, &objects, within_m).len() };
            json!({ "seen": seen, "built_s": built_s, "first_s": first_s, "again_s": started.elapsed().as_secs_f64(), "objects": again })
        }
        Task::Dead { pairs } => pairs.iter().map(pair).map(|(eye, object)| dead(&lines, eye, object)).collect(),
        Task::Slopes { posts } => {
            posts.into_iter().map(|[column, row]| json!(slope(heights.slope_at_post(Post { column, row })))).collect()
        }
        Task::Contours { interval_m, base_m, tolerance_m, lines } => {
            let started = Instant::now();
            let contours = heights.contours(Interval { interval_m, base_m })?;
            let took_s = started.elapsed().as_secs_f64();
            let count: usize = contours.iter().map(|contour| contour.posts.len()).sum();
            let shown = contours.iter().filter(|_| lines).map(|contour| {
                let kept = tolerance_m.map_or_else(|| contour.clone(), |tolerance_m| contour.simplified(tolerance_m, (1.0, 1.0)));
                let posts: Vec<[f64; 2]> = kept.posts.iter().map(|post| [post.column, post.row]).collect();
                json!({ "height_m": contour.height_m, "index": contour.index, "closed": contour.closed, "depression": contour.depression, "posts": posts })
            });
            json!({ "lines": shown.collect::<Value>(), "count": contours.len(), "places": count, "took_s": took_s })
        }
        Task::Horizon { eyes, eye_m } => {
            let sights = Sightlines::over(heights)?;
            let angle = |[lat, lon, bearing]: [f64; 3]| {
                let seen = LatLon::new(lat, lon).ok().and_then(|eye| sights.horizon(eye, eye_m, TrueBearing::new(bearing)));
                json!(seen.map(|seen| (seen.elevation_deg, seen.distance_m, seen.known_to_m)))
            };
            let started = Instant::now();
            let told: Value = eyes.into_iter().map(angle).collect();
            json!({ "told": told, "took_s": started.elapsed().as_secs_f64() })
        }
        Task::Profile { from, to, step_m } => {
            let [from, to] = [from, to].map(|[lat, lon]| LatLon::new(lat, lon));
            let profile = heights.profile(from?, to?, step_m)?;
            let heights_m: Vec<Option<f64>> = profile.samples.iter().map(|sample| sample.height_m).collect();
            let steepest = profile.steepest.map(|steepest| (steepest.from_m, steepest.to_m, steepest.slope_deg));
            json!({ "heights_m": heights_m, "length_m": profile.length_m, "climb_m": profile.climb_m,
                    "descent_m": profile.descent_m, "steepest": steepest })
        }
    })
}

fn stand([column, row, above_m]: [f64; 3]) -> Stand {
    Stand::at(Post { column, row }, above_m)
}

fn told(sight: &Sight) -> Value {
    let seen = match sight.seen {
        Seen::Clear => "clear".to_owned(),
        Seen::Hidden => "hidden".to_owned(),
        Seen::NotToBeTold(why) => format!("{why:?}").to_lowercase(),
    };
    json!({ "seen": seen, "chance": sight.chance, "margin_m": sight.margin_m, "distance_m": sight.distance_m, "drop_m": sight.drop_m,
            "nearest_m": sight.nearest.map(|on| on.distance_m) })
}

/// Every post of the grid as the object: the margin, or null.
fn view(lines: &Sightlines<'_>, layout: &Layout, eye: Stand, above_m: f64) -> Value {
    let post = |i: usize| Post { column: (i % layout.columns) as f64, row: (i / layout.columns) as f64 };
    let margin = |i: usize| lines.sight(eye, Stand::at(post(i), above_m)).margin_m;
    let started = Instant::now();
    let margins: Vec<Option<f64>> = (0..layout.columns * layout.rows).map(margin).collect();
    json!({ "margins_m": margins, "took_s": started.elapsed().as_secs_f64() })
}

fn dead(lines: &Sightlines<'_>, eye: Stand, object: Stand) -> Value {
    let found = lines.dead_ground(eye, object.post, object.above_m);
    json!(found.map(|dead| dead.stretches.iter().map(|stretch| [stretch.from_m, stretch.to_m]).collect::<Vec<_>>()))
}

fn slope(slope: Option<Slope>) -> Option<[Option<f64>; 5]> {
    slope.map(|slope| {
        let aspect = slope.aspect;
        let degrees = aspect.map(|aspect| aspect.falls_to.degrees());
        [Some(slope.slope_deg), Some(slope.percent), Some(slope.spread_deg), degrees, aspect.map(|aspect| aspect.spread_deg)]
    })
}
