//! A photo of the paper map: marked crossings lay it over the grid, taps become places, lines and landmarks.

use super::answer::{Answer, AnswerPhotoMark, AnswerPhotoPlace};
use super::by_hand::{GoesAlong, Head, typing_terms};
use super::commands::Done;
use super::record_sheet::{PhotoRecord, TapRecord};
use super::{Engine, Refusal, questions, understand};
use crate::earth::{DIGITS_FULL, Grid, PlaceReading, digits_for_spread, mgrs_of, read_place, zone_and_band};
use crate::exchange::{checked_drawn, checked_paper, lay_once, line_kind};
use crate::measure::{Arg, Message, PLANE_95, Telling};
use crate::sheet::{
    DraftKnownPoint, DraftLandmark, DraftLine, PhotoCaution, PhotoFit, PhotoKind, PhotoMark, PhotoPlace, PhotoTerms, SheetDraft,
};

/// What a photo gave: the sheet's draft with what was tapped, and each place that was asked for or named.
struct Tapped {
    draft: SheetDraft,
    places: Vec<(String, PhotoPlace)>,
    /// What is to be told of the lines.
    minded: Vec<Message>,
}

impl Engine {
    /// Lays a photo over the grid; keeps the lines and landmarks that were tapped, when there are any.
    pub(super) fn photo(&mut self, record: &PhotoRecord) -> Result<Done, Refusal> {
        let readings = self.crossings(record)?;
        let grid = self.photo_grid(record, &readings)?;
        let fit = fit(record, &readings, &grid)?;
        let draft = if record.only_asks() { SheetDraft::default() } else { self.photo_draft(record, &readings)? };
        let tapped = tapped(record, &fit, draft)?;
        let mut said = self.fit_told(record, &fit, &grid);
        // A sheet that is made says so itself.
        let is_asked = record.grid.is_some() && (record.only_asks() || record.name.is_none());
        let outside = readings.first().filter(|_| is_asked).and_then(|first| questions::outside_area(&grid, first.at));
        said.extend(outside.map(|outside| self.words.say(&outside)));
        said.extend(tapped.places.iter().map(|(name, place)| self.words.say(&place_told(name, place, &grid))));
        if tapped.places.iter().any(|(_, place)| place.outside) {
            said.push(self.words.say(&PhotoCaution::Outside.message()));
        }
        if !record.only_asks() {
            let at = self.time(record.at.as_ref())?;
            said.extend(self.change_sheet(at, &tapped.draft, GoesAlong::of(record.name.as_deref()))?);
            said.extend(tapped.minded.iter().map(|message| self.words.say(message)));
        }
        Ok(Done::answered(said, answer(&fit, &tapped.places)))
    }

    /// The marked references as they are read; one that cannot be read is named by its number.
    fn crossings(&self, record: &PhotoRecord) -> Result<Vec<PlaceReading>, Refusal> {
        let sheet = self.trip.as_ref().map(|trip| &trip.sheet).filter(|_| record.name.is_none());
        let grid = record.grid.as_deref().map(|grid| Grid::named(&understand::numbered_grid(grid))).transpose()?;
        let terms = typing_terms(sheet, grid.as_ref(), record.beginning.as_deref());
        let read = |(index, mark): (usize, &super::record_sheet::PhotoMarkRecord)| {
            read_place(&mark.crossing, &terms).map_err(|error| {
                let message = error.message().renamed("photo-crossing");
                Refusal::new(message.with("mark", Arg::Count(index as i64 + 1)))
            })
        };
        record.marks.iter().enumerate().map(read).collect()
    }

    fn photo_grid(&self, record: &PhotoRecord, readings: &[PlaceReading]) -> Result<Grid, Refusal> {
        if let Some(grid) = record.grid.as_deref() {
            return Ok(Grid::named(&understand::numbered_grid(grid))?);
        }
        let of_sheet = self.trip.as_ref().filter(|_| record.name.is_none()).map(|trip| trip.sheet.grid.clone());
        let of_first = || {
            readings.first().map(|reading| reading.zone.map_or_else(|| Grid::of_place(reading.at), |zone| Grid::of_zone(zone, reading.at)))
        };
        // Without a mark the fit says how many it needs.
        of_sheet.or_else(of_first).map_or_else(|| Ok(Grid::named("31N")?), Ok)
    }

    /// A new sheet counts its references in the zone of the first crossing.
    fn photo_draft(&self, record: &PhotoRecord, readings: &[PlaceReading]) -> Result<SheetDraft, Refusal> {
        let (name, grid) = (record.name.as_deref(), record.grid.as_deref());
        checked_paper(record.scale, record.printed_year)?;
        let mut draft = self.draft_under(&Head { name, grid, scale: record.scale, printed_year: record.printed_year })?;
        if name.is_some() {
            draft.paper.beginning = readings.first().and_then(|first| zone_and_band(first.zone?, first.at));
        }
        Ok(draft)
    }

    /// How the photo lies, by how much each mark misses, and what to mind.
    fn fit_told(&self, record: &PhotoRecord, fit: &PhotoFit, grid: &Grid) -> Vec<String> {
        let laid = Message::new("photo-laid")
            .with("marks", Arg::Count(record.marks.len() as i64))
            .text("grid", grid.name())
            .text("kind", kind_word(fit.kind()))
            .with("spread", Arg::Metres(PLANE_95 * fit.middle_spread_m()));
        let mark = |(index, (mark, residual)): (usize, (&super::record_sheet::PhotoMarkRecord, &crate::sheet::PhotoResidual))| {
            Message::new("photo-mark-told")
                .with("mark", Arg::Count(index as i64 + 1))
                .text("crossing", mark.crossing.clone())
                .with("off", Arg::Metres(residual.step.length_m()))
                .with("pixels", Arg::Number(residual.px, 1))
        };
        let marks = record.marks.iter().zip(fit.residuals()).enumerate().map(mark);
        let cautions = fit.cautions().iter().map(Telling::message);
        std::iter::once(laid).chain(marks).chain(cautions).map(|message| self.words.say(&message)).collect()
    }
}

fn fit(record: &PhotoRecord, readings: &[PlaceReading], grid: &Grid) -> Result<PhotoFit, Refusal> {
    let kind = match record.kind.as_deref().map(|word| word.trim().to_lowercase()).as_deref() {
        None => None,
        Some("affine") => Some(PhotoKind::Affine),
        Some("projective") => Some(PhotoKind::Projective),
        Some(other) => return Err(Refusal::named("photo-kind-unknown", other)),
    };
    let usual = PhotoTerms::default();
    let square = readings.iter().map(|reading| reading.square_m).find(|side| *side > 0.0).unwrap_or(usual.square);
    let terms = PhotoTerms { kind, mark_spread_px: record.mark_spread_px.unwrap_or(usual.mark_spread_px), square };
    let marks = record.marks.iter().zip(readings).enumerate();
    let marks = marks.map(|(index, (mark, reading))| PhotoMark::on_crossing(index + 1, (mark.x_px, mark.y_px), reading, grid));
    Ok(PhotoFit::of(&marks.collect::<Result<Vec<_>, _>>()?, grid, &terms)?)
}

/// Adds what was tapped to a draft.
fn tapped(record: &PhotoRecord, fit: &PhotoFit, mut draft: SheetDraft) -> Result<Tapped, Refusal> {
    let old = draft.lines.len();
    let mut places = Vec::new();
    let mut place = |name: String, tap: &TapRecord| -> Result<PhotoPlace, Refusal> {
        let place = fit.place(tap.x_px, tap.y_px)?;
        places.push((name, place));
        Ok(place)
    };
    for (index, tap) in record.taps.iter().enumerate() {
        place((index + 1).to_string(), tap)?;
    }
    for line in &record.lines {
        let found: Vec<PhotoPlace> = line.taps.iter().map(|tap| fit.place(tap.x_px, tap.y_px)).collect::<Result<_, _>>()?;
        let spread_m = found.iter().map(PhotoPlace::spread_m).fold(0.0, f64::max);
        let kind = line_kind(line.kind.as_deref(), &line.name)?;
        draft.lines.push(DraftLine {
            name: line.name.clone(),
            kind,
            points: found.iter().map(degrees).collect(),
            spread_m,
            ..DraftLine::default()
        });
    }
    for known in &record.known_points {
        let at = degrees(&place(known.name.clone(), &known.tap)?);
        draft.known_points.push(DraftKnownPoint { name: known.name.clone(), on: known.on.clone(), at });
    }
    for mark in &record.landmarks {
        let found = place(mark.name.clone(), &mark.tap)?;
        let (name, kind) = (mark.name.clone(), mark.kind.clone().unwrap_or_default());
        draft.landmarks.push(DraftLandmark { name, kind, at: degrees(&found), spread_m: found.spread_m(), height_m: mark.height_m });
    }
    checked_drawn(&draft)?;
    let unsaid: Vec<&str> = record.lines.iter().filter(|line| line.kind.is_none()).map(|line| line.name.as_str()).collect();
    let minded = lay_once(&mut draft, old, &unsaid).messages();
    Ok(Tapped { draft, places, minded })
}

fn degrees(place: &PhotoPlace) -> (f64, f64) {
    (place.at.lat_deg(), place.at.lon_deg())
}

fn kind_word(kind: PhotoKind) -> &'static str {
    match kind {
        PhotoKind::Affine => "affine",
        PhotoKind::Projective => "projective",
    }
}

fn place_told(name: &str, place: &PhotoPlace, grid: &Grid) -> Message {
    let half_width_m = PLANE_95 * place.spread_m();
    Message::new("photo-place-told")
        .text("name", name)
        .text("reference", grid.reference(place.at, digits_for_spread(half_width_m)))
        .with("spread", Arg::Metres(half_width_m))
}

fn answer(fit: &PhotoFit, places: &[(String, PhotoPlace)]) -> Answer {
    let mark = |residual: &crate::sheet::PhotoResidual| AnswerPhotoMark {
        off_px: residual.px,
        off_east_m: residual.step.east_m,
        off_north_m: residual.step.north_m,
    };
    let place = |(name, place): &(String, PhotoPlace)| AnswerPhotoPlace {
        name: name.clone(),
        lat_deg: place.at.lat_deg(),
        lon_deg: place.at.lon_deg(),
        mgrs: mgrs_of(place.at, DIGITS_FULL),
        easting: place.grid_at.east_m,
        northing: place.grid_at.north_m,
        spread_m: place.spread_m(),
        outside: place.outside,
    };
    Answer::Photo {
        kind: kind_word(fit.kind()).into(),
        spread_px: fit.spread_px(),
        spread_m: fit.middle_spread_m(),
        marks: fit.residuals().iter().map(mark).collect(),
        places: places.iter().map(place).collect(),
    }
}
