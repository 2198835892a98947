//! The crossing of grid lines that a reference names.

use super::{PhotoError, PhotoMark};
use crate::earth::{Grid, PlaceReading};
use crate::measure::Point;

/// A corner of a square may lie off the grid's own lines by this part of its side: more is another grid.
const ON_LINES: f64 = 0.01;

impl PhotoMark {
    /// A mark on the crossing that a reference names: the south-western corner of its square, or the coordinates themselves.
    ///
    /// `number` is the mark's own, from 1, for the refusal.
    ///
    /// # Errors
    /// [`PhotoError::OffLines`] when the square is none of this grid, [`PhotoError::Grid`] when the grid does not reach there.
    ///
    /// # References
    /// DMA TM 8358.1 (1990), chapter 3 (from memory): a reference names the square by its south-western corner.
    pub fn on_crossing(number: usize, pixel: (f64, f64), reading: &PlaceReading, grid: &Grid) -> Result<Self, PhotoError> {
        let (x_px, y_px) = pixel;
        let middle = grid.project(reading.at).map_err(PhotoError::Grid)?;
        let side = reading.square_m;
        if side <= 0.0 {
            return Ok(Self { x_px, y_px, at: middle });
        }
        let corner = middle.minus(Point::new(side / 2.0, side / 2.0));
        let on_line = |value: f64| (value / side).round() * side;
        let at = Point::new(on_line(corner.east_m), on_line(corner.north_m));
        if at.minus(corner).length_m() > ON_LINES * side {
            return Err(PhotoError::OffLines(number));
        }
        Ok(Self { x_px, y_px, at })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use crate::earth::{Grid, Terms, read_place};
    use crate::measure::Point;
    use crate::sheet::{PhotoError, PhotoMark};

    /// A reference to the kilometre names the crossing at its corner: 33TVM 5649 begins at 456 000, 5 149 000 of zone 33.
    #[test]
    fn a_square_stands_for_its_south_western_corner() {
        let grid = Grid::named("33N").unwrap();
        let reading = read_place("33TVM 56 49", &Terms::default()).unwrap();
        let mark = PhotoMark::on_crossing(1, (10.0, 20.0), &reading, &grid).unwrap();
        assert_eq!((mark.at, mark.x_px, mark.y_px), (Point::new(456_000.0, 5_149_000.0), 10.0, 20.0));
        let own = Terms { grid: Some(&grid), ..Terms::default() };
        let typed = read_place("457000 5150000", &own).unwrap();
        let mark = PhotoMark::on_crossing(2, (1.0, 2.0), &typed, &grid).unwrap();
        assert!(mark.at.minus(Point::new(457_000.0, 5_150_000.0)).length_m() < 1e-3);
        let other = Grid::named("EPSG:3857").unwrap();
        assert_eq!(PhotoMark::on_crossing(3, (0.0, 0.0), &reading, &other), Err(PhotoError::OffLines(3)));
    }
}
