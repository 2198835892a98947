//! What every target does with its bytes: read them, and hold what is told to what was promised.

use std::collections::BTreeSet;

use gatepost_core::exchange::{Continue, Format, Row, Unread, Wanted, read_features};
use gatepost_core::logbook::attached_features;
use gatepost_core::measure::Telling;
use gatepost_core::sheet::Sheet;
use gatepost_core::words::Words;

thread_local! {
    static WORDS: Words = Words::english();
}

/// The rows of a GeoPackage, as the engine hands them on.
pub fn rows(bytes: &[u8], take: &mut dyn FnMut(Row<'_>) -> Continue) -> Result<Vec<String>, Unread> {
    let hand_on = &mut |row: gatepost_core::logbook::AttachedRow<'_>| {
        let row = Row { layer: row.layer, number: row.number, grid: row.grid, geometry: row.geometry, properties: row.properties };
        take(row) == Continue::On
    };
    attached_features(bytes, hand_on).map_err(|error| Unread::Container { why: error.why(), detail: error.detail().to_owned() })
}

/// Bytes as the geometry of the one row of a layer.
pub fn one_row(bytes: &[u8], take: &mut dyn FnMut(Row<'_>) -> Continue) -> Result<Vec<String>, Unread> {
    for (number, grid) in [(1, "EPSG:4326"), (2, "EPSG:3857")] {
        take(Row { layer: "roads", number, grid, geometry: Some(bytes), properties: &[] });
    }
    Ok(Vec::new())
}

/// Reads bytes of a format. Whatever comes out must be a sheet's: names that differ, places on the earth, lines of two points.
pub fn read(bytes: &[u8], format: Format, open: gatepost_core::exchange::OpenRows<'_>) {
    let wanted = Wanted { format: Some(format), ..Wanted::default() };
    match read_features(bytes, &wanted, open, &mut |_| Continue::On) {
        Err(error) => WORDS.with(|words| assert!(!words.say(&error.message()).is_empty())),
        Ok(features) => {
            let compared = |name: &String| name.trim().to_lowercase();
            let names: BTreeSet<String> = features.lines.iter().map(|line| compared(&line.name)).collect();
            assert_eq!(names.len(), features.lines.len(), "two lines of one name");
            let marks: BTreeSet<String> = features.landmarks.iter().map(|mark| compared(&mark.name)).collect();
            assert_eq!(marks.len(), features.landmarks.len(), "two landmarks of one name");
            let places = features.lines.iter().flat_map(|line| line.points.iter()).chain(features.landmarks.iter().map(|mark| &mark.at));
            for (lat, lon) in places {
                assert!((-90.0..=90.0).contains(lat) && (-180.0..=180.0).contains(lon), "{lat} {lon}");
            }
            assert!(features.lines.iter().all(|line| line.points.len() >= 2), "a line without length");
            let (mut draft, _) = features.into_draft("fuzz");
            draft.grid = None;
            if let Ok(sheet) = Sheet::build(&draft) {
                assert!(sheet.junctions().iter().all(|junction| junction.at.length_m().is_finite()));
            }
        }
    }
}
