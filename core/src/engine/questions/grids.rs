//! In which grid an answer is told, and what to mind of zones and datums.

use super::Refusal;
use crate::earth::{DatumShift, FarFromMiddle, Grid, LatLon, PlaceReading, Terms, beyond_zone_m, zone_of};
use crate::measure::{Arg, Message};
use crate::sheet::Sheet;

/// Datums nearer to WGS 84 than this are taken for it, metres: a plate's drift since 1989 is in it.
const SAME_DATUM_M: f64 = 3.0;

/// What completes a place, and in which grid is told.
pub(super) struct Asked<'a> {
    pub(super) named: Option<&'a Grid>,
    pub(super) sheet: &'a Terms<'a>,
}

impl<'a> Asked<'a> {
    /// What completes a place: the grid that the question names, else the sheet's.
    pub(super) fn terms(&self) -> Terms<'a> {
        let zone = self.sheet.zone.filter(|_| self.named.is_none());
        Terms { grid: self.named.or(self.sheet.grid), zone, ..*self.sheet }
    }

    /// The grid in which is told: the one that is named, else the sheet's where it reaches; else the given one.
    pub(super) fn grid_at(&self, reading: &PlaceReading, else_in: impl Fn(&PlaceReading) -> Grid) -> Grid {
        let of_sheet = self.sheet.grid.filter(|grid| grid.factors(reading.at).is_ok());
        self.named.or(of_sheet).cloned().unwrap_or_else(|| else_in(reading))
    }

    /// What to mind where a place lies beyond the zone in which it was counted, and where a map on another datum was read.
    pub(super) fn cautions(&self, reading: &PlaceReading, grid: &Grid) -> Vec<Message> {
        let printed = self.named.or(self.sheet.grid).and_then(Grid::zone);
        let beyond = reading.zone.filter(|zone| Some(*zone) != printed).and_then(|zone| beyond_told(zone, reading, grid));
        let datum = self.sheet.grid.and_then(|grid| other_datum_read(reading, grid));
        beyond.into_iter().chain(datum).chain(outside_area(grid, reading.at)).chain(square_without_land(grid, reading.at)).collect()
    }
}

/// The grid of the zone in which a place was counted, else of the place's own.
pub(super) fn counted_grid(reading: &PlaceReading) -> Grid {
    let counted = reading.zone.map(|zone| Grid::of_zone(zone, reading.at)).filter(|grid| grid.factors(reading.at).is_ok());
    counted.unwrap_or_else(|| Grid::of_place(reading.at))
}

/// UTM or UPS of the place itself.
pub(super) fn own_grid(reading: &PlaceReading) -> Grid {
    Grid::of_place(reading.at)
}

/// Nearer than this to a zone's edge coordinates lie on it, metres: less is told as nothing.
const ON_EDGE_M: f64 = 0.5;

/// That a place lies beyond the zone in which it was counted: how far, or that the zone's edge cuts its square.
fn beyond_told(zone: u8, reading: &PlaceReading, grid: &Grid) -> Option<Message> {
    let own = zone_of(reading.at);
    if own == zone {
        return None;
    }
    let far_m = beyond_zone_m(reading.at, zone);
    let is_cut = far_m <= (reading.square_m * std::f64::consts::FRAC_1_SQRT_2).max(reading.step_m).max(ON_EDGE_M);
    let message = Message::new(if is_cut { "place-zone-edge" } else { "place-zone-beyond" })
        .text("what", if reading.square_m > 0.0 { "square" } else { "coordinates" })
        .text("zone", zone_word(own))
        .text("typed", zone_word(zone))
        .with("far", Arg::Metres(far_m));
    Some(message.text("grid", grid.name()))
}

fn zone_word(zone: u8) -> String {
    if zone == 0 { "UPS".into() } else { zone.to_string() }
}

/// How far the same numbers lead apart on a grid and on WGS 84 about a place; nothing where their datums are one.
fn datum_off_m(grid: &Grid, at: LatLon) -> Option<f64> {
    grid.datum_off_m(at).ok().filter(|off_m| *off_m > SAME_DATUM_M)?;
    grid.numbers_off_m(at).ok()
}

/// A border of an area of use is no wall, metres: sheets and coasts reach over it.
const BESIDE_AREA_M: f64 = 20_000.0;

/// Maps of a zone's edge are counted on in it for some tens of kilometres; nobody does so farther than this, metres (our choice).
const BESIDE_ZONE_M: f64 = 100_000.0;

/// That a place lies well outside the area that a grid is made for: a lost figure leads there.
pub(in crate::engine) fn outside_area(grid: &Grid, at: LatLon) -> Option<Message> {
    // UTM and UPS of WGS 84 reach far beyond their zones, and are not asked of PROJ.
    if let Some(zone) = grid.zone() {
        let far_m = beyond_zone_m(at, zone);
        return (far_m > BESIDE_ZONE_M)
            .then(|| Message::new("place-outside-zone").text("grid", grid.name()).with("far", Arg::Metres(far_m)));
    }
    let far_m = grid.beyond_area_m(at);
    // A country keeps the UTM zone of most of it to its borders.
    let beside_m = if grid.utm_zone().is_some() { BESIDE_ZONE_M } else { BESIDE_AREA_M };
    let outside = (far_m > beside_m).then(|| Message::new("place-outside-area").text("grid", grid.name()).with("far", Arg::Metres(far_m)));
    outside.or_else(|| Some(far_told(grid, grid.far_from_middle(at)?)))
}

/// That a place lies in a square of the grid without land.
fn square_without_land(grid: &Grid, at: LatLon) -> Option<Message> {
    let square = grid.square_without_land(at)?;
    Some(Message::new("place-square-without-land").text("grid", grid.name()).text("square", square))
}

/// That a place lies beyond all squares of the grid that have letters.
pub(super) fn beyond_letters(grid: &Grid, at: LatLon) -> Option<Message> {
    grid.is_beyond_letters(at).then(|| Message::new("place-beyond-letters").text("grid", grid.name()))
}

/// That a place is none for a grid of which no area of use is registered.
fn far_told(grid: &Grid, far: FarFromMiddle) -> Message {
    match far {
        FarFromMiddle::OfMeridian(far_m) => {
            Message::new("place-far-from-meridian").text("grid", grid.name()).with("far", Arg::Metres(far_m))
        }
        FarFromMiddle::Stretched(share) => Message::new("place-stretched")
            .text("grid", grid.name())
            .with("share", Arg::Share(share.abs()))
            .text("side", if share < 0.0 { "short" } else { "long" }),
    }
}

/// The caution for a reference with a zone on a sheet of another datum.
fn other_datum_read(reading: &PlaceReading, grid: &Grid) -> Option<Message> {
    reading.zone.filter(|_| !grid.is_utm_ups())?;
    let off_m = datum_off_m(grid, reading.at)?;
    let message = Message::new("reference-other-datum").text("grid", grid.name()).with("off", Arg::Metres(off_m));
    Some(message.text("form", own_form(grid)))
}

/// How a place is written that is read off a map on another datum than WGS 84, as the identifier that sentences select by.
fn own_form(grid: &Grid) -> &'static str {
    match (grid.has_letters(), grid.utm_zone()) {
        (true, _) => "lettered",
        (false, Some(_)) => "zone",
        (false, None) => "own",
    }
}

/// What to mind of the place that a reference names on a sheet: as [`Asked::cautions`] on the sheet's datum.
pub(in crate::engine) fn read_on(sheet: &Sheet, reading: &PlaceReading) -> Option<Message> {
    other_datum_read(reading, &sheet.grid)
}

/// What to say of a sheet's grid when the sheet is made: that it is of the zone typed, and that it counts on another datum.
pub(in crate::engine) fn grid_told(sheet: &Sheet, is_named: bool) -> Vec<Message> {
    let middle = sheet.frame.origin();
    let other_zone = !is_named && sheet.grid != Grid::of_place(middle);
    let typed = other_zone.then(|| {
        let message = Message::new("sheet-zone-typed").text("grid", sheet.grid.name());
        message.text("zone", zone_of(middle).to_string())
    });
    let datum = datum_off_m(&sheet.grid, middle)
        .map(|off_m| Message::new("sheet-other-datum").text("grid", sheet.grid.name()).with("off", Arg::Metres(off_m)))
        .map(|message| message.text("form", own_form(&sheet.grid)));
    let minded = grid_minded(&sheet.grid, middle);
    let letters = sheet
        .grid
        .old_letters_at(middle)
        .map(|(old, new)| Message::new("sheet-old-letters").text("grid", sheet.grid.name()).text("old", old).text("new", new));
    typed.into_iter().chain(datum).chain(letters).chain(minded).collect()
}

/// What to mind of a grid at a place of it: that it is made for elsewhere, else how good its shift of the datum is, where it has one to make.
pub(in crate::engine) fn grid_minded(grid: &Grid, at: LatLon) -> Option<Message> {
    // One that is not known moves nothing, and that is what is to be told of it.
    let is_told = |shift: &DatumShift| {
        matches!(shift, DatumShift::Unknown | DatumShift::FileMissing | DatumShift::Borrowed(_)) || datum_off_m(grid, at).is_some()
    };
    let shift = || grid.datum_shift(at).ok().filter(is_told).and_then(|shift| shift_told(grid, shift, at));
    outside_area(grid, at).or_else(shift)
}

/// The area of a shift without the lists of all parts of its countries, where that is long: "Canada; Puerto Rico; United States (USA)".
fn short_area(told: &str) -> String {
    const LONGEST: usize = 120;
    if told.chars().count() <= LONGEST {
        return told.to_owned();
    }
    let without_list = |country: &str| {
        let listed = country.find([';', ',']).and_then(|list| country.get(..list)?.rfind(" - "));
        listed.and_then(|end| country.get(..end)).unwrap_or(country).to_owned()
    };
    told.split(". ").map(without_list).collect::<Vec<_>>().join("; ")
}

/// Metres as the register states them: tenths where it has them.
fn stated(metres: f64) -> Arg {
    if metres < 10.0 && metres.fract() != 0.0 { Arg::Text(format!("{metres}\u{a0}m")) } else { Arg::Metres(metres) }
}

/// What a shift to another datum is worth, where there is one to make; one that is not known is always told.
pub(super) fn shift_told(grid: &Grid, shift: DatumShift, at: LatLon) -> Option<Message> {
    let told = |id| Message::new(id).text("grid", grid.name());
    let made_for = |message: Message| match grid.shift_area(at) {
        Some(area) => message.text("has-area", "yes").with("area", Arg::Register(short_area(&area.told))),
        None => message.text("has-area", "no"),
    };
    match shift {
        DatumShift::NotNamed => Some(told("datum-not-named")),
        DatumShift::Unknown => Some(told("datum-shift-unknown")),
        DatumShift::FileMissing => Some(told("datum-shift-file").text("files", grid.missing_shift_files().unwrap_or_default())),
        DatumShift::OfDefinition => Some(told("datum-shift-of-definition")),
        DatumShift::Good(metres) if metres > 0.0 => Some(made_for(told("datum-shift-told").with("accuracy", stated(metres)))),
        DatumShift::Disputed { stated_m, apart_m, accuracy_m } => {
            let other = grid.shift_area(at).and_then(|area| area.rival).unwrap_or_default();
            let message = told("datum-shift-disputed").with("stated", stated(stated_m)).with("apart", Arg::Metres(apart_m));
            Some(made_for(message.with("accuracy", Arg::Metres(accuracy_m)).with("other", Arg::Register(short_area(&other)))))
        }
        DatumShift::NotStated => Some(made_for(told("datum-shift-not-stated"))),
        DatumShift::Borrowed(_) => Some(made_for(told("datum-shift-borrowed"))),
        DatumShift::Good(_) => None,
    }
}

pub(super) fn named_grid(name: Option<&String>) -> Result<Option<Grid>, Refusal> {
    Ok(name.map(|name| Grid::named(name)).transpose()?)
}
