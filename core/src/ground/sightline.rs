//! Whether an object is in sight over the ground between.

use std::sync::{Arc, OnceLock};

use super::blocks::Blocks;
use super::chance::Errors;
use super::clearance::{Clearance, GRAZE_M, Line, walk};
use super::field::Field;
use super::ray::Ray;
use super::spacing::Spacing;
use super::stand::Stand;
use super::steep::Steep;
use super::{EARTH_RADIUS_M, Heights, Post, REFRACTION};
use crate::earth::{GridError, LatLon};
use crate::measure::{Message, Telling};

/// From this chance on a sight counts as clear.
pub const CLEAR_CHANCE: f64 = 0.95;
/// Up to this chance a sight counts as hidden.
pub const HIDDEN_CHANCE: f64 = 0.05;

/// Whether an object is in sight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// In sight with a chance of at least [`CLEAR_CHANCE`].
    Clear,
    /// Ground stands in the way, and the chance of being in sight is at most [`HIDDEN_CHANCE`].
    Hidden,
    /// Neither can be said.
    NotToBeTold(Untold),
}

/// Why it cannot be told whether an object is in sight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untold {
    /// The eye or the object is outside the heights, or its height above the ground is no height.
    Outside,
    /// The ground has no height somewhere on the way, and what is known does not hide the object.
    Void,
    /// The heights may be wrong by more than decides it.
    Spread,
}

/// A place on the way of a sight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnSight {
    /// Metres from the eye.
    pub distance_m: f64,
    /// The place among the posts; [`super::Layout::place_of`] tells where that is on the earth.
    pub post: Post,
}

/// What the ground does to a sight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sight {
    /// Whether the object is in sight.
    pub seen: Seen,
    /// The chance of that, 0 to 1; `None` when it cannot be told at all.
    pub chance: Option<f64>,
    /// Least clearance over the ground, metres; negative when ground stands in the way.
    ///
    /// Near its ends every sight is near the ground. So what counts are the places where the clearance stops falling and
    /// grows again; the stretch on which the sight only leaves the eye's ground, and that on which it only comes down to the
    /// object's, are left out. Without such a place the sight is nearest to the ground at one of its ends: at the eye or at the object,
    /// whichever stands less high.
    pub margin_m: Option<f64>,
    /// Where that is: what hides the object, or comes nearest to it.
    pub nearest: Option<OnSight>,
    /// The first ground on the way whose height is not known.
    pub void: Option<OnSight>,
    /// Metres from the eye to the object.
    pub distance_m: f64,
    /// How far the earth's curve drops over that distance, refraction taken off, metres.
    pub drop_m: f64,
}

/// What is reckoned of heights once, however many sightlines are asked for.
#[derive(Debug, Clone)]
pub struct SightIndex {
    pub(super) blocks: Vec<Blocks>,
    pub(super) spacing: Spacing,
    pub(super) field: Field,
    pub(super) steep: OnceLock<Steep>,
}

/// Sightlines over heights: built once, asked often.
#[derive(Debug, Clone)]
pub struct Sightlines<'a> {
    pub(super) heights: &'a Heights,
    pub(super) index: Arc<SightIndex>,
    pub(super) fall: f64,
}

impl SightIndex {
    /// # Errors
    /// [`GridError`] when the grid of the heights has no place for its own posts.
    pub fn over(heights: &Heights) -> Result<Self, GridError> {
        let spacing = Spacing::over(heights.layout())?;
        let field = Field::over(heights.spread(), spacing.at(heights.layout().rows as f64 / 2.0));
        Ok(Self { blocks: Blocks::over(heights), spacing, field, steep: OnceLock::new() })
    }
}

/// By how much the sight falls under the horizontal at a distance of 1 m, metres; it grows with the square of the distance.
fn fall(refraction: f64) -> f64 {
    (1.0 - refraction) / (2.0 * EARTH_RADIUS_M)
}

impl Seen {
    /// The word by which sentences select it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Clear => "in-sight",
            Self::Hidden => "hidden",
            Self::NotToBeTold(_) => "uncertain",
        }
    }
}

impl Telling for Untold {
    fn message(&self) -> Message {
        Message::new(match self {
            Self::Outside => "sight-outside",
            Self::Void => "sight-void",
            Self::Spread => "sight-spread",
        })
    }
}

impl<'a> Sightlines<'a> {
    /// Sightlines with the usual refraction.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no place for its own posts.
    pub fn over(heights: &'a Heights) -> Result<Self, GridError> {
        Self::refracted(heights, REFRACTION)
    }

    /// Sightlines with a coefficient of refraction: the share of the curvature that the bending of light takes back.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no place for its own posts.
    pub fn refracted(heights: &'a Heights, refraction: f64) -> Result<Self, GridError> {
        Ok(Self { fall: fall(refraction), ..Self::indexed(heights, Arc::new(SightIndex::over(heights)?)) })
    }

    /// Sightlines with the usual refraction, over heights of which the index is there already.
    #[must_use]
    pub fn indexed(heights: &'a Heights, index: Arc<SightIndex>) -> Self {
        Self { heights, index, fall: fall(REFRACTION) }
    }

    /// The heights that are looked over.
    #[must_use]
    pub fn heights(&self) -> &'a Heights {
        self.heights
    }

    /// Whether an object at a place is in sight from a place.
    ///
    /// # Units
    /// Metres above the ground for the eye and the object.
    #[must_use]
    pub fn between(&self, eye: LatLon, eye_above_m: f64, object: LatLon, object_above_m: f64) -> Sight {
        let layout = self.heights.layout();
        match (layout.post_of(eye), layout.post_of(object)) {
            (Ok(from), Ok(to)) => self.sight(Stand::at(from, eye_above_m), Stand::at(to, object_above_m)),
            _ => Sight::outside(0.0, 0.0),
        }
    }

    /// Whether an object is in sight from an eye.
    ///
    /// # Accuracy
    /// The margin is exact for ground that is bilinear between the posts, along the straight line among the posts and to
    /// 1e-6 m. The chance is within 0.01 on the mean of draws of the posts' errors, 0.07 at worst.
    ///
    /// # References
    /// Drop by curvature and refraction: `d² (1 - k) / 2R`, with the coefficient of refraction `k`.
    #[must_use]
    pub fn sight(&self, eye: Stand, object: Stand) -> Sight {
        let ray = Ray::new(eye.post, object.post, self.index.spacing.between_m(eye.post, object.post));
        let drop_m = self.fall * ray.length_m * ray.length_m;
        let Some(line) = self.line(ray, eye, object) else { return Sight::outside(ray.length_m, drop_m) };
        let spread = self.heights.spread();
        let mut errors = Errors::along(&line, &self.index.field, spread);
        let clearance = walk(self.heights, &self.index.blocks, &line, errors.doubt_m(), |gap| errors.take(gap));
        let ends = if eye.above_m <= object.above_m { (0.0, eye.above_m) } else { (line.ray.length_m, object.above_m) };
        let (at_m, margin_m) = clearance.least.unwrap_or(ends);
        let hidden = clearance.least.is_some_and(|least| least.1 < -GRAZE_M);
        let known = if spread.sigma_m > 0.0 { errors.chance() } else { f64::from(u8::from(!hidden)) };
        let on = |at_m: f64| OnSight { distance_m: at_m, post: ray.post(at_m) };
        Sight {
            seen: seen(known, hidden, &clearance),
            chance: (clearance.void_m.is_none() || known <= HIDDEN_CHANCE).then_some(known),
            margin_m: Some(margin_m),
            nearest: Some(on(at_m)),
            void: clearance.void_m.map(on),
            distance_m: ray.length_m,
            drop_m,
        }
    }

    /// The sight between two stands; `None` when one of them is outside.
    fn line(&self, ray: Ray, eye: Stand, object: Stand) -> Option<Line> {
        Some(self.sight_to(ray, self.top_m(eye)?, self.top_m(object)?, object))
    }

    /// The sight from a height above the sea to an object.
    pub(super) fn sight_to(&self, ray: Ray, eye_m: f64, object_m: f64, object: Stand) -> Line {
        if object.is_hilltop { self.to_crown(ray, eye_m, object_m) } else { Line::new(ray, eye_m, object_m, self.fall) }
    }
}

/// More ground can only hide more: what is hidden stays so when some of the ground is not known. What the heights as they stand do not hide
/// is never told as hidden by ground, however small its chance over a long stretch near it.
fn seen(chance: f64, hidden: bool, clearance: &Clearance) -> Seen {
    if chance <= HIDDEN_CHANCE && hidden {
        Seen::Hidden
    } else if clearance.void_m.is_some() {
        Seen::NotToBeTold(Untold::Void)
    } else if chance >= CLEAR_CHANCE {
        Seen::Clear
    } else {
        Seen::NotToBeTold(Untold::Spread)
    }
}

impl Sight {
    fn outside(distance_m: f64, drop_m: f64) -> Self {
        let seen = Seen::NotToBeTold(Untold::Outside);
        Self { seen, chance: None, margin_m: None, nearest: None, void: None, distance_m, drop_m }
    }
}
