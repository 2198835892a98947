//! GeoPackage: the rows of its layers of features, handed in by the room that knows its container.

use std::collections::BTreeSet;

use super::Continue;
use super::error::{Fault, ImportError, Part, Record, Unread};
use super::gather::{Found, Gather};
use super::other_tags;
use super::shape::Shape;
use super::tags::Tags;
use super::wkb::from_geopackage;
use crate::exchange::stated::StatedGrid;

/// One sigma per axis of a place where nothing is stated, metres (common practice, no source).
const SPREAD_M: f64 = 5.0;

/// One row of a layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row<'a> {
    /// The layer's name.
    pub layer: &'a str,
    /// The row's number.
    pub number: i64,
    /// The layer's grid as the file names it: "EPSG:4326".
    pub grid: &'a str,
    /// The geometry as it is stored; none where the row has none.
    pub geometry: Option<&'a [u8]>,
    /// Columns that hold a text or a number, as text.
    pub properties: &'a [(String, String)],
}

/// Opens a GeoPackage and hands out its rows until the taker stops; answers with the layers that are left out as they are no tables, or why it
/// cannot be read.
pub type OpenRows<'a> = &'a dyn Fn(&[u8], &mut dyn FnMut(Row<'_>) -> Continue) -> Result<Vec<String>, Unread>;

pub(super) fn read(bytes: &[u8], open_rows: OpenRows<'_>, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let mut broken = None;
    let mut grid = Known::default();
    let mut rows = 0_u64;
    let mut take_next = |row: Row<'_>| {
        rows += 1;
        let told = if rows % 256 == 1 { gather.tick(rows - 1, 0) } else { Ok(()) };
        match told.and_then(|()| take(row, &mut grid, gather)) {
            Ok(()) => Continue::On,
            Err(error) => {
                broken = Some(error);
                Continue::Stop
            }
        }
    };
    let read = open_rows(bytes, &mut take_next);
    match (broken, read) {
        (Some(error), _) => Err(error),
        (None, Ok(views)) => {
            views.into_iter().for_each(|layer| gather.minded.view(layer));
            Ok(())
        }
        (None, Err(why)) => Err(ImportError::Unreadable { line: 0, why }),
    }
}

/// Most grids that the layers of a file may use: each that is looked up takes 0.06 s, and 4 MB while it is at hand.
const MOST_GRIDS: usize = 16;

/// The grid of the layer that is being read, and all that were looked up.
#[derive(Default)]
struct Known {
    name: String,
    grid: StatedGrid,
    used: BTreeSet<String>,
}

impl Known {
    /// Looks the grid up when it is another than the last row's.
    fn learn(&mut self, name: &str) -> Result<(), Fault> {
        if self.name != name {
            if !StatedGrid::is_degrees(name) {
                self.use_grid(name)?;
            }
            self.grid = StatedGrid::numbered(name).map_err(|_| Fault::Grid)?;
            self.name = name.into();
        }
        Ok(())
    }

    /// Every other grid of a file costs time and memory.
    fn use_grid(&mut self, name: &str) -> Result<(), Fault> {
        if self.used.len() >= MOST_GRIDS && !self.used.contains(name) {
            return Err(Fault::Grids);
        }
        self.used.insert(name.into());
        Ok(())
    }
}

fn take(row: Row<'_>, grid: &mut Known, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let own = || row.properties.iter().map(|(key, value)| (key.as_str(), value.as_str()));
    let others = other_tags::beside(own());
    let tags = Tags::new(own().chain(others.iter().map(|(key, value)| (key.as_str(), value.as_str()))));
    let record = Record::new(Part::Row, row.number).named(tags.name()).of_layer(row.layer);
    let fault = |fault: Fault| record.clone().fault(fault);
    grid.learn(row.grid).map_err(fault)?;
    let read = |geometry| from_geopackage(geometry, &|x, y| grid.grid.place(x, y).ok_or(Fault::OffEarth));
    let shape = row.geometry.map_or_else(|| Ok(Shape::default()), read).map_err(fault)?;
    gather.note_grid(&grid.grid, row.layer, shape.first());
    gather.take(
        shape,
        &Found {
            record,
            tags: &tags,
            layer: Some(row.layer),
            spread_m: SPREAD_M,
            is_recorded: false,
            is_noded: false,
            may_be_on_line: false,
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_may_use_so_many_grids_and_each_as_often_as_it_likes() {
        let mut known = Known::default();
        let zones: Vec<String> = (0..MOST_GRIDS).map(|zone| format!("EPSG:{}", 32_601 + zone)).collect();
        for name in zones.iter().chain(&zones) {
            assert_eq!(known.learn(name), Ok(()), "{name}");
        }
        assert_eq!(known.learn("EPSG:4326"), Ok(()));
        assert_eq!(known.learn("EPSG:32701"), Err(Fault::Grids));
        assert_eq!(known.learn(zones.first().map_or("", String::as_str)), Ok(()));
    }
}
