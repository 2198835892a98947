//! Takes a file in: lines and landmarks onto the sheet, heights under it.

use super::answer::Answer;
use super::by_hand::line_to_come;
use super::commands::Done;
use super::import_file::{asks_for_log, features, stem, unreadable};
use super::import_terms::{bounds, grid_minded, grids_minded, is_from_ellipsoid, system_of};
use super::replaced::{may_join, may_replace};
use super::{Engine, Refusal, Reply, show};
use crate::earth::Instant;
use crate::exchange::{
    Added, CommonPosts, Cover, FarRecord, Format, HeightSource, HeightsDoubt, HeightsFileError, ImportError, Seam, WantedHeights, doubted,
    is_heights, join_heights, read_part,
};
use crate::ground::{HeightSpread, Heights};
use crate::logbook::HeightsOrigin;
use crate::measure::{Arg, Message, Telling};
use crate::sheet::SheetDraft;

/// Heights are kept this far around everything on the sheet, metres: ground behind a landmark does not hide it.
const HEIGHTS_BEYOND_M: f64 = 2000.0;

/// A file that is brought in.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Brought<'a> {
    /// When, RFC 3339.
    pub at: Option<&'a str>,
    /// The file's name, without its folders.
    pub name: &'a str,
    /// What is in it.
    pub bytes: &'a [u8],
    /// The grid of heights whose file does not say it; `EPSG:4326` for degrees.
    pub grid: Option<&'a str>,
    /// South, west, north and east border of what is wanted, degrees.
    pub area_deg: Option<&'a [f64]>,
    /// Kinds of lines and landmarks that are wanted; all when absent.
    pub kinds: Option<&'a [String]>,
    /// Where heights come from: srtm, aster, third-arc-second or laser; by the file when absent.
    pub source: Option<&'a str>,
    /// What covers the ground there: open or forest.
    pub cover: Option<&'a str>,
    /// Whom to name for the data.
    pub credit: Option<&'a str>,
    /// The text of the `.prj` file beside an ASCII grid.
    pub prj: Option<&'a str>,
    /// Whether the caller has looked beside a GeoPackage and found no log of it.
    pub has_no_log: bool,
}

/// Told how much is done, 0 to 1; answers whether to go on.
pub type GoesOn<'a> = dyn FnMut(f64) -> bool + 'a;

impl Engine {
    /// Takes a file in, like a record: lines and landmarks, or heights.
    ///
    /// # Errors
    /// A [`Refusal`] names the record of the file that is wrong; nothing was changed then.
    pub fn bring(&mut self, file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Reply, Refusal> {
        self.replied(|engine| engine.change(|engine| engine.import(file, goes_on)))
    }

    pub(super) fn import(&mut self, file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Done, Refusal> {
        let at = self.time(file.at.map(str::to_owned).as_ref())?;
        if let Some(trouble) = &self.trouble {
            return Err(trouble.clone());
        }
        may_change(self)?;
        let done = match unreadable(file.bytes) {
            _ if Format::sniffed(file.bytes).is_some() => self.import_features(at, file, goes_on),
            Some(why) => Err(Refusal::named(why, file.name)),
            None => self.import_heights(at, file, goes_on),
        }?;
        // What was written so far is none before the change is kept.
        if goes_on(1.0) { Ok(done) } else { Err(ImportError::Stopped.into()) }
    }

    fn import_features(&mut self, at: Instant, file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Done, Refusal> {
        let features = features(file, goes_on)?;
        // Together with what lies there already it may be the sheet's own lines that seem too far off.
        let far = features.far_from(self.trip.as_ref().map(|trip| trip.sheet.frame.origin()));
        let of_place = |refusal: &Refusal, far: &FarRecord| match refusal.code() {
            "sheet-too-wide" => true,
            "place-outside-grid" | "sheet-at-pole" => far.is_beyond(),
            _ => false,
        };
        let left_out = LeftOut { of: features.records, records: features.left_out, layers: features.minded.layers_left_out() };
        let mut of_file = features.minded.clone();
        let mut minded = grids_minded(&features.grids);
        minded.extend((file.grid.or(file.source).or(file.cover).is_some()).then(|| Message::new("import-terms-of-heights")));
        minded.extend((asks_for_log(file.bytes) && !file.has_no_log).then(|| Message::new("import-log-unseen")));
        let assumed = features.assumed();
        let (mut draft, added) = match self.logbook.newest_trip()? {
            Some(rows) => {
                let mut draft = rows.sheet;
                minded.extend(features.header.differs_from(&draft).then(|| Message::new("import-head-unused")));
                minded.extend(features.far_off(&draft).map(|far| far.message()));
                let added = features.add_to(&mut draft);
                (draft, added)
            }
            None => features.into_draft(stem(file.name)),
        };
        let credit = credit_of(file);
        let (answer, told) = came_in(file.name, &added, left_out, credit)?;
        of_file.called_on(&draft);
        minded.splice(..0, of_file.messages());
        minded.extend((added.landmarks > 0).then(|| assumed.message(&draft)).flatten());
        minded.extend(added.differing());
        if added.is_nothing() {
            let said = std::iter::once(&told).chain(&minded).map(|message| self.words.say(message)).collect();
            return Ok(Done::answered(said, answer));
        }
        if !goes_on(1.0) {
            return Err(ImportError::Stopped.into());
        }
        let had_fix = self.trip.as_ref().is_some_and(|trip| trip.fix.is_some() || trip.open.is_some());
        let credited = credit.map(|whom| Message::new("sheet-credit").text("credit", whom));
        draft.paper.credit(credit.unwrap_or_default());
        let ground = self.trip.as_ref().and_then(|trip| trip.ground.clone());
        let carried = self.begin_trip(at, &draft, ground).map_err(|refusal| match &far {
            Some(far) if of_place(&refusal, far) => Refusal::new(far.message()),
            Some(_) | None => refusal,
        })?;
        let mut said: Vec<String> =
            std::iter::once(told).chain(minded).chain([carried]).chain(credited).map(|message| self.words.say(&message)).collect();
        said.extend(line_to_come(&draft).map(|message| self.words.say(&message)));
        if had_fix {
            said.push(self.words.say(&Message::new("import-fix-anew")));
        }
        said.push(self.words.say(&Message::new("sheet-undo")));
        said.extend(self.trip.iter().flat_map(|trip| show::norths_told(&trip.sheet, at, &self.words)));
        Ok(Done::answered(said, answer))
    }

    fn import_heights(&mut self, at: Instant, file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Done, Refusal> {
        if !is_heights(file.name, file.bytes) {
            return Err(Refusal::named("import-neither", file.name));
        }
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let bounds = file.area_deg.map_or_else(|| Ok(trip.sheet.bounds(HEIGHTS_BEYOND_M)), bounds)?;
        let source = file.source.map(|word| HeightSource::named(word).ok_or_else(|| Refusal::named("heights-source-unknown", word)));
        let cover = file.cover.map(|word| Cover::named(word).ok_or_else(|| Refusal::named("heights-cover-unknown", word)));
        let (lattice, unit_m) = system_of(file)?;
        let wanted = WantedHeights {
            bounds: Some(bounds),
            lattice,
            unit_m,
            source: source.transpose()?,
            cover: cover.transpose()?.unwrap_or_default(),
            void: None,
        };
        let (named, source) = (wanted.lattice.clone(), wanted.source);
        let read = read_part(file.name, file.bytes, &wanted, &mut |share| {
            if goes_on(share) { std::ops::ControlFlow::Continue(()) } else { std::ops::ControlFlow::Break(()) }
        });
        let (heights, left_out) = read?;
        let (heights, mut doubts) = doubted(file.bytes, heights)?;
        if file.grid.or(file.prj).is_some_and(is_from_ellipsoid) && !doubts.contains(&HeightsDoubt::Ellipsoidal) {
            doubts.push(HeightsDoubt::Ellipsoidal);
        }
        let is_ellipsoidal = doubts.contains(&HeightsDoubt::Ellipsoidal);
        let mut minded = grid_minded(heights.layout(), named.as_ref(), file);
        let (east_m, south_m) = heights.layout().spacing_in_middle_m()?;
        minded.extend(source.and_then(|source| source.other_spacing(east_m.max(south_m))).map(|other| other.message()));
        if trip.closed {
            let draft = self.sheet_of_trip()?;
            let ground = trip.ground.clone();
            self.begin_trip(at, &draft, ground)?;
        }
        let (answer, told) = self.keep_heights(at, file, (heights, left_out), is_ellipsoidal)?;
        // The trip is reckoned anew, so that it says the same as after it is resumed.
        self.reload()?;
        let doubts = doubts.iter().map(Telling::message);
        let unused = file.kinds.map(|_| Message::new("import-terms-of-features"));
        let mut said: Vec<String> =
            told.into_iter().chain(minded).chain(unused).chain(doubts).map(|message| self.words.say(&message)).collect();
        if let Some(trip) = &self.trip {
            said.extend(self.words.spots(&trip.sheet.paper, trip.ground.as_ref().map(|ground| &*ground.heights)));
        }
        Ok(Done::answered(said, answer))
    }

    fn sheet_of_trip(&self) -> Result<SheetDraft, Refusal> {
        Ok(self.logbook.newest_trip()?.ok_or_else(|| Refusal::plain("sheet-needed"))?.sheet)
    }

    /// Stores heights together with those that are there, where they go together.
    fn keep_heights(
        &mut self,
        at: Instant,
        file: &Brought<'_>,
        (heights, left_out_share): (Heights, f64),
        is_ellipsoidal: bool,
    ) -> Result<(Answer, Vec<Message>), Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let credit = file.credit.map(str::trim).unwrap_or_default();
        let (mut origin, mut told) =
            (HeightsOrigin { source: file.name.to_owned(), credit: credit.to_owned(), is_ellipsoidal }, Vec::new());
        let (new, own) = (heights.layout().clone(), heights.spread());
        let gaps = gaps_told(&heights);
        let whole = match &trip.ground {
            None => heights,
            Some(ground) => match join_heights(&[&heights, &ground.heights]) {
                Ok(joined) => {
                    let common = CommonPosts::of(&heights, &ground.heights);
                    common.iter().try_for_each(|common| may_join(file.name, common, ground))?;
                    let wider = joined.spread().sigma_m > own.sigma_m;
                    let message = Message::new("import-heights-joined").text("source", ground.row.origin.source.clone());
                    told.push(
                        message.with("spread", Arg::Height(joined.spread().sigma_m, 1)).text("wider", if wider { "yes" } else { "no" }),
                    );
                    let seam = if common.is_none() { Seam::of(&heights, &ground.heights) } else { None };
                    told.extend(common.map(|common| common.message()).or(seam.map(|seam| seam.message())));
                    origin = joined_origin(origin, &ground.row.origin);
                    joined
                }
                Err(HeightsFileError::TilesDiffer(_)) => {
                    may_replace(file.name, &heights, ground)?;
                    told.push(Message::new("import-heights-instead").text("source", ground.row.origin.source.clone()));
                    heights
                }
                Err(error) => return Err(error.into()),
            },
        };
        self.logbook.store_heights(trip.id, &whole, &origin, at)?;
        let (spacing_east_m, spacing_south_m) = new.spacing_in_middle_m()?;
        let came = Message::new("import-heights")
            .text("name", file.name)
            .with("columns", Arg::Count(new.columns as i64))
            .with("rows", Arg::Count(new.rows as i64))
            .text("even", if (spacing_east_m.round() - spacing_south_m.round()).abs() < 0.5 { "yes" } else { "no" })
            .with("east", Arg::Metres(spacing_east_m))
            .with("south", Arg::Metres(spacing_south_m))
            .with("spread", Arg::Height(own.sigma_m, 1));
        told.insert(0, came);
        told.extend(gaps);
        told.extend(left_out_told(left_out_share, file.area_deg.is_some()));
        told.push(Message::new("heights-undo").text("source", origin.source.clone()));
        let credit = Some(origin.credit).filter(|credit| !credit.is_empty());
        told.extend(credit.iter().map(|credit| Message::new("heights-credit").text("credit", credit.clone())));
        let HeightSpread { sigma_m, correlation_m } = whole.spread();
        let (columns, rows) = (show::small(new.columns), show::small(new.rows));
        let spread_m = sigma_m;
        let answer =
            Answer::ImportedHeights { columns, rows, spacing_east_m, spacing_south_m, spread_m, correlation_m, left_out_share, credit };
        Ok((answer, told))
    }
}

/// A smaller share of heights without one is told as less than this.
const FEW_GAPS: f64 = 0.001;

/// How many of the heights that are kept are none.
fn gaps_told(heights: &Heights) -> Option<Message> {
    let values = heights.values_m();
    let share = values.iter().filter(|value| value.is_nan()).count() as f64 / values.len().max(1) as f64;
    let few = if share < FEW_GAPS { "yes" } else { "no" };
    (share > 0.0).then(|| Message::new("import-heights-gaps").with("share", Arg::Share(share)).text("few", few))
}

/// How much of a file of heights was left out, and how far round the sheet or in what area the others were kept.
fn left_out_told(share: f64, has_area: bool) -> Option<Message> {
    let message = Message::new("import-heights-left-out").with("share", Arg::Share(share)).with("beyond", Arg::Metres(HEIGHTS_BEYOND_M));
    (share > 0.0).then(|| message.text("by", if has_area { "area" } else { "sheet" }))
}

fn joined_origin(new: HeightsOrigin, old: &HeightsOrigin) -> HeightsOrigin {
    let joined = |old: &str, new: &str| {
        let mut all: Vec<&str> = old.split(", ").filter(|one| !one.is_empty()).collect();
        if !new.is_empty() && !all.contains(&new) {
            all.push(new);
        }
        all.join(", ")
    };
    HeightsOrigin {
        source: joined(&old.source, &new.source),
        credit: joined(&old.credit, &new.credit),
        is_ellipsoidal: old.is_ellipsoidal || new.is_ellipsoidal,
    }
}

/// What of a file is not taken: records, and whole layers.
#[derive(Debug, Clone, Copy)]
struct LeftOut {
    records: usize,
    /// All records that the file has.
    of: usize,
    layers: usize,
}

/// What came in from a file; a file of nothing is refused, one of which all is there already changes nothing.
fn came_in(name: &str, added: &Added, left: LeftOut, credit: Option<&str>) -> Result<(Answer, Message), Refusal> {
    let Added { lines, landmarks, known_points, already, .. } = *added;
    if added.is_nothing() && already == 0 {
        return Err(Refusal::new(Message::new("import-nothing").text("name", name).with("left", Arg::Count(left.records as i64))));
    }
    let id = if added.is_nothing() { "import-all-there" } else { "import-features" };
    let told = Message::new(id)
        .text("name", name)
        .with("lines", Arg::Count(lines as i64))
        .with("landmarks", Arg::Count(landmarks as i64))
        .with("known", Arg::Count(known_points as i64))
        .with("already", Arg::Count(already as i64))
        .with("left", Arg::Count(left.records as i64))
        .with("records", Arg::Count(left.of as i64))
        .with("layers", Arg::Count(left.layers as i64))
        .text("both", if left.records > 0 && left.layers > 0 { "yes" } else { "no" });
    let [lines, landmarks, known_points, already, left_out] = [lines, landmarks, known_points, already, left.records].map(show::small);
    Ok((Answer::ImportedFeatures { lines, landmarks, known_points, already, left_out, credit: credit.map(str::to_owned) }, told))
}

/// Whom to name for lines and landmarks: whom the caller names, else whom the licence of the format's data asks for.
///
/// # References
/// Open Database License 1.0, 4.3; the attribution guideline of the OpenStreetMap Foundation (2021), from memory.
fn credit_of<'a>(file: &Brought<'a>) -> Option<&'a str> {
    let by_format = (Format::sniffed(file.bytes) == Some(Format::OsmPbf)).then_some("OpenStreetMap contributors (ODbL 1.0)");
    file.credit.map(str::trim).filter(|credit| !credit.is_empty()).or(by_format)
}

/// Whether the sheet may change: not under a kept place.
pub(super) fn may_change(engine: &Engine) -> Result<(), Refusal> {
    let kept = engine.trip.as_ref().is_some_and(|trip| trip.car.is_some() && !trip.closed);
    if kept { Err(Refusal::plain("import-car-kept")) } else { Ok(()) }
}
