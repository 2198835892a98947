//! A sheet by hand: what is typed from the paper map or tapped on a photo of it, added to the sheet.

use super::commands::Done;
use super::import::may_change;
use super::record_sheet::SheetRecord;
use super::{Engine, Refusal, questions, show, understand};
use crate::earth::{Grid, Instant, Terms};
use crate::exchange::{Typed, add_typed, checked_paper};
use crate::measure::{Message, Telling};
use crate::sheet::{Paper, Sheet, SheetDraft};

/// What is said of a sheet as a whole.
pub(super) struct Head<'a> {
    pub(super) name: Option<&'a str>,
    pub(super) grid: Option<&'a str>,
    pub(super) scale: Option<f64>,
    pub(super) printed_year: Option<f64>,
}

impl Engine {
    /// Makes a sheet from what was typed, or adds to the open one.
    pub(super) fn sheet_by_hand(&mut self, record: &SheetRecord) -> Result<Done, Refusal> {
        let at = self.time(record.at.as_ref())?;
        let (name, grid) = (record.name.as_deref(), record.grid.as_deref());
        let mut draft = self.draft_under(&Head { name, grid, scale: record.scale, printed_year: record.printed_year })?;
        let struck = self.strike(&mut draft, &record.strike)?;
        if let Some(spread_m) = record.position_spread_m {
            draft.position_spread_m = Some(understand::bounded("position_spread_m", spread_m, (0.0, 10_000.0))?);
        }
        if let Some(norths) = &record.norths {
            draft.norths = Some(questions::printed(norths)?);
        }
        let grid = draft.grid.as_deref().map(Grid::named).transpose()?;
        let sheet = self.trip.as_ref().map(|trip| &trip.sheet).filter(|_| record.name.is_none());
        let terms = typing_terms(sheet, grid.as_ref(), record.beginning.as_deref());
        let typed = Typed { lines: &record.lines, known_points: &record.known_points, landmarks: &record.landmarks, spots: &record.spots };
        let minded = add_typed(&mut draft, &typed, &terms)?;
        let goes = if struck.is_some() { GoesAlong::WithoutHeights } else { GoesAlong::of(record.name.as_deref()) };
        let mut said = self.change_sheet(at, &draft, goes)?;
        said.extend(minded.iter().map(|one| self.words.say(&one.message())));
        said.extend(struck.map(|source| self.words.say(&Message::new("heights-struck").text("source", source))));
        Ok(Done::said(said))
    }

    /// Takes lines with their known points, known points, landmarks and heights off by name; heights have the name of their file.
    /// Answers where the heights came from, when they are among it.
    fn strike(&self, draft: &mut SheetDraft, names: &[String]) -> Result<Option<String>, Refusal> {
        let ground = self.trip.as_ref().and_then(|trip| trip.ground.as_ref());
        let mut struck = None;
        for name in names {
            if struck_from(draft, name) {
                continue;
            }
            let source = ground.map(|ground| ground.row.origin.source.as_str()).filter(|source| is_file_of(source, name));
            struck = Some(source.ok_or_else(|| Refusal::new(Message::new("sheet-strike-unknown").text("name", name.clone())))?.to_owned());
        }
        Ok(struck)
    }

    /// The draft to be added to: a new one under a name, else that of the open trip.
    pub(super) fn draft_under(&self, head: &Head<'_>) -> Result<SheetDraft, Refusal> {
        may_change(self)?;
        let mut draft = match head.name.map(str::trim) {
            Some("") => return Err(Refusal::plain("sheet-name-needed")),
            Some(name) if self.trip.as_ref().is_some_and(|trip| same_name(&trip.sheet.name, name)) => {
                return Err(Refusal::named("sheet-name-open", name));
            }
            Some(name) => SheetDraft { name: name.to_owned(), ..SheetDraft::default() },
            None => self.logbook.newest_trip()?.ok_or_else(|| Refusal::plain("sheet-name-needed"))?.sheet,
        };
        if let Some(grid) = head.grid {
            draft.grid = Some(Grid::named(&understand::numbered_grid(grid))?.definition().to_owned());
        }
        let paper = checked_paper(head.scale, head.printed_year)?;
        draft.paper = Paper { scale: paper.scale.or(draft.paper.scale), year: paper.year.or(draft.paper.year), ..draft.paper };
        Ok(draft)
    }

    /// What is told of the open sheet when one of another name takes its place.
    pub(super) fn put_away(&self, draft: &SheetDraft) -> Option<Message> {
        let old = &self.trip.as_ref()?.sheet;
        let has_some = !old.lines.is_empty() || !old.landmarks.is_empty();
        (has_some && !same_name(&old.name, &draft.name)).then(|| Message::new("sheet-put-away").text("name", old.name.clone()))
    }

    /// Opens a trip on the sheet as it is now.
    pub(super) fn change_sheet(&mut self, at: Instant, draft: &SheetDraft, goes: GoesAlong) -> Result<Vec<String>, Refusal> {
        let before = self.trip.as_ref().filter(|_| goes != GoesAlong::Nothing);
        let had_fix = before.is_some_and(|trip| trip.fix.is_some() || trip.open.is_some());
        let ground = before.filter(|_| goes == GoesAlong::Heights).and_then(|trip| trip.ground.clone());
        let before_was = before.is_some();
        let put_away = self.put_away(draft);
        let mut told = vec![self.begin_trip(at, draft, ground)?];
        told.extend(put_away);
        told.extend(had_fix.then(|| Message::new("import-fix-anew")));
        told.extend(before_was.then(|| Message::new("sheet-undo")));
        told.extend(line_to_come(draft));
        let mut said: Vec<String> = told.iter().map(|message| self.words.say(message)).collect();
        if let Some(trip) = &self.trip {
            said.extend(questions::grid_told(&trip.sheet, draft.grid.is_some()).iter().map(|message| self.words.say(message)));
            said.extend(self.words.paper(&trip.sheet.paper, Some(at.decimal_year())));
            said.extend(self.words.spots(&trip.sheet.paper, trip.ground.as_ref().map(|ground| &*ground.heights)));
            said.extend(show::norths_told(&trip.sheet, at, &self.words));
        }
        Ok(said)
    }
}

/// What is told of a sheet without a line: landmarks alone serve in the open.
pub(super) fn line_to_come(draft: &SheetDraft) -> Option<Message> {
    draft.lines.is_empty().then(|| Message::new("sheet-line-to-come"))
}

/// What completes what is typed onto a sheet, or onto a new one: the beginning that is told with it, else what the sheet says.
pub(super) fn typing_terms<'a>(sheet: Option<&'a Sheet>, grid: Option<&'a Grid>, beginning: Option<&'a str>) -> Terms<'a> {
    let of_sheet = sheet.map_or_else(Terms::default, Sheet::terms);
    Terms { beginning, grid: grid.or(of_sheet.grid), ..of_sheet }
}

/// What of the sheet before goes along to the changed one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum GoesAlong {
    /// It is the same sheet, with its heights.
    Heights,
    /// It is the same sheet, and its heights were struck.
    WithoutHeights,
    /// It is a new sheet.
    Nothing,
}

impl GoesAlong {
    /// A sheet under a name is a new one.
    pub(super) fn of(name: Option<&str>) -> Self {
        if name.is_some() { Self::Nothing } else { Self::Heights }
    }
}

fn same_name(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

/// Whether heights from these files, joined by commas, are called so.
fn is_file_of(source: &str, name: &str) -> bool {
    same_name(source, name) || source.split(", ").any(|file| same_name(file, name))
}

/// Takes what has a name off; whether there was any.
fn struck_from(draft: &mut SheetDraft, name: &str) -> bool {
    let count = |draft: &SheetDraft| draft.lines.len() + draft.known_points.len() + draft.landmarks.len() + draft.paper.spots.len();
    let before = count(draft);
    draft.lines.retain(|line| !same_name(&line.name, name));
    draft.known_points.retain(|known| !same_name(&known.name, name) && !same_name(&known.on, name));
    draft.landmarks.retain(|mark| !same_name(&mark.name, name));
    draft.paper.spots.retain(|spot| !same_name(&spot.called(), name));
    count(draft) != before
}
