//! The sun behind random ridges, by posts that stand 30 m to 1 km apart, against the ground itself: the limits of the time hold.
//!
//! The ground is no grid: a ridge, its crest sharp or round, rising, falling and winding, on ground whose rises differ as a power of
//! their distance (waves of 20 m to 4 km). The truth is looked at along the bearing, from one step of the posts on, at most 100 m off.

use std::f64::consts::TAU;

use gatepost_core::earth::{Air, Grid, GroundHorizon, Instant, LatLon, OverGround, Shown, date_of, daylight, sun_over_ground};
use gatepost_core::ground::{HeightSpread, Heights, Lattice, Layout, Sightlines, curvature_drop_m};
use gatepost_core::measure::{Point, TrueBearing};

use crate::fix::Dice;

const EYE_M: f64 = 1.7;
/// On the middle meridian of zone 33: grid north is true north within 0.1° for 10 km.
const AT: (f64, f64) = (46.0, 15.0);
/// A rise nearer than this is named beside the limits and is not in them, metres; of finer posts their step.
const NEAR_M: f64 = 100.0;

struct Wave {
    east: f64,
    north: f64,
    high_m: f64,
    phase: f64,
}

/// Ground around the eye, metres east and north of it.
struct Ground {
    waves: Vec<Wave>,
    /// The ridge's foot below the eye, and the way across it.
    middle: Point,
    across: Point,
    high_m: f64,
    half_m: f64,
    round_m: f64,
    crest: Vec<(f64, f64, f64)>,
}

impl Ground {
    /// A ridge so far off, and ground whose heights a kilometre apart differ by so much, one sigma.
    fn random(away_m: f64, rough_m: f64, dice: &mut Dice) -> Self {
        let middle = Point::polar(away_m, 225.0 + 60.0 * dice.even());
        let across_deg = middle.bearing_deg() + 30.0 * (2.0 * dice.even() - 1.0);
        let high_m = (away_m * (0.06 + 0.3 * dice.even())).clamp(40.0, 900.0);
        let half_m = high_m / (12.0 + 20.0 * dice.even()).to_radians().tan();
        let round_m = half_m * [0.01, 0.1, 0.4][(3.0 * dice.even()) as usize % 3];
        let crest = (0..5).map(|_| ((0.8 + 7.0 * dice.even()) * half_m, (0.01 + 0.05 * dice.even()) * high_m, TAU * dice.even())).collect();
        let power = 0.7 + 0.25 * dice.even();
        let mut waves: Vec<Wave> = (0..90)
            .map(|_| {
                let (long_m, way) = (20.0 * 200f64.powf(dice.even()), TAU * dice.even());
                let per_m = TAU / long_m;
                Wave { east: per_m * way.cos(), north: per_m * way.sin(), high_m: long_m.powf(power), phase: TAU * dice.even() }
            })
            .collect();
        let square: f64 = waves.iter().map(|wave| wave.high_m.powi(2) * (1.0 - (1_000.0 * wave.east).cos())).sum();
        waves.iter_mut().for_each(|wave| wave.high_m *= rough_m / square.sqrt());
        Self { waves, middle, across: Point::polar(1.0, across_deg), high_m, half_m, round_m, crest }
    }

    fn height_m(&self, at: Point) -> f64 {
        let from = at.minus(self.middle);
        let across_m = from.east_m * self.across.east_m + from.north_m * self.across.north_m;
        let along_m = from.east_m * self.across.north_m - from.north_m * self.across.east_m;
        let crest = |turned: f64| {
            self.crest.iter().map(|(long_m, high_m, phase)| high_m * (TAU * along_m / long_m + phase + turned).sin()).sum::<f64>()
        };
        let beside_m = (across_m - 0.6 * self.half_m / self.high_m * crest(1.0)).hypot(self.round_m) - self.round_m;
        let ridge_m = (self.high_m + crest(0.0)) * (1.0 - beside_m / self.half_m).max(0.0);
        let rough_m: f64 =
            self.waves.iter().map(|wave| wave.high_m * (wave.east * at.east_m + wave.north * at.north_m + wave.phase).sin()).sum();
        1_000.0 + ridge_m + rough_m
    }

    /// Posts so far apart, the eye somewhere between four of them.
    fn posted(&self, step_m: f64, far_m: f64, dice: &mut Dice) -> Heights {
        let side = 2 * (far_m / step_m).ceil() as usize + 6;
        let eye = Grid::named("EPSG:32633").unwrap().project(LatLon::new(AT.0, AT.1).unwrap()).unwrap();
        let reach_m = step_m * (side / 2) as f64;
        let corner = Point::new(-reach_m + step_m * dice.even(), reach_m - step_m * dice.even());
        let post = |i: usize| Point::new(corner.east_m + step_m * (i % side) as f64, corner.north_m - step_m * (i / side) as f64);
        let values = (0..side * side).map(|i| self.height_m(post(i)) as f32).collect();
        let layout = Layout {
            lattice: Lattice::Projected(Grid::named("EPSG:32633").unwrap()),
            columns: side,
            rows: side,
            west: eye.east_m + corner.east_m,
            north: eye.north_m + corner.north_m,
            step_east: step_m,
            step_south: step_m,
        };
        Heights::new(layout, HeightSpread { sigma_m: 0.1, correlation_m: 300.0 }, values).unwrap()
    }

    fn horizon(&self, bearing: TrueBearing, (near_m, far_m): (f64, f64)) -> GroundHorizon {
        let eye_m = self.height_m(Point::default()) + EYE_M;
        let (mut away_m, mut rise) = (near_m, f64::NEG_INFINITY);
        while away_m < far_m {
            let ground_m = self.height_m(Point::polar(away_m, bearing.degrees()));
            rise = rise.max((ground_m - curvature_drop_m(away_m) - eye_m) / away_m);
            away_m += (away_m / 150.0).clamp(4.0, 15.0);
        }
        GroundHorizon {
            elevation_deg: rise.atan().to_degrees(),
            spread_deg: 0.0,
            distance_m: far_m,
            known_to_m: far_m,
            enough_to_m: 0.0,
            near_m: None,
            has_gap: false,
        }
    }
}

/// When the sun goes behind the ground for the last time of an afternoon.
fn goes(horizon: &dyn Fn(TrueBearing) -> Option<GroundHorizon>, date: &str) -> Option<OverGround> {
    let at = LatLon::new(AT.0, AT.1).unwrap();
    let noon = daylight(at, date_of(date).unwrap(), None).unwrap().noon;
    let end = Instant::from_unix_ms(noon.unix_ms() + 10 * 3_600_000);
    let shown: Vec<Shown> = sun_over_ground(at, (noon, end), Air::standard(1_000.0), horizon).unwrap()?;
    shown.last()?.until
}

#[derive(Default)]
struct Count {
    free: usize,
    held: usize,
    bound: usize,
    bound_held: usize,
    grazes: usize,
    halves_min: Vec<f64>,
    off_min: Vec<f64>,
}

/// So many walkers before random ridges.
fn count(step_m: f64, away_m: f64, walkers: usize, dice: &mut Dice) -> Count {
    let mut count = Count::default();
    for walker in 0..walkers {
        let ground = Ground::random(away_m, [10.0, 30.0, 60.0][walker % 3], dice);
        let far_m = away_m + ground.half_m + 1_500.0;
        let heights = ground.posted(step_m, 1.2 * far_m, dice);
        let sights = Sightlines::over(&heights).unwrap();
        let at = LatLon::new(AT.0, AT.1).unwrap();
        let date = ["2026-03-20", "2026-05-05", "2026-06-21", "2026-09-10", "2026-10-20"][walker % 5];
        let told = goes(
            &|bearing| sights.horizon(at, EYE_M, bearing).map(|seen| GroundHorizon { known_to_m: far_m, enough_to_m: 0.0, ..seen }),
            date,
        );
        let truth = goes(
            &|bearing| {
                let reach_m = sights.horizon(at, EYE_M, bearing)?.known_to_m;
                Some(ground.horizon(bearing, (NEAR_M.min(step_m), reach_m)))
            },
            date,
        );
        let (Some(told), Some(truth)) = (told, truth) else { continue };
        let later_s = truth.at.seconds_since(told.at);
        let Some(half_s) = told.half_95_s else {
            count.grazes += 1;
            continue;
        };
        if told.horizon.is_least() {
            count.bound += 1;
            count.bound_held += usize::from(later_s <= half_s + 1.0);
        } else {
            count.free += 1;
            count.held += usize::from(later_s.abs() <= half_s + 1.0);
            count.halves_min.push(half_s / 60.0);
            count.off_min.push(later_s.abs() / 60.0);
        }
    }
    count.halves_min.sort_by(f64::total_cmp);
    count.off_min.sort_by(f64::total_cmp);
    count
}

/// Both look as far as the heights reach.
#[test]
fn the_limits_of_a_sunset_behind_a_ridge_hold_however_far_apart_the_posts_stand() {
    const WALKERS: usize = 12;
    let mut dice = Dice(20_260_721);
    let middle = |sorted: &[f64]| sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN);
    let (mut held, mut free) = (0, 0);
    for (step_m, away_m, most_min) in [
        (30.0, 400.0, 8.0),
        (30.0, 1_000.0, 4.0),
        (90.0, 1_000.0, 10.0),
        (90.0, 3_000.0, 4.0),
        (250.0, 3_000.0, 8.0),
        (1_000.0, 3_000.0, 45.0),
        (1_000.0, 8_000.0, 15.0),
    ] {
        let count = count(step_m, away_m, WALKERS, &mut dice);
        let (half_min, off_min) = (middle(&count.halves_min), middle(&count.off_min));
        let told = format!("posts of {step_m} m, ridge {away_m} m off: half {half_min:.1} min, off {off_min:.1} min");
        assert_eq!(count.bound_held, count.bound, "{told}");
        assert!(count.halves_min.is_empty() || half_min < most_min, "{told}");
        assert!(count.free + count.bound + count.grazes > WALKERS / 2, "{told}");
        held += count.held;
        free += count.free;
    }
    assert!(free > 30 && 100 * held >= 95 * free, "{held} of {free}");
}
