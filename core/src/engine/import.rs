//! Takes a file in: lines and landmarks onto the sheet, heights under it.

use super::answer::Answer;
use super::by_hand::line_to_come;
use super::commands::Done;
use super::replaced::{may_join, may_replace};
use super::{Engine, Refusal, Reply, show, understand};
use crate::earth::{Flat, Grid, Instant, LatLon, System};
use crate::exchange::{
    Added, Area, CommonPosts, Continue, Cover, Features, Format, HeightSource, HeightsFileError, ImageFault, LandmarkKind, LineKind,
    Wanted, WantedHeights, doubted, is_heights, join_heights, read_features, read_part,
};
use crate::ground::{Bounds, HeightSpread, Heights, Lattice};
use crate::logbook::{HeightsOrigin, attached_features};
use crate::measure::{Arg, Message, Telling};
use crate::sheet::SheetDraft;

/// Heights are kept this far around everything on the sheet, metres: ground behind a landmark does not hide it.
const HEIGHTS_BEYOND_M: f64 = 2000.0;
/// Names of latitude and longitude on WGS 84.
const DEGREES: [&str; 3] = ["EPSG:4326", "4326", "OGC:CRS84"];

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
        if Format::sniffed(file.bytes).is_some() {
            return self.import_features(at, file, goes_on);
        }
        if let Some(why) = unreadable(file.bytes) {
            return Err(Refusal::named(why, file.name));
        }
        self.import_heights(at, file, goes_on)
    }

    fn import_features(&mut self, at: Instant, file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Done, Refusal> {
        let features = features(file, goes_on)?;
        let (left_out, minded) = (features.left_out, features.minded.messages());
        let (mut draft, added) = match self.logbook.newest_trip()? {
            Some(rows) => {
                let mut draft = rows.sheet;
                let added = features.add_to(&mut draft);
                (draft, added)
            }
            None => features.into_draft(stem(file.name)),
        };
        let credit = credit_of(file);
        let (answer, told) = came_in(file.name, &added, left_out, credit)?;
        if added.is_nothing() {
            let said = std::iter::once(&told).chain(&minded).map(|message| self.words.say(message)).collect();
            return Ok(Done::answered(said, answer));
        }
        let had_fix = self.trip.as_ref().is_some_and(|trip| trip.fix.is_some() || trip.open.is_some());
        let credited = credit.map(|whom| Message::new("sheet-credit").text("credit", whom));
        draft.paper.credit(credit.unwrap_or_default());
        let ground = self.trip.as_ref().and_then(|trip| trip.ground.clone());
        let carried = self.begin_trip(at, &draft, ground)?;
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
        let (lattice, unit_m) = file.grid.map_or(Ok((None, None)), named_system)?;
        let wanted = WantedHeights {
            bounds: Some(bounds),
            lattice,
            unit_m,
            source: source.transpose()?,
            cover: cover.transpose()?.unwrap_or_default(),
            void: None,
        };
        let read = read_part(file.name, file.bytes, &wanted, &mut |share| {
            if goes_on(share) { std::ops::ControlFlow::Continue(()) } else { std::ops::ControlFlow::Break(()) }
        });
        let (heights, left_out) = read?;
        let (heights, doubts) = doubted(file.bytes, heights)?;
        if trip.closed {
            let draft = self.sheet_of_trip()?;
            let ground = trip.ground.clone();
            self.begin_trip(at, &draft, ground)?;
        }
        let (answer, told) = self.keep_heights(at, file, (heights, left_out))?;
        // The trip is reckoned anew, so that it says the same as after it is resumed.
        self.reload()?;
        let doubts = doubts.iter().map(Telling::message);
        let mut said: Vec<String> = told.into_iter().chain(doubts).map(|message| self.words.say(&message)).collect();
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
    ) -> Result<(Answer, Vec<Message>), Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let credit = file.credit.map(str::trim).unwrap_or_default();
        let (mut origin, mut told) = (HeightsOrigin { source: file.name.to_owned(), credit: credit.to_owned() }, Vec::new());
        let (new, own) = (heights.layout().clone(), heights.spread());
        let whole = match &trip.ground {
            None => heights,
            Some(ground) => match join_heights(vec![heights.clone(), (*ground.heights).clone()]) {
                Ok(joined) => {
                    let common = CommonPosts::of(&heights, &ground.heights);
                    common.iter().try_for_each(|common| may_join(file.name, common, ground))?;
                    let wider = joined.spread().sigma_m > own.sigma_m;
                    let message = Message::new("import-heights-joined").text("source", ground.row.origin.source.clone());
                    told.push(
                        message.with("spread", Arg::Number(joined.spread().sigma_m, 1)).text("wider", if wider { "yes" } else { "no" }),
                    );
                    told.extend(common.map(|common| common.message()));
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
            .with("spacing", Arg::Metres(spacing_east_m.max(spacing_south_m)))
            .with("spread", Arg::Number(own.sigma_m, 1));
        told.insert(0, came);
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
    HeightsOrigin { source: joined(&old.source, &new.source), credit: joined(&old.credit, &new.credit) }
}

/// Lines and landmarks of the file.
fn features(file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> Result<Features, Refusal> {
    let mut wanted = Wanted { area: file.area_deg.map(area).transpose()?, ..Wanted::default() };
    if let Some(kinds) = file.kinds {
        wanted.lines = kinds.iter().filter_map(|word| LineKind::meant(word)).collect();
        wanted.landmarks = kinds.iter().filter_map(|word| LandmarkKind::meant(word)).collect();
        let unknown = kinds.iter().find(|word| LineKind::meant(word).is_none() && LandmarkKind::meant(word).is_none());
        if let Some(word) = unknown {
            return Err(Refusal::named("import-kind-unknown", word));
        }
    }
    let mut progress = |progress: crate::exchange::Progress| {
        let share = if progress.of == 0 { 0.0 } else { progress.done as f64 / progress.of as f64 };
        if goes_on(share.min(1.0)) { Continue::On } else { Continue::Stop }
    };
    Ok(read_features(file.bytes, &wanted, &geopackage_rows, &mut progress)?)
}

/// The rows of a GeoPackage, handed from the room that knows its container to the one that knows its geometries.
fn geopackage_rows(bytes: &[u8], take: &mut dyn FnMut(crate::exchange::Row<'_>) -> Continue) -> Result<(), String> {
    let read = attached_features(bytes, &mut |row| {
        let row = crate::exchange::Row {
            layer: row.layer,
            number: row.number,
            grid: row.grid,
            geometry: row.geometry,
            properties: row.properties,
        };
        take(row) == Continue::On
    });
    read.map_err(|error| error.to_string())
}

/// What came in from a file; a file of nothing is refused, one of which all is there already changes nothing.
fn came_in(name: &str, added: &Added, left_out: usize, credit: Option<&str>) -> Result<(Answer, Message), Refusal> {
    let Added { lines, landmarks, known_points, already } = *added;
    if added.is_nothing() && already == 0 {
        return Err(Refusal::new(Message::new("import-nothing").text("name", name).with("left", Arg::Count(left_out as i64))));
    }
    let id = if added.is_nothing() { "import-all-there" } else { "import-features" };
    let told = Message::new(id)
        .text("name", name)
        .with("lines", Arg::Count(lines as i64))
        .with("landmarks", Arg::Count(landmarks as i64))
        .with("known", Arg::Count(known_points as i64))
        .with("already", Arg::Count(already as i64))
        .with("left", Arg::Count(left_out as i64));
    let [lines, landmarks, known_points, already, left_out] = [lines, landmarks, known_points, already, left_out].map(show::small);
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

/// Why a file is none that can be read, by how it begins; nothing where it may be one of heights.
fn unreadable(bytes: &[u8]) -> Option<&'static str> {
    const LOOKED_AT: usize = 1024;
    let start = bytes.get(..LOOKED_AT.min(bytes.len())).unwrap_or_default();
    let begins = |marks: &[&[u8]]| marks.iter().any(|mark| start.starts_with(mark));
    match () {
        () if bytes.is_empty() => Some("import-empty"),
        () if begins(&PACKED) => Some("import-packed"),
        () if begins(&[b"\xff\xfe", b"\xfe\xff"]) => Some("import-utf-16"),
        () if String::from_utf8_lossy(start).contains("<osm") => Some("import-osm-xml"),
        () => None,
    }
}

/// How packed files begin: zip (and .kmz), gzip, bzip2, 7z, xz.
const PACKED: [&[u8]; 5] = [b"PK\x03\x04", b"\x1f\x8b", b"BZh", b"7z\xbc\xaf", b"\xfd7zXZ"];

/// The name of a sheet after its file.
fn stem(name: &str) -> &str {
    let last = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let stem = last.split('.').find(|part| !part.trim().is_empty()).unwrap_or(last).trim();
    if stem.is_empty() { "sheet" } else { stem }
}

fn borders(degrees: &[f64]) -> Result<[f64; 4], Refusal> {
    <[f64; 4]>::try_from(degrees).map_err(|_| Refusal::plain("import-area-off"))
}

fn area(degrees: &[f64]) -> Result<Area, Refusal> {
    let [south, west, north, east] = borders(degrees)?;
    Ok(Area::new(south, west, north, east)?)
}

fn bounds(degrees: &[f64]) -> Result<Bounds, Refusal> {
    area(degrees)?;
    let [south, west, north, east] = borders(degrees)?;
    Ok(Bounds { south_west: LatLon::new(south, west)?, north_east: LatLon::new(north, east)? })
}

/// In which coordinates heights lie and what they count in, as far as a text names it: degrees, a grid, a grid with its heights
/// ("EPSG:2227+6360"), heights alone, or the text of a `.prj` file.
fn named_system(name: &str) -> Result<(Option<Lattice>, Option<f64>), Refusal> {
    if DEGREES.contains(&name.trim().to_uppercase().as_str()) {
        return Ok((Some(Lattice::Geographic), None));
    }
    let text = understand::numbered_grid(name);
    let Some(system) = (!text.starts_with('+')).then(|| System::named(&text).ok()).flatten() else {
        return Ok((Some(Lattice::Projected(Grid::of_file(&text)?)), None));
    };
    if system.heights.is_some_and(|axis| !axis.upward) {
        return Err(HeightsFileError::Image(ImageFault::Depths).into());
    }
    let lattice = match system.flat {
        Some(Flat::Grid(grid)) => Some(Lattice::Projected(grid)),
        Some(Flat::Degrees) => Some(Lattice::Geographic),
        Some(Flat::OtherDegrees(name)) => return Err(HeightsFileError::Datum(name).into()),
        None => None,
    };
    Ok((lattice, system.heights.map(|axis| axis.unit_m)))
}
