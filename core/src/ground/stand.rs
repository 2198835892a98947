//! Where an eye or an object stands.

use super::Post;
use super::chance::Footing;
use super::sightline::Sightlines;

/// An eye, or an object that is looked for: a place among the posts and a height above the ground there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// The place.
    pub post: Post,
    /// Metres above the ground, not negative: the eye's height, or that of the part of the object that is looked for.
    pub above_m: f64,
    /// How well an object's place is known, one sigma per axis in metres; an eye stands where it is asked for.
    pub spread_m: f64,
}

impl Stand {
    /// A place that is known exactly, and a height above the ground there.
    #[must_use]
    pub fn at(post: Post, above_m: f64) -> Self {
        Self { post, above_m, spread_m: 0.0 }
    }
}

impl Sightlines<'_> {
    /// What the ground under an object may be, as its place is known: four places around it, each `√2` sigma away, stand for all.
    pub(super) fn footing(&self, object: Stand) -> Footing {
        let (east_m, south_m) = self.index.spacing.at(object.post.row);
        let away = |columns: f64, rows: f64| Post {
            column: object.post.column + columns * std::f64::consts::SQRT_2 * object.spread_m / east_m,
            row: object.post.row + rows * std::f64::consts::SQRT_2 * object.spread_m / south_m,
        };
        let around = [away(1.0, 0.0), away(-1.0, 0.0), away(0.0, 1.0), away(0.0, -1.0)];
        let higher_m = |post: Post| Some(self.heights.at_post_m(post)? - self.heights.at_post_m(object.post)?);
        match around.map(higher_m) {
            [Some(a), Some(b), Some(c), Some(d)] if object.spread_m > 0.0 => Footing::of([a, b, c, d]),
            _ => Footing::default(),
        }
    }

    /// Height above the sea of an eye or an object; `None` where the ground has none.
    pub(super) fn top_m(&self, stand: Stand) -> Option<f64> {
        let sound = stand.above_m.is_finite() && stand.above_m >= 0.0;
        let ground_m = self.heights.at_post_m(stand.post)?;
        sound.then_some(ground_m + stand.above_m)
    }
}
