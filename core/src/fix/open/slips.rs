//! Which known slip explains what was observed in the open.

use super::equation::equations;
use super::likelihood::Likelihood;
use super::odds::OpenOdds;
use super::otherwise::{Otherwise, off_m, otherwise};
use super::region::regions;
use super::scene::{OpenGround, OpenScene, OpenSighting};
use super::take::OpenFix;
use super::turn::turn_spread_deg;
use crate::fix::check::normal_plane;
use crate::fix::slip::{
    DEFLECTED_DEG, EXPOSED_SIGMAS, Found, Like, Turned, WRONG_BESIDE_SLIPS, again, all_reversed, exchanged_marks, of_all, of_two, repeated,
    shows, spread, told, turned,
};
use crate::fix::{BearingSighting, Sighting, Slip, SlipKind, SlipOfFix, Slips, Then, ThenPlace, There, told_apart, witness_likelihood};
use crate::measure::{Covariance, Point, signed_difference_deg};
use crate::sheet::Landmark;

/// A place that the rest of the sightings leaves, its area in square metres and its share.
type Kept = (Point, f64, f64);

/// Places that the rest of the sightings leave with less than this share of their peak are passed over.
const LEAST_OF_PEAK: f64 = 1e-6;
/// At most so many sightings are asked one by one.
const MOST_ASKED: usize = 12;

/// Weighs every known slip of bearings, angles, distances and heights against what was observed. With a single sighting nothing can show.
///
/// # Accuracy
/// The odds are summed over coarse cells: to about a tenth of their ratio.
#[must_use]
pub fn open_slips(scene: &OpenScene<'_>, landmarks: &[Landmark], fix: &OpenFix) -> Slips {
    let (best, turned) = (fix.at, fix.shared_turn.as_ref().map(|turn| (turn.turn_deg, turn.spread_deg)));
    let none = Slips { none: 1.0, ..Slips::default() };
    let observed = scene.sightings.iter().filter(|one| !matches!(one, OpenSighting::Ground(ground) if ground.implied)).count();
    if observed < 2 {
        return none;
    }
    let Some(whole) = odds(scene).map(|odds| odds.whole) else { return none };
    let all = equations(scene);
    let turn_spread_deg = turn_spread_deg(&all.iter().collect::<Vec<_>>(), scene.near, &scene.bounds);
    let names = told_apart(scene.sightings.iter().enumerate().map(|(index, one)| (index, one.word(), one.name())));
    let weigher = Weigher { scene, whole, names, turn_spread_deg };
    let mut found: Vec<Found<OpenScene<'_>>> = Vec::new();
    let bearings = scene.sightings.iter().enumerate().filter_map(|(index, one)| Some((index, read(one)?)));
    let repeated = repeated(bearings, |own| scene.trust.own_deg(own));
    let of_two = of_two(&repeated);
    for made in asked(fix, &scene.sightings).into_iter().map(|index| vec![index]).chain(repeated).chain(of_two) {
        found.extend(weigher.made_in(&made, landmarks));
    }
    found.extend(weigher.shared(best));
    let mut slips = told(found, &scene.trust, |scene| then(&scene));
    for slip in slips.found.iter_mut().filter(|slip| slip.kind == SlipKind::Deflected) {
        // The turn is told where the bearings alone leave no doubt about it.
        slip.then.iter_mut().for_each(|then| then.turned_deg = turned);
    }
    slips
}

/// The likelier slips of a fix in the open if an independent place is right, that place being asked too; and what the fix says of that place.
#[must_use]
pub fn open_slips_beside_place(
    scene: &OpenScene<'_>,
    landmarks: &[Landmark],
    fix: &OpenFix,
    (place, spread_m): (Point, f64),
) -> (Vec<SlipOfFix>, There) {
    let tells = |at: Point| witness_likelihood(place.minus(at), spread_m);
    let is_right = |at: Point| normal_plane(place.minus(at), Covariance::default(), spread_m);
    let (with_place, as_told) = with(scene, &tells, (place, spread_m));
    let (_, if_right) = with(scene, &is_right, (place, spread_m));
    let in_places: f64 = fix.standings().iter().map(|one| one.density_of(place, spread_m)).sum();
    let there = There { elsewhere: (if_right - in_places).max(0.0), beside: 0.0 };
    (open_slips(&with_place, landmarks, fix).standings(|one| one.share * as_told), there)
}

/// A scene with a likelihood about a place, and the density with which the scene foretells that.
fn with<'b>(scene: &OpenScene<'b>, likelihood: &'b dyn Fn(Point) -> f64, (place, spread_m): (Point, f64)) -> (OpenScene<'b>, f64) {
    let most = likelihood(place);
    let mut with = scene.clone();
    let ground = OpenGround { falls_from: Some(place), ..OpenGround::of(likelihood, most, spread_m / 2.0) };
    with.sightings.push(OpenSighting::Ground(ground));
    // Where no sighting allows the place, nothing puts one there.
    let density = odds(&with).zip(odds(scene)).map_or(0.0, |(with, without)| most * with.whole / without.whole);
    (with, density)
}

/// The sightings that are asked one by one: of several of one thing the one that is off by most sigmas, and of many things the worst.
fn asked(fix: &OpenFix, sightings: &[OpenSighting<'_>]) -> Vec<usize> {
    let off = |index: usize| fix.seen.iter().filter(|one| one.sighting == index).map(|one| one.sigmas()).fold(0.0, f64::max);
    let mut all: Vec<usize> = (0..sightings.len()).collect();
    all.sort_by(|a, b| off(*b).total_cmp(&off(*a)));
    let mut things: Vec<(&str, String)> = Vec::new();
    all.retain(|index| {
        let thing = sightings.get(*index).map(|one| (one.word(), one.name())).unwrap_or_default();
        let is_new = !things.contains(&thing);
        things.push(thing);
        is_new
    });
    all.truncate(MOST_ASKED);
    all
}

fn odds(scene: &OpenScene<'_>) -> Option<OpenOdds> {
    OpenOdds::rough(&Likelihood::new(scene, &equations(scene), WRONG_BESIDE_SLIPS), &scene.bounds)
}

/// The likeliest region of a scene.
fn then(scene: &OpenScene<'_>) -> Option<Then> {
    let region = regions(&odds(scene)?).regions.into_iter().next()?;
    Some(Then { place: ThenPlace::InTheOpen(region), turned_deg: None })
}

struct Weigher<'a, 'b> {
    scene: &'a OpenScene<'b>,
    whole: f64,
    /// What each sighting is of, told apart.
    names: Vec<String>,
    /// One sigma with which the bearings tell a turn that they share, degrees.
    turn_spread_deg: f64,
}

impl<'b> Weigher<'_, 'b> {
    /// The scene with a slip undone in one sighting, or in several readings of one thing.
    fn undone(&self, made: &[usize], meant: &Otherwise<'b>) -> Option<OpenScene<'b>> {
        let (first, others) = made.split_first()?;
        let mut scene = self.scene.clone();
        for index in others {
            let other = again(&meant.kind, meant.read?.0, read(&meant.sighting)?, read(scene.sightings.get(*index)?)?)?;
            *scene.sightings.get_mut(*index)? = OpenSighting::Bearing(other);
        }
        *scene.sightings.get_mut(*first)? = meant.sighting.clone();
        Some(scene)
    }

    /// The slips of a sighting, or of several readings of one thing alike, weighed where the other sightings leave a place.
    fn made_in(&self, made: &[usize], landmarks: &[Landmark]) -> Vec<Found<OpenScene<'b>>> {
        let Some(sighting) = made.first().and_then(|first| self.scene.sightings.get(*first)) else { return Vec::new() };
        if matches!(sighting, OpenSighting::Ground(ground) if ground.in_feet.is_none() && ground.with_slips().next().is_none()) {
            return Vec::new();
        }
        let mut rest = self.scene.clone();
        let all = std::mem::take(&mut rest.sightings).into_iter().enumerate();
        rest.sightings = all.filter(|(index, _)| !made.contains(index)).map(|(_, one)| one).collect();
        let Some(rest) = odds(&rest) else { return Vec::new() };
        let least = rest.peak() * LEAST_OF_PEAK;
        let kept: Vec<Kept> =
            rest.cells.iter().filter(|cell| cell.per_m2 > least).map(|cell| (cell.at, cell.area_m2(), cell.share())).collect();
        let Some((from, ..)) = kept.first().copied() else { return Vec::new() };
        let spread = self.foretold(sighting, &kept);
        let all = otherwise(sighting, landmarks, from, self.scene.norths);
        all.into_iter().filter_map(|meant| self.one(made, meant, (&kept, spread))).collect()
    }

    fn one(&self, made: &[usize], meant: Otherwise<'b>, (kept, (off, spread)): (&[Kept], (f64, f64))) -> Option<Found<OpenScene<'b>>> {
        let scene = self.undone(made, &meant)?;
        let (first, others) = made.split_first()?;
        let slip = if let OpenSighting::Ground(ground) = &meant.sighting { ground.witness.and_then(|witness| witness.slip) } else { None };
        let whole = match slip.and_then(|slip| Some((slip.centre(), slip.reach_m()?))) {
            // It is sharper than the cells that the others leave.
            Some((centre, reach_m)) => {
                let is_near = |(at, area_m2, _): &Kept| at.minus(centre).length_m() <= reach_m + area_m2.sqrt();
                kept.iter().any(is_near).then(|| odds(&scene).map(|odds| odds.whole))??
            }
            None => {
                let equations = equations(&scene);
                let likelihood = Likelihood::new(&scene, &equations, WRONG_BESIDE_SLIPS);
                kept.iter().map(|(at, area_m2, _)| likelihood.at(*at) * area_m2).sum::<f64>()
            }
        };
        let foretold = meant.kind.per_told().powi(i32::try_from(made.len()).ok()?);
        let gain = foretold * whole / self.whole;
        let mut things: Vec<String> = made.iter().filter_map(|index| self.scene.sightings.get(*index)).map(OpenSighting::name).collect();
        things.dedup();
        let share = if others.is_empty() { 1.0 } else { meant.kind.chance_again_in(things.len())? };
        let name = if others.is_empty() { self.names.get(*first).cloned() } else { Some(things.join(", ")) };
        let (told, read) = meant.read.unzip();
        let made = Slip {
            sighting: Some(*first),
            again: others.to_vec(),
            of: name.unwrap_or_default(),
            told,
            meant: read,
            written: slip.map_or_else(String::new, |slip| slip.written.clone()),
            exposed: if slip.is_some() { off } else { meant.shift } >= EXPOSED_SIGMAS * spread,
            ..of_all(meant.kind.clone(), false)
        };
        let prior = share * meant.kind.chance() / meant.among;
        Some(Found { slip: made, prior, weight: prior * gain, like: meant.said.map_or(Like::Nothing, Like::Sighting), change: scene })
    }

    /// One sigma with which the other sightings foretell a bearing or an angle, degrees, or a distance, metres; before it, by how much what is
    /// told in metres is off on the mean.
    fn foretold(&self, sighting: &OpenSighting<'_>, kept: &[Kept]) -> (f64, f64) {
        let usual_deg = self.scene.trust.reading_spread_deg;
        match sighting {
            OpenSighting::Bearing(bearing) => {
                let Some(mark) = bearing.candidates.first() else { return (0.0, f64::INFINITY) };
                let seen = |at: Point| mark.at.minus(at).bearing_deg();
                (0.0, turned_deg(seen, kept).hypot(bearing.spread_deg.unwrap_or(usual_deg)).hypot(self.scene.shared_spread_deg()))
            }
            OpenSighting::Angle { left, right, spread_deg, .. } => {
                let seen = |at: Point| right.at.minus(at).bearing_deg() - left.at.minus(at).bearing_deg();
                (0.0, turned_deg(seen, kept).hypot(spread_deg.unwrap_or(2f64.sqrt() * usual_deg)))
            }
            OpenSighting::Distance { .. } | OpenSighting::Ground(_) => {
                let off: Vec<((f64, f64), f64)> =
                    kept.iter().filter_map(|(at, _, share)| off_m(sighting, *at).map(|off| (off, *share))).collect();
                let total: f64 = off.iter().map(|(_, share)| share).sum();
                let mean = |of: &dyn Fn((f64, f64)) -> f64| off.iter().map(|(one, share)| of(*one) * share).sum::<f64>() / total;
                let spread_m = spread(&off.iter().map(|((off_m, _), share)| (*off_m, *share)).collect::<Vec<_>>());
                (mean(&|(off_m, _)| off_m), spread_m.hypot(mean(&|(_, own_m)| own_m)))
            }
        }
    }

    /// Slips that all readings share: the norths mixed up, a needle that was turned.
    fn shared(&self, at: Point) -> Vec<Found<OpenScene<'b>>> {
        let bearings: Vec<Sighting> = self.scene.sightings.iter().filter_map(read).cloned().map(Sighting::Bearing).collect();
        let feet = self.all_in_feet();
        if bearings.is_empty() {
            return feet.into_iter().collect();
        }
        let one = |one: Turned| {
            let found = self.common(one.kind, 0.5, one.by_deg.abs(), self.read_as(one.sightings))?;
            Some(Found { like: Like::Turned(one.told, one.by_deg), ..found })
        };
        let turned = turned(&bearings, self.scene.norths, at);
        let mut all: Vec<Found<OpenScene<'b>>> = turned.into_iter().filter_map(one).chain(feet).collect();
        let pairs = exchanged_marks(&bearings);
        let part = 1.0 / pairs.len().max(1) as f64;
        let reversed = all_reversed(&bearings).map(|read| (SlipKind::AllReversed, read, 1.0));
        let together = pairs.into_iter().map(|(kind, read)| (kind, read, part)).chain(reversed);
        all.extend(together.filter_map(|(kind, read, part)| self.shown(kind, part, self.read_as(read))));
        if bearings.len() < 2 {
            return all;
        }
        let mut wide = self.scene.clone();
        wide.trust.shared_spread_deg = DEFLECTED_DEG;
        all.extend(self.common(SlipKind::Deflected, 1.0, DEFLECTED_DEG, wide).map(|found| Found { like: Like::AnyTurn, ..found }));
        all
    }

    /// All that was told in metres as if it had been in feet; nothing where fewer than two are told.
    fn all_in_feet(&self) -> Option<Found<OpenScene<'b>>> {
        let mut scene = self.scene.clone();
        let mut count = 0;
        for sighting in &mut scene.sightings {
            if let Some(feet) = sighting.in_feet() {
                (*sighting, count) = (feet, count + 1);
            }
        }
        (count > 1).then(|| self.shown(SlipKind::Feet, 1.0, scene)).flatten()
    }

    /// A slip of several sightings at once, that shows by how much better everything fits.
    fn shown(&self, kind: SlipKind, part: f64, scene: OpenScene<'b>) -> Option<Found<OpenScene<'b>>> {
        let found = self.common(kind, part, 0.0, scene)?;
        let exposed = shows(found.weight / found.prior);
        Some(Found { slip: Slip { exposed, ..found.slip }, ..found })
    }

    fn common(&self, kind: SlipKind, part: f64, shift_deg: f64, scene: OpenScene<'b>) -> Option<Found<OpenScene<'b>>> {
        let prior = kind.chance() * part;
        let weight = prior * odds(&scene)?.whole / self.whole;
        let exposed = shift_deg >= EXPOSED_SIGMAS * self.scene.shared_spread_deg().hypot(self.turn_spread_deg);
        Some(Found { slip: of_all(kind, exposed), prior, weight, like: Like::Nothing, change: scene })
    }

    /// The scene with its bearings read anew, in their order.
    fn read_as(&self, read: Vec<Sighting>) -> OpenScene<'b> {
        let mut read = read.into_iter();
        let mut scene = self.scene.clone();
        for sighting in scene.sightings.iter_mut().filter(|one| matches!(one, OpenSighting::Bearing(_))) {
            if let Some(Sighting::Bearing(other)) = read.next() {
                *sighting = OpenSighting::Bearing(other);
            }
        }
        scene
    }
}

/// One sigma of an angle over the places that are left, degrees.
fn turned_deg(seen_deg: impl Fn(Point) -> f64, kept: &[Kept]) -> f64 {
    let Some((from, ..)) = kept.first() else { return f64::INFINITY };
    let about_deg = seen_deg(*from);
    let turn = |(at, _, share): &Kept| (signed_difference_deg(seen_deg(*at), about_deg), *share);
    spread(&kept.iter().map(turn).collect::<Vec<_>>())
}

fn read<'c>(sighting: &'c OpenSighting<'_>) -> Option<&'c BearingSighting> {
    match sighting {
        OpenSighting::Bearing(bearing) => Some(bearing),
        OpenSighting::Angle { .. } | OpenSighting::Distance { .. } | OpenSighting::Ground(_) => None,
    }
}
