//! The log-likelihood of the compass readings along one line, at places as near to each other as it bends.

/// Places in order, and the logarithm at each; between them a cubic through four of them that no bend parts, level beyond the ends.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Curve {
    /// Metres along the line.
    pub(super) along_m: Vec<f64>,
    /// Whether the line bends there: the logarithm then has a bend as well.
    pub(super) bends: Vec<bool>,
    /// All readings together.
    pub(super) ln: Vec<f64>,
    /// The readings that one sighting leaves when it is left out, for each of the sightings with readings.
    pub(super) without: Vec<Vec<f64>>,
}

/// Where a distance lies among the places of a curve.
#[derive(Debug, Clone, Copy)]
pub(super) struct Between {
    /// The place before the first of the four.
    first: usize,
    weights: [f64; 4],
}

impl Between {
    /// The value there, of one at each place.
    pub(super) fn of(self, values: &[f64]) -> f64 {
        values.iter().skip(self.first).zip(self.weights).map(|(value, weight)| value * weight).sum()
    }

    /// Weights of up to four places for the cubic through them.
    ///
    /// # References
    /// Lagrange's form of the interpolating polynomial (Abramowitz and Stegun 1964, 25.2.2).
    fn through(first: usize, places: &[f64], along_m: f64) -> Self {
        let mut weights = [0.0; 4];
        for (index, (weight, own)) in weights.iter_mut().zip(places).enumerate() {
            let others = places.iter().enumerate().filter(|(other, _)| *other != index);
            *weight = others.map(|(_, other)| (along_m - other) / (own - other)).product();
        }
        Self { first, weights }
    }
}

/// Goes along a curve with distances that never fall.
#[derive(Debug)]
pub(super) struct Cursor<'a> {
    along_m: &'a [f64],
    bends: &'a [bool],
    before: usize,
}

impl Curve {
    pub(super) fn cursor(&self) -> Cursor<'_> {
        Cursor { along_m: &self.along_m, bends: &self.bends, before: 0 }
    }
}

impl Cursor<'_> {
    pub(super) fn at(&mut self, along_m: f64) -> Between {
        while self.along_m.get(self.before + 1).is_some_and(|next| *next <= along_m) {
            self.before += 1;
        }
        let last = self.along_m.len().saturating_sub(1);
        let ends = (self.along_m.first().copied().unwrap_or(0.0), self.along_m.last().copied().unwrap_or(0.0));
        let inside_m = along_m.clamp(ends.0, ends.1);
        let (first, end) = self.four(last);
        Between::through(first, self.along_m.get(first..=end).unwrap_or_default(), inside_m)
    }

    /// The first and the last of up to four places around, none of them beyond a bend.
    fn four(&self, last: usize) -> (usize, usize) {
        let (mut first, mut end) = (self.before.min(last.saturating_sub(1)), (self.before + 1).min(last));
        let ends = |place: usize| self.bends.get(place).copied().unwrap_or(false);
        loop {
            let (left, right) = (first > 0 && !ends(first), end < last && !ends(end));
            match (left, right) {
                _ if end - first >= 3 => break,
                (true, true) if end - self.before > self.before - first => first -= 1,
                (_, true) => end += 1,
                (true, false) => first -= 1,
                (false, false) => break,
            }
        }
        (first, end)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::float_cmp, reason = "halves are exact")]

    use super::Curve;

    #[test]
    fn it_runs_as_a_cubic_and_level_beyond_the_ends() {
        let cubic = |x: f64| 2.0 - x + 0.5 * x * x - 0.25 * x * x * x;
        let along_m = vec![1.0, 3.0, 4.0, 6.0, 6.5];
        let curve = Curve { ln: along_m.iter().map(|x| cubic(*x)).collect(), bends: vec![false; 5], along_m, without: vec![] };
        let mut cursor = curve.cursor();
        let mut told = |along_m: f64| cursor.at(along_m).of(&curve.ln);
        assert_eq!(told(0.0), cubic(1.0));
        for x in [1.5, 3.0, 3.5, 4.0, 5.0, 5.9, 6.4] {
            assert!((told(x) - cubic(x)).abs() < 1e-12, "{x}");
        }
        assert_eq!(told(9.0), cubic(6.5));
    }

    #[test]
    fn no_cubic_goes_over_a_bend() {
        let along_m: Vec<f64> = (0..9).map(f64::from).collect();
        let roof = |x: f64| if x < 4.0 { x * x } else { 32.0 - 4.0 * x };
        let bends = (0..9).map(|place| place == 4).collect();
        let curve = Curve { ln: along_m.iter().map(|x| roof(*x)).collect(), bends, along_m, without: vec![] };
        let mut cursor = curve.cursor();
        for x in [0.5, 2.5, 3.5, 3.9, 4.1, 4.5, 7.5] {
            let told = cursor.at(x).of(&curve.ln);
            assert!((told - roof(x)).abs() < 1e-12, "{x}: {told}");
        }
    }

    #[test]
    fn one_place_says_the_same_everywhere() {
        let curve = Curve { along_m: vec![0.5], bends: vec![false], ln: vec![-3.0], without: vec![] };
        assert_eq!(curve.cursor().at(0.0).of(&curve.ln), -3.0);
        assert_eq!(curve.cursor().at(7.0).of(&curve.ln), -3.0);
    }
}
