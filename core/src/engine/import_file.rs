//! The bytes of a file: handed to the readers of lines and landmarks, or told for none that can be read.

use super::Refusal;
use super::import::{Brought, GoesOn};
use super::import_terms::area;
use crate::exchange::{Continue, Features, Format, LandmarkKind, LineKind, Unread, Wanted, read_features};
use crate::logbook::attached_features;

/// Lines and landmarks of the file.
pub(super) fn features(file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Features, Refusal> {
    let mut wanted = Wanted { area: file.area_deg.map(area).transpose()?, ..Wanted::default() };
    if let Some(kinds) = file.kinds {
        wanted.lines = kinds.iter().filter_map(|word| LineKind::meant(word)).collect();
        wanted.landmarks = kinds.iter().filter_map(|word| LandmarkKind::meant(word)).collect();
        let unknown = kinds.iter().find(|word| LineKind::meant(word).is_none() && LandmarkKind::meant(word).is_none());
        if let Some(word) = unknown {
            return Err(Refusal::named("import-kind-unknown", word));
        }
    }
    let mut progress = |progress: crate::exchange::Progress| {
        let share = if progress.of == 0 { 0.0 } else { progress.done as f64 / progress.of as f64 };
        if goes_on(share.min(1.0)) { Continue::On } else { Continue::Stop }
    };
    Ok(read_features(file.bytes, &wanted, &geopackage_rows, &mut progress)?)
}

/// The rows of a GeoPackage, handed from the room that knows its container to the one that knows its geometries.
fn geopackage_rows(bytes: &[u8], take: &mut dyn FnMut(crate::exchange::Row<'_>) -> Continue) -> Result<Vec<String>, Unread> {
    let read = attached_features(bytes, &mut |row| {
        let row = crate::exchange::Row {
            layer: row.layer,
            number: row.number,
            grid: row.grid,
            geometry: row.geometry,
            properties: row.properties,
        };
        take(row) == Continue::On
    });
    read.map_err(|error| Unread::Container { why: error.why(), detail: error.detail().to_owned() })
}

/// Why a file is none that can be read, by how it begins; nothing where it may be one of heights.
pub(super) fn unreadable(bytes: &[u8]) -> Option<&'static str> {
    const LOOKED_AT: usize = 1024;
    let start = bytes.get(..LOOKED_AT.min(bytes.len())).unwrap_or_default();
    let begins = |marks: &[&[u8]]| marks.iter().any(|mark| start.starts_with(mark));
    match () {
        () if bytes.is_empty() => Some("import-empty"),
        () if begins(&PACKED) => Some("import-packed"),
        () if begins(&[b"\xff\xfe", b"\xfe\xff"]) => Some("import-utf-16"),
        () if String::from_utf8_lossy(start).contains("<osm") => Some("import-osm-xml"),
        () => None,
    }
}

/// How packed files begin: zip (and .kmz), gzip, bzip2, 7z, xz.
const PACKED: [&[u8]; 5] = [b"PK\x03\x04", b"\x1f\x8b", b"BZh", b"7z\xbc\xaf", b"\xfd7zXZ"];

/// Whether a GeoPackage was written with a log beside it, which may hold what is newest.
///
/// # References
/// SQLite, "Database File Format", 1.3.3: the versions of the format for writing and reading, 2 for a log.
pub(super) fn asks_for_log(bytes: &[u8]) -> bool {
    Format::sniffed(bytes) == Some(Format::GeoPackage) && bytes.get(18..20).is_some_and(|versions| versions.contains(&2))
}

/// The name of a sheet after its file.
pub(super) fn stem(name: &str) -> &str {
    let last = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let stem = last.split('.').find(|part| !part.trim().is_empty()).unwrap_or(last).trim();
    if stem.is_empty() { "sheet" } else { stem }
}
