//! Places as a person types them and reads them: grid references, coordinates, latitude and longitude.

mod beside;
mod degrees;
mod error;
mod example;
mod far;
mod figures;
mod geo;
mod lettered;
mod marks;
mod mgrs;
mod next_square;
mod no_reference;
mod odd;
mod odd_angles;
mod odd_whole;
mod old_letters;
mod own;
mod parts;
mod run_together;
mod ups;
mod utm;
mod zone;

#[cfg(test)]
mod tests;

pub use degrees::{degrees_minutes, degrees_minutes_seconds};
pub use error::PlaceError;
pub use far::{FAR_M, FarPart, PlaceDoubt, doubt_of, figure_doubt_of};
pub use mgrs::{mgrs_of, spaced, zone_and_square};
pub use next_square::completed;
pub use utm::{half_read, utm_of};
pub use zone::{beyond_zone_m, mgrs_in_zone, zone_and_band, zone_in, zone_of};

use super::{Grid, GridError, LatLon};
use parts::Parts;

/// Digits of a reference to the metre.
pub const DIGITS_FULL: u8 = 10;

/// Digits that a spread deserves: 8 up to 150 m (half-width at 95 %), else 6.
#[must_use]
pub fn digits_for_spread(half_width_95_m: f64) -> u8 {
    if half_width_95_m <= 150.0 { 8 } else { 6 }
}

/// What the walker carries places by name.
pub trait Names: std::fmt::Debug {
    /// The place that has a name, with one sigma on each axis in metres.
    fn placed(&self, name: &str) -> Option<(LatLon, f64)>;
}

/// What completes a place that is typed short.
#[derive(Debug, Clone, Copy, Default)]
pub struct Terms<'a> {
    /// Zone and square letters printed on the sheet: "33TVM".
    pub beginning: Option<&'a str>,
    /// The sheet's own grid, in which two plain numbers are meant.
    pub grid: Option<&'a Grid>,
    /// A place on the sheet: of several squares the nearest is meant.
    pub near: Option<LatLon>,
    /// The zone in which the sheet's references are counted; that of its grid, else of `near`, when it is not known.
    pub zone: Option<u8>,
    /// What stands on the sheet: wherever a place is typed, its name is one.
    pub names: Option<&'a dyn Names>,
}

impl Terms<'_> {
    /// The place of what has this name on the sheet.
    #[must_use]
    pub fn placed(&self, name: &str) -> Option<PlaceReading> {
        let (at, stated_m) = self.names?.placed(name)?;
        Some(PlaceReading { at, square_m: 0.0, step_m: 0.0, stated_m, zone: None })
    }
}

/// Coordinates that lie this near below a whole unit are that unit when a reference is cut, in units of the sheet's own grid.
///
/// The corner of a square, read or reckoned and written again, comes back some nanometres off in either sense: nearly half the
/// corners would be written a whole unit short. A micrometre covers what [`Grid::unproject`] leaves of it.
const OWN_TOLERANCE: f64 = 1e-6;
/// The same for MGRS, metres: twice the 5 nm that the projection is good to. Wider, and places 10^-12 degrees beside a zone's
/// edge would be written otherwise than `GeoConvert` writes them (`tests/peers`).
const MGRS_TOLERANCE_M: f64 = 1e-8;

/// The side of a square in standard deviations of a place anywhere in it: the root of twelve.
const SIGMAS_OF_SIDE: f64 = 3.464_101_615_137_754_4;
/// A degree of latitude, metres, for what a last digit is worth.
const METRES_PER_DEGREE: f64 = 111_200.0;

/// A coordinate ready to be cut: what lies at a whole unit but for rounding is that unit.
fn steadied(value: f64, tolerance: f64) -> f64 {
    let whole = value.round();
    if (value - whole).abs() < tolerance { whole } else { value }
}

/// A number of a grid cut to a step of one unit or a power of ten of it, towards minus infinity.
#[must_use]
pub fn cut(value: f64, step: f64) -> f64 {
    (steadied(value, OWN_TOLERANCE) / step).floor() * step + 0.0
}

/// A place as read from text, with the square it was read from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaceReading {
    /// The place; for a grid reference the centre of its square.
    pub at: LatLon,
    /// Side of the square in metres, 0 when the place was given as coordinates.
    pub square_m: f64,
    /// What one unit of the last digit of a coordinate is worth on the ground, metres; 0 for a square.
    pub step_m: f64,
    /// The uncertainty that stood beside it, or that of what has this name, metres, one sigma on each axis; 0 where there is none.
    pub stated_m: f64,
    /// The zone of UTM in which it was counted, typed or completed, 0 for UPS; none for other coordinates.
    pub zone: Option<u8>,
}

impl PlaceReading {
    /// Spread of the place that comes from how it was written: one sigma per axis, metres.
    ///
    /// A uniform distribution over a side `a` has the standard deviation `a / sqrt(12)`. Where an uncertainty stood beside the
    /// figures, the larger of the two: those figures were most likely cut to what they are worth.
    #[must_use]
    pub fn spread_m(&self) -> f64 {
        (self.square_m.max(self.step_m) / SIGMAS_OF_SIDE).max(self.stated_m)
    }

    /// Side of the square that spreads as the place does, metres.
    #[must_use]
    pub fn side_m(&self) -> f64 {
        self.square_m.max(self.step_m).max(self.stated_m * SIGMAS_OF_SIDE)
    }

    /// Digits of a reference that say no more than what was written, 2 to 10: those of the square, else of what a coordinate's
    /// last figure is worth.
    #[must_use]
    pub fn digits(&self) -> u8 {
        // A hair more, so that the logarithm of a whole power of ten is not cut below it.
        let figures = (self.side_m().max(1.0).log10() + 1e-9).floor() as u8;
        DIGITS_FULL.saturating_sub(2 * figures).max(2)
    }
}

/// What a reader of one form says: the place, or the part that is wrong.
type Read = Result<PlaceReading, &'static str>;

/// Reads a place.
///
/// - latitude and longitude: `-33.8568, 151.2153`, `52 30.258 N, 13 24.170 E`, `52°30'15.5"N 13°24'10.2"E`, `52:30:15 N 13:24:10 E`,
///   `5230N 01324E`, links as `geo:52.504,13.403;u=35`;
/// - UTM and UPS coordinates on WGS 84: `33T 456789 4953012`, `33 north 456789 4953012`, `UPS north 2000000 2000000`;
/// - two plain numbers in the sheet's own grid, with half the side of their square where they are one (`2600150 1200350 ±50 m`), and there the lettered references of the British National Grid;
/// - MGRS references on WGS 84 with 2 to 10 digits, completed by what [`Terms`] say of the sheet.
///
/// Blanks and lower case do not matter. A reference is a square and read as its centre.
///
/// # Errors
/// [`PlaceError`] names the part that is wrong.
pub fn read_place(text: &str, terms: &Terms) -> Result<PlaceReading, PlaceError> {
    let wrong = |part| PlaceError::wrong(text, part, terms);
    if text.trim().is_empty() {
        return Err(wrong("part-empty"));
    }
    if let Some(placed) = terms.placed(text) {
        return Ok(placed);
    }
    if !text.chars().any(|c| c.is_ascii_digit()) {
        return Err(wrong(if terms.names.is_some() { "part-no-such-name" } else { "part-no-figures" }));
    }
    if lettered::is_one_letter(text, terms) {
        return Err(wrong("part-letter-alone"));
    }
    if is_ambiguous(&plain(text), terms) {
        return Err(wrong("part-ambiguous"));
    }
    if text.contains("://") {
        return Err(wrong("part-web-link"));
    }
    if geo::read(text).is_none() && Parts::of(&plain(text)).has_two_points() {
        return Err(wrong("part-two-points"));
    }
    read_form(text, terms).2.map_err(|part| wrong(odd_whole::part_of(text, part, terms)))
}

/// How a place is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// Latitude and longitude.
    Degrees,
    /// UTM or UPS coordinates.
    Coordinates,
    /// The letters of the British National Grid.
    Lettered,
    /// Two numbers of the sheet's own grid.
    Own,
    /// An MGRS reference, whole or short.
    Mgrs,
}

/// Reads a place by the first form that its text has.
fn read_form(typed: &str, terms: &Terms) -> (Form, Parts, Read) {
    let text = plain(typed);
    if let Some((parts, read)) = own::read_square(&text, terms) {
        return (Form::Own, parts, read);
    }
    let parts = Parts::of(&text);
    let (form, read) = geo::read(typed)
        .or_else(|| degrees::read(&text, &parts, terms))
        .map(|read| (Form::Degrees, read))
        .or_else(|| Some((Form::Coordinates, utm::read(&parts, terms)?)))
        .or_else(|| Some((Form::Own, beside::read(&parts, terms)?)))
        .or_else(|| Some((Form::Lettered, lettered::read(&parts, terms)?)))
        .or_else(|| Some((Form::Own, own::read(&parts, terms)?)))
        .unwrap_or_else(|| (Form::Mgrs, mgrs::read(&text, terms)));
    (form, parts, read)
}

/// Where two numbers of the sheet's own grid lead when they are exchanged, where its register has the northing first and both orders lie
/// in its area.
#[must_use]
pub fn exchanged_in_grid(text: &str, terms: &Terms) -> Option<LatLon> {
    let (form, parts, read) = read_form(text, terms);
    let grid = terms.grid.filter(|_| form == Form::Own && read.is_ok())?;
    own::exchanged(&parts, grid)
}

/// The text with the marks of a keyboard alone, and without what ended its sentence.
fn plain(text: &str) -> String {
    let ended = text.trim_end().trim_end_matches([',', ';', '.']);
    marks::plain_marks(&marks::without_thousands(ended))
}

/// How references are written on a sheet of a grid.
fn form_of(grid: Option<&Grid>) -> &'static str {
    match grid {
        Some(grid) if lettered::is_lettered(grid) => "lettered",
        Some(grid) if !grid.is_utm_ups() => own::form_of(grid),
        Some(_) | None => "mgrs",
    }
}

/// Two whole numbers of one or two figures parted by a comma, where a beginning would complete them: latitude and longitude, or
/// the digits of a short reference.
fn is_ambiguous(text: &str, terms: &Terms) -> bool {
    let short = |part: &str| (1..=2).contains(&part.trim().len()) && part.trim().chars().all(|c| c.is_ascii_digit());
    let numbers =
        text.split_once(',').is_some_and(|(first, second)| short(first) && short(second) && first.trim().len() == second.trim().len());
    numbers && terms.beginning.is_some_and(|beginning| !beginning.trim().is_empty())
}

/// The part that is wrong when a grid does not take a place.
fn part_of_grid(error: &GridError) -> &'static str {
    match error {
        GridError::Unknown(_) | GridError::ShiftFile(..) | GridError::Turned(_) | GridError::OfDegrees(_) => "part-grid",
        GridError::Outside(_) => "part-outside-grid",
        GridError::Unreckoned(_) => "part-grid-unreckoned",
    }
}
