//! The open trip as the engine holds it, built from the logbook's rows.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use super::Refusal;
use super::along::InSight;
use super::car::Car;
use super::ground::in_sight;
use super::held::Held;
use super::open::TakenOpen;
use super::record_sighting::SightingRecord;
use crate::earth::{Instant, LatLon, Norths};
use crate::fix::{
    Choice, Fix, FixCaution, FixReport, Instrument, NextSight, Scene, Sighting, Slips, Table, Trust, WRONG_READING, next_sights, slips,
    take,
};
use crate::ground::{Heights, Sight, SightIndex, Sightlines};
use crate::homeward::{Here, WayBack, here, reversed_log, turned_round};
use crate::logbook::{CompassRow, Entry, FixRow, HeightsRow, LogbookError, TripRows};
use crate::measure::{NamedBearing, Point};
use crate::sheet::{Line, Sheet};
use crate::travel::{Leg, Pace, Reckoning, WalkSpreads, reckon};

/// Everything that a fix on lines was taken from.
#[derive(Debug, Clone)]
pub(super) struct Heard {
    odds: Vec<Option<f64>>,
    sightings: Vec<Sighting>,
    in_sight: BTreeMap<String, Vec<Table>>,
}

impl Heard {
    /// As it is weighed, on the lines that may be stood on.
    pub(super) fn scene<'a>(&self, lines: &[&'a Line], norths: &'a Norths, trust: Trust) -> Scene<'a> {
        let choices = lines.iter().zip(&self.odds).map(|(line, odds)| Choice { line, odds: *odds }).collect();
        let (sightings, in_sight) = (self.sightings.clone(), self.in_sight.clone());
        Scene { lines: choices, sightings, norths, trust, in_sight, wrong_share: WRONG_READING }
    }
}

/// A fix with everything that was reckoned from its sightings.
#[derive(Debug, Clone)]
pub(super) struct TakenFix {
    pub(super) at: Instant,
    /// The lines that may be stood on, as the sheet numbers them.
    pub(super) lines: Vec<usize>,
    pub(super) trust: Trust,
    /// What this compass was found to read too much, when it was checked.
    pub(super) compass: Option<CheckedCompass>,
    pub(super) norths: Norths,
    /// What it was taken from.
    pub(super) heard: Heard,
    pub(super) fix: Fix,
    pub(super) report: FixReport,
    pub(super) slips: Slips,
    /// What to sight next, the best first; nothing once the car's place is kept.
    pub(super) next: Vec<NextSight>,
    /// What the ground does to the sight to each landmark of the sheet from the likeliest place; empty without heights.
    pub(super) sights: Vec<Sight>,
}

/// A fix of either kind.
#[derive(Debug)]
pub(super) enum Taken {
    /// On lines.
    OnLine(Box<TakenFix>),
    /// In the open.
    InTheOpen(Box<TakenOpen>),
}

/// A compass that was checked.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct CheckedCompass {
    pub(super) at: Instant,
    pub(super) row: CompassRow,
}

/// The heights of the sheet, as the logbook has them.
#[derive(Debug, Clone)]
pub(super) struct Ground {
    pub(super) row: HeightsRow,
    pub(super) heights: Arc<Heights>,
    pub(super) index: OnceLock<Arc<SightIndex>>,
    /// What was asked of it along the lines.
    pub(super) in_sight: InSight,
}

impl Ground {
    pub(super) fn new(row: HeightsRow, heights: Arc<Heights>) -> Self {
        Self { row, heights, index: OnceLock::new(), in_sight: InSight::default() }
    }

    /// Sightlines over the heights; what they need is reckoned with the first of them.
    pub(super) fn sightlines(&self) -> Result<Sightlines<'_>, Refusal> {
        let index = match self.index.get() {
            Some(index) => Arc::clone(index),
            None => {
                let index = Arc::new(SightIndex::over(&self.heights)?);
                Arc::clone(self.index.get_or_init(|| index))
            }
        };
        Ok(Sightlines::indexed(&self.heights, index))
    }
}

/// The trip: its sheet, and what its entries say.
#[derive(Debug)]
pub(super) struct Trip {
    pub(super) id: i64,
    pub(super) sheet: Sheet,
    pub(super) ground: Option<Ground>,
    /// Why the heights there are cannot be read.
    pub(super) ground_trouble: Option<Refusal>,
    pub(super) pace: Pace,
    pub(super) compass: Option<CheckedCompass>,
    /// The last fix, when it was taken on a line.
    pub(super) fix: Option<Arc<TakenFix>>,
    /// The last fix, when it was taken in the open.
    pub(super) open: Option<Arc<TakenOpen>>,
    pub(super) fix_entry: i64,
    /// Whether a leg was walked since the last fix.
    pub(super) walked_on: bool,
    /// Where the fixes of the trip were, the last one last.
    pub(super) fixed: Vec<LatLon>,
    pub(super) check: Option<Held>,
    pub(super) car: Option<Car>,
    /// Whether the log that is being resumed keeps the car's place further on: then nobody asks what to sight next.
    keeps_later: bool,
    pub(super) legs: Vec<(Instant, Leg)>,
    /// When the last leg was closed, on the way out or back.
    pub(super) walked_at: Option<Instant>,
    /// Legs of the way back that are walked; nothing before it is begun.
    pub(super) back: Option<usize>,
    pub(super) closed: bool,
    /// Number and kind of the last entry, for undoing.
    pub(super) last: Option<(i64, &'static str)>,
}

impl Trip {
    pub(super) fn new(id: i64, sheet: Sheet) -> Self {
        Self {
            id,
            sheet,
            ground: None,
            ground_trouble: None,
            pace: Pace::default(),
            compass: None,
            fix: None,
            open: None,
            fix_entry: 0,
            walked_on: false,
            fixed: Vec::new(),
            check: None,
            car: None,
            keeps_later: false,
            legs: Vec::new(),
            walked_at: None,
            back: None,
            closed: false,
            last: None,
        }
    }

    /// The trip that rows of the logbook tell; only the fixes that still matter are reckoned again.
    /// Heights that cannot be read leave the trip without them.
    pub(super) fn resume(ground: Result<Option<Ground>, Refusal>, rows: TripRows) -> Result<Self, Refusal> {
        let mut trip = Self::new(rows.id, Sheet::build(&rows.sheet)?);
        match ground {
            Ok(ground) => trip.ground = ground,
            Err(refusal) => trip.ground_trouble = Some(refusal),
        }
        let needed = needed_fixes(&rows);
        trip.keeps_later = rows.entries.iter().any(|(_, _, entry)| matches!(entry, Entry::Keep(_)));
        let mut fix_skipped = false;
        for (id, at, entry) in rows.entries {
            let is_fix = matches!(entry, Entry::Fix(_));
            // A check belongs to the fix before it and goes with it.
            let goes_with = fix_skipped && matches!(entry, Entry::Check(_));
            if let Entry::Fix(row) = &entry {
                fix_skipped = !needed.contains(&id);
                trip.fixed.extend(fix_skipped.then_some(row.at));
            }
            if goes_with || (is_fix && fix_skipped) {
                trip.last = Some((id, if is_fix { "fix" } else { "check" }));
            } else {
                trip.apply(id, at, entry)?;
            }
        }
        trip.keeps_later = false;
        Ok(trip)
    }

    /// Takes one entry of the logbook into the trip.
    pub(super) fn apply(&mut self, id: i64, at: Instant, entry: Entry) -> Result<(), Refusal> {
        let kind = match entry {
            Entry::Pace(pace) => {
                self.pace = pace;
                "pace"
            }
            Entry::Compass(row) => {
                self.compass = Some(CheckedCompass { at, row });
                "compass"
            }
            Entry::Fix(row) => {
                let taken = self.take(at, &row)?;
                self.put_fix(id, taken);
                "fix"
            }
            Entry::Keep(kept) => {
                self.car = Some(self.kept(&kept)?);
                "keep"
            }
            Entry::Check(witness) => {
                self.check = Some(self.held_against(&witness)?);
                "check"
            }
            Entry::TurnRound => {
                self.back = Some(0);
                "turn-round"
            }
            Entry::Reached => {
                self.back = self.back.map(|walked| walked + 1);
                (self.walked_at, self.walked_on) = (Some(at), true);
                "reached"
            }
            Entry::Leg(leg) => {
                // A row that someone changed by hand must not turn the walk into nonsense.
                leg.distance.checked()?;
                self.car.as_ref().map_or(Ok(()), |car| car.norths.can_turn(leg.bearing))?;
                self.legs.push((at, leg));
                (self.walked_at, self.walked_on) = (Some(at), true);
                "leg"
            }
            Entry::Close => {
                self.closed = true;
                "close"
            }
        };
        self.last = Some((id, kind));
        Ok(())
    }

    /// What was measured of the walker and goes along to the next trip.
    pub(super) fn measured(&self) -> Vec<Entry> {
        let pace = Some(self.pace).filter(|pace| *pace != Pace::default()).map(Entry::Pace);
        let compass = self.compass.as_ref().map(|compass| Entry::Compass(compass.row.clone()));
        pace.into_iter().chain(compass).collect()
    }

    /// Where a place of the last fix lies, from 0, with the norths it was taken by.
    pub(super) fn fixed_at(&self, place: usize) -> Option<(Point, &Norths)> {
        let on_line = self.fix.as_ref().and_then(|taken| Some((taken.fix.stretches.get(place)?.best.at, &taken.norths)));
        on_line.or_else(|| self.open.as_ref().and_then(|taken| Some((taken.fix.places().get(place)?.0, &taken.norths))))
    }

    /// A fix taken in this process is kept as it is; the logbook's row says the same.
    pub(super) fn put_fix(&mut self, id: i64, taken: Taken) {
        (self.fix, self.open) = match taken {
            Taken::OnLine(taken) => (Some(Arc::new(*taken)), None),
            Taken::InTheOpen(taken) => (None, Some(Arc::new(*taken))),
        };
        self.fixed.extend(self.fix_place());
        self.check = None;
        (self.fix_entry, self.walked_on) = (id, false);
        self.last = Some((id, "fix"));
    }

    /// Reckons a fix from what was observed: in the open when the row names no line.
    pub(super) fn take(&self, at: Instant, row: &FixRow) -> Result<Taken, Refusal> {
        if row.lines.is_empty() {
            return Ok(Taken::InTheOpen(Box::new(self.take_open(at, row)?)));
        }
        Ok(Taken::OnLine(Box::new(self.take_fix(at, row)?)))
    }

    /// What a reading with an instrument is worth on a date, and the norths as it reads them.
    pub(super) fn compass_of(&self, at: Instant, instrument: Instrument) -> Result<(Option<CheckedCompass>, Trust, Norths), Refusal> {
        let compass = self.compass.clone().filter(|compass| compass.row.instrument == instrument);
        let (trust, error_deg) = match &compass {
            Some(CheckedCompass { row: checked, .. }) => {
                (instrument.trust().checked(checked.error_spread_deg, checked.reading_spread_deg), checked.error_deg)
            }
            None => (instrument.trust(), 0.0),
        };
        let norths = self.sheet.norths(at.date())?.with_compass_error(error_deg);
        Ok((compass, trust, norths))
    }

    /// Reckons a fix on lines.
    fn take_fix(&self, at: Instant, row: &FixRow) -> Result<TakenFix, Refusal> {
        let lines: Vec<&Line> = row.lines.iter().map(|(name, _)| self.sheet.line(Some(name))).collect::<Result<_, _>>()?;
        let records: Vec<SightingRecord> = row.observed.iter().map(|one| observed(one)).collect::<Result<_, _>>()?;
        let (compass, trust, norths) = self.compass_of(at, row.instrument)?;
        can_turn(&norths, &records)?;
        let sightings = self.sightings_on(&lines, &records, &norths)?;
        let in_sight = in_sight(&self.sheet, self.ground.as_ref(), &lines, &sightings)?;
        let heard = Heard { odds: row.lines.iter().map(|(_, odds)| *odds).collect(), sightings, in_sight };
        let scene = heard.scene(&lines, &norths, trust);
        let mut fix = take(&scene)?;
        let sure = fix.accounts.iter().filter(|one| one.identity.len() <= 1).map(|one| one.of.as_str()).collect::<Vec<_>>();
        let namesakes = self.sheet.namesakes(&sure).into_iter().map(|(one, other, apart_m)| {
            let (landmark, other) = (one.name.clone(), other.name.clone());
            FixCaution::Namesake { landmark, other, apart_m }
        });
        fix.cautions.extend(namesakes);
        let slips = fix.best().map_or_else(Slips::default, |best| {
            let beside = self.beside(&lines, best.best.at, &records, &norths);
            slips(&scene, &self.sheet.landmarks, best, beside.as_ref())
        });
        let report = fix.report(&slips, &self.sheet, &lines, &norths);
        let lines_of_sight = self.ground.as_ref().map(Ground::sightlines).transpose()?;
        let all_sights = |place: Point| lines_of_sight.as_ref().map_or_else(Vec::new, |sights| self.sheet.all_sights(sights, place));
        let sights = fix.best().map_or_else(Vec::new, |best| all_sights(best.best.at));
        let chances = |place: Point| all_sights(place).iter().map(|sight| sight.chance).collect();
        let is_kept = self.car.is_some() || self.keeps_later;
        let next = if is_kept { Vec::new() } else { next_sights(&scene, &fix, &self.sheet.landmarks, &chances) };
        let number = |line: &&Line| self.sheet.lines.iter().position(|other| other.name == line.name).unwrap_or(0);
        Ok(TakenFix { at, lines: lines.iter().map(number).collect(), trust, compass, norths, heard, fix, report, slips, next, sights })
    }

    /// The likeliest place of the last fix.
    fn fix_place(&self) -> Option<LatLon> {
        let in_the_open = self.open.as_ref().and_then(|taken| taken.report.places.first().map(|place| place.at));
        self.fix.as_ref().and_then(|taken| taken.report.places.first().map(|place| place.at)).or(in_the_open)
    }

    /// The likeliest place: the reckoned one, else the fix's, else the middle of the sheet.
    pub(super) fn likeliest(&self) -> LatLon {
        self.stood_at().unwrap_or_else(|_| self.sheet.frame.origin())
    }

    /// The reckoned place, else the fix's; a place where nobody is said to stand is not made up.
    pub(super) fn stood_at(&self) -> Result<LatLon, Refusal> {
        let reckoned = self.here().map(|(_, _, here)| here.at);
        reckoned.or_else(|| self.fix_place()).ok_or_else(|| Refusal::plain("stand-unknown"))
    }

    fn spreads(&self, car: &Car) -> WalkSpreads {
        let shared_deg = car.trust.shared_spread_deg.hypot(car.norths.declination_spread_deg());
        WalkSpreads::of(shared_deg, &self.pace)
    }

    /// The legs reckoned from the car.
    pub(super) fn walk(&self) -> Option<(&Car, Reckoning)> {
        let car = self.car.as_ref()?;
        let legs: Vec<Leg> = self.legs.iter().map(|(_, leg)| leg.clone()).collect();
        Some((car, reckon(car.point, &legs, &self.pace, &car.norths, &self.spreads(car))))
    }

    /// Everything walked so far, out and back, reckoned from the car.
    pub(super) fn walked(&self) -> Option<(&Car, Reckoning)> {
        let car = self.car.as_ref()?;
        let out = self.legs.iter().map(|(_, leg)| leg.clone());
        let back = self.legs.iter().rev().take(self.back.unwrap_or(0)).map(|(_, leg)| turned_round(leg));
        let legs: Vec<Leg> = out.chain(back).collect();
        Some((car, reckon(car.point, &legs, &self.pace, &car.norths, &self.spreads(car))))
    }

    /// Since when the reckoned place holds: the end of the last leg, out or back, else the fix of the car.
    pub(super) fn known_at(&self, car: &Car) -> Instant {
        self.walked_at.unwrap_or(car.at)
    }

    /// The reckoned place, on the way out or back.
    pub(super) fn here(&self) -> Option<(&Car, Reckoning, Here)> {
        let (car, walk) = self.walked()?;
        let here = here(&self.sheet, &car.norths, car.covariance, &walk);
        Some((car, walk, here))
    }

    /// The reversed log.
    pub(super) fn way_back(&self) -> Option<(&Car, Reckoning, WayBack)> {
        let (car, walk) = self.walk()?;
        let legs: Vec<Leg> = self.legs.iter().map(|(_, leg)| leg.clone()).collect();
        let way = reversed_log(&legs, &walk, &self.pace, &car.norths, &self.spreads(car));
        Some((car, walk, way))
    }
}

/// A sighting as the logbook keeps it.
pub(super) fn observed(json: &str) -> Result<SightingRecord, Refusal> {
    serde_json::from_str(json).map_err(|error| Refusal::from(LogbookError::Damaged(error.to_string())))
}

/// The last fix, and those from which the car's place was kept.
fn needed_fixes(rows: &TripRows) -> Vec<i64> {
    let mut needed = Vec::new();
    let mut last = None;
    for (id, _, entry) in &rows.entries {
        match entry {
            Entry::Fix(_) => last = Some(*id),
            Entry::Keep(kept) => needed.push(kept.fix_entry),
            Entry::Pace(_) | Entry::Compass(_) | Entry::Check(_) | Entry::Leg(_) | Entry::TurnRound | Entry::Reached | Entry::Close => {}
        }
    }
    needed.extend(last);
    needed
}

/// Whether the bearings of sightings can be turned by the norths of their date.
pub(super) fn can_turn(norths: &Norths, records: &[SightingRecord]) -> Result<(), Refusal> {
    let mut bearings = records.iter().flat_map(SightingRecord::bearings).filter_map(|text| NamedBearing::parse(text).ok());
    bearings.try_for_each(|bearing| norths.can_turn(bearing).map_err(Refusal::from))
}
