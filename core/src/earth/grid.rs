//! The sheet's own grid: any projected coordinate system that PROJ knows.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use proj::{Area, Proj};

use super::{LatLon, geodesic_from};
use crate::measure::{Message, Point, Telling, TrueBearing};

/// A projected grid by the definition that PROJ reads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grid {
    definition: String,
    name: String,
}

/// Convergence and scale of a grid at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridFactors {
    /// Grid north against true north, degrees, east positive.
    pub convergence_deg: f64,
    /// Grid units per metre on the ellipsoid of WGS 84.
    pub scale: f64,
}

/// Why a grid could not be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum GridError {
    /// PROJ does not know the definition.
    #[error("grid-unknown")]
    Unknown(String),
    /// The grid has no coordinates for the place.
    #[error("place-outside-grid")]
    Outside(String),
}

impl Telling for GridError {
    fn message(&self) -> Message {
        let (id, grid) = match self {
            Self::Unknown(grid) => ("grid-unknown", grid),
            Self::Outside(grid) => ("place-outside-grid", grid),
        };
        Message::new(id).text("grid", grid.clone())
    }
}

thread_local! {
    static KNOWN: RefCell<HashMap<String, Rc<Known>>> = RefCell::new(HashMap::new());
}

/// A grid as PROJ has it: the way from latitude and longitude, and where it is meant to be used.
struct Known {
    transform: Proj,
    back: Proj,
    area: Option<Area>,
}

/// Latitude and longitude as the core has them.
const WGS_84: &str = "EPSG:4326";
/// There and back a place may move by this much where PROJ chooses between several datum shifts, metres.
const RETURN_M: f64 = 50.0;
/// Places farther than this outside a grid's area of use have no sensible coordinates, degrees.
const MARGIN_DEG: f64 = 10.0;

/// A transform is made once a thread: PROJ objects may not travel between threads.
fn known(definition: &str) -> Result<Rc<Known>, GridError> {
    KNOWN.with_borrow_mut(|all| {
        if let Some(found) = all.get(definition) {
            return Ok(Rc::clone(found));
        }
        let made = Rc::new(make(definition)?);
        all.insert(definition.into(), Rc::clone(&made));
        Ok(made)
    })
}

fn make(definition: &str) -> Result<Known, GridError> {
    let unknown = || GridError::Unknown(definition.into());
    // What is no definition at all is not shown to PROJ, which would complain on standard error.
    let sensible = definition.contains(':') || definition.starts_with("+proj=");
    if !sensible || definition.contains("+init") {
        return Err(unknown());
    }
    let transform = Proj::new_known_crs(WGS_84, definition, None).map_err(|_| unknown())?;
    let back = Proj::new_known_crs(definition, WGS_84, None).map_err(|_| unknown())?;
    let crs = Proj::new(&format!("{definition}{CRS}", CRS = if definition.starts_with('+') { " +type=crs" } else { "" }))
        .map_err(|_| unknown())?;
    if !is_projected(&crs) {
        return Err(unknown());
    }
    let area = crs.area_of_use().ok().and_then(|(area, _)| area);
    Ok(Known { transform, back, area })
}

/// A grid of eastings and northings: not one of degrees, of axes through the earth, or counted west and south.
fn is_projected(crs: &Proj) -> bool {
    let described = crs.to_projjson(Some(false), None, None).unwrap_or_default();
    let turned = described.contains("\"direction\":\"west\"") || described.contains("\"direction\": \"west\"");
    described.contains("ProjectedCRS") && !turned
}

impl Known {
    fn reaches(&self, at: LatLon, margin_deg: f64) -> bool {
        let Some(area) = &self.area else { return true };
        let east_of_west = (at.lon_deg() - area.west + margin_deg).rem_euclid(360.0);
        let width = (area.east - area.west).rem_euclid(360.0) + 2.0 * margin_deg;
        let whole_circle = area.east - area.west >= 340.0;
        let high_enough = at.lat_deg() >= area.south - margin_deg && at.lat_deg() <= area.north + margin_deg;
        high_enough && (whole_circle || east_of_west <= width)
    }
}

impl Grid {
    /// The UTM or UPS grid of a place, on WGS 84, the exceptions of Norway and Svalbard included.
    #[must_use]
    pub fn of_place(at: LatLon) -> Self {
        let zone = mgrs_convert::LatLon::new(at.lat_deg(), at.lon_deg()).map_or((31, at.lat_deg() >= 0.0), |place| {
            let utm = place.to_utmups();
            (utm.zone(), utm.is_north())
        });
        Self::utm_ups(zone.0, zone.1)
    }

    fn utm_ups(zone: u8, north: bool) -> Self {
        let side = if north { "north" } else { "south" };
        let code = match (zone, north) {
            (0, true) => 32661,
            (0, false) => 32761,
            (zone, true) => 32600 + u32::from(zone),
            (zone, false) => 32700 + u32::from(zone),
        };
        let name = if zone == 0 { format!("UPS {side}") } else { format!("UTM {zone} {side}") };
        Self { definition: format!("EPSG:{code}"), name }
    }

    /// A grid by EPSG code, PROJ string or UTM zone with hemisphere ("33N", "56S").
    ///
    /// # Errors
    /// [`GridError::Unknown`] when PROJ does not know it.
    pub fn named(definition: &str) -> Result<Self, GridError> {
        let wanted = definition.trim();
        if let Some(grid) = Self::from_zone(wanted) {
            return Ok(grid);
        }
        known(wanted)?;
        Ok(Self { definition: wanted.into(), name: wanted.into() })
    }

    fn from_zone(text: &str) -> Option<Self> {
        let north = match text.chars().next_back()? {
            'N' | 'n' => true,
            'S' | 's' => false,
            _ => return None,
        };
        let zone: u8 = text.get(..text.len() - 1)?.trim().parse().ok()?;
        (1..=60).contains(&zone).then(|| Self::utm_ups(zone, north))
    }

    /// The grid as PROJ reads it.
    #[must_use]
    pub fn definition(&self) -> &str {
        &self.definition
    }

    /// The grid as a person reads it: "UTM 33 north", "EPSG:27700".
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whether a whole sheet around a place has coordinates of this grid: half the margin that [`Grid::project`] allows.
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn serves(&self, at: LatLon) -> Result<(), GridError> {
        let well = known(&self.definition)?.reaches(at, MARGIN_DEG / 2.0);
        if well { self.factors(at).map(|_| ()) } else { Err(GridError::Outside(self.name.clone())) }
    }

    /// Easting and northing of a place, in the grid's own unit.
    ///
    /// # Errors
    /// [`GridError`] when the grid is unknown or does not reach the place.
    pub fn project(&self, at: LatLon) -> Result<Point, GridError> {
        let outside = || GridError::Outside(self.name.clone());
        let known = known(&self.definition)?;
        if !known.reaches(at, MARGIN_DEG) {
            return Err(outside());
        }
        let (east, north) = known.transform.convert((at.lon_deg(), at.lat_deg())).map_err(|_| outside())?;
        if f64::is_finite(east) && f64::is_finite(north) { Ok(Point::new(east, north)) } else { Err(outside()) }
    }

    /// Whether it is a UTM or UPS grid on WGS 84, whose references are MGRS.
    #[must_use]
    pub fn is_utm_ups(&self) -> bool {
        let code = self.definition.get(5..).and_then(|code| code.parse::<u32>().ok());
        let is_epsg = self.definition.get(..5).is_some_and(|start| start.eq_ignore_ascii_case("EPSG:"));
        is_epsg && code.is_some_and(|code| matches!(code, 32601..=32661 | 32701..=32761))
    }

    /// The place of an easting and northing in the grid's own unit.
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn unproject(&self, point: Point) -> Result<LatLon, GridError> {
        let outside = || GridError::Outside(self.name.clone());
        let (lon, lat) = known(&self.definition)?.back.convert((point.east_m, point.north_m)).map_err(|_| outside())?;
        let at = LatLon::new(lat, lon).map_err(|_| outside())?;
        let again = self.project(at)?.minus(point).length_m();
        if again <= RETURN_M * self.factors(at)?.scale { Ok(at) } else { Err(outside()) }
    }

    /// What PROJ states as the accuracy of the datum shift it uses at a place, metres; nothing when it states none.
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn datum_accuracy_m(&self, at: LatLon) -> Result<Option<f64>, GridError> {
        self.project(at)?;
        // After a conversion PROJ tells of the operation that it chose for it.
        let accuracy_m = known(&self.definition)?.transform.proj_info().accuracy;
        Ok((accuracy_m >= 0.0).then_some(accuracy_m))
    }

    /// Convergence and scale at a place, from a step of 20 m north and 20 m east around it.
    ///
    /// Accuracy: 1e-6 degrees and 1e-8 against `proj_factors` of PROJ 9.6.2 (case files
    /// `tests/vectors/earth/grid.json`); the scale is that of the meridian and holds in every
    /// direction on the conformal grids of maps. On a grid of another ellipsoid it differs from the
    /// scale printed for that ellipsoid by up to 3e-5. In a grid of feet it is in feet per metre.
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn factors(&self, at: LatLon) -> Result<GridFactors, GridError> {
        const HALF_STEP_M: f64 = 10.0;
        let ends = [180.0, 0.0].map(|bearing| geodesic_from(at, TrueBearing::new(bearing), HALF_STEP_M).0);
        let [south, north] = ends.map(|end| self.project(end));
        let step = north?.minus(south?);
        let bearing_deg = step.east_m.atan2(step.north_m).to_degrees();
        Ok(GridFactors { convergence_deg: -bearing_deg, scale: step.length_m() / (2.0 * HALF_STEP_M) })
    }
}
