//! Fixes on a line against published figures, and their limits against simulated walkers.

use gatepost_core::earth::{Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{BearingSighting, Fix, FixError, Instrument, Scene, Sighting, take};
use gatepost_core::measure::{NamedBearing, North, Point};
use gatepost_core::sheet::{Landmark, Line};

fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(36.59, -84.25).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

/// A straight road of 8 km along `direction_deg`, its middle in the origin, drawn without error.
fn road(direction_deg: f64) -> Line {
    let half = Point::polar(4_000.0, direction_deg);
    Line::new("Road", "road", vec![half.times(-1.0), half], 0.0).unwrap()
}

fn sighting(mark: Point, plane_deg: f64, spread_deg: f64, norths: &Norths) -> BearingSighting {
    let landmark = Landmark { name: "Mast".into(), kind: "mast".into(), at: mark, spread_m: 0.0, height_m: None };
    let reading = NamedBearing::new(plane_deg - norths.plane_minus_magnetic_deg(Point::default()), North::Magnetic);
    BearingSighting::to(landmark, reading, Some(spread_deg))
}

fn fix_on(line: &Line, bearings: Vec<BearingSighting>, norths: &Norths) -> Result<Fix, FixError> {
    let sightings = bearings.into_iter().map(Sighting::Bearing).collect();
    take(&Scene::on(line, sightings, norths, Instrument::Sighting.trust()))
}

/// Spread along the road of a modified resection: `d·sigma / sin(cut)` for sigma 2°.
///
/// # References
/// The formula: US Army FM 3-25.26, modified resection; American Practical Navigator (NGA Pub. 9).
/// The table was computed with `NumPy` and rounded to 0.1 m.
#[test]
fn one_bearing_spreads_along_a_straight_road_as_the_table_says() {
    let table = [
        (500.0, [17.5, 20.2, 24.7, 34.9, 51.0, 100.5]),
        (1000.0, [34.9, 40.3, 49.4, 69.8, 102.1, 201.0]),
        (2000.0, [69.8, 80.6, 98.7, 139.6, 204.1, 402.0]),
        (4000.0, [139.6, 161.2, 197.5, 279.3, 408.2, 804.1]),
    ];
    let norths = norths();
    for (distance_m, row) in table {
        for (cut_deg, expected_m) in [90.0, 60.0, 45.0, 30.0, 20.0, 10.0].into_iter().zip(row) {
            let (line, mark) = (road(90.0 + cut_deg), Point::polar(distance_m, 90.0));
            let fix = fix_on(&line, vec![sighting(mark, 90.0, 2.0, &norths)], &norths).unwrap();
            let crossing = fix.sighted[0].crossings[0];
            // The tool adds the shared compass error, the model's spread and the rounding to the 2 degrees.
            let spread_m = crossing.spread_along_m * 2.0 / fix.sighted[0].spread_deg;
            assert!((spread_m / expected_m - 1.0).abs() < 0.01, "{distance_m} m, {cut_deg} deg: {spread_m} instead of {expected_m}");
            assert!((crossing.cut_deg - cut_deg).abs() < 0.1 && (crossing.distance_m - distance_m).abs() < distance_m * 2e-3);
        }
    }
}

/// Constructed: a landmark that stands on the road, and one some metres beside it, read along the road. From beyond it the bearing would be the
/// other way: no such place is told.
#[test]
fn a_landmark_on_the_road_is_crossed_from_its_own_side_only() {
    let (norths, line) = (norths(), road(90.0));
    for (off_m, read_deg) in [(0.0, 90.0), (0.0, 91.0), (0.0, 89.5), (0.4, 90.0), (-3.0, 91.5)] {
        let mark = Point::new(500.0, off_m);
        let fix = fix_on(&line, vec![sighting(mark, read_deg, 2.0, &norths)], &norths).unwrap();
        for crossing in &fix.sighted[0].crossings {
            let seen_deg = mark.minus(crossing.place.at).bearing_deg();
            assert!((seen_deg - read_deg).abs() < 1.0, "{off_m} m, {read_deg}: {crossing:?}");
        }
    }
}

#[test]
fn a_bearing_that_cuts_a_bent_road_twice_names_both_places() {
    let norths = norths();
    let bend = vec![Point::new(-600.0, 500.0), Point::new(-100.0, 0.0), Point::new(-600.0, -500.0)];
    let line = Line::new("Bend", "road", bend, 0.0).unwrap();
    let mark = Point::new(-300.0, 2_000.0);
    let fix = fix_on(&line, vec![sighting(mark, 0.0, 1.0, &norths)], &norths).unwrap();
    assert_eq!(fix.sighted[0].crossings.len(), 2);
    assert_eq!(fix.stretches.len(), 2, "{:?}", fix.stretches);
    let held: f64 = fix.stretches.iter().map(|stretch| stretch.share).sum::<f64>() + fix.elsewhere;
    assert!((held - 1.0).abs() < 1e-9);
}

/// Two of three houses are sighted, and neither is known: each bearing has its own house, and the place is nearly as sharp as with both
/// known. The spreads of the fixes are held against each other; the places are our own.
#[test]
fn bearings_to_two_of_several_houses_are_each_of_its_own() {
    let norths = norths();
    let line = road(90.0);
    let house = |name: &str, at: Point| Landmark { name: name.into(), kind: "house".into(), at, spread_m: 5.0, height_m: None };
    let marks = [Point::new(-900.0, 700.0), Point::new(600.0, 900.0), Point::new(2_800.0, 400.0)];
    let houses: Vec<Landmark> = ["A", "B", "C"].into_iter().zip(marks).map(|(name, at)| house(name, at)).collect();
    let read =
        |candidates: Vec<Landmark>, plane_deg: f64| BearingSighting { candidates, ..sighting(Point::default(), plane_deg, 1.0, &norths) };
    let readings = [marks[0].bearing_deg(), marks[1].bearing_deg()];
    let unsure = fix_on(&line, readings.map(|deg| read(houses.clone(), deg)).to_vec(), &norths).unwrap();
    let sure =
        fix_on(&line, vec![read(vec![houses[0].clone()], readings[0]), read(vec![houses[1].clone()], readings[1])], &norths).unwrap();
    let likeliest: Vec<Option<&str>> = unsure.accounts.iter().map(|account| account.likeliest()).collect();
    assert_eq!(likeliest, [Some("A"), Some("B")]);
    assert!((unsure.stretches[0].best.along_m - 4_000.0).abs() < 10.0, "{}", unsure.stretches[0].best.along_m);
    let (a, b) = (unsure.stretches[0].spread_m, sure.stretches[0].spread_m);
    assert!((a / b - 1.0).abs() < 0.1, "{a} against {b}");
    // Read twice with a degree between, it is one house: what the map has wrong of it counts once.
    let twice = fix_on(&line, vec![read(houses.clone(), readings[0]), read(houses, readings[0] + 1.0)], &norths).unwrap();
    assert_eq!(twice.accounts[0].identity, twice.accounts[1].identity);
}

/// A small generator with a fixed start, so that the runs are the same everywhere (Marsaglia 2003, xorshift).
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn even(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn normal(&mut self) -> f64 {
        (-2.0 * (1.0 - self.even()).ln()).sqrt() * (std::f64::consts::TAU * self.even()).cos()
    }
}

/// Shares of simulated walkers whose place lies inside the 50 % and the 95 % limits.
///
/// The walkers err as the tool assumes: shared compass error, reading, rounding to the dial, 2 % plainly wrong.
fn coverage(marks: &[Point], count: u32) -> (f64, f64) {
    let (norths, line, instrument) = (norths(), road(70.0), Instrument::Sighting);
    let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
    let shared_deg = instrument.shared_spread_deg().hypot(norths.declination_spread_deg());
    let inside = |fix: &Fix, along_m: f64, limits: fn(&gatepost_core::fix::Stretch) -> (f64, f64)| {
        fix.stretches.iter().map(limits).any(|(low, high)| (low..=high).contains(&along_m))
    };
    let (mut half, mut nearly, mut refused) = (0, 0, 0);
    for _ in 0..count {
        let along_m = dice.even() * line.length_m();
        let (at, shared) = (line.at(along_m).at, dice.normal() * shared_deg);
        let sightings: Vec<BearingSighting> = marks
            .iter()
            .map(|mark| {
                let rounding = instrument.graduation_deg() / 12f64.sqrt();
                let error = dice.normal() * instrument.reading_spread_deg().hypot(rounding);
                let read = if dice.even() < 0.02 { dice.even() * 360.0 } else { mark.minus(at).bearing_deg() + shared + error };
                let mut one = sighting(*mark, 0.0, 1.0, &norths);
                one.reading = NamedBearing::new(read - norths.plane_minus_magnetic_deg(at), North::Magnetic);
                one.spread_deg = None;
                one
            })
            .collect();
        match fix_on(&line, sightings, &norths) {
            Ok(fix) => {
                half += u32::from(inside(&fix, along_m, |stretch| stretch.limits_50_m));
                nearly += u32::from(inside(&fix, along_m, |stretch| stretch.limits_95_m));
            }
            // A reading so wrong that it meets no line is refused, and the walker reads again.
            Err(_) => refused += 1,
        }
    }
    let taken = f64::from(count - refused);
    (f64::from(half) / taken, f64::from(nearly) / taken)
}

/// Calibration is the proof: 4,000 walkers each, so one sigma of the share is 0.8 % at 50 % and 0.35 % at 95 %.
#[test]
fn limits_hold_what_they_say() {
    let one = coverage(&[Point::new(-300.0, 1_500.0)], 4_000);
    let three = coverage(&[Point::new(-300.0, 1_500.0), Point::new(2_000.0, -1_800.0), Point::new(900.0, 4_000.0)], 4_000);
    for (half, nearly) in [one, three] {
        assert!((half - 0.50).abs() < 0.025, "50 % limits hold {half}");
        assert!((nearly - 0.95).abs() < 0.012, "95 % limits hold {nearly}");
    }
}
