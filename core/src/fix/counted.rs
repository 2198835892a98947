//! Distances counted along a line: those of one instrument share the error of its scale.

use super::plain::{WRONG_PLACE, or_wrong};
use super::scene::Scene;
use super::{Figure, MeasuredSighting, Way};
use crate::measure::{normal_between, normal_density, normal_nodes};
use crate::sheet::Line;

/// Between two places at which a likelihood is summed over another line, metres.
const SUM_STEP_M: f64 = 2.0;
/// Half of the variance of a pace count is the walker's pace, the same in every count of the day, half the count's own (common practice,
/// no source). That of a trip meter is all of the tyre's and the gear's.
const SHARED_OF_PACES: f64 = 0.5;
/// Places at which the shared error is summed out: four a sigma.
const NODES: usize = 37;
/// What is off by more of its sigmas than this is plainly wrong, or not of this place.
const FAR_SIGMAS: f64 = 12.0;

/// Where a distance was counted from, and which way: on a ring each also a round earlier and later; and how many there are.
#[derive(Debug, Clone)]
struct Starts {
    from_m: Vec<(f64, Way)>,
    count: f64,
}

/// A distance on a line that has the point it was counted from.
#[derive(Debug, Clone)]
struct Count<'a> {
    sighting: usize,
    starts: Starts,
    measured: &'a MeasuredSighting,
}

/// The distances of one instrument on one line.
#[derive(Debug, Clone)]
pub(super) struct Counted<'a> {
    all: Vec<Count<'a>>,
    even: f64,
}

/// What a distance leaves at a place: the share of a start, the middle of the reading minus the truth, and one sigma of the scale there, metres.
struct Left {
    share: f64,
    off_m: f64,
    spread_m: f64,
}

impl<'a> Counted<'a> {
    /// Those of the distances that have their point on the line.
    pub(super) fn on(distances: &[(usize, &'a MeasuredSighting)], line_index: usize, line: &Line, even: f64) -> Self {
        let count = |(sighting, measured): &(usize, &'a MeasuredSighting)| {
            let on = || measured.from.iter().filter(|(spot, _)| spot.line == line_index);
            let from_m: Vec<(f64, Way)> = on().flat_map(|(spot, way)| line.passes_m(spot.along_m).map(|along_m| (along_m, *way))).collect();
            let starts = Starts { from_m, count: on().count() as f64 };
            (starts.count > 0.0).then_some(Count { sighting: *sighting, starts, measured })
        };
        Self { all: distances.iter().filter_map(count).collect(), even }
    }

    pub(super) fn sightings(&self) -> Vec<usize> {
        self.all.iter().map(|one| one.sighting).collect()
    }

    /// The likelihood of all at a distance along the line; without one of the sightings, that of the others. A display of which it is not
    /// known which figure it shows may do either, and does the same in all of its readings.
    pub(super) fn at(&self, along_m: f64, without: Option<usize>) -> f64 {
        let counts: Vec<&Count<'_>> = self.all.iter().filter(|one| Some(one.sighting) != without).collect();
        let unknown = counts.iter().any(|one| one.measured.figure() == Figure::Unknown);
        let ways = if unknown { Figure::Unknown } else { Figure::Nearest }.ways();
        ways.iter().map(|(figure, chance)| chance * self.given(&counts, along_m, *figure)).sum()
    }

    /// The same if a display shows figures in one way where that is not known.
    fn given(&self, counts: &[&Count<'_>], along_m: f64, figure: Figure) -> f64 {
        match counts {
            [] => 1.0,
            [only] => {
                let fits: f64 = only.left(along_m, figure).map(|left| left.share * alone(only.measured, &left)).sum();
                or_wrong(fits, self.even)
            }
            several if several.iter().all(|one| one.measured.step_m() > 0.0) => self.of_steps(several, along_m, figure),
            several => self.of_paces(several, along_m),
        }
    }

    /// The mean of that over the lines that have the points: with it, the silence of another line neither favours it nor speaks against it.
    pub(super) fn mean(scene: &Scene<'_>, distances: &[(usize, &MeasuredSighting)], even: f64) -> f64 {
        let (mut sum, mut mass) = (0.0, 0.0);
        for ((index, choice), prior) in scene.lines.iter().enumerate().zip(scene.prior_per_m()) {
            let on = Counted::on(distances, index, choice.line, even);
            if on.all.len() == distances.len() {
                let places = (choice.line.length_m() / SUM_STEP_M).ceil();
                let step_m = choice.line.length_m() / places;
                let along = (0..places as usize).map(|place| (place as f64 + 0.5) * step_m);
                sum += along.map(|along_m| prior * step_m * on.at(along_m, None)).sum::<f64>();
                mass += prior * choice.line.length_m();
            }
        }
        if mass > 0.0 { sum / mass } else { even.powi(distances.len() as i32) }
    }

    /// What was measured minus how far it is from the point that it fits best, metres, and how many of its sigmas that is more than the
    /// half step of its display; nothing when it was gone the other way.
    pub(super) fn off(&self, sighting: usize, along_m: f64) -> Option<(f64, f64)> {
        let count = self.all.iter().find(|one| one.sighting == sighting)?;
        let beyond = |left: &Left| (left.off_m.abs() - count.measured.step_m() / 2.0).max(0.0) / left.spread_m;
        let ways = count.measured.figure().ways().iter().flat_map(|(figure, _)| count.left(along_m, *figure));
        let offs = ways.map(|left| (left.off_m, beyond(&left)));
        offs.min_by(|one, other| one.1.total_cmp(&other.1))
    }

    /// Displays in steps: the error of the scale lies between two bounds for each of them.
    fn of_steps(&self, counts: &[&Count<'_>], along_m: f64, figure: Figure) -> f64 {
        let boxes = |one: &&Count<'_>| {
            let step_m = one.measured.step_m();
            let half_m = step_m / 2.0;
            let bounds =
                move |left: Left| ((left.off_m - half_m) / left.spread_m, (left.off_m + half_m) / left.spread_m, left.share / step_m);
            one.left(along_m, figure).map(bounds).collect::<Vec<_>>()
        };
        let all: Vec<Vec<(f64, f64, f64)>> = counts.iter().map(boxes).collect();
        let mut bounds: Vec<f64> = all.iter().flatten().flat_map(|(low, high, _)| [*low, *high]).collect();
        bounds.extend([f64::NEG_INFINITY, f64::INFINITY]);
        bounds.sort_unstable_by(f64::total_cmp);
        let part = |pair: &[f64]| {
            let [low, high] = pair else { return 0.0 };
            let fits = |one: &Vec<(f64, f64, f64)>| {
                let within = one.iter().filter(|(from, to, _)| from <= low && to >= high);
                or_wrong(within.map(|(_, _, density)| density).sum(), self.even)
            };
            normal_between(*low, *high) * all.iter().map(fits).product::<f64>()
        };
        bounds.windows(2).map(part).sum()
    }

    /// Counts without steps: each has an error of its own beside the one of the pace.
    fn of_paces(&self, counts: &[&Count<'_>], along_m: f64) -> f64 {
        let left: Vec<Vec<Left>> = counts.iter().map(|one| one.left(along_m, Figure::Nearest).collect()).collect();
        if left.iter().all(|one| one.iter().all(|left| left.off_m.abs() > FAR_SIGMAS * left.spread_m)) {
            return (WRONG_PLACE * self.even).powi(counts.len() as i32);
        }
        let (shared, own) = (SHARED_OF_PACES.sqrt(), (1.0 - SHARED_OF_PACES).sqrt());
        let given = |scale: f64| {
            let fits = |one: &Vec<Left>| {
                let density = |left: &Left| left.share * normal_density(left.off_m - shared * scale * left.spread_m, own * left.spread_m);
                or_wrong(one.iter().map(density).sum(), self.even)
            };
            left.iter().map(fits).product::<f64>()
        };
        normal_nodes(1.0, NODES).iter().map(|(scale, weight)| weight * given(*scale)).sum()
    }
}

impl Count<'_> {
    /// From each of its starts that the place may be reached from, if its display shows figures in one way where that is not known.
    fn left(&self, along_m: f64, if_unknown: Figure) -> impl Iterator<Item = Left> + '_ {
        let figure = if self.measured.figure() == Figure::Unknown { if_unknown } else { self.measured.figure() };
        let middle_m = self.measured.middle_if_m(figure);
        self.starts.from_m.iter().filter_map(move |(from_m, way)| {
            let onward_m = along_m - from_m;
            let share = match way {
                Way::Onward => f64::from(u8::from(onward_m >= 0.0)),
                Way::Backward => f64::from(u8::from(onward_m <= 0.0)),
                Way::Either => 0.5,
            };
            let truth_m = onward_m.abs();
            let spread_m = (truth_m * self.measured.scale_share).max(1e-6);
            let left = Left { share: share / self.starts.count, off_m: middle_m - truth_m, spread_m };
            (share > 0.0).then_some(left)
        })
    }
}

/// Density of a reading alone.
fn alone(measured: &MeasuredSighting, left: &Left) -> f64 {
    let step_m = measured.step_m();
    if step_m <= 0.0 {
        return normal_density(left.off_m, left.spread_m);
    }
    normal_between((left.off_m - step_m / 2.0) / left.spread_m, (left.off_m + step_m / 2.0) / left.spread_m) / step_m
}
