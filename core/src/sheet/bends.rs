//! Bends of a line: where a walker who follows it says that it turns.

use super::Line;
use crate::measure::signed_difference_deg;

/// A bend turns by at least so much ... (common practice, no source)
const TURN_DEG: f64 = 30.0;
/// ... from so far before it to so far behind it, metres.
const ARM_M: f64 = 50.0;
/// From place to place along the line, metres.
const STEP_M: f64 = 5.0;

impl Line {
    /// Where the line bends, metres along it: it turns by 30° and more between the 50 m before and the 50 m behind.
    ///
    /// # Accuracy
    /// 5 m, at the sharpest place of each bend. Nearer than 50 m to its ends a line has none; a ring has no ends.
    #[must_use]
    pub fn bends_m(&self) -> Vec<f64> {
        let first_m = if self.is_ring() { 0.0 } else { ARM_M };
        let steps = ((self.length_m() - 2.0 * first_m) / STEP_M).floor().max(-1.0);
        let mut found: Vec<(f64, f64)> = Vec::new();
        let mut in_bend = false;
        for step in 0..=(steps.max(0.0) as usize) {
            let along_m = first_m + step as f64 * STEP_M;
            let turn_deg = self.turn_at_deg(along_m);
            match found.last_mut() {
                _ if steps < 0.0 || turn_deg < TURN_DEG => in_bend = false,
                Some(sharpest) if in_bend => {
                    if turn_deg > sharpest.1 {
                        *sharpest = (along_m, turn_deg);
                    }
                }
                _ => {
                    found.push((along_m, turn_deg));
                    in_bend = true;
                }
            }
        }
        self.once_where_it_begins(&mut found);
        found.into_iter().map(|(along_m, _)| along_m).collect()
    }

    /// A bend that lies over the place where a ring begins is one.
    fn once_where_it_begins(&self, found: &mut Vec<(f64, f64)>) {
        if let [first, .., last] = found.as_slice()
            && self.way_m(last.0, first.0).abs() < ARM_M
            && self.is_ring()
        {
            let second = if first.1 < last.1 { 0 } else { found.len() - 1 };
            found.remove(second);
        }
    }

    /// By how much the line turns over 50 m to either side of a place, degrees.
    #[must_use]
    pub fn turn_at_deg(&self, along_m: f64) -> f64 {
        let [before, here, behind] = [along_m - ARM_M, along_m, along_m + ARM_M].map(|metres| self.at(metres).at);
        signed_difference_deg(behind.minus(here).bearing_deg(), here.minus(before).bearing_deg()).abs()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use crate::measure::Point;
    use crate::sheet::Line;

    #[test]
    fn a_bend_is_where_the_line_turns() {
        let corner = |turn_deg: f64| {
            let end = Point::new(0.0, 400.0).plus(Point::polar(300.0, turn_deg));
            Line::new("Road", "road", vec![Point::default(), Point::new(0.0, 400.0), end], 0.0).unwrap()
        };
        assert_eq!(corner(60.0).bends_m(), [400.0]);
        assert_eq!(corner(-90.0).bends_m(), [400.0]);
        assert!(corner(20.0).bends_m().is_empty());
        let short = Line::new("Path", "path", vec![Point::default(), Point::new(0.0, 40.0), Point::new(40.0, 40.0)], 0.0).unwrap();
        assert!(short.bends_m().is_empty(), "too short to tell");
    }
}
