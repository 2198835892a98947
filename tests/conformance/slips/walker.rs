//! Simulated walkers on an invented road, or somewhere on the sheet: what they read, and which slips are found in it.

use gatepost_core::earth::{Compass, Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{
    BearingSighting, Beside, Bounds, Counter, Facing, Figure, Instrument, MeasuredSighting, OpenScene, OpenSighting, OtherPoint, Quarter,
    Run, RunningSighting, Scene, Sighting, Slips, Spot, Trust, Way, distance_along, open_slips, slips, take, take_open,
};
use gatepost_core::measure::{NamedBearing, North, Point, wrap_deg};
use gatepost_core::sheet::{Landmark, Line};

use super::wrong::Wrong;
use crate::fix::Dice;

/// Half the side of the area in which one may stand, metres: the road and all around it.
const AREA_M: f64 = 4_000.0;
/// Bearings that everyone reads.
const BEARINGS: usize = 5;
/// The road's known points, metres along it.
const KNOWN: [(&str, f64); 4] = [("gate", 300.0), ("bridge", 1_100.0), ("fork", 2_300.0), ("chapel bend", 3_400.0)];
/// Metres to a mile, and to a kilometre: the ratio of the two.
const MILE_KM: f64 = 1.609_344;
/// One sigma of a pace count and of a trip meter, as a share; and the trip meter's step, metres.
const PACE_SHARE: f64 = 0.03;
const TRIP_SHARE: f64 = 0.02;
const TRIP_STEP_M: f64 = 100.0;
/// One sigma of a measured distance to a landmark, as a share.
const RANGE_SHARE: f64 = 0.05;
/// Metres in a foot.
const FOOT_M: f64 = 0.3048;
/// One sigma of standing at a known point, metres.
const HERE_M: f64 = 20.0;
/// The run between two bearings of one landmark, metres.
const RUN_M: f64 = 600.0;
/// How far beside the road the other one runs, metres.
const BESIDE_M: f64 = 350.0;

/// Where the walker says to stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum On {
    Line,
    OpenGround,
}

/// Here grid north and magnetic north lie 7.6° apart.
pub(super) fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(36.59, -84.25).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

fn road(dice: &mut Dice) -> Vec<Point> {
    let mut at = Point::new(-2_000.0, 0.0);
    let mut points = vec![at];
    for _ in 0..20 {
        at = at.plus(Point::polar(200.0, 90.0 + 35.0 * dice.normal()));
        points.push(at);
    }
    points
}

fn line(name: &str, points: Vec<Point>) -> Line {
    Line::new(name, "road", points, 5.7).unwrap()
}

fn landmarks(dice: &mut Dice) -> Vec<Landmark> {
    let one = |number: usize, dice: &mut Dice| {
        let at = Point::polar(800.0 + 3_000.0 * dice.even(), 360.0 * dice.even());
        Landmark { name: format!("mark {number}"), kind: "mast".into(), at, spread_m: 5.7, height_m: None }
    };
    (0..12).map(|number| one(number, dice)).collect()
}

/// One walker with five bearings by a sighting compass and what else the slip needs, the first sighting or all of a kind gone wrong;
/// nothing where the slip could not be told, or no fix is left.
pub(super) fn walker(norths: &Norths, on: On, wrong: Option<Wrong>, dice: &mut Dice) -> Option<Slips> {
    let (points, marks) = (road(dice), landmarks(dice));
    let (own, other) = (line("Road", points.clone()), line("Lane", points.iter().map(|at| at.plus(Point::new(0.0, BESIDE_M))).collect()));
    let along_m = match wrong {
        Some(Wrong::StoodElsewhere) => KNOWN[(dice.even() * KNOWN.len() as f64) as usize].1,
        _ => dice.even() * own.length_m(),
    };
    let stood = if wrong == Some(Wrong::OtherLine) { &other } else { &own };
    let walk = Walk {
        norths,
        trust: Instrument::Sighting.trust(),
        line: stood,
        lines: [&own, &other],
        along_m,
        marks: &marks,
        at: stood.at(along_m).at,
    };
    let shared_deg = dice.normal() * walk.trust.shared_spread_deg.hypot(norths.declination_spread_deg());
    let mut sightings = match wrong {
        Some(wrong) => walk.beside(wrong, shared_deg, dice)?,
        None => Vec::new(),
    };
    sightings.extend(walk.bearings(wrong, shared_deg, dice)?.into_iter().map(Sighting::Bearing));
    match on {
        On::Line => {
            let scene = Scene::on(&own, sightings, norths, walk.trust);
            let fix = take(&scene).ok()?;
            let beside = Beside { lines: vec![&other], sightings: scene.sightings.clone() };
            Some(slips(&scene, &marks, fix.best()?, Some(&beside)))
        }
        On::OpenGround => {
            let mut sightings: Vec<OpenSighting<'_>> = sightings.into_iter().filter_map(in_the_open).collect();
            if wrong == Some(Wrong::Feet) {
                let (landmark, distance_m) = (marks[BEARINGS].clone(), walk.range_ft(&marks[BEARINGS], dice));
                sightings.insert(0, OpenSighting::Distance { landmark, distance_m, spread_m: RANGE_SHARE * distance_m });
            }
            let bounds = Bounds::about(Point::default(), AREA_M);
            let scene = OpenScene { sightings, norths, trust: walk.trust, near: None, bounds };
            let fix = take_open(&scene).ok()?;
            Some(open_slips(&scene, &marks, &fix))
        }
    }
}

fn in_the_open<'a>(sighting: Sighting) -> Option<OpenSighting<'a>> {
    match sighting {
        Sighting::Bearing(bearing) => Some(OpenSighting::Bearing(bearing)),
        Sighting::Angle { left, right, angle_deg, spread_deg } => Some(OpenSighting::Angle { left, right, angle_deg, spread_deg }),
        Sighting::Running(_)
        | Sighting::LineRun { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => None,
    }
}

struct Walk<'a> {
    norths: &'a Norths,
    trust: Trust,
    line: &'a Line,
    /// The road that is named and the one beside it.
    lines: [&'a Line; 2],
    along_m: f64,
    marks: &'a [Landmark],
    at: Point,
}

impl Walk<'_> {
    /// What a compass reads to a landmark, degrees of the grid.
    fn read_deg(&self, mark: &Landmark, from: Point, shared_deg: f64, dice: &mut Dice) -> f64 {
        let seen_deg = mark.at.minus(from).bearing_deg();
        self.norths.to_grid(seen_deg, from).degrees() + shared_deg + dice.normal() * self.trust.reading_spread_deg
    }

    fn bearings(&self, wrong: Option<Wrong>, shared_deg: f64, dice: &mut Dice) -> Option<Vec<BearingSighting>> {
        let turned_deg = match wrong {
            Some(Wrong::OtherNorth) => -self.norths.diagram(self.at).grid_magnetic_deg(),
            Some(Wrong::OppositeWay) => -2.0 * self.norths.diagram(self.at).grid_magnetic_deg(),
            Some(Wrong::Twice) => self.norths.diagram(self.at).grid_magnetic_deg(),
            Some(Wrong::Deflected) => (12.0 + 18.0 * dice.even()) * if dice.even() < 0.5 { 1.0 } else { -1.0 },
            Some(Wrong::AllReversed) => 180.0,
            _ => 0.0,
        };
        let mut all = Vec::new();
        for (number, mark) in self.marks.iter().take(BEARINGS).enumerate() {
            let read_deg = self.read_deg(mark, self.at, shared_deg + turned_deg, dice);
            let told_deg = match wrong {
                Some(wrong) if number == 0 => wrong.of_first(read_deg, dice)?,
                _ => read_deg,
            };
            let named = match (wrong, number) {
                (Some(Wrong::OtherLandmark), 0) => &self.marks[BEARINGS + (dice.even() * 7.0) as usize],
                (Some(Wrong::LandmarksExchanged), 0) => &self.marks[1],
                (Some(Wrong::LandmarksExchanged), 1) => &self.marks[0],
                _ => mark,
            };
            all.push(BearingSighting::to(named.clone(), NamedBearing::new(told_deg.round(), North::Grid), None));
        }
        Some(all)
    }

    /// What stands before the bearings: the sighting that the slip spoils; nothing where it cannot happen here.
    fn beside(&self, wrong: Wrong, shared_deg: f64, dice: &mut Dice) -> Option<Vec<Sighting>> {
        let passed = KNOWN.iter().rposition(|(_, known_m)| *known_m <= self.along_m);
        let one = match wrong {
            Wrong::PaceKind => self.paced(passed?, if dice.even() < 0.5 { 2.0 } else { 0.5 }, 0.0, dice),
            Wrong::LostHundred => self.paced(passed?, 1.0, if dice.even() < 0.5 { 100.0 } else { -100.0 }, dice),
            Wrong::MilesKilometres => self.driven(passed?, passed?, 1.0 / MILE_KM, dice),
            Wrong::Feet => {
                let (mark, told_m) = (&self.marks[BEARINGS], self.range_ft(&self.marks[BEARINGS], dice));
                Sighting::Ground(distance_along(mark, told_m, RANGE_SHARE * told_m, &self.lines))
            }
            Wrong::CountedElsewhere => self.driven(passed?, other_than(passed?, dice), 1.0, dice),
            // It was gone back from a point ahead, and is told as gone on from there.
            Wrong::OtherWay => {
                let ahead = KNOWN.iter().position(|(_, known_m)| *known_m > self.along_m)?;
                self.driven(ahead, ahead, 1.0, dice)
            }
            Wrong::StoodElsewhere => {
                let (known, along_m) = KNOWN[other_than(passed?, dice)];
                Sighting::Here { known: known.into(), places: vec![Spot { line: 0, along_m }], spread_m: HERE_M, others: others(known) }
            }
            Wrong::OtherSide => self.side(&self.marks[BEARINGS]),
            Wrong::FacedOtherWay => return Some(self.marks[BEARINGS..BEARINGS + 3].iter().map(|mark| self.side(mark)).collect()),
            Wrong::MarksExchanged => self.angle(dice),
            Wrong::BearingsExchanged => self.run(shared_deg, dice)?,
            Wrong::Reversed
            | Wrong::Tens
            | Wrong::Hundreds
            | Wrong::Exchanged
            | Wrong::DialReversed
            | Wrong::Quadrant
            | Wrong::Gradians
            | Wrong::Mils
            | Wrong::OtherLandmark
            | Wrong::OtherNorth
            | Wrong::OppositeWay
            | Wrong::Twice
            | Wrong::Deflected
            | Wrong::AllReversed
            | Wrong::LandmarksExchanged
            | Wrong::OtherLine => return Some(Vec::new()),
        };
        Some(vec![one])
    }

    /// Paces from a known point that was passed, as they are told: so many times as many, and so many metres more.
    fn paced(&self, passed: usize, times: f64, more_m: f64, dice: &mut Dice) -> Sighting {
        let gone_m = (self.along_m - KNOWN[passed].1) * (1.0 + PACE_SHARE * dice.normal());
        measured(passed, (gone_m * times + more_m).max(0.0), Counter::Paces { each_m: 1.5 }, PACE_SHARE)
    }

    /// A trip meter set at one known point and told as if it had been at one, times a unit.
    fn driven(&self, set_at: usize, told_at: usize, times: f64, dice: &mut Dice) -> Sighting {
        let gone_m = (self.along_m - KNOWN[set_at].1).abs() * (1.0 + TRIP_SHARE * dice.normal());
        measured(
            told_at,
            (gone_m * times / TRIP_STEP_M).round() * TRIP_STEP_M,
            Counter::Meter { step_m: TRIP_STEP_M, figure: Figure::Nearest },
            TRIP_SHARE,
        )
    }

    /// The distance to a landmark by a range finder that shows feet.
    fn range_ft(&self, mark: &Landmark, dice: &mut Dice) -> f64 {
        let read_m = mark.at.minus(self.at).length_m() * (1.0 + RANGE_SHARE * dice.normal());
        (read_m / FOOT_M).round()
    }

    /// On which side a landmark stands, told the wrong way round.
    fn side(&self, mark: &Landmark) -> Sighting {
        let direction = self.line.at(self.along_m + 50.0).at.minus(self.line.at(self.along_m - 50.0).at);
        let is_right = direction.cross(mark.at.minus(self.at)) > 0.0;
        let quarter = if is_right { Quarter::Left } else { Quarter::Right };
        Sighting::Side { landmark: mark.clone(), quarter, facing: Facing::Way(Way::Onward), spread_deg: 10.0 }
    }

    /// The angle between two landmarks, told from the right one to the left one.
    fn angle(&self, dice: &mut Dice) -> Sighting {
        let (left, right) = (&self.marks[BEARINGS], &self.marks[BEARINGS + 1]);
        let seen_deg = |mark: &Landmark| mark.at.minus(self.at).bearing_deg();
        let angle_deg = seen_deg(right) - seen_deg(left) + 2f64.sqrt() * self.trust.reading_spread_deg * dice.normal();
        Sighting::Angle { left: right.clone(), right: left.clone(), angle_deg: wrap_deg(angle_deg.round()), spread_deg: None }
    }

    /// Two bearings of one landmark with a run along the road between, told in the wrong order.
    fn run(&self, shared_deg: f64, dice: &mut Dice) -> Option<Sighting> {
        let mark = &self.marks[BEARINGS];
        let before = self.line.at((self.along_m > RUN_M).then_some(self.along_m - RUN_M)?).at;
        let mut read = |from: Point| NamedBearing::new(self.read_deg(mark, from, shared_deg, dice).round(), North::Grid);
        let (first, second) = (read(before), read(self.at));
        Some(Sighting::Running(RunningSighting {
            landmark: mark.clone(),
            first: second,
            second: first,
            spread_deg: None,
            run_m: RUN_M * (1.0 + PACE_SHARE * dice.normal()),
            run_spread_share: PACE_SHARE,
            run: Run::Along(Facing::Way(Way::Onward)),
        }))
    }
}

/// Any known point but one.
fn other_than(known: usize, dice: &mut Dice) -> usize {
    (known + 1 + (dice.even() * (KNOWN.len() - 1) as f64) as usize) % KNOWN.len()
}

/// The known points that one may have been mistaken for.
fn others(known: &str) -> Vec<OtherPoint> {
    let other =
        |(name, along_m): &(&str, f64)| OtherPoint { name: (*name).into(), from: vec![(Spot { line: 0, along_m: *along_m }, Way::Onward)] };
    KNOWN.iter().filter(|(name, _)| *name != known).map(other).collect()
}

fn measured(from: usize, distance_m: f64, counter: Counter, scale_share: f64) -> Sighting {
    let (known, along_m) = KNOWN[from];
    let from = vec![(Spot { line: 0, along_m }, Way::Onward)];
    Sighting::Measured(MeasuredSighting { known: known.into(), from, distance_m, counter, scale_share, others: others(known) })
}
