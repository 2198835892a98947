use super::{STEP, at, drawn_errors, ground, hills};
use crate::earth::LatLon;
use crate::ground::{Contour, ContourError, HeightSpread, Heights, Interval, Profile, ProfileError};

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

/// A round sink on a slope, and a knob in its middle: the rings of the sink are hollows, those of the knob are none; simplified, they stay so.
#[test]
fn a_ring_round_lower_ground_is_a_hollow() {
    let heights = ground(61, 61, 0.0, |column, row| {
        let away = (column as f64 - 30.0).hypot(row as f64 - 30.0);
        (3.0 + 0.3 * column as f64 + 4.0 * away.min(20.0) + 60.0 * (-away * away / 20.0).exp()) as f32
    });
    let rings: Vec<Contour> = heights.contours(every(10.0)).unwrap().into_iter().filter(|contour| contour.closed).collect();
    let wide = |ring: &Contour| {
        let columns = || ring.posts.iter().map(|post| post.column);
        columns().fold(f64::NEG_INFINITY, f64::max) - columns().fold(f64::INFINITY, f64::min)
    };
    for ring in &rings {
        assert_eq!(ring.depression, wide(ring) > 12.0, "{} {}", ring.height_m, wide(ring));
        assert_eq!(ring.simplified(0.3, (1.0, 1.0)).depression, ring.depression);
    }
    assert!(rings.iter().any(|ring| ring.depression) && rings.iter().any(|ring| !ring.depression), "{rings:?}");
}

/// By hand: 2 * 1.645 * 9.73 m.
#[test]
fn no_interval_is_finer_than_nine_of_ten_heights_carry() {
    assert!((Interval::least_m(HeightSpread { sigma_m: 9.73, correlation_m: 300.0 }) - 32.01).abs() < 0.01);
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

/// Profiles along a row, post by post, over ground with drawn errors whose correlation falls as `exp(-distance / 300 m)`.
fn drawn_profiles(draws: usize, sigma_m: f64, ground_m: impl Fn(usize) -> f64) -> Vec<Profile> {
    let place = |column: f64| LatLon::new(46.0 - STEP, 7.0 + STEP * column).unwrap();
    let level = ground(201, 3, sigma_m, |_, _| 0.0);
    let step_m = level.layout().spacing_m(at(100.0, 1.0)).unwrap().0;
    let one = |draw: usize| {
        let errors = drawn_errors(201, step_m / 300.0, draw);
        let heights = ground(201, 3, sigma_m, |column, _| (ground_m(column) + sigma_m * errors[column]) as f32);
        heights.profile(place(0.0), place(200.0), step_m).unwrap()
    };
    (0..draws).map(one).collect()
}

/// What is reckoned for level ground is the mean of draws, two standard deviations above it hold all but a few, and no step is told as
/// steep in more than one draw of twenty. A slope of 30° in one step is.
#[test]
fn errors_alone_make_what_is_told_of_them() {
    let level = drawn_profiles(400, 9.73, |_| 500.0);
    let mean_m = level.iter().map(|profile| profile.climb_m + profile.descent_m).sum::<f64>() / 800.0;
    let told_m = level[0].errors_m.mean_m;
    assert!((mean_m / told_m - 1.0).abs() < 0.01, "{mean_m} {told_m}");
    let above = level.iter().filter(|profile| (profile.climb_m + profile.descent_m) / 2.0 > profile.errors_m.most_m).count();
    assert!((1..=24).contains(&above), "{above} of 400");
    assert!(level.iter().filter(|profile| profile.may_be_errors()).count() >= 380);
    let steep = level.iter().filter(|profile| profile.steepest.unwrap().is_told()).count();
    assert!(steep <= 24, "{steep} of 400");
    let step_m = level[0].length_m / 200.0;
    let wall_m = step_m * 30f64.to_radians().tan();
    for profile in drawn_profiles(100, 3.0, |column| if column < 100 { 500.0 } else { 500.0 + wall_m }) {
        let steepest = profile.steepest.unwrap();
        assert!(steepest.is_told() && (steepest.slope_deg - 30.0).abs() <= steepest.half_width_deg, "{steepest:?}");
        assert!((steepest.from_m / step_m - 99.0).abs() < 0.01);
    }
    let none = drawn_profiles(1, 0.0, |column| 500.0 + (column % 2) as f64);
    assert!(none[0].steepest.unwrap().is_told() && !none[0].may_be_errors() && none[0].errors_m.most_m == 0.0, "{:?}", none[0].errors_m);
}

#[test]
fn a_profile_tells_its_highest_and_lowest_place() {
    let heights = ground(21, 3, 0.0, |column, _| if column == 20 { f32::NAN } else { [7.0, 9.0, 3.0, 5.0][column % 4] });
    let place = |column: f64| LatLon::new(46.0 - STEP, 7.0 + STEP * column).unwrap();
    let step_m = heights.layout().spacing_m(at(10.0, 1.0)).unwrap().0;
    let profile = heights.profile(place(0.0), place(20.0), step_m).unwrap();
    let (high, low) = (profile.highest().unwrap(), profile.lowest().unwrap());
    assert!((high.height_m.unwrap() - 9.0).abs() < 1e-4 && (high.distance_m / step_m - 1.0).abs() < 1e-3, "{high:?}");
    assert!((low.height_m.unwrap() - 3.0).abs() < 1e-4 && (low.distance_m / step_m - 2.0).abs() < 1e-3, "{low:?}");
}
