//! What each record does: check, write, take in, tell.

use super::answer::Answer;
use super::by_hand::line_to_come;
use super::ground::SeenQuestion;
use super::import::Brought;
use super::import_terms::grids_minded;
use super::light::LightQuestion;
use super::observe::refuse_contradiction;
use super::phone::{Felt, Received};
use super::record::{LegRecord, Record};
use super::record_sighting::SightingRecord;
use super::relief::ContoursQuestion;
use super::state::{Ground, Taken, Trip};
use super::{Engine, Refusal, draw, questions, show, show_after, show_open, understand};
use crate::chart::{DisplayList, Size, svg};
use crate::earth::{DecimalYear, Instant, Terms, read_place};
use crate::exchange::{SheetFormat, SheetRead, checked_size, read_base64, read_sheet};
use crate::fix::Instrument;
use crate::logbook::{Entry, FixRow, KeptEntry, LogbookError, Witness};
use crate::measure::{Arg, Message};
use crate::sheet::{Sheet, SheetDraft};
use crate::travel::Pace;
use crate::words::date_told;

/// What a command did, before it is shown.
pub(super) struct Done {
    pub(super) said: Vec<String>,
    pub(super) way_back: bool,
    pub(super) answer: Option<Answer>,
}

impl Done {
    pub(super) fn answered(said: Vec<String>, answer: Answer) -> Self {
        Self { said, way_back: false, answer: Some(answer) }
    }

    pub(super) fn said(said: Vec<String>) -> Self {
        Self { said, way_back: false, answer: None }
    }
}

impl Engine {
    /// Carries a record out.
    pub(super) fn carry_out(&mut self, record: &Record) -> Result<Done, Refusal> {
        match record {
            Record::Carry { at, format, text } => self.carry(at.as_ref(), format, text),
            Record::Import { at, name, base64, grid, area_deg, kinds, source, cover, credit } => {
                let bytes = read_base64(base64)?;
                let (at, grid) = (at.as_deref(), grid.as_deref());
                let (source, cover, credit) = (source.as_deref(), cover.as_deref(), credit.as_deref());
                let (area_deg, kinds) = (area_deg.as_deref(), kinds.as_deref());
                let file = Brought { at, name, bytes: &bytes, grid, area_deg, kinds, source, cover, credit, ..Brought::default() };
                self.import(&file, &mut |_| true)
            }
            Record::Sheet(sheet) => self.sheet_by_hand(sheet),
            Record::Photo(photo) => self.photo(photo),
            Record::Pace { at, double_paces_per_100_m, single_paces_per_100_m, spread_percent } => {
                let pace = understand::pace(*double_paces_per_100_m, *single_paces_per_100_m, *spread_percent)?;
                self.pace(at.as_ref(), pace)
            }
            Record::Fix { at, line, lines, line_odds, open, instrument, sightings } => {
                let open = open.unwrap_or(false);
                let on = On { line: line.as_deref(), lines: lines.as_deref(), odds: line_odds.as_deref(), open };
                self.fix(at.as_ref(), &on, instrument.as_deref(), sightings)
            }
            Record::Check { at, place, spread_m } => self.check(at.as_ref(), place, *spread_m),
            Record::Keep { at, stretch, name } => self.keep(at.as_ref(), *stretch, name.as_deref()),
            Record::Leg(leg) => self.leg(leg),
            Record::Where { at } => self.here(at.as_ref()),
            Record::Sights { named } => self.sights(named),
            Record::Lines { named } => self.lines(named),
            Record::Points(asked) => self.points(asked),
            Record::Back { at } => self.back(at.as_ref()),
            Record::TurnRound { at } => self.turn_round(at.as_ref()),
            Record::Reached { at } => self.reached(at.as_ref()),
            Record::Draft { text } => self.draft(text),
            Record::Undo { at } => self.undo(at.as_ref()),
            Record::Close { at } => self.close(at.as_ref()),
            Record::Chart { of, theme } => self.chart(of, theme.as_deref()),
            Record::Compass(compass) => self.compass(compass),
            Record::Attraction { at, place, field_ut, up, down } => {
                let felt = Felt { place: place.as_deref(), field_ut, up: up.as_ref(), down: down.as_ref() };
                self.attraction(at.as_ref(), &felt)
            }
            Record::Witness { at, lat_deg, lon_deg, accuracy_m, seen_at } => {
                self.witness(at.as_ref(), &Received { lat_deg: *lat_deg, lon_deg: *lon_deg, accuracy_m: *accuracy_m, seen_at })
            }
            Record::Seen { at, place, eye_m, within_m, to } => {
                self.seen(&SeenQuestion { at: at.as_ref(), place: place.as_deref(), eye_m: *eye_m, within_m: *within_m, to: to.as_deref() })
            }
            Record::Profile { from, to, step_m, eye_m } => self.profile(from, to, *step_m, *eye_m),
            Record::Ground { at, place, to } => self.ground_at(at.as_ref(), place.as_deref(), to.as_deref()),
            Record::Contours { interval_m, interval_ft, svg, theme } => {
                self.contours(&ContoursQuestion { interval_m: *interval_m, interval_ft: *interval_ft, svg: *svg, theme: theme.as_deref() })
            }
            Record::Light { at, place, height_m, pressure_hpa, temperature_c } => self.light(&LightQuestion {
                place,
                at: at.as_ref(),
                height_m: *height_m,
                pressure_hpa: *pressure_hpa,
                temperature_c: *temperature_c,
            }),
            Record::Norths { .. }
            | Record::Place { .. }
            | Record::Between { .. }
            | Record::Mean { .. }
            | Record::Turn(_)
            | Record::Reckon { .. } => {
                let sheet = self.trip.as_ref().map(|trip| &trip.sheet);
                let printed = sheet.and_then(|sheet| sheet.printed.as_ref());
                let (answer, mut told) = questions::answer(record, &sheet.map_or_else(Terms::default, Sheet::terms), printed)?;
                told.extend(questions::doubts_of(record, sheet));
                told.extend(questions::grid_lies(&answer));
                told.extend(self.kept_minded(record, &answer));
                let mut said: Vec<String> = told.iter().map(|message| self.words.say(message)).collect();
                said.extend(self.age_of_map(record));
                Ok(Done::answered(said, answer))
            }
        }
    }

    /// How old the open sheet's map is, where norths are asked and that matters.
    fn age_of_map(&self, record: &Record) -> Option<String> {
        let Record::Norths { date, .. } = record else { return None };
        let year = DecimalYear::parse(date).ok()?.years();
        self.words.paper_age(&self.trip.as_ref()?.sheet.paper, year)
    }

    /// The time of a record, which is then the present.
    pub(super) fn time(&mut self, at: Option<&String>) -> Result<Instant, Refusal> {
        let at = understand::instant(at)?;
        self.now = Some(at);
        Ok(at)
    }

    fn carry(&mut self, at: Option<&String>, format: &str, text: &str) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        if self.trip.as_ref().is_some_and(|trip| trip.car.is_some() && !trip.closed) {
            return Err(Refusal::plain("trip-open"));
        }
        let format = match format {
            "geojson" => SheetFormat::GeoJson,
            "toml" => SheetFormat::Toml,
            other => return Err(Refusal::named("sheet-format-unknown", other)),
        };
        let SheetRead { draft, minded, grids } = read_sheet(text, format)?;
        let put_away = self.put_away(&draft);
        let mut messages = vec![self.begin_trip(at, &draft, None)?];
        messages.extend(put_away);
        messages.extend(self.trip.iter().flat_map(|trip| questions::grid_told(&trip.sheet, draft.grid.is_some())));
        messages.extend(minded);
        messages.extend(grids_minded(&grids));
        messages.extend(line_to_come(&draft));
        let norths = self.trip.as_ref().map_or_else(Vec::new, |trip| show::norths_told(&trip.sheet, at, &self.words));
        let paper = self.trip.as_ref().map_or_else(Vec::new, |trip| self.words.paper(&trip.sheet.paper, Some(at.decimal_year())));
        Ok(Done::said(messages.iter().map(|message| self.words.say(message)).chain(paper).chain(norths).collect()))
    }

    /// Opens a trip on a sheet, with heights that are there already when they go along.
    pub(super) fn begin_trip(&mut self, at: Instant, draft: &SheetDraft, ground: Option<Ground>) -> Result<Message, Refusal> {
        checked_size(draft)?;
        let sheet = Sheet::build(draft)?;
        let measured = self.trip.as_ref().map_or_else(Vec::new, Trip::measured);
        let mut trip = Trip::new(self.logbook.open_trip(draft, at)?, sheet);
        if let Some(ground) = ground {
            self.logbook.take_heights_along(ground.row.id, trip.id)?;
            trip.ground = self.logbook.heights_of_trip(trip.id)?.into_iter().next().map(|row| Ground { row, ..ground });
        }
        let told = Message::new("carried")
            .text("name", trip.sheet.name.clone())
            .with("lines", Arg::Count(trip.sheet.lines.len() as i64))
            .with("landmarks", Arg::Count(trip.sheet.landmarks.len() as i64))
            .text("grid", trip.sheet.grid.name());
        self.hold(Some(trip), None);
        self.revision += 1;
        // The walker is the same: pace and compass that were measured go along.
        for entry in measured {
            self.enter(at, entry)?;
        }
        Ok(told)
    }

    /// Why there is no trip: its own trouble, or nothing was carried.
    pub(super) fn no_trip(&self) -> Refusal {
        self.trouble.clone().unwrap_or_else(|| Refusal::plain("sheet-needed"))
    }

    /// The trip that may still be added to.
    pub(super) fn open_trip(&self) -> Result<&Trip, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        if trip.closed { Err(Refusal::plain("trip-needed")) } else { Ok(trip) }
    }

    /// Writes an entry, then takes it into the trip.
    pub(super) fn enter(&mut self, at: Instant, entry: Entry) -> Result<(), Refusal> {
        let trip = self.trip.as_mut().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let id = self.logbook.add(trip.id, at, &entry)?;
        self.revision += 1;
        trip.apply(id, at, entry)
    }

    fn pace(&mut self, at: Option<&String>, pace: Pace) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        let has_legs = !self.open_trip()?.legs.is_empty();
        self.enter(at, Entry::Pace(pace))?;
        let told = Message::new("pace-set")
            .text("has-legs", if has_legs { "yes" } else { "no" })
            .with("count", Arg::Number(pace.double_per_100_m, 1))
            .with("spread", Arg::Number(pace.double_95_per_100_m(), 1));
        Ok(Done::said(vec![self.words.say(&told)]))
    }

    fn fix(&mut self, at: Option<&String>, on: &On<'_>, instrument: Option<&str>, sightings: &[SightingRecord]) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        refuse_contradiction(sightings)?;
        let trip = self.open_trip()?;
        let (row, taken) = observe(trip, at, on, instrument, sightings)?;
        let typed = sightings.iter().filter_map(SightingRecord::typed_place);
        let doubts: Vec<Message> = typed.filter_map(|place| questions::doubt_on(place, Some(&trip.sheet))).collect();
        let (minded, pieces) = (show::norths_minded(&trip.sheet, at, &self.words), pieces_told(on, &trip.sheet));
        let id = self.logbook.add(trip.id, at, &Entry::Fix(row))?;
        let (mut said, compass) = match &taken {
            Taken::OnLine(taken) => (self.words.fix(&taken.fix, &taken.report, &taken.slips, &taken.next), &taken.compass),
            Taken::InTheOpen(taken) => (show_open::said(taken, &self.words), &taken.compass),
        };
        said.extend(pieces.map(|message| self.words.say(&message)));
        said.extend(compass.as_ref().map(|compass| self.words.compass_taken_off(compass.row.error_deg, compass.row.error_spread_deg)));
        said.extend(doubts.iter().map(|doubt| self.words.say(doubt)));
        said.extend(minded);
        if let Some(trip) = self.trip.as_mut() {
            trip.put_fix(id, taken);
        }
        self.revision += 1;
        Ok(Done::said(said))
    }

    fn keep(&mut self, at: Option<&String>, stretch: Option<u32>, name: Option<&str>) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        let trip = self.open_trip()?;
        if trip.car.is_some() {
            return Err(Refusal::plain("already-kept"));
        }
        let (stretch, fix_entry) = (stretch.unwrap_or(1) as usize, trip.fix_entry);
        let name = name.map(str::trim).filter(|name| !name.is_empty()).unwrap_or("car").to_owned();
        let kept = KeptEntry { name, fix_entry, stretch };
        let car = trip.kept(&kept)?;
        let mut said = self.words.kept(&car.name, car.reference(), car.half_width_95_m(), car.line().is_some());
        said.extend(trip.unsure(&kept).into_iter().chain(car.doubt()).map(|message| self.words.say(&message)));
        self.enter(at, Entry::Keep(kept))?;
        Ok(Done::said(said))
    }

    fn leg(&mut self, record: &LegRecord) -> Result<Done, Refusal> {
        let at = self.time(record.at.as_ref())?;
        let trip = self.open_trip()?;
        if trip.car.is_none() {
            return Err(Refusal::plain("keep-needed"));
        }
        if trip.back.is_some() {
            return Err(Refusal::plain("way-back-begun"));
        }
        self.enter(at, Entry::Leg(understand::leg(record)?))?;
        Ok(Done::said(self.last_leg_said()))
    }

    fn last_leg_said(&self) -> Vec<String> {
        let Some(trip) = &self.trip else { return Vec::new() };
        let walk = trip.walk();
        let end = walk.as_ref().and_then(|(_, walk)| walk.ends.last());
        let told = trip.legs.last().zip(end).map(|((_, leg), end)| self.words.leg(trip.legs.len(), leg, end, &trip.pace));
        told.into_iter().collect()
    }

    fn walked_trip(&self) -> Result<&Trip, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        if trip.car.is_some() { Ok(trip) } else { Err(Refusal::plain("keep-needed")) }
    }

    fn here(&mut self, at: Option<&String>) -> Result<Done, Refusal> {
        at.map(|_| self.time(at)).transpose()?;
        let (car, walk, here) = self.walked_trip()?.here().ok_or_else(|| Refusal::plain("keep-needed"))?;
        let mut said = self.words.here(&here, walk.walked_m, &car.name);
        said.extend(car.doubt().into_iter().chain(date_told(&car.norths)).map(|message| self.words.say(&message)));
        Ok(Done::said(said))
    }

    fn back(&mut self, at: Option<&String>) -> Result<Done, Refusal> {
        at.map(|_| self.time(at)).transpose()?;
        let trip = self.walked_trip()?;
        if trip.legs.is_empty() {
            return Err(Refusal::plain("leg-needed"));
        }
        let (car, _, way) = trip.way_back().ok_or_else(|| Refusal::plain("keep-needed"))?;
        let along = show::miss_along(car, &way);
        let mut said = self.words.way_back(&way, &trip.pace, &car.name, along);
        said.extend(car.doubt().into_iter().chain(date_told(&car.norths)).map(|message| self.words.say(&message)));
        Ok(Done { said, way_back: true, answer: None })
    }

    fn check(&mut self, at: Option<&String>, place: &str, spread_m: Option<f64>) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        let trip = self.open_trip()?;
        let reading = read_place(place, &trip.sheet.terms())?;
        let spread_m = understand::bounded("spread_m", spread_m.unwrap_or(reading.spread_m()), (0.0, 10_000.0))?;
        let witness = Witness { typed: place.trim().into(), at: reading.at, spread_m };
        let held = trip.held_against(&witness)?;
        let (best, norths) = trip.held_at(&held).ok_or_else(|| Refusal::plain("fix-needed"))?;
        let mut said = self.words.check(&held.told(), &held.slips, best, norths);
        let minded = questions::read_on(&trip.sheet, &reading).into_iter().chain(questions::doubt_on(place, Some(&trip.sheet)));
        said.extend(minded.map(|caution| self.words.say(&caution)));
        self.enter(at, Entry::Check(witness))?;
        Ok(Done::said(said))
    }

    fn turn_round(&mut self, at: Option<&String>) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        let trip = self.open_trip()?;
        if trip.car.is_none() || trip.legs.is_empty() {
            return Err(Refusal::plain("leg-needed"));
        }
        if trip.back.is_some() {
            return Err(Refusal::plain("way-back-begun"));
        }
        self.enter(at, Entry::TurnRound)?;
        self.next_back_leg()
    }

    fn reached(&mut self, at: Option<&String>) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        let trip = self.open_trip()?;
        let walked = trip.back.ok_or_else(|| Refusal::plain("way-back-needed"))?;
        if walked >= trip.legs.len() {
            return Err(Refusal::plain("log-walked"));
        }
        self.enter(at, Entry::Reached)?;
        self.next_back_leg()
    }

    /// What comes next on the way back.
    fn next_back_leg(&self) -> Result<Done, Refusal> {
        let trip = self.walked_trip()?;
        let (car, _, way) = trip.way_back().ok_or_else(|| Refusal::plain("keep-needed"))?;
        let along = show::miss_along(car, &way);
        Ok(Done::said(self.words.next_back_leg(&way, trip.back.unwrap_or(0), &trip.pace, &car.name, along)))
    }

    fn draft(&mut self, text: &str) -> Result<Done, Refusal> {
        self.logbook.set_draft(text)?;
        Ok(Done::said(Vec::new()))
    }

    fn undo(&mut self, at: Option<&String>) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        let last = match &self.trip {
            Some(trip) => trip.last,
            // A trip that cannot be reckoned is mended by striking its last entry.
            None if self.trouble.is_some() => {
                self.logbook.newest_trip()?.and_then(|rows| rows.entries.last().map(|(id, ..)| (*id, "other")))
            }
            None => return Err(self.no_trip()),
        };
        let (entry, what) = last.ok_or_else(|| Refusal::plain("nothing-to-undo"))?;
        self.logbook.strike(entry, at)?;
        self.reload()?;
        Ok(Done::said(vec![self.words.say(&Message::new("undone").text("what", what))]))
    }

    fn close(&mut self, at: Option<&String>) -> Result<Done, Refusal> {
        let at = self.time(at)?;
        self.open_trip()?;
        self.enter(at, Entry::Close)?;
        let after = self.trip.as_ref().and_then(|trip| show_after::view(trip, &self.words));
        let closed = self.words.say(&Message::new("closed"));
        Ok(Done::said(std::iter::once(closed).chain(after.into_iter().flat_map(|after| after.told)).collect()))
    }

    fn chart(&self, of: &str, theme: Option<&str>) -> Result<Done, Refusal> {
        let theme = draw::theme(theme)?;
        let svg = svg(&self.chart_list(of, draw::desk_size(of))?, theme);
        let told = self.words.say(&Message::new("chart-drawn"));
        Ok(Done::answered(vec![told], Answer::Chart { svg }))
    }

    /// The chart of the last fix (`fix`) or of the walk (`walk`) as a display list.
    ///
    /// # Errors
    /// A [`Refusal`] when there is nothing to draw, or no such chart.
    pub fn chart_list(&self, of: &str, size: Size) -> Result<DisplayList, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| self.no_trip())?;
        for (name, side) in [("width", size.width), ("height", size.height), ("letters", size.letters)] {
            understand::bounded(name, side, (0.0, MOST_DP))?;
        }
        draw::chart(trip, of, &self.words, size)
    }
}

/// No screen is larger, dp.
const MOST_DP: f64 = 10_000.0;

/// The line that a fix is taken on, all that it may be, or none.
struct On<'a> {
    line: Option<&'a str>,
    lines: Option<&'a [String]>,
    odds: Option<&'a [f64]>,
    /// None: one stands in the open.
    open: bool,
}

impl On<'_> {
    /// Names as the sheet writes them, each with the walker's odds.
    fn named(&self, sheet: &Sheet) -> Result<Vec<(String, Option<f64>)>, Refusal> {
        if self.open {
            let names_none = self.line.is_none() && self.lines.is_none() && self.odds.is_none();
            return if names_none { Ok(Vec::new()) } else { Err(Refusal::plain("open-with-line")) };
        }
        let Some(names) = self.lines.filter(|names| !names.is_empty()) else {
            return Ok(sheet.whole(sheet.line(self.line)?).map(|line| (line.name.clone(), None)).collect());
        };
        if self.line.is_some() {
            return Err(Refusal::plain("lines-twice"));
        }
        if self.odds.is_some_and(|odds| odds.len() != names.len() || !odds.iter().all(|odds| odds.is_finite() && *odds > 0.0)) {
            return Err(Refusal::plain("line-odds"));
        }
        let mut named: Vec<(String, Option<f64>)> = Vec::new();
        for (index, name) in names.iter().enumerate() {
            let name = sheet.line(Some(name))?.name.clone();
            if named.iter().all(|(other, _)| *other != name) {
                named.push((name, self.odds.and_then(|odds| odds.get(index)).copied()));
            }
        }
        Ok(named)
    }
}

/// What is told where one name is that of several pieces.
fn pieces_told(on: &On<'_>, sheet: &Sheet) -> Option<Message> {
    let named = on.line.and_then(|name| sheet.line(Some(name)).ok())?;
    let pieces: Vec<&str> = sheet.whole(named).map(|line| line.name.as_str()).collect();
    let told = Message::new("fix-pieces").with("count", Arg::Count(pieces.len() as i64)).text("line", named.name.clone());
    (pieces.len() > 1)
        .then(|| told.text("first", pieces.first().copied().unwrap_or_default()).text("last", pieces.last().copied().unwrap_or_default()))
}

/// A sighting as the logbook keeps it; what could not be read again, as a number that is none, is refused.
fn written(nth: i64, sighting: &SightingRecord) -> Result<String, Refusal> {
    let json = serde_json::to_string(sighting).map_err(|error| LogbookError::Unwritable(error.to_string()))?;
    let is_sound = serde_json::from_str::<SightingRecord>(&json).is_ok_and(|again| again == *sighting);
    let refusal = || Refusal::new(Message::new("sighting-no-number").with("nth", Arg::Count(nth)));
    is_sound.then_some(json).ok_or_else(refusal)
}

/// Takes the fix that sightings give, and the row that the logbook keeps of it.
fn observe(
    trip: &Trip,
    at: Instant,
    on: &On<'_>,
    instrument: Option<&str>,
    sightings: &[SightingRecord],
) -> Result<(FixRow, Taken), Refusal> {
    let lines = on.named(&trip.sheet)?;
    let instrument = instrument.map_or(Ok(Instrument::Baseplate), Instrument::named)?;
    let observed = (1..).zip(sightings).map(|(nth, sighting)| written(nth, sighting)).collect::<Result<_, _>>()?;
    let at_origin = trip.sheet.frame.origin();
    let mut row = FixRow { line: String::new(), lines, instrument, observed, at: at_origin, along_m: 0.0, spread_along_m: 0.0 };
    let taken = trip.take(at, &row)?;
    match &taken {
        Taken::OnLine(taken) => {
            taken.fix.line().clone_into(&mut row.line);
            if let Some(best) = taken.report.places.first() {
                (row.at, row.along_m, row.spread_along_m) = (best.at, best.stretch.best.along_m, best.stretch.spread_m);
            }
        }
        Taken::InTheOpen(taken) => row.at = taken.report.places.first().map_or(at_origin, |best| best.at),
    }
    Ok((row, taken))
}
