//! Things by the cells of the earth that they lie in, so that those near a place are found without looking at all.

use std::collections::HashMap;

use super::shape::{METRES_PER_DEG, Pos};

/// Things by cells of which none is narrower or lower than a distance: what lies within it of a place is in the cells about that.
#[derive(Debug, Clone)]
pub(super) struct Cells<T> {
    /// Height of a row, degrees of latitude.
    high_deg: f64,
    cells: HashMap<(i64, i64), Vec<T>>,
}

impl<T> Cells<T> {
    /// Empty cells, for what lies within so many metres of each other.
    pub(super) fn within(metres: f64) -> Self {
        Self { high_deg: metres / METRES_PER_DEG, cells: HashMap::new() }
    }

    /// Puts a thing where it lies.
    pub(super) fn add(&mut self, at: Pos, thing: T) {
        let row = self.row(at);
        self.cells.entry((row, self.column(at, row))).or_default().push(thing);
    }

    /// The things in the cell of a place and in those about it.
    pub(super) fn about(&self, at: Pos) -> impl Iterator<Item = &T> {
        let row = self.row(at);
        let about = (row - 1..=row + 1).flat_map(move |row| {
            let (own, all) = (self.column(at, row), self.columns(row));
            let mut columns = [own - 1, own, own + 1].map(|column| column.rem_euclid(all)).to_vec();
            columns.sort_unstable();
            columns.dedup();
            columns.into_iter().map(move |column| (row, column))
        });
        about.filter_map(|cell| self.cells.get(&cell)).flatten()
    }

    fn row(&self, (lat, _): Pos) -> i64 {
        (lat / self.high_deg).floor() as i64
    }

    /// How many columns go around the earth in a row, by its edge towards the pole.
    fn columns(&self, row: i64) -> i64 {
        let edge = if row < 0 { row } else { row + 1 };
        let narrowest = (edge as f64 * self.high_deg).to_radians().cos();
        ((360.0 * narrowest / self.high_deg).floor() as i64).max(1)
    }

    fn column(&self, (_, lon): Pos, row: i64) -> i64 {
        let columns = self.columns(row);
        ((lon / 360.0).rem_euclid(1.0) * columns as f64).floor().min((columns - 1) as f64) as i64
    }
}

#[cfg(test)]
mod tests {
    use super::super::shape::distance_m;
    use super::*;

    /// Pairs as far apart as the cells serve for, in every direction, at latitudes and longitudes all over the earth; the distance is that
    /// of the sphere that tolerances are counted on.
    #[test]
    fn what_is_near_is_found_everywhere() {
        for metres in [1.0, 100.0] {
            for lat in [-89.9995, -61.3, -33.4, -0.0001, 0.0, 27.9, 45.0, 71.2, 89.99] {
                for lon in [-180.0, -179.999_999, -77.7, 0.0, 100.3, 170.123, 179.999_999, 180.0] {
                    for turn in (0..360).step_by(9) {
                        let (east, north) = f64::from(turn).to_radians().sin_cos();
                        let step = 0.999 * metres / METRES_PER_DEG;
                        let there_lon = lon + step * east / f64::to_radians(lat).cos();
                        let there = (lat + step * north, (there_lon + 180.0).rem_euclid(360.0) - 180.0);
                        assert!(distance_m((lat, lon), there) <= metres);
                        let mut cells = Cells::within(metres);
                        cells.add(there, 1);
                        assert_eq!(cells.about((lat, lon)).count(), 1, "{lat} {lon} {there:?} {metres}");
                    }
                }
            }
        }
    }
}
