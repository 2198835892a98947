//! The heights along a line between two places.

use super::field::{Field, Spot};
use super::normal::sigmas_with_beyond;
use super::ray::Ray;
use super::{Heights, Post};
use crate::earth::{LatLon, geodesic_between};
use crate::measure::{Arg, Message, Telling};

/// Most samples of one profile.
const MOST_SAMPLES: usize = 100_000;

/// Shorter steps are no steps, metres.
const LEAST_STEP_M: f64 = 1e-6;

/// That errors alone make no step of a profile as steep as is told has at least the rest of this share.
const BEYOND: f64 = 0.05;

/// One height of a [`Profile`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Metres from the beginning.
    pub distance_m: f64,
    /// Height of the ground, metres; `None` outside the heights and at a void.
    pub height_m: Option<f64>,
}

/// The steepest step of a [`Profile`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteepestStep {
    /// Where it begins, metres from the beginning.
    pub from_m: f64,
    /// Where it ends.
    pub to_m: f64,
    /// Degrees upwards, negative downwards.
    pub slope_deg: f64,
    /// How far off that may be by the spread of the heights, degrees: half-width at 95 % over all steps together, towards the level.
    pub half_width_deg: f64,
}

impl SteepestStep {
    /// Whether errors of the heights alone would hardly make a step so steep of level ground.
    #[must_use]
    pub fn is_told(&self) -> bool {
        self.half_width_deg < self.slope_deg.abs()
    }
}

/// The heights along a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// From the beginning to the end, at equal steps; the last step may be shorter.
    pub samples: Vec<Sample>,
    /// Metres from the beginning to the end.
    pub length_m: f64,
    /// Sum of all rises from sample to sample, metres.
    pub climb_m: f64,
    /// Sum of all falls from sample to sample, metres, positive.
    pub descent_m: f64,
    /// The steepest step, up or down; `None` when no two heights follow each other.
    pub steepest: Option<SteepestStep>,
    /// What errors of the heights alone would make of level ground on this way, up and as much down, metres.
    pub errors_m: ErrorsAlone,
}

/// A sum of rises, or of falls, that errors of the heights make.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ErrorsAlone {
    /// The mean, metres.
    pub mean_m: f64,
    /// Hardly more than this: two standard deviations above the mean, metres.
    pub most_m: f64,
}

/// Why there is no profile.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProfileError {
    /// The step is no length.
    #[error("profile-step")]
    Step,
    /// More samples than are told.
    #[error("profile-too-many")]
    TooMany(usize),
    /// An end has no coordinates in the grid of the heights.
    #[error("profile-outside")]
    Outside,
}

impl Telling for ProfileError {
    fn message(&self) -> Message {
        match self {
            Self::Step => Message::new("profile-step"),
            Self::TooMany(samples) => {
                Message::new("profile-too-many").with("samples", Arg::Count(*samples as i64)).with("most", Arg::Count(MOST_SAMPLES as i64))
            }
            Self::Outside => Message::new("profile-outside"),
        }
    }
}

impl Heights {
    /// The heights along the straight line among the posts between two places.
    ///
    /// # Units
    /// Metres.
    ///
    /// # Accuracy
    /// Over 30 km the line leaves the geodesic by up to 18 m at 45 degrees of latitude and 31 m at 60 on a degree grid
    /// (`length² · tan(latitude) / 8R`, at right angles to the meridian), less than 1 m on UTM. Climb and descent count every
    /// dip between samples: errors of the heights add to both ([`Profile::errors_m`] on level ground, less on a slope), smoothing by the
    /// grid takes from both.
    ///
    /// # Errors
    /// [`ProfileError`].
    pub fn profile(&self, from: LatLon, to: LatLon, step_m: f64) -> Result<Profile, ProfileError> {
        let post = |at: LatLon| self.layout().post_of(at).map_err(|_| ProfileError::Outside);
        let length_m = geodesic_between(from, to).0;
        let steps = steps(length_m, step_m)?;
        let ray = Ray::new(post(from)?, post(to)?, length_m);
        let at = |distance_m: f64| Sample { distance_m, height_m: self.at_post_m(inside(ray.post(distance_m))) };
        let samples = (0..=steps).map(|i| at((i as f64 * step_m).min(length_m))).collect();
        let spacing_m = self.layout().spacing_in_middle_m().map_err(|_| ProfileError::Outside)?;
        let field = Field::over(self.spread(), spacing_m);
        Ok(Profile::of(samples, length_m, &Errors { sigma_m: self.spread().sigma_m, field, ray }))
    }
}

/// What rounding moved off a post that a line begins or ends at is brought back.
fn inside(post: Post) -> Post {
    let near = |x: f64| if (x - x.round()).abs() < 1e-9 { x.round() } else { x };
    Post { column: near(post.column), row: near(post.row) }
}

fn steps(length_m: f64, step_m: f64) -> Result<usize, ProfileError> {
    if !(step_m.is_finite() && step_m >= LEAST_STEP_M) {
        return Err(ProfileError::Step);
    }
    let steps = (length_m / step_m - 1e-9).ceil().max(1.0) as usize;
    if steps < MOST_SAMPLES { Ok(steps) } else { Err(ProfileError::TooMany(steps.saturating_add(1))) }
}

/// The errors of the heights along a profile.
struct Errors {
    sigma_m: f64,
    field: Field,
    ray: Ray,
}

impl Errors {
    /// One sigma of the difference of two heights, metres.
    fn of_step_m(&self, from_m: f64, to_m: f64) -> f64 {
        let [from, to] = [from_m, to_m].map(|at_m| Spot::at(inside(self.ray.post(at_m))));
        let shared = |a: &Spot, b: &Spot| self.field.shared(a, b);
        self.sigma_m * (shared(&from, &from) + shared(&to, &to) - 2.0 * shared(&from, &to)).max(0.0).sqrt()
    }
}

/// A step between two samples that are known.
struct Step {
    from_m: f64,
    to_m: f64,
    rise_m: f64,
    sigma_m: f64,
}

impl Step {
    fn of(pair: &[Sample], errors: &Errors) -> Option<Self> {
        let [Sample { distance_m: from_m, height_m: Some(low) }, Sample { distance_m: to_m, height_m: Some(high) }] = *pair else {
            return None;
        };
        Some(Self { from_m, to_m, rise_m: high - low, sigma_m: errors.of_step_m(from_m, to_m) })
    }

    fn slope_deg(&self, rise_m: f64) -> f64 {
        rise_m.atan2(self.to_m - self.from_m).to_degrees()
    }

    fn steepest(&self, sigmas: f64) -> SteepestStep {
        let slope_deg = self.slope_deg(self.rise_m);
        let least_deg = self.slope_deg(self.rise_m.abs() - sigmas * self.sigma_m);
        SteepestStep { from_m: self.from_m, to_m: self.to_m, slope_deg, half_width_deg: slope_deg.abs() - least_deg }
    }
}

impl ErrorsAlone {
    /// # References
    /// A normal variate of one sigma has a mean size of `sqrt(2 / pi)` and a variance of size of `1 - 2 / pi`; half of the sizes rise.
    fn of(steps: &[Step]) -> Self {
        let two_by_pi = std::f64::consts::FRAC_2_PI;
        let mean_m = steps.iter().map(|step| step.sigma_m).sum::<f64>() * two_by_pi.sqrt() / 2.0;
        let square = steps.iter().map(|step| step.sigma_m * step.sigma_m).sum::<f64>() * (1.0 - two_by_pi);
        Self { mean_m, most_m: mean_m + square.sqrt() }
    }
}

impl Profile {
    fn of(samples: Vec<Sample>, length_m: f64, errors: &Errors) -> Self {
        let steps: Vec<Step> = samples.windows(2).filter_map(|pair| Step::of(pair, errors)).collect();
        let steep = |step: &&Step| step.slope_deg(step.rise_m).abs();
        // Of equals the first.
        let steepest = steps.iter().rev().filter(|step| step.to_m > step.from_m).max_by(|a, b| steep(a).total_cmp(&steep(b)));
        let sigmas = sigmas_with_beyond(BEYOND / steps.len().max(1) as f64);
        Self {
            length_m,
            climb_m: steps.iter().map(|step| step.rise_m.max(0.0)).sum(),
            descent_m: steps.iter().map(|step| (-step.rise_m).max(0.0)).sum(),
            steepest: steepest.map(|step| step.steepest(sigmas)),
            errors_m: ErrorsAlone::of(&steps),
            samples,
        }
    }

    /// The highest place of the way, the first of several; `None` where no height is known.
    #[must_use]
    pub fn highest(&self) -> Option<Sample> {
        self.extreme(1.0)
    }

    /// The lowest place of the way, the first of several; `None` where no height is known.
    #[must_use]
    pub fn lowest(&self) -> Option<Sample> {
        self.extreme(-1.0)
    }

    fn extreme(&self, sign: f64) -> Option<Sample> {
        let known = self.samples.iter().filter_map(|sample| Some((sign * sample.height_m?, *sample)));
        known.reduce(|best, one| if one.0 > best.0 { one } else { best }).map(|(_, sample)| sample)
    }

    /// Whether what rises and falls beyond the difference between both ends may be errors of the heights and nothing else.
    #[must_use]
    pub fn may_be_errors(&self) -> bool {
        self.errors_m.most_m > 0.0 && self.climb_m.min(self.descent_m) <= self.errors_m.most_m
    }
}
