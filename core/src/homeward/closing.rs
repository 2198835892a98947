//! How the legs of a walk that led round close on its start.

use crate::fix::{Check, Verdict};
use crate::measure::PLANE_95;
use crate::travel::Reckoning;

/// The closing error of a walk that ended where it began.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closing {
    /// Metres from where the legs lead to the start.
    pub off_m: f64,
    /// Metres of legs, detours left out.
    pub legs_m: f64,
    /// The legs' length in closing errors, the relative closure "one in so many"; none where nothing is left over.
    pub one_in: Option<f64>,
    /// Greater half-axis of the 95 % ellipse of what the legs' spreads leave, metres.
    pub expected_95_m: f64,
    /// Whether so much is by chance, by the chi-square of two degrees of freedom.
    pub verdict: Verdict,
}

/// What a reckoned walk comes to if it ended where it began.
///
/// # References
/// Closing error and relative closure of a traverse: the length of what the legs leave over, and the length of the legs divided by it. The
/// textbook traverse of the test closes to 0.42 m in 267.5 m, one in 635.
#[must_use]
pub fn closing(walk: &Reckoning) -> Closing {
    let off_m = walk.start.minus(walk.end()).length_m();
    let legs_m: f64 = walk.ends.iter().map(|end| end.metres).sum();
    let held = Check::of(0, (walk.end(), walk.covariance()), walk.start, 0.0);
    Closing {
        off_m,
        legs_m,
        one_in: (off_m > 0.0).then(|| legs_m / off_m),
        expected_95_m: PLANE_95 * walk.covariance().ellipse().major_m,
        verdict: held.map_or(Verdict::Fits, |held| held.verdict()),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used, reason = "a test may stop where it fails")]

    use super::*;
    use crate::measure::{NamedBearing, NorthDiagram, Point};
    use crate::travel::{Distance, Leg, Pace, WalkSpreads, reckon};

    fn closed(legs: &[(f64, &str)]) -> Closing {
        let leg = |(metres, bearing): &(f64, &str)| Leg {
            bearing: NamedBearing::parse(bearing).expect("a bearing"),
            distance: Distance::Metres(*metres),
            detour: None,
            met: None,
        };
        let legs: Vec<Leg> = legs.iter().map(leg).collect();
        let diagram = NorthDiagram::default();
        let pace = Pace::default();
        closing(&reckon(Point::default(), &legs, &pace, &diagram, &WalkSpreads::of(1.0, &pace)))
    }

    /// A worked traverse of a surveying textbook (edition not known): latitudes and departures leave 0.285 and -0.311 m, as its page prints
    /// them from rounded values, the closing error is 0.421 m in 267.5 m, one in 635.
    #[test]
    fn the_textbook_traverse_closes_as_printed() {
        let closing = closed(&[(80.40, "N76E grid"), (46.30, "S36E grid"), (72.80, "S61W grid"), (68.00, "N38W grid")]);
        assert!((closing.off_m - 0.421).abs() < 0.001, "{closing:?}");
        assert!((closing.legs_m - 267.5).abs() < 1e-9);
        assert!((closing.one_in.expect("an error") - 635.0).abs() < 1.0, "{closing:?}");
        assert_eq!(closing.verdict, Verdict::Fits);
    }

    /// A square of 300 m with a hundred double paces lost in one side: what is left over is that hundred, far beyond the spread.
    #[test]
    fn a_lost_hundred_does_not_close() {
        let whole = closed(&[(300.0, "000 grid"), (300.0, "090 grid"), (300.0, "180 grid"), (300.0, "270 grid")]);
        assert!(whole.off_m < 1e-6, "{whole:?}");
        assert_eq!(whole.verdict, Verdict::Fits);
        let lost = closed(&[(300.0, "000 grid"), (140.0, "090 grid"), (300.0, "180 grid"), (300.0, "270 grid")]);
        assert!((lost.off_m - 160.0).abs() < 1e-6, "{lost:?}");
        assert_eq!(lost.verdict, Verdict::Misfit);
    }
}
