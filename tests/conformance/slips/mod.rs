//! Slips that the other sightings expose are named first, and sound sightings raise no alarm: simulated walkers on an invented road.

mod walker;
mod wrong;

use std::collections::BTreeMap;

use walker::{On, norths, walker};
use wrong::Wrong;

use crate::fix::Dice;

/// Share of exposed slips that must be named first: alone, or as one of those with which the sighting would say the same.
const NAMED_FIRST: f64 = 0.9;
/// In the short runs of some hundred readings two sigmas of the share are allowed.
const SHORT: f64 = 0.06;

/// Of walkers with one kind of slip, how many it was exposed for, how many had it named first, and how many as the commonest of those that
/// say the same; what the others had first instead, and how often.
#[derive(Debug, Clone, Default)]
struct Shares {
    exposed: usize,
    named: usize,
    leads: usize,
    instead: BTreeMap<&'static str, usize>,
}

/// So many draws at most for each walker: not every reading can be told in gradians.
const MOST_DRAWS: usize = 60;

fn named_first(on: On, wrong: Wrong, count: usize, dice: &mut Dice) -> Shares {
    let norths = norths();
    let mut shares = Shares::default();
    let mut draws = (0..MOST_DRAWS * count).filter_map(|_| walker(&norths, on, Some(wrong), dice));
    for slips in draws.by_ref().take(count) {
        if !slips.found.iter().any(|slip| slip.exposed && wrong.is_named(slip)) {
            continue;
        }
        shares.exposed += 1;
        match slips.found.first() {
            Some(first) if wrong.is_named(first) => {
                shares.named += 1;
                shares.leads += usize::from(wrong.is(&first.kind));
            }
            Some(first) => *shares.instead.entry(first.kind.word()).or_default() += 1,
            None => {}
        }
    }
    shares
}

fn false_alarms(on: On, count: usize) -> usize {
    let (norths, mut dice) = (norths(), Dice(0x5EED_0F50_0D5E_A751));
    (0..count).filter(|_| walker(&norths, on, None, &mut dice).is_some_and(|slips| slips.finding().is_some())).count()
}

impl Shares {
    fn add(&mut self, other: Self) {
        self.exposed += other.exposed;
        self.named += other.named;
        self.leads += other.leads;
        for (word, count) in other.instead {
            *self.instead.entry(word).or_default() += count;
        }
    }
}

/// Of walkers with every kind of slip.
#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn hold(on: On, kinds: &[Wrong], count: usize, least: f64) {
    let mut dice = Dice(0x0DDB_1A5E_5BAD_5EED);
    let mut all = Shares::default();
    for wrong in kinds {
        let shares = named_first(on, *wrong, count, &mut dice);
        println!("{on:?}, {wrong:?}: {shares:?}");
        all.add(shares);
    }
    let walkers = kinds.len() * count;
    println!("{on:?}, {walkers} walkers, all kinds: {all:?}");
    assert!(all.exposed > walkers / 2, "too few are exposed to tell: {all:?}");
    assert!(all.named as f64 >= least * all.exposed as f64, "named first: {all:?}");
}

/// Of walkers who read nothing wrong.
#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn hold_no_alarm(on: On, walkers: usize) {
    let alarms = false_alarms(on, walkers);
    println!("{on:?}: {alarms} false alarms of {walkers}");
    assert!(alarms as f64 <= 0.02 * walkers as f64, "{alarms} false alarms of {walkers}");
}

fn on_a_line() -> Vec<Wrong> {
    Wrong::OF_BEARINGS.into_iter().chain(Wrong::OF_LINES).collect()
}

/// Of what is measured along a line nothing can be told there.
fn in_the_open() -> Vec<Wrong> {
    Wrong::OF_BEARINGS.into_iter().chain([Wrong::Feet]).collect()
}

#[test]
fn exposed_slips_are_named_first_and_sound_readings_raise_no_alarm() {
    hold(On::Line, &on_a_line(), 6, NAMED_FIRST - SHORT);
    hold_no_alarm(On::Line, 6 * on_a_line().len());
}

#[test]
fn slips_in_the_open_are_named_first_and_sound_readings_raise_no_alarm() {
    hold(On::OpenGround, &in_the_open(), 4, NAMED_FIRST - SHORT);
    hold_no_alarm(On::OpenGround, 4 * in_the_open().len());
}

/// The full count: `cargo test --workspace --test conformance -- --ignored two_thousand --nocapture`.
#[test]
#[ignore = "takes minutes; the short one runs always"]
fn two_thousand_slips() {
    hold(On::Line, &on_a_line(), 80, NAMED_FIRST);
    hold_no_alarm(On::Line, 2_000);
}

#[test]
#[ignore = "takes an hour; the short one runs always"]
fn two_thousand_slips_in_the_open() {
    hold(On::OpenGround, &in_the_open(), 125, NAMED_FIRST);
}

#[test]
#[ignore = "takes a quarter of an hour; the short one runs always"]
fn two_thousand_sound_walkers_in_the_open() {
    hold_no_alarm(On::OpenGround, 2_000);
}
