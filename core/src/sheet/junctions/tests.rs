//! Constructed nets; shapely's word on a real one stands in `tests/readers`.

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
use crate::sheet::LEVEL_ALONE;

fn line(name: &str, kind: &str, points: &[(f64, f64)]) -> Line {
    Line::new(name, kind, points.iter().map(|(east, north)| Point::new(*east, *north)).collect(), 5.0).unwrap()
}

fn mark(kind: &str, east: f64, north: f64) -> Landmark {
    Landmark { name: kind.into(), kind: kind.into(), at: Point::new(east, north), spread_m: 5.0, height_m: None }
}

#[test]
fn lines_that_cross_meet_where_they_cross() {
    let lines = [line("A", "road", &[(-500.0, 0.0), (500.0, 0.0)]), line("B", "track", &[(100.0, -300.0), (100.0, 700.0)])];
    let found = junctions(&lines, &[]);
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].name.as_str(), found[0].kind), ("A x B", JunctionKind::X));
    assert_eq!(found[0].lines.iter().map(|(index, _)| *index).collect::<Vec<_>>(), [0, 1]);
    assert!((found[0].lines[0].1 - 600.0).abs() < 1e-9 && (found[0].lines[1].1 - 300.0).abs() < 1e-9);
}

#[test]
fn an_end_near_a_line_is_a_t_and_one_farther_off_is_none() {
    let road = line("A", "road", &[(-500.0, 0.0), (500.0, 0.0)]);
    let near = [road.clone(), line("B", "track", &[(100.0, 6.0), (100.0, 700.0)])];
    assert_eq!(junctions(&near, &[])[0].kind, JunctionKind::T);
    // 1.8 spreads of both are 12.7 m.
    let edge = [road.clone(), line("B", "track", &[(100.0, 12.0), (100.0, 700.0)])];
    assert_eq!(junctions(&edge, &[])[0].kind, JunctionKind::T);
    let far = [road, line("B", "track", &[(100.0, 13.0), (100.0, 700.0)])];
    assert_eq!(junctions(&far, &[]), []);
}

/// Constructed: a track of a file with common nodes that ends 6 m beside the road, one that ends on it, one drawn elsewhere.
#[test]
fn where_a_file_has_common_nodes_an_end_beside_a_line_meets_nothing() {
    let noded = |line: Line| Line { noded: true, ..line };
    let road = noded(line("A", "road", &[(-500.0, 0.0), (100.0, 0.0), (500.0, 0.0)]));
    let beside = line("B", "track", &[(100.0, 6.0), (100.0, 700.0)]);
    let count = |other: Line| junctions(&[road.clone(), other], &[]).len();
    assert_eq!(count(noded(beside.clone())), 0);
    assert_eq!(count(noded(line("B", "track", &[(100.0, 0.0), (100.0, 700.0)]))), 1);
    assert_eq!(count(noded(line("B", "track", &[(100.0, -6.0), (100.0, 700.0)]))), 1, "they cross");
    assert_eq!(count(beside), 1, "drawn by another hand");
}

/// Constructed: on a map drawn to 10 m the end of a track is written a step of the last figures off the road, in either way.
#[test]
fn an_end_a_step_of_the_last_figures_off_meets_the_line() {
    let drawn =
        |name: &str, kind: &str, points: [(f64, f64); 2]| Line { spread_m: crate::sheet::MAP_SPREAD_M, ..line(name, kind, &points) };
    for end in [(100.0, 10.0), (100.0, -10.0), (510.0, 10.0), (-510.0, -10.0)] {
        let lines = [drawn("A", "road", [(-500.0, 0.0), (500.0, 0.0)]), drawn("B", "track", [end, (100.0, 700.0 * end.1.signum())])];
        assert_eq!(junctions(&lines, &[]).len(), 1, "{end:?}");
    }
}

/// Constructed: a road that is drawn twice, under two names, with a fence, a ridge and a track across it.
#[test]
fn two_names_of_one_road_are_no_junction_where_something_else_crosses_it() {
    let road = |name: &str| line(name, "road", &[(-500.0, 0.0), (500.0, 0.0)]);
    let across = |kind: &str, east: f64| line(kind, kind, &[(east, -300.0), (east, 300.0)]);
    let lines = [road("A"), road("B"), across("fence", -200.0), across("ridge", 0.0), across("track", 200.0)];
    let found: Vec<JunctionKind> = junctions(&lines, &[]).iter().filter(|one| one.name.contains("A x")).map(|one| one.kind).collect();
    for (kind, times) in [(JunctionKind::Fence, 1), (JunctionKind::Ridge, 1), (JunctionKind::X, 1), (JunctionKind::T, 0)] {
        assert_eq!(found.iter().filter(|one| **one == kind).count(), times, "{found:?}");
    }
}

#[test]
fn ends_that_meet_run_on_and_three_are_one_junction() {
    let (a, b) = (line("A", "road", &[(-500.0, 0.0), (0.0, 0.0)]), line("B", "road", &[(0.0, 0.0), (500.0, 9.0)]));
    let found = junctions(&[a.clone(), b.clone()], &[]);
    assert_eq!((found.len(), found[0].kind), (1, JunctionKind::EndOn));
    let found = junctions(&[a, b, line("C", "path", &[(1.0, 3.0), (0.0, 400.0)])], &[]);
    assert_eq!((found.len(), found[0].kind, found[0].name.as_str()), (1, JunctionKind::T, "A x B x C"));
}

/// A road on a bridge of 100 m between ramps on the ground, over another road.
fn bridge(levels: &[i8]) -> Line {
    let points = [-500.0, -50.0, 50.0, 500.0].map(|east| Point::new(east, 0.0)).to_vec();
    Line::on_levels("A", "road", points, levels, 5.0).unwrap()
}

#[test]
fn ways_on_two_levels_pass_over_each_other_and_meet_only_in_a_point_of_both() {
    let below = line("B", "road", &[(0.0, -300.0), (0.0, 700.0)]);
    let kinds = |lines: &[Line]| junctions(lines, &[]).iter().map(|one| one.kind).collect::<Vec<_>>();
    assert_eq!(kinds(&[bridge(&[]), below.clone()]), [JunctionKind::X]);
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), below.clone()]), [JunctionKind::Over]);
    assert_eq!(kinds(&[bridge(&[0, -1, 0]), below.clone()]), [], "of a tunnel nothing is seen above");
    // Both on one level above the ground, and a side road from the foot of the ramp.
    let high = Line::on_levels("C", "road", vec![Point::new(0.0, -300.0), Point::new(0.0, 700.0)], &[1], 5.0).unwrap();
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), high]), [JunctionKind::X]);
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), line("D", "road", &[(50.0, 0.0), (50.0, 700.0)])]), [JunctionKind::T]);
    // A path that ends under the bridge, 3 m beside its middle line, and one that ends so beside the ramp.
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), line("E", "path", &[(0.0, 3.0), (0.0, 700.0)])]), []);
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), line("E", "path", &[(90.0, 3.0), (90.0, 700.0)])]), [JunctionKind::T]);
    // Fences and wires do not come into a tunnel, nor a fence onto a bridge.
    let across = |kind: &str| line("G", kind, &[(0.0, -300.0), (0.0, 700.0)]);
    for kind in ["fence", "wall", "power line", "creek", "ridge"] {
        assert_eq!(kinds(&[bridge(&[0, -1, 0]), across(kind)]), [], "{kind}");
    }
    for (kind, met) in [("fence", JunctionKind::Fence), ("wall", JunctionKind::Fence), ("power line", JunctionKind::Wire)] {
        assert_eq!(kinds(&[bridge(&[]), across(kind)]), [met], "{kind}");
    }
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), across("wall")]), []);
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), across("power line")]), [JunctionKind::Wire]);
    // A fence that ends 3 m beside the road in the tunnel.
    assert_eq!(kinds(&[bridge(&[0, -1, 0]), line("H", "fence", &[(0.0, 3.0), (0.0, 700.0)])]), []);
    // Water below a bridge is what it was.
    assert_eq!(kinds(&[bridge(&[0, 1, 0]), line("F", "creek", &[(0.0, -300.0), (0.0, 700.0)])]), [JunctionKind::Water]);
}

/// A level that is neither on a bridge nor in a tunnel, as a file may have it: nobody says which way passes over which by what.
#[test]
fn ways_on_two_levels_of_which_no_bridge_is_said_cross_without_meeting() {
    let below = line("B", "road", &[(0.0, -300.0), (0.0, 700.0)]);
    let kinds = |lines: &[Line]| junctions(lines, &[]).iter().map(|one| one.kind).collect::<Vec<_>>();
    let alone = |level: i8| bridge(&[0, LEVEL_ALONE + level, 0]);
    for level in [-5, -1, 1, 3] {
        assert_eq!(kinds(&[alone(level), below.clone()]), [JunctionKind::Levels], "{level}");
    }
    // Of the road below it is said that it is in a tunnel; of one above that it is on a bridge.
    let other = |level: i8| Line::on_levels("C", "road", vec![Point::new(0.0, -300.0), Point::new(0.0, 700.0)], &[level], 5.0).unwrap();
    assert_eq!(kinds(&[alone(1), other(-1)]), []);
    assert_eq!(kinds(&[alone(1), other(2)]), [JunctionKind::Over]);
    assert_eq!(kinds(&[alone(1), other(1)]), [JunctionKind::X], "one level");
    // A point of both is where they meet, whatever their levels.
    let noded = |name: &str, level: i8, points: [(f64, f64); 3]| {
        let points = points.map(|(east, north)| Point::new(east, north)).to_vec();
        Line::on_levels(name, "road", points, &[level, level], 5.0).unwrap()
    };
    let across = noded("D", 0, [(0.0, -300.0), (0.0, 0.0), (0.0, 700.0)]);
    for level in [LEVEL_ALONE + 1, 1, -1] {
        assert_eq!(kinds(&[noded("A", level, [(-500.0, 0.0), (0.0, 0.0), (500.0, 0.0)]), across.clone()]), [JunctionKind::X], "{level}");
    }
}

#[test]
fn water_is_crossed_by_what_the_sheet_shows() {
    let lines = [line("A", "road", &[(-500.0, 0.0), (500.0, 0.0)]), line("B", "creek", &[(0.0, -300.0), (0.0, 700.0)])];
    assert_eq!(junctions(&lines, &[])[0].kind, JunctionKind::Water);
    assert_eq!(junctions(&lines, &[mark("ford", 5.0, 0.0), mark("bridge", 25.0, 0.0)])[0].kind, JunctionKind::Ford);
    assert_eq!(junctions(&lines, &[mark("bridge", 31.0, 0.0)])[0].kind, JunctionKind::Water);
}

#[test]
fn lines_that_meet_again_are_numbered() {
    let lines = [line("A", "road", &[(-500.0, 0.0), (500.0, 0.0)]), line("B", "track", &[(-200.0, -50.0), (0.0, 50.0), (200.0, -50.0)])];
    let names: Vec<String> = junctions(&lines, &[]).into_iter().map(|junction| junction.name).collect();
    assert_eq!(names, ["A x B", "A x B 2"]);
}

#[test]
fn parallels_do_not_meet_nor_a_line_its_own_bends() {
    let lines = [
        line("A", "road", &[(0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (600.0, -500.0), (604.0, 500.0)]),
        line("B", "road", &[(0.0, 1000.0), (500.0, 1000.0)]),
        line("C", "road", &[(0.0, 1020.0), (500.0, 1020.0)]),
    ];
    assert_eq!(junctions(&lines, &[]), []);
}

#[test]
fn a_line_that_crosses_itself_is_known_there() {
    let lines = [line("A", "road", &[(0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (250.0, -500.0)])];
    let found = junctions(&lines, &[]);
    assert_eq!((found.len(), found[0].name.as_str(), found[0].kind), (1, "A x A", JunctionKind::X));
    let along: Vec<f64> = found[0].lines.iter().map(|(_, along_m)| along_m.round()).collect();
    // 375 m from the beginning; then 500 + 500 m and half of the last piece, hypot(250, 1000) m.
    assert_eq!(along, [375.0, 1515.0]);
}

#[test]
fn lines_are_told_apart_by_their_kinds() {
    let across = |a: &str, b: &str| {
        junctions(&[line("A", a, &[(-500.0, 0.0), (500.0, 0.0)]), line("B", b, &[(0.0, -300.0), (0.0, 700.0)])], &[])[0].kind
    };
    for (a, b, kind) in [
        ("road", "fence", JunctionKind::Fence),
        ("creek", "wall", JunctionKind::Fence),
        ("fence", "fence", JunctionKind::Corner),
        ("ridge", "road", JunctionKind::Ridge),
        ("creek", "ridge", JunctionKind::Ridge),
        ("creek", "river", JunctionKind::Confluence),
        ("track", "power line", JunctionKind::Wire),
        ("path", "railway", JunctionKind::X),
        ("path", "creek", JunctionKind::Water),
    ] {
        assert_eq!(across(a, b), kind, "{a} {b}");
    }
    // A road that a track meets at a fence is still their junction.
    let three = [
        line("A", "road", &[(-500.0, 0.0), (500.0, 0.0)]),
        line("B", "track", &[(0.0, 0.0), (0.0, 700.0)]),
        line("C", "fence", &[(-300.0, -300.0), (300.0, 300.0)]),
    ];
    assert_eq!(junctions(&three, &[])[0].kind, JunctionKind::T);
}

#[test]
fn a_track_that_leaves_a_shared_stretch_leaves_by_one_way() {
    let lines = [
        line("A", "road", &[(-500.0, 0.0), (0.0, 0.0), (500.0, 0.0)]),
        line("B", "track", &[(-500.0, 300.0), (-200.0, 0.0), (0.0, 0.0), (200.0, 0.0), (500.0, 300.0)]),
    ];
    let found = junctions(&lines, &[]);
    assert!(!found.is_empty() && found.iter().all(|one| one.kind != JunctionKind::X), "{found:?}");
}
