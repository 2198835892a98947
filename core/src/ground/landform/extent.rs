//! How far round a place something runs.

use crate::measure::TrueBearing;

/// What runs over less is told by one bearing, degrees (our own choice).
const LEAST_WIDE_DEG: f64 = 90.0;
/// What leaves no wider gap stands all round, degrees (our own choice).
const WIDEST_GAP_DEG: f64 = 30.0;

/// How far round a place something runs, seen from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Extent {
    /// Over less than a quarter of the circle: one bearing tells it.
    Narrow,
    /// From a bearing clockwise over its middle to another.
    Wide([TrueBearing; 3]),
    /// On all sides, but for gaps of less than 30°.
    AllRound,
}

impl Extent {
    /// That of places on such bearings, degrees; true once they are turned by so much.
    pub(super) fn of(bearings_deg: &mut [f64], turn_deg: f64) -> Self {
        bearings_deg.sort_unstable_by(f64::total_cmp);
        let Some((first, last)) = bearings_deg.first().zip(bearings_deg.last()) else { return Self::Narrow };
        let across_north = (first + 360.0 - last, *first, *last);
        let gaps = bearings_deg.windows(2).filter_map(|pair| pair.first().zip(pair.last())).map(|(from, to)| (to - from, *to, *from));
        let (gap_deg, begins, ends) = gaps.chain([across_north]).max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or(across_north);
        let wide_deg = (ends - begins).rem_euclid(360.0);
        match () {
            () if gap_deg <= WIDEST_GAP_DEG => Self::AllRound,
            () if wide_deg < LEAST_WIDE_DEG => Self::Narrow,
            () => Self::Wide([0.0, 0.5, 1.0].map(|share| TrueBearing::new(begins + share * wide_deg + turn_deg))),
        }
    }

    /// The word by which sentences select it.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Narrow => "narrow",
            Self::Wide(_) => "wide",
            Self::AllRound => "all",
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic, clippy::wildcard_enum_match_arm, reason = "a test may stop where it fails")]

    use super::Extent;

    /// Where each runs is known by hand.
    #[test]
    fn what_runs_over_north_is_told_clockwise() {
        let mut over_north: Vec<f64> = (300..360).chain(0..=60).map(f64::from).collect();
        let Extent::Wide(ends) = Extent::of(&mut over_north, 1.0) else { panic!("it is wide") };
        assert!(ends.iter().zip([301.0, 1.0, 61.0]).all(|(one, deg)| (one.degrees() - deg).abs() < 1e-9), "{ends:?}");
        let mut south: Vec<f64> = (120..=250).map(f64::from).collect();
        let Extent::Wide(ends) = Extent::of(&mut south, 0.0) else { panic!("it is wide") };
        assert!(ends.iter().zip([120.0, 185.0, 250.0]).all(|(one, deg)| (one.degrees() - deg).abs() < 1e-9), "{ends:?}");
        assert_eq!(Extent::of(&mut (0..36).map(|ten| 10.0 * f64::from(ten)).collect::<Vec<_>>(), 0.0), Extent::AllRound);
        assert_eq!(Extent::of(&mut [350.0, 20.0], 0.0), Extent::Narrow);
        assert_eq!(Extent::of(&mut [], 0.0), Extent::Narrow);
    }
}
