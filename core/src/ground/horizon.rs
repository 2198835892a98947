//! How high the ground stands around a place.

use std::f64::consts::SQRT_2;

use super::ray::{Piece, Ray, Walk};
use super::{Heights, Post, Sightlines, curvature_drop_m};
use crate::earth::{GroundHorizon, HILL_M, LatLon, geodesic_from};
use crate::measure::{LINE_95, TrueBearing};

impl Sightlines<'_> {
    /// The highest that the ground stands over a bearing as seen from a place, up to the end of the heights.
    ///
    /// Ground nearer than one step of the posts does not count: what stands there between four posts is not known, and a place a few
    /// metres beside a post on a summit would have that post for a wall. Where the ground about the eye is so rough that it could stand higher
    /// within three steps, though the posts do not show it, the horizon says so (`near_m`). Where all that is known lies lower than the sea's horizon,
    /// that of the sea stands, or of the lowest ground on the bearing where that is below the sea.
    ///
    /// None where the eye stands outside of the heights or over a gap.
    ///
    /// # Units
    /// Metres, degrees.
    ///
    /// # Accuracy
    /// Within 0.02°, mostly 0.002°, of a dense look along the geodesic over the same heights (`tests/ground/horizons.py`). Ground is bilinear
    /// between the posts: crests between them are lost. The spread takes the errors at the eye and at the crest for independent, and
    /// counts at both how far ground leaves the bilinear between posts ([`Heights::unposted_m`]).
    #[must_use]
    pub fn horizon(&self, eye: LatLon, eye_above_m: f64, bearing: TrueBearing) -> Option<GroundHorizon> {
        let heights = self.heights;
        let from = heights.layout().post_of(eye).ok()?;
        let eye_m = heights.at_post_m(from)? + eye_above_m;
        let ray = heights.ray_to_border(eye, from, bearing)?;
        let mut walk = Walk::new(heights, ray);
        let mut sight = Highest { eye_m, begins_m: ray.step_m(), rise: f64::NEG_INFINITY, distance_m: 0.0, lowest_m: 0.0, has_gap: false };
        while !walk.done() {
            if walk.pass(&self.index.blocks, |from_m, to_m, highest_m| sight.stays_above(from_m, to_m, highest_m)) {
                continue;
            }
            let before_m = walk.at_m;
            sight.pass(&walk.piece());
            if walk.at_m <= before_m && walk.done() {
                break;
            }
        }
        sight.not_below_the_sea();
        let unposted_m = heights.unposted_m(from);
        let error_m = (heights.spread().sigma_m * SQRT_2).hypot(unposted_m).hypot(heights.unposted_m(ray.post(sight.distance_m)));
        let spread = error_m / sight.distance_m.max(1.0);
        let near_m = heights.rough_to_m(&ray, (eye_m, unposted_m), sight.rise + LINE_95 * spread);
        Some(GroundHorizon {
            elevation_deg: sight.rise.atan().to_degrees(),
            spread_deg: spread.atan().to_degrees(),
            distance_m: sight.distance_m,
            known_to_m: ray.length_m,
            enough_to_m: enough_to_m(sight.rise),
            near_m,
            has_gap: sight.has_gap,
        })
    }
}

/// Ground nearer than this, or than one step of finer posts, one sees for oneself, metres (our choice).
const NEAR_M: f64 = 100.0;
/// So many steps from the eye the ground between the posts is thought of (our choice): farther off it is as the posts show it, but for the
/// spread of the horizon.
const NEAR_STEPS: f64 = 3.0;
/// 95 % of a normal lie below so many sigmas.
const ONE_SIDED_95: f64 = 1.645;
/// From place to place among those.
const NEAR_FACTOR: f64 = 1.4;

impl Heights {
    /// How far the ground at a place leaves the bilinear between its posts, one sigma, metres: three tenths of how much its rise changes
    /// from one step of the posts to the next, by the root of the mean square over the posts within two steps, columns and rows together.
    ///
    /// # Accuracy
    /// The model: between the posts the ground is as rough as they show it to be from post to post, as on ground whose rises differ
    /// as a power of their distance, and on sharp ridges whose crest runs between the posts. On an even bend it would be an eighth.
    /// What the posts do not show at all, a tower of rock between four level ones, it does not hold. Over random ridges on rough ground
    /// nearly all limits at 95 % hold (`tests/conformance/ridges.rs`); where a knoll near the eye that the posts miss could hide the sun, the
    /// time is a bound.
    fn unposted_m(&self, at: Post) -> f64 {
        let height_m = |column: f64, row: f64| self.at_post_m(Post { column, row });
        let bent = |(column, row): (f64, f64), (columns, rows): (f64, f64)| {
            Some(height_m(column + columns, row + rows)? + height_m(column - columns, row - rows)? - 2.0 * height_m(column, row)?)
        };
        let within = |at: f64| ((at - REACH).ceil() as i64..=(at + REACH).floor() as i64).map(|post| post as f64);
        let posts = within(at.row).flat_map(|row| within(at.column).map(move |column| (column, row)));
        let squares = posts.filter_map(|post| Some(bent(post, (1.0, 0.0))?.powi(2) + bent(post, (0.0, 1.0))?.powi(2)));
        let (sum, count) = squares.fold((0.0, 0.0), |(sum, count), square| (sum + square, count + 1.0));
        if count > 0.0 { BENT_SHARE * f64::sqrt(sum / count) } else { 0.0 }
    }

    /// How far off ground near the eye, as rough as its posts show, may stand higher than a rise with more than 5 % of chance, metres: the
    /// farthest such place within [`NEAR_STEPS`]. None where it does not.
    ///
    /// The eye's ground and the other both leave the bilinear between the posts; nearer to each other than half a step they do so
    /// together, and differ as a power of their distance.
    fn rough_to_m(&self, ray: &Ray, (eye_m, unposted_m): (f64, f64), rise: f64) -> Option<f64> {
        let step_m = ray.step_m();
        let may_rise = |at_m: f64| {
            let differs_m = SQRT_2 * unposted_m * (2.0 * at_m / step_m).min(1.0).powf(0.75);
            self.at_post_m(ray.post(at_m)).is_some_and(|ground_m| (ground_m - eye_m + ONE_SIDED_95 * differs_m) / at_m > rise)
        };
        let places = std::iter::successors(Some(NEAR_M.min(step_m)), |at_m| Some(at_m * NEAR_FACTOR));
        places.take_while(|at_m| *at_m < NEAR_STEPS * step_m && *at_m < ray.length_m).filter(|at_m| may_rise(*at_m)).last()
    }

    /// The ray from a post towards a bearing, cut where it leaves the heights.
    fn ray_to_border(&self, eye: LatLon, from: Post, bearing: TrueBearing) -> Option<Ray> {
        let towards = self.layout().post_of(geodesic_from(eye, bearing, AIM_M).0).ok()?;
        let (columns, rows) = (towards.column - from.column, towards.row - from.row);
        let times = |start: f64, step: f64, last: usize| match step {
            step if step > 0.0 => (last as f64 - start) / step,
            step if step < 0.0 => -start / step,
            _ => f64::INFINITY,
        };
        let times = times(from.column, columns, self.layout().columns - 1).min(times(from.row, rows, self.layout().rows - 1));
        let end = Post { column: from.column + times * columns, row: from.row + times * rows };
        (times.is_finite() && times > 0.0).then(|| Ray::new(from, end, times * AIM_M))
    }
}

/// How far off ground [`HILL_M`] over the eye stands at a rise over the level; farther off the earth's curve and the distance bring
/// it lower.
///
/// # Units
/// Metres; the rise is the tangent of an elevation.
fn enough_to_m(rise: f64) -> f64 {
    let bend = curvature_drop_m(1.0);
    2.0 * HILL_M / (rise + (rise * rise + 4.0 * bend * HILL_M).sqrt())
}

/// Posts so many steps off tell how rough the ground is.
const REACH: f64 = 2.0;
/// How far ground leaves the straight between posts for how much its rise changes there (measured, see [`Heights::unposted_m`]).
const BENT_SHARE: f64 = 0.3;

/// The line among the posts is aimed at the geodesic's place so far off: nearer ground stands within half a metre of it, the
/// bearing is kept within `4 km · tan(latitude) / 2R`, 0.02° at 45° of latitude, and 20 km off the line is 20 m aside there.
const AIM_M: f64 = 4_000.0;

/// The steepest sight so far.
struct Highest {
    eye_m: f64,
    /// How far off ground begins to count, metres.
    begins_m: f64,
    rise: f64,
    distance_m: f64,
    /// The lowest ground, metres over the sea; 0 where all is above it.
    lowest_m: f64,
    has_gap: bool,
}

impl Highest {
    /// The ground of one cell: the sight is steepest at an end of the stretch, or where it touches its parabola.
    fn pass(&mut self, piece: &Piece) {
        self.has_gap |= piece.height_m.is_nan();
        self.lowest_m = self.lowest_m.min(piece.height_m);
        let ends_m = piece.from_m + piece.length_m;
        let begins_m = piece.from_m.max(self.begins_m);
        if ends_m < begins_m {
            return;
        }
        let bend = piece.bend - curvature_drop_m(1.0);
        let at_eye_m = piece.height_m - self.eye_m - piece.from_m * piece.rise + piece.from_m * piece.from_m * piece.bend;
        let touches_m = (at_eye_m / bend).max(0.0).sqrt().clamp(begins_m, ends_m);
        for distance_m in [begins_m, touches_m, ends_m] {
            let on_m = distance_m - piece.from_m;
            let ground_m = piece.height_m + on_m * (piece.rise + on_m * piece.bend);
            let rise = (ground_m - curvature_drop_m(distance_m) - self.eye_m) / distance_m;
            if distance_m > 0.0 && rise > self.rise {
                (self.rise, self.distance_m) = (rise, distance_m);
            }
        }
    }

    /// Whether no ground up to a height can stand steeper between two distances, nor lie so low that the sea's horizon counts.
    fn stays_above(&self, from_m: f64, to_m: f64, highest_m: f64) -> bool {
        if from_m < self.begins_m || self.rise < self.sea_rise(0.0) {
            return false;
        }
        let over_m = highest_m - self.eye_m;
        // Ground below the eye stands highest where the earth's curve takes away as much as the distance gives.
        let steepest_m = (-over_m / curvature_drop_m(1.0)).max(0.0).sqrt().clamp(from_m, to_m.max(from_m));
        (over_m - curvature_drop_m(steepest_m)) / steepest_m <= self.rise
    }

    /// The rise of the horizon of a sea at a level, metres over the sea.
    fn sea_rise(&self, level_m: f64) -> f64 {
        -2.0 * ((self.eye_m - level_m).max(0.0) * curvature_drop_m(1.0)).sqrt()
    }

    /// Where what is known lies lower than a level of the sea would stand, that level: a sight from so high touches it where it has
    /// dropped as far again below the straight.
    fn not_below_the_sea(&mut self) {
        let rise = self.sea_rise(self.lowest_m);
        if rise > self.rise {
            (self.rise, self.distance_m) = (rise, -rise / (2.0 * curvature_drop_m(1.0)));
        }
    }
}
