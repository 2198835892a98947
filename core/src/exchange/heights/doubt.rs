//! Numbers of a file that pass as heights one by one and together are none of the ground.

use super::HeightsFileError;
use super::geotiff::is_of_8_bits;
use crate::ground::{Heights, Post};
use crate::measure::{Arg, Message, Telling};

/// A post that stands so far above all its neighbours, or below them, is none of the ground, metres, and at so many times the distance to
/// them: steeper than 76° on all sides at once. The tallest free-standing needles of rock are 100 to 150 m high and less than 30 m wide,
/// and posts spread them (our choice).
const SPIKE_M: f64 = 100.0;
const SPIKE_SLOPE: f64 = 4.0;
/// Of so many known posts around one at the least.
const LEAST_NEIGHBOURS: usize = 3;
/// Where one post in so many is a spike, and more than a few are, the numbers are no heights.
const MOST_SHARE: usize = 1000;
const FEW: usize = 10;
/// Ground of which the middle height is lower than this is rare, metres: a few depressions without an outlet (our choice).
const LOW_M: f64 = -10.0;

/// What to doubt of heights that were read.
#[derive(Debug, Clone, PartialEq)]
pub enum HeightsDoubt {
    /// Single posts far off all their neighbours; they count as unknown.
    Spikes {
        /// How many.
        count: usize,
        /// Latitude and longitude of the first of them, degrees.
        at: (f64, f64),
        /// Its height, and the nearest among its neighbours', metres.
        height_m: f64,
        /// See there.
        beside_m: f64,
    },
    /// Half of the heights and more lie below the sea.
    BelowSea {
        /// The middle one, metres.
        median_m: f64,
    },
    /// Numbers of 8 bits, as pictures have them.
    Of8Bits,
}

impl Telling for HeightsDoubt {
    fn message(&self) -> Message {
        match self {
            Self::Spikes { count, at, height_m, beside_m } => Message::new("heights-spikes")
                .with("count", Arg::Count(i64::try_from(*count).unwrap_or(i64::MAX)))
                .text("place", format!("{:.4}, {:.4}", at.0, at.1))
                .with("height", Arg::Number(*height_m, 0))
                .with("beside", Arg::Number(*beside_m, 0)),
            Self::BelowSea { median_m } => Message::new("heights-below-sea").with("median", Arg::Number(-median_m, 0)),
            Self::Of8Bits => Message::new("heights-8-bits"),
        }
    }
}

/// Heights as they were read from the bytes of a file, single spikes taken for gaps, and what to doubt of them.
///
/// # Errors
/// [`HeightsFileError::Rough`] where so many posts are spikes that the numbers are no heights.
pub fn doubted(bytes: &[u8], heights: Heights) -> Result<(Heights, Vec<HeightsDoubt>), HeightsFileError> {
    let mut doubts = Vec::new();
    let spikes = spikes(&heights)?;
    let known = heights.values_m().iter().filter(|height_m| !height_m.is_nan()).count();
    if spikes.len() > FEW.max(known / MOST_SHARE) {
        return Err(HeightsFileError::Rough(spikes.len()));
    }
    let heights = match spikes.first() {
        Some(first) => {
            let columns = heights.layout().columns;
            let post = Post { column: (first.post % columns) as f64, row: (first.post / columns) as f64 };
            let at = heights.layout().place_of(post).map_err(HeightsFileError::Grid)?;
            let at = (at.lat_deg(), at.lon_deg());
            doubts.push(HeightsDoubt::Spikes { count: spikes.len(), at, height_m: first.height_m, beside_m: first.beside_m });
            without(&heights, &spikes)?
        }
        None => heights,
    };
    let median_m = median_m(&heights);
    doubts.extend(median_m.filter(|median_m| *median_m < LOW_M).map(|median_m| HeightsDoubt::BelowSea { median_m }));
    doubts.extend(is_of_8_bits(bytes).then_some(HeightsDoubt::Of8Bits));
    Ok((heights, doubts))
}

/// A post far off all its neighbours.
struct Spike {
    post: usize,
    height_m: f64,
    beside_m: f64,
}

fn spikes(heights: &Heights) -> Result<Vec<Spike>, HeightsFileError> {
    let (columns, rows) = (heights.layout().columns, heights.layout().rows);
    let (east_m, south_m) = heights.layout().spacing_in_middle_m().map_err(HeightsFileError::Grid)?;
    let least_m = SPIKE_M.max(SPIKE_SLOPE * east_m.max(south_m));
    let spike = |post: usize| {
        let (column, row) = (post % columns, post / columns);
        let height_m = heights.post_m(column, row)?;
        let around =
            (row.saturating_sub(1)..=row + 1).flat_map(|row| (column.saturating_sub(1)..=column + 1).map(move |column| (column, row)));
        let others = around.filter(|other| *other != (column, row)).filter_map(|(column, row)| heights.post_m(column, row));
        let (mut low_m, mut high_m, mut count) = (f64::INFINITY, f64::NEG_INFINITY, 0);
        for other_m in others {
            (low_m, high_m, count) = (low_m.min(other_m), high_m.max(other_m), count + 1);
        }
        let beside_m = if height_m > high_m { high_m } else { low_m };
        let is_one = count >= LEAST_NEIGHBOURS && (height_m - high_m >= least_m || low_m - height_m >= least_m);
        is_one.then_some(Spike { post, height_m, beside_m })
    };
    Ok((0..columns * rows).filter_map(spike).collect())
}

fn without(heights: &Heights, spikes: &[Spike]) -> Result<Heights, HeightsFileError> {
    let mut values_m = heights.values_m().to_vec();
    for spike in spikes {
        if let Some(value_m) = values_m.get_mut(spike.post) {
            *value_m = f32::NAN;
        }
    }
    Heights::new(heights.layout().clone(), heights.spread(), values_m).map_err(HeightsFileError::Heights)
}

fn median_m(heights: &Heights) -> Option<f64> {
    let mut known: Vec<f32> = heights.values_m().iter().copied().filter(|height_m| !height_m.is_nan()).collect();
    let middle = known.len() / 2;
    if known.is_empty() { None } else { Some(f64::from(*known.select_nth_unstable_by(middle, f32::total_cmp).1)) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

    use super::{HeightsDoubt, HeightsFileError, doubted};
    use crate::ground::{HeightSpread, Heights, Lattice, Layout};

    /// Posts every 0.001 degrees, 77 and 111 m, on a slope of 20 m from post to post.
    fn slope(change: impl Fn(&mut [f32])) -> Heights {
        let layout =
            Layout { lattice: Lattice::Geographic, columns: 50, rows: 50, west: 14.0, north: 46.0, step_east: 0.001, step_south: 0.001 };
        let mut values_m: Vec<f32> = (0..2500_u16).map(|post| 300.0 + 20.0 * f32::from(post % 50)).collect();
        change(&mut values_m);
        Heights::new(layout, HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, values_m).unwrap()
    }

    /// Four times 111 m are 445 m.
    #[test]
    fn a_single_spike_is_a_gap_and_many_are_no_heights() {
        let (heights, doubts) = doubted(b"", slope(|values_m| values_m[510] += 500.0)).unwrap();
        assert!(heights.values_m()[510].is_nan() && heights.values_m().iter().filter(|value_m| value_m.is_nan()).count() == 1);
        assert!(matches!(doubts.as_slice(), [HeightsDoubt::Spikes { count: 1, .. }]), "{doubts:?}");
        let (_, pit) = doubted(b"", slope(|values_m| values_m[0] -= 500.0)).unwrap();
        assert!(matches!(pit.as_slice(), [HeightsDoubt::Spikes { count: 1, .. }]), "in a corner: {pit:?}");
        assert_eq!(doubted(b"", slope(|values_m| values_m[510] += 440.0)).unwrap().1, [], "as steep as 76°");
        let many = slope(|values_m| values_m.iter_mut().step_by(101).for_each(|value_m| *value_m += 500.0));
        assert_eq!(doubted(b"", many), Err(HeightsFileError::Rough(25)));
    }

    #[test]
    fn turned_signs_are_told() {
        let (_, doubts) = doubted(b"", slope(|values_m| values_m.iter_mut().for_each(|value_m| *value_m = -*value_m))).unwrap();
        assert_eq!(doubts, [HeightsDoubt::BelowSea { median_m: -780.0 }]);
    }
}
