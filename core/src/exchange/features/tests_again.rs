//! The same ground twice: in one file, in the same file again, in the files of adjoining and of overlapping boxes.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test may stop where it fails"
)]

use super::tests::{gpx, read, taken, track};
use super::*;

/// A road of four points with a track off it, a mast with a name and a hut without one, a gate on the road.
fn valley() -> String {
    let road = track("Rata Road", &[(46.0, 13.0), (46.01, 13.004), (46.02, 13.0), (46.03, 13.01)]);
    let spur = track("", &[(46.01, 13.004), (46.01, 13.02)]);
    let marks = "<wpt lat='46.012' lon='13.02'><name>Relay</name><type>mast</type></wpt><wpt lat='46.02' lon='13.02'><type>hut</type></wpt>\
                 <wpt lat='46.01' lon='13.004'><name>Gate</name></wpt>";
    gpx(&(road + &spur + marks))
}

fn cut(south: f64, north: f64) -> Features {
    read(&valley(), &Wanted { area: Some(Area::new(south, 12.9, north, 13.1).unwrap()), ..Wanted::default() }).unwrap()
}

/// Metres along a line by the sphere, near enough for 1 m in 4 km.
fn length_m(points: &[(f64, f64)]) -> f64 {
    let step = |a: (f64, f64), b: (f64, f64)| ((b.0 - a.0) * 111_195.0).hypot((b.1 - a.1) * 111_195.0 * a.0.to_radians().cos());
    points.windows(2).map(|pair| step(pair[0], pair[1])).sum()
}

/// Constructed: two tracks of one name, 1 km apart, and a road that has that name with a number of its own.
#[test]
fn the_pieces_of_one_name_are_one_whole() {
    let (one, two) = ([(46.0, 13.0), (46.01, 13.0)], [(46.02, 13.0), (46.03, 13.0)]);
    let features = taken(&gpx(&(track("Out", &one) + &track("Out", &two))));
    assert!(features.minded.messages().iter().any(|message| message.id == "import-in-pieces"));
    let (mut draft, _) = features.into_draft("sheet");
    assert_eq!(draft.lines.iter().map(|line| line.part_of.as_deref()).collect::<Vec<_>>(), [None, Some("Out")]);
    let further = taken(&gpx(&(track("Out", &[(46.03, 13.0), (46.04, 13.0)]) + &track("Out", &[(46.05, 13.0), (46.06, 13.0)]))));
    further.add_to(&mut draft);
    let sheet = crate::sheet::Sheet::build(&draft).unwrap();
    let whole: Vec<&str> = sheet.whole(sheet.line(Some("out")).unwrap()).map(|line| line.name.as_str()).collect();
    assert_eq!(whole, ["Out", "Out 2", "Out 3"]);
    assert_eq!(sheet.whole(sheet.line(Some("Out 2")).unwrap()).count(), 1);
}

#[test]
fn a_way_that_comes_twice_in_a_file_is_taken_once() {
    let (out, back) = ([(46.0, 13.0), (46.01, 13.004), (46.02, 13.0)], [(46.02, 13.0), (46.01, 13.004), (46.0, 13.0)]);
    for second in [out, back] {
        let features = taken(&gpx(&(track("Out", &out) + &track("Out", &second))));
        assert_eq!((features.lines.len(), features.already), (1, 1));
        assert_eq!(features.lines[0].points, out);
    }
    // Ways of one name that only cross or fork are left whole.
    let crossing = taken(&gpx(&(track("Out", &out) + &track("Out", &[(46.005, 12.99), (46.005, 13.02)]))));
    assert_eq!((crossing.lines.len(), crossing.already), (2, 0));
}

/// Two records draw one road in part, a route runs over it, a nameless track is a part of one with a name.
#[test]
fn a_stretch_that_lines_of_a_file_have_in_common_is_taken_once() {
    let road = [(46.0, 13.0), (46.01, 13.004), (46.02, 13.0), (46.03, 13.01)];
    let and_on = [(46.01, 13.004), (46.0, 13.0), (45.99, 13.0)];
    let features = taken(&gpx(&(track("Rata Road", &road) + &track("rata road", &and_on))));
    assert_eq!(features.lines.len(), 1);
    assert_eq!(features.lines[0].points, [&and_on[2..], &road[..]].concat());
    let told = |features: &Features| features.minded.messages().iter().map(|message| message.id).collect::<Vec<_>>();
    assert_eq!((told(&features), features.already), (vec!["import-shared", "import-kind-unsaid"], 0));
    // Without a name, whichever comes first.
    for text in [track("", &road[1..3]) + &track("Rata Road", &road), track("Rata Road", &road) + &track("", &road[1..3])] {
        let features = taken(&gpx(&text));
        assert_eq!((features.lines.len(), features.already, told(&features)), (1, 1, vec!["import-kind-unsaid"]));
        assert_eq!(features.lines[0].points, road);
    }
    // A route of another name keeps its way, which is told.
    let features = taken(&gpx(&(track("Rata Road", &road) + &track("Route 6", &road[1..]))));
    assert_eq!((features.lines.len(), told(&features)), (2, vec!["import-in-common", "import-kind-unsaid"]));
    assert_eq!(features.lines[1].points, road[1..]);
}

#[test]
fn a_landmark_that_comes_twice_in_a_file_is_taken_once() {
    let mark = |lat: f64, name: &str| format!("<wpt lat='{lat}' lon='13'><name>{name}</name><type>church</type></wpt>");
    // Within one file only what stands in the very same point is one: houses of a row are some metres apart.
    let features = taken(&gpx(&(mark(46.0, "St Ode") + &mark(46.0, "St Ode") + &mark(46.00005, "St Ode") + &mark(46.0, ""))));
    let names: Vec<&str> = features.landmarks.iter().map(|mark| mark.name.as_str()).collect();
    assert_eq!((names, features.already), (vec!["St Ode", "St Ode 2", "church 1"], 1));
}

#[test]
fn the_same_file_again_adds_nothing() {
    let (mut draft, first) = taken(&valley()).into_draft("sheet");
    assert_eq!(first, Added { lines: 2, landmarks: 2, known_points: 1, ..Added::default() });
    let before = draft.clone();
    assert_eq!(taken(&valley()).add_to(&mut draft), Added { already: 5, ..Added::default() });
    assert_eq!(draft, before);
    // Under another name it is the same road.
    let renamed = valley().replace("Rata Road", "Route 6");
    assert_eq!(taken(&renamed).add_to(&mut draft).lines, 0);
    assert_eq!(draft, before);
    // A file that names it without its kind, or with another.
    let kind = |kind: &str| valley().replace("<name>Rata Road</name>", &format!("<name>Rata Road</name><type>{kind}</type>"));
    for other in ["road", "path"] {
        assert_eq!(taken(&kind(other)).add_to(&mut draft).lines, 0);
        assert_eq!(draft, before);
    }
}

#[test]
fn what_adjoining_and_overlapping_boxes_cut_is_one_line_again() {
    let (whole, _) = taken(&valley()).into_draft("sheet");
    for (first, second) in [((45.9, 46.015), (46.015, 46.1)), ((45.9, 46.018), (46.005, 46.1)), ((46.005, 46.1), (45.9, 46.018))] {
        let (mut draft, _) = cut(first.0, first.1).into_draft("sheet");
        cut(second.0, second.1).add_to(&mut draft);
        let names: Vec<&str> = draft.lines.iter().map(|line| line.name.as_str()).collect();
        assert_eq!(names, ["Rata Road", "track 1"], "{first:?} {second:?}");
        assert!((length_m(&draft.lines[0].points) - length_m(&whole.lines[0].points)).abs() < 1.0, "{first:?} {second:?}");
        assert_eq!((draft.known_points.len(), draft.landmarks.len()), (1, 2));
        let sheet = crate::sheet::Sheet::build(&draft).unwrap();
        assert_eq!(sheet.junctions().len(), 1, "only where the track leaves");
    }
}

/// Levels by the tags of OpenStreetMap, kept where pieces are joined, turned round and cut.
#[test]
fn bridges_and_tunnels_keep_their_level_in_the_joined_line() {
    let road = |tags: &str, points: &str| {
        format!(
            r#"{{"type":"Feature","properties":{{"name":"Rata Road","highway":"primary"{tags}}},"geometry":{{"type":"LineString","coordinates":{points}}}}}"#
        )
    };
    let all = [
        road("", "[[13,46],[13.01,46],[13.02,46]]"),
        road(r#","bridge":"yes""#, "[[13.03,46],[13.02,46]]"),
        road(r#","bridge":"F","tunnel":"no","layer":"0""#, "[[13.03,46],[13.04,46]]"),
        road(r#","tunnel":"yes""#, "[[13.04,46],[13.05,46]]"),
        road(r#","bridge":"viaduct","layer":2"#, "[[13.05,46],[13.06,46],[13.07,46]]"),
    ];
    let text = format!(r#"{{"type":"FeatureCollection","features":[{}]}}"#, all.join(","));
    let features = taken(&text);
    assert_eq!(features.lines.len(), 1);
    assert_eq!(features.lines[0].levels, [0, 0, 1, 0, -1, 2, 2]);
    let area = Some(Area::new(45.9, 13.025, 46.1, 13.065).unwrap());
    let cut = read(&text, &Wanted { area, ..Wanted::default() }).unwrap();
    // The first piece that is left runs westwards, and so does the line.
    assert_eq!(cut.lines[0].levels, [2, 2, -1, 0, 1]);
    let (mut draft, _) = cut.into_draft("sheet");
    taken(&text).add_to(&mut draft);
    assert_eq!((draft.lines.len(), draft.lines[0].levels.len() + 1), (1, draft.lines[0].points.len()));
    let level_at = |lon: f64| {
        draft.lines[0]
            .points
            .windows(2)
            .zip(&draft.lines[0].levels)
            .find(|(pair, _)| pair[0].1.min(pair[1].1) < lon && lon < pair[0].1.max(pair[1].1))
            .map(|(_, level)| *level)
    };
    for (lon, level) in [(13.015, 0), (13.0225, 1), (13.0275, 1), (13.035, 0), (13.045, -1), (13.055, 2), (13.0675, 2)] {
        assert_eq!(level_at(lon), Some(level), "{lon}");
    }
}

#[test]
fn a_box_between_two_closes_the_road_and_takes_their_points_along() {
    let (mut draft, _) = cut(45.9, 46.011).into_draft("sheet");
    let far = read(
        &valley().replace("46.01' lon='13.004'><name>Gate", "46.025' lon='13.005'><name>Gate"),
        &Wanted { area: Some(Area::new(46.021, 12.9, 46.1, 13.1).unwrap()), ..Wanted::default() },
    );
    far.unwrap().add_to(&mut draft);
    assert_eq!(draft.lines.iter().filter(|line| line.name.starts_with("Rata Road")).count(), 2);
    cut(46.011, 46.021).add_to(&mut draft);
    assert_eq!(draft.lines.iter().filter(|line| line.name.starts_with("Rata Road")).count(), 1);
    let known: Vec<(&str, &str)> = draft.known_points.iter().map(|known| (known.name.as_str(), known.on.as_str())).collect();
    assert_eq!(known, [("Gate", "Rata Road"), ("Gate 2", "Rata Road")]);
}
