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
