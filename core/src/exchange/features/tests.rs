//! Constructed files; other readers' word stands in `tests/readers`.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::*;

fn no_rows(_: &[u8], _: &mut dyn FnMut(Row<'_>) -> Continue) -> Result<Vec<String>, Unread> {
    Err(Unread::Told("no rows".into()))
}

pub(super) fn read(text: &str, wanted: &Wanted) -> Result<Features, ImportError> {
    read_features(text.as_bytes(), wanted, &no_rows, &mut |_| Continue::On)
}

pub(super) fn taken(text: &str) -> Features {
    read(text, &Wanted::default()).unwrap()
}

pub(super) fn gpx(inner: &str) -> String {
    format!("<gpx version='1.1'>{inner}</gpx>")
}

pub(super) fn track(name: &str, points: &[(f64, f64)]) -> String {
    let points: String = points.iter().map(|(lat, lon)| format!("<trkpt lat='{lat}' lon='{lon}'/>")).collect();
    format!("<trk><name>{name}</name><trkseg>{points}</trkseg></trk>")
}

#[test]
fn formats_are_known_by_how_they_begin() {
    let known = [
        (b"\xef\xbb\xbf {\"type\"".as_slice(), Some(Format::GeoJson)),
        (b"<?xml version='1.0'?><gpx", Some(Format::Gpx)),
        (b"<k:kml xmlns:k='x'>", Some(Format::Kml)),
        (b"SQLite format 3\0", Some(Format::GeoPackage)),
        (b"\0\0\0\x0d\x0a\x09OSMHeader\x18", Some(Format::OsmPbf)),
        (b"PK\x03\x04", None),
        (b"", None),
    ];
    for (bytes, format) in known {
        assert_eq!(Format::sniffed(bytes), format);
    }
}

#[test]
fn pieces_that_meet_become_one_line_in_the_direction_of_the_first() {
    let pieces = track("Velm Road", &[(46.01, 13.0), (46.02, 13.0)]) + &track("velm road", &[(46.01, 13.0), (46.0, 13.0)]);
    let features = taken(&gpx(&pieces));
    assert_eq!(features.lines.len(), 1);
    assert_eq!(features.lines[0].name, "velm road");
    assert_eq!(features.lines[0].points, [(46.0, 13.0), (46.01, 13.0), (46.02, 13.0)]);
}

#[test]
fn where_three_of_one_name_meet_the_straightest_two_are_joined() {
    let middle = (46.01, 13.0);
    let pieces = [[(46.0, 13.0), middle], [middle, (46.01, 13.02)], [middle, (46.02, 13.001)]];
    let text: String = pieces.iter().map(|points| track("Velm Road", points)).collect();
    let features = taken(&gpx(&text));
    let names: Vec<&str> = features.lines.iter().map(|line| line.name.as_str()).collect();
    assert_eq!(names, ["Velm Road", "Velm Road 2"]);
    assert_eq!(features.lines[0].points, [(46.0, 13.0), middle, (46.02, 13.001)]);
}

#[test]
fn lines_of_other_names_or_a_gap_stay_apart() {
    let metre_and_half = 1.5 / 111_195.0;
    let apart = track("A", &[(46.0, 13.0), (46.01, 13.0)]) + &track("A", &[(46.01 + metre_and_half, 13.0), (46.02, 13.0)]);
    assert_eq!(taken(&gpx(&apart)).lines.len(), 2);
    let other = track("A", &[(46.0, 13.0), (46.01, 13.0)]) + &track("B", &[(46.01, 13.0), (46.02, 13.0)]);
    assert_eq!(taken(&gpx(&other)).lines.len(), 2);
}

#[test]
fn a_waypoint_on_a_line_is_a_known_point_and_others_are_landmarks() {
    let points = "<wpt lat='46.005' lon='13.00005'><name>Gate</name></wpt><wpt lat='46.005' lon='13.01'><name>Rock</name></wpt>\
                  <wpt lat='46.005' lon='13.0'><name>Hallik mast</name><type>mast</type></wpt>";
    let features = taken(&gpx(&(track("Velm Road", &[(46.0, 13.0), (46.01, 13.0)]) + points)));
    assert_eq!(features.known_points.len(), 1);
    assert_eq!((features.known_points[0].name.as_str(), features.known_points[0].on.as_str()), ("Gate", "Velm Road"));
    let marks: Vec<(&str, &str)> = features.landmarks.iter().map(|mark| (mark.name.as_str(), mark.kind.as_str())).collect();
    assert_eq!(marks, [("Rock", "landmark"), ("Hallik mast", "mast")]);
}

#[test]
fn what_has_no_name_is_called_by_kind_and_number_and_no_name_comes_twice() {
    let text = track("", &[(46.0, 13.0), (46.01, 13.0)]) + &track("track 1", &[(46.0, 14.0), (46.01, 14.0)]);
    let names: Vec<String> = taken(&gpx(&text)).lines.into_iter().map(|line| line.name).collect();
    assert_eq!(names, ["track 2", "track 1"]);
}

#[test]
fn features_are_added_to_a_sheet_under_names_of_their_own() {
    let text = |lat: f64| {
        gpx(&(track("A", &[(lat, 13.0), (lat + 0.01, 13.0)]) + &format!("<wpt lat='{}' lon='13'><name>Gate</name></wpt>", lat + 0.005)))
    };
    let (mut draft, _) = taken(&text(46.0)).into_draft("sheet");
    taken(&text(47.0)).add_to(&mut draft);
    assert_eq!(draft.lines[1].name, "A 2");
    assert_eq!((draft.known_points[1].name.as_str(), draft.known_points[1].on.as_str()), ("Gate", "A 2"));
}

#[test]
fn a_line_is_cut_where_it_crosses_the_border_and_180_degrees_is_no_border() {
    let area = Area::new(-1.0, 179.0, 1.0, -179.0).unwrap();
    let wanted = Wanted { area: Some(area), ..Wanted::default() };
    let text = gpx(&track("A", &[(0.0, 178.0), (0.0, -178.0), (0.5, -178.0), (0.5, -179.5), (2.0, -179.5)]));
    let features = read(&text, &wanted).unwrap();
    let parts: Vec<&Vec<(f64, f64)>> = features.lines.iter().map(|line| &line.points).collect();
    assert_eq!(parts, [&vec![(0.0, 179.0), (0.0, -179.0)], &vec![(0.5, -179.0), (0.5, -179.5), (1.0, -179.5)]]);
}

#[test]
fn kinds_that_are_not_wanted_are_left_out_and_counted() {
    let wanted = Wanted { lines: [LineKind::Creek].into(), landmarks: [LandmarkKind::Mast].into(), ..Wanted::default() };
    let text =
        gpx(&(track("A", &[(46.0, 13.0), (46.01, 13.0)]) + "<wpt lat='46' lon='13'><type>Masts</type></wpt><wpt lat='47' lon='13'/>"));
    let features = read(&text, &wanted).unwrap();
    assert_eq!((features.lines.len(), features.landmarks.len(), features.left_out), (0, 1, 2));
}

#[test]
fn a_stop_takes_nothing_and_too_many_are_refused() {
    let text = gpx(&track("A", &[(46.0, 13.0), (46.01, 13.0)]));
    let stopped = read_features(text.as_bytes(), &Wanted::default(), &no_rows, &mut |_| Continue::Stop);
    assert_eq!(stopped, Err(ImportError::Stopped));
    let none = Wanted { limit: 0, ..Wanted::default() };
    assert_eq!(read(&text, &none), Err(ImportError::TooManyTogether { lines: 1, landmarks: 0, most: 0 }));
}

#[test]
fn the_sheet_member_and_known_points_of_geojson_are_kept() {
    let text = r#"{"type":"FeatureCollection","sheet":{"name":"Velm","grid":"EPSG:32633","position_spread_m":7},"features":[
        {"type":"Feature","properties":{"name":"Velm Road","kind":"lane","spread_m":3},"geometry":{"type":"LineString","coordinates":[[13,46],[13.1,46]]}},
        {"type":"Feature","properties":{"name":"Bridge","on":"velm road"},"geometry":{"type":"Point","coordinates":[13.05,46]}},
        {"type":"Feature","properties":{"name":"Old oak","kind":"oak","height_m":21},"geometry":{"type":"Point","coordinates":[13.05,46.01]}}]}"#;
    let (draft, _) = taken(text).into_draft("none");
    assert_eq!((draft.name.as_str(), draft.grid.as_deref(), draft.position_spread_m), ("Velm", Some("EPSG:32633"), Some(7.0)));
    assert_eq!((draft.lines[0].kind.as_str(), draft.lines[0].spread_m), ("road", 3.0));
    assert_eq!(draft.known_points[0].on, "Velm Road");
    assert_eq!((draft.landmarks[0].kind.as_str(), draft.landmarks[0].height_m), ("oak", Some(21.0)));
}
