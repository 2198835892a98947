//! The sheet's own grid: any projected coordinate system that PROJ knows.

mod area;
mod axes;
mod codes;
mod datum;
mod error;
mod known;
mod made_for;
mod own_degrees;
mod shelf;
mod shift_area;
mod shift_files;
mod system;
mod utm;
mod ways;

pub use self::axes::{Axes, Axis};
pub use self::error::GridError;
pub use self::known::DatumShift;
use self::known::{Known, MARGIN_DEG, known};
pub use self::made_for::FarFromMiddle;
pub use self::shift_area::ShiftArea;
pub use self::system::{Flat, HeightAxis, System};
use super::{LatLon, geodesic_from};
use crate::measure::{Point, TrueBearing};

/// A projected grid by the definition that PROJ reads.
#[derive(Debug, Clone)]
pub struct Grid {
    definition: String,
    name: String,
}

/// Two grids of one definition are the same, whatever they are called.
impl PartialEq for Grid {
    fn eq(&self, other: &Self) -> bool {
        self.definition == other.definition
    }
}

impl Eq for Grid {}

/// Convergence and scale of a grid at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridFactors {
    /// Grid north against true north, degrees, east positive.
    pub convergence_deg: f64,
    /// Grid units per metre on the ellipsoid of WGS 84.
    pub scale: f64,
}

/// There and back a place may move by this much where no place has just these numbers, metres.
const RETURN_M: f64 = 50.0;
/// A place found again within this much is the one, metres. PROJ's shifts by seven parameters come back up to some millimetres off:
/// the whole numbers of a map must not be cut to the whole number below when they are told again.
const SAME_M: f64 = 1e-7;
/// The borders of two datum shifts cross a point at most this often on the way to its place.
const STEPS: usize = 4;

/// A place that may have the numbers asked for.
struct Candidate {
    at: LatLon,
    miss_m: f64,
    /// The same moved by what its numbers miss.
    nearer: LatLon,
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

    /// The UTM grid of a zone on WGS 84, on the half of the world where a place lies; UPS for zone 0.
    #[must_use]
    pub fn of_zone(zone: u8, at: LatLon) -> Self {
        Self::utm_ups(zone, at.lat_deg() >= 0.0)
    }

    /// The zone of a UTM grid on WGS 84, 0 of UPS; nothing of other grids.
    #[must_use]
    pub fn zone(&self) -> Option<u8> {
        let code: u32 = self.definition.get(5..).filter(|_| self.is_utm_ups())?.parse().ok()?;
        u8::try_from(code % 100).ok().map(|zone| if zone > 60 { 0 } else { zone })
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

    /// A grid by EPSG code with or without "EPSG:", PROJ string or UTM zone with hemisphere ("33N", "56S").
    ///
    /// # Errors
    /// [`GridError`] when PROJ does not know it, or it is no grid of eastings and northings.
    pub fn named(definition: &str) -> Result<Self, GridError> {
        let typed = definition.trim();
        if let Some(grid) = Self::from_zone(typed) {
            return Ok(grid);
        }
        let is_number = !typed.is_empty() && typed.chars().all(|c| c.is_ascii_digit());
        let wanted = if is_number { format!("EPSG:{typed}") } else { typed.to_owned() };
        known(&wanted)?;
        Ok(Self { name: wanted.clone(), definition: wanted })
    }

    /// A grid by its full description, with the name that a person reads.
    fn described(definition: &str, name: &str) -> Result<Self, GridError> {
        known(definition)?;
        Ok(Self { definition: definition.into(), name: name.into() })
    }

    /// "33N", or as it is told: "UTM 33 north".
    fn from_zone(text: &str) -> Option<Self> {
        let typed = text.strip_prefix("UTM").unwrap_or(text);
        let ends = [("north", true), ("south", false), ("N", true), ("n", true), ("S", false), ("s", false)];
        let (zone, north) = ends.iter().find_map(|(end, north)| Some((typed.strip_suffix(end)?, *north)))?;
        let zone: u8 = zone.trim().parse().ok()?;
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

    /// Whether its numbers are metres.
    #[must_use]
    pub fn counts_metres(&self) -> bool {
        known(&self.definition).is_ok_and(|known| known.unit.is_none())
    }

    /// The unit of its numbers as PROJ names it, where that is not the metre: "US survey foot".
    #[must_use]
    pub fn unit(&self) -> Option<String> {
        if self.is_utm_ups() { None } else { known(&self.definition).ok().and_then(|known| known.unit.clone()) }
    }

    /// Whether a whole sheet around a place has coordinates of this grid: half the margin that [`Grid::project`] allows.
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn serves(&self, at: LatLon) -> Result<(), GridError> {
        let well = known(&self.definition)?.reaches(at, MARGIN_DEG / 2.0);
        if well { self.factors(at).map(|_| ()) } else { Err(GridError::Outside(self.name.clone())) }
    }

    /// Easting and northing of a place, in the grid's own unit; of a grid that counts west or south the negative of its numbers, see
    /// [`Axes`].
    ///
    /// # Errors
    /// [`GridError`] when the grid is unknown or does not reach the place.
    pub fn project(&self, at: LatLon) -> Result<Point, GridError> {
        if let Some(point) = self.utm_point(at) {
            return Ok(point);
        }
        let known = known(&self.definition)?;
        let point = if known.reaches(at, MARGIN_DEG) { known.point_of(at) } else { None };
        point.ok_or_else(|| self.not_there(&known))
    }

    /// Why there are no numbers for a place, or no place of numbers.
    fn not_there(&self, known: &Known) -> GridError {
        let name = self.name.clone();
        if known.is_reckoned() { GridError::Outside(name) } else { GridError::Unreckoned(name) }
    }

    /// Numbers of UTM or UPS on WGS 84 in its own zone and half of the world, which need no PROJ.
    fn utm_point(&self, at: LatLon) -> Option<Point> {
        let zone = self.zone()?;
        let is_own_half = Self::of_zone(zone, at) == *self;
        utm::point_of(zone, at).filter(|_| is_own_half)
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
    /// # Accuracy
    /// The place whose numbers these are, by the same datum shift that [`Grid::project`] takes there, within 0.1 µm. PROJ
    /// takes one shift on each side of a border; numbers that fall between two shifts belong to no place, and the nearest is
    /// told: a strip as wide as the shifts differ, 19 m in the north-east of the United States on NAD27.
    ///
    /// # Errors
    /// As [`Grid::project`].
    pub fn unproject(&self, point: Point) -> Result<LatLon, GridError> {
        let outside = || GridError::Outside(self.name.clone());
        let known = known(&self.definition)?;
        let first = known.place_of(point).ok_or_else(|| self.not_there(&known))?;
        let mut best = self.candidate(first, point)?;
        for _ in 0..STEPS {
            if best.miss_m <= SAME_M {
                break;
            }
            match self.candidate(best.nearer, point) {
                Ok(next) if next.miss_m < best.miss_m => best = next,
                _ => break,
            }
        }
        if best.miss_m <= RETURN_M { Ok(best.at) } else { Err(outside()) }
    }

    fn candidate(&self, at: LatLon, wanted: Point) -> Result<Candidate, GridError> {
        let miss = wanted.minus(self.project(at)?);
        let factors = self.factors(at)?;
        let miss_m = miss.length_m() / factors.scale;
        let bearing = TrueBearing::new(miss.bearing_deg() + factors.convergence_deg);
        Ok(Candidate { at, miss_m, nearer: geodesic_from(at, bearing, miss_m).0 })
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
