//! Taking a fix in the open: least squares where the odds are near normal, regions where they are not.

use std::collections::BTreeSet;

use super::caution::{OpenCaution, OpenError};
use super::chance::chance_beyond;
use super::equation::{Equation, equations};
use super::likelihood::Likelihood;
use super::odds::OpenOdds;
use super::region::{Region, Regions, regions};
use super::scene::{OpenScene, OpenSighting};
use super::seen::{OpenSeen, seen};
use super::shape::{Normal, near_normal};
use super::squares::{Shared, Squares};
use super::start::all_squares;
use super::turn::{SharedTurn, shared_turn};
use super::warn::cautions;
use crate::fix::WRONG_READING;
use crate::measure::{Covariance, Ellipse, Point};

/// Most sightings of one fix.
const MOST_SIGHTINGS: usize = 60;

/// Which of the two ways a fix is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OpenShape {
    /// One place with its ellipse.
    Ellipse,
    /// Regions, each with its share.
    Regions,
}

/// A fix in the open.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenFix {
    /// How it is to be told.
    pub shape: OpenShape,
    /// The place: of least squares, or the likeliest of the likeliest region.
    pub at: Point,
    /// Its covariance: of least squares, or that of the likeliest region about its mean.
    pub covariance: Covariance,
    /// How many sigmas of the covariance the 95 % ellipse has: 2.448, and more where a reading may be plainly wrong.
    pub sigmas_95: f64,
    /// The probability that the 95 % ellipse, or all regions together, hold: 95 % of the whole, less when much is left elsewhere.
    pub holds: f64,
    /// What least squares found, wherever the readings leave one place, near normal or not.
    pub squares: Option<Squares>,
    /// Chance that independent errors miss each other as much or more, by least squares; 1 without one.
    pub chance: f64,
    /// Where one may stand, likeliest first; never empty.
    pub regions: Vec<Region>,
    /// Share of the probability below a hundredth of the greatest density: a reading is plainly wrong.
    pub elsewhere: f64,
    /// The probability over the plane.
    pub odds: OpenOdds,
    /// Density above which places belong to the 50 % and to the 95 %, per square metre.
    pub levels_per_m2: (f64, f64),
    /// What each measurement said, in the order of the scene; the ground makes none.
    pub seen: Vec<OpenSeen>,
    /// How many things tell where one stands, however often each was read: two always meet somewhere.
    pub things: usize,
    /// One turn of all bearings that explains their misfit, where there is one.
    pub shared_turn: Option<SharedTurn>,
    /// What the walker must be told.
    pub cautions: Vec<OpenCaution>,
}

impl OpenFix {
    /// The 95 % ellipse; that of the likeliest region when the fix is told as regions.
    #[must_use]
    pub fn ellipse_95(&self) -> Ellipse {
        let one = self.covariance.ellipse();
        Ellipse { major_m: one.major_m * self.sigmas_95, minor_m: one.minor_m * self.sigmas_95, ..one }
    }

    /// Whether a place belongs to the 95 %: inside the ellipse, or in one of the regions.
    #[must_use]
    pub fn holds_95(&self, at: Point) -> bool {
        match self.shape {
            OpenShape::Ellipse => {
                self.covariance.chi_square(at.minus(self.at)).is_some_and(|square| square <= self.sigmas_95 * self.sigmas_95)
            }
            OpenShape::Regions => self.odds.density(at) >= self.levels_per_m2.1,
        }
    }
}

/// What is known before the fix is put together.
pub(super) struct Found<'a> {
    pub(super) scene: &'a OpenScene<'a>,
    pub(super) equations: &'a [Equation],
    pub(super) squares: Option<Squares>,
    pub(super) regions: &'a Regions,
    pub(super) odds: &'a OpenOdds,
    pub(super) turn: Option<&'a SharedTurn>,
    pub(super) seen: &'a [OpenSeen],
}

/// Takes a fix in the open from everything observed.
///
/// It is told as an ellipse when the probability is near normal about the place of least squares (within 4 sigmas at least 80 %, of
/// which 45 to 55 % lie within 1.177 and 93 to 97 % within 2.448), else as regions.
///
/// # Units
/// Metres of the sheet's plane, degrees; spreads are one sigma.
///
/// # Accuracy
/// Least squares to 1e-6 of `SciPy`'s; the odds within 0.01 (total variation) of a plain grid's.
///
/// # Errors
/// [`OpenError`] when nothing, too much or something impossible was sighted, or no place is left.
///
/// # References
/// Resection from two and three points: US Army TC 3-25.26 (2013). Least squares: `tests/tables/fix/open_ground.json`.
pub fn take_open(scene: &OpenScene<'_>) -> Result<OpenFix, OpenError> {
    refuse(scene)?;
    let equations = equations(scene);
    let likelihood = Likelihood::new(scene, &equations, WRONG_READING);
    let odds = OpenOdds::over(&likelihood, &scene.bounds).ok_or(OpenError::Nowhere)?;
    let regions = regions(&odds);
    let sure: Vec<&Equation> = equations.iter().collect();
    let squares = least_squares(scene, &sure);
    let turn = shared_turn(&sure, scene.shared_spread_deg(), scene.near, &scene.bounds);
    let normal = squares.as_ref().and_then(|found| near_normal(found, &odds));
    let best = match (&normal, &squares) {
        (Some(_), Some(found)) => found.at,
        _ => regions.regions.first().ok_or(OpenError::Nowhere)?.best,
    };
    let seen = seen(scene, &equations, best);
    let found = Found { scene, equations: &equations, squares, regions: &regions, odds: &odds, turn: turn.as_ref(), seen: &seen };
    let mut fix = told(&found, normal, best);
    fix.cautions = cautions(&found, &fix);
    Ok(OpenFix { seen, shared_turn: turn, ..fix })
}

fn told(found: &Found<'_>, normal: Option<Normal>, at: Point) -> OpenFix {
    let regions = found.regions;
    let covariance = match (&normal, &found.squares) {
        (Some(_), Some(squares)) => squares.covariance,
        _ => regions.regions.first().map(|first| first.covariance).unwrap_or_default(),
    };
    OpenFix {
        shape: if normal.is_some() { OpenShape::Ellipse } else { OpenShape::Regions },
        at,
        covariance,
        sigmas_95: normal.map_or(crate::measure::PLANE_95, |normal| normal.sigmas_95),
        holds: normal.map_or(regions.holds, |normal| normal.holds),
        squares: found.squares,
        chance: found.squares.map_or(1.0, |squares| chance_beyond(squares.chi_square, squares.freedom)),
        regions: regions.regions.clone(),
        elsewhere: regions.elsewhere,
        odds: found.odds.clone(),
        levels_per_m2: (regions.level_50, regions.level_95),
        seen: Vec::new(),
        things: things(found.scene),
        shared_turn: None,
        cautions: Vec::new(),
    }
}

/// Readings of one thing are one; what a bearing implies of the ground is not observed.
fn things(scene: &OpenScene<'_>) -> usize {
    let observed = scene.sightings.iter().filter(|one| !matches!(one, OpenSighting::Ground(ground) if ground.implied));
    observed.map(|one| (one.word(), one.name())).collect::<BTreeSet<_>>().len()
}

fn least_squares(scene: &OpenScene<'_>, equations: &[&Equation]) -> Option<Squares> {
    let any_bearing = equations.iter().any(|one| one.sure_bearing().is_some());
    let shared_deg = scene.shared_spread_deg();
    let shared = if any_bearing && shared_deg > 0.0 { Shared::Spread(shared_deg) } else { Shared::Nothing };
    all_squares(equations, shared, scene.near, &scene.bounds).into_iter().next()
}

fn refuse(scene: &OpenScene<'_>) -> Result<(), OpenError> {
    if scene.sightings.is_empty() {
        return Err(OpenError::NoSighting);
    }
    let told = scene.sightings.iter().filter(|one| !matches!(one, OpenSighting::Ground(ground) if ground.implied)).count();
    if told > MOST_SIGHTINGS {
        return Err(OpenError::TooMany(told));
    }
    if !scene.bounds.is_sound() {
        return Err(OpenError::NoArea);
    }
    let wrong = scene.sightings.iter().position(|one| !is_usable(one, scene.trust.reading_spread_deg));
    wrong.map_or(Ok(()), |index| Err(OpenError::Unusable(index + 1)))
}

fn is_usable(sighting: &OpenSighting<'_>, usual_deg: f64) -> bool {
    let positive = |value: f64| value > 0.0 && value.is_finite();
    match sighting {
        OpenSighting::Bearing(bearing) => !bearing.candidates.is_empty() && positive(bearing.spread_deg.unwrap_or(usual_deg)),
        OpenSighting::Angle { left, right, angle_deg, spread_deg } => {
            left.at != right.at && (0.0..360.0).contains(angle_deg) && positive(spread_deg.unwrap_or(usual_deg))
        }
        OpenSighting::Distance { distance_m, spread_m, .. } => positive(*distance_m) && positive(*spread_m),
        OpenSighting::Ground(ground) => positive(ground.most) && positive(ground.detail_m),
    }
}
