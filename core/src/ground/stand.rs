//! Where an eye or an object stands.

use super::Post;
use super::sightline::Sightlines;

/// An eye, or an object that is looked for: a place among the posts and a height above the ground there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// The place.
    pub post: Post,
    /// Metres above the ground, not negative: the eye's height, or that of the part of the object that is looked for.
    pub above_m: f64,
    /// Whether the object is the top of a hill: what is looked for then is the highest of it that shows, not the place itself.
    pub is_hilltop: bool,
}

impl Stand {
    /// A place and a height above the ground there.
    #[must_use]
    pub fn at(post: Post, above_m: f64) -> Self {
        Self { post, above_m, is_hilltop: false }
    }

    /// The top of a hill: seen when its crown is, the ground close before it on the sight that is hardly lower.
    #[must_use]
    pub fn hilltop(post: Post) -> Self {
        Self { post, above_m: 0.0, is_hilltop: true }
    }
}

impl Sightlines<'_> {
    /// Height above the sea of an eye or an object; `None` where the ground has none.
    pub(super) fn top_m(&self, stand: Stand) -> Option<f64> {
        let sound = stand.above_m.is_finite() && stand.above_m >= 0.0;
        let ground_m = self.heights.at_post_m(stand.post)?;
        sound.then_some(ground_m + stand.above_m)
    }
}
