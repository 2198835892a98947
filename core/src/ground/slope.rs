//! How steep the ground is, and where it falls to.

use super::{HeightSpread, Heights, Lattice, Post};
use crate::earth::LatLon;
use crate::measure::TrueBearing;

/// The slope of the ground at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// Degrees below the level.
    pub slope_deg: f64,
    /// Rise in a hundred metres.
    pub percent: f64,
    /// One sigma of the slope, degrees, from the spread of the heights.
    pub spread_deg: f64,
    /// Where the ground falls to; `None` where it is level.
    pub aspect: Option<Aspect>,
}

/// The direction in which the ground falls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aspect {
    /// The direction, from true north.
    pub falls_to: TrueBearing,
    /// One sigma, degrees; at most that of a direction of which nothing is known.
    pub spread_deg: f64,
}

/// One sigma of a direction that is uniform on the circle: `360 / √12`.
const ANY_DIRECTION_DEG: f64 = 103.923;
/// Weights of Horn's sums, by row and column around a post.
const EASTWARD: [[f64; 3]; 3] = [[-1.0, 0.0, 1.0], [-2.0, 0.0, 2.0], [-1.0, 0.0, 1.0]];
const SOUTHWARD: [[f64; 3]; 3] = [[-1.0, -2.0, -1.0], [0.0, 0.0, 0.0], [1.0, 2.0, 1.0]];

/// Rise to the east and to the south in a metre.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Gradient {
    east: f64,
    south: f64,
}

impl Gradient {
    /// Horn's weighted differences over the nine posts around one; `None` at the border and beside a void.
    fn at_post(heights: &Heights, column: usize, row: usize, spacing_m: (f64, f64)) -> Option<Self> {
        let (left, top) = (column.checked_sub(1)?, row.checked_sub(1)?);
        let mut sums = Self { east: 0.0, south: 0.0 };
        for (down, (eastward, southward)) in EASTWARD.iter().zip(&SOUTHWARD).enumerate() {
            for (right, (east, south)) in eastward.iter().zip(southward).enumerate() {
                let height_m = heights.post_m(left + right, top + down)?;
                sums.east += east * height_m;
                sums.south += south * height_m;
            }
        }
        Some(Self { east: sums.east / (8.0 * spacing_m.0), south: sums.south / (8.0 * spacing_m.1) })
    }

    /// The gradient at a place: at a post its own, between posts bilinear between those of the posts around.
    fn at(heights: &Heights, post: Post, spacing_m: (f64, f64)) -> Option<Self> {
        let (left, top) = (post.column.floor(), post.row.floor());
        let (x, y) = (post.column - left, post.row - top);
        let mut sum = Self { east: 0.0, south: 0.0 };
        for (right, down, weight) in [(0, 0, (1.0 - x) * (1.0 - y)), (1, 0, x * (1.0 - y)), (0, 1, (1.0 - x) * y), (1, 1, x * y)] {
            if weight > 0.0 && left >= 0.0 && top >= 0.0 {
                let own = Self::at_post(heights, left as usize + right, top as usize + down, spacing_m)?;
                sum = Self { east: sum.east + weight * own.east, south: sum.south + weight * own.south };
            }
        }
        (left >= 0.0 && top >= 0.0).then_some(sum)
    }

    fn steepness(self) -> f64 {
        self.east.hypot(self.south)
    }
}

/// Variance of a Horn sum over errors whose correlation falls as `exp(-distance / length)`, per metre.
fn variance(weights: &[[f64; 3]; 3], along_m: f64, spacing_m: (f64, f64), spread: HeightSpread) -> f64 {
    let places: Vec<(f64, f64, f64)> = (0_u8..9)
        .filter_map(|i| {
            let weight = weights.get(usize::from(i / 3))?.get(usize::from(i % 3))?;
            Some((f64::from(i % 3) * spacing_m.0, f64::from(i / 3) * spacing_m.1, *weight))
        })
        .collect();
    let shared = |a: &(f64, f64, f64), b: &(f64, f64, f64)| (-(a.0 - b.0).hypot(a.1 - b.1) / spread.correlation_m).exp() * a.2 * b.2;
    let sum: f64 = places.iter().flat_map(|a| places.iter().map(move |b| shared(a, b))).sum();
    sum.max(0.0) * (spread.sigma_m / (8.0 * along_m)).powi(2)
}

impl Slope {
    fn of(gradient: Gradient, spacing_m: (f64, f64), spread: HeightSpread, north_deg: f64) -> Self {
        let steepness = gradient.steepness();
        let (east2, south2) = (variance(&EASTWARD, spacing_m.0, spacing_m, spread), variance(&SOUTHWARD, spacing_m.1, spacing_m, spread));
        let level = steepness < f64::EPSILON;
        let (x, y) = if level { (1.0, 0.0) } else { (gradient.east / steepness, gradient.south / steepness) };
        let along = (x * x * east2 + y * y * south2).sqrt();
        let across = (y * y * east2 + x * x * south2).sqrt();
        let falls_deg = (-gradient.east).atan2(gradient.south).to_degrees() + north_deg;
        let spread_deg = (across / steepness).to_degrees().min(ANY_DIRECTION_DEG);
        Self {
            slope_deg: steepness.atan().to_degrees(),
            percent: steepness * 100.0,
            spread_deg: (along / (1.0 + steepness * steepness)).to_degrees(),
            aspect: (!level).then(|| Aspect { falls_to: TrueBearing::new(falls_deg), spread_deg }),
        }
    }
}

impl Heights {
    /// The slope at a place among the posts; `None` outside, within a post of the border, and beside a void.
    ///
    /// At a post from the nine around it; between posts the rises to the east and to the south are each bilinear between
    /// those of the four posts around.
    ///
    /// # Units
    /// Degrees and metres in a hundred metres; the aspect in degrees from true north.
    ///
    /// # Accuracy
    /// The spreads are of first order: on nearly level ground, where the slope is not larger than its spread, the slope told
    /// is too steep on the whole, and its aspect says little. A slope over three posts is blind to what is smaller than that.
    ///
    /// # References
    /// B. K. P. Horn (1981), Hill shading and the reflectance map, Proc. IEEE 69, 14-47.
    #[must_use]
    pub fn slope_at_post(&self, post: Post) -> Option<Slope> {
        let spacing_m = self.layout().spacing_m(post).ok()?;
        let gradient = Gradient::at(self, post, spacing_m)?;
        let north_deg = match &self.layout().lattice {
            Lattice::Geographic => 0.0,
            Lattice::Projected(grid) => grid.factors(self.layout().place_of(post).ok()?).ok()?.convergence_deg,
        };
        Some(Slope::of(gradient, spacing_m, self.spread(), north_deg))
    }

    /// The slope at a place, as [`Heights::slope_at_post`] tells it.
    #[must_use]
    pub fn slope_at(&self, at: LatLon) -> Option<Slope> {
        self.slope_at_post(self.layout().post_of(at).ok()?)
    }
}
