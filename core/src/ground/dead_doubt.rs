//! Dead ground along a ray while the heights may be wrong.

use super::Post;
use super::dead::DeadStretch;
use super::field::{Field, Spot};
use super::normal::sigmas_with_beyond;
use super::ray::Ray;
use super::sightline::{CLEAR_CHANCE, HIDDEN_CHANCE, Sightlines};
use super::stand::Stand;

/// The way is looked at in so many pieces at the most, beside the ends of what the heights alone hide (own choice).
const MOST_PIECES: f64 = 400.0;

/// What an eye sees of the ground along a ray, as surely as the heights tell it.
#[derive(Debug, Clone, PartialEq)]
pub struct DoubtedGround {
    /// What the heights hide, and errors of them would hide of ground that is in sight with a chance of at most [`HIDDEN_CHANCE`].
    pub dead: Vec<DeadStretch>,
    /// What may be in sight or dead: what is neither that nor in sight with a chance of at least [`CLEAR_CHANCE`].
    pub perhaps: Vec<DeadStretch>,
    /// What cannot be told for a gap in the heights.
    pub untold: Vec<DeadStretch>,
}

/// What is told of a piece of the way.
#[derive(Clone, Copy, PartialEq)]
enum Told {
    Dead,
    Perhaps,
    Seen,
    Gap,
}

/// Ground along the way whose height is known: the eye first, then the middles and the ends of the pieces.
struct Known {
    at_m: f64,
    /// Height over the level of the eye's place, by which the earth's curve has dropped already, metres.
    height_m: f64,
    spot: Spot,
    own: f64,
    with_eye: f64,
}

/// How far errors of the heights reach along the way.
struct Doubt<'a> {
    field: &'a Field,
    sigma_m: f64,
    eye_m: f64,
    known: Vec<Known>,
}

impl Doubt<'_> {
    /// Whether ground that is in sight in truth would hardly be hidden so deep by errors of the heights: of the places before it one stands so far
    /// above the sight that this happens at any of them in no more than one case of twenty.
    fn surely_hides(&self, at_m: f64) -> bool {
        let Some(count) = self.known.iter().position(|one| one.at_m >= at_m).filter(|count| *count > 1) else { return false };
        let (Some(eye), Some(ground)) = (self.known.first(), self.known.get(count)) else { return false };
        let before = self.known.get(1..count).unwrap_or_default();
        // Between the ends of a piece its middle has no error of its own.
        let sigmas = -sigmas_with_beyond(2.0 * HIDDEN_CHANCE / (before.len() as f64 / 2.0).max(1.0));
        before.iter().any(|one| self.room_m(one, ground) < sigmas * self.sigma_m * self.sigma_of(one, eye, ground))
    }

    /// Clearance of the sight to a place of the ground over one before it, metres.
    fn room_m(&self, one: &Known, ground: &Known) -> f64 {
        self.eye_m + (ground.height_m - self.eye_m) * one.at_m / ground.at_m - one.height_m
    }

    /// One sigma of the error of that clearance, in sigmas of a height: that of the ground less the shares of both ends.
    fn sigma_of(&self, one: &Known, eye: &Known, ground: &Known) -> f64 {
        let share = one.at_m / ground.at_m;
        let with_ground = self.field.shared(&one.spot, &ground.spot);
        let ends = (1.0 - share).powi(2) * eye.own + share * share * ground.own + 2.0 * share * (1.0 - share) * ground.with_eye;
        (one.own + ends - 2.0 * (1.0 - share) * one.with_eye - 2.0 * share * with_ground).max(0.0).sqrt()
    }
}

impl Sightlines<'_> {
    /// What an eye cannot see of the ground along the way to a place, and of what the heights do not tell whether it can.
    ///
    /// `None` when the eye or the place is outside the heights, or the ground has no height there.
    ///
    /// # Units
    /// Metres.
    ///
    /// # Accuracy
    /// The ends of what the heights hide are exact to 1 mm for ground that is bilinear between the posts; between them it is asked at the
    /// middle of pieces as long as from post to post, and of a way of more than 400 posts at the middle of as many pieces. Of ground in sight no
    /// more than a twentieth is told as dead, however smooth it is in truth; the chance of being in sight is that of [`Sightlines::sight`].
    ///
    /// # References
    /// One of many errors beyond a limit: C. E. Bonferroni's inequality (from memory).
    #[must_use]
    pub fn doubted_ground(&self, eye: Stand, to: Post) -> Option<DoubtedGround> {
        let by_heights = self.dead_ground(eye, to, 0.0)?;
        let length_m = self.index.spacing.between_m(eye.post, to);
        let count = (to.column - eye.post.column).hypot(to.row - eye.post.row).ceil().clamp(1.0, MOST_PIECES);
        let ends = by_heights.stretches.iter().chain(&by_heights.untold).flat_map(|one| [one.from_m, one.to_m]);
        let mut cuts: Vec<f64> = ends.chain((0..=count as usize).map(|i| i as f64 / count * length_m)).collect();
        cuts.sort_by(f64::total_cmp);
        let pieces = cuts.windows(2).filter_map(|pair| if let [from_m, to_m] = *pair { Some(DeadStretch { from_m, to_m }) } else { None });
        let pieces: Vec<DeadStretch> = pieces.filter(|piece| piece.length_m() > 1e-9 * length_m).collect();
        let ray = Ray::new(eye.post, to, length_m);
        let doubt = self.doubt(eye, ray, pieces.iter().flat_map(|piece| [piece.middle_m(), piece.to_m]))?;
        let within = |all: &[DeadStretch], at_m: f64| all.iter().any(|one| one.from_m <= at_m && at_m <= one.to_m);
        let told = |at_m: f64| {
            if within(&by_heights.untold, at_m) {
                Told::Gap
            } else if within(&by_heights.stretches, at_m) {
                if doubt.sigma_m <= 0.0 || doubt.surely_hides(at_m) { Told::Dead } else { Told::Perhaps }
            } else {
                let chance = self.sight(eye, Stand::at(ray.post(at_m), 0.0)).chance;
                if chance.is_some_and(|chance| chance >= CLEAR_CHANCE) { Told::Seen } else { Told::Perhaps }
            }
        };
        let pieces: Vec<(DeadStretch, Told)> = pieces.into_iter().map(|piece| (piece, told(piece.middle_m()))).collect();
        Some(DoubtedGround { dead: joined(&pieces, Told::Dead), perhaps: joined(&pieces, Told::Perhaps), untold: by_heights.untold })
    }

    fn doubt(&self, eye: Stand, ray: Ray, middles_m: impl Iterator<Item = f64>) -> Option<Doubt<'_>> {
        let field = &self.index.field;
        let at_eye = Spot::at(eye.post);
        let known = |at_m: f64| {
            let spot = Spot::at(ray.post(at_m));
            let height_m = self.heights.at_post_m(ray.post(at_m))? - self.fall * at_m * at_m;
            Some(Known { at_m, height_m, spot, own: field.shared(&spot, &spot), with_eye: field.shared(&spot, &at_eye) })
        };
        let known = std::iter::once(0.0).chain(middles_m).filter_map(known).collect();
        Some(Doubt { field, sigma_m: self.heights.spread().sigma_m, eye_m: self.top_m(eye)?, known })
    }
}

impl DeadStretch {
    fn middle_m(&self) -> f64 {
        f64::midpoint(self.from_m, self.to_m)
    }
}

/// The pieces of which one thing is told, those side by side as one stretch.
fn joined(pieces: &[(DeadStretch, Told)], wanted: Told) -> Vec<DeadStretch> {
    let runs = pieces.chunk_by(|a, b| a.1 == b.1).filter(|run| run.first().is_some_and(|piece| piece.1 == wanted));
    runs.filter_map(|run| Some(DeadStretch { from_m: run.first()?.0.from_m, to_m: run.last()?.0.to_m })).collect()
}
