//! What is told when a file says otherwise of what is on the sheet, or puts it elsewhere; places by construction.

#![allow(clippy::indexing_slicing, clippy::panic, clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::onto::Added;
use super::tests::taken;
use super::{Continue, Row, Wanted, read_features};
use crate::measure::{Arg, Message};
use crate::sheet::SheetDraft;

/// A hundredth of a degree of latitude is 1112 m on the sphere of 6371 km.
fn lane(name: &str, kind: &str, lon: f64) -> String {
    let properties = format!(r#"{{"name":"{name}","kind":"{kind}"}}"#);
    let coordinates = format!("[[{lon},46.0],[{lon},46.01],[{lon},46.02]]");
    format!(r#"{{"type":"Feature","properties":{properties},"geometry":{{"type":"LineString","coordinates":{coordinates}}}}}"#)
}

fn mast(name: &str, lat: f64, spread_m: f64) -> String {
    let properties = format!(r#"{{"name":"{name}","kind":"mast","spread_m":{spread_m}}}"#);
    format!(r#"{{"type":"Feature","properties":{properties},"geometry":{{"type":"Point","coordinates":[13.5,{lat}]}}}}"#)
}

fn onto(draft: &mut SheetDraft, features: &[String]) -> Added {
    taken(&format!(r#"{{"type":"FeatureCollection","features":[{}]}}"#, features.join(","))).add_to(draft)
}

fn told(added: &Added) -> Vec<(&'static str, String)> {
    let names = |message: &Message| {
        let named = message.args.iter().find(|(name, _)| *name == "names");
        named.map(|(_, arg)| if let Arg::Text(text) = arg { text.replace('\u{a0}', " ") } else { panic!("{arg:?}") })
    };
    added.differing().map(|message| (message.id, names(&message).unwrap())).collect()
}

#[test]
fn a_line_of_another_kind_or_name_is_told() {
    let mut draft = SheetDraft::default();
    onto(&mut draft, &[lane("Low Lane", "track", 13.0), lane("High Lane", "track", 13.1)]);
    let added = onto(&mut draft, &[lane("Low Lane", "road", 13.0), lane("Upper Lane", "track", 13.1)]);
    assert!(added.is_nothing(), "{added:?}");
    let expected = "Low Lane (track → road), High Lane (→ Upper Lane)";
    assert_eq!(told(&added), [("import-differing-lines", expected.to_owned())]);
    let again = onto(&mut draft, &[lane("Low Lane", "track", 13.0), lane("High Lane", "track", 13.1)]);
    assert!(again.is_nothing() && told(&again).is_empty(), "{again:?}");
}

/// 0.004° of longitude at 46.01° are 309 m.
#[test]
fn a_line_that_lies_elsewhere_is_told() {
    let mut draft = SheetDraft::default();
    onto(&mut draft, &[lane("Low Lane", "road", 13.0)]);
    let added = onto(&mut draft, &[lane("Low Lane", "road", 13.004)]);
    assert_eq!(added.lines, 1);
    assert_eq!(told(&added), [("import-beside", "Low Lane → Low Lane 2 (309 m)".to_owned())]);
    // Both are in the file now: it says itself that they are two.
    let mut draft = SheetDraft::default();
    onto(&mut draft, &[lane("Low Lane", "road", 13.0)]);
    assert!(told(&onto(&mut draft, &[lane("Low Lane", "road", 13.0), lane("Low Lane", "road", 13.004)])).is_empty());
}

/// A road whose middle was moved, and one of which a point was taken away: 0.0005° of longitude at 46° are 38.6 m on the sphere.
#[test]
fn a_line_that_runs_otherwise_stays_as_it_is() {
    let way = |name: &str, middle: &str| lane(name, "road", 13.0).replace("[13,46.01]", middle);
    let (straight, bent) = (way("Low Lane", "[13,46.01]"), way("Low Lane", "[13.0005,46.01]"));
    for (on_sheet, comes) in [(&straight, &bent), (&bent, &straight)] {
        let mut draft = SheetDraft::default();
        onto(&mut draft, std::slice::from_ref(on_sheet));
        let was = draft.lines.clone();
        let added = onto(&mut draft, std::slice::from_ref(comes));
        assert!(added.is_nothing() && added.already == 1, "{added:?}");
        assert_eq!(draft.lines, was);
        assert_eq!(told(&added), [("import-other-course", "Low Lane (39 m)".to_owned())]);
    }
    // A wide way round comes in beside it: 0.02° of longitude are 1545 m at 46.01°, half way along a hair less, from which the nearest end is 0.01° of latitude off.
    let mut draft = SheetDraft::default();
    onto(&mut draft, std::slice::from_ref(&straight));
    let was = draft.lines.clone();
    let added = onto(&mut draft, &[way("Low Lane", "[13.02,46.01]")]);
    assert_eq!((added.lines, &draft.lines[..1]), (1, was.as_slice()));
    assert_eq!(told(&added), [("import-beside", "Low Lane → Low Lane 2 (1544 m)".to_owned())]);
    assert_eq!(draft.lines[1].part_of.as_deref(), Some("Low Lane"));
    // Without names nobody knows whether they are the same.
    let mut draft = SheetDraft::default();
    onto(&mut draft, &[way("", "[13,46.01]")]);
    let added = onto(&mut draft, &[way("", "[13.0005,46.01]")]);
    assert_eq!((added.lines, draft.lines.len()), (1, 2));
    assert_eq!(told(&added), [("import-beside", "road 1 → road 2 (39 m)".to_owned())]);
}

#[test]
fn a_landmark_that_lies_elsewhere_or_less_surely_is_told() {
    let mut draft = SheetDraft::default();
    onto(&mut draft, &[mast("Far Mast", 46.0, 5.0)]);
    let added = onto(&mut draft, &[mast("Far Mast", 46.01, 5.0)]);
    assert_eq!(told(&added), [("import-beside", "Far Mast → Far Mast 2 (1112 m)".to_owned())]);
    let mut draft = SheetDraft::default();
    onto(&mut draft, &[mast("Far Mast", 46.0, 5.0)]);
    let added = onto(&mut draft, &[mast("Far Mast", 46.0, 200.0)]);
    assert_eq!(told(&added), [("import-differing", "Far Mast (±5 m → ±200 m)".to_owned())]);
    assert!(told(&onto(&mut draft, &[mast("Far Mast", 46.0, 8.0)])).is_empty());
}

/// A road on a bridge by the column of other tags; its shape as well-known binary with the header of a GeoPackage.
#[test]
fn other_tags_of_a_geopackage_count() {
    let mut geometry = b"GP\x00\x01\xe6\x10\x00\x00\x01\x02\x00\x00\x00\x02\x00\x00\x00".to_vec();
    geometry.extend([13.0_f64, 46.0, 13.0, 46.01].iter().flat_map(|number| number.to_le_bytes()));
    let levels = |other: &str| {
        let pair = |key: &str, value: &str| (key.to_owned(), value.to_owned());
        let properties = [pair("highway", "tertiary"), pair("name", "Low Road"), pair("other_tags", other)];
        let row = Row { layer: "lines", number: 1, grid: "EPSG:4326", geometry: Some(&geometry), properties: &properties };
        let rows = |_: &[u8], take: &mut dyn FnMut(Row<'_>) -> Continue| {
            take(row);
            Ok(Vec::new())
        };
        let read = read_features(b"SQLite format 3\0", &Wanted::default(), &rows, &mut |_| Continue::On).unwrap();
        read.lines.into_iter().next().map(|line| line.levels)
    };
    assert_eq!(levels(r#""surface"=>"gravel""#), Some(Vec::new()));
    assert_ne!(levels(r#""surface"=>"gravel","bridge"=>"yes","layer"=>"1""#), Some(Vec::new()));
}
