//! Invented ground, walks and plain words for the tests of the charts.

use crate::chart::lettering::{ASCENT, DESCENT, text_width};
use crate::chart::{Anchor, Area, DisplayList, Drawn, Item, Lettering, Size, Spot, Walk, walk_chart};
use crate::earth::{Grid, LatLon, LocalFrame, Norths};
use crate::fix::{BearingSighting, Fix, Instrument, OpenFix, Scene, Sighting, Stretch, take};
use crate::ground::HeightUnit;
use crate::homeward::reversed_log;
use crate::measure::{Covariance, GridBearing, NamedBearing, Point};
use crate::sheet::{KnownPoint, Landmark, Line, MadeOut, Paper, Sheet};
use crate::travel::{Detour, Distance, Leg, Pace, Side, WalkSpreads, reckon};

/// Words as a test needs them.
pub(super) struct Plain;

impl Lettering for Plain {
    fn share(&self, share: f64) -> String {
        format!("{:.0} %", share * 100.0)
    }
    fn metres(&self, metres: f64) -> String {
        if metres >= 1000.0 { format!("{} km", metres / 1000.0) } else { format!("{metres:.0} m") }
    }
    fn plus_minus(&self, metres: f64) -> String {
        format!("± {metres:.0} m")
    }
    fn bearing(&self, bearing: NamedBearing) -> String {
        format!("{:03.0}° grid", bearing.degrees())
    }
    fn grid_north(&self) -> String {
        "grid N".into()
    }
    fn car(&self) -> String {
        "car".into()
    }
    fn spoken_fix(&self, line: &Line, fix: &Fix) -> String {
        format!("{} places on {}", fix.stretches.len(), line.name)
    }
    fn spoken_stretch(&self, _line: &Line, stretch: &Stretch) -> String {
        self.share(stretch.share)
    }
    fn spoken_open_fix(&self, fix: &OpenFix) -> String {
        format!("{} places", fix.places().len())
    }
    fn spoken_walk(&self, walk: &Walk<'_>) -> String {
        format!("{} legs", walk.ends.len())
    }
    fn height(&self, height: f64, _: HeightUnit) -> String {
        format!("{height:.0}")
    }
    fn interval(&self, interval: f64, _: HeightUnit) -> String {
        format!("every {interval}")
    }
    fn no_heights(&self) -> String {
        "hatched".into()
    }
    fn spoken_ground(&self, interval: f64, _: HeightUnit) -> String {
        format!("contours every {interval}")
    }
    fn spoken_turn(&self, _walk: &Walk<'_>, number: usize) -> String {
        format!("end of leg {number}")
    }
}

/// A sheet without heights.
pub(super) fn drawn(sheet: &Sheet, grid_north_deg: f64) -> Drawn<'_> {
    Drawn { sheet, relief: None, grid_north_deg }
}

pub(super) fn point(east_m: f64, north_m: f64) -> Point {
    Point::new(east_m, north_m)
}

/// A sheet whose first line is the road that the fix is taken on.
pub(super) struct Ground {
    pub(super) sheet: Sheet,
}

pub(super) fn road(ground: &Ground) -> &Line {
    ground.sheet.lines.first().unwrap()
}

fn line(name: &str, kind: &str, points: &[(f64, f64)], known: &[(&str, f64)]) -> Line {
    let mut line = Line::new(name, kind, points.iter().map(|(east, north)| point(*east, *north)).collect(), 8.0).unwrap();
    line.known_points = known.iter().map(|(name, along_m)| KnownPoint { name: (*name).into(), along_m: *along_m }).collect();
    line
}

/// A curve through points (Catmull and Rom 1974), twelve pieces between two of them.
fn smooth(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let at = |index: usize| points[index.clamp(1, points.len()) - 1];
    let blend = |a: f64, b: f64, c: f64, d: f64, t: f64| {
        0.5 * (2.0 * b + (c - a) * t + (2.0 * a - 5.0 * b + 4.0 * c - d) * t * t + (3.0 * b - a - 3.0 * c + d) * t * t * t)
    };
    let piece = |index: usize, t: f64| {
        let [a, b, c, d] = [at(index), at(index + 1), at(index + 2), at(index + 3)];
        (blend(a.0, b.0, c.0, d.0, t), blend(a.1, b.1, c.1, d.1, t))
    };
    let pieces = 0..points.len() - 1;
    pieces.flat_map(|index| (0..12).map(move |step| (index, f64::from(step) / 12.0))).map(|(index, t)| piece(index, t)).collect()
}

fn landmark(name: &str, east_m: f64, north_m: f64) -> Landmark {
    Landmark { name: name.into(), kind: "mast".into(), at: point(east_m, north_m), spread_m: 8.0, height_m: None }
}

impl Ground {
    fn new(lines: Vec<Line>, landmarks: Vec<Landmark>) -> Self {
        let origin = LatLon::new(46.1, 13.5).unwrap();
        let (grid, frame) = (Grid::of_place(origin), LocalFrame::around(origin));
        let (name, paper, made_out) = ("Velm".into(), Paper::default(), MadeOut::default());
        Self { sheet: Sheet { name, grid, frame, spread_m: 5.7, printed: None, lines, landmarks, paper, made_out } }
    }

    /// A winding road of 3.4 km with creek, track, path and five landmarks.
    pub(super) fn velm() -> Self {
        let middle = [(-330.0, -420.0), (-280.0, -200.0), (-140.0, 20.0), (120.0, 130.0), (300.0, 300.0)];
        Self::along(&[&[(-1100.0, -640.0), (-620.0, -560.0)][..], &middle, &EAST].concat(), 560.0)
    }

    /// The same with a bend that one bearing cuts twice.
    pub(super) fn bends() -> Self {
        let middle = [(-250.0, -420.0), (-230.0, -200.0), (-140.0, 20.0), (60.0, 130.0), (170.0, 160.0), (320.0, 330.0)];
        Self::along(&[&[(-1100.0, -640.0), (-500.0, -560.0)][..], &middle, &EAST].concat(), 760.0)
    }

    fn along(points: &[(f64, f64)], bridge_m: f64) -> Self {
        let creek = [(-520.0, -900.0), (-420.0, -520.0), (-180.0, -330.0), (40.0, -260.0), (160.0, -80.0), (420.0, 60.0), (700.0, 260.0)];
        let lines = vec![
            line("Velm Road", "road", &smooth(points), &[("Ossel bridge", bridge_m), ("Sorn junction", 2700.0)]),
            line("Issa Creek", "creek", &smooth(&creek), &[]),
            line("Kiln track", "track", &smooth(&[(-280.0, -200.0), (-500.0, 60.0), (-640.0, 330.0), (-620.0, 700.0)]), &[]),
            line("Ridge path", "path", &smooth(&[(300.0, 300.0), (330.0, -150.0), (600.0, -400.0), (900.0, -700.0)]), &[]),
        ];
        let near = [landmark("Sorn chapel", 230.0, 620.0), landmark("Old kiln", -420.0, 190.0), landmark("Hallik mast", 760.0, -220.0)];
        let far = [landmark("Torn Top", -1500.0, 2400.0), landmark("Far beacon", 9000.0, 2400.0)];
        Self::new(lines, near.into_iter().chain(far).collect())
    }

    /// The same with so many names that most find no room.
    pub(super) fn crowd() -> Self {
        let mut ground = Self::velm();
        let spread = |index: f64, prime: f64, reach: f64| (index * prime).fract() * 2.0 * reach - reach;
        for index in (1..=60).map(f64::from) {
            let (east, north) = (spread(index, 0.618_034, 1500.0), spread(index, 0.754_878, 1200.0));
            ground.sheet.landmarks.push(landmark(&format!("Stone of Aldermark {index}"), east, north));
            let kind = ["path", "creek", "fence", "ridge", "road"][index as usize % 5];
            let points = [(east, north), (east + 300.0, north + 200.0), (north, east)];
            ground.sheet.lines.push(line(&format!("Way {index}"), kind, &points, &[("Gate", 100.0)]));
        }
        ground
    }

    /// One straight piece of 200 m.
    pub(super) fn lane() -> Self {
        let lane = line("Short lane", "track", &[(0.0, 0.0), (200.0, 30.0)], &[("Gate", 0.0)]);
        let landmarks =
            vec![landmark("Tower", 130.0, 300.0), landmark("Barn <&> \"Co\"\u{7}", 30.0, -60.0), landmark("On the road", 100.0, 15.0)];
        Self::new(vec![lane], landmarks)
    }

    /// A road of 40 km with 9000 points.
    pub(super) fn highway() -> Self {
        let place = |index: i32| {
            let share = f64::from(index) / 9000.0;
            let turn = share * 30.0;
            (share * 30_000.0 - 15_000.0 + 3.0 * (turn * 400.0).sin(), 900.0 * turn.sin() + 300.0 * (2.3 * turn).cos())
        };
        let points: Vec<(f64, f64)> = (0..9000).map(place).collect();
        let known = [("Stone 1", 7000.0), ("Stone 2", 14_000.0), ("Stone 3", 21_000.0), ("Stone 4", 28_000.0)];
        let landmarks = vec![landmark("Peak", 3000.0, 9000.0), landmark("Dome", -4000.0, 700.0), landmark("Spire", 5200.0, -2500.0)];
        Self::new(vec![line("Long Highway", "road", &points, &known)], landmarks)
    }
}

const EAST: [(f64, f64); 3] = [(520.0, 480.0), (1100.0, 520.0), (1700.0, 800.0)];

fn norths(sheet: &Sheet) -> Norths {
    sheet.norths(chrono::NaiveDate::from_ymd_opt(2026, 7, 1).unwrap()).unwrap()
}

/// The fix from bearings as they would be read at places along the road: landmark, metres, spread.
pub(super) fn fix_of(ground: &Ground, sightings: &[(&str, f64, f64)]) -> Fix {
    let read = |(name, along_m, spread_deg): &(&str, f64, f64)| {
        let landmark = ground.sheet.landmark(name).unwrap().clone();
        let degrees = landmark.at.minus(road(ground).at(*along_m).at).bearing_deg();
        Sighting::Bearing(BearingSighting::to(landmark, NamedBearing::Grid(GridBearing::new(degrees)), Some(*spread_deg)))
    };
    let all: Vec<Sighting> = sightings.iter().map(read).collect();
    take(&Scene::on(road(ground), all, &norths(&ground.sheet), Instrument::Sighting.trust())).unwrap()
}

/// A walk of so many legs; the second has a detour to its right.
pub(super) fn legs(count: usize) -> Vec<Leg> {
    let first = [(330.0, 320.0), (270.0, 420.0), (318.0, 300.0), (22.0, 240.0)];
    let more = (0..).map(|index| (f64::from(index * 67 % 360), 100.0 + f64::from(index * 37 % 90)));
    let detour = |index: usize| (index == 1).then_some(Detour { side: Side::Right, out: Distance::Metres(60.0) });
    let leg = |(index, (degrees, metres)): (usize, (f64, f64))| Leg {
        bearing: NamedBearing::Grid(GridBearing::new(degrees)),
        distance: Distance::Metres(metres),
        detour: detour(index),
        met: None,
    };
    first.into_iter().chain(more).take(count).enumerate().map(leg).collect()
}

/// The chart of such a walk from the road.
pub(super) fn walk_of(ground: &Ground, count: usize, with_way: bool, size: Size) -> DisplayList {
    let (legs, pace, norths) = (legs(count), Pace::default(), norths(&ground.sheet));
    let spreads = WalkSpreads::of(1.0, &pace);
    let car = road(ground).at(1150.0).at;
    let out = reckon(car, &legs, &pace, &norths, &spreads);
    let way = reversed_log(&legs, &out, &pace, &norths, &spreads);
    let car_covariance = Covariance::along_across(point(0.8, 0.6), 22.0, 8.0);
    let walk = Walk { car, car_covariance, ends: &out.ends, legs: &legs, way: with_way.then_some(&way) };
    walk_chart(&drawn(&ground.sheet, 1.5), &walk, &Plain, size)
}

/// All items, those inside clips in their place.
pub(super) fn flat(items: &[Item]) -> Vec<Item> {
    let inner = |item: &Item| if let Item::Clip { items, .. } = item { flat(items) } else { vec![item.clone()] };
    items.iter().flat_map(inner).collect()
}

/// The upright rectangle around spots.
pub(super) fn box_of(spots: &[Spot]) -> Area {
    let span = |side: fn(&Spot) -> f64| {
        let values: Vec<f64> = spots.iter().map(side).collect();
        (values.iter().copied().fold(f64::INFINITY, f64::min), values.iter().copied().fold(f64::NEG_INFINITY, f64::max))
    };
    let ((left, right), (top, bottom)) = (span(|spot| spot.x), span(|spot| spot.y));
    Area::new(left, top, right - left, bottom - top)
}

/// The upright letters with a halo, each with the room it takes.
pub(super) fn boxes(list: &DisplayList) -> Vec<(String, Area)> {
    let room = |item: &Item| match item {
        Item::Text { at, anchor, size, halo: true, bold, rotation_deg, text, .. } if rotation_deg.abs() < 1e-9 => {
            let width = text_width(text, *size, *bold);
            let left = match anchor {
                Anchor::Start => at.x,
                Anchor::Middle => at.x - width / 2.0,
                Anchor::End => at.x - width,
            };
            Some((text.clone(), Area::new(left, at.y - ASCENT * size, width, (ASCENT + DESCENT) * size)))
        }
        _ => None,
    };
    flat(&list.items).iter().filter_map(room).collect()
}
