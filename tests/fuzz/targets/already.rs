//! The same ground again: lines and landmarks on a coarse lattice, so that many of them lie on each other, in several files that come
//! onto one sheet, each of them twice.
#![no_main]

use std::fmt::Write as _;

use gatepost_core::exchange::{Continue, Features, Wanted, read_features};
use gatepost_core::measure::Telling;
use gatepost_core::sheet::{Sheet, SheetDraft};
use gatepost_fuzz::rows;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let mut draft = SheetDraft { name: "fuzz".into(), ..SheetDraft::default() };
    for file in bytes.chunks(1_500).take(4) {
        for _ in 0..2 {
            if let Some(features) = features(file) {
                let _ = features.minded.messages();
                features.add_to(&mut draft);
                hold(&draft);
            }
        }
    }
});

/// A file of bytes: two of them open a record, two each are its points.
fn features(file: &[u8]) -> Option<Features> {
    let (kind, records) = file.split_first()?;
    let text = if kind % 2 == 0 { geojson(records) } else { gpx(records) };
    match read_features(text.as_bytes(), &Wanted::default(), &rows, &mut |_| Continue::On) {
        Ok(features) => Some(features),
        Err(error) => {
            assert!(!error.message().id.is_empty());
            None
        }
    }
}

/// The records: what begins each, and its points in degrees.
fn records(bytes: &[u8]) -> impl Iterator<Item = ([u8; 2], Vec<(f64, f64)>)> + '_ {
    let mut rest = bytes;
    std::iter::from_fn(move || {
        let (head, after) = rest.split_first_chunk::<2>()?;
        let count = usize::from(head[0] % 24) + 1;
        // Steps of 0.6 m, 11 m and 111 m.
        let step = [0.000_005, 0.000_1, 0.001][usize::from(head[1] % 3)];
        let at = |pair: &[u8]| (46.0 + f64::from(pair[0] as i8) * step, 13.0 + f64::from(pair[1] as i8) * step);
        let points = after.chunks_exact(2).take(count).map(at).collect();
        rest = after.get(2 * count..).unwrap_or_default();
        Some((*head, points))
    })
}

fn geojson(bytes: &[u8]) -> String {
    let mut features = Vec::new();
    for ([_, word], points) in records(bytes) {
        let name = ["", "Rata Road", "Rata Road 2", "Route 6"][usize::from(word / 3 % 4)];
        let kind = ["road", "track", "creek"][usize::from(word / 12 % 3)];
        let level = ["", r#","bridge":"yes""#, r#","tunnel":"yes""#, r#","layer":3"#][usize::from(word / 36 % 4)];
        let places: Vec<String> = points.iter().map(|(lat, lon)| format!("[{lon},{lat}]")).collect();
        let geometry = match places.as_slice() {
            [only] => format!(r#"{{"type":"Point","coordinates":{only}}}"#),
            several => format!(r#"{{"type":"LineString","coordinates":[{}]}}"#, several.join(",")),
        };
        features.push(format!(r#"{{"type":"Feature","properties":{{"name":"{name}","kind":"{kind}"{level}}},"geometry":{geometry}}}"#));
    }
    format!(r#"{{"type":"FeatureCollection","features":[{}]}}"#, features.join(","))
}

fn gpx(bytes: &[u8]) -> String {
    let mut text = String::from("<gpx version='1.1'>");
    for ([_, word], points) in records(bytes) {
        let name = ["", "Rata Road", "Round", "Gate"][usize::from(word / 3 % 4)];
        let whole: String = points.iter().fold(String::new(), |mut whole, (lat, lon)| {
            let _ = write!(whole, "<trkpt lat='{lat}' lon='{lon}'/>");
            whole
        });
        if let [(lat, lon)] = points.as_slice() {
            let _ = write!(text, "<wpt lat='{lat}' lon='{lon}'><name>{name}</name></wpt>");
        } else {
            let _ = write!(text, "<trk><name>{name}</name><trkseg>{whole}</trkseg></trk>");
        }
    }
    text + "</gpx>"
}

/// What a sheet must be: names that differ, lines of two points with a level for each piece, known points on lines that are there.
fn hold(draft: &SheetDraft) {
    for line in &draft.lines {
        assert!(line.points.len() >= 2, "a line without length");
        assert!(line.levels.is_empty() || line.levels.len() + 1 == line.points.len(), "levels that are not its pieces'");
        assert!(line.points.iter().all(|(lat, lon)| (45.0..47.0).contains(lat) && (12.0..14.0).contains(lon)), "a place made up");
    }
    for known in &draft.known_points {
        assert!(draft.lines.iter().any(|line| line.name.to_lowercase() == known.on.to_lowercase()), "a known point on no line");
    }
    match Sheet::build(draft) {
        Ok(sheet) => assert!(sheet.junctions().iter().all(|junction| junction.at.length_m().is_finite())),
        Err(error) => assert!(draft.lines.is_empty() || !error.message().id.contains("name-twice"), "two of one name"),
    }
}
