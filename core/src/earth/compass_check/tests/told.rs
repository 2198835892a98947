//! What is said besides: readings left out, scatter, errors that ask for another look.

use super::{check, known, pair};
use crate::earth::compass_check::Untold;

#[test]
fn one_reversed_reading_is_named_and_left_out() {
    let rows = [(216.0, 214.0), (90.5, 269.0), (302.0, 300.0), (12.5, 10.0)];
    let check = check(rows.map(|(read, truth)| known("", read, truth)).to_vec(), vec![], 1.5);
    assert_eq!(check.untold, [Untold::Reversed(1)]);
    let shared = check.shared.expect("told");
    assert!((shared.error_deg - 13.0 / 6.0).abs() < 1e-9 && shared.readings == 3, "{shared:?}");
}

/// Read less known 0, 10 and -10 degrees: one sigma is 10 degrees by hand, 6.7 times what was believed.
#[test]
fn readings_that_scatter_much_more_than_believed_are_told() {
    let strays = |off_deg: f64| {
        let rows = vec![known("", 100.0, 100.0), known("", 200.0 + off_deg, 200.0), known("", 300.0 - off_deg, 300.0)];
        let reading = check(rows, vec![], 1.5).reading;
        assert!((reading.spread_deg - off_deg).abs() < 1e-9);
        reading.strays()
    };
    assert!(strays(10.0) && strays(3.3) && !strays(3.1) && !strays(1.5));
}

/// By the sum: read less known is 20 and 12.5 degrees. A declination of 12 or -12 would do the latter.
#[test]
fn an_error_that_few_compasses_have_asks_for_another_look() {
    let shared = |off_deg: f64| {
        let rows = [10.0, 100.0, 190.0, 280.0].map(|truth| known("", truth + off_deg, truth));
        check(rows.to_vec(), vec![], 1.5).shared.expect("told")
    };
    let told = |off_deg: f64, declination_deg: f64| shared(off_deg).unusual(declination_deg).map(|unusual| unusual.is_declination);
    assert_eq!(
        [told(20.0, 3.0), told(12.5, 12.0), told(12.5, -12.0), told(-12.5, 12.0)],
        [Some(false), Some(true), Some(true), Some(true)]
    );
    assert_eq!([told(5.0, 5.0), told(40.0, 3.0), told(180.0, 3.0)], [None; 3]);
}

/// By hand: of 3, 3.5, 25, 2.5 and 3 degrees the third lies 22 from the mean of the others, 3. A reading at another station may be
/// turned by iron there and is weighed as such; a reversed one is left out before, and keeps its number.
#[test]
fn a_wild_reading_is_named_with_the_error_without_it() {
    let rows = |station: &str| {
        let offs = [3.0, 3.5, 25.0, 2.5, 3.0];
        offs.iter().zip([10.0, 60.0, 120.0, 200.0, 250.0]).map(|(off, truth)| known(station, truth + off, truth)).collect::<Vec<_>>()
    };
    let wild = check(rows(""), vec![], 1.5).wild.expect("wild");
    assert_eq!(wild.numbers, [2]);
    assert!((wild.without.error_deg - 3.0).abs() < 1e-9 && wild.without.readings == 4 && (wild.off_deg - 22.0).abs() < 1e-9, "{wild:?}");
    assert_eq!(check(rows("P"), vec![], 1.5).wild.expect("wild").numbers, [2]);
    let mut with_reversed = rows("");
    with_reversed.insert(0, known("", 270.0, 90.0));
    assert_eq!(check(with_reversed, vec![], 1.5).wild.expect("wild").numbers, [3]);
    let mut at_two = rows("P");
    at_two.push(known("Q", 13.0, 10.0));
    assert!(check(at_two, vec![], 1.5).wild.is_none());
    assert!(check(rows("")[..2].to_vec(), vec![], 1.5).wild.is_none());
}

/// One watch, off by a sigma, moves all suns alike: two whose bearings go on by 2 and 4 degrees move the mean by 3, not by 3 over the root of 2.
#[test]
fn the_watch_is_counted_once() {
    let sun = |clock_deg: f64| crate::earth::KnownReading { clock_deg, ..known("", 91.0, 90.0) };
    let spread = |clocks: [f64; 2]| check(clocks.map(sun).to_vec(), vec![], 1.5).shared.expect("told").spread_deg;
    let own = spread([0.0, 0.0]);
    assert!((spread([2.0, 4.0]) - own.hypot(3.0)).abs() < 1e-9 && (spread([2.0, -2.0]) - own).abs() < 1e-9);
}

/// What else was read at an end parts the closure between the two; a known bearing at no named station does not.
#[test]
fn a_closure_that_is_all_that_was_read_is_of_its_leg() {
    let leg = || pair("A", "B", 34.0, 222.0);
    let alone = |rows: Vec<_>, more: Vec<_>| {
        let pairs = [vec![leg()], more].concat();
        check(rows, pairs, 2.5).lines.iter().map(|line| line.stands_alone).collect::<Vec<_>>()
    };
    assert_eq!(alone(vec![], vec![]), [true]);
    assert_eq!(alone(vec![known("", 100.0, 98.0)], vec![]), [true]);
    assert_eq!(alone(vec![known("A", 100.0, 98.0)], vec![]), [false]);
    assert_eq!(alone(vec![], vec![pair("B", "C", 100.0, 280.0)]), [false, false]);
    assert_eq!(alone(vec![], vec![pair("C", "D", 100.0, 280.0)]), [true, true]);
}
