//! Numbers of a file that pass as heights one by one and together are none of the ground.

use super::HeightsFileError;
use super::blocks::{Block, blocks};
use super::geotiff::{is_ellipsoidal, is_of_8_bits};
use super::shades::are_shades;
use crate::ground::{Heights, Post};
use crate::measure::{Arg, Message, Telling};

/// A post, or two side by side, that stand so far above all their neighbours, or below them, are none of the ground, metres, and at so many times the distance to
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
    /// Single posts, or two side by side, far off all their neighbours; they count as unknown.
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
    /// Blocks of one height deep within walls on every side; they count as unknown.
    Blocks {
        /// How many.
        count: usize,
        /// Posts of the first of them.
        posts: usize,
        /// Latitude and longitude of its middle, degrees.
        at: (f64, f64),
        /// How far it reaches to the east and to the south, metres.
        across_m: f64,
        /// See there.
        down_m: f64,
        /// Its height, metres.
        height_m: f64,
    },
    /// Heights above the ellipsoid, not above the sea.
    Ellipsoidal,
    /// Half of the heights and more lie below the sea.
    BelowSea {
        /// The middle one, metres.
        median_m: f64,
    },
    /// Numbers of 8 bits, as pictures have them.
    Of8Bits,
    /// Numbers from 0 to 255 that lie as the shades of a picture do, and as no ground does.
    Shades,
}

impl Telling for HeightsDoubt {
    fn message(&self) -> Message {
        match self {
            Self::Spikes { count, at, height_m, beside_m } => Message::new("heights-spikes")
                .with("count", Arg::Count(i64::try_from(*count).unwrap_or(i64::MAX)))
                .text("place", format!("{:.4}, {:.4}", at.0, at.1))
                .with("height", Arg::Height(*height_m, 0))
                .with("beside", Arg::Height(*beside_m, 0)),
            Self::Blocks { count, posts, at, across_m, down_m, height_m } => Message::new("heights-flat-block")
                .with("count", Arg::Count(i64::try_from(*count).unwrap_or(i64::MAX)))
                .with("posts", Arg::Count(i64::try_from(*posts).unwrap_or(i64::MAX)))
                .with("across", Arg::Metres(*across_m))
                .with("down", Arg::Metres(*down_m))
                .text("place", format!("{:.4}, {:.4}", at.0, at.1))
                .with("height", Arg::Height(*height_m, 0)),
            Self::Ellipsoidal => Message::new("heights-ellipsoidal"),
            Self::BelowSea { median_m } => Message::new("heights-below-sea").with("median", Arg::Height(-median_m, 0)),
            Self::Of8Bits => Message::new("heights-8-bits"),
            Self::Shades => Message::new("heights-shades"),
        }
    }
}

/// Heights as they were read from the bytes of a file, single spikes and blocks of one height deep within walls taken for gaps, and what to doubt
/// of them.
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
            without(&heights, spikes.iter().map(|spike| spike.post))?
        }
        None => heights,
    };
    let blocks = blocks(&heights)?;
    let heights = match blocks.first() {
        Some(first) => {
            doubts.push(of_blocks(&heights, first, blocks.len())?);
            without(&heights, blocks.iter().flat_map(|block| block.posts.iter().copied()))?
        }
        None => heights,
    };
    doubts.extend(is_ellipsoidal(bytes).then_some(HeightsDoubt::Ellipsoidal));
    let median_m = median_m(&heights);
    doubts.extend(median_m.filter(|median_m| *median_m < LOW_M).map(|median_m| HeightsDoubt::BelowSea { median_m }));
    doubts.extend(match () {
        () if is_of_8_bits(bytes) => Some(HeightsDoubt::Of8Bits),
        () if are_shades(&heights)? => Some(HeightsDoubt::Shades),
        () => None,
    });
    Ok((heights, doubts))
}

/// A post far off all its neighbours, or all but one that is as far off all others.
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
        let height_m = heights.post_m(post % columns, post / columns)?;
        let beside_m = [1.0, -1.0].into_iter().find_map(|turn| beside_m(heights, post, turn, least_m))?;
        Some(Spike { post, height_m, beside_m })
    };
    Ok((0..columns * rows).filter_map(spike).collect())
}

/// The highest ground beside a post that stands so far above it, alone or with one post beside it; upside down when turned by -1.
fn beside_m(heights: &Heights, post: usize, turn: f64, least_m: f64) -> Option<f64> {
    let columns = heights.layout().columns;
    let turned_m = |post: usize| heights.post_m(post % columns, post / columns).map(|height_m| turn * height_m);
    let own_m = turned_m(post)?;
    let far_below = |height_m: f64| own_m - height_m >= least_m;
    let high = |without: usize, around: usize| Around::of(heights, around, without, turned_m);
    let alone = high(post, post);
    if alone.count < LEAST_NEIGHBOURS || !far_below(alone.second_m) {
        return None;
    }
    if far_below(alone.highest_m) {
        return Some(turn * alone.highest_m);
    }
    let other = high(post, alone.highest);
    let beside_m = alone.second_m.max(other.highest_m);
    (other.count + 1 >= LEAST_NEIGHBOURS && alone.highest_m - beside_m >= least_m && far_below(beside_m)).then_some(turn * beside_m)
}

/// The known posts around one, but for one of them.
struct Around {
    count: usize,
    highest: usize,
    highest_m: f64,
    second_m: f64,
}

impl Around {
    fn of(heights: &Heights, post: usize, without: usize, turned_m: impl Fn(usize) -> Option<f64>) -> Self {
        let (columns, rows) = (heights.layout().columns, heights.layout().rows);
        let (column, row) = (post % columns, post / columns);
        let mut around = Self { count: 0, highest: post, highest_m: f64::NEG_INFINITY, second_m: f64::NEG_INFINITY };
        for row in row.saturating_sub(1)..=(row + 1).min(rows - 1) {
            for other in (column.saturating_sub(1)..=(column + 1).min(columns - 1)).map(|column| row * columns + column) {
                let Some(height_m) = turned_m(other).filter(|_| other != post && other != without) else { continue };
                around.count += 1;
                if height_m > around.highest_m {
                    (around.highest, around.second_m, around.highest_m) = (other, around.highest_m, height_m);
                } else {
                    around.second_m = around.second_m.max(height_m);
                }
            }
        }
        around
    }
}

/// What is told of blocks, by the first of so many.
fn of_blocks(heights: &Heights, first: &Block, count: usize) -> Result<HeightsDoubt, HeightsFileError> {
    let layout = heights.layout();
    let ((west, east), (north, south)) = first.frame(layout.columns);
    let middle = Post { column: (west + east) as f64 / 2.0, row: (north + south) as f64 / 2.0 };
    let at = layout.place_of(middle).map_err(HeightsFileError::Grid)?;
    let (east_m, south_m) = layout.spacing_m(middle).map_err(HeightsFileError::Grid)?;
    Ok(HeightsDoubt::Blocks {
        count,
        posts: first.posts.len(),
        at: (at.lat_deg(), at.lon_deg()),
        across_m: (east + 1 - west) as f64 * east_m,
        down_m: (south + 1 - north) as f64 * south_m,
        height_m: first.height_m,
    })
}

fn without(heights: &Heights, posts: impl Iterator<Item = usize>) -> Result<Heights, HeightsFileError> {
    let mut values_m = heights.values_m().to_vec();
    for post in posts {
        if let Some(value_m) = values_m.get_mut(post) {
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

    /// Two side by side, also aslant; three in a row may be a ridge of rock and stay.
    #[test]
    fn a_pair_of_spikes_is_a_gap_and_three_are_ground() {
        let raised = |posts: &[usize], by_m: f32| slope(|values_m| posts.iter().for_each(|post| values_m[*post] += by_m));
        for by_m in [500.0, -500.0] {
            for pair in [[510, 511], [510, 560], [510, 561], [0, 1]] {
                let (heights, doubts) = doubted(b"", raised(&pair, by_m)).unwrap();
                assert!(pair.iter().all(|post| heights.values_m()[*post].is_nan()), "{pair:?} {by_m}");
                assert!(matches!(doubts.as_slice(), [HeightsDoubt::Spikes { count: 2, .. }]), "{pair:?} {by_m}: {doubts:?}");
            }
            assert_eq!(doubted(b"", raised(&[510, 511, 512], by_m)).unwrap().1, [], "{by_m}");
        }
    }

    /// Zeros within ground near 1,600 m; what may go on beyond the border, a lake in a valley, a sea below cliffs with one landing stay.
    #[test]
    fn a_flat_block_within_walls_is_a_gap_and_a_lake_is_not() {
        let high = |flat: &[(std::ops::Range<usize>, std::ops::Range<usize>)], height_m: f32| {
            slope(|values_m| {
                values_m.iter_mut().for_each(|value_m| *value_m += 1000.0);
                for (rows, columns) in flat {
                    rows.clone().for_each(|row| values_m[50 * row..][columns.clone()].fill(height_m));
                }
            })
        };
        for (rows, columns) in [(10..20, 5..30), (1..6, 1..9), (30..49, 12..14)] {
            let count = rows.len() * columns.len();
            let (heights, doubts) = doubted(b"", high(&[(rows.clone(), columns.clone())], 0.0)).unwrap();
            assert!(rows.clone().all(|row| columns.clone().all(|column| heights.values_m()[50 * row + column].is_nan())), "{rows:?}");
            assert_eq!(heights.values_m().iter().filter(|value_m| value_m.is_nan()).count(), count);
            assert!(matches!(doubts.as_slice(), [HeightsDoubt::Blocks { count: 1, posts, .. }] if *posts == count), "{doubts:?}");
        }
        let (_, two) = doubted(b"", high(&[(10..20, 5..30), (30..35, 5..30)], 0.0)).unwrap();
        assert!(matches!(two.as_slice(), [HeightsDoubt::Blocks { count: 2, .. }]), "{two:?}");
        // At the height of the ground on its western shore, 500 m below that on its eastern.
        let (_, lake) = doubted(b"", high(&[(10..20, 5..30)], 1390.0)).unwrap();
        assert_eq!(lake, []);
        let sea = slope(|values_m| {
            (0..50).for_each(|row| values_m[50 * row..][..20].fill(0.0));
            values_m[50 * 30 + 20] = 60.0;
        });
        assert_eq!(doubted(b"", sea).unwrap().1, []);
        let (_, table) = doubted(b"", high(&[(10..20, 5..30)], 5000.0)).unwrap();
        assert_eq!(table, [], "a table of rock is no gap");
        let (_, cut) = doubted(b"", high(&[(0..6, 1..9)], 0.0)).unwrap();
        assert_eq!(cut, [], "it may go on beyond the border");
    }

    #[test]
    fn turned_signs_are_told() {
        let (_, doubts) = doubted(b"", slope(|values_m| values_m.iter_mut().for_each(|value_m| *value_m = -*value_m))).unwrap();
        assert_eq!(doubts, [HeightsDoubt::BelowSea { median_m: -780.0 }]);
    }
}
