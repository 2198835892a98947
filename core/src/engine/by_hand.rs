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
        strike(&mut draft, &record.strike)?;
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
        let continued = add_typed(&mut draft, &typed, &terms)?;
        let mut said = self.change_sheet(at, &draft, record.name.is_none())?;
        said.extend(continued.iter().map(|one| self.words.say(&one.message())));
        Ok(Done::said(said))
    }

    /// The draft to be added to: a new one under a name, else that of the open trip.
    pub(super) fn draft_under(&self, head: &Head<'_>) -> Result<SheetDraft, Refusal> {
        may_change(self)?;
        let mut draft = match head.name.map(str::trim) {
            Some("") => return Err(Refusal::plain("sheet-name-needed")),
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

    /// Opens a trip on the sheet as it is now; the heights go along when it is the same sheet.
    pub(super) fn change_sheet(&mut self, at: Instant, draft: &SheetDraft, same: bool) -> Result<Vec<String>, Refusal> {
        if draft.lines.is_empty() && draft.landmarks.is_empty() {
            return Err(Refusal::plain("sheet-place-needed"));
        }
        let before = self.trip.as_ref().filter(|_| same);
        let had_fix = before.is_some_and(|trip| trip.fix.is_some() || trip.open.is_some());
        let ground = before.and_then(|trip| trip.ground.clone());
        let mut told = vec![self.begin_trip(at, draft, ground)?];
        told.extend(had_fix.then(|| Message::new("import-fix-anew")));
        told.extend(draft.lines.is_empty().then(|| Message::new("sheet-line-to-come")));
        let mut said: Vec<String> = told.iter().map(|message| self.words.say(message)).collect();
        if let Some(trip) = &self.trip {
            said.extend(questions::grid_told(&trip.sheet, draft.grid.is_some()).iter().map(|message| self.words.say(message)));
            said.extend(self.words.paper(&trip.sheet.paper));
            said.extend(self.words.spots(&trip.sheet.paper, trip.ground.as_ref().map(|ground| &*ground.heights)));
            said.extend(show::norths_told(&trip.sheet, at, &self.words));
        }
        Ok(said)
    }
}

/// What completes what is typed onto a sheet, or onto a new one: the beginning that is told with it, else what the sheet says.
pub(super) fn typing_terms<'a>(sheet: Option<&'a Sheet>, grid: Option<&'a Grid>, beginning: Option<&'a str>) -> Terms<'a> {
    let of_sheet = sheet.map_or_else(Terms::default, Sheet::terms);
    Terms { beginning, grid: grid.or(of_sheet.grid), ..of_sheet }
}

/// Takes lines with their known points, known points and landmarks off by name.
fn strike(draft: &mut SheetDraft, names: &[String]) -> Result<(), Refusal> {
    for name in names {
        let is = |known: &str| known.trim().to_lowercase() == name.trim().to_lowercase();
        let count = |draft: &SheetDraft| draft.lines.len() + draft.known_points.len() + draft.landmarks.len();
        let before = count(draft);
        draft.lines.retain(|line| !is(&line.name));
        draft.known_points.retain(|known| !is(&known.name) && !is(&known.on));
        draft.landmarks.retain(|mark| !is(&mark.name));
        draft.paper.spots.retain(|spot| !spot.name.as_deref().is_some_and(is));
        if count(draft) == before {
            return Err(Refusal::new(Message::new("sheet-strike-unknown").text("name", name.clone())));
        }
    }
    Ok(())
}
