//! A grid's datum beside WGS 84, and where the grid is meant to be used.

use super::known::known;
use super::ways::UNKNOWN_M;
use super::{DatumShift, Grid, GridError};
use crate::earth::{LatLon, geodesic_between};

impl Grid {
    /// The zone of a UTM grid on whatever datum, 0 of UPS on WGS 84; nothing of other grids.
    #[must_use]
    pub fn utm_zone(&self) -> Option<u8> {
        self.zone().or_else(|| Some(self.utm_on_other_datum()?.0))
    }

    /// Zone and half of a UTM grid on another datum than WGS 84.
    fn utm_on_other_datum(&self) -> Option<(u8, bool)> {
        known(&self.definition).ok().filter(|_| !self.is_utm_ups())?.utm
    }

    /// Whether it is a UTM grid on an ellipsoid whose maps letter the squares of MGRS otherwise than WGS 84 does.
    #[must_use]
    pub fn has_old_letters(&self) -> bool {
        !self.is_utm_ups() && known(&self.definition).is_ok_and(|known| known.old_letters)
    }

    /// Where a place really lies whose UTM numbers, as told on WGS 84, were read off a map of this grid; nothing where it is no UTM
    /// grid on another datum, or of another zone.
    ///
    /// # Accuracy
    /// That of [`Grid::unproject`].
    #[must_use]
    pub fn with_numbers_of(&self, at: LatLon, zone: u8) -> Option<LatLon> {
        let (own, is_north) = self.utm_on_other_datum().filter(|(own, _)| *own == zone)?;
        self.unproject(Self::utm_ups(own, is_north).project(at).ok()?).ok()
    }

    /// What is known of the datum shift that is used at a place.
    ///
    /// # Accuracy
    /// The register tells of an area its box, not its border. Where several shifts may hold by their boxes and one leads farther apart
    /// than the accuracy that is stated of the one used, what is told covers that: a place on another country's shift is not told
    /// sharper than it is (`tests/references/shift_ways.py`).
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn datum_shift(&self, at: LatLon) -> Result<DatumShift, GridError> {
        self.project(at)?;
        if self.is_utm_ups() {
            return Ok(DatumShift::Good(0.0));
        }
        let known = known(&self.definition)?;
        let last = known.last_shift();
        // One of the register whose accuracy PROJ does not tell.
        let is_registered = last == DatumShift::OfDefinition && self.shift_area(at).is_some();
        let stated_m = if let DatumShift::Good(stated_m) = last { stated_m } else { UNKNOWN_M };
        if last != DatumShift::Good(stated_m) && !is_registered {
            return Ok(last);
        }
        if self.shift_area(at).is_some_and(|area| !area.is_within) {
            return Ok(DatumShift::Borrowed(stated_m));
        }
        Ok(match known.last_rival(at).filter(|rival| rival.apart_m > stated_m) {
            Some(rival) => DatumShift::Disputed { stated_m, apart_m: rival.apart_m, accuracy_m: rival.reach_m(stated_m) },
            None if stated_m >= UNKNOWN_M => DatumShift::NotStated,
            None => DatumShift::Good(stated_m),
        })
    }

    /// The files that its definition would shift its datum by and goes on without, as it names them.
    #[must_use]
    pub fn missing_shift_files(&self) -> Option<String> {
        known(&self.definition).ok().filter(|_| !self.is_utm_ups())?.missing_files.clone()
    }

    /// How far a place moves when its latitude and longitude on WGS 84 are taken for those of the grid's own datum, metres.
    ///
    /// # Accuracy
    /// That of the shift, see [`Grid::datum_shift`].
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn datum_off_m(&self, at: LatLon) -> Result<f64, GridError> {
        self.project(at)?;
        let own = known(&self.definition)?.on_own_datum(at).ok_or_else(|| GridError::Outside(self.name.clone()))?;
        Ok(geodesic_between(at, own).0)
    }

    /// How far the same numbers lead apart on this grid and on WGS 84, metres: on UTM the eastings and northings, else latitude and
    /// longitude.
    ///
    /// # Accuracy
    /// That of the shift, see [`Grid::datum_shift`].
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn numbers_off_m(&self, at: LatLon) -> Result<f64, GridError> {
        let moved = self.utm_zone().and_then(|zone| self.with_numbers_of(at, zone));
        moved.map_or_else(|| self.datum_off_m(at), |moved| Ok(geodesic_between(at, moved).0))
    }

    /// How far a place lies outside the area that the grid is made for, metres; 0 inside and where none is registered.
    #[must_use]
    pub fn beyond_area_m(&self, at: LatLon) -> f64 {
        known(&self.definition).map_or(0.0, |known| known.beyond_area_m(at))
    }

    /// The middle of the area that the grid is made for, by latitude and longitude; nothing where none is registered.
    #[must_use]
    pub fn middle_of_area(&self) -> Option<LatLon> {
        known(&self.definition).ok()?.middle()
    }

    /// Whether a place lies in the grid's area of use; any does where none is registered.
    pub(crate) fn is_used_at(&self, at: LatLon) -> bool {
        known(&self.definition).is_ok_and(|known| known.reaches(at, 0.0))
    }
}
