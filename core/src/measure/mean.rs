//! Several readings of one bearing: their mean, how far they scatter, and which one stands out.

use super::{Message, NamedBearing, Telling, TrueBearing, signed_difference_deg};

/// The mean of several readings of one bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanReading {
    /// The circular mean, with the north that the readings share.
    pub bearing: NamedBearing,
    /// How many readings.
    pub count: usize,
    /// Spread of one reading: the sample standard deviation (divisor n - 1), degrees.
    pub spread_deg: f64,
    /// Spread of the mean: that of one reading over the root of n, degrees. What all readings share is not in it.
    pub mean_spread_deg: f64,
    /// The greatest deviation of a reading from the mean, with its sign, degrees.
    pub greatest_deviation_deg: f64,
    /// Which reading that is, counted from 0; of equals the first.
    pub farthest: usize,
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

/// The mean of two or more readings of one bearing.
///
/// # Units
/// Degrees; the spread is one standard deviation.
///
/// # Accuracy
/// Exact but for rounding. Of n readings the spread itself is known to about one part in the root of 2(n - 1).
///
/// # Errors
/// [`MeanError`] for fewer than two readings, different norths, or readings whose resultant is shorter than half their number:
/// they do not point one way (our choice; half and half 120° apart).
///
/// # References
/// K. V. Mardia, P. E. Jupp (2000), Directional Statistics, section 2.2 (from memory).
pub fn mean_of_readings(readings: &[NamedBearing]) -> Result<MeanReading, MeanError> {
    let [first, _, ..] = readings else { return Err(MeanError::TooFew) };
    if readings.iter().any(|reading| reading.north() != first.north()) {
        return Err(MeanError::MixedNorths);
    }
    let angles: Vec<f64> = readings.iter().map(|reading| reading.degrees()).collect();
    let mean_deg = circular_mean_deg(&angles).ok_or(MeanError::NoDirection)?;
    Ok(described(NamedBearing::new(mean_deg, first.north()), &deviations_deg(&angles, mean_deg)))
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

fn deviations_deg(angles_deg: &[f64], mean_deg: f64) -> Vec<f64> {
    angles_deg.iter().map(|angle| signed_difference_deg(*angle, mean_deg)).collect()
}

fn described(bearing: NamedBearing, deviations: &[f64]) -> MeanReading {
    let n = deviations.len() as f64;
    let spread_deg = (deviations.iter().map(|d| d * d).sum::<f64>() / (n - 1.0)).sqrt();
    let (farthest, greatest_deviation_deg) = greatest(deviations);
    MeanReading { bearing, count: deviations.len(), spread_deg, mean_spread_deg: spread_deg / n.sqrt(), greatest_deviation_deg, farthest }
}

/// The first of the greatest, so that readings that lie evenly name the first.
fn greatest(deviations: &[f64]) -> (usize, f64) {
    let farther = |best: (usize, f64), next: (usize, f64)| if next.1.abs() > best.1.abs() + 1e-9 { next } else { best };
    deviations.iter().copied().enumerate().reduce(farther).unwrap_or_default()
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
        let mean = mean_of_readings(&magnetic(&[359.0, 1.0, 3.0])).expect("mean");
        assert!((mean.bearing.degrees() - 1.0).abs() < 1e-9 && mean.bearing.north() == North::Magnetic);
        assert!((mean.spread_deg - 2.0).abs() < 1e-9 && (mean.mean_spread_deg - 2.0 / 3f64.sqrt()).abs() < 1e-9);
        assert_eq!((mean.count, mean.farthest), (3, 0));
    }

    #[test]
    fn the_reading_that_stands_out_is_named() {
        let mean = mean_of_readings(&magnetic(&[214.0, 215.0, 213.0, 224.0, 214.0])).expect("mean");
        assert_eq!(mean.farthest, 3);
        assert!((mean.bearing.degrees() - 216.0).abs() < 0.03 && (mean.greatest_deviation_deg - 8.0).abs() < 0.03);
    }

    #[test]
    fn what_has_no_mean_is_refused() {
        assert_eq!(mean_of_readings(&magnetic(&[])), Err(MeanError::TooFew));
        assert_eq!(mean_of_readings(&magnetic(&[10.0])), Err(MeanError::TooFew));
        assert_eq!(mean_of_readings(&magnetic(&[10.0, 190.0])), Err(MeanError::NoDirection));
        assert_eq!(mean_of_readings(&magnetic(&[0.0, 121.0])), Err(MeanError::NoDirection));
        let mixed = [NamedBearing::new(10.0, North::Magnetic), NamedBearing::new(10.0, North::Grid)];
        assert_eq!(mean_of_readings(&mixed), Err(MeanError::MixedNorths));
    }

    /// The mean turns with the readings and the spread does not change, wherever on the circle they lie.
    #[test]
    fn the_mean_turns_with_its_readings() {
        for turn in 0..72 {
            let turned: Vec<f64> = [3.0, 358.5, 0.5, 1.0].iter().map(|d| d + 5.0 * f64::from(turn)).collect();
            let (here, there) = (mean_of_readings(&magnetic(&[3.0, 358.5, 0.5, 1.0])), mean_of_readings(&magnetic(&turned)));
            let (here, there) = (here.expect("mean"), there.expect("mean"));
            let off = signed_difference_deg(there.bearing.degrees(), here.bearing.degrees() + 5.0 * f64::from(turn));
            assert!(off.abs() < 1e-9 && (there.spread_deg - here.spread_deg).abs() < 1e-9, "{turn}");
        }
    }
}
