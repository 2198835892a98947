//! What should be seen from a place: the landmarks of the sheet over its heights, and the landforms near.

use super::{Landmark, Line, Sheet};
use crate::earth::GridError;
use crate::ground::{Around, LandformScale, Layout, Post, Seen, Sight, Sightlines, Stand, landforms_near};
use crate::measure::Point;

/// Height of the eye of one who stands, metres. Common practice, no source.
pub const EYE_M: f64 = 1.7;
/// Landforms are told within this distance, metres. Common practice, no source.
const LANDFORMS_WITHIN_M: f64 = 1000.0;

/// Of each kind of landform so many are told, so far apart in metres, and how finely their strength is told apart (our own choice).
const MOST_OF_KIND: usize = 3;
const APART_M: f64 = 400.0;
const STRENGTH_STEPS: f64 = 20.0;

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
    /// The landforms near, nearest first: of each kind the strongest few that lie apart.
    pub landforms: Vec<Around>,
}

impl Landmark {
    /// Height of its top above the ground, metres: its own, or the usual one of its kind (common practice, no source).
    #[must_use]
    pub fn top_m(&self) -> f64 {
        let usual = match self.kind.trim().to_lowercase().as_str() {
            "mast" => 30.0,
            "tower" | "church" | "chimney" | "water tower" | "lighthouse" | "silo" => 20.0,
            "pylon" | "power pylon" | "cableway pylon" => 25.0,
            "wind turbine" => 60.0,
            "building" | "hut" | "castle" | "place of worship" | "windmill" | "tank" => 6.0,
            _ => 0.0,
        };
        self.height_m.unwrap_or(usual)
    }

    /// Its top as what is looked for, among the posts of some heights.
    #[must_use]
    pub fn stand(&self, post: Post) -> Stand {
        Stand::at(post, self.top_m())
    }
}

impl Sheet {
    /// What should be seen from a place by an eye so high above the ground.
    ///
    /// # Units
    /// Metres.
    ///
    /// # Accuracy
    /// That of [`Sightlines::sight`] and [`landforms_near`]. Trees and buildings that the heights do not hold can hide more.
    /// The landmark's own spread on the map is not in the chance: 10 m change it by 0.01 to 0.05 on the mean of sights near grazing, most
    /// where the ground close by hides the foot of what is looked for.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no coordinates for the place.
    pub fn seen_from(&self, sights: &Sightlines<'_>, at: Point, eye_m: f64, within_m: f64) -> Result<SeenFrom<'_>, GridError> {
        let landforms = told(landforms_near(sights.heights(), self.to_earth(at), LANDFORMS_WITHIN_M, &LandformScale::default())?);
        let mut landmarks: Vec<SeenLandmark<'_>> = self.sights_from(sights, at, eye_m, within_m);
        landmarks.sort_by(|a, b| rank(a).cmp(&rank(b)).then(a.distance_m.total_cmp(&b.distance_m)));
        Ok(SeenFrom { landmarks, landforms })
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

/// The strongest of each kind, each at least [`APART_M`] from the others of it; the nearer of two that are as strong. Nearest first.
fn told(mut all: Vec<Around>) -> Vec<Around> {
    let steps = |one: &Around| (one.landform.strength * STRENGTH_STEPS).round();
    all.sort_by(|a, b| steps(b).total_cmp(&steps(a)).then(a.distance_m.total_cmp(&b.distance_m)));
    let at = |one: &Around| Point::polar(one.distance_m, one.bearing.degrees());
    let mut told: Vec<Around> = Vec::new();
    for one in all {
        let mut same = told.iter().filter(|other| other.landform.kind == one.landform.kind);
        let few = same.clone().count() < MOST_OF_KIND;
        if few && same.all(|other| at(other).minus(at(&one)).length_m() >= APART_M) {
            told.push(one);
        }
    }
    told.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
    told
}

fn rank(one: &SeenLandmark<'_>) -> u8 {
    match one.sight.seen {
        Seen::Clear => 0,
        Seen::NotToBeTold(_) => 1,
        Seen::Hidden => 2,
    }
}
