//! Taking a fix: everything observed, weighed along the lines that may be stood on.

use std::collections::BTreeSet;

use super::account::{Account, accounts};
use super::cautions::cautions;
use super::crossing::crossings;
use super::directed::{Group, Ray, off_deg};
use super::nowhere::{refuse_if_all_miss, refuse_if_nothing_fits};
use super::on_line::{LINE_RUN_M, OnLine};
use super::scene::Scene;
use super::sighted;
use super::steps::Steps;
use super::stretch::stretches as told_stretches;
use super::weigh::{Weighing, prepared};
use super::{BearingSighting, Crossing, FixCaution, FixError, Odds, Sighted, Sighting, Stretch};
use crate::earth::Compass;
use crate::measure::NamedBearing;
use crate::sheet::Line;

/// Stretches with a smaller share do not call for finer steps.
const TOLD_SHARE: f64 = 0.01;

/// A line runs otherwise than was read from so many sigmas of a reading on ...
const FAR_SIGMAS: f64 = 3.0;
/// ... at places so far from each other, metres.
const LOOK_EVERY_M: f64 = 50.0;

/// Most sightings of one fix: their joint density then stays within the range of numbers.
const MOST_SIGHTINGS: usize = 60;

/// A fix on one of several lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Fix {
    /// The lines that may be stood on, as the scene has them; never empty.
    pub lines: Vec<FixLine>,
    /// Where one may stand, likeliest first; never empty.
    pub stretches: Vec<Stretch>,
    /// Share of the probability that lies in none of the stretches: the reading is plainly wrong.
    pub elsewhere: f64,
    /// What each bearing said.
    pub sighted: Vec<Sighted>,
    /// What each sighting of any kind gave to the fix.
    pub accounts: Vec<Account>,
    /// How many things tell where one stands, however often each was read: one alone is confirmed by nothing.
    pub things: usize,
    /// What the walker must be told.
    pub cautions: Vec<FixCaution>,
    /// Natural logarithm of the chance of all readings; only differences between fixes on the same lines have a meaning.
    pub ln_evidence: f64,
}

/// One of the lines of a fix.
#[derive(Debug, Clone, PartialEq)]
pub struct FixLine {
    /// Its name.
    pub name: String,
    /// Probability of standing on it.
    pub share: f64,
    /// The probability along it.
    pub odds: Odds,
    /// One sigma across it, metres: the map's own error.
    pub across_spread_m: f64,
}

impl Fix {
    /// The likeliest place.
    #[must_use]
    pub fn best(&self) -> Option<&Stretch> {
        self.stretches.first()
    }

    /// The name of the line that a stretch lies on.
    #[must_use]
    pub fn line_of(&self, stretch: &Stretch) -> &str {
        self.lines.get(stretch.line).map_or("", |line| &line.name)
    }

    /// The name of the likeliest place's line.
    #[must_use]
    pub fn line(&self) -> &str {
        self.best().map_or("", |best| self.line_of(best))
    }

    /// The names of all lines on which there is a stretch, likeliest first.
    #[must_use]
    pub fn lines_told(&self) -> Vec<&str> {
        let mut told: Vec<&str> = Vec::new();
        for name in self.stretches.iter().map(|stretch| self.line_of(stretch)) {
            if !told.contains(&name) {
                told.push(name);
            }
        }
        told
    }
}

/// Takes a fix on the lines of a scene from everything that was observed.
///
/// Each bearing is 98 % normal with its spread (reading, half a graduation of rounding, landmark,
/// line) and 2 % uniform on the circle; the error that the readings share is one normal, summed out, and so are
/// the identity of a landmark that may be one of several, and the map error that readings of one landmark share.
/// Beforehand every metre of all lines is equally likely, unless the walker gives odds.
///
/// # Errors
/// [`FixError`] without a sighting, or when every bearing misses every line and nothing else was observed.
///
/// # References
/// Modified resection: US Army TC 3-25.26 (2013); along the line `d·sigma / sin(cut)`.
pub fn take(scene: &Scene<'_>) -> Result<Fix, FixError> {
    if scene.sightings.len() > MOST_SIGHTINGS {
        return Err(FixError::TooMany(scene.sightings.len()));
    }
    if scene.sightings.is_empty() || scene.lines.is_empty() {
        return Err(FixError::NoSighting);
    }
    let lines: Vec<&Line> = scene.lines.iter().map(|choice| choice.line).collect();
    let prepared = prepared(scene);
    let met: Vec<Met<'_>> = prepared.iter().map(|line| Met::new(scene, line)).collect();
    refuse_if_all_miss(scene, &met)?;
    let steps: Vec<Steps> = met.iter().map(|met| Steps::of(met.line, met.sharpest_m())).collect();
    drop(met);
    let mut weighing = Weighing::new(scene, prepared, &steps, scene.sightings.len() > 1);
    let mut weighed = weighing.weighed().ok_or(FixError::NoSighting)?;
    let (mut stretches, mut elsewhere) = told_stretches(&lines, &weighed);
    let sharpest_m = stretches.iter().filter(|one| one.share > TOLD_SHARE).map(|one| one.spread_m).fold(f64::INFINITY, f64::min);
    let finer: Vec<Steps> = steps.iter().zip(&lines).map(|(steps, line)| steps.finer(line, sharpest_m)).collect();
    if finer != steps {
        // Now it is known where anything matters, and how little the sightings leave there.
        weighing = weighing.finer(&finer, &weighed);
        weighed = weighing.weighed().ok_or(FixError::NoSighting)?;
        (stretches, elsewhere) = told_stretches(&lines, &weighed);
    }
    let best = *stretches.first().ok_or(FixError::NoSighting)?;
    let accounts = accounts(scene, &weighing, &weighed, &best);
    refuse_if_nothing_fits(scene, &accounts, &best)?;
    let on_best = weighing.prepared.get(best.line).map(|line| Met::new(scene, line));
    let sighted = on_best.map(|met| met.sighted(scene, &accounts, &best)).unwrap_or_default();
    let cautions = cautions(&lines, &stretches, (&sighted, &accounts), scene);
    let told = |(line, weighed): (&&Line, super::odds::LineOdds)| FixLine {
        name: line.name.clone(),
        share: weighed.share,
        odds: weighed.odds,
        across_spread_m: line.spread_m,
    };
    let lines = lines.iter().zip(weighed.lines).map(told).collect();
    Ok(Fix { lines, stretches, elsewhere, sighted, accounts, things: things(scene), cautions, ln_evidence: weighed.ln_evidence })
}

/// How many things were observed that tell where one stands: readings of one thing are one, and the run of a line that is the same all
/// along tells nothing.
fn things(scene: &Scene<'_>) -> usize {
    let tells = |sighting: &&Sighting| {
        let Sighting::LineRun { reading, spread_deg } = sighting else { return true };
        scene.lines.iter().any(|choice| turns(scene, choice.line, *reading, *spread_deg))
    };
    let things: BTreeSet<(&str, String)> = scene.sightings.iter().filter(tells).map(|one| (one.word(), one.named())).collect();
    things.len()
}

/// Whether a line runs otherwise than was read somewhere, by more than the reading may be off.
fn turns(scene: &Scene<'_>, line: &Line, reading: NamedBearing, spread_deg: Option<f64>) -> bool {
    let most_deg = FAR_SIGMAS * scene.trust.own_deg(spread_deg).hypot(scene.trust.shared_spread_deg);
    let steps = (line.length_m() / LOOK_EVERY_M).ceil();
    let places = (0..=steps as u32).map(|step| line.at(line.length_m() * f64::from(step) / steps));
    places.into_iter().any(|place| off_deg(line, place, scene.norths.to_plane_deg(reading, place.at)).abs() > most_deg)
}

/// Where the bearings of a scene meet one of its lines.
pub(super) struct Met<'a> {
    pub(super) line: &'a Line,
    groups: &'a [Group<'a>],
    shared_deg: f64,
}

impl<'a> Met<'a> {
    pub(super) fn new(scene: &Scene<'_>, prepared: &'a OnLine<'a>) -> Self {
        let shared_deg = scene.trust.shared_spread_deg.hypot(scene.norths.declination_spread_deg());
        Self { line: prepared.line, groups: &prepared.groups, shared_deg }
    }

    pub(super) fn rays(&self) -> impl Iterator<Item = Ray<'_>> {
        self.groups.iter().flat_map(|group| group.rays(self.shared_deg))
    }

    /// The smallest spread along the line that a single bearing gives, metres.
    fn sharpest_m(&self) -> f64 {
        let sure = self.groups.iter().filter(|group| group.candidates.len() == 1).flat_map(|group| group.rays(self.shared_deg));
        let sure = sure.flat_map(|ray| crossings(self.line, &ray)).map(|crossing| crossing.spread_along_m);
        // Readings of the same things differ only in how sharp they are.
        let unsure = self.groups.iter().filter(|group| group.candidates.len() > 1);
        let own_deg = unsure.clone().map(Group::own_deg).fold(f64::INFINITY, f64::min);
        let unsure = unsure.filter(|group| group.kin == group.number).map(|group| group.sharpest_m(own_deg));
        // A bend turns the line's own run within metres.
        let of_line = self.groups.iter().filter(|group| group.is_of_line()).map(|_| LINE_RUN_M);
        sure.chain(unsure).chain(of_line).fold(f64::INFINITY, f64::min)
    }

    /// Each bearing of the scene as it looks from the best place, to the likeliest of its candidates.
    fn sighted(&self, scene: &Scene<'_>, accounts: &[Account], best: &Stretch) -> Vec<Sighted> {
        let bearing = |(index, sighting): (usize, &Sighting)| match sighting {
            Sighting::Bearing(bearing) => self.one(index, bearing, accounts, best),
            Sighting::Running(running) => {
                let bearing = BearingSighting::to(running.landmark.clone(), running.second, running.spread_deg);
                self.one(index, &bearing, accounts, best)
            }
            Sighting::LineRun { .. }
            | Sighting::Angle { .. }
            | Sighting::Side { .. }
            | Sighting::Seen { .. }
            | Sighting::Here { .. }
            | Sighting::Measured(_)
            | Sighting::Ground(_) => None,
        };
        scene.sightings.iter().enumerate().filter_map(bearing).collect()
    }

    fn one(&self, index: usize, bearing: &BearingSighting, accounts: &[Account], best: &Stretch) -> Option<Sighted> {
        let group = self.groups.iter().find(|group| group.sightings.contains(&index))?;
        // A running fix has two readings, the last of which was made here.
        let reading = group.readings.iter().rev().find(|reading| reading.sighting == index)?;
        let likeliest = accounts.iter().find(|account| account.sighting == index).and_then(Account::likeliest);
        let candidate = group.candidates.iter().find(|one| Some(one.name) == likeliest).or_else(|| group.candidates.first())?;
        let ray = Ray { reading, candidate, shared_deg: self.shared_deg };
        let crossings: Vec<Crossing> = crossings(self.line, &ray);
        Some(sighted::describe(index, self.line, candidate.name, bearing.reading, &ray, crossings, best.best))
    }
}
