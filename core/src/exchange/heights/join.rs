//! Several tiles as one grid.

use super::HeightsFileError;
use crate::ground::{HeightSpread, Heights, Lattice, Layout};

/// Steps may differ by this share, and posts may miss each other by this part of a step.
const SAME_STEP: f64 = 1e-6;
const SAME_POST: f64 = 1e-3;

/// Where a tile begins in the joined grid.
#[derive(Clone, Copy)]
struct Begin {
    column: f64,
    row: f64,
}

/// Joins tiles whose posts stand in one lattice; where none reaches there is no height.
///
/// Neighbours may share their edge posts or stand one step apart. Where two tiles hold a height for one post the first
/// one's is kept. The spread is the widest of all.
///
/// # Errors
/// [`HeightsFileError::TilesDiffer`] names the first tile, from 1, that does not go with the first;
/// [`HeightsFileError::Heights`] when the whole is too large.
pub fn join_heights(tiles: Vec<Heights>) -> Result<Heights, HeightsFileError> {
    let first = tiles.first().ok_or(HeightsFileError::NoTiles)?;
    let origin = first.layout().clone();
    let begins: Result<Vec<Begin>, HeightsFileError> =
        tiles.iter().enumerate().map(|(at, tile)| begin(&origin, tile.layout()).ok_or(HeightsFileError::TilesDiffer(at + 1))).collect();
    let begins = begins?;
    let joined = span(&origin, &begins, &tiles);
    let posts = joined.posts().map_err(HeightsFileError::Heights)?;
    let spread = widest(&tiles);
    let north_west = least(&begins);
    let mut values_m = vec![f32::NAN; posts];
    for (tile, begin) in tiles.into_iter().zip(&begins) {
        let corner = ((begin.column - north_west.column) as usize, (begin.row - north_west.row) as usize);
        lay(&tile, corner, joined.columns, &mut values_m);
    }
    Heights::new(joined, spread, values_m).map_err(HeightsFileError::Heights)
}

/// Whole steps from the first tile's corner to another's.
fn begin(origin: &Layout, tile: &Layout) -> Option<Begin> {
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
fn span(origin: &Layout, begins: &[Begin], tiles: &[Heights]) -> Layout {
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

fn widest(tiles: &[Heights]) -> HeightSpread {
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
