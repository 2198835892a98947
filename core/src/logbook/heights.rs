//! Heights of a sheet: kept in tiles, read only when asked for.

use rusqlite::{Connection, OptionalExtension, Row, params};

use super::tile::{Coding, SIDE, pack, unpack};
use super::{Logbook, LogbookError};
use crate::earth::{Grid, Instant};
use crate::ground::{HeightSpread, Heights, Lattice, Layout, Window};

/// Heights that the logbook holds, without the heights themselves.
#[derive(Debug, Clone, PartialEq)]
pub struct HeightsRow {
    /// Their number.
    pub id: i64,
    /// Where the posts stand.
    pub layout: Layout,
    /// How far the heights may be wrong.
    pub spread: HeightSpread,
    /// Where they come from.
    pub origin: HeightsOrigin,
    /// When they were stored.
    pub stored_at: Instant,
}

/// Where heights come from, in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct HeightsOrigin {
    /// The file or files.
    pub source: String,
    /// Whom to name when they are shown.
    pub credit: String,
    /// Whether they are counted from the ellipsoid, not from the sea.
    pub is_ellipsoidal: bool,
}

impl Logbook {
    /// Stores heights for the sheet of a trip, all of them or none. Answers their number.
    ///
    /// # Accuracy
    /// Every height comes back bit by bit; a negative zero comes back as zero.
    ///
    /// # Errors
    /// [`LogbookError`]; nothing of them is written then.
    pub fn store_heights(&mut self, trip: i64, heights: &Heights, origin: &HeightsOrigin, at: Instant) -> Result<i64, LogbookError> {
        // A savepoint is a transaction of its own, or a part of the change that was begun.
        let whole = self.connection.savepoint()?;
        let id = insert_row(&whole, trip, heights, origin, at)?;
        insert_tiles(&whole, id, heights)?;
        whole.commit()?;
        Ok(id)
    }

    /// The heights stored for the sheet of a trip, newest first; no height is read.
    ///
    /// # Errors
    /// [`LogbookError`] when the file cannot be read or a row does not say what it must.
    pub fn heights_of_trip(&self, trip: i64) -> Result<Vec<HeightsRow>, LogbookError> {
        let mut query = self.connection.prepare_cached(&format!(
            "SELECT {COLUMNS} FROM heights WHERE sheet_id = (SELECT sheet_id FROM trip WHERE id = ?1) ORDER BY id DESC"
        ))?;
        let rows: Vec<Told> = query.query_map([trip], told)?.collect::<Result<_, _>>()?;
        rows.into_iter().map(Told::row).collect()
    }

    /// Stores heights that are there already for the sheet of another trip too, as they stand. Answers their number there.
    ///
    /// # Errors
    /// [`LogbookError`]; nothing of them is written then.
    pub fn take_heights_along(&mut self, id: i64, trip: i64) -> Result<i64, LogbookError> {
        let whole = self.connection.savepoint()?;
        let rows = whole.execute(
            &format!(
                "INSERT INTO heights (sheet_id, {KEPT}) SELECT (SELECT sheet_id FROM trip WHERE id = ?2), {KEPT} FROM heights WHERE id = ?1"
            ),
            params![id, trip],
        )?;
        if rows != 1 {
            return Err(LogbookError::Damaged(format!("no heights {id}")));
        }
        let there = whole.last_insert_rowid();
        whole.execute(
            "INSERT INTO height_tile (heights_id, tile_row, tile_column, coding, posts) \
             SELECT ?2, tile_row, tile_column, coding, posts FROM height_tile WHERE heights_id = ?1",
            params![id, there],
        )?;
        whole.commit()?;
        Ok(there)
    }

    /// Reads stored heights: all of them, or the posts of a window.
    ///
    /// # Errors
    /// [`LogbookError::Damaged`] when a tile is missing or does not hold what it must, or when the window reaches beyond.
    pub fn load_heights(&self, id: i64, window: Option<Window>) -> Result<Heights, LogbookError> {
        let query = format!("SELECT {COLUMNS} FROM heights WHERE id = ?1");
        let found = self.connection.prepare_cached(&query)?.query_row([id], told).optional()?;
        let row = found.ok_or_else(|| LogbookError::Damaged(format!("no heights {id}")))?.row()?;
        let window = window.unwrap_or_else(|| Window::whole(&row.layout));
        check_window(&row.layout, &window)?;
        let values_m = read_tiles(&self.connection, &row, &window)?;
        Heights::new(row.layout.cut(&window), row.spread, values_m).map_err(|error| LogbookError::Damaged(error.to_string()))
    }
}

/// What stays the same when heights go along to another sheet.
const KEPT: &str = "lattice, column_count, row_count, west, north, step_east, step_south, sigma_m, correlation_m, source, credit, \
                    stored_unix_ms, ellipsoidal";
const COLUMNS: &str = "id, lattice, column_count, row_count, west, north, step_east, step_south, sigma_m, correlation_m, source, credit, \
                       stored_unix_ms, ellipsoidal";

fn count(number: usize) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

fn insert_row(connection: &Connection, trip: i64, heights: &Heights, origin: &HeightsOrigin, at: Instant) -> Result<i64, LogbookError> {
    let (layout, spread) = (heights.layout(), heights.spread());
    let lattice = match &layout.lattice {
        Lattice::Geographic => "",
        Lattice::Projected(grid) => grid.definition(),
    };
    connection.execute(
        "INSERT INTO heights (sheet_id, lattice, column_count, row_count, west, north, step_east, step_south, sigma_m, correlation_m, \
         source, credit, stored_unix_ms, ellipsoidal) \
         VALUES ((SELECT sheet_id FROM trip WHERE id = ?1), ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)",
        params![
            trip,
            lattice,
            count(layout.columns),
            count(layout.rows),
            layout.west,
            layout.north,
            layout.step_east,
            layout.step_south,
            spread.sigma_m,
            spread.correlation_m,
            origin.source,
            origin.credit,
            at.unix_ms(),
            origin.is_ellipsoidal
        ],
    )?;
    Ok(connection.last_insert_rowid())
}

fn insert_tiles(connection: &Connection, id: i64, heights: &Heights) -> Result<(), LogbookError> {
    let mut insert = connection
        .prepare_cached("INSERT INTO height_tile (heights_id, tile_row, tile_column, coding, posts) VALUES (?1, ?2, ?3, ?4, ?5)")?;
    for (row, column, window) in tiles(heights.layout(), &Window::whole(heights.layout())) {
        let values_m = part(heights, &window);
        let (coding, bytes) = pack(&values_m, window.columns).map_err(|error| LogbookError::Unwritable(error.to_string()))?;
        insert.execute(params![id, count(row), count(column), coding.word(), bytes])?;
    }
    Ok(())
}

/// The heights in a window, row by row.
fn part(heights: &Heights, window: &Window) -> Vec<f32> {
    let rows = heights.values_m().chunks_exact(heights.layout().columns).skip(window.top).take(window.rows);
    rows.filter_map(|row| row.get(window.left..window.left + window.columns)).flatten().copied().collect()
}

/// Row, column and posts of every tile that a window touches.
fn tiles(layout: &Layout, window: &Window) -> impl Iterator<Item = (usize, usize, Window)> {
    let (columns, rows) = (layout.columns, layout.rows);
    let across = window.left / SIDE..(window.left + window.columns).div_ceil(SIDE);
    let down = window.top / SIDE..(window.top + window.rows).div_ceil(SIDE);
    down.flat_map(move |row| across.clone().map(move |column| (row, column))).map(move |(row, column)| {
        let (left, top) = (column * SIDE, row * SIDE);
        (row, column, Window { left, top, columns: SIDE.min(columns - left), rows: SIDE.min(rows - top) })
    })
}

fn check_window(layout: &Layout, window: &Window) -> Result<(), LogbookError> {
    let inside = window.left.saturating_add(window.columns) <= layout.columns && window.top.saturating_add(window.rows) <= layout.rows;
    let posts = layout.cut(window).posts();
    if inside && posts.is_ok() { Ok(()) } else { Err(LogbookError::Damaged("no such window of heights".into())) }
}

fn read_tiles(connection: &Connection, row: &HeightsRow, window: &Window) -> Result<Vec<f32>, LogbookError> {
    let mut query =
        connection.prepare_cached("SELECT coding, posts FROM height_tile WHERE heights_id = ?1 AND tile_row = ?2 AND tile_column = ?3")?;
    let mut values_m = vec![f32::NAN; window.posts()];
    for (tile_row, tile_column, tile) in tiles(&row.layout, window) {
        let damaged = || LogbookError::Damaged(format!("heights {}, tile {tile_row}/{tile_column}", row.id));
        let found: Option<(String, Vec<u8>)> =
            query.query_row(params![row.id, count(tile_row), count(tile_column)], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
        let (coding, bytes) = found.ok_or_else(damaged)?;
        let coding = Coding::named(&coding).ok_or_else(damaged)?;
        let posts = unpack(coding, &bytes, tile.columns, tile.rows).ok_or_else(damaged)?;
        lay(&posts, &tile, window, &mut values_m);
    }
    Ok(values_m)
}

/// Copies what a tile and the window share.
fn lay(posts: &[f32], tile: &Window, window: &Window, values_m: &mut [f32]) {
    let left = tile.left.max(window.left);
    let width = (tile.left + tile.columns).min(window.left + window.columns).saturating_sub(left);
    for row in tile.top.max(window.top)..(tile.top + tile.rows).min(window.top + window.rows) {
        let from = (row - tile.top) * tile.columns + left - tile.left;
        let to = (row - window.top) * window.columns + left - window.left;
        if let (Some(from), Some(to)) = (posts.get(from..from + width), values_m.get_mut(to..to + width)) {
            to.copy_from_slice(from);
        }
    }
}

/// A row as it stands in the file.
struct Told {
    row: HeightsRow,
    lattice: String,
}

fn told(row: &Row) -> rusqlite::Result<Told> {
    let size = |at: usize| row.get::<_, i64>(at).map(|number| usize::try_from(number).unwrap_or_default());
    let layout = Layout {
        lattice: Lattice::Geographic,
        columns: size(2)?,
        rows: size(3)?,
        west: row.get(4)?,
        north: row.get(5)?,
        step_east: row.get(6)?,
        step_south: row.get(7)?,
    };
    let spread = HeightSpread { sigma_m: row.get(8)?, correlation_m: row.get(9)? };
    let origin = HeightsOrigin { source: row.get(10)?, credit: row.get(11)?, is_ellipsoidal: row.get(13)? };
    let stored_at = Instant::from_unix_ms(row.get(12)?);
    Ok(Told { row: HeightsRow { id: row.get(0)?, layout, spread, origin, stored_at }, lattice: row.get(1)? })
}

impl Told {
    fn row(mut self) -> Result<HeightsRow, LogbookError> {
        if !self.lattice.is_empty() {
            let grid = Grid::named(&self.lattice).map_err(|error| LogbookError::Damaged(error.to_string()))?;
            self.row.layout.lattice = Lattice::Projected(grid);
        }
        self.row.layout.posts().map_err(|error| LogbookError::Damaged(error.to_string()))?;
        Ok(self.row)
    }
}
