//! Landforms on constructed ground: heights made up with exact arithmetic, so that what must be found is known.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::{Form, Landform, LandformKind, LandformScale, forms, landforms, landforms_around, landforms_near};
use crate::earth::{Grid, LatLon, geodesic_between};
use crate::ground::{HeightSpread, Heights, Lattice, Layout, Post};
use crate::measure::signed_difference_deg;

mod cuts;
mod faces;
mod footing;
mod from_a_place;
mod shapes;
mod table;

const SPREAD: HeightSpread = HeightSpread { sigma_m: 5.0, correlation_m: 300.0 };

/// Heights on a square of UTM 32 around its middle: `height` by metres east and north of the middle.
fn ground(posts: usize, step_m: f64, spread: HeightSpread, height: impl Fn(f64, f64) -> f64) -> Heights {
    let half_m = (posts - 1) as f64 / 2.0 * step_m;
    let lattice = Lattice::Projected(Grid::named("32N").expect("UTM 32"));
    let (west, north) = (500_000.0 - half_m, 5_000_000.0 + half_m);
    let layout = Layout { lattice, columns: posts, rows: posts, west, north, step_east: step_m, step_south: step_m };
    let of = |post: usize| height((post % posts) as f64 * step_m - half_m, half_m - (post / posts) as f64 * step_m) as f32;
    Heights::new(layout, spread, (0..posts * posts).map(of).collect()).expect("heights")
}

/// The place so many metres of the grid east and north of the middle.
fn place(heights: &Heights, east_m: f64, north_m: f64) -> LatLon {
    let layout = heights.layout();
    let middle = (layout.columns - 1) as f64 / 2.0;
    let post = Post { column: middle + east_m / layout.step_east, row: middle - north_m / layout.step_south };
    layout.place_of(post).expect("place")
}

fn post(heights: &Heights, east_m: f64, north_m: f64) -> Post {
    heights.layout().post_of(place(heights, east_m, north_m)).expect("post")
}

fn all(heights: &Heights) -> Vec<Landform> {
    landforms(heights, &LandformScale::default()).expect("landforms")
}

/// The landforms of a kind within a distance of a place on the grid.
fn near(heights: &Heights, kind: LandformKind, (east_m, north_m): (f64, f64), within_m: f64) -> Vec<Landform> {
    let around = landforms_around(&all(heights), place(heights, east_m, north_m), within_m);
    around.into_iter().map(|one| one.landform).filter(|landform| landform.kind == kind).collect()
}

fn bell(metres: f64, wide_m: f64) -> f64 {
    (-(metres / wide_m).powi(2)).exp()
}

/// Two hills 800 m apart on a ridge from west to east, the saddle between them 48 m below the lower one.
fn two_hills(east_m: f64, north_m: f64) -> f64 {
    let crest = 100.0 * bell(east_m + 400.0, 300.0) + 80.0 * bell(east_m - 400.0, 300.0) + 60.0;
    crest * bell(north_m, 250.0)
}

#[test]
fn a_cone_is_a_hill_with_its_whole_relief_and_nothing_else_on_its_top() {
    let heights = ground(101, 30.0, SPREAD, |east_m, north_m| 200.0 - 0.2 * east_m.hypot(north_m));
    let hills = near(&heights, LandformKind::Hill, (0.0, 0.0), 1.0);
    assert_eq!(hills.len(), 1);
    // The way out of the square of 1 km that stays highest leaves it 33 posts away along one axis.
    assert!((hills[0].relief_m - 0.2 * 990.0).abs() < 0.01, "{}", hills[0].relief_m);
    assert!(hills[0].strength > 0.99);
    let mut other = all(&heights);
    other.retain(|one| ![LandformKind::Hill, LandformKind::Spur].contains(&one.kind));
    assert!(other.is_empty(), "the flanks of an even cone are spurs at most: {other:?}");
    let shapes = forms(&heights, &LandformScale::default()).expect("forms");
    assert_eq!(shapes[101 * 50 + 50], Some(Form::Summit));
    assert_eq!(shapes[0], None, "no full view at the border");
}

#[test]
fn a_hollow_is_a_depression_and_a_drained_one_is_not() {
    let hollow = |east_m: f64, north_m: f64| 0.1 * (500.0 - east_m.hypot(north_m)).abs();
    let closed = ground(61, 30.0, SPREAD, hollow);
    assert!(near(&closed, LandformKind::Depression, (0.0, 0.0), 1.0).is_empty(), "the middle is the highest here");
    let closed = ground(61, 30.0, SPREAD, |east_m, north_m| -hollow(east_m, north_m));
    let found = near(&closed, LandformKind::Depression, (0.0, 0.0), 1.0);
    assert_eq!(found.len(), 1);
    // Its rim is at 500 m; a post of the way out lies within 22 m of it.
    assert!((found[0].relief_m - 50.0).abs() < 2.2, "{}", found[0].relief_m);
    let drained = ground(
        61,
        30.0,
        SPREAD,
        |east_m, north_m| if north_m.abs() < 40.0 && east_m > 0.0 { -60.0 - east_m } else { -hollow(east_m, north_m) },
    );
    assert!(near(&drained, LandformKind::Depression, (0.0, 0.0), 200.0).is_empty(), "a cut drains it over the border");
}

#[test]
fn between_two_hills_lies_a_saddle_on_a_ridge() {
    let heights = ground(121, 30.0, SPREAD, two_hills);
    let saddles = near(&heights, LandformKind::Saddle, (0.0, 0.0), 90.0);
    assert_eq!(saddles.len(), 1);
    let depth_m = two_hills(390.0, 0.0) - saddles[0].height_m;
    assert!((saddles[0].relief_m - depth_m).abs() < 1.0 && depth_m > 30.0, "{} {depth_m}", saddles[0].relief_m);
    assert_eq!(near(&heights, LandformKind::Hill, (-400.0, 0.0), 45.0).len(), 1);
    assert_eq!(near(&heights, LandformKind::Hill, (400.0, 0.0), 45.0).len(), 1);
    assert!(!near(&heights, LandformKind::Ridge, (0.0, 0.0), 500.0).is_empty());
    assert!(near(&heights, LandformKind::Valley, (0.0, 0.0), 300.0).is_empty());
}

#[test]
fn two_hills_on_a_plain_have_no_saddle_between_them() {
    let plain =
        |east_m: f64, north_m: f64| 50.0 * (bell((east_m + 900.0).hypot(north_m), 120.0) + bell((east_m - 900.0).hypot(north_m), 120.0));
    let heights = ground(121, 30.0, SPREAD, plain);
    assert_eq!(all(&heights).iter().filter(|one| one.kind == LandformKind::Hill).count(), 2);
    assert_eq!(all(&heights).iter().filter(|one| one.kind == LandformKind::Saddle).count(), 0);
}

/// A slope falling to the south with a furrow (`deep_m` below it) or a rib (above) down its middle.
fn slope_with(deep_m: f64, steep: f64) -> Heights {
    ground(101, 30.0, SPREAD, move |east_m, north_m| 500.0 + steep * north_m + deep_m * bell(east_m, 120.0))
}

#[test]
fn a_furrow_down_a_slope_is_a_draw_and_a_rib_is_a_spur() {
    let kinds = |heights: &Heights| all(heights).into_iter().map(|one| (one.kind, one.at)).collect::<Vec<_>>();
    let draw = slope_with(-25.0, 0.2);
    assert!(!near(&draw, LandformKind::Draw, (0.0, 0.0), 300.0).is_empty());
    assert!(kinds(&draw).iter().all(|(kind, _)| *kind != LandformKind::Valley && *kind != LandformKind::Ridge));
    let spur = slope_with(25.0, 0.2);
    assert!(!near(&spur, LandformKind::Spur, (0.0, 0.0), 300.0).is_empty());
    assert!(kinds(&spur).iter().all(|(kind, _)| *kind != LandformKind::Valley && *kind != LandformKind::Ridge));
}

#[test]
fn the_same_furrow_is_a_valley_and_the_rib_a_ridge_where_the_ground_hardly_falls() {
    let valley = slope_with(-25.0, 0.01);
    assert!(!near(&valley, LandformKind::Valley, (0.0, 0.0), 300.0).is_empty());
    assert!(near(&valley, LandformKind::Draw, (0.0, 0.0), 300.0).is_empty());
    let ridge = slope_with(25.0, 0.01);
    assert!(!near(&ridge, LandformKind::Ridge, (0.0, 0.0), 300.0).is_empty());
    assert!(near(&ridge, LandformKind::Spur, (0.0, 0.0), 300.0).is_empty());
}

#[test]
fn a_long_landform_is_cut_into_pieces_along_its_line() {
    let ridge = slope_with(25.0, 0.01);
    let pieces: Vec<Landform> = all(&ridge).into_iter().filter(|one| one.kind == LandformKind::Ridge).collect();
    assert!(pieces.len() >= 3, "{}", pieces.len());
    assert!(pieces.iter().all(|one| one.reach_m <= 250.0 && one.reach_m >= 50.0));
}

#[test]
fn a_step_in_fine_heights_is_a_cliff_as_high_as_it_drops() {
    let step = |east_m: f64, north_m: f64| 0.05 * north_m + if east_m + 0.1 * north_m > 0.0 { 0.0 } else { 30.0 };
    let fine = ground(101, 10.0, SPREAD, step);
    let cliffs: Vec<Landform> = all(&fine).into_iter().filter(|one| one.kind == LandformKind::Cliff).collect();
    assert!(!cliffs.is_empty());
    assert!(cliffs.iter().all(|one| (one.relief_m - 30.0).abs() < 2.0), "{cliffs:?}");
    let coarse = ground(51, 60.0, SPREAD, step);
    assert!(all(&coarse).iter().all(|one| one.kind != LandformKind::Cliff), "60 m apart it is no more than a slope");
}

#[test]
fn worse_heights_make_weaker_landforms_and_at_last_none() {
    let strength = |sigma_m: f64| {
        let heights = ground(121, 30.0, HeightSpread { sigma_m, ..SPREAD }, two_hills);
        near(&heights, LandformKind::Saddle, (0.0, 0.0), 90.0).first().map(|one| one.strength)
    };
    let rising: Vec<f64> = [20.0, 10.0, 5.0, 1.0].into_iter().filter_map(strength).collect();
    assert!(rising.len() == 4 && rising.windows(2).all(|pair| pair[0] < pair[1]), "{rising:?}");
    assert!((0.0..=1.0).contains(&rising[0]) && rising[3] <= 1.0);
    assert_eq!(strength(200.0), None);
}

#[test]
fn a_void_hides_what_lies_beside_it_and_breaks_nothing() {
    let heights = ground(
        121,
        30.0,
        SPREAD,
        |east_m, north_m| if east_m.hypot(north_m - 200.0) < 60.0 { f64::NAN } else { two_hills(east_m, north_m) },
    );
    assert!(near(&heights, LandformKind::Saddle, (0.0, 0.0), 90.0).is_empty(), "its view is broken");
    assert_eq!(near(&heights, LandformKind::Hill, (-400.0, 0.0), 45.0).len(), 1);
    let nothing = ground(11, 30.0, SPREAD, |_, _| f64::NAN);
    assert!(all(&nothing).is_empty());
}

#[test]
fn around_a_place_bearings_and_distances_are_those_of_the_ellipsoid() {
    let heights = ground(121, 30.0, SPREAD, two_hills);
    let at = place(&heights, -400.0, -300.0);
    let around = landforms_near(&heights, at, 600.0, &LandformScale::default()).expect("around");
    let hill = around.iter().find(|one| one.landform.kind == LandformKind::Hill).expect("the western hill");
    let (distance_m, bearing, _) = geodesic_between(at, place(&heights, -400.0, 0.0));
    let off_deg = signed_difference_deg(hill.bearing.degrees(), bearing.degrees());
    assert!((hill.distance_m - distance_m).abs() < 25.0 && off_deg.abs() < 5.0, "{hill:?}");
    let whole = landforms_around(&all(&heights), at, 600.0);
    let same = whole.iter().find(|one| one.landform.kind == LandformKind::Hill).expect("the western hill");
    assert!((same.landform.post.column - hill.landform.post.column).abs() < 1e-9, "posts are those of the whole grid");
    assert!((same.landform.post.row - hill.landform.post.row).abs() < 1e-9);
}
