//! Several readings of one bearing: their mean, how far they scatter, and which one stands out.

use super::{LINE_95, Message, NamedBearing, Telling, TrueBearing, signed_difference_deg, student_95, wild_of};

/// The mean of several readings of one bearing.
#[derive(Debug, Clone, PartialEq)]
pub struct MeanReading {
    /// The circular mean, with the north that the readings share.
    pub bearing: NamedBearing,
    /// How many readings it rests on.
    pub count: usize,
    /// Spread of one reading: the sample standard deviation (divisor n - 1), degrees.
    pub spread_deg: f64,
    /// Spread of the mean: that of one reading over the root of n, degrees. What all readings share is not in it.
    pub mean_spread_deg: f64,
    /// Half-width of the mean at 95 %, degrees: Student's for so few readings, and what they were rounded to.
    pub half_95_deg: f64,
    /// Readings that point the other way, counted from 0: the wrong end of the needle. They are left out.
    pub reversed: Vec<usize>,
    /// The greatest deviation of a reading from the mean, with its sign, degrees.
    pub greatest_deviation_deg: f64,
    /// Which reading that is, counted from 0; of equals the first.
    pub farthest: usize,
    /// Readings that stand out of the others, which agree, counted from 0; they are in the mean.
    pub wild: Vec<usize>,
    /// The mean without them.
    pub without_wild: Option<Box<MeanReading>>,
}

/// Why readings have no mean.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum MeanError {
    /// Fewer than two readings.
    #[error("mean-too-few")]
    TooFew,
    /// Readings from different norths.
    #[error("mean-mixed-norths")]
    MixedNorths,
    /// Readings that do not point one way.
    #[error("mean-no-direction")]
    NoDirection,
}

impl Telling for MeanError {
    fn message(&self) -> Message {
        Message::new(match self {
            Self::TooFew => "mean-too-few",
            Self::MixedNorths => "mean-mixed-norths",
            Self::NoDirection => "mean-no-direction",
        })
    }
}

/// Farther off the others than this a reading is one of the wrong end of the needle (our choice).
const REVERSED_DEG: f64 = 135.0;
/// The others must lie this near to their own middle to say so (our choice).
const TOGETHER_DEG: f64 = 45.0;
/// Readings of a hand compass that happen to agree are not taken to scatter less, degrees (our choice).
const LEAST_SPREAD_DEG: f64 = 0.5;
/// A mean whose limits take in a half circle or more tells no direction.
const MOST_HALF_95_DEG: f64 = 90.0;

/// The mean of two or more readings of one bearing, each rounded to a step.
///
/// Readings that point the other way are left out and named, where the others are more and agree without them.
///
/// # Units
/// Degrees; the spread is one standard deviation.
///
/// # Accuracy
/// Exact but for rounding. Of n readings the spread itself is known to about one part in the root of 2(n - 1): the half-width is
/// wider for it. Rounding (uniform, the step over the root of 12) is shared by readings that scatter less than half a step: it
/// is then counted once, else over their number.
///
/// # Errors
/// [`MeanError`] for fewer than two readings, different norths, or readings that do not point one way: their resultant is shorter
/// than half their number (our choice; half and half 120° apart), or the half-width at 95 % is 90° or more (two 15° apart, three
/// of which one strays by 70°).
///
/// # References
/// K. V. Mardia, P. E. Jupp (2000), Directional Statistics, section 2.2; JCGM 100:2008, 4.3.7 and annex G (both from memory).
pub fn mean_of_readings(readings: &[NamedBearing], step_deg: f64) -> Result<MeanReading, MeanError> {
    let [first, _, ..] = readings else { return Err(MeanError::TooFew) };
    if readings.iter().any(|reading| reading.north() != first.north()) {
        return Err(MeanError::MixedNorths);
    }
    let all: Vec<(usize, f64)> = readings.iter().map(|reading| reading.degrees()).enumerate().collect();
    let (kept, reversed) = parted(&all);
    let angles: Vec<f64> = kept.iter().map(|(_, angle)| *angle).collect();
    let mean_deg = circular_mean_deg(&angles).filter(|_| kept.len() > 1).ok_or(MeanError::NoDirection)?;
    let deviations: Vec<(usize, f64)> = kept.iter().map(|(index, angle)| (*index, signed_difference_deg(*angle, mean_deg))).collect();
    let mean = described(NamedBearing::new(mean_deg, first.north()), &deviations, step_deg);
    let mean = MeanReading { reversed, ..with_wild(mean, readings, &deviations, step_deg) };
    if mean.half_95_deg < MOST_HALF_95_DEG { Ok(mean) } else { Err(MeanError::NoDirection) }
}

/// Names the readings that stand out, and tells the mean without them.
fn with_wild(mean: MeanReading, readings: &[NamedBearing], deviations: &[(usize, f64)], step_deg: f64) -> MeanReading {
    let offs: Vec<f64> = deviations.iter().map(|(_, off)| *off).collect();
    let wild = wild_of(&offs, step_deg.max(LEAST_SPREAD_DEG));
    if wild.is_empty() {
        return mean;
    }
    let rest =
        || deviations.iter().enumerate().filter(|(place, _)| !wild.contains(place)).filter_map(|(_, (index, _))| readings.get(*index));
    let degrees: Vec<f64> = rest().map(|reading| reading.degrees()).collect();
    let Some(mean_deg) = circular_mean_deg(&degrees) else { return mean };
    let deviations_of_rest: Vec<(usize, f64)> =
        degrees.iter().enumerate().map(|(index, angle)| (index, signed_difference_deg(*angle, mean_deg))).collect();
    let without = described(NamedBearing::new(mean_deg, mean.bearing.north()), &deviations_of_rest, step_deg);
    let numbers = wild.iter().filter_map(|place| deviations.get(*place).map(|(index, _)| *index)).collect();
    MeanReading { wild: numbers, without_wild: Some(Box::new(without)), ..mean }
}

/// Readings by their numbers.
pub(crate) type Numbered = Vec<(usize, f64)>;

/// The readings that point one way, and the numbers of those that point the other way; all of them where these are not fewer.
pub(crate) fn parted(all: &[(usize, f64)]) -> (Numbered, Vec<usize>) {
    // Twice the angle is the same for both ends of a needle.
    let axis = circular_mean_deg(&all.iter().map(|(_, angle)| 2.0 * angle).collect::<Vec<_>>()).map_or(0.0, |double| double / 2.0);
    let along = |angle: f64| signed_difference_deg(angle, axis).abs() <= 90.0;
    let ahead = all.iter().filter(|(_, angle)| along(*angle)).count();
    let leads = |angle: f64| along(angle) == (2 * ahead > all.len());
    let (kept, others): (Numbered, Numbered) = all.iter().partition(|(_, angle)| leads(*angle));
    let middle = circular_mean_deg(&kept.iter().map(|(_, angle)| *angle).collect::<Vec<_>>());
    let off = |angle: f64, middle: f64| signed_difference_deg(angle, middle).abs();
    let opposed = middle.is_some_and(|middle| {
        let away = others.iter().all(|(_, angle)| off(*angle, middle) > REVERSED_DEG);
        away && kept.iter().all(|(_, angle)| off(*angle, middle) <= TOGETHER_DEG)
    });
    if opposed && others.len() < kept.len() { (kept, others.iter().map(|(index, _)| *index).collect()) } else { (all.to_vec(), Vec::new()) }
}

/// The direction of the resultant of angles, 0 to 360 degrees; none when it is shorter than half their number.
#[must_use]
pub fn circular_mean_deg(angles_deg: &[f64]) -> Option<f64> {
    const LEAST_RESULTANT: f64 = 0.5;
    let unit = |angle: &f64| angle.to_radians().sin_cos();
    let (east, north) = angles_deg.iter().map(unit).fold((0.0, 0.0), |sum, (sin, cos)| (sum.0 + sin, sum.1 + cos));
    let resultant = f64::hypot(east, north) / angles_deg.len().max(1) as f64;
    (resultant >= LEAST_RESULTANT - 1e-12).then(|| TrueBearing::new(f64::atan2(east, north).to_degrees()).degrees())
}

fn described(bearing: NamedBearing, deviations: &[(usize, f64)], step_deg: f64) -> MeanReading {
    let n = deviations.len() as f64;
    let spread_deg = (deviations.iter().map(|(_, d)| d * d).sum::<f64>() / (n - 1.0)).sqrt();
    let rounding_deg = step_deg / 12f64.sqrt() / if spread_deg < step_deg / 2.0 { 1.0 } else { n.sqrt() };
    let mean_spread_deg = spread_deg / n.sqrt();
    let half_95_deg = (student_95(deviations.len() - 1) * mean_spread_deg).hypot(LINE_95 * rounding_deg);
    let (farthest, greatest_deviation_deg) = greatest(deviations);
    let (count, reversed) = (deviations.len(), Vec::new());
    let (wild, without_wild) = (Vec::new(), None);
    MeanReading { bearing, count, spread_deg, mean_spread_deg, half_95_deg, reversed, greatest_deviation_deg, farthest, wild, without_wild }
}

/// The first of the greatest, so that readings that lie evenly name the first.
fn greatest(deviations: &[(usize, f64)]) -> (usize, f64) {
    let farther = |best: (usize, f64), next: (usize, f64)| if next.1.abs() > best.1.abs() + 1e-9 { next } else { best };
    deviations.iter().copied().reduce(farther).unwrap_or_default()
}

#[cfg(test)]
#[allow(clippy::expect_used, clippy::float_cmp, reason = "a test may stop where it fails")]
mod tests {
    use super::*;
    use crate::measure::North;

    fn magnetic(degrees: &[f64]) -> Vec<NamedBearing> {
        degrees.iter().map(|degrees| NamedBearing::new(*degrees, North::Magnetic)).collect()
    }

    #[test]
    fn readings_on_both_sides_of_north_have_a_northern_mean() {
        let mean = mean_of_readings(&magnetic(&[359.0, 1.0, 3.0]), 1.0).expect("mean");
        assert!((mean.bearing.degrees() - 1.0).abs() < 1e-9 && mean.bearing.north() == North::Magnetic);
        assert!((mean.spread_deg - 2.0).abs() < 1e-9 && (mean.mean_spread_deg - 2.0 / 3f64.sqrt()).abs() < 1e-9);
        assert_eq!((mean.count, mean.farthest), (3, 0));
    }

    #[test]
    fn the_reading_that_stands_out_is_named() {
        let mean = mean_of_readings(&magnetic(&[214.0, 215.0, 213.0, 224.0, 214.0]), 1.0).expect("mean");
        assert_eq!((mean.farthest, mean.wild.as_slice()), (3, [3].as_slice()));
        let without = mean.without_wild.as_ref().expect("without");
        assert!((without.bearing.degrees() - 214.0).abs() < 1e-9 && without.count == 4 && without.wild.is_empty());
        assert!((mean.bearing.degrees() - 216.0).abs() < 0.03 && (mean.greatest_deviation_deg - 8.0).abs() < 0.03);
    }

    /// Student's 97.5 % quantiles for 1 and 2 differences are 12.706 and 4.303 (printed tables, from memory).
    #[test]
    fn few_readings_and_coarse_ones_widen_the_limits() {
        let half = |degrees: &[f64], step_deg| mean_of_readings(&magnetic(degrees), step_deg).expect("mean").half_95_deg;
        let rounding = |step_deg: f64| 1.96 * step_deg / 12f64.sqrt();
        assert!((half(&[214.0, 216.0], 1.0) - 12.706f64.hypot(rounding(1.0) / 2f64.sqrt())).abs() < 0.01);
        assert!((half(&[213.0, 214.0, 215.0], 1.0) - (4.303 / 3f64.sqrt()).hypot(rounding(1.0) / 3f64.sqrt())).abs() < 0.01);
        assert!((half(&[214.0, 214.0, 214.0, 214.0], 1.0) - rounding(1.0)).abs() < 1e-3, "equal readings share their rounding");
        assert!(half(&[214.0, 214.0, 214.0, 214.0], 0.1) < 0.06);
    }

    #[test]
    fn a_reversed_reading_is_named_and_left_out() {
        let mean = mean_of_readings(&magnetic(&[214.0, 35.0, 215.0, 216.0]), 1.0).expect("mean");
        assert_eq!((mean.reversed.as_slice(), mean.count, mean.farthest), ([1].as_slice(), 3, 0));
        assert!((mean.bearing.degrees() - 215.0).abs() < 1e-9 && (mean.spread_deg - 1.0).abs() < 1e-9);
        let over_north = mean_of_readings(&magnetic(&[359.0, 1.0, 181.0]), 1.0).expect("mean");
        assert_eq!((over_north.reversed.as_slice(), over_north.count), ([2].as_slice(), 2));
        assert_eq!(mean_of_readings(&magnetic(&[10.0, 12.0, 190.0, 191.0]), 1.0), Err(MeanError::NoDirection));
        assert_eq!(mean_of_readings(&magnetic(&[10.0, 12.0, 60.0]), 1.0).expect("mean").reversed, Vec::<usize>::new());
    }

    #[test]
    fn what_has_no_mean_is_refused() {
        assert_eq!(mean_of_readings(&magnetic(&[]), 1.0), Err(MeanError::TooFew));
        assert_eq!(mean_of_readings(&magnetic(&[10.0]), 1.0), Err(MeanError::TooFew));
        assert_eq!(mean_of_readings(&magnetic(&[10.0, 190.0]), 1.0), Err(MeanError::NoDirection));
        assert_eq!(mean_of_readings(&magnetic(&[0.0, 121.0]), 1.0), Err(MeanError::NoDirection));
        assert_eq!(mean_of_readings(&magnetic(&[0.0, 120.0, 240.0]), 1.0), Err(MeanError::NoDirection));
        assert_eq!(mean_of_readings(&magnetic(&[10.0, 12.0, 100.0]), 1.0), Err(MeanError::NoDirection));
        assert_eq!(mean_of_readings(&magnetic(&[200.0, 290.0]), 1.0), Err(MeanError::NoDirection));
        let mixed = [NamedBearing::new(10.0, North::Magnetic), NamedBearing::new(10.0, North::Grid)];
        assert_eq!(mean_of_readings(&mixed, 1.0), Err(MeanError::MixedNorths));
    }

    /// The mean turns with the readings and the spread does not change, wherever on the circle they lie.
    #[test]
    fn the_mean_turns_with_its_readings() {
        for turn in 0..72 {
            let turned: Vec<f64> = [3.0, 358.5, 0.5, 1.0].iter().map(|d| d + 5.0 * f64::from(turn)).collect();
            let (here, there) = (mean_of_readings(&magnetic(&[3.0, 358.5, 0.5, 1.0]), 1.0), mean_of_readings(&magnetic(&turned), 1.0));
            let (here, there) = (here.expect("mean"), there.expect("mean"));
            let off = signed_difference_deg(there.bearing.degrees(), here.bearing.degrees() + 5.0 * f64::from(turn));
            assert!(off.abs() < 1e-9 && (there.spread_deg - here.spread_deg).abs() < 1e-9, "{turn}");
        }
    }
}
