use super::{STEP, at, ground, hills};
use crate::earth::LatLon;
use crate::ground::{Contour, ContourError, Heights, Interval, ProfileError};

fn every(interval_m: f64) -> Interval {
    Interval { interval_m, base_m: 0.0 }
}

fn of_height(heights: &Heights, height_m: f64) -> Vec<Contour> {
    heights.contours(every(10.0)).unwrap().into_iter().filter(|contour| contour.height_m == height_m).collect()
}

/// A cone's contours are circles around its top, run so that the top lies to the left.
#[test]
fn a_cone_has_rings() {
    let heights = ground(41, 41, 0.0, |column, row| (100.5 - 5.0 * (column as f64 - 20.0).hypot(row as f64 - 20.0)) as f32);
    for height_m in [50.0, 70.0] {
        let rings = of_height(&heights, height_m);
        let [ring] = rings.as_slice() else { panic!("{rings:?}") };
        assert!(ring.closed && ring.posts.first() == ring.posts.last() && ring.index == (height_m == 50.0));
        let radius = (100.5 - height_m) / 5.0;
        assert!(ring.posts.iter().all(|post| ((post.column - 20.0).hypot(post.row - 20.0) - radius).abs() < 0.06));
        let turned: f64 = ring.posts.windows(2).map(|pair| pair[0].column * pair[1].row - pair[1].column * pair[0].row).sum();
        assert!(turned < 0.0, "rows run south, so with the top to the left the area comes out negative");
        let few = ring.simplified(0.3, (1.0, 1.0));
        assert!(few.closed && few.posts.len() < ring.posts.len() / 2 && few.posts.first() == few.posts.last());
        let labels = ring.label_places(3.0, 30.0, (1.0, 1.0));
        assert!(!labels.is_empty());
        for label in labels {
            let top_deg = (20.0 - label.post.column).atan2(label.post.row - 20.0).to_degrees();
            let off_deg = (label.reads_to_deg - 90.0 - top_deg).rem_euclid(360.0);
            assert!(!(15.0..345.0).contains(&off_deg), "the top is above the letters: {label:?}, {off_deg}");
        }
    }
}

/// Corners 10 and 4: the saddle lies at 7, so the heights below it join the low corners' sides and those above the high ones'.
#[test]
fn a_saddle_is_parted_by_its_own_height() {
    let heights = ground(2, 2, 0.0, |column, row| if column == row { 10.0 } else { 4.0 });
    let ends = |height_m: f64| {
        let lines = heights.contours(Interval { interval_m: 100.0, base_m: height_m }).unwrap();
        assert_eq!(lines.len(), 2);
        lines.iter().map(|line| [line.posts[0], line.posts[1]].map(|post| post.column + post.row)).collect::<Vec<_>>()
    };
    // Lines around a high corner keep to its side of the diagonal between the low ones, on which column and row sum to 1.
    let around_high = |sums: &[f64; 2]| sums.iter().all(|sum| *sum < 1.0) || sums.iter().all(|sum| *sum > 1.0);
    assert!(ends(7.5).iter().all(around_high));
    assert!(!ends(6.5).iter().any(around_high));
}

#[test]
fn lines_end_at_voids_and_borders() {
    let heights = ground(12, 12, 0.0, |column, row| if (column, row) == (6, 6) { f32::NAN } else { column as f32 * 3.0 });
    let lines = of_height(&heights, 10.0);
    assert!(lines.len() == 1 && !lines[0].closed && lines[0].posts.len() == 12, "{lines:?}");
    let cut = heights.contours(Interval { interval_m: 100.0, base_m: 17.0 }).unwrap();
    let mut ends: Vec<f64> = cut.iter().flat_map(|line| [line.posts[0].row, line.posts[line.posts.len() - 1].row]).collect();
    ends.sort_by(f64::total_cmp);
    assert_eq!(ends, [0.0, 5.0, 7.0, 11.0], "{cut:?}");
}

#[test]
fn an_interval_that_cannot_be_is_refused() {
    let heights = ground(12, 12, 0.0, hills);
    assert_eq!(heights.contours(every(0.0)), Err(ContourError::Interval));
    assert_eq!(heights.contours(every(f64::NAN)), Err(ContourError::Interval));
    assert!(matches!(heights.contours(every(1e-4)), Err(ContourError::TooMany(_))));
    assert_eq!(ground(3, 3, 0.0, |_, _| f32::NAN).contours(every(5.0)), Ok(vec![]));
}

/// On a plane every way of reckoning gives its own rise.
#[test]
fn a_plane_has_its_slope_everywhere() {
    let heights =
        ground(9, 9, 5.0, |column, row| if (column, row) == (8, 8) { f32::NAN } else { 20.0 * column as f32 - 10.0 * row as f32 });
    for post in [at(3.0, 3.0), at(4.3, 5.9), at(1.0, 1.0)] {
        let (east_m, south_m) = heights.layout().spacing_m(post).unwrap();
        let slope = heights.slope_at_post(post).unwrap();
        let (east, south) = (20.0 / east_m, -10.0 / south_m);
        assert!((slope.percent - 100.0 * east.hypot(south)).abs() < 1e-9);
        assert!((slope.slope_deg - east.hypot(south).atan().to_degrees()).abs() < 1e-9);
        let aspect = slope.aspect.unwrap();
        assert!((aspect.falls_to.degrees() - (-east).atan2(south).to_degrees().rem_euclid(360.0)).abs() < 1e-9, "{aspect:?}");
        assert!(slope.spread_deg > 0.0 && aspect.spread_deg > slope.spread_deg);
    }
    for post in [at(0.5, 3.0), at(7.0, 7.0), at(6.5, 6.5), at(9.0, 2.0), at(-1.0, 2.0)] {
        assert_eq!(heights.slope_at_post(post), None, "{post:?}");
    }
    assert_eq!(ground(3, 3, 5.0, |_, _| 7.0).slope_at_post(at(1.0, 1.0)).unwrap().aspect, None);
}

#[test]
fn a_profile_goes_from_end_to_end() {
    let heights = ground(21, 3, 0.0, |column, _| if column == 15 { f32::NAN } else { 100.0 - 10.0 * (column as f32 - 10.0).abs() });
    let place = |column: f64| LatLon::new(46.0 - STEP, 7.0 + STEP * column).unwrap();
    let profile = heights.profile(place(0.0), place(14.0), 7.0).unwrap();
    assert!((profile.climb_m - 100.0).abs() < 0.6 && (profile.descent_m - 40.0).abs() < 0.6, "{profile:?}");
    let last = profile.samples.last().unwrap();
    assert!(last.distance_m == profile.length_m && (last.height_m.unwrap() - 60.0).abs() < 1e-6);
    let steepest = profile.steepest.unwrap();
    let wanted_deg = (10.0 * 14.0 / profile.length_m).atan().to_degrees();
    assert!((steepest.slope_deg.abs() - wanted_deg).abs() < 1e-3, "{steepest:?} {wanted_deg}");
    let gap = heights.profile(place(13.0), place(20.0), 20.0).unwrap();
    assert!(gap.samples.iter().any(|sample| sample.height_m.is_none()) && gap.samples.last().unwrap().height_m.is_some());
    assert_eq!(heights.profile(place(0.0), place(1.0), 0.0), Err(ProfileError::Step));
    assert_eq!(heights.profile(place(0.0), place(1.0), f64::NAN), Err(ProfileError::Step));
    assert!(matches!(heights.profile(place(0.0), place(20.0), 1e-3), Err(ProfileError::TooMany(_))));
}
