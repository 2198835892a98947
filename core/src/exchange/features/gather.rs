//! Where every reader puts what it finds: wanted or not, cut to the area, within the limits.

use std::collections::BTreeSet;

use super::assumed::Assumed;
use super::closed::middle;
use super::error::{Fault, ImportError, Record};
use super::kinds::{LandmarkKind, LineKind};
use super::minded::Minded;
use super::names::clean;
use super::piece::Piece;
use super::shape::{Pos, Shape, along_m, halfway};
use super::tags::Tags;
use super::unfold::{MOST_PAIRS, Unfolded, resumed, unfold};
use super::{Continue, Features, GridUsed, Header, Progress, Wanted, finish};
use crate::earth::{DatumShift, LatLon};
use crate::exchange::stated::StatedGrid;
use crate::sheet::{LEVEL_ALONE, SheetDraft};

/// Most points of a file that are looked at, so that a hostile one cannot take the memory.
pub(super) const MOST_POINTS: usize = 4_000_000;
/// Most points of lines that a sheet holds: all that is done with them stays below 512 MB.
const MOST_HELD: usize = 1_000_000;
/// Most pieces of lines, and most landmarks, before they are joined and counted.
const MOST_PIECES: usize = 200_000;

/// Who walks sees nothing of what runs so far under the ground, metres (our choice); a shorter stretch is where it passes under something.
/// Water is left out there; a road stays, as its trip meters count on through it.
const LEAST_COVERED_M: f64 = 100.0;

/// A landmark or known point before it is named.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mark {
    pub(super) name: Option<String>,
    pub(super) word: String,
    pub(super) at: Pos,
    pub(super) spread_m: f64,
    pub(super) height_m: Option<f64>,
    pub(super) above_sea_m: Option<f64>,
    pub(super) on: On,
    pub(super) record: Record,
}

/// Whether a point stands on a line.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum On {
    /// A landmark.
    Nothing,
    /// A known point of the line of this name.
    Line(String),
    /// A known point when a line passes close by.
    IfNear,
}

/// A record and what its reader knows of it beyond its shape.
#[derive(Debug, Clone)]
pub(super) struct Found<'a> {
    pub(super) record: Record,
    pub(super) tags: &'a Tags<'a>,
    pub(super) layer: Option<&'a str>,
    /// One sigma per axis of a place in such a file, metres.
    pub(super) spread_m: f64,
    /// Whether a receiver wrote the places down, so that two passes over the same ground have errors of their own.
    pub(super) is_recorded: bool,
    /// Whether lines that meet have a point of the file in common.
    pub(super) is_noded: bool,
    /// Whether an unexplained point may be a known point of a line close by.
    pub(super) may_be_on_line: bool,
}

/// What was found so far.
pub(super) struct Gather<'a> {
    pub(super) wanted: &'a Wanted,
    progress: &'a mut dyn FnMut(Progress) -> Continue,
    pub(super) header: Option<Header>,
    /// In which numbers the file gives its places.
    pub(super) grid: StatedGrid,
    pub(super) pieces: Vec<Piece>,
    pub(super) marks: Vec<Mark>,
    pub(super) points: usize,
    /// Records of the file: those that are taken, and those that are left out.
    pub(super) records: usize,
    pub(super) left_out: usize,
    /// The kinds of what was not taken of the record at hand; empty where it says none.
    not_taken: Vec<String>,
    /// Lines of the file so far, and the numbers of those that say no kind.
    lines: usize,
    pub(super) unsaid: BTreeSet<usize>,
    /// The landmarks that state no spread.
    pub(super) assumed: Assumed,
    pub(super) minded: Minded,
    /// The grids in which the file gives its places, one for each layer.
    pub(super) grids: Vec<GridUsed>,
    /// How good the shifts of their datums are stated to be, metres, and that of the grid of the record to come: it stands in the spread of
    /// what the record holds, as one sigma per axis (our choice).
    shifts_m: Vec<f64>,
    shift_m: f64,
    /// How many straight pieces may still be looked at for lines that come over their own ground again.
    pairs_left: usize,
}

impl<'a> Gather<'a> {
    pub(super) fn new(wanted: &'a Wanted, progress: &'a mut dyn FnMut(Progress) -> Continue) -> Self {
        Self {
            wanted,
            progress,
            header: None,
            grid: StatedGrid::default(),
            pieces: Vec::new(),
            marks: Vec::new(),
            points: 0,
            records: 0,
            left_out: 0,
            not_taken: Vec::new(),
            lines: 0,
            unsaid: BTreeSet::new(),
            assumed: Assumed::default(),
            minded: Minded::default(),
            grids: Vec::new(),
            shifts_m: Vec::new(),
            shift_m: 0.0,
            pairs_left: MOST_PAIRS,
        }
    }

    /// Tells how far the reading has come, and asks whether to go on.
    pub(super) fn tick(&mut self, done: u64, of: u64) -> Result<(), ImportError> {
        match (self.progress)(Progress { done, of }) {
            Continue::On => Ok(()),
            Continue::Stop => Err(ImportError::Stopped),
        }
    }

    /// Notes the grid of the record to come, its layer and one of its places.
    pub(super) fn note_grid(&mut self, grid: &StatedGrid, layer: &str, at: Option<Pos>) {
        self.shift_m = 0.0;
        let Some((grid, at)) = grid.grid().zip(at.and_then(|(lat, lon)| LatLon::new(lat, lon).ok())) else { return };
        let noted = self.grids.iter().position(|noted| noted.layer == layer && noted.grid.name() == grid.name()).unwrap_or_else(|| {
            self.grids.push(GridUsed { grid: grid.clone(), at, layer: layer.to_owned() });
            self.shifts_m.push(grid.datum_shift(at).ok().and_then(DatumShift::accuracy_m).unwrap_or_default());
            self.grids.len() - 1
        });
        self.shift_m = self.shifts_m.get(noted).copied().unwrap_or_default();
    }

    /// Counts points that are held.
    fn count(&mut self, points: usize) -> Result<(), ImportError> {
        self.points = self.points.saturating_add(points);
        held(self.points)
    }

    /// Takes one record with its shape.
    pub(super) fn take(&mut self, shape: Shape, found: &Found<'_>) -> Result<(), ImportError> {
        let before = self.pieces.len() + self.marks.len();
        if found.tags.is_gone() {
            self.minded.gone();
            self.leave_out(&found.record);
            return Ok(());
        }
        if shape.is_nothing() {
            self.count_left_out();
            self.minded.placeless(&found.record);
            return Ok(());
        }
        self.not_taken.clear();
        let lines = if found.is_recorded { resumed(shape.lines, found.spread_m) } else { shape.lines };
        let (leading, single): (Vec<_>, Vec<_>) =
            lines.into_iter().filter(|line| !line.is_empty()).partition(|line| line.iter().any(|at| Some(at) != line.first()));
        for line in leading {
            self.take_line(&line, found)?;
        }
        for area in shape.areas {
            self.take_area(&area, found)?;
        }
        for at in shape.points {
            self.take_point(at, found)?;
        }
        self.weigh(before, single.len(), &found.record);
        if self.pieces.len().max(self.marks.len()) <= MOST_PIECES { Ok(()) } else { Err(ImportError::TooMany { most: MOST_PIECES }) }
    }

    /// Counts a record by what has come of it, and tells what has not.
    fn weigh(&mut self, before: usize, single: usize, record: &Record) {
        let of_kind = self.not_taken.first().cloned();
        match (self.pieces.len() + self.marks.len() > before, of_kind) {
            (true, of_kind) => {
                self.records += 1;
                if of_kind.is_some() {
                    self.minded.in_part(record);
                }
                if single > 0 {
                    self.minded.single(record, single);
                }
            }
            (false, Some(kind)) if !kind.is_empty() => self.leave_out_kind(kind),
            (false, _) => self.leave_out(record),
        }
    }

    fn count_left_out(&mut self) {
        self.records += 1;
        self.left_out += 1;
    }

    /// Counts a record that is not taken.
    pub(super) fn leave_out(&mut self, record: &Record) {
        self.count_left_out();
        self.minded.left_out(record);
    }

    /// Counts a record that is of a kind which no sheet takes.
    pub(super) fn leave_out_kind(&mut self, kind: String) {
        self.count_left_out();
        self.minded.left_kind(kind);
    }

    /// Counts a record of which the file does not hold what it takes.
    pub(super) fn leave_out_cut(&mut self, record: &Record) {
        self.count_left_out();
        self.minded.cut(record);
    }

    /// Counts a link to another file, which is not followed.
    pub(super) fn leave_out_link(&mut self, record: &Record) {
        self.count_left_out();
        self.minded.link(record);
    }

    /// Takes a line that says that nobody walks along it for what it is: an outline as an area is taken, what is none not at all.
    fn take_outline(&mut self, points: &[Pos], found: &Found<'_>) -> Result<bool, ImportError> {
        let Some(said) = found.tags.no_line(found.layer) else { return Ok(false) };
        if points.len() > 3 && points.first() == points.last() {
            self.take_area(&[points.to_vec()], found)?;
        } else {
            self.not_taken.push(said);
        }
        Ok(true)
    }

    fn take_line(&mut self, points: &[Pos], found: &Found<'_>) -> Result<(), ImportError> {
        if self.take_outline(points, found)? {
            return Ok(());
        }
        self.lines += 1;
        if found.tags.is_bridge()
            && let Some(at) = halfway(points)
        {
            self.mark(at, LandmarkKind::Bridge, LandmarkKind::Bridge.word().into(), found.spread_m, None, found)?;
        }
        let unsaid = self.wanted.unsaid;
        let (said, word) = found.tags.line(found.layer).unwrap_or((None, unsaid.word().into()));
        let kind = said.unwrap_or(unsaid);
        if !self.wanted.lines.contains(&kind) {
            return Ok(());
        }
        if self.wanted.area.is_some_and(|area| area.cut(points).is_empty()) {
            return Ok(());
        }
        let covered_m = if found.tags.is_covered() { along_m(points) } else { 0.0 };
        if covered_m >= LEAST_COVERED_M {
            let is_water = matches!(kind, LineKind::Creek | LineKind::River | LineKind::Canal);
            self.minded.covered(is_water, covered_m);
            if is_water {
                return Ok(());
            }
        }
        match (said, found.tags.said_line()) {
            (None, Some(said)) => self.minded.kind(&said, &word),
            (None, None) => drop(self.unsaid.insert(self.lines)),
            (Some(_), _) => {}
        }
        let reference = || if matches!(kind, LineKind::Road | LineKind::Track) { found.tags.get("ref") } else { None };
        let name = found.tags.name().or_else(reference).and_then(clean);
        let spread_m = stated_spread(found)?.unwrap_or(found.spread_m).hypot(self.shift_m);
        let level = found.tags.level();
        if level > LEVEL_ALONE / 2 {
            self.minded.level_alone(&found.record);
        }
        for way in self.ways(points, spread_m, found) {
            for points in self.wanted.area.map_or_else(|| vec![way.clone()], |area| area.cut(&way)) {
                let (name, word, levels, noded) = (name.clone(), word.clone(), vec![level], found.is_noded);
                self.piece(Piece { name, word, points, spread_m, levels, noded, was: vec![self.lines] })?;
            }
        }
        Ok(())
    }

    /// The ways of a line on the ground.
    fn ways(&mut self, points: &[Pos], spread_m: f64, found: &Found<'_>) -> Vec<Vec<Pos>> {
        match unfold(points, spread_m, found.is_recorded, &mut self.pairs_left) {
            Some(Unfolded { ways, again_m }) => {
                self.minded.unfolded(&found.record.called(), again_m);
                ways
            }
            None => vec![points.to_vec()],
        }
    }

    /// Keeps a piece that has some length; a point given twice in a row counts once.
    fn piece(&mut self, mut piece: Piece) -> Result<(), ImportError> {
        piece.points.dedup();
        piece.levels = match piece.levels.first() {
            Some(level) if *level != 0 => vec![*level; piece.points.len().saturating_sub(1)],
            Some(_) | None => Vec::new(),
        };
        if piece.points.len() >= 2 {
            self.count(piece.points.len())?;
            piece.points.shrink_to_fit();
            self.pieces.push(piece);
        }
        Ok(())
    }

    fn take_area(&mut self, rings: &[Vec<Pos>], found: &Found<'_>) -> Result<(), ImportError> {
        let Some(middle) = middle(rings) else { return Ok(()) };
        let Some((kind, word)) = found.tags.landmark(found.layer) else {
            self.not_taken.push(found.tags.said_kind().unwrap_or_default());
            return Ok(());
        };
        let name = found.tags.name();
        self.mark(middle.at, kind, word, found.spread_m.hypot(middle.spread_m), name, found)
    }

    fn take_point(&mut self, at: Pos, found: &Found<'_>) -> Result<(), ImportError> {
        let plain = || (LandmarkKind::Landmark, LandmarkKind::Landmark.word().to_owned());
        let (kind, word) = found.tags.landmark(found.layer).unwrap_or_else(plain);
        let before = self.marks.len();
        self.mark(at, kind, word.clone(), found.spread_m, found.tags.name(), found)?;
        let said = found.tags.word().map(str::to_owned).or_else(|| found.tags.said_kind());
        if let (LandmarkKind::Landmark, Some(said)) = (kind, said)
            && self.marks.len() > before
            && !said.eq_ignore_ascii_case(LandmarkKind::Landmark.word())
        {
            self.minded.kind(&said, &word);
        }
        Ok(())
    }

    fn mark(
        &mut self,
        at: Pos,
        kind: LandmarkKind,
        word: String,
        spread_m: f64,
        name: Option<&str>,
        found: &Found<'_>,
    ) -> Result<(), ImportError> {
        let on = on_line(kind, found);
        let outside = self.wanted.area.is_some_and(|area| !area.holds(at));
        if outside || (matches!(on, On::Nothing) && !self.wanted.landmarks.contains(&kind)) {
            return Ok(());
        }
        let (tags, record) = (found.tags, found.record.clone());
        let stated_m = stated_spread(found)?;
        if stated_m.is_none() && matches!(on, On::Nothing | On::IfNear) {
            self.assumed.add(found.spread_m);
        }
        let spread_m = stated_m.unwrap_or(spread_m).hypot(self.shift_m);
        let (height_m, above_sea_m) = (tags.height_m(), tags.above_sea_m());
        if let Some(stated) = tags.odd_height() {
            self.minded.height(&record, stated);
        }
        self.marks.push(Mark { name: name.and_then(clean), word, at, spread_m, height_m, above_sea_m, on, record });
        Ok(())
    }

    /// Joins, names and counts what was found.
    pub(super) fn finish(self) -> Result<Features, ImportError> {
        finish::finish(self)
    }
}

/// Whether so many points are no more than a sheet holds.
fn held(points: usize) -> Result<(), ImportError> {
    if points <= MOST_HELD { Ok(()) } else { Err(ImportError::TooManyPoints { most: MOST_HELD }) }
}

/// Whether the lines of a sheet have no more points than it may hold.
///
/// # Errors
/// [`ImportError::TooManyPoints`] when they have.
pub fn checked_size(draft: &SheetDraft) -> Result<(), ImportError> {
    held(draft.lines.iter().map(|line| line.points.len()).sum())
}

fn on_line(kind: LandmarkKind, found: &Found<'_>) -> On {
    match found.tags.get("on") {
        Some(line) => On::Line(line.trim().to_owned()),
        None if found.may_be_on_line && kind == LandmarkKind::Landmark => On::IfNear,
        None => On::Nothing,
    }
}

fn stated_spread(found: &Found<'_>) -> Result<Option<f64>, ImportError> {
    found.tags.spread_m().transpose().map_err(|()| found.record.clone().fault(Fault::Spread))
}
