//! The places of one record as they follow each other: a short reference goes on from the place before it.

use super::ExchangeError;
use crate::earth::{LatLon, PlaceError, PlaceReading, Terms, completed, geodesic_between, read_place, zone_and_band, zone_in};
use crate::measure::{Message, PLANE_95, Telling};

/// A short reference that went on over the edge of its square: read in the next one, not in the one that was told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Continued {
    /// Of which line or landmark.
    pub record: String,
    /// As it was typed.
    pub typed: String,
    /// The reference as it was read.
    pub read: String,
}

impl Telling for Continued {
    fn message(&self) -> Message {
        let message = Message::new("sheet-continued").text("record", self.record.clone());
        message.text("typed", self.typed.clone()).text("reference", self.read.clone())
    }
}

/// The next square is meant where it lies within this of the place before, metres (our choice); between that and half a square's
/// side it may be either.
const GOES_ON_M: f64 = 20_000.0;
/// The widest half-width that is read behind a place, metres.
const MOST_WIDTH_M: f64 = 20_000.0;
/// Places nearer than this are one, metres.
const SAME_M: f64 = 0.1;

/// A place without the half-width at 95 % that stands behind it, as a photo's places are told, and that in metres:
/// `5743 9761, ± 655 m (95 %)`.
fn without_width(text: &str) -> Option<(&str, f64)> {
    let (place, width) = ["±", "+/-", "+-"].iter().find_map(|mark| text.split_once(mark))?;
    let width = width.trim().trim_end_matches("(95 %)").trim_end_matches("(95\u{a0}%)").trim().strip_suffix('m')?.trim();
    let metres: f64 = width.parse().ok().filter(|metres| (0.0..=MOST_WIDTH_M).contains(metres))?;
    Some((place.trim().trim_end_matches(',').trim(), metres))
}

/// A place as it was typed and read.
pub(super) struct TypedPlace {
    pub(super) record: String,
    pub(super) typed: String,
    pub(super) reading: PlaceReading,
}

/// Reads the places of a record one after the other.
pub(super) struct Places<'a> {
    terms: &'a Terms<'a>,
    /// Where the record begins.
    first: Option<LatLon>,
    zones: Vec<(u8, LatLon)>,
    pub(super) continued: Vec<Continued>,
    pub(super) read: Vec<TypedPlace>,
}

impl<'a> Places<'a> {
    pub(super) fn by(terms: &'a Terms<'a>) -> Self {
        Self { terms, first: None, zones: Vec::new(), continued: Vec::new(), read: Vec::new() }
    }

    /// Reads a place that follows another, or else goes with the first of the record.
    pub(super) fn read(&mut self, text: &str, before: Option<LatLon>, record: &str) -> Result<PlaceReading, ExchangeError> {
        let wrong = |error| ExchangeError::Place { record: record.into(), error };
        // Numbers of the sheet's own grid have half the side of their square behind them.
        let (text, width_m) = match (read_place(text, self.terms), without_width(text)) {
            (Err(_), Some((alone, width_m))) => (alone, Some(width_m)),
            _ => (text, None),
        };
        let told = read_place(text, self.terms).map_err(wrong)?;
        let reading = match before.or(self.first) {
            Some(near) => self.going_on(text, near, told, record).map_err(wrong)?,
            None => told,
        };
        let stated_m = width_m.map_or(0.0, |width_m| width_m / PLANE_95).max(reading.stated_m);
        let reading = PlaceReading { stated_m, ..reading };
        self.first.get_or_insert(reading.at);
        self.zones.extend(reading.zone.map(|zone| (zone, reading.at)));
        self.read.push(TypedPlace { record: record.into(), typed: text.trim().into(), reading });
        Ok(reading)
    }

    /// Of the square that was told and the one nearest to the place before, the one that must be meant.
    fn going_on(&mut self, text: &str, near: LatLon, told: PlaceReading, record: &str) -> Result<PlaceReading, PlaceError> {
        let zone = self.terms.beginning.and_then(zone_in).or(self.terms.zone);
        let terms = Terms { beginning: None, near: Some(near), zone, ..*self.terms };
        let nearest = read_place(text, &terms)?;
        if geodesic_between(told.at, nearest.at).0 < SAME_M {
            return Ok(told);
        }
        if geodesic_between(near, nearest.at).0 > GOES_ON_M {
            return Err(PlaceError::two_squares(text, [&told, &nearest], &terms));
        }
        self.continued.push(Continued { record: record.into(), typed: text.trim().into(), read: completed(text, &nearest, &terms) });
        Ok(nearest)
    }

    /// With what the references of the record begin: as it was told, else the zone and band of the first, where all have one zone.
    pub(super) fn beginning(&self) -> Option<String> {
        let told = self.terms.beginning.map(str::trim).filter(|beginning| zone_in(beginning).is_some());
        if let Some(told) = told {
            return Some(told.to_owned());
        }
        let (zone, at) = *self.zones.first()?;
        self.zones.iter().all(|(other, _)| *other == zone).then(|| zone_and_band(zone, at)).flatten()
    }
}

#[cfg(test)]
mod tests {
    use super::without_width;

    #[test]
    fn a_width_is_read_as_photos_tell_it() {
        for text in ["574 976, ± 655 m (95 %)", "574 976 ±655m", "574 976 +/- 655 m", "574 976,\u{a0}±\u{a0}655\u{a0}m (95\u{a0}%)"] {
            assert_eq!(without_width(text), Some(("574 976", 655.0)), "{text}");
        }
        for text in ["574 976", "574 976 ± m", "574 976 ± -4 m", "574 976 ± 1e9 m", "574 976 ± 655 furlongs"] {
            assert_eq!(without_width(text), None, "{text}");
        }
    }
}
