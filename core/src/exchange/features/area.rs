//! The box to which a file is cut.

use super::ImportError;
use super::shape::{Pos, between};

/// A box of latitudes and longitudes; its west may lie east of its east, across 180 degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    south_deg: f64,
    north_deg: f64,
    middle_deg: f64,
    half_width_deg: f64,
}

impl Area {
    /// A box from its borders in degrees.
    ///
    /// # Errors
    /// [`ImportError::NoArea`] when they enclose nothing, [`ImportError::AreaOff`] when they are no degrees of the earth.
    pub fn new(south_deg: f64, west_deg: f64, north_deg: f64, east_deg: f64) -> Result<Self, ImportError> {
        let are = |limit: f64, borders: [f64; 2]| borders.iter().all(|border| (-limit..=limit).contains(border));
        if !(are(90.0, [south_deg, north_deg]) && are(180.0, [west_deg, east_deg])) {
            return Err(ImportError::AreaOff);
        }
        if south_deg >= north_deg || (east_deg - west_deg).abs() <= 0.0 {
            return Err(ImportError::NoArea);
        }
        let width_deg = if east_deg > west_deg { east_deg - west_deg } else { east_deg - west_deg + 360.0 };
        Ok(Self { south_deg, north_deg, middle_deg: west_deg + width_deg / 2.0, half_width_deg: width_deg / 2.0 })
    }

    /// Whether a place lies inside or on the border.
    #[must_use]
    pub fn holds(&self, (lat, lon): Pos) -> bool {
        (self.south_deg..=self.north_deg).contains(&lat) && self.east_of_middle(lon).abs() <= self.half_width_deg
    }

    /// Degrees east of the middle, -180 to 180.
    fn east_of_middle(&self, lon: f64) -> f64 {
        (lon - self.middle_deg + 180.0).rem_euclid(360.0) - 180.0
    }

    /// The parts of a line inside, each ending on the border where it leaves.
    pub(super) fn cut(&self, points: &[Pos]) -> Vec<Vec<Pos>> {
        if points.iter().all(|at| self.holds(*at)) {
            return vec![points.to_vec()];
        }
        let mut parts: Vec<Vec<Pos>> = Vec::new();
        let mut open = false;
        for pair in points.windows(2) {
            let [a, b] = pair else { continue };
            let Some((start, end)) = self.inside(*a, *b) else {
                open = false;
                continue;
            };
            if !open || start > 0.0 {
                parts.push(vec![between(*a, *b, start)]);
            }
            if let Some(part) = parts.last_mut() {
                part.push(between(*a, *b, end));
            }
            open = end >= 1.0;
        }
        parts
    }

    /// The share of a straight piece that lies inside, from 0 at `a` to 1 at `b` (Liang and Barsky's clipping, 1984).
    fn inside(&self, a: Pos, b: Pos) -> Option<(f64, f64)> {
        let (x, dx) = (self.east_of_middle(a.1), self.east_of_middle(b.1) - self.east_of_middle(a.1));
        // A piece that seems to go round the earth passes on the far side of it.
        if dx.abs() > 180.0 {
            return None;
        }
        let dy = b.0 - a.0;
        let limits =
            [(-dx, x + self.half_width_deg), (dx, self.half_width_deg - x), (-dy, a.0 - self.south_deg), (dy, self.north_deg - a.0)];
        let (mut start, mut end) = (0.0_f64, 1.0_f64);
        for (step, room) in limits {
            match step {
                step if step < 0.0 => start = start.max(room / step),
                step if step > 0.0 => end = end.min(room / step),
                _ if room < 0.0 => return None,
                _ => {}
            }
        }
        (start < end).then_some((start, end))
    }
}
