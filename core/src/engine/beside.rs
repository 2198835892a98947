//! The lines of the sheet beside those that a fix is taken on: one of them may have been taken for another.

use super::Refusal;
use super::observe::Observer;
use super::record_sighting::SightingRecord;
use super::state::Trip;
use crate::earth::Norths;
use crate::fix::{Beside, Sighting};
use crate::measure::Point;
use crate::sheet::Line;

/// A line that comes no nearer than this to where one may stand is hardly taken for the one that is stood on, metres.
const WITHIN_M: f64 = 2_000.0;
/// Lines longer than this are not asked about, metres: the ground along them is not prepared for one question.
const LONGEST_M: f64 = 30_000.0;
/// The nearest so many are asked about.
const MOST: usize = 4;

impl Trip {
    /// Everything observed, as it counts along lines.
    pub(super) fn sightings_on(&self, lines: &[&Line], records: &[SightingRecord], norths: &Norths) -> Result<Vec<Sighting>, Refusal> {
        let observer = Observer { sheet: &self.sheet, lines, pace: &self.pace };
        let said = self.said_on_lines(norths, lines, records)?;
        let sighting = |(record, said): (&SightingRecord, Option<Sighting>)| said.map_or_else(|| observer.sighting(record), Ok);
        records.iter().zip(said).map(sighting).collect()
    }

    /// The nearest lines beside those of a fix, and everything observed along all of them; nothing where there are none, or where what was
    /// observed cannot be asked of them.
    pub(super) fn beside<'a>(&'a self, lines: &[&'a Line], at: Point, records: &[SightingRecord], norths: &Norths) -> Option<Beside<'a>> {
        let is_other = |line: &&Line| line.length_m() <= LONGEST_M && lines.iter().all(|own| own.name != line.name);
        let others = self.sheet.lines.iter().filter(is_other).map(|line| (line.nearest(at).at.minus(at).length_m(), line));
        let mut near: Vec<(f64, &Line)> = others.filter(|(off_m, _)| *off_m <= WITHIN_M).collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        near.truncate(MOST);
        if near.is_empty() {
            return None;
        }
        let others: Vec<&Line> = near.into_iter().map(|(_, line)| line).collect();
        let all: Vec<&Line> = lines.iter().copied().chain(others.iter().copied()).collect();
        Some(Beside { sightings: self.sightings_on(&all, records, norths).ok()?, lines: others })
    }
}
