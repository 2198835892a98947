//! One thing said of the ground, ready to be asked at many places.

use std::f64::consts::TAU;

use super::GroundSaid;
use crate::earth::{Compass, GridError, LocalFrame, Norths};
use crate::ground::{
    Footing, Heights, LandformScale, LandformTable, Post, SeenLandform, aspect_log_likelihood, landforms_near, rise_log_likelihood,
    steepness_log_likelihood,
};
use crate::measure::{NamedBearing, Point, TrueBearing, normal_density};

/// Landforms farther from a place than this are not asked for, metres: nobody tells their kind.
const FARTHEST_M: f64 = 5_000.0;
/// The direction of what is underfoot says nothing, degrees.
const ANY_DEG: f64 = 1e6;

/// The ground of an area, prepared once for all that was said of it.
#[derive(Debug, Clone)]
pub struct Lay<'a> {
    frame: LocalFrame,
    norths: &'a Norths,
    heights: &'a Heights,
    footing: Footing<'a>,
    landforms: LandformTable,
    middle: Point,
}

/// What was said, with its bearings turned to the plane and to true north.
#[derive(Debug, Clone)]
pub struct SaidAt<'a> {
    lay: &'a Lay<'a>,
    said: &'a GroundSaid,
    plane_deg: f64,
    truly: TrueBearing,
}

impl<'a> Lay<'a> {
    /// The ground within a distance of a point of the plane, for what was said.
    ///
    /// # Accuracy
    /// Bearings are turned at the middle: within 0.3° over 20 km below 65° of latitude.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no coordinates there.
    pub fn new(
        (frame, norths): (LocalFrame, &'a Norths),
        heights: &'a Heights,
        (middle, reach_m): (Point, f64),
        said: &[GroundSaid],
    ) -> Result<Self, GridError> {
        let at = frame.to_earth(middle);
        let beyond_m = said
            .iter()
            .filter_map(GroundSaid::landforms_within_m)
            .fold(None, |most: Option<f64>, one| Some(most.map_or(one, |most| most.max(one)).min(FARTHEST_M)));
        let near = match beyond_m {
            Some(beyond_m) => landforms_near(heights, at, reach_m + beyond_m, &LandformScale::default())?,
            None => Vec::new(),
        };
        let landforms: Vec<_> = near.iter().map(|around| around.landform).collect();
        Ok(Self { frame, norths, heights, footing: Footing::new(heights, at)?, landforms: LandformTable::new(&landforms, &frame), middle })
    }

    /// One thing said, ready to be asked.
    #[must_use]
    pub fn asks(&'a self, said: &'a GroundSaid) -> SaidAt<'a> {
        let bearing = match said {
            GroundSaid::Slope { towards, .. } => Some(*towards),
            GroundSaid::Landform { bearing, .. } => bearing.map(|(bearing, _)| bearing),
            GroundSaid::Aspect { falls, .. } => Some(*falls),
            GroundSaid::Height { .. } => None,
        };
        let plane = |bearing: NamedBearing| self.norths.to_plane_deg(bearing, self.middle);
        let plane_deg = bearing.map_or(0.0, plane);
        SaidAt { lay: self, said, plane_deg, truly: self.norths.to_true(plane_deg, self.middle) }
    }

    /// Height of the ground at a point of the plane, metres.
    #[must_use]
    pub fn height_m(&self, at: Point) -> Option<f64> {
        self.heights.at_post_m(self.post(at)?)
    }

    /// Metres between two places at which the ground is asked: half of what lies between two posts, 5 to 20.
    #[must_use]
    pub fn step_m(&self) -> f64 {
        let (east_m, south_m) = self.heights.layout().spacing_in_middle_m().unwrap_or((40.0, 40.0));
        (east_m.min(south_m) / 2.0).clamp(5.0, 20.0)
    }

    fn post(&self, at: Point) -> Option<Post> {
        self.heights.layout().post_of(self.frame.to_earth(at)).ok()
    }
}

impl SaidAt<'_> {
    /// How likely it was to say so at a place; nothing where the ground is not known.
    #[must_use]
    pub fn likelihood(&self, at: Point) -> Option<f64> {
        let lay = self.lay;
        let post = lay.post(at)?;
        let ground_m = lay.heights.at_post_m(post)?;
        match self.said {
            GroundSaid::Slope { trend, steep_deg, over_m, .. } => {
                let rise = lay.footing.rise(post, self.truly, *over_m)?;
                Some(match steep_deg {
                    Some((slope_deg, spread_deg)) => steepness_log_likelihood(Some(&rise), *slope_deg, *spread_deg).exp(),
                    None => rise_log_likelihood(Some(&rise), *trend).exp(),
                })
            }
            GroundSaid::Landform { .. } => Some(lay.landforms.log_likelihood(at, &self.seen()?).exp()),
            GroundSaid::Aspect { spread_deg, .. } => {
                let aspect = lay.footing.aspect(post)?;
                Some(aspect_log_likelihood(Some(&aspect), self.truly, *spread_deg).exp())
            }
            GroundSaid::Height { reading, set_at } => {
                let apart_m = set_at.map_or(0.0, |there| there.minus(at).length_m());
                Some(reading.likelihood(ground_m, apart_m, lay.heights.spread()))
            }
        }
    }

    /// By how much what was said is off at a place, and one sigma of that, metres; nothing for what is not measured in metres.
    #[must_use]
    pub fn off_m(&self, at: Point) -> Option<(f64, f64)> {
        let GroundSaid::Height { reading, set_at } = self.said else { return None };
        let apart_m = set_at.map_or(0.0, |there| there.minus(at).length_m());
        Some(reading.off_m(self.lay.height_m(at)?, apart_m, self.lay.heights.spread()))
    }

    fn seen(&self) -> Option<SeenLandform> {
        let GroundSaid::Landform { kind, bearing, distance_m, distance_factor } = self.said else { return None };
        let bearing_spread_deg = bearing.map_or(ANY_DEG, |(_, spread_deg)| spread_deg);
        let (bearing_deg, distance_m, distance_factor) = (self.plane_deg, *distance_m, *distance_factor);
        Some(SeenLandform { kind: *kind, bearing_deg, bearing_spread_deg, distance_m, distance_factor })
    }

    /// What the likelihood nowhere exceeds.
    #[must_use]
    pub fn most(&self) -> f64 {
        match self.said {
            GroundSaid::Slope { steep_deg: None, .. } | GroundSaid::Landform { .. } => 1.0,
            GroundSaid::Slope { steep_deg: Some((_, spread_deg)), .. } => normal_density(0.0, *spread_deg).max(1.0 / 180.0),
            // The density of a direction is at most that of one component, and what level ground leaves.
            GroundSaid::Aspect { spread_deg, .. } => 1.0 + TAU * normal_density(0.0, spread_deg.to_radians()),
            GroundSaid::Height { reading, .. } => reading.most(),
        }
    }
}
