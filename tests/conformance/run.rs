//! Walkers near a bend who tell the run of the line: they read the piece they see, whichever, and the limits hold them nevertheless.

use gatepost_core::fix::{BearingSighting, Fix, Instrument, Scene, Sighting, take};
use gatepost_core::measure::Point;
use gatepost_core::sheet::{Landmark, Line};

use crate::fix::Dice;
use crate::stage::Stage;

/// One sigma of a landmark's and the line's place on the map, in either axis, metres.
const MAP_M: f64 = 5.0;
/// From the road's ends to the bend, metres.
const ARM_M: f64 = 1_500.0;
/// So far from the bend the walkers stand at the most, metres.
const NEAR_M: f64 = 60.0;

/// What is read for the run of the line.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Reads {
    /// The piece that is stood on.
    Own,
    /// The piece beyond the bend.
    Other,
    /// A point of the line 15 to 100 m on.
    Ahead,
    /// One as far back.
    Behind,
    /// A chord of 100 m about the place.
    Chord,
}

const ALL: [Reads; 5] = [Reads::Own, Reads::Other, Reads::Ahead, Reads::Behind, Reads::Chord];

/// One who stands near the bend: the road, where on it, and the readings of a landmark and of the road's run.
struct Walker {
    line: Line,
    along_m: f64,
    bearing: Sighting,
    run: Sighting,
}

impl Walker {
    fn random(stage: &Stage, turn_deg: f64, reads: Reads, dice: &mut Dice) -> Self {
        let line = road(turn_deg, 360.0 * dice.even());
        let along_m = ARM_M + NEAR_M * (2.0 * dice.even() - 1.0);
        let at = line.at(along_m).at;
        let shared_deg = dice.normal() * stage.shared_deg();
        let mark = mark(&line, along_m, dice);
        let map = Point::new(dice.normal(), dice.normal()).times(MAP_M.hypot(MAP_M));
        let read = |plane_deg: f64, dice: &mut Dice| stage.shown(plane_deg + shared_deg + stage.own_deg() * dice.normal(), at);
        let bearing = read(mark.at.plus(map).minus(at).bearing_deg(), dice);
        let run = read(run_deg(&line, along_m, reads, dice), dice);
        let bearing = Sighting::Bearing(BearingSighting::to(mark, bearing, None));
        Self { line, along_m, bearing, run: Sighting::LineRun { reading: run, spread_deg: None } }
    }

    /// The fix by some of the readings; nothing when it is refused.
    fn fix(&self, stage: &Stage, sightings: Vec<Sighting>) -> Option<Fix> {
        take(&Scene::on(&self.line, sightings, &stage.norths, stage.trust)).ok()
    }
}

/// Whether the limits of one walker's fix hold where he stands; nothing when it is refused.
fn holds(stage: &Stage, turn_deg: f64, reads: Reads, dice: &mut Dice) -> Option<bool> {
    let walker = Walker::random(stage, turn_deg, reads, dice);
    let fix = walker.fix(stage, vec![walker.bearing.clone(), walker.run.clone()])?;
    Some(held(&fix, walker.along_m))
}

/// Two straight arms that meet in a bend.
fn road(turn_deg: f64, first_deg: f64) -> Line {
    let corner = Point::polar(ARM_M, first_deg);
    let points = vec![Point::default(), corner, corner.plus(Point::polar(ARM_M, first_deg + turn_deg))];
    Line::new("Road", "road", points, MAP_M).unwrap()
}

/// A landmark that cuts the piece stood on at 30° or more.
fn mark(line: &Line, along_m: f64, dice: &mut Dice) -> Landmark {
    let place = line.at(along_m);
    let cut_deg = 30.0 + 120.0 * dice.even() + if dice.even() < 0.5 { 180.0 } else { 0.0 };
    let at = place.at.plus(Point::polar(500.0 + 1_500.0 * dice.even(), place.direction.bearing_deg() + cut_deg));
    Landmark { name: "Mast".into(), kind: "mast".into(), at, spread_m: MAP_M, height_m: None }
}

/// The direction that is read, either way along the line.
fn run_deg(line: &Line, along_m: f64, reads: Reads, dice: &mut Dice) -> f64 {
    let at = |metres: f64| line.at(along_m + metres).at;
    let reach_m = 15.0 + 85.0 * dice.even();
    let beyond_m = if along_m < ARM_M { 2.0 * NEAR_M } else { -2.0 * NEAR_M };
    let step = match reads {
        Reads::Own => line.at(along_m).direction,
        Reads::Other => line.at(along_m + beyond_m).direction,
        Reads::Ahead => at(reach_m).minus(at(0.0)),
        Reads::Behind => at(-reach_m).minus(at(0.0)),
        Reads::Chord => at(50.0).minus(at(-50.0)),
    };
    step.bearing_deg() + if dice.even() < 0.5 { 180.0 } else { 0.0 }
}

fn held(fix: &Fix, along_m: f64) -> bool {
    fix.stretches.iter().any(|one| (one.limits_95_m.0..=one.limits_95_m.1).contains(&along_m))
}

/// How many of `count` walkers the 95 % limits hold.
fn held_of(turn_deg: f64, reads: Reads, count: usize) -> usize {
    let (stage, mut dice) = (Stage::with(Instrument::Baseplate), Dice(0x0BE4_D0FA_40AD_0000 + turn_deg as u64));
    let (mut taken, mut held) = (0, 0);
    while taken < count {
        if let Some(holds) = holds(&stage, turn_deg, reads, &mut dice) {
            taken += 1;
            held += usize::from(holds);
        }
    }
    held
}

/// Walkers at bends of four kinds, each reading in one of five ways: the share that the limits hold in all ways together, and in each.
fn shares(count: usize) -> Vec<(f64, f64, Vec<f64>)> {
    let of = |turn_deg: f64| {
        let each: Vec<f64> = ALL.into_iter().map(|reads| held_of(turn_deg, reads, count) as f64 / count as f64).collect();
        (turn_deg, each.iter().sum::<f64>() / each.len() as f64, each)
    };
    [0.0, 20.0, 40.0, 90.0, 170.0].into_iter().map(of).collect()
}

/// Of five hundred a share of 0.95 has one sigma of 1.0 %.
#[test]
fn the_run_of_a_line_near_a_bend_holds_its_walkers() {
    for (turn_deg, share, each) in shares(100) {
        assert!(share >= 0.92, "{turn_deg}: {share} {each:?}");
    }
}

/// The full count: `cargo test --workspace --test conformance -- --ignored run_of_a_line_over --nocapture`.
#[test]
#[ignore = "takes minutes; the short one runs always"]
#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn the_run_of_a_line_over_two_thousand_walkers() {
    let all = shares(2_000);
    for (turn_deg, share, each) in &all {
        println!("{turn_deg} deg: {share:.3}; {ALL:?} {each:.3?}");
    }
    assert!(all.iter().all(|(_, share, each)| *share >= 0.92 && each.iter().all(|one| *one >= 0.92)), "{all:?}");
}

/// One walker on a straight road with a bearing that cuts it at 30° or more: the length of what holds 95 % without the run of the road and with it.
fn lengths(stage: &Stage, dice: &mut Dice) -> Option<(f64, f64)> {
    let walker = Walker::random(stage, 0.0, Reads::Own, dice);
    let length_m = |sightings: Vec<Sighting>| {
        let fix = walker.fix(stage, sightings)?;
        Some(fix.stretches.iter().map(|one| one.limits_95_m.1 - one.limits_95_m.0).sum::<f64>())
    };
    Some((length_m(vec![walker.bearing.clone()])?, length_m(vec![walker.bearing.clone(), walker.run.clone()])?))
}

/// The run of a straight road tells of the shared error of the compass alone: one walker's place may move to where the landmark is cut more
/// flatly or lies farther off, but on the mean the limits are no longer for it.
#[test]
#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn the_run_of_a_straight_road_shortens_limits_on_the_mean() {
    let (stage, mut dice) = (Stage::with(Instrument::Baseplate), Dice(0x57A1_6470_40AD_0001));
    let all: Vec<(f64, f64)> = (0..400).filter_map(|_| lengths(&stage, &mut dice)).collect();
    let mean_ln = all.iter().map(|(without, with)| (with / without).ln()).sum::<f64>() / all.len() as f64;
    let longer = all.iter().filter(|(without, with)| with > without).count();
    let sums = all.iter().fold((0.0, 0.0), |sum, (without, with)| (sum.0 + without, sum.1 + with));
    println!(
        "{} walkers, longer for {longer}, on the geometric mean {:.3} times, in all {:.3} times",
        all.len(),
        mean_ln.exp(),
        sums.1 / sums.0
    );
    assert!(mean_ln < 0.0 && sums.1 < sums.0, "{mean_ln} {sums:?}");
}
