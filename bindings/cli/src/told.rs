//! From arguments to records, and the files that only a desk has.

use std::io::{ErrorKind, IsTerminal, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use gatepost_core::engine::{Brought, Engine, Refusal};
use gatepost_core::exchange::MOST_HEIGHTS_BYTES;
use gatepost_core::measure::{Arg, Message};
use gatepost_core::words::Words;
use serde_json::{Map, Value, json};
use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::iterator::Signals;

use crate::args::{Cli, CompassArgs, DrawArgs, ImportArgs, LegArgs, NorthsArgs, PhotoArgs, Task};
use crate::output::drawn;
use crate::sightings::fix_record;

/// Questions need no logbook, and make none; of a trip that is there they use the sheet: it completes short references.
pub(crate) fn logbook(cli: &Cli) -> Option<PathBuf> {
    let of_bearings = matches!(&cli.task, Task::Mean(_)) || matches!(&cli.task, Task::Turn(ask) if ask.place.is_none());
    let of_places = matches!(&cli.task, Task::Turn(ask) if ask.place.is_some())
        || matches!(cli.task, Task::Norths(_) | Task::Place(_) | Task::Between(_) | Task::Light(_))
        || matches!(&cli.task, Task::Attraction(ask) if ask.place.is_some())
        || matches!(&cli.task, Task::Compass(ask) if ask.place.is_some() && !ask.keep);
    let question = of_bearings || (of_places && !cli.logbook.exists());
    (!question).then(|| cli.logbook.clone())
}

fn now() -> String {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    let time = chrono::DateTime::from_timestamp_millis(i64::try_from(since.as_millis()).unwrap_or_default()).unwrap_or_default();
    time.to_rfc3339_opts(chrono::SecondsFormat::Secs, true)
}

/// The record that the arguments stand for.
pub(crate) fn record(cli: &Cli) -> Result<Value, Refusal> {
    let mut record = match &cli.task {
        Task::Sheet { file } => sheet(file)?,
        Task::Pace(pace) => json!({
            "do": "pace", "double_paces_per_100_m": pace.double, "single_paces_per_100_m": pace.single, "spread_percent": pace.spread_percent
        }),
        Task::Fix(fix) => fix_record(fix),
        Task::Check(check) => json!({ "do": "check", "place": check.place, "spread_m": check.spread_m }),
        Task::Keep(keep) => json!({ "do": "keep", "stretch": keep.place, "name": keep.name }),
        Task::Leg(leg) => leg_record(leg)?,
        Task::Where => json!({ "do": "where" }),
        Task::Back => json!({ "do": "back" }),
        Task::TurnRound => json!({ "do": "turn-round" }),
        Task::Reached => json!({ "do": "reached" }),
        Task::Light(ask) => json!({
            "do": "light", "place": ask.place, "height_m": ask.height_m, "pressure_hpa": ask.pressure_hpa, "temperature_c": ask.temperature_c
        }),
        Task::Compass(ask) => compass_record(ask),
        Task::Mean(ask) => return Ok(json!({ "do": "mean", "bearings": ask.bearings })),
        Task::Attraction(ask) => json!({ "do": "attraction", "field_ut": ask.field_ut, "up": ask.up, "place": ask.place }),
        Task::Witness(ask) => {
            let seen_at = ask.seen_at.clone().or_else(|| cli.at.clone()).unwrap_or_else(now);
            json!({ "do": "witness", "lat_deg": ask.lat, "lon_deg": ask.lon, "accuracy_m": ask.accuracy_m, "seen_at": seen_at })
        }
        Task::Seen(ask) => json!({ "do": "seen", "place": ask.place, "eye_m": ask.eye_m, "within_m": ask.within_m, "to": ask.to }),
        Task::Sights(ask) => return Ok(json!({ "do": "sights", "named": ask.named.clone().unwrap_or_default() })),
        Task::Lines(ask) => return Ok(json!({ "do": "lines", "named": ask.named.clone().unwrap_or_default() })),
        Task::Points(ask) => {
            return Ok(json!({ "do": "points", "named": ask.named.clone().unwrap_or_default(), "lines": ask.line, "from": ask.from }));
        }
        Task::Undo => json!({ "do": "undo" }),
        Task::Close => json!({ "do": "close" }),
        Task::Chart(chart) => return Ok(json!({ "do": "chart", "of": chart.of, "theme": chart.theme })),
        Task::Profile(ask) => {
            return Ok(json!({ "do": "profile", "from": ask.from, "to": ask.to, "step_m": ask.step_m, "eye_m": ask.eye_m }));
        }
        Task::Ground(ask) => json!({ "do": "ground", "place": ask.place, "to": ask.to }),
        Task::Draw(ask) => draw_record(ask)?,
        Task::Photo(ask) => photo_record(ask)?,
        Task::Contours(ask) => {
            return Ok(json!({
                "do": "contours", "interval_m": ask.interval_m, "interval_ft": ask.interval_ft, "svg": drawn(&ask.file), "theme": ask.theme
            }));
        }
        Task::Norths(ask) => return Ok(norths_record(ask)),
        Task::Place(ask) => {
            return Ok(json!({
                "do": "place", "place": ask.place, "beginning": ask.beginning, "digits": ask.digits, "grid": ask.grid
            }));
        }
        Task::Between(ask) => {
            return Ok(json!({ "do": "between", "from": ask.from, "to": ask.to, "grid": ask.grid, "date": ask.date }));
        }
        Task::Turn(ask) => {
            // At a place the date of the declination is today unless another is named.
            let today = || cli.at.clone().unwrap_or_else(now).chars().take_while(|c| *c != 'T').collect();
            let date = ask.date.clone().or_else(|| ask.place.as_ref().map(|_| today()));
            return Ok(json!({
                "do": "turn", "bearing": ask.bearing, "to": ask.to, "unit": cli.unit, "spread_deg": ask.spread_deg,
                "declination_deg": ask.declination_deg, "declination_spread_deg": ask.declination_spread_deg,
                "convergence_deg": ask.convergence_deg, "convergence_spread_deg": ask.convergence_spread_deg, "place": ask.place, "date": date,
                "grid": ask.grid
            }));
        }
        // A file's bytes go to the engine as they are.
        Task::Import(_) | Task::Records => Value::Null,
    };
    if let Some(fields) = record.as_object_mut() {
        fields.insert("at".into(), cli.at.clone().unwrap_or_else(now).into());
    }
    Ok(record)
}

fn number(text: &str) -> Result<f64, Refusal> {
    let unreadable = || Refusal::new(Message::new("distance-unreadable").text("typed", text));
    text.trim().parse::<f64>().ok().filter(|number| number.is_finite()).ok_or_else(unreadable)
}

/// A place on a photo counts in pixels.
fn pixels(text: &str) -> Result<f64, Refusal> {
    number(text).map_err(|_| Refusal::new(Message::new("photo-pixels-unreadable").text("typed", text)))
}

fn draw_record(ask: &DrawArgs) -> Result<Value, Refusal> {
    let typed = ask.lines.iter().filter_map(|line| line.split_first_chunk::<2>());
    let lines: Vec<Value> = typed.map(|([kind, name], points)| json!({ "name": name, "kind": kind, "points": points })).collect();
    let landmark = |three: &[String]| json!({ "kind": three.first(), "name": three.get(1), "at": three.get(2), "height_m": ask.height_m });
    let landmarks: Vec<Value> = ask.landmark.chunks(3).map(landmark).collect();
    let known: Vec<Value> =
        ask.known.chunks(3).map(|three| json!({ "on": three.first(), "name": three.get(1), "at": three.get(2) })).collect();
    let spots = [spots(&ask.spot, "height_m")?, spots(&ask.spot_ft, "height_ft")?].concat();
    let norths = ask.diagram_year.map(|year| {
        json!({
            "declination_deg": ask.printed_declination_deg, "grid_magnetic_deg": ask.printed_grid_magnetic_deg, "year": year,
            "annual_change_min": ask.printed_change_min
        })
    });
    Ok(json!({
        "do": "sheet", "name": ask.name, "norths": norths, "beginning": ask.beginning, "grid": ask.grid, "scale": ask.scale,
        "printed_year": ask.printed_year, "lines": lines, "landmarks": landmarks, "known_points": known, "spots": spots, "strike": ask.strike
    }))
}

/// Spot heights, each where it is and how high, in the unit of a field.
fn spots(typed: &[String], field: &str) -> Result<Vec<Value>, Refusal> {
    let spot = |pair: &[String]| {
        let (at, height) = (pair.first(), pair.get(1).map_or("", String::as_str));
        let unreadable = |_| Refusal::new(Message::new("height-unreadable").text("typed", height));
        Ok(json!({ "at": at, field: number(height).map_err(unreadable)? }))
    };
    typed.chunks(2).map(spot).collect()
}

fn photo_record(ask: &PhotoArgs) -> Result<Value, Refusal> {
    let mut marks = Vec::new();
    for three in ask.mark.chunks(3) {
        let [x, y, crossing] = three else { continue };
        marks.push(json!({ "x_px": pixels(x)?, "y_px": pixels(y)?, "crossing": crossing }));
    }
    let mut taps = Vec::new();
    for pair in ask.tap.chunks(2) {
        let [x, y] = pair else { continue };
        taps.push(json!({ "x_px": pixels(x)?, "y_px": pixels(y)? }));
    }
    Ok(json!({ "do": "photo", "marks": marks, "taps": taps, "grid": ask.grid, "kind": ask.kind }))
}

fn compass_record(ask: &CompassArgs) -> Value {
    let read = |pairs: &[String], name: &str| -> Vec<Value> {
        pairs.chunks(2).map(|pair| json!({ "read": pair.first(), name: pair.get(1) })).collect()
    };
    let mut suns = read(&ask.sun, "sun_at");
    suns.iter_mut().for_each(|sun| {
        sun.as_object_mut().and_then(|sun| sun.insert("time_spread_s".into(), json!(ask.time_spread_s)));
    });
    let readings = [read(&ask.known, "known"), read(&ask.point, "to"), suns].concat();
    let line = |four: &[String]| json!({ "from": four.first(), "to": four.get(1), "fore": four.get(2), "back": four.get(3) });
    let pairs: Vec<Value> = ask.line.chunks(4).map(line).collect();
    json!({
        "do": "compass", "place": ask.place, "instrument": ask.instrument, "reading_spread_deg": ask.reading_spread_deg, "readings": readings, "pairs": pairs, "keep": ask.keep, "grid": ask.grid
    })
}

fn norths_record(ask: &NorthsArgs) -> Value {
    let printed = ask.printed_year.map(|year| {
        json!({
            "declination_deg": ask.printed_declination_deg, "grid_magnetic_deg": ask.printed_grid_magnetic_deg, "year": year,
            "annual_change_min": ask.printed_change_min
        })
    });
    json!({
        "do": "norths", "place": ask.place, "date": ask.date, "height_m": ask.height_m, "grid": ask.grid, "printed": printed
    })
}

fn leg_record(leg: &LegArgs) -> Result<Value, Refusal> {
    let detour = match leg.detour.as_slice() {
        [side, out] => {
            let out: f64 = out.parse().map_err(|_| Refusal::new(Message::new("distance-unreadable").text("typed", out.clone())))?;
            let unit = if leg.metres.is_some() { "metres" } else { "paces" };
            json!({ "side": side, unit: out })
        }
        _ => Value::Null,
    };
    Ok(json!({
        "do": "leg", "bearing": leg.bearing, "paces": leg.paces, "pace_kind": leg.pace_kind, "metres": leg.metres, "detour": detour, "met": leg.met
    }))
}

/// A sheet's record, its format by the file's ending.
fn sheet(file: &Path) -> Result<Value, Refusal> {
    let ending = file.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    let format = match ending.as_str() {
        "geojson" | "json" => "geojson",
        "toml" => "toml",
        _ => return Err(Refusal::new(Message::new("sheet-format-unknown").text("name", file.to_string_lossy()))),
    };
    Ok(json!({ "do": "carry", "format": format, "text": read(file)? }))
}

/// Largest file that is read for a sheet, bytes.
const MOST_BYTES: u64 = 32_000_000;

fn read(file: &Path) -> Result<String, Refusal> {
    let bytes = read_bytes(file, MOST_BYTES)?;
    let text = String::from_utf8(bytes).map_err(|_| missing(file, "text", String::new()))?;
    Ok(text.trim_start_matches('\u{feff}').to_owned())
}

fn missing(file: &Path, why: &'static str, detail: String) -> Refusal {
    Refusal::new(Message::new("file-missing").text("path", file.to_string_lossy()).text("why", why).text("detail", detail))
}

/// Why the system does not hand a file out.
fn unopened(file: &Path, error: &std::io::Error) -> Refusal {
    let of = |kind: ErrorKind| error.kind() == kind;
    match () {
        () if of(ErrorKind::NotFound) => missing(file, "absent", String::new()),
        () if of(ErrorKind::IsADirectory) => missing(file, "folder", String::new()),
        () if of(ErrorKind::PermissionDenied) => missing(file, "forbidden", String::new()),
        () => missing(file, "told", error.to_string()),
    }
}

/// The bytes of a file, up to a size.
fn read_bytes(file: &Path, most: u64) -> Result<Vec<u8>, Refusal> {
    let open = std::fs::File::open(file).map_err(|error| unopened(file, &error))?;
    let mut bytes = Vec::new();
    open.take(most + 1).read_to_end(&mut bytes).map_err(|error| unopened(file, &error))?;
    if bytes.len() as u64 > most {
        let most = Arg::Number(most as f64 / 1e6, if most < 1_000_000 { 2 } else { 0 });
        return Err(Refusal::new(Message::new("file-too-large").text("path", file.to_string_lossy()).with("most", most)));
    }
    Ok(bytes)
}

/// Brings a file in, and answers with the reply as a line of JSON.
pub(crate) fn bring(engine: &mut Engine, cli: &Cli, ask: &ImportArgs) -> Result<String, Refusal> {
    let mut shown = Shown::until_stopped();
    let bytes = read_bytes(&ask.file, MOST_HEIGHTS_BYTES as u64)?;
    let at = cli.at.clone().unwrap_or_else(now);
    let name = ask.file.file_name().unwrap_or_default().to_string_lossy();
    let beside = grid_beside(&ask.file)?;
    if bytes.starts_with(b"SQLite") {
        refuse_log_beside(&ask.file)?;
    }
    let (grid, prj, area_deg, kinds) = (ask.grid.as_deref(), beside.as_deref(), ask.area.as_deref(), ask.kinds.as_deref());
    let (source, cover, credit) = (ask.source.as_deref(), ask.cover.as_deref(), ask.credit.as_deref());
    let file = Brought { at: Some(&at), name: &name, bytes: &bytes, grid, area_deg, kinds, source, cover, credit, prj, has_no_log: true };
    let reply = engine.bring_json(&file, &mut |share| shown.at(share));
    shown.tell_too_late(&reply);
    Ok(reply)
}

/// Refuses a database of which a part stands in a log beside it: that of one still being written, or not closed.
fn refuse_log_beside(file: &Path) -> Result<(), Refusal> {
    // The log lies beside the file itself, not beside a link to it.
    let file = &std::fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
    let beside = |ending: &str| {
        let mut name = file.as_os_str().to_owned();
        name.push(ending);
        PathBuf::from(name)
    };
    let logs = ["-wal", "-journal"].map(beside);
    let Some(log) = logs.iter().find(|log| log.metadata().is_ok_and(|found| found.len() > 0)) else { return Ok(()) };
    let name = |path: &Path| path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    Err(Refusal::new(Message::new("import-log-left").text("name", name(file)).text("log", name(log))))
}

/// How much of a long reading was shown, in tenths, where a person looks on; and whether it is to go on.
struct Shown {
    tenths: u32,
    is_stopped: Arc<AtomicBool>,
}

impl Shown {
    /// From now on the keys that break a program off only stop the import before it is written; a second time they end the program at once.
    fn until_stopped() -> Self {
        let is_stopped = Arc::new(AtomicBool::new(false));
        // Where this cannot be had they end it as they always do.
        if let Ok(mut signals) = Signals::new([SIGINT, SIGTERM]) {
            let is_stopped = Arc::clone(&is_stopped);
            std::thread::spawn(move || {
                for signal in signals.forever() {
                    if is_stopped.swap(true, Ordering::Relaxed) {
                        let _ = writeln!(std::io::stderr(), "{}", Words::english().say(&Message::new("import-ended")));
                        std::process::exit(128 + signal);
                    }
                }
            });
        }
        Self { tenths: 0, is_stopped }
    }

    /// Tells who broke off an import that was being written that it is done.
    fn tell_too_late(&self, reply: &str) {
        if self.is_stopped.load(Ordering::Relaxed) && reply.starts_with(r#"{"ok":true"#) {
            let _ = writeln!(std::io::stderr(), "{}", Words::english().say(&Message::new("import-stopped-late")));
        }
    }

    fn at(&mut self, share: f64) -> bool {
        let tenths = (share.clamp(0.0, 1.0) * 10.0) as u32;
        let mut screen = std::io::stderr();
        if tenths > self.tenths && screen.is_terminal() {
            self.tenths = tenths;
            let told = Words::english().say(&Message::new("import-progress").with("share", Arg::Share(f64::from(tenths) / 10.0)));
            // Nobody misses it where it cannot be written.
            let _ = writeln!(screen, "{told}");
        }
        !self.is_stopped.load(Ordering::Relaxed)
    }
}

/// Larger files name no grid, bytes.
const MOST_GRID_BYTES: u64 = 64 * 1024;

/// What the `.prj` file of the same name says of the grid of an ASCII grid.
fn grid_beside(file: &Path) -> Result<Option<String>, Refusal> {
    let is_ascii_grid = file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("asc"));
    let found = ["prj", "PRJ"].iter().map(|ending| file.with_extension(ending)).find(|beside| is_ascii_grid && beside.is_file());
    let Some(beside) = found else { return Ok(None) };
    let bytes = read_bytes(&beside, MOST_GRID_BYTES)?;
    Ok(Some(String::from_utf8_lossy(&bytes).into_owned()))
}

/// A line of JSON with the time filled in, and a sheet's `file` read. What is no object passes as it is, to be refused.
pub(crate) fn completed(line: &str, cli: &Cli) -> Result<String, Refusal> {
    let line = line.trim_start_matches('\u{feff}').trim();
    let Ok(Value::Object(fields)) = serde_json::from_str::<Value>(line) else { return Ok(line.to_owned()) };
    let task = fields.get("do").and_then(Value::as_str).unwrap_or_default();
    let timed = [
        "carry",
        "import",
        "sheet",
        "photo",
        "pace",
        "fix",
        "check",
        "keep",
        "leg",
        "where",
        "back",
        "turn-round",
        "reached",
        "attraction",
        "witness",
        "light",
        "seen",
        "undo",
        "close",
        "compass",
    ];
    let lacks_time = timed.contains(&task) && !fields.contains_key("at");
    let at = cli.at.clone().unwrap_or_else(now);
    if task == "carry" && fields.contains_key("file") {
        return with_file_read(fields, at);
    }
    // The text itself is kept, so that the engine sees a field that stands twice.
    match line.strip_prefix('{') {
        Some(rest) if lacks_time => Ok(format!("{{\"at\":{},{rest}", json!(at))),
        _ => Ok(line.to_owned()),
    }
}

fn with_file_read(mut fields: Map<String, Value>, at: String) -> Result<String, Refusal> {
    let file = fields.remove("file").unwrap_or_default();
    if let Value::Object(read) = sheet(Path::new(file.as_str().unwrap_or_default()))? {
        fields.extend(read);
    }
    fields.entry("at").or_insert_with(|| at.into());
    Ok(Value::Object(fields).to_string())
}

/// A refusal by the desk itself, in the shape of the engine's.
pub(crate) fn refused(words: &Words, refusal: &Refusal) -> String {
    let view = refusal.view(words);
    format!(r#"{{"ok":false,"refusal":{}}}"#, json!({ "code": view.code, "sentence": view.sentence }))
}
