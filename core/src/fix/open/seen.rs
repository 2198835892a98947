//! Sightings as the fix sees them from its best place.

use super::equation::{Equation, Mark, direction};
use super::scene::{OpenScene, OpenSighting};
use crate::earth::Compass;
use crate::fix::{Verdict, told_apart};
use crate::measure::{Point, signed_difference_deg, wrap_deg};
use crate::sheet::Landmark;

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// A bearing: degrees.
    Bearing,
    /// An angle: degrees.
    Angle,
    /// A distance: metres.
    Distance,
}

/// A measurement as the fix sees it from its best place.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenSeen {
    /// Which sighting of the scene, from 0.
    pub sighting: usize,
    /// What was measured: the unit of what follows.
    pub measured: Measured,
    /// The landmark; of several candidates the one that fits best; both of an angle. Of several alike, with its number in the list.
    pub landmark: String,
    /// What was read, in the plane: degrees or metres.
    pub read: f64,
    /// What was read minus what the sheet gives there.
    pub residual: f64,
    /// One sigma of that, everything included.
    pub spread: f64,
    /// Metres to the landmark; of an angle to the nearer one.
    pub distance_m: f64,
}

impl Measured {
    /// The word for it in records.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Bearing => "bearing",
            Self::Angle => "angle",
            Self::Distance => "distance",
        }
    }
}

impl OpenSeen {
    /// The residual in sigmas, without its sign.
    #[must_use]
    pub fn sigmas(&self) -> f64 {
        self.residual.abs() / self.spread
    }

    /// Whether it fits: by chance it lies outside two sigmas one time in twenty, outside 2.6 one in a hundred.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        Verdict::of_sigmas(self.sigmas())
    }
}

/// All measurements, seen from a place.
pub(super) fn seen(scene: &OpenScene<'_>, equations: &[Equation], from: Point) -> Vec<OpenSeen> {
    let shared_deg = scene.shared_spread_deg();
    let mut all: Vec<OpenSeen> = equations.iter().flat_map(|one| of_equation(scene, one, shared_deg, from)).collect();
    all.sort_by_key(|one| one.sighting);
    let names = told_apart(all.iter().map(|one| (one.sighting, one.measured.word(), one.landmark.clone())));
    all.iter_mut().zip(names).for_each(|(one, name)| one.landmark = name);
    all
}

fn of_equation(scene: &OpenScene<'_>, equation: &Equation, shared_deg: f64, from: Point) -> Vec<OpenSeen> {
    match equation {
        Equation::Bearing { sightings, .. } => sightings.iter().filter_map(|index| bearing(scene, *index, shared_deg, from)).collect(),
        Equation::Angle { left, right, angle_deg, sighting, .. } => {
            let distance_m = left.at.minus(from).length_m().min(right.at.minus(from).length_m());
            plain(scene, equation, *sighting, Measured::Angle, *angle_deg, distance_m, from).into_iter().collect()
        }
        Equation::Distance { mark, distance_m, sighting, .. } => {
            let far_m = mark.at.minus(from).length_m();
            plain(scene, equation, *sighting, Measured::Distance, *distance_m, far_m, from).into_iter().collect()
        }
    }
}

fn plain(
    scene: &OpenScene<'_>,
    equation: &Equation,
    sighting: usize,
    measured: Measured,
    read: f64,
    distance_m: f64,
    from: Point,
) -> Option<OpenSeen> {
    let row = equation.alone().row(from, from)?;
    let landmark = scene.sightings.get(sighting).map_or_else(String::new, OpenSighting::name);
    Some(OpenSeen { sighting, measured, landmark, read, residual: row.residual, spread: row.sigma, distance_m })
}

fn bearing(scene: &OpenScene<'_>, index: usize, shared_deg: f64, from: Point) -> Option<OpenSeen> {
    let OpenSighting::Bearing(sighting) = scene.sightings.get(index)? else { return None };
    let own_deg = scene.trust.own_deg(sighting.spread_deg);
    let read_deg = wrap_deg(scene.norths.to_plane_deg(sighting.reading, from));
    let of = |landmark: &Landmark| {
        let mark = Mark { at: landmark.at, spread_m: landmark.spread_m };
        OpenSeen {
            sighting: index,
            measured: Measured::Bearing,
            landmark: landmark.name.clone(),
            read: read_deg,
            residual: signed_difference_deg(read_deg, direction(&mark, from).0),
            spread: own_deg.hypot(shared_deg).hypot(mark.spread_deg(from)),
            distance_m: landmark.at.minus(from).length_m(),
        }
    };
    sighting.candidates.iter().map(of).min_by(|a, b| a.sigmas().total_cmp(&b.sigmas()))
}

impl OpenSighting<'_> {
    /// The word for its kind.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Bearing(_) => Measured::Bearing.word(),
            Self::Angle { .. } => Measured::Angle.word(),
            Self::Distance { .. } => Measured::Distance.word(),
            Self::Ground(_) => "",
        }
    }

    /// The landmark's name; both of an angle, all that may have been sighted; an independent place as it was told; empty for the ground.
    #[must_use]
    pub fn name(&self) -> String {
        let names = |all: &[&Landmark]| all.iter().map(|one| one.name.as_str()).collect::<Vec<_>>().join(" / ");
        match self {
            Self::Bearing(bearing) => names(&bearing.candidates.iter().collect::<Vec<_>>()),
            Self::Angle { left, right, .. } => names(&[left, right]),
            Self::Distance { landmark, .. } => names(&[landmark]),
            Self::Ground(ground) => ground.witness.map_or_else(String::new, |witness| witness.of.to_owned()),
        }
    }
}
