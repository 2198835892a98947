//! Contours under a chart: on a plane, where the sums can be made by hand.

use super::ground::{Ground, Plain, drawn, fix_of, flat, road};
use super::{SIZE, letters_of, strokes};
use crate::chart::{DisplayList, Drawn, Ink, Relief, Size, Spot, fix_chart, ground_chart};
use crate::ground::{HeightSpread, HeightUnit, Heights, Lattice, Layout, Post};

/// Posts every 1e-3 degrees around the sheet, rising by `rise` metres in a metre to the north.
fn plane(rise: f64) -> Heights {
    let step = 1e-3;
    let layout =
        Layout { lattice: Lattice::Geographic, columns: 101, rows: 101, west: 13.45, north: 46.15, step_east: step, step_south: step };
    let (_, south_m) = layout.spacing_m(Post { column: 50.0, row: 50.0 }).unwrap();
    let height = |row: u32| (20_000.0 * rise + 100.0 - rise * south_m * f64::from(row)) as f32;
    let values = (0..101).flat_map(|row| std::iter::repeat_n(height(row), 101)).collect();
    Heights::new(layout, HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, values).unwrap()
}

fn contours(list: &DisplayList) -> Vec<Vec<Spot>> {
    let items = flat(&list.items);
    let both = [0.6, 1.2].map(|width| strokes(&items, Ink::Contour, width));
    both.into_iter().flatten().map(|(_, spots)| spots).collect()
}

fn over(heights: &Heights, size: Size, unit: HeightUnit, interval_m: Option<f64>) -> DisplayList {
    let ground = Ground::velm();
    ground_chart(&ground.sheet, &Relief { heights, unit, interval_m }, 1.5, &Plain, size)
}

#[test]
fn contours_lie_apart_on_every_scale_and_level_on_a_plane() {
    for (rise, width) in [(0.05, 360.0), (0.2, 360.0), (0.2, 1200.0), (1.0, 360.0)] {
        let list = over(&plane(rise), Size::new(width, width), HeightUnit::Metres, None);
        let mut levels: Vec<f64> = contours(&list).iter().map(|path| path[0].y).collect();
        levels.sort_by(f64::total_cmp);
        assert!(levels.len() > 2, "{rise} {width}: {levels:?}");
        let gaps: Vec<f64> = levels.windows(2).map(|pair| pair[1] - pair[0]).collect();
        // Evenly, no closer than they can be told apart, and no farther than the next interval makes them.
        assert!(gaps.iter().all(|gap| (gap - gaps[0]).abs() < 0.5), "{rise} {width}: {gaps:?}");
        assert!((9.0 - 0.5..9.0 * 2.5 + 0.5).contains(&gaps[0]) || width > 1000.0, "{rise} {width}: {}", gaps[0]);
        for path in contours(&list) {
            assert!(path.iter().all(|spot| (spot.y - path[0].y).abs() < 1.0), "the plane rises to the north");
        }
    }
}

#[test]
fn heights_are_lettered_on_index_contours_where_nothing_else_stands() {
    let list = over(&plane(0.2), Size::new(824.0, 824.0), HeightUnit::Feet, Some(40.0 * 0.3048));
    let letters = letters_of(&list, Ink::Contour);
    assert!(letters.len() > 2, "{letters:?}");
    assert!(letters.iter().all(|text| text.parse::<u32>().unwrap().is_multiple_of(200)), "{letters:?}");
    assert_eq!(list.spoken, "contours every 40");
}

#[test]
fn a_fix_keeps_its_marks_over_the_ground() {
    let (ground, heights) = (Ground::velm(), plane(0.3));
    let fix = fix_of(&ground, &[("Sorn chapel", 1150.0, 2.0)]);
    let relief = Some(Relief { heights: &heights, unit: HeightUnit::Metres, interval_m: None });
    let with = fix_chart(&Drawn { relief, ..drawn(&ground.sheet, 1.5) }, road(&ground), &fix, &Plain, SIZE);
    let without = fix_chart(&drawn(&ground.sheet, 1.5), road(&ground), &fix, &Plain, SIZE);
    assert_eq!(with.targets, without.targets);
    let others = |list: &DisplayList| {
        let all = flat(&list.items);
        all.len() - contours(list).len() - letters_of(list, Ink::Contour).len()
    };
    assert_eq!(others(&with), others(&without), "contours take no other thing's place");
    assert!(contours(&with).len() > 5);
}

/// Heights around the sheet by metres to the east and north of its middle; none where they are not a number.
fn shaped(step: f64, height_m: impl Fn(f64, f64) -> f64) -> Heights {
    let (west, north) = (13.5 - 50.0 * step, 46.1 + 50.0 * step);
    let layout = Layout { lattice: Lattice::Geographic, columns: 101, rows: 101, west, north, step_east: step, step_south: step };
    let (east_m, south_m) = layout.spacing_m(Post { column: 50.0, row: 50.0 }).unwrap();
    let at = |index: usize| height_m(((index % 101) as f64 - 50.0) * east_m, (50.0 - (index / 101) as f64) * south_m) as f32;
    Heights::new(layout, HeightSpread { sigma_m: 1.0, correlation_m: 50.0 }, (0..101 * 101).map(at).collect()).unwrap()
}

/// A cone with a crater, its rim 600 m off the middle: the rings in the crater have ticks that point to its middle, those outside none.
#[test]
fn rings_round_lower_ground_have_ticks_that_point_downhill() {
    let crater = shaped(1e-3, |east_m, north_m| {
        let away_m = east_m.hypot(north_m);
        300.0 - (away_m - 600.0).abs() / 4.0
    });
    let list = over(&crater, Size::new(824.0, 824.0), HeightUnit::Metres, Some(20.0));
    let middle = Spot::new(middle_of(&contours(&list), |spot| spot.x), middle_of(&contours(&list), |spot| spot.y));
    let away = |spot: &Spot| (spot.x - middle.x).hypot(spot.y - middle.y);
    let (mut with, mut without) = (0, 0);
    for ring in contours(&list).iter().filter(|ring| ring.len() > 8 && ring.first() == ring.last()) {
        let tips: Vec<f64> = ring.windows(3).filter(|three| three[0] == three[2]).map(|three| away(&three[0]) - away(&three[1])).collect();
        assert!(tips.iter().all(|tip| (1.0..=3.3).contains(tip)), "{tips:?}");
        if tips.is_empty() {
            without += 1;
        } else {
            assert!(tips.len() >= 4);
            with += 1;
        }
    }
    assert!(with >= 4 && without >= 1, "{with} {without}");
}

/// The middle of the longest ring along one axis.
fn middle_of(paths: &[Vec<Spot>], of: impl Fn(&Spot) -> f64) -> f64 {
    let largest = paths.iter().filter(|path| path.first() == path.last()).max_by_key(|path| path.len()).unwrap();
    let (low, high) = largest.iter().map(&of).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)));
    f64::midpoint(low, high)
}

/// East of a meridian nothing is known: there, and nowhere else, the chart is hatched and says so; where all is known nothing is.
#[test]
fn ground_without_heights_is_hatched() {
    let size = Size::new(824.0, 824.0);
    let hatching = |list: &DisplayList| strokes(&flat(&list.items), Ink::Divider, 0.6);
    let whole = over(&shaped(4e-3, |_, north_m| north_m / 10.0), size, HeightUnit::Metres, Some(20.0));
    assert!(hatching(&whole).is_empty() && !letters_of(&whole, Ink::Text).iter().any(|text| text == "hatched"));
    let half =
        over(&shaped(4e-3, |east_m, north_m| if east_m > 0.0 { f64::NAN } else { north_m / 10.0 }), size, HeightUnit::Metres, Some(20.0));
    let contours_end = contours(&half).iter().flatten().map(|spot| spot.x).fold(f64::NEG_INFINITY, f64::max);
    let spots: Vec<Spot> = hatching(&half).into_iter().flat_map(|(_, spots)| spots).collect();
    assert!(spots.len() > 40, "{}", spots.len());
    let begins = spots.iter().map(|spot| spot.x).fold(f64::INFINITY, f64::min);
    assert!((begins - contours_end).abs() < 3.0, "{begins} {contours_end}");
    let letters = letters_of(&half, Ink::Text);
    assert!(letters.iter().any(|text| text == "hatched") && letters.iter().any(|text| text == "every 20"), "{letters:?}");
}
