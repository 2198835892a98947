//! What was measured, as equations of the plane: what a place foretells, and how that changes with the place.

use super::scene::{OpenScene, OpenSighting};
use crate::earth::Compass;
use crate::fix::BearingSighting;
use crate::fix::directed::SAME_SIGMAS;
use crate::measure::{NamedBearing, Point, signed_difference_deg};
use crate::sheet::Landmark;

/// A landmark so near that its own spread is wider than this tells nothing about the direction, degrees.
const MOST_SPREAD_DEG: f64 = 90.0;
/// Convergence and declination are taken at the middle and this far east and north of it, metres: between they run straight.
const STEP_M: f64 = 5_000.0;

/// A mark with its spread, one sigma per axis, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Mark {
    pub(super) at: Point,
    pub(super) spread_m: f64,
}

impl Mark {
    fn of(landmark: &Landmark) -> Self {
        Self { at: landmark.at, spread_m: landmark.spread_m }
    }

    /// One sigma of its direction from a place, degrees.
    pub(super) fn spread_deg(&self, from: Point) -> f64 {
        (self.spread_m / self.at.minus(from).length_m().max(1.0)).to_degrees().min(MOST_SPREAD_DEG)
    }
}

/// A compass reading as a bearing of the plane: by a trifle another one at every place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reading {
    /// At the plane's origin, degrees.
    pub(super) plane_deg: f64,
    /// Change with the place, degrees per metre east and north.
    pub(super) per_m: Point,
    /// One sigma, degrees: the reading and its rounding.
    pub(super) own_deg: f64,
}

impl Reading {
    fn new(scene: &OpenScene<'_>, reading: NamedBearing, spread_deg: Option<f64>) -> Self {
        let middle = scene.bounds.middle();
        let plane = |at: Point| scene.norths.to_plane_deg(reading, at);
        let change = |step: Point| signed_difference_deg(plane(middle.plus(step)), plane(middle)) / STEP_M;
        let per_m = Point::new(change(Point::new(STEP_M, 0.0)), change(Point::new(0.0, STEP_M)));
        Self { plane_deg: plane(middle) - per_m.dot(middle), per_m, own_deg: scene.trust.own_deg(spread_deg) }
    }

    pub(super) fn at(&self, place: Point) -> f64 {
        self.plane_deg + self.per_m.dot(place)
    }
}

/// One measured thing.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Equation {
    // `again` is how many are of the same marks. What those share, the error of the map and of the eye that guesses a distance, does not
    // get less with their number: it is as much wider in each.
    /// All bearings to one thing: they share its identity and its error on the map.
    Bearing { candidates: Vec<Mark>, readings: Vec<Reading>, sightings: Vec<usize> },
    /// An angle between two marks, clockwise.
    Angle { left: Mark, right: Mark, angle_deg: f64, own_deg: f64, sighting: usize, again: f64 },
    /// Metres to a mark.
    Distance { mark: Mark, distance_m: f64, own_m: f64, sighting: usize, again: f64 },
}

/// An equation at a place: what is left, how what is foretold changes, and its sigma. Degrees, or metres for a distance.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    /// Measured less foretold.
    pub(super) residual: f64,
    /// Change of what is foretold, per metre east and north.
    pub(super) slope: Point,
    /// 1 where the shared error enters.
    pub(super) shared: f64,
    pub(super) sigma: f64,
}

/// All equations of a scene; what the ground says makes none.
pub(super) fn equations(scene: &OpenScene<'_>) -> Vec<Equation> {
    let mut all: Vec<Equation> = Vec::new();
    for (index, sighting) in scene.sightings.iter().enumerate() {
        match sighting {
            OpenSighting::Bearing(bearing) => add_bearing(&mut all, scene, index, bearing),
            OpenSighting::Angle { left, right, angle_deg, spread_deg } => all.push(Equation::Angle {
                left: Mark::of(left),
                right: Mark::of(right),
                angle_deg: *angle_deg,
                // An angle is two readings; what they share falls out.
                own_deg: spread_deg.unwrap_or_else(|| scene.trust.own_deg(None) * 2f64.sqrt()),
                sighting: index,
                again: again(scene, sighting),
            }),
            OpenSighting::Distance { landmark, distance_m, spread_m } => {
                let (mark, again) = (Mark::of(landmark), again(scene, sighting));
                all.push(Equation::Distance { mark, distance_m: *distance_m, own_m: *spread_m, sighting: index, again });
            }
            OpenSighting::Ground(_) => {}
        }
    }
    all
}

/// How many sightings of a scene are of the same kind and the same landmarks as one; distances that disagree are not the same again.
fn again(scene: &OpenScene<'_>, one: &OpenSighting<'_>) -> f64 {
    let is_near = |other: &OpenSighting<'_>| match (one, other) {
        (OpenSighting::Distance { distance_m, spread_m, .. }, OpenSighting::Distance { distance_m: again_m, spread_m: other_m, .. }) => {
            (distance_m - again_m).abs() <= SAME_SIGMAS * spread_m.hypot(*other_m)
        }
        _ => true,
    };
    let same = |other: &&OpenSighting<'_>| other.word() == one.word() && other.name() == one.name() && is_near(other);
    scene.sightings.iter().filter(same).count() as f64
}

fn add_bearing(all: &mut Vec<Equation>, scene: &OpenScene<'_>, index: usize, bearing: &BearingSighting) {
    let marks: Vec<Mark> = bearing.candidates.iter().map(Mark::of).collect();
    let reading = Reading::new(scene, bearing.reading, bearing.spread_deg);
    let same = all.iter_mut().find_map(|one| match one {
        Equation::Bearing { candidates, readings, sightings } if *candidates == marks => Some((readings, sightings)),
        Equation::Bearing { .. } | Equation::Angle { .. } | Equation::Distance { .. } => None,
    });
    match same {
        Some((readings, sightings)) => {
            readings.push(reading);
            sightings.push(index);
        }
        None => all.push(Equation::Bearing { candidates: marks, readings: vec![reading], sightings: vec![index] }),
    }
}

/// Direction to a mark and its change with the place, degrees per metre.
pub(super) fn direction(mark: &Mark, place: Point) -> (f64, Point) {
    let ray = mark.at.minus(place);
    let square = ray.dot(ray).max(1e-12);
    (ray.bearing_deg(), ray.right().times(-(1.0 / square).to_degrees()))
}

/// Several readings of one mark as one, each by its weight: what they share, the map's error, is added once.
pub(super) fn mean_reading(readings: &[Reading]) -> Option<Reading> {
    let first = readings.first()?;
    let weight = |one: &Reading| one.own_deg.powi(-2);
    let total: f64 = readings.iter().map(weight).sum();
    let off = |one: &Reading| signed_difference_deg(one.plane_deg, first.plane_deg) * weight(one) / total;
    let plane_deg = first.plane_deg + readings.iter().map(off).sum::<f64>();
    Some(Reading { plane_deg, per_m: first.per_m, own_deg: total.sqrt().recip() })
}

impl Equation {
    /// The equation at a place, weights taken at another; nothing for a bearing to one of several landmarks.
    pub(super) fn row(&self, place: Point, weighed_from: Point) -> Option<Row> {
        match self {
            Self::Bearing { candidates, readings, .. } => {
                let [mark] = candidates.as_slice() else { return None };
                let reading = mean_reading(readings)?;
                let (bearing_deg, slope) = direction(mark, place);
                let residual = signed_difference_deg(reading.at(place), bearing_deg);
                let sigma = reading.own_deg.hypot(mark.spread_deg(weighed_from));
                Some(Row { residual, slope: slope.minus(reading.per_m), shared: 1.0, sigma })
            }
            Self::Angle { left, right, angle_deg, own_deg, again, .. } => {
                let ((left_deg, by_left), (right_deg, by_right)) = (direction(left, place), direction(right, place));
                let residual = signed_difference_deg(*angle_deg, right_deg - left_deg);
                let map_deg = left.spread_deg(weighed_from).hypot(right.spread_deg(weighed_from));
                let sigma = own_deg.hypot(map_deg * again.sqrt());
                Some(Row { residual, slope: by_right.minus(by_left), shared: 0.0, sigma })
            }
            Self::Distance { mark, distance_m, own_m, again, .. } => {
                let away = place.minus(mark.at);
                let length_m = away.length_m().max(1e-6);
                let sigma = own_m.hypot(mark.spread_m) * again.sqrt();
                Some(Row { residual: distance_m - length_m, slope: away.times(1.0 / length_m), shared: 0.0, sigma })
            }
        }
    }

    /// What repeated readings of one mark differ among themselves: chi-square and degrees of freedom, whatever the place.
    pub(super) fn within(&self) -> (f64, usize) {
        let Self::Bearing { readings, .. } = self else { return (0.0, 0) };
        let Some(mean) = mean_reading(readings) else { return (0.0, 0) };
        let off = |one: &Reading| (signed_difference_deg(one.plane_deg, mean.plane_deg) / one.own_deg).powi(2);
        (readings.iter().map(off).sum(), readings.len() - 1)
    }

    /// Whether it is a bearing to a landmark that is surely the one.
    pub(super) fn sure_bearing(&self) -> Option<(&Mark, Reading)> {
        match self {
            Self::Bearing { candidates, readings, .. } => match candidates.as_slice() {
                [mark] => Some((mark, mean_reading(readings)?)),
                _ => None,
            },
            Self::Angle { .. } | Self::Distance { .. } => None,
        }
    }

    /// The same as if it were the only one of its marks.
    pub(super) fn alone(&self) -> Self {
        let mut alone = self.clone();
        match &mut alone {
            Self::Angle { again, .. } | Self::Distance { again, .. } => *again = 1.0,
            Self::Bearing { .. } => {}
        }
        alone
    }

    /// Which sightings of the scene it is made of.
    pub(super) fn sightings(&self) -> &[usize] {
        match self {
            Self::Bearing { sightings, .. } => sightings,
            Self::Angle { sighting, .. } | Self::Distance { sighting, .. } => std::slice::from_ref(sighting),
        }
    }

    /// The compass readings in it.
    pub(super) fn readings(&self) -> &[Reading] {
        match self {
            Self::Bearing { readings, .. } => readings,
            Self::Angle { .. } | Self::Distance { .. } => &[],
        }
    }
}
