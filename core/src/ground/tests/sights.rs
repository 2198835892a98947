use super::{at, drawn_errors, ground, hills, mixed};
use crate::earth::geodesic_between;
use crate::ground::{CLEAR_CHANCE, DeadStretch, HIDDEN_CHANCE, Heights, Post, Seen, Sightlines, Stand, Untold, curvature_drop_m};
use crate::measure::TrueBearing;

fn stand(column: f64, row: f64, above_m: f64) -> Stand {
    Stand::at(at(column, row), above_m)
}

fn metres(heights: &Heights, from: Post, to: Post) -> f64 {
    let place = |post| heights.layout().place_of(post).unwrap();
    geodesic_between(place(from), place(to)).0
}

/// A wall of 20 m on the level, in the middle between an eye and an object of 30 m each: they look 10 m over it, less the curve.
#[test]
fn a_wall_is_looked_over_or_not() {
    let heights = ground(41, 41, 0.0, |column, _| if column == 20 { 20.0 } else { 0.0 });
    let lines = Sightlines::over(&heights).unwrap();
    let half_m = metres(&heights, at(5.0, 20.0), at(20.0, 20.0));
    for (above_m, over_m) in [(30.0, 10.0), (15.0, -5.0)] {
        let sight = lines.sight(stand(5.0, 20.0, above_m), stand(35.0, 20.0, above_m));
        let wanted_m = over_m - curvature_drop_m(half_m);
        assert!((sight.margin_m.unwrap() - wanted_m).abs() < 1e-4, "{sight:?}, wanted {wanted_m}");
        assert!((sight.nearest.unwrap().distance_m / half_m - 1.0).abs() < 1e-5);
        assert!((sight.drop_m / curvature_drop_m(2.0 * half_m) - 1.0).abs() < 1e-5);
        assert_eq!(sight.seen, if over_m > 0.0 { Seen::Clear } else { Seen::Hidden });
    }
}

/// Over the level the sight's own parabola has its lowest place where the calculus puts it.
#[test]
fn the_earth_itself_hides_what_is_far() {
    let heights = ground(400, 3, 0.0, |_, _| 0.0);
    let lines = Sightlines::over(&heights).unwrap();
    let (eye_m, object_m) = (3.0, 12.0);
    let sight = lines.sight(stand(10.0, 1.0, eye_m), stand(390.0, 1.0, object_m));
    let drop_m = curvature_drop_m(sight.distance_m);
    let share = 0.5 - (object_m - eye_m) / (2.0 * drop_m);
    let wanted_m = eye_m + (object_m - eye_m) * share - drop_m * share * (1.0 - share);
    assert!((sight.margin_m.unwrap() - wanted_m).abs() < 1e-6, "{sight:?}, wanted {wanted_m}");
    assert!((sight.nearest.unwrap().distance_m - share * sight.distance_m).abs() < 1e-3);
    let straight = Sightlines::refracted(&heights, 1.0).unwrap().sight(stand(10.0, 1.0, eye_m), stand(390.0, 1.0, object_m));
    assert_eq!(straight.seen, Seen::Clear, "light that bends as the earth does sees all");
}

/// By hand: from 1.7 m over the level to 200 m at some 53 km the sight rises from the beginning (0.0037 against 0.0036 of the curve's
/// own fall), so that it is nowhere nearer to the ground than at the eye.
#[test]
fn a_sight_that_only_rises_is_nearest_to_the_ground_at_its_lower_end() {
    let heights = ground(830, 3, 0.0, |_, _| 0.0);
    let lines = Sightlines::over(&heights).unwrap();
    let per_column_m = metres(&heights, at(0.0, 1.0), at(1.0, 1.0));
    let far = 53_000.0 / per_column_m;
    assert!(far < 829.0, "{far} columns");
    for (eye, object, column) in [(stand(0.0, 1.0, 1.7), stand(far, 1.0, 200.0), 0.0), (stand(far, 1.0, 200.0), stand(0.0, 1.0, 1.7), 0.0)]
    {
        let sight = lines.sight(eye, object);
        assert_eq!((sight.seen, sight.margin_m), (Seen::Clear, Some(1.7)));
        assert!((sight.nearest.unwrap().post.column - column).abs() < 1e-9);
    }
}

#[test]
fn what_is_not_known_is_not_told_unless_known_ground_hides_it() {
    let heights = ground(41, 41, 5.0, |column, row| match (column, row) {
        (30, _) => f32::NAN,
        (15, 0..=20) => 200.0,
        _ => 0.0,
    });
    let lines = Sightlines::over(&heights).unwrap();
    let over_void = lines.sight(stand(5.0, 30.0, 2.0), stand(38.0, 30.5, 90.0));
    assert_eq!((over_void.seen, over_void.chance), (Seen::NotToBeTold(Untold::Void), None));
    assert!((over_void.void.unwrap().post.column - 29.0).abs() < 1e-9);
    assert_eq!(lines.sight(stand(5.0, 10.0, 2.0), stand(38.0, 10.5, 9.0)).seen, Seen::Hidden);
    for (eye, object) in [((5.0, 10.0, 2.0), (41.5, 9.0, 2.0)), ((30.0, 3.0, 2.0), (4.0, 4.0, 2.0)), ((5.0, 5.0, -1.0), (4.0, 4.0, 2.0))] {
        let sight = lines.sight(stand(eye.0, eye.1, eye.2), stand(object.0, object.1, object.2));
        assert_eq!((sight.seen, sight.margin_m), (Seen::NotToBeTold(Untold::Outside), None));
    }
}

#[test]
fn a_margin_within_the_spread_decides_nothing() {
    let heights = ground(81, 41, 5.0, |column, _| if column == 40 { 50.0 } else { 0.0 });
    let lines = Sightlines::over(&heights).unwrap();
    let seen = |above_m: f64| lines.sight(stand(5.0, 20.0, above_m), stand(75.0, 20.0, above_m));
    assert_eq!(seen(52.0).seen, Seen::NotToBeTold(Untold::Spread));
    assert!(seen(85.0).chance.unwrap() >= CLEAR_CHANCE && seen(85.0).seen == Seen::Clear);
    assert!(seen(30.0).chance.unwrap() <= HIDDEN_CHANCE && seen(30.0).seen == Seen::Hidden);
    let chances: Vec<f64> = (30..85).filter_map(|above| seen(f64::from(above)).chance).collect();
    assert!(chances.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9), "{chances:?}");
}

/// Ends on posts, on edges and on the border, and eyes that stand where they look.
#[test]
fn every_ray_comes_to_its_end() {
    let heights = ground(18, 18, 0.0, hills);
    let lines = Sightlines::over(&heights).unwrap();
    for i in 0..18 * 18 {
        for j in (0..18 * 18).step_by(7) {
            let post = |i: usize| ((i % 18) as f64, (i / 18) as f64);
            let ((a, b), (c, d)) = (post(i), post(j));
            let sight = lines.sight(stand(a, b, 1.7), stand(c, d, 5.0));
            assert!(sight.margin_m.is_some() || i == j, "{i} {j}: {sight:?}");
        }
    }
}

/// What was learnt from one eye never changes the answer for another; a chance is that of the eye alone, or for every second one halfway
/// between those beside it that are alike.
#[test]
fn many_eyes_are_told_what_each_is_told_alone() {
    let heights = ground(150, 120, 4.0, |column, row| if (row, column / 3) == (80, 40) { f32::NAN } else { hills(column, row) });
    let lines = Sightlines::over(&heights).unwrap();
    let eyes: Vec<Post> = (0..600).map(|i| f64::from(i) / 600.0).map(|t| at(60.0 + 28.0 * t, 60.0 + 30.0 * (t * 2.0).sin())).collect();
    let objects: Vec<Stand> =
        (0..12).map(|i| stand(5.0 + 140.0 * mixed(i), 5.0 + 110.0 * mixed(i + 50), [0.0, 2.0, 25.0][i % 3])).collect();
    let seen = lines.in_sight(&eyes, 1.7, &objects, 6000.0);
    let chances = lines.chances(&eyes, 1.7, &objects, 6000.0);
    let (mut counts, mut means) = ([0; 3], 0);
    for (i, object) in objects.iter().enumerate() {
        for (j, eye) in eyes.iter().enumerate().step_by(if i < 6 { 1 } else { 5 }) {
            let sight = lines.sight(Stand::at(*eye, 1.7), *object);
            let clear = sight.margin_m.map(|margin_m| margin_m >= -1e-6);
            let wanted = clear.filter(|clear| sight.distance_m <= 6000.0 && (sight.void.is_none() || !clear));
            assert_eq!(seen[i][j], wanted, "object {i}, eye {j}: {sight:?}");
            counts[wanted.map_or(2, usize::from)] += 1;
            let near = match (chances[i][j], sight.chance.filter(|_| sight.distance_m <= 6000.0)) {
                (Some(a), Some(b)) => (a - b).abs() < 0.002,
                (a, b) => a == b || (a == Some(0.0) && sight.void.is_some()),
            };
            let beside =
                [j.wrapping_sub(1), j + 1].map(|j| chances[i].get(j).copied().flatten().filter(|chance| *chance > 0.0 && *chance < 1.0));
            let halfway = match beside {
                [Some(a), Some(b)] => j % 2 == 1 && (a - b).abs() <= 0.1 && (chances[i][j].unwrap() - (a + b) / 2.0).abs() < 1e-12,
                _ => false,
            };
            means += usize::from(halfway);
            assert!(near || halfway, "object {i}, eye {j}: {:?} and {sight:?}", chances[i][j]);
        }
    }
    assert!(counts.iter().all(|count| *count > 100) && means > 100, "{counts:?} {means}");
}

#[test]
fn behind_a_wall_the_ground_is_dead() {
    let heights = ground(61, 5, 0.0, |column, _| if column == 20 { 10.0 } else { 0.0 });
    let lines = Sightlines::refracted(&heights, 1.0).unwrap();
    let dead = lines.dead_ground(stand(0.0, 2.0, 30.0), at(60.0, 2.0), 0.0).unwrap();
    let step_m = metres(&heights, at(0.0, 2.0), at(60.0, 2.0)) / 60.0;
    let [stretch] = dead.stretches.as_slice() else { panic!("{dead:?}") };
    // From the wall's top 20 steps out and 10 m high, the sight comes down to the ground 30 steps out.
    assert!((stretch.from_m - 20.0 * step_m).abs() < 0.01 && (stretch.to_m - 30.0 * step_m).abs() < 0.01, "{dead:?} {step_m}");
    let mast = lines.dead_ground(stand(0.0, 2.0, 30.0), at(60.0, 2.0), 4.0).unwrap();
    assert!((mast.stretches[0].to_m - 26.0 * step_m).abs() < 0.01, "{mast:?}");
    assert_eq!(lines.dead_ground(stand(0.0, 2.0, 30.0), at(61.0, 2.0), 0.0), None);
}

/// A ridge of a stated angle: from an eye on the level a wall of height h at a distance d stands `atan((h - drop - eye) / d)` high,
/// and over a bearing aslant of the wall it is as much farther off. Away from it only the level is seen.
#[test]
fn a_ridge_stands_as_high_as_it_was_built() {
    let heights = ground(81, 81, 3.0, |column, _| if column == 20 { 300.0 } else { 0.0 });
    let eye = heights.layout().place_of(at(60.0, 40.0)).unwrap();
    let wall = heights.layout().place_of(at(20.0, 40.0)).unwrap();
    let away_m = geodesic_between(eye, wall).0;
    for (bearing, farther) in [(270.0, 1.0), (285.0, 1.0 / 15f64.to_radians().cos()), (245.0, 1.0 / 25f64.to_radians().cos())] {
        let seen = Sightlines::over(&heights).unwrap().horizon(eye, 1.7, TrueBearing::new(bearing)).unwrap();
        let wall_m = away_m * farther;
        let wanted_deg = ((300.0 - curvature_drop_m(wall_m) - 1.7) / wall_m).atan().to_degrees();
        assert!((seen.elevation_deg - wanted_deg).abs() < 0.01, "{bearing}: {seen:?}, wanted {wanted_deg}");
        assert!((seen.distance_m / wall_m - 1.0).abs() < 1e-3 && seen.known_to_m > wall_m && !seen.has_gap);
        if bearing == 270.0 {
            // Within two posts of the wall's the rise changes by 300, 600 and 300 m; about the eye by nothing.
            let unposted_m = 0.3 * ((2.0 * 300f64.powi(2) + 600f64.powi(2)) / 5.0).sqrt();
            assert!((seen.spread_deg - ((3.0 * 2f64.sqrt()).hypot(unposted_m) / wall_m).atan().to_degrees()).abs() < 1e-3, "{seen:?}");
        }
    }
    let east = Sightlines::over(&heights).unwrap().horizon(eye, 1.7, TrueBearing::new(90.0)).unwrap();
    assert!(east.elevation_deg < 0.0 && east.known_to_m < away_m, "{east:?}");
    let border = heights.layout().place_of(at(80.0, 40.0)).unwrap();
    assert!((east.known_to_m - geodesic_between(eye, border).0).abs() < 1.0);
}

/// By construction: a hill that is a parabola along the sight, 40 m high and 12 columns to either side. From 0.5 m above the plain, 40
/// columns off, the post 2 columns before the top shows highest: (38.889 - 0.5) / 38 = 1.01023 m a column, beside 1.0057 and 1 for its
/// neighbours and 0.9875 for the top. What stands before the hill hides it all the same: a wall half way, higher than
/// 0.5 + 20 * 1.01023 = 20.70 m.
#[test]
fn a_hill_is_seen_by_its_crown() {
    let hill = |wall_m: f32| {
        ground(201, 3, 0.0, move |column, _| {
            let away = (column as f32 - 120.0) / 12.0;
            if column == 100 { wall_m } else { (40.0 * (1.0 - away * away)).max(0.0) }
        })
    };
    let (eye, place, hilltop) = (stand(80.0, 1.0, 0.5), stand(120.0, 1.0, 0.0), Stand::hilltop(at(120.0, 1.0)));
    for (wall_m, wanted) in [(0.0, Seen::Clear), (20.6, Seen::Clear), (20.8, Seen::Hidden)] {
        let heights = hill(wall_m);
        let lines = Sightlines::refracted(&heights, 1.0).unwrap();
        assert!(2.0 * metres(&heights, at(119.0, 1.0), at(120.0, 1.0)) < 150.0);
        assert_eq!(lines.sight(eye, place).seen, Seen::Hidden);
        let sight = lines.sight(eye, hilltop);
        assert_eq!(sight.seen, wanted, "{sight:?}");
        assert_eq!(sight.distance_m, lines.sight(eye, place).distance_m);
        let [seen, chance] = [
            lines.in_sight(&[eye.post], 0.5, &[hilltop], 1e6)[0][0],
            lines.chances(&[eye.post], 0.5, &[hilltop], 1e6)[0][0].map(|chance| chance > 0.5),
        ];
        assert_eq!([seen, chance], [Some(wanted == Seen::Clear); 2]);
    }
}

/// By construction: a hill of 40 m with a top of 60 m two columns before it and a saddle of 32 m between: that is no crown of it, and hides it
/// however shallow the saddle; a shoulder of 39 m before a dip of 1 m is.
#[test]
fn another_top_is_no_crown() {
    let with = |before_m: f32, saddle_m: f32| {
        ground(201, 3, 0.0, move |column, _| match column {
            120 => 40.0,
            119 => saddle_m,
            118 => before_m,
            _ => 0.0,
        })
    };
    for (before_m, saddle_m, wanted) in [(60.0, 32.0, Seen::Hidden), (60.0, 38.5, Seen::Hidden), (39.6, 38.6, Seen::Clear)] {
        let heights = with(before_m, saddle_m);
        let lines = Sightlines::refracted(&heights, 1.0).unwrap();
        let [place, hilltop] =
            [stand(120.0, 1.0, 0.0), Stand::hilltop(at(120.0, 1.0))].map(|object| lines.sight(stand(80.0, 1.0, 0.5), object));
        assert_eq!((place.seen, hilltop.seen), (Seen::Hidden, wanted), "{before_m} {saddle_m}: {hilltop:?}");
    }
}

/// A sight that ends at a post passes a last stretch of no length by rounding: what is told there is what is told a millimetre beside it.
#[test]
fn the_chance_at_a_post_is_that_beside_it() {
    let heights = ground(161, 161, 6.0, |column, row| {
        let (east, south) = (column as f32 - 90.0, row as f32 - 70.0);
        60.0 * (-(east * east + south * south) / 900.0).exp()
    });
    let lines = Sightlines::over(&heights).unwrap();
    for eye in [(12.3, 20.7), (40.0, 150.2), (150.9, 33.1), (81.7, 11.9)] {
        let eye = stand(eye.0, eye.1, 1.7);
        let chance = |column: f64, row: f64| lines.sight(eye, stand(column, row, 0.0)).chance.unwrap();
        let (on, beside) = (chance(90.0, 70.0), chance(90.00003, 70.00002));
        for hair in [1e-9, -1e-9, 1e-8] {
            let other = chance(90.0 + hair, 70.0 - hair);
            assert!((other - on).abs() < 1e-3, "{eye:?}: {on} and {other}");
        }
        assert!((on - beside).abs() < 0.01, "{eye:?}: {on} and {beside}");
    }
}

/// A place some metres beside the post of a summit, posts some hundred metres apart, does not have that post for a wall; its horizon is
/// the sea's, whose dip navigators reckon as 1.76′ times the root of the eye's height in metres (the Nautical Almanac, from memory; with
/// a bend of 0.16 of the earth's curve, ours is 0.13).
#[test]
fn a_summit_is_not_its_own_wall() {
    let heights = ground(81, 81, 3.0, |column, row| 1_000.0 - 60.0 * (column as f32 - 40.0).hypot(row as f32 - 40.0).min(16.0));
    let step_m = metres(&heights, at(40.0, 40.0), at(40.0, 41.0));
    let eye = heights.layout().place_of(at(40.04, 40.03)).unwrap();
    for bearing in [0.0, 45.0, 90.0, 200.0, 233.0, 270.0] {
        let seen = Sightlines::over(&heights).unwrap().horizon(eye, 1.7, TrueBearing::new(bearing)).unwrap();
        let dip_deg = 1.76 / 60.0 * heights.at_m(eye).unwrap().sqrt();
        assert!((-seen.elevation_deg / dip_deg - 1.0).abs() < 0.03, "{bearing}, posts {step_m} m apart: {seen:?}, dip {dip_deg}");
        assert!(seen.ends_near());
    }
}

/// From where the horizon says that heights suffice, ground 2,000 m over the eye stands just as high: by the triangle of the earth's
/// centre, the eye and the hill, on the sphere of 1 / 0.87 of its radius by which surveyors bend sights straight. On the level that is the
/// range of sight that their handbooks give, 3.83 km for the root of a metre (from memory).
#[test]
fn a_horizon_tells_how_far_heights_suffice() {
    const RADIUS_M: f64 = 6_371_008.8 / 0.87;
    for (wall_m, rises) in [(0.0, false), (60.0, true), (300.0, true), (900.0, true)] {
        let heights = ground(81, 81, 3.0, |column, _| if column == 20 { wall_m } else { 0.0 });
        let eye = heights.layout().place_of(at(60.0, 40.0)).unwrap();
        let seen = Sightlines::over(&heights).unwrap().horizon(eye, 0.0, TrueBearing::new(270.0)).unwrap();
        let angle = seen.enough_to_m / RADIUS_M;
        let (up, out) = ((RADIUS_M + 2_000.0) * angle.cos() - RADIUS_M, (RADIUS_M + 2_000.0) * angle.sin());
        let hill_deg = up.atan2(out).to_degrees();
        let wanted_deg = if rises { seen.elevation_deg } else { 0.0 };
        assert!((hill_deg - wanted_deg).abs() < 0.005, "{wall_m}: {hill_deg} {seen:?}");
        assert!(seen.ends_near() == (seen.known_to_m < seen.enough_to_m));
    }
    let level = ground(81, 81, 3.0, |_, _| 0.0);
    let seen =
        Sightlines::over(&level).unwrap().horizon(level.layout().place_of(at(60.0, 40.0)).unwrap(), 0.0, TrueBearing::new(270.0)).unwrap();
    assert!((seen.enough_to_m / 2_000f64.sqrt() - 3_830.0).abs() < 10.0 && seen.ends_near(), "{seen:?}");
}

#[test]
fn a_horizon_tells_gaps_and_where_nothing_is_known() {
    let heights = ground(81, 81, 3.0, |column, _| match column {
        10 => 300.0,
        30 => f32::NAN,
        _ => 0.0,
    });
    let place = |column, row| heights.layout().place_of(at(column, row)).unwrap();
    let west = Sightlines::over(&heights).unwrap().horizon(place(60.0, 40.0), 1.7, TrueBearing::new(270.0)).unwrap();
    assert!(west.has_gap && west.elevation_deg > 3.0, "the ridge behind the gap still counts: {west:?}");
    assert!(!Sightlines::over(&heights).unwrap().horizon(place(60.0, 40.0), 1.7, TrueBearing::new(90.0)).unwrap().has_gap);
    assert_eq!(Sightlines::over(&heights).unwrap().horizon(place(30.0, 40.0), 1.7, TrueBearing::new(90.0)), None);
    assert_eq!(Sightlines::over(&heights).unwrap().horizon(place(90.0, 40.0), 1.7, TrueBearing::new(90.0)), None);
}

/// A plain of posts every three seconds: 100,000 draws of the errors of all posts under each sight (`over_plane` in
/// `tests/ground/sights.py`, `NumPy` 2.4.6).
#[test]
fn over_a_plain_the_chance_is_that_of_all_places_together() {
    let heights = ground(80, 80, 9.73, |_, _| 0.0);
    let lines = Sightlines::over(&heights).unwrap();
    for (object, drawn) in [((25.3, 20.7, 10.0), 0.1956), ((55.3, 40.7, 30.0), 0.1643), ((12.3, 44.7, 10.0), 0.0933)] {
        let sight = lines.sight(stand(5.3, 20.4, 1.7), stand(object.0, object.1, object.2));
        assert!((sight.chance.unwrap() - drawn).abs() < 0.015, "{object:?}: {:?} instead of {drawn}", sight.chance);
        assert_ne!(sight.seen, Seen::Hidden, "no ground stands in the way");
    }
    let heights = ground(80, 80, 100.0, |_, _| 0.0);
    let sight = Sightlines::over(&heights).unwrap().sight(stand(5.3, 20.4, 1.7), stand(70.3, 20.4, 2.0));
    assert!(sight.chance.unwrap() < HIDDEN_CHANCE && sight.seen == Seen::NotToBeTold(Untold::Spread), "{sight:?}");
}

/// Heights along the columns of a strip.
fn strip(height_m: impl Fn(usize) -> f32) -> Heights {
    ground(101, 5, 0.0, |column, _| height_m(column))
}

/// By hand, on a flat earth: a wall 10 m high 60 steps out stands behind a gap from 20 to 40. From 20 m over the level the sight over its top comes
/// down 120 steps out, so that all behind it is dead; what lies in the gap, and between gap and wall, may be hidden by what stands in the gap.
#[test]
fn beyond_a_gap_known_ground_hides_and_the_rest_is_not_told() {
    let wall = |column: usize| if column == 60 { 10.0 } else { 0.0 };
    let whole = strip(wall);
    let with_gap = strip(|column| if (21..40).contains(&column) { f32::NAN } else { wall(column) });
    let step_m = metres(&whole, at(0.0, 2.0), at(100.0, 2.0)) / 100.0;
    let ends = |all: &[DeadStretch]| all.iter().map(|one| [one.from_m / step_m, one.to_m / step_m]).collect::<Vec<_>>();
    let near = |found: &[[f64; 2]], wanted: &[[f64; 2]]| {
        found.len() == wanted.len() && found.iter().flatten().zip(wanted.iter().flatten()).all(|(a, b)| (a - b).abs() < 0.01)
    };
    let dead =
        |heights: &Heights| Sightlines::refracted(heights, 1.0).unwrap().dead_ground(stand(0.0, 2.0, 20.0), at(100.0, 2.0), 0.0).unwrap();
    let (of_whole, of_gap) = (dead(&whole), dead(&with_gap));
    assert!(near(&ends(&of_whole.stretches), &[[60.0, 100.0]]) && of_whole.untold.is_empty(), "{of_whole:?}");
    assert!(near(&ends(&of_gap.stretches), &[[60.0, 100.0]]) && near(&ends(&of_gap.untold), &[[20.0, 60.0]]), "{of_gap:?} {step_m}");
    let level = dead(&strip(|column| if (21..23).contains(&column) { f32::NAN } else { 0.0 }));
    assert!(level.stretches.is_empty() && near(&ends(&level.untold), &[[20.0, 100.0]]), "{level:?}");
}

/// By hand, on a flat earth: a slope from 90 m 40 steps out down to nothing at 60, of which the top is not known. From 2 m to 30 m, 100 steps out,
/// the sight stands 2 + 28 * 50 / 100 = 16 m high over the first known ground, 45 m high, at 50.
#[test]
fn the_first_known_ground_beyond_a_gap_hides_what_stands_behind_it() {
    let slope = |column: usize| match column {
        0..40 => 0.0,
        40..60 => 4.5 * (60 - column) as f32,
        _ => 0.0,
    };
    for (from, to, seen, wanted_m) in [(35, 50, Seen::Hidden, -29.0), (35, 59, Seen::NotToBeTold(Untold::Void), 2.0)] {
        let heights = strip(|column| if (from..to).contains(&column) { f32::NAN } else { slope(column) });
        let lines = Sightlines::refracted(&heights, 1.0).unwrap();
        let (eye, object) = (stand(0.0, 2.0, 2.0), stand(100.0, 2.0, 30.0));
        let sight = lines.sight(eye, object);
        assert_eq!(sight.seen, seen, "{sight:?}");
        assert!((sight.void.unwrap().post.column - 34.0).abs() < 1e-9);
        assert!(seen != Seen::Hidden || (sight.margin_m.unwrap() - wanted_m).abs() < 1e-3, "{sight:?}");
        let clear = lines.in_sight(&[eye.post], 2.0, &[object], 1e6)[0][0];
        assert_eq!(clear, (seen == Seen::Hidden).then_some(false));
    }
}

/// By hand: posts within 5 steps of the place, and those of them in three columns from 3 steps on.
#[test]
fn a_gap_around_a_place_is_told_by_its_share() {
    let heights = ground(41, 41, 0.0, |column, _| if (23..26).contains(&column) { f32::NAN } else { 0.0 });
    let place = heights.layout().place_of(at(20.0, 20.0)).unwrap();
    let (east_m, south_m) = heights.layout().spacing_m(at(20.0, 20.0)).unwrap();
    let within_m = 5.5 * south_m;
    let inside = |column: i32, row: i32| (f64::from(column) * east_m).hypot(f64::from(row) * south_m) <= within_m;
    let count = |columns: std::ops::RangeInclusive<i32>| {
        columns.flat_map(|column| (-10..=10).map(move |row| (column, row))).filter(|(column, row)| inside(*column, *row)).count() as f64
    };
    let gap = heights.gap_around(place, within_m).unwrap().unwrap();
    assert!((gap.share - count(3..=5) / count(-10..=10)).abs() < 1e-9 && (gap.from_m - 2.0 * east_m).abs() < 1.0, "{gap:?}");
    assert_eq!(heights.gap_around(place, 2.5 * east_m).unwrap(), None);
}

/// Over drawn errors of 3 m: of the ground that is told as dead at most a twentieth is in truth in sight (and somewhat more than a little is told),
/// and of what is told neither dead nor in doubt at most a twentieth is dead. On an even plain hardly anything is told as dead.
#[test]
fn dead_ground_that_errors_may_make_is_told_as_in_doubt() {
    let (columns, sigma_m, draws) = (121, 3.0, 40);
    let rolling = |column: usize| 60.0 * (column as f64 / 11.0).sin() - 0.4 * column as f64;
    let eye = stand(0.0, 2.0, 1.7);
    let told = |ground_m: &dyn Fn(usize) -> f64| {
        let truth = ground(columns, 5, 0.0, |column, _| ground_m(column) as f32);
        let truly = Sightlines::over(&truth).unwrap().dead_ground(eye, at(120.0, 2.0), 0.0).unwrap().stretches;
        let step_m = metres(&truth, at(0.0, 2.0), at(120.0, 2.0)) / 120.0;
        let mut sums = [[0_usize; 2]; 3];
        for draw in 0..draws {
            let errors = drawn_errors(columns, step_m / 300.0, draw);
            let heights = ground(columns, 5, sigma_m, |column, _| (ground_m(column) + sigma_m * errors[column]) as f32);
            let seen = Sightlines::over(&heights).unwrap().doubted_ground(eye, at(120.0, 2.0)).unwrap();
            let within = |all: &[DeadStretch], at_m: f64| all.iter().any(|one| one.from_m < at_m && at_m < one.to_m);
            for i in 0..1200 {
                let at_m = (f64::from(i) + 0.5) * step_m / 10.0;
                let what = if within(&seen.dead, at_m) { 0 } else { 1 + usize::from(!within(&seen.perhaps, at_m)) };
                sums[what][usize::from(within(&truly, at_m))] += 1;
            }
        }
        sums
    };
    let [dead, _, clear] = told(&rolling);
    assert!(dead[0] * 20 <= dead[0] + dead[1] && dead[1] > 10_000, "{dead:?}");
    assert!(clear[1] * 20 <= clear[0] + clear[1], "{clear:?}");
    let [dead, perhaps, _] = told(&|column| 0.5 * column as f64);
    assert!(dead[0] * 50 <= perhaps[0] && perhaps[0] > 10_000, "{dead:?} {perhaps:?}");
}

/// Without a spread what is told is what the heights hide, to the millimetre.
#[test]
fn without_a_spread_nothing_is_in_doubt() {
    let heights = ground(61, 5, 0.0, |column, _| if column == 20 { 10.0 } else { 0.0 });
    let lines = Sightlines::refracted(&heights, 1.0).unwrap();
    let told = lines.doubted_ground(stand(0.0, 2.0, 30.0), at(60.0, 2.0)).unwrap();
    let by_heights = lines.dead_ground(stand(0.0, 2.0, 30.0), at(60.0, 2.0), 0.0).unwrap();
    assert!(told.perhaps.is_empty() && told.untold.is_empty() && told.dead.len() == 1, "{told:?}");
    let (one, other) = (told.dead[0], by_heights.stretches[0]);
    assert!((one.from_m - other.from_m).abs() < 1e-6 && (one.to_m - other.to_m).abs() < 1e-6, "{told:?} {by_heights:?}");
}
