//! The odds of each slip: how much better the readings are foretold with it, times how often it happens.

use super::elsewhere::{Beside, other_lines};
use super::kinds::{Slip, SlipKind, Slips};
use super::meant::{self, Meant};
use super::odds::{DEFLECTED_DEG, EXPOSED_SIGMAS, Found, Like, WRONG_BESIDE_SLIPS, of_all, shows, spread, told};
use super::then::{Change, then};
use super::together;
use super::turned::{Turned, turned};
use crate::fix::fit::fit_of;
use crate::fix::odds::LineOdds;
use crate::fix::scene::{Choice, Scene};
use crate::fix::steps::Steps;
use crate::fix::weigh::{Weighed, ln_evidence_on, prepared, weigh};
use crate::fix::{BearingSighting, Fits, GroundSighting, Sighting, SlipOfFix, Stretch, Table, told_apart};
use crate::measure::{Point, signed_difference_deg};
use crate::sheet::Landmark;

/// Places on each line at which slips are weighed.
pub(super) const PLACES: f64 = 1_500.0;
/// Fewer readings of a compass are not turned alike: one may be misread.
const LEAST_TURNED: usize = 2;
/// Of more sightings than these only those that are off by most are asked for slips one by one.
const MOST_ASKED: usize = 12;
/// Places that the rest of the sightings leave with less than this share of their peak are passed over.
const LEAST_OF_PEAK: f64 = 1e-6;

/// Weighs every known slip against what was observed: among them that one stands on a line beside those of the scene. With a single
/// sighting nothing can show.
#[must_use]
pub fn slips(scene: &Scene<'_>, landmarks: &[Landmark], best: &Stretch, beside: Option<&Beside<'_>>) -> Slips {
    let (others, on_others) = beside.map_or_else(Default::default, |beside| other_lines(scene, beside));
    let Some(weigher) = Weigher::new(scene) else { return Slips { none: 1.0, on_others, ..Slips::default() } };
    Slips { on_others, ..weigher.slips(landmarks, best, others) }
}

/// The likelier slips of a scene if an independent place is right, that place being asked too.
#[must_use]
pub fn slips_beside_place(scene: &Scene<'_>, landmarks: &[Landmark], best: &Stretch, place: GroundSighting) -> Vec<SlipOfFix> {
    let mut with = scene.clone();
    with.sightings.push(Sighting::Ground(place));
    let Some((weigher, without)) = Weigher::new(&with).zip(ln_evidence(scene)) else { return Vec::new() };
    let as_told = (weigher.ln_evidence - without).min(600.0).exp();
    weigher.slips(landmarks, best, Vec::new()).standings(|one| one.share * as_told)
}

fn ln_evidence(scene: &Scene<'_>) -> Option<f64> {
    let scene = Scene { wrong_share: WRONG_BESIDE_SLIPS, ..scene.clone() };
    weigh(&scene, &steps(&scene)).map(|weighed| weighed.ln_evidence)
}

fn steps(scene: &Scene<'_>) -> Vec<Steps> {
    scene.lines.iter().map(|choice: &Choice<'_>| Steps::coarse(choice.line, PLACES)).collect()
}

/// The bearings of a scene with their numbers.
fn bearings<'b>(scene: &'b Scene<'_>) -> impl Iterator<Item = (usize, &'b BearingSighting)> {
    let bearing = |(index, one): (usize, &'b Sighting)| if let Sighting::Bearing(bearing) = one { Some((index, bearing)) } else { None };
    scene.sightings.iter().enumerate().filter_map(bearing)
}

/// The sightings that are asked for slips one by one: of many, those that are off by most from the likeliest place.
fn asked(scene: &Scene<'_>, best: &Stretch) -> Vec<usize> {
    let mut all: Vec<usize> = (0..scene.sightings.len()).collect();
    if all.len() <= MOST_ASKED {
        return all;
    }
    let lines = prepared(scene);
    let off = |index: usize| lines.get(best.line).and_then(|line| fit_of(line, best.best, index, None)).map_or(0.0, |fit| fit.sigmas);
    let offs: Vec<f64> = (0..all.len()).map(off).collect();
    let of = |index: usize| offs.get(index).copied().unwrap_or(0.0);
    all.sort_by(|a, b| of(*b).total_cmp(&of(*a)));
    all.truncate(MOST_ASKED);
    all
}

struct Weigher<'a> {
    scene: Scene<'a>,
    steps: Vec<Steps>,
    /// What each sighting is of, told apart.
    names: Vec<String>,
    ln_evidence: f64,
}

impl<'a> Weigher<'a> {
    fn new(scene: &Scene<'a>) -> Option<Self> {
        if scene.sightings.len() < 2 {
            return None;
        }
        let mut scene = scene.clone();
        scene.wrong_share = WRONG_BESIDE_SLIPS;
        let steps = steps(&scene);
        let ln_evidence = weigh(&scene, &steps)?.ln_evidence;
        let names = told_apart(scene.sightings.iter().enumerate().map(|(index, one)| (index, one.word(), one.named())));
        Some(Self { scene, steps, names, ln_evidence })
    }

    /// All slips with their odds, among them others that were weighed already.
    fn slips(&self, landmarks: &[Landmark], best: &Stretch, others: Vec<Found<Change>>) -> Slips {
        let scene = &self.scene;
        let repeated = together::repeated(bearings(scene), |own| scene.trust.own_deg(own));
        let mut found: Vec<Found<Change>> = Vec::new();
        let of_two = together::of_two(&repeated);
        for made in asked(scene, best).into_iter().map(|index| vec![index]).chain(repeated).chain(of_two) {
            found.extend(self.made_in(&made, landmarks));
        }
        found.extend(self.shared(best.best.at));
        found.extend(others);
        told(found, &scene.trust, |change| then(scene, &self.steps, change))
    }

    /// How many times better everything is foretold with other sightings.
    fn gain(&self, sightings: Vec<Sighting>) -> Option<f64> {
        let scene = Scene { sightings, ..self.scene.clone() };
        weigh(&scene, &self.steps).map(|weighed| (weighed.ln_evidence - self.ln_evidence).min(600.0).exp())
    }

    /// The same for other readings of one sighting: only where the rest of the sightings leave one can they change anything.
    fn gain_where(&self, sightings: Vec<Sighting>, rest: &Weighed) -> Option<f64> {
        let scene = Scene { sightings, ..self.scene.clone() };
        let peak = rest.lines.iter().map(|line| line.odds.peak()).fold(0.0, f64::max);
        let likely = |line: &LineOdds| {
            let entries = line.odds.per_m.iter().enumerate();
            entries.filter(|(_, density)| **density > peak * LEAST_OF_PEAK).map(|(index, _)| index).collect::<Vec<_>>()
        };
        let kept: Vec<Vec<usize>> = rest.lines.iter().map(likely).collect();
        let steps_m: Vec<f64> = rest.lines.iter().map(|line| line.odds.step_m).collect();
        ln_evidence_on(&scene, &steps_m, &kept).map(|ln_evidence| (ln_evidence - self.ln_evidence).min(600.0).exp())
    }

    /// The slips that may have been made in a sighting, or in several readings of one thing alike.
    fn made_in(&self, made: &[usize], landmarks: &[Landmark]) -> Vec<Found<Change>> {
        let first = made.first().and_then(|first| self.scene.sightings.get(*first));
        let Some((sighting, (rest, middle))) = first.zip(self.without(made)) else { return Vec::new() };
        let all = meant::of_sighting(sighting, landmarks, middle, self.scene.norths);
        all.into_iter().filter_map(|meant| self.one(made, sighting, meant, &rest)).collect()
    }

    /// The different things that some sightings are of.
    fn things(&self, made: &[usize]) -> Vec<String> {
        let mut all: Vec<String> = made.iter().filter_map(|index| self.scene.sightings.get(*index)).map(Sighting::named).collect();
        all.dedup();
        all
    }

    /// The odds without some of the sightings, and the middle of them.
    fn without(&self, some: &[usize]) -> Option<(Weighed, Point)> {
        let mut fewer = self.scene.clone();
        let all = std::mem::take(&mut fewer.sightings).into_iter().enumerate();
        fewer.sightings = all.filter(|(index, _)| !some.contains(index)).map(|(_, one)| one).collect();
        let weighed = weigh(&fewer, &self.steps)?;
        let middle = self.places(&weighed).max_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, ..)| at)?;
        Some((weighed, middle))
    }

    /// Places of all lines with their probability and their distance along.
    fn places<'b>(&'b self, weighed: &'b Weighed) -> impl Iterator<Item = (Point, f64, f64)> + 'b {
        self.scene.lines.iter().zip(&weighed.lines).flat_map(|(choice, one)| {
            let place = move |(index, density): (usize, &f64)| {
                let along_m = one.odds.along_m(index);
                (choice.line.at(along_m).at, density * one.odds.step_m, along_m)
            };
            one.odds.per_m.iter().enumerate().filter(|(_, density)| **density > 0.0).map(place)
        })
    }

    fn one(&self, made: &[usize], sighting: &Sighting, meant: Meant, rest: &Weighed) -> Option<Found<Change>> {
        let (first, again) = made.split_first()?;
        let mut sightings = self.scene.sightings.clone();
        for index in again {
            let (Sighting::Bearing(other), Sighting::Bearing(bearing)) = (sightings.get(*index)?, &meant.sighting) else { return None };
            *sightings.get_mut(*index)? = Sighting::Bearing(meant::again(&meant.kind, meant.read?.0, bearing, other)?);
        }
        *sightings.get_mut(*first)? = meant.sighting.clone();
        let things = self.things(made);
        let share = if again.is_empty() { 1.0 } else { meant.kind.chance_again_in(things.len())? };
        let prior = share * meant.kind.chance() / meant.among;
        let foretold = meant.kind.per_told().powi(i32::try_from(made.len()).ok()?);
        let weight = prior * foretold * self.gain_where(sightings.clone(), rest)?;
        let name = if again.is_empty() { self.names.get(*first).cloned() } else { Some(things.join(", ")) };
        let (told, read) = meant.read.unzip();
        let (shift, written) = match (&meant.kind, sighting, &meant.sighting) {
            (SlipKind::Misplaced(_), Sighting::Ground(told), Sighting::Ground(other)) => (self.off_m(told, rest).0, other.of.clone()),
            _ => (meant.shift, String::new()),
        };
        let slip = Slip {
            sighting: Some(*first),
            again: again.to_vec(),
            of: name.unwrap_or_default(),
            told,
            meant: read,
            written,
            exposed: shift >= EXPOSED_SIGMAS * self.foretold_spread(sighting, rest),
            ..of_all(meant.kind, false)
        };
        Some(Found { slip, prior, weight, like: Like::Sighting(meant.sighting), change: Change::Read(sightings) })
    }

    /// One sigma with which the other sightings foretell a reading: degrees, or metres for a distance.
    fn foretold_spread(&self, sighting: &Sighting, from: &Weighed) -> f64 {
        match sighting {
            Sighting::Bearing(bearing) => {
                let Some(mark) = bearing.candidates.first() else { return f64::INFINITY };
                let spread_deg = self.turned_spread_deg(mark.at, from);
                let own_deg = bearing.spread_deg.unwrap_or(self.scene.trust.reading_spread_deg);
                spread_deg.hypot(own_deg).hypot(self.scene.trust.shared_spread_deg)
            }
            Sighting::Measured(measured) => self.along_spread_m(from).hypot(measured.own_m()),
            Sighting::Here { spread_m, .. } => self.along_spread_m(from).hypot(*spread_m),
            Sighting::Angle { left, right, spread_deg, .. } => {
                let marks_deg = self.turned_spread_deg(left.at, from).hypot(self.turned_spread_deg(right.at, from));
                marks_deg.hypot(spread_deg.unwrap_or(2f64.sqrt() * self.scene.trust.reading_spread_deg))
            }
            // A side has two answers: it shows when the others leave no doubt which is right.
            Sighting::Side { .. } => 45.0,
            Sighting::Running(running) => {
                let own_deg = running.spread_deg.unwrap_or(self.scene.trust.reading_spread_deg);
                self.turned_spread_deg(running.landmark.at, from).hypot(2f64.sqrt() * own_deg).hypot(self.scene.trust.shared_spread_deg)
            }
            Sighting::Ground(ground) => self.off_m(ground, from).1,
            Sighting::LineRun { .. } | Sighting::Seen { .. } => f64::INFINITY,
        }
    }

    /// By how much what is told in metres is off on the mean, and one sigma of that with its own error.
    fn off_m(&self, ground: &GroundSighting, from: &Weighed) -> (f64, f64) {
        let Fits::Metres { off, spread: own } = &ground.fits else { return (0.0, f64::INFINITY) };
        let over_places = |tables: &[Table]| {
            let lines = from.lines.iter().zip(tables);
            let at = |(line, table): (&LineOdds, &Table)| {
                let shares = line.odds.per_m.iter().map(|density| density * line.odds.step_m).enumerate();
                shares
                    .filter(|(_, share)| *share > 0.0)
                    .map(|(index, share)| (table.at(line.odds.along_m(index)), share))
                    .collect::<Vec<_>>()
            };
            lines.flat_map(at).collect::<Vec<(f64, f64)>>()
        };
        let mean = |all: &[(f64, f64)]| all.iter().map(|(value, share)| value * share).sum::<f64>();
        let off = over_places(off);
        (mean(&off), spread(&off).hypot(mean(&over_places(own))))
    }

    fn along_spread_m(&self, from: &Weighed) -> f64 {
        spread(&self.places(from).map(|(_, share, along_m)| (along_m, share)).collect::<Vec<_>>())
    }

    fn turned_spread_deg(&self, mark: Point, from: &Weighed) -> f64 {
        let about_deg = self.places(from).max_by(|a, b| a.1.total_cmp(&b.1)).map_or(0.0, |(at, ..)| mark.minus(at).bearing_deg());
        let turn = |(at, share, _): (Point, f64, f64)| (signed_difference_deg(mark.minus(at).bearing_deg(), about_deg), share);
        spread(&self.places(from).map(turn).collect::<Vec<_>>())
    }

    /// Slips that all readings share: the norths mixed up, a needle that was turned.
    fn shared(&self, at: Point) -> Vec<Found<Change>> {
        let all = turned(&self.scene.sightings, self.scene.norths, at);
        let mut all: Vec<Found<Change>> = all.into_iter().filter_map(|one| self.turned(one)).collect();
        all.extend(self.deflected());
        all.extend(self.together());
        all
    }

    /// Slips of several sightings at once, each of which shows by how much better everything fits.
    fn together(&self) -> Vec<Found<Change>> {
        let sightings = &self.scene.sightings;
        let faced = together::faced_other_way(sightings).map(|turned| (SlipKind::FacedOtherWay, turned, 1.0));
        let reversed = together::all_reversed(sightings).map(|turned| (SlipKind::AllReversed, turned, 1.0));
        let feet = together::all_in_feet(sightings).map(|meant| (SlipKind::Feet, meant, 1.0));
        let pairs = together::exchanged_marks(sightings);
        let among = pairs.len() as f64;
        let exchanged = pairs.into_iter().map(|(kind, sightings)| (kind, sightings, among));
        let found = |(kind, sightings, among): (SlipKind, Vec<Sighting>, f64)| {
            let (prior, gain) = (kind.chance() / among, self.gain(sightings.clone())?);
            Some(Found {
                slip: of_all(kind, shows(gain)),
                prior,
                weight: prior * gain,
                like: Like::Nothing,
                change: Change::Read(sightings),
            })
        };
        faced.into_iter().chain(reversed).chain(feet).chain(exchanged).filter_map(found).collect()
    }

    fn turned(&self, Turned { kind, told, by_deg, sightings }: Turned) -> Option<Found<Change>> {
        let prior = kind.chance() / 2.0;
        let weight = prior * self.gain(sightings.clone())?;
        let exposed = by_deg.abs() >= EXPOSED_SIGMAS * self.shared_deg();
        Some(Found { slip: of_all(kind, exposed), prior, weight, like: Like::Turned(told, by_deg), change: Change::Read(sightings) })
    }

    fn shared_deg(&self) -> f64 {
        self.scene.trust.shared_spread_deg.hypot(self.scene.norths.declination_spread_deg())
    }

    /// Metal near turns every reading of a compass; of one alone nobody can say that.
    fn deflected(&self) -> Option<Found<Change>> {
        if self.scene.sightings.iter().filter(|sighting| is_by_compass(sighting)).count() < LEAST_TURNED {
            return None;
        }
        let mut wide = self.scene.clone();
        wide.trust.shared_spread_deg = DEFLECTED_DEG;
        let gain = (weigh(&wide, &self.steps)?.ln_evidence - self.ln_evidence).min(600.0).exp();
        let kind = SlipKind::Deflected;
        let prior = kind.chance();
        let exposed = DEFLECTED_DEG >= EXPOSED_SIGMAS * self.shared_deg();
        Some(Found { slip: of_all(kind, exposed), prior, weight: prior * gain, like: Like::AnyTurn, change: Change::Turned(DEFLECTED_DEG) })
    }
}

fn is_by_compass(sighting: &Sighting) -> bool {
    matches!(sighting, Sighting::Bearing(_) | Sighting::Running(_) | Sighting::LineRun { .. })
}
