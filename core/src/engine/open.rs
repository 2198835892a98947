//! The fix in the open: from the records to the scene of the fix room, and from there to what is shown.

use super::Refusal;
use super::observe::{Observer, distance, spread};
use super::open_ground::{OverPlane, over_ground, said_again, witnesses};
use super::open_told::{ToldOpen, told, what};
use super::record_sighting::SightingRecord;
use super::state::{CheckedCompass, Ground, Trip, can_turn, observed};
use super::understand;
use crate::earth::{Instant, Norths};
use crate::fix::{
    BearingSighting, Bounds, GroundSaid, NextSight, OpenCaution, OpenFix, OpenGround, OpenReport, OpenScene, OpenSighting, SlipOfFix,
    Slips, There, Trust, open_next, open_slips, open_slips_beside_place, take_open,
};
use crate::ground::{Sight, Sightlines};
use crate::logbook::FixRow;
use crate::measure::{NamedBearing, Point};

/// One may stand so far beyond everything on the sheet, metres.
const BEYOND_M: f64 = 2_000.0;

/// A fix in the open with everything that was reckoned from its sightings.
#[derive(Debug, Clone)]
pub(super) struct TakenOpen {
    pub(super) at: Instant,
    row: FixRow,
    pub(super) trust: Trust,
    pub(super) compass: Option<CheckedCompass>,
    pub(super) norths: Norths,
    pub(super) fix: OpenFix,
    pub(super) report: OpenReport,
    pub(super) slips: Slips,
    /// What to sight next, the best first.
    pub(super) next: Vec<NextSight>,
    /// What was told, in its order.
    pub(super) told: Vec<ToldOpen>,
    /// What the ground does to the sight to each landmark of the sheet from the likeliest place; empty without heights.
    pub(super) sights: Vec<Sight>,
}

/// What is measured: the record it stands in, and the sighting.
pub(super) type Equated = Vec<(usize, OpenSighting<'static>)>;

impl Trip {
    /// Reckons a fix in the open from what was observed.
    pub(super) fn take_open(&self, at: Instant, row: &FixRow) -> Result<TakenOpen, Refusal> {
        self.asked_open(at, row, |Asked { scene, observer, records, measured, over, sights, compass }| {
            let (norths, landmarks) = (scene.norths, &self.sheet.landmarks);
            let mut fix = take_open(scene)?;
            let sure: Vec<&str> = fix.seen.iter().map(|one| one.landmark.as_str()).collect();
            let namesakes = self.sheet.namesakes(&sure).into_iter().map(|(one, other, apart_m)| {
                let (landmark, other) = (one.name.clone(), other.name.clone());
                OpenCaution::Namesake { landmark, other, apart_m }
            });
            fix.cautions.extend(namesakes);
            let slips = open_slips(scene, landmarks, &fix);
            let report = fix.report(&slips, &self.sheet, norths);
            let told = told(observer, records, measured, over, fix.at);
            let all_sights = |place: Point| sights.map_or_else(Vec::new, |sights| self.sheet.all_sights(sights, place));
            let next = open_next(scene, &fix, landmarks, &|at| all_sights(at).iter().map(|sight| sight.chance).collect());
            let (sights, row) = (all_sights(fix.at), row.clone());
            Ok(TakenOpen { at, row, trust: scene.trust, compass, fix, report, slips, next, told, sights, norths: norths.clone() })
        })
    }

    /// The slips of a fix in the open as a place is held against it, the place being asked too; and what the fix says of the place.
    pub(super) fn open_slips_beside(&self, taken: &TakenOpen, place: Point, spread_m: f64) -> Option<(Vec<SlipOfFix>, There)> {
        let asked = self.asked_open(taken.at, &taken.row, |Asked { scene, .. }| {
            let scene = OpenScene { trust: taken.trust, norths: &taken.norths, ..scene.clone() };
            Ok(open_slips_beside_place(&scene, &self.sheet.landmarks, &taken.fix, (place, spread_m)))
        });
        asked.ok()
    }

    /// Asks something of everything that was observed in the open.
    fn asked_open<T>(&self, at: Instant, row: &FixRow, ask: impl FnOnce(Asked<'_>) -> Result<T, Refusal>) -> Result<T, Refusal> {
        let records: Vec<SightingRecord> = row.observed.iter().map(|one| observed(one)).collect::<Result<_, _>>()?;
        let (compass, trust, norths) = self.compass_of(at, row.instrument)?;
        can_turn(&norths, &records)?;
        let (low, high) = self.sheet.area(BEYOND_M);
        let bounds = Bounds { low, high };
        let observer = Observer { sheet: &self.sheet, lines: &[], pace: &self.pace };
        let measured = measured(&observer, &records)?;
        let said = self.said_of_ground(&records)?;
        let lay = self.lay(&norths, (bounds.middle(), bounds.across().length_m() / 2.0), &said)?;
        let sights = self.ground.as_ref().map(Ground::sightlines).transpose()?;
        let feet: Vec<Option<GroundSaid>> = said.iter().map(|said| said.as_ref()?.0.in_feet()).collect();
        let mut over = over_ground(lay.as_ref(), &said, &feet, &bounds, self.lattice_m())?;
        over.extend(self.over_sights(sights.as_ref(), &observer, &records, &bounds)?);
        over.extend(witnesses(&observer, &records)?);
        let again = |one: &OverPlane<'_>| one.record.map_or(1, |record| said_again(&records, record)) as f64;
        let in_feet: Vec<Option<OpenGround<'_>>> =
            over.iter().map(|one| one.in_feet.as_deref().map(|feet| feet.as_sighted(again(one), None))).collect();
        let grounds = over.iter().zip(&in_feet).map(|(one, feet)| OpenSighting::Ground(one.as_sighted(again(one), feet.as_ref())));
        let sightings: Vec<OpenSighting<'_>> = measured.iter().map(|(_, sighting)| sighting.clone()).chain(grounds).collect();
        if sightings.is_empty() && !records.is_empty() {
            return Err(Refusal::plain("open-says-nothing"));
        }
        let scene = OpenScene { sightings, norths: &norths, trust, near: None, bounds };
        let (observer, records, measured) = (&observer, records.as_slice(), &measured);
        ask(Asked { scene: &scene, observer, records, measured, over: &over, sights: sights.as_ref(), compass })
    }
}

/// Everything that was observed in the open.
struct Asked<'a> {
    scene: &'a OpenScene<'a>,
    observer: &'a Observer<'a>,
    records: &'a [SightingRecord],
    measured: &'a Equated,
    over: &'a [OverPlane<'a>],
    sights: Option<&'a Sightlines<'a>>,
    compass: Option<CheckedCompass>,
}

/// Bearings, angles and distances; what counts along a line is refused.
fn measured(observer: &Observer<'_>, records: &[SightingRecord]) -> Result<Equated, Refusal> {
    let mut all = Vec::new();
    for (index, record) in records.iter().enumerate() {
        match record {
            SightingRecord::Bearing { landmark, one_of, place, spread_m, bearing, spread_deg } => {
                let candidates = observer.candidates(landmark.as_deref(), one_of.as_deref(), place.as_deref(), *spread_m)?;
                let reading = NamedBearing::parse(bearing)?;
                let sighting = BearingSighting { candidates, reading, spread_deg: spread(*spread_deg)? };
                all.push((index, OpenSighting::Bearing(sighting)));
            }
            SightingRecord::Angle { left, right, angle_deg, spread_deg } => {
                let (left, right, spread_deg) = (observer.landmark(left)?, observer.landmark(right)?, spread(*spread_deg)?);
                let angle_deg = understand::bounded("angle_deg", *angle_deg, (0.0, 360.0))?;
                all.push((index, OpenSighting::Angle { left, right, angle_deg, spread_deg }));
            }
            SightingRecord::Distance { landmark, distance_m, spread_m } => {
                let (distance_m, spread_m) = distance(*distance_m, *spread_m)?;
                all.push((index, OpenSighting::Distance { landmark: observer.landmark(landmark)?, distance_m, spread_m }));
            }
            SightingRecord::Seen { .. }
            | SightingRecord::NotSeen { .. }
            | SightingRecord::Slope { .. }
            | SightingRecord::Landform { .. }
            | SightingRecord::Aspect { .. }
            | SightingRecord::Height { .. }
            | SightingRecord::Witness { .. } => {}
            SightingRecord::Running { .. }
            | SightingRecord::LineRun { .. }
            | SightingRecord::Side { .. }
            | SightingRecord::Here { .. }
            | SightingRecord::Trip { .. }
            | SightingRecord::Paces { .. } => return Err(Refusal::named("sighting-needs-line", what(record))),
        }
    }
    Ok(all)
}
