//! What does not fit is told, whatever kind of sighting it is: on a straight invented road every expected number follows from its geometry.

use gatepost_core::earth::{Compass, Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{
    BearingSighting, Counter, Facing, Figure, Fix, FixError, Instrument, MeasuredSighting, Off, Quarter, Run, RunningSighting, Scene,
    Sighting, SlipKind, Spot, ThenPlace, Verdict, Way, distance_along, slips, take, witness_along,
};
use gatepost_core::measure::{NamedBearing, Point};
use gatepost_core::sheet::{Landmark, Line};

use crate::fix::Dice;

fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(36.59, -84.25).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

/// Four kilometres due east.
fn road() -> Line {
    Line::new("Road", "road", vec![Point::new(0.0, 0.0), Point::new(4_000.0, 0.0)], 5.0).unwrap()
}

fn mark(name: &str, east_m: f64, north_m: f64) -> Landmark {
    Landmark { name: name.into(), kind: "mast".into(), at: Point::new(east_m, north_m), spread_m: 5.0, height_m: None }
}

fn read_from(norths: &Norths, landmark: &Landmark, east_m: f64, wrong_deg: f64) -> Sighting {
    let at = Point::new(east_m, 0.0);
    let reading = NamedBearing::Magnetic(norths.to_magnetic(landmark.at.minus(at).bearing_deg() + wrong_deg, at));
    Sighting::Bearing(BearingSighting::to(landmark.clone(), reading, None))
}

fn trip(distance_m: f64) -> Sighting {
    let from = vec![(Spot { line: 0, along_m: 500.0 }, Way::Onward)];
    Sighting::Measured(MeasuredSighting {
        known: String::new(),
        from,
        distance_m,
        counter: Counter::Meter { step_m: 100.0, figure: Figure::Nearest },
        scale_share: 0.02,
        others: Vec::new(),
    })
}

fn fix(line: &Line, norths: &Norths, sightings: Vec<Sighting>) -> Result<Fix, FixError> {
    take(&Scene::on(line, sightings, norths, Instrument::Sighting.trust()))
}

fn told(fix: &Fix, sighting: usize) -> (Verdict, Option<Off>) {
    let fit = fix.accounts[sighting].fit.unwrap();
    (fit.verdict(), fit.off)
}

#[test]
fn one_impossible_sighting_of_any_kind_gives_no_place() {
    let (line, norths) = (road(), norths());
    let (left, right) = (mark("Left", 1_000.0, 2_000.0), mark("Right", 2_000.0, 2_000.0));
    let of_line = norths.to_magnetic(45.0, Point::default());
    for (what, impossible) in [
        ("measured", trip(9_000.0)),
        ("distance", Sighting::Ground(distance_along(&left, 9_000.0, 50.0, &[&line]))),
        ("witness", Sighting::Ground(witness_along("far", Point::new(1_000.0, 900.0), 10.0, &[&line]))),
        ("angle", Sighting::Angle { left: left.clone(), right, angle_deg: 200.0, spread_deg: Some(0.5) }),
        ("line-run", Sighting::LineRun { reading: NamedBearing::Magnetic(of_line), spread_deg: None }),
        ("side", Sighting::Side { landmark: left.clone(), quarter: Quarter::Right, facing: Facing::Way(Way::Onward), spread_deg: 10.0 }),
    ] {
        match fix(&line, &norths, vec![impossible]) {
            Err(FixError::FitsNowhere { what: told, .. }) => assert_eq!(told, what),
            other => panic!("{what}: {other:?}"),
        }
    }
    assert!(fix(&line, &norths, vec![trip(1_200.0)]).is_ok());
}

/// By hand: the road passes 2,000 m from the mast, 1,000 m along it, so that 500 m are 1,500 m too few and neither end is meant.
#[test]
fn what_fits_nowhere_is_off_by_the_least_that_it_can_be() {
    let (line, norths) = (road(), norths());
    let too_near = Sighting::Ground(distance_along(&mark("Left", 1_000.0, 2_000.0), 500.0, 50.0, &[&line]));
    match fix(&line, &norths, vec![too_near]) {
        Err(FixError::FitsNowhere { off: Some(Off::Metres(off_m)), at_end, .. }) => {
            assert!((off_m.abs() - 1_500.0).abs() < 5.0 && !at_end, "{off_m} {at_end}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_contradiction_is_told_with_how_far_it_is_off() {
    let (line, norths) = (road(), norths());
    let (near, far) = (mark("Near", 1_500.0, 700.0), mark("Far", 2_600.0, 1_500.0));
    let (south, west) = (mark("South", 1_900.0, -900.0), mark("West", 600.0, -1_100.0));
    // A trip meter is doubted less than a compass: two bearings would yield to it.
    let bearings = || [&near, &far, &south, &west].map(|one| read_from(&norths, one, 1_700.0, 0.0));
    let sound = fix(&line, &norths, bearings().into_iter().chain([trip(1_200.0)]).collect()).unwrap();
    assert!((0..5).all(|index| told(&sound, index).0 == Verdict::Fits));
    let off = fix(&line, &norths, bearings().into_iter().chain([trip(2_500.0)]).collect()).unwrap();
    let (verdict, by) = told(&off, 4);
    assert_eq!(verdict, Verdict::Misfit);
    assert!((by.unwrap().value() - 1_300.0).abs() < 60.0, "2500 m told, 1200 m from the known point: {by:?}");
    let by_angle = Sighting::Angle { left: near.clone(), right: far.clone(), angle_deg: 5.0, spread_deg: Some(1.0) };
    let turned = fix(&line, &norths, bearings().into_iter().chain([by_angle]).collect()).unwrap();
    let (verdict, by) = told(&turned, 4);
    let true_deg = (900.0f64).atan2(1_500.0).to_degrees() + 200f64.atan2(700.0).to_degrees();
    assert_eq!(verdict, Verdict::Misfit);
    assert!((by.unwrap().value() - (5.0 - true_deg)).abs() < 2.0, "{by:?} {true_deg}");
}

/// 1.5 km and 600 m to one landmark: one sigma of 50 m each leaves no chance that they are one measure again.
#[test]
fn distances_to_one_landmark_that_disagree_are_two_each_with_its_place() {
    let (line, norths) = (road(), norths());
    let near = mark("Near", 2_000.0, 300.0);
    let measured = |distance_m: f64| Sighting::Ground(distance_along(&near, distance_m, 50.0, &[&line]));
    let peak_over_far = |sightings: Vec<Sighting>| {
        let fix = fix(&line, &norths, sightings).unwrap();
        let odds = &fix.lines[0].odds;
        odds.peak() / odds.density(2_000.0)
    };
    // At the landmark's foot every one of them is plainly wrong.
    let (one, again) = (peak_over_far(vec![measured(1_500.0)]), peak_over_far(vec![measured(1_500.0), measured(1_560.0)]));
    assert!(again < 1.1 * one, "a second look at the same says nothing new: {one} {again}");
    let fix = fix(&line, &norths, vec![measured(1_500.0), measured(600.0)]).unwrap();
    let verdicts = [0, 1].map(|index| told(&fix, index).0);
    assert!(verdicts.contains(&Verdict::Fits) && verdicts.contains(&Verdict::Misfit), "{verdicts:?}");
    let apart = peak_over_far(vec![measured(1_500.0), measured(600.0)]);
    assert!(apart > 0.5 * one.min(peak_over_far(vec![measured(600.0)])), "each is weighed by itself: {one} {apart}");
}

/// 2 km run from where the landmark stands 900 m abeam: 5 % of that are 100 m and 4° are 63 m; the reading made here, at a flat cut, leaves
/// 370 m. By the inverse squares that is 112 m, of four over one run 92 m; four runs of their own would leave 56 m.
#[test]
fn two_running_fixes_over_one_run_share_the_error_of_the_run() {
    let (line, norths) = (road(), norths());
    let near = mark("Near", 1_500.0, 900.0);
    let degrees = |east_m: f64| {
        let at = Point::new(east_m, 0.0);
        NamedBearing::Magnetic(norths.to_magnetic(near.at.minus(at).bearing_deg(), at))
    };
    let (before, here) = (degrees(1_500.0), degrees(3_500.0));
    let run = Sighting::Running(RunningSighting {
        landmark: near.clone(),
        first: before,
        second: here,
        spread_deg: Some(4.0),
        run_m: 2_000.0,
        run_spread_share: 0.05,
        run: Run::Along(Facing::Way(Way::Onward)),
    });
    let spread_m = |count: usize| fix(&line, &norths, vec![run.clone(); count]).unwrap().best().unwrap().spread_m;
    let (one, four) = (spread_m(1), spread_m(4));
    assert!(four > 0.75 * one && four < one, "{one} m with one, {four} m with four");
}

/// A road that goes round a block and crosses itself at 500 m and again at 2500 m: to stand there is to stand at one place.
#[test]
fn two_passes_of_one_crossing_are_one_place() {
    let corners = [(0.0, 0.0), (1_000.0, 0.0), (1_000.0, 500.0), (500.0, 500.0), (500.0, -800.0)];
    let line = Line::new("Road", "road", corners.iter().map(|(east, north)| Point::new(*east, *north)).collect(), 5.0).unwrap();
    let norths = norths();
    let at = |passes: &[f64]| {
        let places = passes.iter().map(|along_m| Spot { line: 0, along_m: *along_m }).collect();
        let here = Sighting::Here { known: "Crossing".into(), places, spread_m: 15.0, others: Vec::new() };
        fix(&line, &norths, vec![here]).unwrap().stretches
    };
    let both = at(&[500.0, 2_500.0]);
    assert!(both.len() == 1 && both[0].share > 0.99, "{both:?}");
    assert!(both[0].best.at.minus(Point::new(500.0, 0.0)).length_m() < 2.0, "{both:?}");
    // The passes are at right angles: half of 15² m² along and 5² across in either axis.
    let (east2, north2) = (both[0].covariance.east2, both[0].covariance.north2);
    assert!((east2 - 125.0).abs() < 15.0 && (north2 - 125.0).abs() < 15.0, "{east2} {north2}");
    assert_eq!(at(&[500.0, 1_250.0]).len(), 2, "what does not meet is two places");
}

#[test]
fn a_bearing_that_meets_nothing_names_the_slip_with_which_it_would() {
    let (line, norths) = (road(), norths());
    let near = mark("Near", 1_500.0, 700.0);
    let Err(FixError::NoCrossing { meant: Some(meant), .. }) = fix(&line, &norths, vec![read_from(&norths, &near, 1_700.0, 180.0)]) else {
        panic!("it meets nothing")
    };
    assert_eq!(meant.0, SlipKind::Reversed);
}

/// All bearings turned alike by 20°: so much is told, and that one would then stand where one does.
#[test]
fn a_turned_needle_tells_by_how_much_and_where_one_then_stands() {
    let (line, norths) = (road(), norths());
    let marks = [mark("A", 1_500.0, 700.0), mark("B", 2_600.0, 1_500.0), mark("C", 1_900.0, -900.0), mark("D", 600.0, -1_100.0)];
    let sightings: Vec<Sighting> = marks.iter().map(|one| read_from(&norths, one, 1_700.0, 20.0)).collect();
    let scene = Scene::on(&line, sightings, &norths, Instrument::Sighting.trust());
    let taken = take(&scene).unwrap();
    let found = slips(&scene, &marks, taken.best().unwrap(), None);
    let slip = found.finding().unwrap();
    assert_eq!(slip.kind, SlipKind::Deflected, "{:?}", found.found);
    let then = slip.then.as_ref().unwrap();
    let (turned_deg, spread_deg) = then.turned_deg.unwrap();
    assert!((turned_deg - 20.0).abs() < 2.0 * spread_deg + 0.5, "{turned_deg} {spread_deg}");
    let ThenPlace::OnLine { stretch, .. } = &then.place else { panic!("on the line") };
    assert!((stretch.best.along_m - 1_700.0).abs() < stretch.half_width_95_m(), "{}", stretch.best.along_m);
}

/// Nothing read by a compass: nothing that turns a needle is among the slips, and no slip stands there twice.
#[test]
fn slips_are_of_what_was_observed_and_each_is_told_once() {
    let (line, norths) = (road(), norths());
    let scene = Scene::on(&line, vec![trip(300.0), trip(1_100.0)], &norths, Instrument::Sighting.trust());
    let taken = take(&scene).unwrap();
    let found = slips(&scene, &[], taken.best().unwrap(), None).found;
    assert!(found.iter().all(|slip| matches!(slip.kind, SlipKind::MilesKilometres | SlipKind::Point | SlipKind::OtherWay)), "{found:?}");
    for (index, slip) in found.iter().enumerate() {
        assert!(!found.iter().skip(index + 1).any(|other| other.kind == slip.kind && other.sighting == slip.sighting), "{found:?}");
    }
}

/// Foresight and backsight exchanged in all bearings: that is told of all of them, not a slip of the last.
#[test]
fn bearings_that_are_all_turned_round_are_told_so() {
    let (line, norths) = (road(), norths());
    let marks = [mark("Near", 1_500.0, 700.0), mark("Far", 2_600.0, 1_500.0), mark("West", 600.0, 1_100.0)];
    let sightings = marks.iter().map(|mark| read_from(&norths, mark, 1_900.0, 180.0)).collect();
    match fix(&line, &norths, sightings) {
        Err(FixError::NoCrossing { meant: Some(meant), .. }) => assert_eq!(meant.0, SlipKind::AllReversed),
        other => panic!("{other:?}"),
    }
}

/// The share of a thousand walkers whose place the limits hold, by a display with steps of 100 m of which so much is told.
fn held_by_display(figure: Figure, shown: impl Fn(f64) -> f64) -> f64 {
    let (road, norths) = (road(), norths());
    let mut dice = Dice(0xD15B_1A70_0000_0001);
    let (mut held, walkers) = (0, 1_000);
    for _ in 0..walkers {
        let along_m = 600.0 + 3_300.0 * dice.even();
        let gone_m = (along_m - 500.0) * (1.0 + 0.02 * dice.normal());
        let Sighting::Measured(told) = trip(shown(gone_m / 100.0) * 100.0) else { panic!("a trip") };
        let counter = Counter::Meter { step_m: 100.0, figure };
        let scene = Scene::on(&road, vec![Sighting::Measured(MeasuredSighting { counter, ..told })], &norths, Instrument::Sighting.trust());
        let fix = take(&scene).unwrap();
        held += usize::from(fix.stretches.iter().any(|one| (one.limits_95_m.0..=one.limits_95_m.1).contains(&along_m)));
    }
    held as f64 / f64::from(walkers)
}

/// Three sigmas of a share of 0.95 over a thousand walkers.
fn three_sigmas() -> f64 {
    3.0 * (0.95f64 * 0.05 / 1_000.0).sqrt()
}

/// A display that shows a figure until the next is full, as most digital ones do: the walker stands up to a step beyond what it shows.
/// Simulated; the limits would hold 80 % if it were taken to show the nearest figure.
#[test]
fn a_display_that_cuts_off_holds_its_walkers() {
    let share = held_by_display(Figure::UntilFull, f64::floor);
    assert!((share - 0.95).abs() <= three_sigmas() + 0.01, "{share}");
}

/// One of which it is not told which figure it shows may do either: the limits hold the walkers of both.
#[test]
fn a_display_of_which_nothing_is_told_holds_walkers_of_both_kinds() {
    let (nearest, cut_off) = (held_by_display(Figure::Unknown, f64::round), held_by_display(Figure::Unknown, f64::floor));
    assert!((f64::midpoint(nearest, cut_off) - 0.95).abs() <= three_sigmas() + 0.01, "{nearest} {cut_off}");
    assert!(nearest.min(cut_off) >= 0.92, "{nearest} {cut_off}");
}
