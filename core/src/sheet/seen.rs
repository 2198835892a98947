//! What should be seen from a place: the landmarks of the sheet over its heights, and the landforms near.

use super::{Landmark, Line, Sheet};
use crate::earth::GridError;
use crate::ground::{Around, Gap, LandformKind, LandformScale, Layout, Post, Seen, Sight, Sightlines, Stand, landforms_from};
use crate::measure::Point;

/// Height of the eye of one who stands, metres. Common practice, no source.
pub const EYE_M: f64 = 1.7;
/// Landforms are told within this distance, metres. Common practice, no source.
pub const LANDFORMS_WITHIN_M: f64 = 1000.0;

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
    /// The landforms near, nearest first, each by its nearest point: of each kind the strongest few that lie apart, of cliffs the nearest.
    pub landforms: Vec<Around>,
    /// How far the heights reach from there to their nearest end, metres, where that is too near to tell the landforms around; `None`
    /// where it is not, and off the heights.
    pub heights_end_m: Option<f64>,
    /// What of the ground within [`LANDFORMS_WITHIN_M`] has no height though it lies inside of them.
    pub gap: Option<Gap>,
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
    /// That of [`Sightlines::sight`] and [`landforms_from`]. Trees and buildings that the heights do not hold can hide more.
    /// The landmark's own spread on the map is not in the chance: 10 m change it by 0.01 to 0.05 on the mean of sights near grazing, most
    /// where the ground close by hides the foot of what is looked for.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no coordinates for the place.
    pub fn seen_from(&self, sights: &Sightlines<'_>, at: Point, eye_m: f64, within_m: f64) -> Result<SeenFrom<'_>, GridError> {
        let (heights, place, scale) = (sights.heights(), self.to_earth(at), LandformScale::default());
        let landforms = told(landforms_from(heights, place, LANDFORMS_WITHIN_M, &scale)?);
        let end_m = heights.layout().to_the_end_m(place)?;
        let heights_end_m = Some(end_m).filter(|end_m| (0.0..LANDFORMS_WITHIN_M + scale.sight_m).contains(end_m));
        let mut landmarks: Vec<SeenLandmark<'_>> = self.sights_from(sights, at, eye_m, within_m);
        landmarks.sort_by(|a, b| rank(a).cmp(&rank(b)).then(a.distance_m.total_cmp(&b.distance_m)));
        let gap = heights.gap_around(place, LANDFORMS_WITHIN_M)?;
        Ok(SeenFrom { landmarks, landforms, heights_end_m, gap })
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
/// Of cliffs the nearest count most, however strong: they can hurt.
fn told(mut all: Vec<Around>) -> Vec<Around> {
    let is_cliff = |one: &Around| one.landform.kind == LandformKind::Cliff;
    let steps = |one: &Around| if is_cliff(one) { 0.0 } else { (one.landform.strength * STRENGTH_STEPS).round() };
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

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing, clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::{APART_M, Around, LANDFORMS_WITHIN_M, MOST_OF_KIND, STRENGTH_STEPS, told};
    use crate::earth::{Grid, LatLon};
    use crate::ground::{HeightSpread, Heights, LandformKind, LandformScale, Lattice, Layout, landforms_from};
    use crate::measure::Point;

    const POSTS: usize = 161;
    const STEP_M: f64 = 20.0;

    /// All landforms near the middle of made ground, and those that are told.
    fn around(height: impl Fn(f64, f64) -> f64) -> (Vec<Around>, Vec<Around>) {
        let half_m = (POSTS - 1) as f64 / 2.0 * STEP_M;
        let (west, north) = (500_000.0 - half_m, 5_000_000.0 + half_m);
        let lattice = Lattice::Projected(Grid::named("32N").unwrap());
        let layout = Layout { lattice, columns: POSTS, rows: POSTS, west, north, step_east: STEP_M, step_south: STEP_M };
        let of = |post: usize| height((post % POSTS) as f64 * STEP_M - half_m, half_m - (post / POSTS) as f64 * STEP_M) as f32;
        let spread = HeightSpread { sigma_m: 2.0, correlation_m: 300.0 };
        let heights = Heights::new(layout, spread, (0..POSTS * POSTS).map(of).collect()).unwrap();
        let middle: LatLon = Grid::named("32N").unwrap().unproject(Point::new(500_000.0, 5_000_000.0)).unwrap();
        let all = landforms_from(&heights, middle, LANDFORMS_WITHIN_M, &LandformScale::default()).unwrap();
        (all.clone(), told(all))
    }

    fn at(one: &Around) -> Point {
        Point::polar(one.distance_m, one.bearing.degrees())
    }

    fn bell(east_m: f64, north_m: f64, high_m: f64) -> impl Fn(f64, f64) -> f64 {
        move |x, y| high_m * (-((x - east_m).powi(2) + (y - north_m).powi(2)) / 90.0_f64.powi(2)).exp()
    }

    /// Made ground: five hills, one of them beside a higher one. Which are told is known from how they were made.
    #[test]
    fn of_five_hills_three_that_lie_apart_are_told() {
        let hills = [(300.0, 0.0, 60.0), (-600.0, 0.0, 40.0), (0.0, 640.0, 50.0), (0.0, -800.0, 30.0), (480.0, 120.0, 45.0)];
        let (all, told) = around(|x, y| hills.iter().map(|(east, north, high)| bell(*east, *north, *high)(x, y)).sum());
        let tops = |list: &[Around]| {
            let hills = list.iter().filter(|one| one.landform.kind == LandformKind::Hill);
            hills.map(|one| (one.distance_m / 10.0).round() * 10.0).collect::<Vec<f64>>()
        };
        assert_eq!(tops(&all).len(), 5, "{:?}", tops(&all));
        assert_eq!(tops(&told), [300.0, 600.0, 640.0]);
    }

    /// Made ground: a walker in one long valley is told of it once, where he stands; one west of a cliff of 3 km of its nearest brink,
    /// due east, and of no other piece of it.
    #[test]
    fn a_long_form_is_told_once_by_its_nearest_point() {
        let (_, told) = around(|x: f64, y: f64| 0.005 * x - 60.0 * (-(y / 150.0).powi(2)).exp());
        let valleys: Vec<&Around> =
            told.iter().filter(|one| [LandformKind::Valley, LandformKind::Draw].contains(&one.landform.kind)).collect();
        assert!(valleys.len() == 1 && valleys[0].is_here, "{valleys:?}");
        let (_, told) = around(|x: f64, y: f64| 0.02 * y + if x > 40.0 { 40.0 } else { 0.0 });
        let cliffs: Vec<&Around> = told.iter().filter(|one| one.landform.kind == LandformKind::Cliff).collect();
        assert_eq!(cliffs.len(), 1, "{cliffs:?}");
        let (bearing_deg, metres) = (cliffs[0].bearing.degrees(), cliffs[0].distance_m);
        assert!((bearing_deg - 90.0).abs() < 1.0 && (40.0..=61.0).contains(&metres), "{bearing_deg} {metres}");
    }

    /// Made ground: one long valley, and a slope of ripples. What is left out is near to one told of its kind, or three of it
    /// that are no weaker are told.
    #[test]
    fn one_thing_is_not_told_many_times() {
        let valley = |x: f64, y: f64| 0.02 * x - 60.0 * (-(y / 150.0).powi(2)).exp();
        let ripples = |x: f64, y: f64| 0.1 * x + 15.0 * (y / 80.0).sin();
        assert!(around(ripples).0.len() > around(ripples).1.len());
        for (all, told) in [around(valley), around(ripples)] {
            assert!(all.len() >= told.len() && !told.is_empty(), "{} {}", all.len(), told.len());
            for kind in LandformKind::ALL {
                let of_kind: Vec<&Around> = told.iter().filter(|one| one.landform.kind == kind).collect();
                let from = |one: &Around| of_kind.iter().map(|other| at(other).minus(at(one)).length_m()).collect::<Vec<f64>>();
                assert!(of_kind.len() <= MOST_OF_KIND);
                assert!(of_kind.iter().all(|one| from(one).iter().filter(|metres| **metres < APART_M).count() == 1), "{kind:?}");
                let weakest = of_kind.iter().map(|one| one.landform.strength).fold(1.0, f64::min);
                for one in all.iter().filter(|one| one.landform.kind == kind) {
                    let near = from(one).iter().any(|metres| *metres < APART_M);
                    let enough = of_kind.len() == MOST_OF_KIND && one.landform.strength < weakest + 1.0 / STRENGTH_STEPS;
                    assert!(near || enough, "{one:?} is told by none of {of_kind:?}");
                }
            }
        }
    }
}
