//! The way from one datum to another by where a place lies. PROJ takes the best whose box holds the place, and a box about "Northwest
//! Territories; Nunavut; Saskatchewan" holds British Columbia.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::OnceLock;

use proj::{Area, Proj};

use super::area::lies_in;
use super::shift_area::shifts_in;
use crate::earth::LatLon;

/// Of every datum of which a way was made for an area in parts, all ways to WGS 84 that hold on land: datum, name, metres, and the boxes
/// of its parts (west, south, east, north).
///
/// # References
/// EPSG register in PROJ, made and held by `tests/references/shift_ways.py`.
const TABLE: &str = include_str!("ways.txt");

static WAYS: OnceLock<Vec<Way>> = OnceLock::new();

/// A registered way to WGS 84.
pub(super) struct Way {
    datum: &'static str,
    pub(super) name: &'static str,
    /// What its publisher states, metres.
    pub(super) accuracy_m: f64,
    boxes: Vec<Area>,
}

impl Way {
    fn read(line: &'static str) -> Option<Self> {
        let mut fields = line.split('|');
        let (datum, name, accuracy_m) = (fields.next()?, fields.next()?, fields.next()?.parse().ok()?);
        let boxes = fields.next()?.split(';').map(box_of).collect::<Option<_>>()?;
        Some(Self { datum, name, accuracy_m, boxes })
    }

    fn holds(&self, at: LatLon) -> bool {
        self.boxes.iter().any(|area| lies_in(area, at, 0.0))
    }
}

fn box_of(text: &str) -> Option<Area> {
    let mut edges = text.split(' ').map(|edge| edge.parse::<f64>().ok());
    Some(Area::new(edges.next()??, edges.next()??, edges.next()??, edges.next()??))
}

fn ways() -> &'static [Way] {
    WAYS.get_or_init(|| TABLE.lines().filter_map(Way::read).collect())
}

/// The way to take at a place instead of the one that PROJ took, by its description of it: the one with the best accuracy whose parts hold
/// the place, where those of PROJ's do not. Nothing where PROJ's holds, or no other does.
pub(super) fn instead(described: &str, at: LatLon) -> Option<&'static Way> {
    let mut shifts = shifts_in(described);
    let (Some(taken), None) = (shifts.next(), shifts.next()) else { return None };
    let taken = ways().iter().find(|way| way.name == taken).filter(|way| !way.holds(at))?;
    let others = ways().iter().filter(|way| way.datum == taken.datum && way.holds(at));
    others.min_by(|one, other| one.accuracy_m.total_cmp(&other.accuracy_m))
}

/// The steps of such ways to one grid, made when they are asked for and kept (see [`super::shelf::Shelf`]).
#[derive(Default)]
pub(super) struct Steps(RefCell<Vec<(&'static str, Rc<Step>)>>);

struct Step {
    shift: Proj,
    flat: Proj,
}

impl Steps {
    fn step(&self, way: &'static Way, definition: &str) -> Option<Rc<Step>> {
        let mut made = self.0.borrow_mut();
        if let Some((_, step)) = made.iter().find(|(name, _)| *name == way.name) {
            return Some(Rc::clone(step));
        }
        let flat = Proj::new_known_crs(&format!("EPSG:{}", way.datum), definition, None).ok()?;
        let step = Rc::new(Step { shift: Proj::new(way.name).ok()?, flat });
        made.push((way.name, Rc::clone(&step)));
        Some(step)
    }

    /// Longitude and latitude on the grid's own datum.
    pub(super) fn own_degrees(&self, way: &'static Way, definition: &str, at: LatLon) -> Option<(f64, f64)> {
        let step = self.step(way, definition)?;
        let (lat, lon) = step.shift.project((at.lat_deg(), at.lon_deg()), true).ok()?;
        (f64::is_finite(lat) && f64::is_finite(lon)).then_some((lon, lat))
    }

    /// The numbers of a place in the grid.
    pub(super) fn numbers(&self, way: &'static Way, definition: &str, at: LatLon) -> Option<(f64, f64)> {
        let own = self.own_degrees(way, definition, at)?;
        self.step(way, definition)?.flat.convert(own).ok()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used, reason = "a test may stop where it fails")]

    use super::{TABLE, instead, ways};
    use crate::earth::LatLon;

    /// Provinces and states by the map; descriptions by PROJ 9.5.1 through pyproj 3.7.2.
    #[test]
    fn a_way_made_for_another_province_is_not_taken() {
        let by = |described, lat, lon| instead(described, LatLon::new(lat, lon).expect("place")).map(|way| way.name);
        let saskatchewan = "axis order change (2D) + Inverse of NAD27 to WGS 84 (13) + UTM zone 10N";
        assert_eq!(by(saskatchewan, 49.5, -123.2), Some("NAD27 to WGS 84 (10)"), "British Columbia");
        assert_eq!(by(saskatchewan, 52.0, -105.0), None, "Saskatchewan");
        assert_eq!(by("Inverse of NAD27 to WGS 84 (88) + UTM zone 17N", 25.2, -80.8), Some("NAD27 to WGS 84 (4)"), "Florida");
        assert_eq!(by("Inverse of OSGB36 to WGS 84 (6) + British National Grid", 52.0, -2.0), None);
        assert_eq!(ways().len(), TABLE.lines().count());
    }
}
