//! What should be seen from a place: the landmarks of the sheet over its heights, and the landforms near.

use super::{Landmark, Line, Sheet};
use crate::earth::GridError;
use crate::ground::{Around, Gap, LandformKind, LandformScale, Layout, Post, Seen, Sight, Sightlines, Stand, Trend, landforms_from};
use crate::measure::{Point, signed_difference_deg};

/// Height of the eye of one who stands, metres. Common practice, no source.
pub const EYE_M: f64 = 1.7;
/// Landforms are told within this distance, metres. Common practice, no source.
pub const LANDFORMS_WITHIN_M: f64 = 1000.0;

/// Of each kind of landform so many are told, so far apart in metres, and how finely their strength is told apart (our own choice).
const MOST_OF_KIND: usize = 3;
const APART_M: f64 = 400.0;
const STRENGTH_STEPS: f64 = 20.0;
/// Cliffs can hurt: so many are told. One goes without saying only behind one told that rises or falls as it does, within [`APART_M`] of it and within so
/// many degrees of its bearing, and that is no lower than so much of it (our own choice).
pub const MOST_CLIFFS: usize = 8;
const SAME_SIDE_DEG: f64 = 45.0;
const AS_HIGH: f64 = 0.8;

/// A landmark as it should show.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenLandmark<'a> {
    /// The landmark.
    pub landmark: &'a Landmark,
    /// The bearing to it in the sheet's plane, degrees.
    pub plane_deg: f64,
    /// How far it is, metres.
    pub distance_m: f64,
    /// What the ground does to the sight.
    pub sight: Sight,
}

/// What should be seen from a place.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenFrom<'a> {
    /// The landmarks, those in sight first, then those in doubt, then those hidden; nearest first among each.
    pub landmarks: Vec<SeenLandmark<'a>>,
    /// The landforms near, nearest first, each by its nearest point: of each kind the strongest few that lie apart; of cliffs all that stand
    /// behind none as high that does as they do, up to [`MOST_CLIFFS`].
    pub landforms: Vec<Around>,
    /// The cliffs within [`LANDFORMS_WITHIN_M`] that are not among these.
    pub more_cliffs: Option<MoreCliffs>,
    /// What else stands out without a doubt within [`LANDFORMS_WITHIN_M`] and could be taken for one of these: of each kind but cliffs and
    /// what is long.
    pub more: Vec<MoreOfKind>,
    /// How far the heights reach from there to their nearest end, metres, where that is too near to tell the landforms around; `None`
    /// where it is not, and off the heights.
    pub heights_end_m: Option<f64>,
    /// What of the ground within [`LANDFORMS_WITHIN_M`] has no height though it lies inside of them.
    pub gap: Option<Gap>,
}

/// Cliffs that are only counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoreCliffs {
    /// How many.
    pub count: usize,
    /// The drop of the highest, metres.
    pub highest_m: f64,
    /// How far the nearest is, metres.
    pub nearest_m: f64,
    /// At how many of them the ground falls away.
    pub falling: usize,
}

/// Landforms of one kind that are only counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoreOfKind {
    /// What they are.
    pub kind: LandformKind,
    /// How many.
    pub count: usize,
    /// How far the nearest is, metres.
    pub nearest_m: f64,
}

impl Landmark {
    /// Height of its top above the ground, metres: its own, or the usual one of its kind (common practice, no source).
    #[must_use]
    pub fn top_m(&self) -> f64 {
        self.height_m.unwrap_or_else(|| self.usual_m())
    }

    /// The usual height of its kind above the ground, metres; 0 where there is none.
    fn usual_m(&self) -> f64 {
        match self.kind.trim().to_lowercase().as_str() {
            "mast" => 30.0,
            "tower" | "church" | "chimney" | "water tower" | "lighthouse" | "silo" => 20.0,
            "pylon" | "power pylon" | "cableway pylon" => 25.0,
            "wind turbine" => 60.0,
            "building" | "hut" | "castle" | "place of worship" | "windmill" | "tank" => 6.0,
            _ => 0.0,
        }
    }

    /// The usual height of its kind, where that stands for its own.
    #[must_use]
    pub fn usual_height_m(&self) -> Option<f64> {
        Some(self.usual_m()).filter(|usual_m| self.height_m.is_none() && *usual_m > 0.0)
    }

    /// Its top as what is looked for, among the posts of some heights: of a summit the hill's own.
    #[must_use]
    pub fn stand(&self, post: Post) -> Stand {
        match self.kind.trim().to_lowercase().as_str() {
            "summit" | "peak" | "hilltop" | "mountain" | "hill" | "knob" if self.height_m.is_none() => Stand::hilltop(post),
            _ => Stand::at(post, self.top_m()),
        }
    }
}

impl Sheet {
    /// What should be seen from a place by an eye so high above the ground.
    ///
    /// # Units
    /// Metres.
    ///
    /// # Accuracy
    /// That of [`Sightlines::sight`] and [`landforms_from`]. Trees and buildings that the heights do not hold can hide more.
    /// The landmark's own spread on the map is not in the chance: 10 m change it by 0.01 to 0.05 on the mean of sights near grazing, most
    /// where the ground close by hides the foot of what is looked for.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no coordinates for the place.
    pub fn seen_from(&self, sights: &Sightlines<'_>, at: Point, eye_m: f64, within_m: f64) -> Result<SeenFrom<'_>, GridError> {
        let (heights, place, scale) = (sights.heights(), self.to_earth(at), LandformScale::default());
        // Who stands where no height is known is told nothing of what lies around.
        let all = heights.at_m(place).map(|_| landforms_from(heights, place, LANDFORMS_WITHIN_M, &scale)).transpose()?;
        let Told { landforms, more_cliffs, more } = told(all.unwrap_or_default());
        let end_m = heights.layout().to_the_end_m(place)?;
        let heights_end_m = Some(end_m).filter(|end_m| (0.0..LANDFORMS_WITHIN_M + scale.sight_m).contains(end_m));
        let mut landmarks: Vec<SeenLandmark<'_>> = self.sights_from(sights, at, eye_m, within_m);
        landmarks.sort_by(|a, b| rank(a).cmp(&rank(b)).then(a.distance_m.total_cmp(&b.distance_m)));
        let gap = heights.gap_around(place, LANDFORMS_WITHIN_M)?;
        Ok(SeenFrom { landmarks, landforms, more_cliffs, more, heights_end_m, gap })
    }

    /// The sight to every landmark from a place, by the eye of one who stands there, in the sheet's order.
    #[must_use]
    pub fn all_sights(&self, sights: &Sightlines<'_>, at: Point) -> Vec<Sight> {
        self.sights_from(sights, at, EYE_M, f64::INFINITY).iter().map(|one| one.sight).collect()
    }

    /// The sight to every landmark within a distance, in the sheet's order.
    fn sights_from(&self, lines: &Sightlines<'_>, at: Point, eye_m: f64, within_m: f64) -> Vec<SeenLandmark<'_>> {
        let layout = lines.heights().layout();
        let outside = Post { column: f64::NAN, row: f64::NAN };
        let post = |at: Point| layout.post_of(self.to_earth(at)).unwrap_or(outside);
        let eye = Stand::at(post(at), eye_m);
        let near = self.landmarks.iter().filter(|landmark| landmark.at.minus(at).length_m() <= within_m);
        let seen = near.map(|landmark| {
            let ray = landmark.at.minus(at);
            let sight = lines.sight(eye, landmark.stand(post(landmark.at)));
            SeenLandmark { landmark, plane_deg: ray.bearing_deg(), distance_m: ray.length_m(), sight }
        });
        seen.collect()
    }

    /// For each landmark, the chance that it is in sight from places along a line, `step_m` apart from its beginning to its end;
    /// `None` where it cannot be told.
    #[must_use]
    pub fn chances_along(
        &self,
        lines: &Sightlines<'_>,
        layout: &Layout,
        line: &Line,
        landmarks: &[&Landmark],
        step_m: f64,
    ) -> Vec<Vec<Option<f64>>> {
        let outside = Post { column: f64::NAN, row: f64::NAN };
        let post = |at: Point| layout.post_of(self.to_earth(at)).unwrap_or(outside);
        let steps = (line.length_m() / step_m).ceil() as usize;
        let eyes: Vec<Post> = (0..=steps).map(|step| post(line.at(step as f64 * step_m).at)).collect();
        let objects: Vec<Stand> = landmarks.iter().map(|mark| mark.stand(post(mark.at))).collect();
        lines.chances(&eyes, EYE_M, &objects, f64::INFINITY)
    }
}

/// The strongest of each kind, each at least [`APART_M`] from the others of it; the nearer of two that are as strong; and the cliffs. Nearest first.
fn told(all: Vec<Around>) -> Told {
    let (cliffs, all): (Vec<Around>, Vec<Around>) = all.into_iter().partition(|one| one.landform.kind == LandformKind::Cliff);
    let (mut landforms, more_cliffs) = cliffs_told(cliffs);
    let (others, left) = others_told(all);
    landforms.extend(others);
    landforms.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
    Told { landforms, more_cliffs, more: counted(&left) }
}

/// What is told of landforms, and what is only counted.
#[derive(Debug, Clone, Default)]
struct Told {
    landforms: Vec<Around>,
    more_cliffs: Option<MoreCliffs>,
    more: Vec<MoreOfKind>,
}

/// Landforms that are told without a doubt, by their kinds; those left out of what is long go on where one is told.
fn counted(left: &[Around]) -> Vec<MoreOfKind> {
    let kinds = [LandformKind::Hill, LandformKind::Saddle, LandformKind::Depression, LandformKind::Spur, LandformKind::Draw];
    let of_kind = |kind| {
        let metres = || left.iter().filter(|one| one.landform.kind == kind && !one.is_doubtful()).map(|one| one.distance_m);
        MoreOfKind { kind, count: metres().count(), nearest_m: metres().fold(f64::INFINITY, f64::min) }
    };
    kinds.map(of_kind).into_iter().filter(|more| more.count > 0).collect()
}

/// The cliffs that are told, and what of them is only counted: first those that fall away from the walker, last of all such as fall on the far side of
/// what rises before him.
fn cliffs_told(mut all: Vec<Around>) -> (Vec<Around>, Option<MoreCliffs>) {
    let is_behind = |one: &Around, other: &Around| {
        let aside_deg = signed_difference_deg(one.bearing.degrees(), other.bearing.degrees()).abs();
        let is_near = from_here(other).minus(from_here(one)).length_m() < APART_M && aside_deg <= SAME_SIDE_DEG;
        is_near && other.landform.relief_m >= AS_HIGH * one.landform.relief_m
    };
    all.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
    let (mut told, mut left): (Vec<Around>, Vec<Around>) = (Vec::new(), Vec::new());
    for one in all {
        let goes_without = told.iter().any(|other| one.trend == other.trend && is_behind(&one, other));
        if goes_without { left.push(one) } else { told.push(one) }
    }
    let all_told = told.clone();
    let stands_before =
        |one: &Around, other: &Around| other.trend == Trend::Rises && other.distance_m < one.distance_m && is_behind(one, other);
    let last = |one: &Around| match one.trend {
        Trend::Falls if all_told.iter().any(|other| stands_before(one, other)) => 2,
        Trend::Falls => 0,
        Trend::Rises | Trend::Level => 1,
    };
    // The sort keeps the nearest first among each.
    told.sort_by_key(last);
    left.extend(told.split_off(MOST_CLIFFS.min(told.len())));
    let more = MoreCliffs {
        count: left.len(),
        highest_m: left.iter().map(|one| one.landform.relief_m).fold(0.0, f64::max),
        nearest_m: left.iter().map(|one| one.distance_m).fold(f64::INFINITY, f64::min),
        falling: left.iter().filter(|one| one.trend == Trend::Falls).count(),
    };
    (told, (more.count > 0).then_some(more))
}

fn from_here(one: &Around) -> Point {
    Point::polar(one.distance_m, one.bearing.degrees())
}

/// The others that are told, and those that are not.
fn others_told(mut all: Vec<Around>) -> (Vec<Around>, Vec<Around>) {
    let steps = |one: &Around| (one.landform.strength * STRENGTH_STEPS).round();
    all.sort_by(|a, b| steps(b).total_cmp(&steps(a)).then(a.distance_m.total_cmp(&b.distance_m)));
    let (mut told, mut left): (Vec<Around>, Vec<Around>) = (Vec::new(), Vec::new());
    for one in all {
        let mut same = told.iter().filter(|other| other.landform.kind == one.landform.kind);
        let few = same.clone().count() < MOST_OF_KIND;
        if few && same.all(|other| from_here(other).minus(from_here(&one)).length_m() >= APART_M) {
            told.push(one);
        } else {
            left.push(one);
        }
    }
    (told, left)
}

fn rank(one: &SeenLandmark<'_>) -> u8 {
    match one.sight.seen {
        Seen::Clear => 0,
        Seen::NotToBeTold(_) => 1,
        Seen::Hidden => 2,
    }
}

#[cfg(test)]
mod tests;
