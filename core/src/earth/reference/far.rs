//! Places that were read without error and are hardly meant: far from the sheet, or with a figure too few or too many.

use super::figures::{few_figures, figures_of, is_five_and_five, lost_figure, typed_figures};
use super::mgrs::split_digits;
use super::next_square::{completed, is_other_square};
use super::old_letters::typed_old;
use super::parts::Parts;
use super::{Form, PlaceReading, Terms, mgrs_in_zone, read_form};
use crate::earth::{Axis, Grid, LatLon, geodesic_between};
use crate::measure::{Arg, Message, Telling};

/// Farther than this from everything on the sheet a place on foot is hardly meant, metres: a wrong first figure leads 10 km or more
/// off along an axis, from a place within the sheet to somewhat less beyond it (our choice).
pub const FAR_M: f64 = 7_000.0;

/// What a typed place makes one doubt.
#[derive(Debug, Clone, PartialEq)]
pub enum PlaceDoubt {
    /// It lies far from everything on the sheet.
    Far {
        /// As it was typed.
        typed: String,
        /// Metres to the sheet.
        away_m: f64,
        /// The part to look at.
        part: FarPart,
    },
    /// A number has fewer figures than those of its grid have as a rule; no sheet tells whether that is right.
    FewFigures {
        /// As it was typed.
        typed: String,
        /// The grid that was named.
        grid: String,
        /// Which number it is.
        axis: Axis,
        /// Figures before the point as typed, and in the middle of the grid.
        figures: (usize, usize),
    },
    /// Two numbers of five figures off a sheet whose coordinates have one number of five and one of six: read as a reference to the
    /// metre without its letters, which leads off the sheet.
    FiveAndFive {
        /// As it was typed.
        typed: String,
        /// The reference as it was read.
        read: String,
        /// Whether the easting has six figures on the sheet.
        is_easting: bool,
    },
    /// It was typed without square letters and read in another square of 100 km than those of the sheet.
    OtherSquare {
        /// As it was typed.
        typed: String,
        /// The reference as it was read.
        read: String,
    },
    /// Its square has the letters of an old map.
    OldLetters {
        /// As typed, and on WGS 84.
        letters: (String, String),
        /// The grid of that map.
        grid: String,
    },
}

/// Which part of a place leads far from the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FarPart {
    /// A number has another count of figures than on the sheet: as typed, on the sheet.
    Figures(Axis, usize, usize),
    /// Both have.
    BothFigures,
    /// The zone.
    Zone,
    /// The half of the earth.
    Half,
    /// The square letters.
    Letters,
    /// A number has a wrong figure.
    Number(Axis),
    /// The latitude.
    Latitude,
    /// The longitude.
    Longitude,
    /// No single one.
    All,
}

impl FarPart {
    fn id(self) -> &'static str {
        match self {
            Self::Figures(..) => "figures",
            Self::BothFigures => "both-figures",
            Self::Zone => "zone",
            Self::Half => "half",
            Self::Letters => "letters",
            Self::Number(_) => "number",
            Self::Latitude => "latitude",
            Self::Longitude => "longitude",
            Self::All => "all",
        }
    }

    /// The number that is wrong, and its figures as typed and on the sheet.
    fn number(self) -> Option<(Axis, (usize, usize))> {
        match self {
            Self::Figures(axis, typed, usual) => Some((axis, (typed, usual))),
            Self::Number(axis) => Some((axis, (0, 0))),
            Self::BothFigures | Self::Zone | Self::Half | Self::Letters | Self::Latitude | Self::Longitude | Self::All => None,
        }
    }
}

impl Telling for PlaceDoubt {
    fn message(&self) -> Message {
        let counted = |message: Message, (typed, usual): (usize, usize)| {
            message.with("figures", Arg::Count(typed as i64)).with("usual", Arg::Count(usual as i64))
        };
        match self {
            Self::Far { typed, away_m, part } => {
                let message = Message::new("place-far-from-sheet").text("typed", typed.clone()).with("far", Arg::Metres(*away_m));
                let (axis, figures) = part.number().unwrap_or((Axis::East, (0, 0)));
                counted(message.text("part", part.id()).text("number", axis.word()), figures)
            }
            Self::FewFigures { typed, grid, axis, figures } => {
                let message = Message::new("place-few-figures").text("typed", typed.clone()).text("grid", grid.clone());
                counted(message.text("number", axis.word()), *figures)
            }
            Self::FiveAndFive { typed, read, is_easting } => {
                let message = Message::new("place-five-and-five").text("typed", typed.clone()).text("reference", read.clone());
                message.text("part", if *is_easting { "easting" } else { "northing" })
            }
            Self::OtherSquare { typed, read } => {
                Message::new("place-other-square").text("typed", typed.clone()).text("reference", read.clone())
            }
            Self::OldLetters { letters: (old, new), grid } => {
                Message::new("place-old-letters").text("old", old.clone()).text("new", new.clone()).text("grid", grid.clone())
            }
        }
    }
}

/// Of squares of 100 km no place lies farther in the nearest one than this along an axis, metres.
const NEAREST_M: f64 = 50_000.0;

/// What to doubt of a place as it was read: by a sheet, whose things lie within `reach_m` of [`Terms::near`], how far it lies from
/// them; without one, by the middle of the grid that was named, its figures.
#[must_use]
pub fn doubt_of(text: &str, reading: &PlaceReading, terms: &Terms, reach_m: f64) -> Option<PlaceDoubt> {
    if terms.placed(text).is_some() {
        return None;
    }
    let typed = text.trim().to_owned();
    let Some(near) = terms.near else { return few_figures(typed, terms).or_else(|| old_letters(text, reading, terms)) };
    let away_m = geodesic_between(reading.at, near).0 - reach_m;
    if let Some(is_easting) = is_five_and_five(text, terms, near).filter(|_| away_m > 0.0) {
        return Some(PlaceDoubt::FiveAndFive { read: completed(text, reading, terms), typed, is_easting });
    }
    let other = is_other_square(text, reading, terms, near, reach_m);
    if away_m > FAR_M && !(other && away_m <= NEAREST_M) {
        return Some(PlaceDoubt::Far { part: far_part(text, reading, terms, near, reach_m), typed, away_m });
    }
    if let Some(doubt) = figure_doubt_of(text, reading, terms, reach_m) {
        return Some(doubt);
    }
    let read = other.then(|| completed(text, reading, terms));
    read.map(|read| PlaceDoubt::OtherSquare { typed, read }).or_else(|| old_letters(text, reading, terms))
}

/// The doubt that a figure was lost or doubled in a number of a sheet's own grid; see [`doubt_of`].
#[must_use]
pub fn figure_doubt_of(text: &str, reading: &PlaceReading, terms: &Terms, reach_m: f64) -> Option<PlaceDoubt> {
    let near = terms.near?;
    let away_m = geodesic_between(reading.at, near).0 - reach_m;
    let part = lost_figure(text, reading, terms, (near, reach_m)).filter(|_| away_m > 0.0)?;
    Some(PlaceDoubt::Far { part, typed: text.trim().into(), away_m })
}

fn old_letters(text: &str, reading: &PlaceReading, terms: &Terms) -> Option<PlaceDoubt> {
    let grid = terms.grid.filter(|grid| grid.has_old_letters())?;
    let letters = typed_old(text, reading, terms).filter(|_| read_form(text, terms).0 == Form::Mgrs)?;
    Some(PlaceDoubt::OldLetters { letters, grid: grid.name().into() })
}

fn far_part(text: &str, reading: &PlaceReading, terms: &Terms, near: LatLon, reach_m: f64) -> FarPart {
    let (form, parts, _) = read_form(text, terms);
    let off_deg = |a: f64, b: f64| ((a - b + 180.0).rem_euclid(360.0) - 180.0).abs() > (FAR_M + reach_m) / METRES_PER_DEGREE;
    match form {
        Form::Degrees => {
            let (lat, lon) = (off_deg(reading.at.lat_deg(), near.lat_deg()), off_deg(reading.at.lon_deg(), near.lon_deg()));
            one_of((lat, FarPart::Latitude), (lon, FarPart::Longitude))
        }
        Form::Lettered => FarPart::Letters,
        _ if is_of_other_zone(reading, terms) => FarPart::Zone,
        Form::Mgrs if has_other_letters(reading, near) => FarPart::Letters,
        Form::Mgrs => far_axis(reading, terms, near, reach_m).unwrap_or(FarPart::All),
        Form::Coordinates if (reading.at.lat_deg() < 0.0) != (near.lat_deg() < 0.0) => FarPart::Half,
        Form::Coordinates | Form::Own => far_number(&parts, reading, terms, near, reach_m).unwrap_or(FarPart::All),
    }
}

/// Along the equator; a degree of longitude elsewhere is shorter, and both are named then.
const METRES_PER_DEGREE: f64 = 111_320.0;

fn one_of((first, a): (bool, FarPart), (second, b): (bool, FarPart)) -> FarPart {
    match (first, second) {
        (true, false) => a,
        (false, true) => b,
        _ => FarPart::All,
    }
}

/// Whether a reference lies in another square of 100 km than the sheet's middle.
fn has_other_letters(reading: &PlaceReading, near: LatLon) -> bool {
    let square = |at| reading.zone.and_then(|zone| mgrs_in_zone(zone, at, 2)).map(|whole| split_digits(&whole).0.to_owned());
    square(reading.at) != square(near)
}

fn is_of_other_zone(reading: &PlaceReading, terms: &Terms) -> bool {
    let own = terms.zone.or_else(|| terms.grid.and_then(Grid::utm_zone));
    reading.zone.is_some_and(|zone| own.is_some_and(|own| own != zone))
}

/// Which of two numbers leads away from the sheet.
fn far_number(parts: &Parts, reading: &PlaceReading, terms: &Terms, near: LatLon, reach_m: f64) -> Option<FarPart> {
    let of_zone = reading.zone.map(|zone| Grid::of_zone(zone, reading.at));
    let grid = of_zone.as_ref().or(terms.grid)?;
    let there = grid.project(near).ok()?;
    let ((first, second), (usual_first, usual_second)) = (typed_figures(parts, grid)?, figures_of(grid, there));
    match (first == usual_first, second == usual_second) {
        (false, true) => Some(FarPart::Figures(grid.axes().first, first, usual_first)),
        (true, false) => Some(FarPart::Figures(grid.axes().second, second, usual_second)),
        (false, false) => Some(FarPart::BothFigures),
        (true, true) => far_axis(reading, terms, near, reach_m),
    }
}

/// Which of easting and northing lies as far off as to lead away from the sheet.
fn far_axis(reading: &PlaceReading, terms: &Terms, near: LatLon, reach_m: f64) -> Option<FarPart> {
    let of_zone = reading.zone.map(|zone| Grid::of_zone(zone, reading.at));
    let grid = of_zone.as_ref().or(terms.grid)?;
    let (there, here) = (grid.project(near).ok()?, grid.project(reading.at).ok()?);
    let (off, far) = (here.minus(there), (FAR_M + reach_m) * std::f64::consts::FRAC_1_SQRT_2 * grid.factors(near).ok()?.scale);
    let axes = grid.axes();
    let (across, along) = if axes.across_first() { (axes.first, axes.second) } else { (axes.second, axes.first) };
    Some(one_of((off.east_m.abs() > far, FarPart::Number(across)), (off.north_m.abs() > far, FarPart::Number(along))))
}

#[cfg(test)]
mod tests;
