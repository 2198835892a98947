//! What is said besides: readings left out, scatter, errors that ask for another look.

use super::{check, known};
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
