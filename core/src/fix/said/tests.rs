//! What is said of the ground, where closed figures hold. The whole is held by case files of records.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test may stop where it fails"
)]

use std::cell::Cell;

use super::{HereKind, Lattice, distance_along, kinds_along};
use crate::fix::Bounds;
use crate::measure::Point;
use crate::sheet::{DraftLandmark, DraftLine, Landmark, Line, Sheet, SheetDraft};

fn line(name: &str, kind: &str, points: Vec<(f64, f64)>) -> DraftLine {
    DraftLine { name: name.into(), kind: kind.into(), points, spread_m: 0.0, ..DraftLine::default() }
}

/// A road along the equator, two creeks and a track across it, a bridge over the first creek.
fn sheet() -> Sheet {
    let lines = vec![
        line("Road", "road", vec![(0.0, 9.0), (0.0, 9.02)]),
        line("First", "creek", vec![(-0.001, 9.005), (0.001, 9.005)]),
        line("Second", "creek", vec![(-0.001, 9.010), (0.001, 9.010)]),
        line("Track", "track", vec![(-0.001, 9.015), (0.001, 9.015)]),
    ];
    let bridge = DraftLandmark { name: "Bridge".into(), kind: "bridge".into(), at: (0.0, 9.005), spread_m: 0.0, height_m: None };
    let draft = SheetDraft {
        name: "s".into(),
        grid: None,
        position_spread_m: None,
        norths: None,
        lines,
        known_points: vec![],
        landmarks: vec![bridge],
        ..SheetDraft::default()
    };
    Sheet::build(&draft).unwrap()
}

/// Where the likelihood of a kind stands above its floor, in kilometres along the road, rounded to 10 m.
fn peaks(sheet: &Sheet, kind: HereKind) -> Vec<f64> {
    let lines: Vec<&Line> = vec![&sheet.lines[0]];
    let Some(found) = kinds_along(sheet, kind, 15.0, &lines) else { return Vec::new() };
    let (table, most) = (&found.tables[0], found.tables[0].values.iter().copied().fold(0.0, f64::max));
    let inner = 1..table.values.len() - 1;
    let is_peak = |index: &usize| {
        let value = table.values[*index];
        value > 0.5 * most && value >= table.values[index - 1] && value > table.values[index + 1]
    };
    inner.filter(is_peak).map(|index| (index as f64 * table.step_m / 10.0).round() / 100.0).collect()
}

/// 0.005 degrees along the equator of WGS 84 are 556.6 m.
#[test]
fn kinds_stand_where_the_sheet_shows_them() {
    let sheet = sheet();
    assert_eq!(peaks(&sheet, HereKind::Stream), [0.56, 1.11]);
    assert_eq!(peaks(&sheet, HereKind::Bridge), [0.56, 1.11], "the sheet does not say by what the second is crossed");
    assert_eq!(peaks(&sheet, HereKind::Ford), [1.11]);
    assert_eq!(peaks(&sheet, HereKind::Junction), [1.67]);
    assert_eq!(peaks(&sheet, HereKind::Crossroads), [1.67]);
    assert!(peaks(&sheet, HereKind::Bend).is_empty());
}

/// A road passes over another by a bridge that the sheet names: there is no water.
#[test]
fn a_bridge_over_a_way_is_no_stream() {
    let mut sheet = sheet();
    let over = vec![Point::new(-200.0, -400.0), Point::new(-200.0, 400.0)];
    let middle = sheet.lines[0].nearest(Point::new(-200.0, 0.0));
    sheet.lines.push(Line::on_levels("Over", "road", over, &[1], 5.0).unwrap());
    sheet.landmarks.push(Landmark { name: "Flyover".into(), kind: "bridge".into(), at: middle.at, spread_m: 5.0, height_m: None });
    let here = (middle.along_m / 10.0).round() / 100.0;
    assert!(!peaks(&sheet, HereKind::Stream).iter().any(|along| (along - here).abs() < 0.03), "{here}");
    assert!(peaks(&sheet, HereKind::Bridge).iter().any(|along| (along - here).abs() < 0.03), "{here}");
}

#[test]
fn a_distance_stands_on_both_sides_of_a_landmark() {
    let road = Line::new("Road", "road", vec![Point::new(-1000.0, 0.0), Point::new(1000.0, 0.0)], 0.0).unwrap();
    let mast = Landmark { name: "Mast".into(), kind: "mast".into(), at: Point::new(0.0, 300.0), spread_m: 0.0, height_m: None };
    let found = distance_along(&mast, 500.0, 16.0, &[&road]);
    // 400 m from the middle by the triangle of 3, 4 and 5.
    let at = |along_m: f64| found.tables[0].at(along_m);
    assert!((at(600.0) / at(1400.0) - 1.0).abs() < 1e-9);
    assert!(at(600.0) > at(580.0) && at(600.0) > at(620.0) && at(1000.0) < 1e-3 * at(600.0));
}

#[test]
fn a_node_of_the_lattice_is_reckoned_once_and_what_is_not_known_is_the_mean() {
    let count = Cell::new(0);
    let bounds = Bounds::about(Point::default(), 800.0);
    let half_known = |at: Point| {
        count.set(count.get() + 1);
        (at.east_m < 0.0).then_some(0.25)
    };
    let lattice = Lattice::over(&bounds, 50.0, half_known).unwrap();
    let before = count.get();
    assert!((lattice.at(Point::new(-510.0, 20.0)) - 0.25).abs() < 1e-12 && (lattice.at(Point::new(510.0, 20.0)) - 0.25).abs() < 1e-12);
    assert_eq!(count.get(), before + 8);
    assert!(lattice.at(Point::new(-520.0, 30.0)) > 0.0);
    assert_eq!(count.get(), before + 8);
    assert!(Lattice::over(&bounds, 50.0, |_| None).is_none());
    let plane = Lattice::over(&bounds, 50.0, |at| Some(1000.0 + at.east_m - 2.0 * at.north_m)).unwrap();
    assert!((plane.at(Point::new(33.0, -71.0)) - 1175.0).abs() < 1e-9);
}
