//! The way from one datum to another by where a place lies. PROJ takes the best whose box holds the place, and a box about "Northwest
//! Territories; Nunavut; Saskatchewan" holds British Columbia, one about Italy the north of Tunisia.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;
use std::sync::OnceLock;

use proj::{Area, Proj};

use super::area::lies_in;
use super::shift_area::shifts_in;
use crate::earth::{LatLon, geodesic_between};

/// Of every datum that has several, all ways to WGS 84: datum, name, metres, and the boxes of its parts (west, south, east, north), none
/// of a way for waters alone.
///
/// # References
/// EPSG register in PROJ, made and held by `tests/references/shift_ways.py`.
const TABLE: &str = include_str!("ways.txt");

static REGISTER: OnceLock<Register> = OnceLock::new();

/// The ways of each datum, and the datum of each way.
struct Register {
    by_datum: HashMap<&'static str, Vec<Way>>,
    datum_of: HashMap<&'static str, &'static str>,
}

/// A registered way to WGS 84.
#[derive(Debug, PartialEq)]
pub(super) struct Way {
    datum: &'static str,
    pub(super) name: &'static str,
    /// What its publisher states, metres; [`UNKNOWN_M`] where nobody knows.
    pub(super) accuracy_m: f64,
    boxes: Vec<Extent>,
}

/// West, south, east, north, degrees; across the date line the west is the greater.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Extent {
    west: f64,
    south: f64,
    east: f64,
    north: f64,
}

/// By this the register says that an accuracy is not known, metres.
pub(super) const UNKNOWN_M: f64 = 999.0;
/// Boxes of one country on land and with its waters, or by two sources, differ by some tenths of a degree.
const SAME_BOX_DEG: f64 = 0.5;

impl Extent {
    fn read(text: &str) -> Option<Self> {
        let mut edges = text.split(' ').map(|edge| edge.parse::<f64>().ok());
        Some(Self { west: edges.next()??, south: edges.next()??, east: edges.next()??, north: edges.next()?? })
    }

    fn holds(&self, at: LatLon, margin_deg: f64) -> bool {
        lies_in(&Area::new(self.west, self.south, self.east, self.north), at, margin_deg)
    }

    /// Whether the other lies in this one, but for what boxes of one area differ by.
    fn contains(&self, other: &Self) -> bool {
        let corners = [(other.south, other.west), (other.north, other.east)];
        corners.into_iter().all(|(lat_deg, lon_deg)| self.holds(LatLon::computed(lat_deg, lon_deg), SAME_BOX_DEG))
            && self.size() * 2.0 > other.size()
    }

    /// Square degrees.
    fn size(&self) -> f64 {
        (self.east - self.west).rem_euclid(360.0) * (self.north - self.south)
    }
}

impl Way {
    fn read(line: &'static str) -> Option<Self> {
        let mut fields = line.split('|');
        let (datum, name, accuracy_m) = (fields.next()?, fields.next()?, fields.next()?.parse().ok()?);
        let boxes = fields.next()?.split(';').filter(|text| !text.is_empty()).map(Extent::read).collect::<Option<_>>()?;
        Some(Self { datum, name, accuracy_m, boxes })
    }

    /// The smallest box that holds a place.
    fn around(&self, at: LatLon) -> Option<&Extent> {
        self.boxes.iter().filter(|area| area.holds(at, 0.0)).min_by(|one, other| one.size().total_cmp(&other.size()))
    }
}

fn register() -> &'static Register {
    REGISTER.get_or_init(|| {
        let mut register = Register { by_datum: HashMap::new(), datum_of: HashMap::new() };
        for way in TABLE.lines().filter_map(Way::read) {
            register.datum_of.insert(way.name, way.datum);
            register.by_datum.entry(way.datum).or_default().push(way);
        }
        register
    })
}

/// The registered way of an operation that PROJ describes, where it is one alone, and all ways of its datum.
fn taken_of(described: &str) -> Option<(&'static Way, &'static [Way])> {
    let mut shifts = shifts_in(described);
    let (Some(taken), None) = (shifts.next(), shifts.next()) else { return None };
    let of_datum = register().by_datum.get(register().datum_of.get(taken)?)?;
    Some((of_datum.iter().find(|way| way.name == taken)?, of_datum))
}

/// The way to take at a place instead of the one that PROJ took, by its description of it: the one with the best accuracy whose parts hold
/// the place, where those of PROJ's do not. Else another whose box is less than half as large, where it is stated no worse, or PROJ's is a
/// mean of several countries and the other was made for one whose box does not lie in the one of them: Tunis lies in the box of Italy.
/// Nothing where PROJ's holds, or no other does.
pub(super) fn instead(described: &str, at: LatLon) -> Option<&'static Way> {
    let (taken, ways) = taken_of(described)?;
    let own = taken.around(at);
    let is_nearer = |way: &Way, area: &Extent| {
        let Some(own) = own else { return true };
        let is_other_country = taken.boxes.len() > 1 && way.boxes.len() == 1 && !own.contains(area);
        2.0 * area.size() < own.size() && (way.accuracy_m <= taken.accuracy_m || is_other_country)
    };
    let others = ways.iter().filter(|way| **way != *taken && way.around(at).is_some_and(|area| is_nearer(way, area)));
    others.min_by(|one, other| one.accuracy_m.total_cmp(&other.accuracy_m))
}

/// The other ways that may hold at a place as well as the one taken there: whose box holds it, but for a way that is no better and of
/// whose area that of the one taken is a part, or the other way round.
fn rivals(taken: &'static Way, at: LatLon) -> Vec<&'static Way> {
    let Some(own) = taken.around(at) else { return Vec::new() };
    let is_whole = |way: &Way, area: &Extent| way.accuracy_m >= taken.accuracy_m && (area.contains(own) || own.contains(area));
    let ways = register().by_datum.get(taken.datum).into_iter().flatten().filter(|way| way.name != taken.name);
    ways.filter(|way| way.around(at).is_some_and(|area| !is_whole(way, area))).collect()
}

/// A way that may hold at a place as well as the one taken, and how far it leads apart from that, metres.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rival {
    pub(super) way: &'static Way,
    pub(super) apart_m: f64,
}

impl Rival {
    /// How far a place may be off by the way taken where the rival holds, metres: as they lie apart, and by what is stated of the rival.
    pub(super) fn reach_m(&self, stated_m: f64) -> f64 {
        let own_m = if self.way.accuracy_m < UNKNOWN_M { self.way.accuracy_m } else { stated_m };
        self.apart_m.hypot(own_m).ceil()
    }
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

    /// The way that leads farthest apart from the one taken at a place, of those that may hold there as well.
    pub(super) fn rival(&self, described: &str, definition: &str, at: LatLon) -> Option<Rival> {
        let (taken, _) = taken_of(described)?;
        let own = |way| self.own_degrees(way, definition, at).and_then(|(lon, lat)| LatLon::new(lat, lon).ok());
        let from = own(taken)?;
        let apart = |way| Some(Rival { way, apart_m: geodesic_between(from, own(way)?).0 });
        rivals(taken, at).into_iter().filter_map(apart).max_by(|one, other| one.apart_m.total_cmp(&other.apart_m))
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

    use super::{TABLE, Way, instead, rivals, taken_of};
    use crate::earth::LatLon;

    /// Provinces and states by the map; descriptions by PROJ 9.5.1 through pyproj 3.7.2.
    #[test]
    fn a_way_made_for_another_province_is_not_taken() {
        let by = |described, lat, lon| instead(described, LatLon::new(lat, lon).expect("place")).map(|way| way.name);
        let saskatchewan = "axis order change (2D) + Inverse of NAD27 to WGS 84 (13) + UTM zone 10N";
        assert_eq!(by(saskatchewan, 49.5, -123.2), Some("NAD27 to WGS 84 (10)"), "British Columbia");
        assert_eq!(by(saskatchewan, 52.0, -105.0), None, "Saskatchewan");
        assert_eq!(by("Inverse of NAD27 to WGS 84 (88) + UTM zone 17N", 25.2, -80.8), Some("NAD27 to WGS 84 (4)"), "Florida");
        assert_eq!(
            by("Inverse of NAD27 to WGS 84 (86) + UTM zone 16N", 20.97, -89.6),
            Some("NAD27 to WGS 84 (18)"),
            "Merida, not the bay before it"
        );
        assert_eq!(
            by("Inverse of Batavia to WGS 84 (2) + NEIEZ", -6.2, 106.8),
            Some("Batavia to WGS 84 (1)"),
            "Jakarta, not the sea before it"
        );
        assert_eq!(by("Inverse of DHDN to WGS 84 (3) + Zone 3", 53.55, 10.0), Some("DHDN to WGS 84 (2)"), "Hamburg");
        assert_eq!(by("Inverse of DHDN to WGS 84 (3) + Zone 4", 51.05, 13.7), None, "Dresden");
        assert_eq!(
            by("Inverse of ED50 to WGS 84 (1) + UTM zone 32N", 36.8, 10.2),
            Some("ED50 to WGS 84 (16)"),
            "Tunis, in the box of Italy"
        );
        assert_eq!(by("Inverse of ED50 to WGS 84 (1) + UTM zone 33N", 35.9, 14.4), Some("ED50 to WGS 84 (12)"), "Malta");
        assert_eq!(by("Inverse of ED50 to WGS 84 (1) + UTM zone 33N", 42.0, 12.5), None, "Rome");
        assert_eq!(by("Inverse of ED50 to WGS 84 (17) + UTM zone 31N", 43.6, 1.4), None, "Toulouse, which a box about Spain holds");
        assert_eq!(by("Inverse of ED50 to WGS 84 (28) + UTM zone 31N", 39.6, 2.9), Some("ED50 to WGS 84 (27)"), "Mallorca");
        assert_eq!(by("Inverse of OSGB36 to WGS 84 (6) + British National Grid", 52.0, -2.0), None);
        assert_eq!(TABLE.lines().filter_map(Way::read).count(), TABLE.lines().count());
    }

    /// Which countries lie in which boxes is read off the table; a mean of Europe does not speak against Denmark's own way.
    #[test]
    fn other_ways_may_hold_where_a_border_is_near() {
        let others = |described, lat, lon| {
            let (taken, _) = taken_of(described).expect("registered");
            rivals(taken, LatLon::new(lat, lon).expect("place")).into_iter().map(|way| way.name).collect::<Vec<_>>()
        };
        assert_eq!(others("ED50 to WGS 84 (16)", 36.8, 10.2), ["ED50 to WGS 84 (1)"], "Tunis");
        assert!(others("ED50 to WGS 84 (25)", 56.0, 9.5).is_empty(), "Denmark");
        assert!(others("ED50 to WGS 84 (34)", 38.9, -7.0).contains(&"ED50 to WGS 84 (28)"), "the border of Portugal and Spain");
    }
}
