//! Where a contour's height is written.

use super::{Contour, Post};

/// A stretch counts as smooth when its ends are this share of its length apart (own choice).
const SMOOTH: f64 = 0.95;

/// Where a label stands on a contour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelPlace {
    /// Middle of the label.
    pub post: Post,
    /// The way the label is read, degrees clockwise from the grid's rows upwards: higher ground is above it.
    pub reads_to_deg: f64,
}

/// A stretch of a contour as long as a label.
struct Stretch {
    straight: f64,
    middle: f64,
    from: (f64, f64),
    to: (f64, f64),
}

/// A contour measured along.
struct Measured {
    places: Vec<(f64, f64)>,
    along_m: Vec<f64>,
}

impl Measured {
    fn new(contour: &Contour, spacing_m: (f64, f64)) -> Self {
        let places: Vec<(f64, f64)> = contour.posts.iter().map(|post| (post.column * spacing_m.0, post.row * spacing_m.1)).collect();
        let mut along_m = vec![0.0];
        for pair in places.windows(2) {
            if let [a, b] = pair {
                along_m.push(along_m.last().copied().unwrap_or(0.0) + (b.0 - a.0).hypot(b.1 - a.1));
            }
        }
        Self { places, along_m }
    }

    fn length_m(&self) -> f64 {
        self.along_m.last().copied().unwrap_or(0.0)
    }

    /// The place at a distance along the contour.
    fn at(&self, along_m: f64) -> Option<(f64, f64)> {
        let after = self.along_m.partition_point(|known| *known < along_m).clamp(1, self.along_m.len().max(2) - 1);
        let (start_m, end_m) = (self.along_m.get(after - 1)?, self.along_m.get(after)?);
        let (a, b) = (self.places.get(after - 1)?, self.places.get(after)?);
        let share = if end_m > start_m { (along_m - start_m) / (end_m - start_m) } else { 0.0 };
        Some((a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share))
    }

    fn stretch(&self, from_m: f64, length_m: f64) -> Option<Stretch> {
        let (from, to) = (self.at(from_m)?, self.at(from_m + length_m)?);
        let straight = (to.0 - from.0).hypot(to.1 - from.1) / length_m;
        Some(Stretch { straight, middle: from_m + length_m / 2.0, from, to })
    }

    /// The straightest stretch that begins between two distances.
    fn straightest(&self, from_m: f64, to_m: f64, length_m: f64) -> Option<Stretch> {
        let tries = ((to_m - from_m) / (length_m / 4.0)).ceil().clamp(1.0, 1000.0);
        let start_m = |i: f64| from_m + (to_m - from_m) * i / tries;
        let stretches = (0..=tries as usize).filter_map(|i| self.stretch(start_m(i as f64), length_m));
        stretches.max_by(|a, b| a.straight.total_cmp(&b.straight))
    }
}

impl Contour {
    /// Where its height can be written, about every `apart_m`: on the straightest stretches as long as the label.
    ///
    /// None on a contour that is shorter than twice the label or nowhere smooth.
    ///
    /// # Units
    /// Metres; `spacing_m` is that from column to column and from row to row there.
    #[must_use]
    pub fn label_places(&self, label_m: f64, apart_m: f64, spacing_m: (f64, f64)) -> Vec<LabelPlace> {
        let measured = Measured::new(self, spacing_m);
        let length_m = measured.length_m();
        let sound = label_m > 0.0 && apart_m >= label_m && length_m >= 2.0 * label_m;
        if !sound {
            return Vec::new();
        }
        let parts = (length_m / apart_m).floor().max(1.0);
        let part_m = length_m / parts;
        let one = |i: usize| {
            let from_m = part_m * i as f64;
            let found = measured.straightest(from_m, (from_m + part_m - label_m).max(from_m), label_m)?;
            (found.straight >= SMOOTH).then(|| measured.label(&found, spacing_m)).flatten()
        };
        (0..parts as usize).filter_map(one).collect()
    }
}

impl Measured {
    fn label(&self, stretch: &Stretch, spacing_m: (f64, f64)) -> Option<LabelPlace> {
        let (x, y) = self.at(stretch.middle)?;
        let (east, south) = (stretch.to.0 - stretch.from.0, stretch.to.1 - stretch.from.1);
        let reads_to_deg = east.atan2(-south).to_degrees().rem_euclid(360.0);
        Some(LabelPlace { post: Post { column: x / spacing_m.0, row: y / spacing_m.1 }, reads_to_deg })
    }
}
