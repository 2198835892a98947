//! What the charts promise, on invented ground.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

mod contoured;
mod ground;
mod painting;

use self::ground::{Ground, Plain, box_of, boxes, drawn, fix_of, flat, point, road, walk_of};
use super::lettering::text_width;
use super::*;
use crate::measure::{Covariance, PLANE_95};
use crate::travel::{LegEnd, Side};

const SIZE: Size = Size { width: 360.0, height: 280.0, letters: 14.0 };

fn chart(ground: &Ground, sightings: &[(&str, f64, f64)]) -> DisplayList {
    sized(ground, sightings, SIZE)
}

fn sized(ground: &Ground, sightings: &[(&str, f64, f64)], size: Size) -> DisplayList {
    let fix = fix_of(ground, sightings);
    fix_chart(&drawn(&ground.sheet, 1.5), road(ground), &fix, &Plain, size)
}

/// Charts of every kind: one place, two places, long, short, crowded, with large letters.
fn all_charts() -> Vec<DisplayList> {
    let large = Size::new(412.0, 330.0).lettered(20.0);
    vec![
        chart(&Ground::velm(), &[("Sorn chapel", 1150.0, 2.0)]),
        chart(&Ground::velm(), &[("Sorn chapel", 1150.0, 1.0), ("Hallik mast", 1150.0, 1.0), ("Torn Top", 1180.0, 1.0)]),
        chart(&Ground::velm(), &[("Far beacon", 1700.0, 1.0)]),
        chart(&Ground::bends(), &[("Sorn chapel", 1550.0, 0.4)]),
        chart(&Ground::crowd(), &[("Sorn chapel", 1150.0, 4.0)]),
        chart(&Ground::lane(), &[("Tower", 90.0, 2.0)]),
        chart(&Ground::highway(), &[("Peak", 20_000.0, 2.0)]),
        sized(&Ground::velm(), &[("Sorn chapel", 1150.0, 1.0)], large),
        walk_of(&Ground::velm(), 4, true, SIZE),
        walk_of(&Ground::crowd(), 30, true, SIZE),
        walk_of(&Ground::velm(), 0, true, SIZE),
        walk_of(&Ground::velm(), 3, false, large),
    ]
}

fn texts(list: &DisplayList) -> Vec<String> {
    let text = |item: &Item| if let Item::Text { text, .. } = item { Some(text.clone()) } else { None };
    flat(&list.items).iter().filter_map(text).collect()
}

/// The letters of one ink.
fn letters_of(list: &DisplayList, wanted: Ink) -> Vec<String> {
    let text = |item: &Item| match item {
        Item::Text { text, ink, .. } if *ink == wanted => Some(text.clone()),
        _ => None,
    };
    flat(&list.items).iter().filter_map(text).collect()
}

/// Places of the strokes of one ink and width among all items.
fn strokes(items: &[Item], ink: Ink, width: f64) -> Vec<(usize, Vec<Spot>)> {
    let same = |stroke: &Stroke| stroke.ink == ink && (stroke.width - width).abs() < 1e-9 && stroke.dash.is_empty();
    let found = |(index, item): (usize, &Item)| match item {
        Item::Path { points, stroke: Some(stroke), .. } if same(stroke) => Some((index, points.clone())),
        _ => None,
    };
    items.iter().enumerate().filter_map(found).collect()
}

fn length(points: &[Spot]) -> f64 {
    points.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

#[test]
fn two_places_carry_their_shares_on_chart_and_ruler() {
    let ground = Ground::bends();
    let fix = fix_of(&ground, &[("Sorn chapel", 1550.0, 0.4)]);
    assert!(fix.stretches.len() == 2 && fix.stretches[1].share > 0.01, "{:?}", fix.stretches);
    let told = texts(&chart(&ground, &[("Sorn chapel", 1550.0, 0.4)]));
    for stretch in &fix.stretches {
        assert_eq!(told.iter().filter(|text| **text == Plain.share(stretch.share)).count(), 2, "{told:?}");
    }
}

#[test]
fn a_single_place_is_never_called_certain() {
    let told = texts(&chart(&Ground::velm(), &[("Sorn chapel", 1150.0, 1.0), ("Hallik mast", 1150.0, 1.0)]));
    assert!(!told.iter().any(|text| text.contains('%')), "{told:?}");
}

#[test]
fn the_line_lies_in_a_slit_of_paper_above_the_odds() {
    let list = chart(&Ground::velm(), &[("Sorn chapel", 1150.0, 1.0), ("Hallik mast", 1150.0, 1.0)]);
    let items = flat(&list.items);
    let band = strokes(&items, Ink::Stretch, 16.2);
    let slit = strokes(&items, Ink::Paper, 6.0).into_iter().find(|(index, _)| *index > band[1].0).unwrap();
    let road = strokes(&items, Ink::Works, 3.0).into_iter().find(|(index, _)| *index > slit.0).unwrap();
    assert_eq!(band.len(), 2, "ladder and likelier half");
    assert!(length(&slit.1) > length(&band[0].1) && length(&road.1) >= length(&slit.1));
}

#[test]
fn a_creek_lies_in_a_slit_as_well() {
    let mut ground = Ground::lane();
    ground.sheet.lines[0].kind = "creek".into();
    let items = flat(&chart(&ground, &[("Tower", 90.0, 2.0)]).items);
    let last_band = strokes(&items, Ink::Stretch, 16.2).pop().unwrap().0;
    let slit = strokes(&items, Ink::Paper, 5.4).remove(0).0;
    let creek = strokes(&items, Ink::Water, 2.4).remove(0).0;
    assert!(last_band < slit && slit < creek);
}

#[test]
fn the_solid_part_is_as_long_as_its_limits() {
    let ground = Ground::velm();
    let sightings = [("Sorn chapel", 1150.0, 1.0), ("Hallik mast", 1150.0, 1.0)];
    let first = fix_of(&ground, &sightings).stretches[0];
    let band = strokes(&flat(&chart(&ground, &sightings).items), Ink::Stretch, 16.2);
    let wanted = (first.limits_50_m.1 - first.limits_50_m.0) / (first.limits_95_m.1 - first.limits_95_m.0);
    let drawn = length(&band[1].1) / length(&band[0].1);
    assert!((drawn / wanted - 1.0).abs() < 0.02, "{drawn} for {wanted}");
}

#[test]
fn a_single_stretch_fills_a_sixth_of_the_width() {
    let cases = [
        (Ground::lane(), vec![("Tower", 90.0, 2.0)]),
        (Ground::velm(), vec![("Sorn chapel", 1150.0, 1.0), ("Hallik mast", 1150.0, 1.0)]),
        (Ground::highway(), vec![("Peak", 20_000.0, 2.0), ("Spire", 20_000.0, 2.0)]),
    ];
    for (ground, sightings) in cases {
        let fix = fix_of(&ground, &sightings);
        let list = chart(&ground, &sightings);
        let ladder = strokes(&flat(&list.items), Ink::Stretch, 16.2).remove(0).1;
        let area = box_of(&ladder);
        assert_eq!(fix.stretches.iter().filter(|stretch| stretch.share >= 0.01).count(), 1);
        assert!(area.width.max(area.height) >= 360.0 / 6.0 - 0.01, "{area:?} on {}", road(&ground).name);
    }
}

#[test]
fn the_ruler_shows_the_part_of_the_road_that_the_chart_shows() {
    let ground = Ground::velm();
    let line = road(&ground);
    let fix = fix_of(&ground, &[("Sorn chapel", 1150.0, 1.0), ("Hallik mast", 1150.0, 1.0)]);
    let area = Area::new(0.0, 0.0, 360.0, 202.0);
    let view = fix_chart::fix_view(area, 14.0, &ground.sheet, line, &fix);
    let (from, to) = ruler::shown_range_m(&view, line, &fix);
    assert!(from > 0.0 && to < line.length_m(), "the chart has closed in: {from} to {to}");
    for (inside, outside) in [(from + 1.0, from - 1.0), (to - 1.0, to + 1.0)] {
        assert!(view.shows(line.at(inside).at, 0.0) && !view.shows(line.at(outside).at, 0.0));
    }
}

#[test]
fn every_letter_stands_inside_the_drawing_and_on_no_other() {
    for list in all_charts() {
        let frame = Area::new(0.0, 0.0, list.width, list.height);
        let boxes = boxes(&list);
        assert!(boxes.len() > 2);
        for (index, (text, area)) in boxes.iter().enumerate() {
            assert!(frame.holds_area(area), "{text} at {area:?}");
            let other = boxes.iter().skip(index + 1).find(|(_, other)| other.meets(area));
            assert!(other.is_none(), "{text} on {other:?}");
        }
    }
}

#[test]
fn targets_lie_inside_and_have_a_name() {
    for list in all_charts() {
        let frame = Area::new(0.0, 0.0, list.width, list.height);
        assert!(!list.targets.is_empty() && !list.spoken.is_empty());
        for target in &list.targets {
            assert!(frame.holds_area(&target.area) && target.area.width >= TARGET_DP && !target.spoken.is_empty(), "{target:?}");
        }
    }
}

#[test]
fn a_long_road_becomes_few_points() {
    let list = chart(&Ground::highway(), &[("Peak", 20_000.0, 2.0)]);
    let roads = strokes(&flat(&list.items), Ink::Works, 3.0);
    for (_, spots) in roads.iter().filter(|(_, spots)| spots.len() > 3) {
        let steps = spots.windows(2).rev().skip(1).map(|pair| pair[0].distance(pair[1]));
        assert!(steps.fold(f64::INFINITY, f64::min) >= 0.8, "{} points", spots.len());
    }
    assert!(roads.iter().any(|(_, spots)| spots.len() > 100), "the road is drawn at all");
}

#[test]
fn odd_cases_stay_finite() {
    let lane = Ground::lane();
    let tiny = Size::new(1.0, 1.0);
    let mut lists = all_charts();
    lists.push(chart(&lane, &[("On the road", 40.0, 2.0)]));
    lists.push(sized(&lane, &[("Tower", 90.0, 2.0)], tiny));
    lists.push(sized(&Ground::velm(), &[("Sorn chapel", 1150.0, 2.0)], Size::new(170.0, 90.0)));
    let nothing = Walk { car: point(0.0, 0.0), car_covariance: Covariance::default(), ends: &[], legs: &[], way: None };
    lists.push(walk_chart(&drawn(&lane.sheet, 0.0), &nothing, &Plain, SIZE));
    lists.push(walk_chart(&drawn(&lane.sheet, 0.0), &nothing, &Plain, tiny));
    for list in &lists {
        let text = svg(list, Theme::Day);
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
        assert_eq!(text.matches("<path").count() + text.matches("<circle").count() + text.matches("<text").count(), drawable(list));
    }
}

/// Letters with an edge of paper are drawn twice, the edge first.
fn drawable(list: &DisplayList) -> usize {
    let drawn = |item: &Item| match item {
        Item::Path { points, .. } => usize::from(points.len() > 1),
        Item::Text { halo, .. } => 1 + usize::from(*halo),
        Item::Circle { .. } | Item::Clip { .. } => 1,
    };
    flat(&list.items).iter().map(drawn).sum()
}

#[test]
fn the_ring_stays_inside_its_outline() {
    let end = |spread: f64| LegEnd {
        at: point(300.0, 400.0),
        plane_deg: 37.0,
        metres: 500.0,
        detour_m: 0.0,
        covariance: Covariance::along_across(point(0.6, 0.8), spread, spread / 6.0),
    };
    for spread in [1.0, 5.0, 20.0, 200.0] {
        let ends = [end(spread)];
        let walk = Walk { car: point(0.0, 0.0), car_covariance: Covariance::default(), ends: &ends, legs: &[], way: None };
        let items = flat(&walk_chart(&drawn(&Ground::velm().sheet, 0.0), &walk, &Plain, SIZE).items);
        let outline = outline_of(&items);
        let (centre, reach) = ring_of(&items);
        let nearest = outline.iter().map(|spot| spot.distance(centre)).fold(f64::INFINITY, f64::min);
        assert!(reach <= nearest + 1e-9, "ring of {reach} in {nearest}");
        let widest = outline.iter().map(|spot| 2.0 * spot.distance(centre)).fold(0.0, f64::max);
        assert!(widest >= 12.0 - 1e-6, "outline of {widest} at {spread} m");
    }
}

fn outline_of(items: &[Item]) -> Vec<Spot> {
    let outline = |item: &Item| match item {
        Item::Path { points, closed: true, stroke: Some(stroke), .. } if stroke.ink == Ink::Spread => Some(points.clone()),
        _ => None,
    };
    items.iter().find_map(outline).unwrap()
}

/// Middle of the walker's ring and its reach, stroke included.
fn ring_of(items: &[Item]) -> (Spot, f64) {
    let ring = |item: &Item| match item {
        Item::Circle { centre, radius, stroke: Some(stroke), .. } if stroke.ink == Ink::Text => {
            Some((*centre, radius + stroke.width / 2.0))
        }
        _ => None,
    };
    items.iter().find_map(ring).unwrap()
}

#[test]
fn the_outline_is_that_of_95_percent() {
    let spread = Covariance::along_across(point(1.0, 0.0), 30.0, 10.0);
    let walk = Walk { car: point(0.0, 0.0), car_covariance: spread, ends: &[], legs: &[], way: None };
    let list = walk_chart(&drawn(&Ground::velm().sheet, 0.0), &walk, &Plain, SIZE);
    let area = box_of(&outline_of(&flat(&list.items)));
    let metres = 1.0 / walk_chart::walk_view(Area::new(0.0, 0.0, 360.0, 280.0), 14.0, &walk).dp_per_m;
    assert!((area.width * metres - 2.0 * PLANE_95 * 30.0).abs() < 0.1, "{} m", area.width * metres);
    assert!((area.height * metres - 2.0 * PLANE_95 * 10.0).abs() < 0.1, "{} m", area.height * metres);
    assert!(texts(&list).contains(&Plain.plus_minus(PLANE_95 * 30.0)));
}

#[test]
fn a_detour_is_drawn_on_its_side_and_the_way_back_on_the_other() {
    let ground = Ground::velm();
    let list = walk_of(&ground, 2, true, SIZE);
    let items = flat(&list.items);
    let leg = strokes(&items, Ink::LegWalked, 4.0).remove(0).1;
    let around = strokes(&items, Ink::LegWalked, 1.6).remove(0).1;
    let back = strokes(&items, Ink::WayBack, 6.0).remove(0).1;
    // The second leg runs west, its detour to the right: north, upwards.
    assert_eq!(ground::legs(2)[1].detour.map(|detour| detour.side), Some(Side::Right));
    assert!(around[1].y < leg[1].y - 5.0 && around[2].y < leg[2].y - 5.0, "{around:?} beside {leg:?}");
    let middle = leg[1].between(leg[2], 0.5);
    assert!(back.windows(2).any(|pair| pair[0].between(pair[1], 0.5).distance(middle) < 40.0 && pair[0].y > middle.y));
    assert!(back[0].distance(leg[2]) < back[0].distance(leg[0]), "the way back begins where the walk ends");
}

#[test]
fn figures_are_reckoned_wider_than_small_letters() {
    assert!(text_width("1000", 14.0, false) > text_width("nnnn", 14.0, false));
    assert!(text_width("漢字", 14.0, false) > 2.0 * 14.0);
}
