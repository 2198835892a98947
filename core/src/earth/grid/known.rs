//! Grids as PROJ has them, made once a thread.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use proj::{Area, Proj};
use serde_json::Value;

use super::axes::Axes;
use super::made_for::MadeFor;
use super::own_degrees::OwnDegrees;
use super::shelf::Shelf;
use super::ways::{Rival, Steps, Way, instead};
use super::{GridError, codes, shift_files};
use crate::earth::LatLon;
use crate::measure::Point;

thread_local! {
    static KNOWN: RefCell<Shelf<Known>> = RefCell::new(Shelf::new());
}

/// A grid as PROJ has it: the way from latitude and longitude, and where it is meant to be used.
pub(super) struct Known {
    definition: String,
    transform: Proj,
    back: Proj,
    /// To latitude and longitude on the grid's own datum.
    degrees: Option<OwnDegrees>,
    /// Held because what is dropped closes the database for all that is made after it (see [`Shelf`]).
    _held: (Proj, Option<Proj>),
    pub(super) area: Option<Area>,
    /// The order and directions of its numbers, as PROJ takes and gives them.
    pub(super) axes: Axes,
    /// Whether its register has the northing first.
    pub(super) northing_first: bool,
    /// Where it is made for, by its definition.
    pub(super) made_for: MadeFor,
    /// Its unit as PROJ names it, where that is not the metre: "US survey foot".
    pub(super) unit: Option<String>,
    /// The zone of UTM and whether it is the northern half, on whatever datum, where it counts so.
    pub(super) utm: Option<(u8, bool)>,
    /// Whether that is on an ellipsoid whose maps have other square letters.
    pub(super) old_letters: bool,
    /// Whether its definition names an ellipsoid of today and no datum.
    is_of_today: bool,
    /// The files that its definition would shift its datum by and goes on without.
    pub(super) missing_files: Option<String>,
    /// The way taken for the last [`Known::point_of`] instead of PROJ's, and the steps of such ways.
    way: Cell<Option<&'static Way>>,
    steps: Steps,
}

/// What is known of the shift between WGS 84 and a grid's datum at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DatumShift {
    /// Its publisher states that it is good to so many metres; 0 where there is none to make.
    Good(f64),
    /// So many metres are stated of it, but another that may hold there as well, as the borders of its area are not known here, leads
    /// farther apart than that.
    Disputed {
        /// What its publisher states, metres.
        stated_m: f64,
        /// How far apart the other leads, metres.
        apart_m: f64,
        /// How far off a place may then be: as far as they lie apart, and by what is stated of the other, metres.
        accuracy_m: f64,
    },
    /// The same of a shift that was made for an area in which the place does not lie: PROJ takes it for want of another, and what it
    /// is worth there nobody states.
    Borrowed(f64),
    /// It is registered without a figure.
    NotStated,
    /// The grid's own definition brings it (`+towgs84`), and nobody states what it is worth.
    OfDefinition,
    /// The definition names a file that is not here and goes on without it (`+nadgrids=@…`, see [`Grid::missing_shift_files`]):
    /// latitude and longitude of one datum are taken for those of the other.
    ///
    /// [`Grid::missing_shift_files`]: super::Grid::missing_shift_files
    FileMissing,
    /// The definition names no datum, but an ellipsoid of today, WGS 84 or GRS 80, whose datums lie within some metres of each other.
    NotNamed,
    /// None is known there: latitude and longitude of one datum are taken for those of the other, which may be off by
    /// hundreds of metres.
    Unknown,
}

impl DatumShift {
    /// How far off a place may be, metres, where that is known.
    #[must_use]
    pub fn accuracy_m(self) -> Option<f64> {
        match self {
            Self::Good(metres) => Some(metres),
            Self::Disputed { accuracy_m, .. } => Some(accuracy_m),
            Self::Borrowed(_) | Self::NotStated | Self::OfDefinition | Self::FileMissing | Self::NotNamed | Self::Unknown => None,
        }
    }
}

/// Latitude and longitude as the core has them.
pub(super) const WGS_84: &str = "EPSG:4326";
/// Places farther than this outside a grid's area of use have no sensible coordinates, degrees.
pub(super) const MARGIN_DEG: f64 = 10.0;

/// A transform is made once a thread: PROJ objects may not travel between threads.
pub(super) fn known(definition: &str) -> Result<Rc<Known>, GridError> {
    KNOWN.with_borrow_mut(|shelf| shelf.take(definition, make))
}

fn make(definition: &str) -> Result<Known, GridError> {
    let unknown = || GridError::Unknown(definition.into());
    if !is_sensible(definition) {
        return Err(unknown());
    }
    // Asked first: refused here, PROJ's binding holds 1 to 23 kB for ever, by the transforms 108 to 124 kB (0.31, x86_64).
    let crs = Proj::new(&as_crs(definition)).map_err(|_| unknown())?;
    let described = crs.to_projjson(Some(false), None, None).unwrap_or_default();
    if !described.contains("ProjectedCRS") {
        return Err(GridError::OfDegrees(definition.into()));
    }
    let flat = flat_of(&described);
    let axes = Axes::described(&flat).ok_or_else(|| GridError::Turned(definition.into()))?;
    if !is_of_the_earth(&described) {
        return Err(unknown());
    }
    let missing_files = shift_files::missing(&described, definition)?;
    let transform = Proj::new_known_crs(WGS_84, definition, None).map_err(|_| unknown())?;
    let back = Proj::new_known_crs(definition, WGS_84, None).map_err(|_| unknown())?;
    // A grid joined with heights has no area of use of its own.
    let joined = if area_of(&crs).is_none() { numbered(&flat).and_then(|number| Proj::new(&number).ok()) } else { None };
    let area = area_of(&crs).or_else(|| joined.as_ref().and_then(area_of));
    let degrees = OwnDegrees::under(&described);
    let (unit, made_for) = (unit_of(&flat), MadeFor::described(&flat));
    let utm = utm_of(&flat).filter(|_| unit.is_none());
    let old_letters = utm.is_some() && has_old_ellipsoid(&flat);
    Ok(Known {
        definition: definition.into(),
        transform,
        back,
        degrees,
        _held: (crs, joined),
        area,
        axes,
        northing_first: Axes::has_northing_first(&flat),
        made_for,
        unit,
        utm,
        old_letters,
        is_of_today: is_of_today(&flat),
        missing_files,
        way: Cell::new(None),
        steps: Steps::default(),
    })
}

fn area_of(crs: &Proj) -> Option<Area> {
    crs.area_of_use().ok().and_then(|(area, _)| area)
}

/// The grid of eastings and northings within a description: without the heights beside it and the shift bound to it.
fn flat_of(described: &str) -> Value {
    let whole: Value = serde_json::from_str(described).unwrap_or_default();
    let part = |whole: &Value| ["/components/0", "/source_crs"].iter().find_map(|part| whole.pointer(part)).cloned();
    part(&whole).map_or(whole, |inner| part(&inner).unwrap_or(inner))
}

/// The number of a grid in the EPSG register.
fn numbered(flat: &Value) -> Option<String> {
    let is_epsg = flat.pointer("/id/authority").and_then(Value::as_str) == Some("EPSG");
    flat.pointer("/id/code").and_then(Value::as_u64).filter(|_| is_epsg).map(|code| format!("EPSG:{code}"))
}

/// The zone and half of a grid that counts as UTM does, by the name that PROJ gives its projection: "UTM zone 33N".
fn utm_of(flat: &Value) -> Option<(u8, bool)> {
    let name = flat.pointer("/conversion/name").and_then(Value::as_str)?.strip_prefix("UTM zone ")?;
    let (zone, is_north) = name.strip_suffix('N').map(|zone| (zone, true)).or_else(|| Some((name.strip_suffix('S')?, false)))?;
    Some((zone.parse().ok().filter(|zone| (1..=60).contains(zone))?, is_north))
}

/// By the names that PROJ gives the ellipsoids of Clarke and Bessel.
fn has_old_ellipsoid(flat: &Value) -> bool {
    const OLD: [&str; 4] = ["Clarke 1866", "Clarke 1880", "Bessel 1841", "Bessel Namibia"];
    let name = flat.pointer("/base_crs/datum/ellipsoid/name").and_then(Value::as_str);
    name.is_some_and(|name| OLD.iter().any(|old| name.starts_with(old)))
}

/// By the name that PROJ gives the datum of a string with an ellipsoid alone: "Unknown based on GRS 1980 ellipsoid".
fn is_of_today(flat: &Value) -> bool {
    let datum = flat.pointer("/base_crs/datum/name").and_then(Value::as_str).unwrap_or_default();
    ["Unknown based on WGS 84 ellipsoid", "Unknown based on GRS 1980 ellipsoid"].contains(&datum)
}

/// A definition as PROJ reads it as a coordinate system rather than as a step of reckoning.
pub(super) fn as_crs(definition: &str) -> String {
    format!("{definition}{CRS}", CRS = if definition.starts_with('+') { " +type=crs" } else { "" })
}

/// How the definition of a grid begins that is written out: a string of PROJ, well-known text of either version, PROJJSON.
const WRITTEN_OUT: [&str; 7] = ["+proj=", "PROJCS[", "PROJCRS[", "COMPD_CS[", "COMPOUNDCRS[", "BOUNDCRS[", "{"];

/// Longer definitions are not shown to PROJ, bytes; the longest of the Esri format that GDAL 3.6 writes has 1.5 kB.
pub(super) const LONGEST: usize = 16 * 1024;

/// What is no definition at all is not shown to PROJ, which would complain on standard error and hold memory for it.
fn is_sensible(definition: &str) -> bool {
    if definition.contains("+init") || definition.len() > LONGEST {
        return false;
    }
    WRITTEN_OUT.iter().any(|start| definition.starts_with(start)) || codes::is_registered(definition)
}

/// Whether every ellipsoid named has the earth's size within half a percent, as PROJ tells the bodies of the sky apart.
fn is_of_the_earth(described: &str) -> bool {
    const EARTH_M: f64 = 6_378_137.0;
    const RADII: [&str; 2] = ["\"semi_major_axis\":", "\"radius\":"];
    let after = |name: &'static str| described.match_indices(name).filter_map(|(at, name)| described.get(at + name.len()..));
    let metres = |rest: &str| rest.trim_start().split([',', '}', '\n']).next().and_then(|figure| figure.trim().parse::<f64>().ok());
    RADII.iter().flat_map(|name| after(name)).filter_map(metres).all(|axis_m| (axis_m / EARTH_M - 1.0).abs() < 0.005)
}

/// The unit of the first axis, which PROJ calls "metre" or describes; nothing for the metre.
fn unit_of(flat: &Value) -> Option<String> {
    let unit = flat.pointer("/coordinate_system/axis/0/unit").filter(|unit| unit.as_str() != Some("metre"))?;
    let name = unit.as_str().or_else(|| unit.get("name").and_then(Value::as_str));
    Some(name.unwrap_or("its own unit").to_owned())
}

impl Known {
    /// Easting and northing of a place, if there are any; by the datum shift that was made for where it lies.
    pub(super) fn point_of(&self, at: LatLon) -> Option<Point> {
        let by_proj = self.transform.convert((at.lon_deg(), at.lat_deg())).ok()?;
        self.way.set(self.transform.proj_info().description.and_then(|described| instead(&described, at)));
        let way = self.way.get();
        let (first, second) = way.and_then(|way| self.steps.numbers(way, &self.definition, at)).unwrap_or(by_proj);
        (f64::is_finite(first) && f64::is_finite(second)).then(|| self.axes.point(first, second))
    }

    /// Whether PROJ has the mathematics of its projection: the middle of its area has numbers, where there is one.
    pub(super) fn is_reckoned(&self) -> bool {
        self.middle().is_none_or(|middle| self.point_of(middle).is_some())
    }

    /// The place of an easting and northing, if there is one; by a datum shift that need not be the one of the way there.
    pub(super) fn place_of(&self, point: Point) -> Option<LatLon> {
        let (lon, lat) = self.back.convert(self.axes.numbers(point)).ok()?;
        LatLon::new(lat, lon).ok()
    }

    /// Latitude and longitude of a place on the grid's own datum.
    pub(super) fn on_own_datum(&self, at: LatLon) -> Option<LatLon> {
        self.point_of(at)?;
        match self.way.get().and_then(|way| self.steps.own_degrees(way, &self.definition, at)) {
            Some((lon, lat)) => LatLon::new(lat, lon).ok(),
            None => self.degrees.as_ref()?.of(at),
        }
    }

    /// The steps of the operation taken for the last [`Known::point_of`], as PROJ describes them.
    pub(super) fn last_steps(&self) -> Option<String> {
        self.way.get().map_or_else(|| self.transform.proj_info().description, |way| Some(way.name.into()))
    }

    /// What speaks against the operation taken at a place, after [`Known::point_of`] there: the registered way that leads farthest apart
    /// from it of those that may hold there as well.
    pub(super) fn last_rival(&self, at: LatLon) -> Option<Rival> {
        self.steps.rival(&self.last_steps()?, &self.definition, at)
    }

    /// Of the operation taken for the last [`Known::point_of`].
    pub(super) fn last_shift(&self) -> DatumShift {
        if let Some(way) = self.way.get() {
            return DatumShift::Good(way.accuracy_m);
        }
        let info = self.transform.proj_info();
        let is_guess = info.description.is_none_or(|steps| steps.contains("Ballpark"));
        match info.accuracy {
            _ if self.missing_files.is_some() => DatumShift::FileMissing,
            accuracy_m if accuracy_m >= 0.0 => DatumShift::Good(accuracy_m),
            _ if is_guess && self.is_of_today => DatumShift::NotNamed,
            _ if is_guess => DatumShift::Unknown,
            _ => DatumShift::OfDefinition,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::is_sensible;

    #[test]
    fn what_cannot_be_a_grid_is_not_shown_to_proj() {
        for definition in [
            "EPSG:27700",
            "epsg:27700",
            "EPSG:27700+5701",
            "ESRI:102003",
            "IGNF:LAMB93",
            "urn:ogc:def:crs:EPSG::2056",
            "+proj=utm +zone=33",
            "{\"type\":\"ProjectedCRS\"}",
        ] {
            assert!(is_sensible(definition), "{definition}");
        }
        for definition in [
            "",
            "none",
            "EPSG:99999",
            "$PSG:32633",
            "EPSG:3~2(633",
            "EPSG",
            "EPSG 32633",
            "+init=epsg:4326",
            "+proj=utm +init=epsg:4326",
            "+zone=33",
        ] {
            assert!(!is_sensible(definition), "{definition}");
        }
    }
}
