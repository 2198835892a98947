//! Several tiles as one grid.

use super::HeightsFileError;
use crate::ground::{HeightSpread, Heights, Lattice, Layout};
use crate::measure::{Arg, Message, Telling};

/// Steps may differ by this share, and posts may miss each other by this part of a step.
const SAME_STEP: f64 = 1e-6;
const SAME_POST: f64 = 1e-3;

/// Where a tile begins in the joined grid.
#[derive(Clone, Copy)]
pub(super) struct Begin {
    pub(super) column: f64,
    pub(super) row: f64,
}

/// How heights for the same posts differ in two files.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CommonPosts {
    /// Posts for which both have a height.
    pub count: usize,
    /// Median of the differences without their sign, metres.
    pub median_m: f64,
    /// The greatest of them, metres.
    pub worst_m: f64,
    /// The greatest median that the spreads of both leave to chance, metres.
    pub allowed_m: f64,
}

/// Median of a normal variate without its sign, in sigmas (normal quantile of 3/4), and how far that of one alone may be, in sigmas.
const MEDIAN_SIGMAS: f64 = 0.6745;
const ONE_SIGMAS: f64 = 3.0;

/// So many differences tell their median.
const MOST_COMPARED: usize = 1_000_000;

impl CommonPosts {
    /// Two files held against each other; nothing when they stand in other lattices or have no post in common. Of more than a million
    /// posts in common the median is that of every so manyth.
    ///
    /// # Accuracy
    /// The errors of one correlation length are one: the median may be off by three sigmas of the difference where the common posts
    /// lie within one, and by one sigma at the least, as a file's own bias is part of its spread. Common practice, no source.
    #[must_use]
    pub fn of(new: &Heights, old: &Heights) -> Option<Self> {
        let begin = begin(old.layout(), new.layout())?;
        let posts = || (0..new.layout().rows).flat_map(|row| (0..new.layout().columns).map(move |column| (column, row)));
        let off = |(column, row): (usize, usize)| {
            let (east, south) = (begin.column + column as f64, begin.row + row as f64);
            let old_m = if east < 0.0 || south < 0.0 { None } else { old.post_m(east as usize, south as usize) };
            Some((new.post_m(column, row)? - old_m?).abs())
        };
        let (count, worst_m) = posts().filter_map(off).fold((0, 0.0), |(count, worst_m), off_m| (count + 1, off_m.max(worst_m)));
        let mut off_m: Vec<f64> = posts().filter_map(off).step_by(count / MOST_COMPARED + 1).collect();
        let middle = off_m.len() / 2;
        let median_m = if off_m.is_empty() { None } else { Some(*off_m.select_nth_unstable_by(middle, f64::total_cmp).1) }?;
        let (spacing_east_m, spacing_south_m) = new.layout().spacing_in_middle_m().ok()?;
        let correlation_m = new.spread().correlation_m.max(old.spread().correlation_m);
        let independent = (count as f64 * spacing_east_m * spacing_south_m / correlation_m.powi(2)).max(1.0);
        let sigma_m = new.spread().sigma_m.hypot(old.spread().sigma_m);
        let sigmas = (MEDIAN_SIGMAS + (ONE_SIGMAS - MEDIAN_SIGMAS) / independent.sqrt()).max(1.0);
        Some(Self { count, median_m, worst_m, allowed_m: sigmas * sigma_m })
    }

    /// Whether they differ by no more than their spreads leave to chance.
    #[must_use]
    pub fn agree(&self) -> bool {
        self.median_m <= self.allowed_m
    }
}

impl Telling for CommonPosts {
    fn message(&self) -> Message {
        Message::new("import-heights-common")
            .with("count", Arg::Count(self.count as i64))
            .with("median", Arg::Height(self.median_m, 1))
            .with("worst", Arg::Height(self.worst_m, 1))
    }
}

/// Joins tiles whose posts stand in one lattice; where none reaches there is no height.
///
/// Neighbours may share their edge posts or stand one step apart. Where two tiles hold a height for one post the first
/// one's is kept. The spread is the widest of all.
///
/// # Errors
/// [`HeightsFileError::TilesDiffer`] names the first tile, from 1, that does not go with the first;
/// [`HeightsFileError::Heights`] when the whole is too large.
pub fn join_heights(tiles: &[&Heights]) -> Result<Heights, HeightsFileError> {
    let first = tiles.first().ok_or(HeightsFileError::NoTiles)?;
    let origin = first.layout().clone();
    let begins: Result<Vec<Begin>, HeightsFileError> =
        tiles.iter().enumerate().map(|(at, tile)| begin(&origin, tile.layout()).ok_or(HeightsFileError::TilesDiffer(at + 1))).collect();
    let begins = begins?;
    let joined = span(&origin, &begins, tiles);
    let posts = joined.posts().map_err(HeightsFileError::Heights)?;
    let spread = widest(tiles);
    let north_west = least(&begins);
    let mut values_m = vec![f32::NAN; posts];
    for (tile, begin) in tiles.iter().zip(&begins) {
        let corner = ((begin.column - north_west.column) as usize, (begin.row - north_west.row) as usize);
        lay(tile, corner, joined.columns, &mut values_m);
    }
    Heights::new(joined, spread, values_m).map_err(HeightsFileError::Heights)
}

/// Whole steps from the first tile's corner to another's.
pub(super) fn begin(origin: &Layout, tile: &Layout) -> Option<Begin> {
    let same = |a: f64, b: f64| (a / b - 1.0).abs() < SAME_STEP;
    if origin.lattice != tile.lattice || !same(origin.step_east, tile.step_east) || !same(origin.step_south, tile.step_south) {
        return None;
    }
    let mut east = tile.west - origin.west;
    if origin.lattice == Lattice::Geographic {
        east = (east + 180.0).rem_euclid(360.0) - 180.0;
    }
    let (column, row) = (east / origin.step_east, (origin.north - tile.north) / origin.step_south);
    let whole = |step: f64| (step - step.round()).abs() < SAME_POST;
    (whole(column) && whole(row)).then(|| Begin { column: column.round(), row: row.round() })
}

fn least(begins: &[Begin]) -> Begin {
    let least = |of: fn(&Begin) -> f64| begins.iter().map(of).fold(f64::INFINITY, f64::min);
    Begin { column: least(|begin| begin.column), row: least(|begin| begin.row) }
}

/// The layout that holds every tile.
fn span(origin: &Layout, begins: &[Begin], tiles: &[&Heights]) -> Layout {
    let north_west = least(begins);
    let ends = begins.iter().zip(tiles).map(|(begin, tile)| {
        let layout = tile.layout();
        (begin.column + layout.columns as f64, begin.row + layout.rows as f64)
    });
    let (right, bottom) = ends.fold((0.0_f64, 0.0_f64), |(right, bottom), (column, row)| (right.max(column), bottom.max(row)));
    Layout {
        columns: (right - north_west.column) as usize,
        rows: (bottom - north_west.row) as usize,
        west: origin.west + north_west.column * origin.step_east,
        north: origin.north - north_west.row * origin.step_south,
        ..origin.clone()
    }
}

fn widest(tiles: &[&Heights]) -> HeightSpread {
    let widest = |of: fn(HeightSpread) -> f64| tiles.iter().map(|tile| of(tile.spread())).fold(0.0, f64::max);
    HeightSpread { sigma_m: widest(|spread| spread.sigma_m), correlation_m: widest(|spread| spread.correlation_m) }
}

/// Copies a tile into its place; a height already there stays.
fn lay(tile: &Heights, (left, top): (usize, usize), columns: usize, values_m: &mut [f32]) {
    for (row, line) in tile.values_m().chunks_exact(tile.layout().columns).enumerate() {
        let start = (top + row) * columns + left;
        for (place, height_m) in values_m.iter_mut().skip(start).zip(line) {
            if place.is_nan() {
                *place = *height_m;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::float_cmp, clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::{CommonPosts, HeightSpread, Heights, Lattice, Layout};

    /// Posts every 0.001 degrees, about 77 and 111 m, at 46 N.
    fn flat(west: f64, columns: usize, height_m: f32, sigma_m: f64) -> Heights {
        let lattice = Lattice::Geographic;
        let layout = Layout { lattice, columns, rows: 50, west, north: 46.0, step_east: 0.001, step_south: 0.001 };
        Heights::new(layout, HeightSpread { sigma_m, correlation_m: 300.0 }, vec![height_m; columns * 50]).unwrap()
    }

    /// By hand: 20 of 50 columns in common, 1000 posts of 8606 m2, some 95 times 300 m squared: the median may be 0.91 sigma off, and
    /// one sigma is always left; of 3 and 4 m that is 5 m.
    #[test]
    fn posts_in_common_tell_by_how_much_two_files_differ() {
        let west = flat(14.0, 50, 500.0, 3.0);
        let common = CommonPosts::of(&flat(14.03, 50, 600.0, 4.0), &west).unwrap();
        assert_eq!((common.count, common.median_m, common.worst_m, common.allowed_m), (1000, 100.0, 100.0, 5.0));
        assert_eq!(CommonPosts::of(&flat(14.05, 50, 600.0, 4.0), &west), None, "side by side");
        assert_eq!(CommonPosts::of(&flat(14.0305, 50, 600.0, 4.0), &west), None, "between the posts");
        // One column of 50 posts: 4.8 times 300 m squared leave 0.67 + 2.33 / 2.19 = 1.74 sigmas.
        let edge = CommonPosts::of(&flat(14.049, 50, 600.0, 4.0), &west).unwrap();
        assert!(edge.count == 50 && (edge.allowed_m / 5.0 - 1.74).abs() < 0.02, "{edge:?}");
    }
}
