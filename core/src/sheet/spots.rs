//! Spot heights: what they say of the heights of a sheet.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::Paper;
use crate::earth::{LatLon, geodesic_between};
use crate::ground::Heights;
use crate::measure::{Arg, Message, Telling};

/// A spot height: the ground's own height above the sea, printed on the map or stated by a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    /// The landmark or known point that stands there, when one does.
    #[serde(default)]
    pub name: Option<String>,
    /// Latitude and longitude in degrees.
    pub at: (f64, f64),
    /// Metres above the sea.
    pub height_m: f64,
}

/// How the heights of a sheet agree with its spot heights: this is what spot heights serve.
#[derive(Debug, Clone, PartialEq)]
pub struct SpotCheck {
    /// Spot heights that lie on known ground.
    pub count: usize,
    /// Mean of height less spot height, metres.
    pub mean_m: f64,
    /// Root mean square of the same, metres.
    pub off_m: f64,
    /// One sigma of a height, metres.
    pub sigma_m: f64,
    /// How many of them err independently: spot heights within the correlation length of the heights share their error.
    pub independent: f64,
    /// Whether one of the two is in feet where the other is in metres.
    pub feet: bool,
    /// The spot that is farthest off, as a person finds it, and height less spot height there, metres.
    pub worst: (String, f64),
}

/// Spreads of a height, and of the mean of several, by which they may differ: more happens once in four hundred times.
const MOST_SIGMAS: f64 = 3.0;
/// The same for a sum of squares, of the upper side alone (normal quantile of 1 - 1/400).
const MOST_UPPER: f64 = 2.807;
/// So many spot heights are asked for what their errors share; more say no more of it.
const MOST_PAIRED: usize = 300;
/// Printed spot heights are rounded, and the spot is read off the map: metres that are forgiven. Common practice, no source.
const FORGIVEN_M: f64 = 3.0;
/// Feet in a metre (exact inverse of the international foot of 1959, 0.3048 m), and how far from it the ratio may lie.
const FEET: (f64, f64) = (1.0 / 0.3048, 0.15);

impl Spot {
    /// How a person finds it: by the name of what stands there, else by latitude and longitude.
    #[must_use]
    pub fn called(&self) -> String {
        self.name.clone().unwrap_or_else(|| format!("{:.4}, {:.4}", self.at.0, self.at.1))
    }
}

impl Paper {
    /// The first spot that has two heights which are not the same but for rounding: one of them is wrong, or stands elsewhere.
    #[must_use]
    pub fn contradiction(&self) -> Option<Message> {
        let mut heights_m: BTreeMap<String, f64> = BTreeMap::new();
        let (spot, first_m) = self.spots.iter().find_map(|spot| {
            let first_m = *heights_m.entry(spot.called().to_lowercase()).or_insert(spot.height_m);
            ((first_m - spot.height_m).abs() > FORGIVEN_M).then_some((spot, first_m))
        })?;
        let told = Message::new("spots-two").text("spot", spot.called());
        Some(told.with("first", Arg::Height(first_m, 0)).with("other", Arg::Height(spot.height_m, 0)))
    }

    /// The spot heights held against heights; `None` when no spot lies on known ground.
    #[must_use]
    pub fn check(&self, heights: &Heights) -> Option<SpotCheck> {
        let known = |spot: &Spot| {
            let at = LatLon::computed(spot.at.0, spot.at.1);
            Some((at, (heights.at_m(at)?, spot.height_m)))
        };
        let (places, pairs): (Vec<LatLon>, Vec<(f64, f64)>) = self.spots.iter().filter_map(known).unzip();
        let apart = self.spots.iter().filter_map(|spot| known(spot).map(|(_, (height_m, spot_m))| (spot.called(), height_m - spot_m)));
        let worst = apart.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs())).unwrap_or_default();
        let count = pairs.len() as f64;
        let mean = |of: &dyn Fn(f64, f64) -> f64| pairs.iter().map(|(height_m, spot_m)| of(*height_m, *spot_m)).sum::<f64>() / count;
        let (heights_m, spots_m) = (mean(&|height_m, _| height_m.abs()), mean(&|_, spot_m| spot_m.abs()));
        let ratio = (heights_m / spots_m).max(spots_m / heights_m);
        let off_m = mean(&|height_m, spot_m| (height_m - spot_m).powi(2)).sqrt();
        let check = SpotCheck {
            count: pairs.len(),
            mean_m: mean(&|height_m, spot_m| height_m - spot_m),
            off_m,
            sigma_m: heights.spread().sigma_m,
            independent: independent(&places, heights.spread().correlation_m),
            feet: (ratio / FEET.0 - 1.0).abs() < FEET.1 && off_m > MOST_SIGMAS * heights.spread().sigma_m,
            worst,
        };
        (!pairs.is_empty()).then_some(check)
    }
}

impl SpotCheck {
    /// Whether they differ by more than such heights may be wrong: the root mean square against its upper limit by chance.
    ///
    /// # References
    /// Wilson and Hilferty, "The distribution of chi-square", 1931: quantiles to some thousandths.
    #[must_use]
    pub fn differs(&self) -> bool {
        let part = 2.0 / (9.0 * self.independent);
        let most = (1.0 - part + MOST_UPPER * part.sqrt()).powf(1.5);
        self.off_m > most * self.sigma_m + FORGIVEN_M
    }

    /// How far the mean of so many may be off by chance, metres: its standard error by the stated spread, three times.
    #[must_use]
    pub fn mean_within_m(&self) -> f64 {
        MOST_SIGMAS * self.sigma_m / self.independent.sqrt() + FORGIVEN_M
    }

    /// Whether several spot heights are all off the same way, by more than chance: the heights, or the map, are wrong by one figure
    /// throughout, and the rest is as good as such heights are.
    #[must_use]
    pub fn is_biased(&self) -> bool {
        let rest_m = (self.off_m.powi(2) - self.mean_m.powi(2)).max(0.0).sqrt();
        self.count > 1 && self.mean_m.abs() > self.mean_within_m() && !Self { off_m: rest_m, ..self.clone() }.differs()
    }
}

/// The number of independent errors with the same spread of the mean, for errors that share `exp(-distance / length)`.
fn independent(places: &[LatLon], correlation_m: f64) -> f64 {
    let count = places.len() as f64;
    let asked: Vec<&LatLon> = places.iter().step_by(places.len() / MOST_PAIRED + 1).collect();
    let shared = |a: &LatLon, b: &LatLon| (-geodesic_between(*a, *b).0 / correlation_m.max(f64::MIN_POSITIVE)).exp();
    let pairs = asked.iter().enumerate().flat_map(|(index, a)| asked.iter().skip(index + 1).map(move |b| (*a, *b)));
    let (sum, number) = pairs.fold((0.0, 0.0), |(sum, number), (a, b)| (sum + shared(a, b), number + 1.0));
    let mean = if number > 0.0 { sum / number } else { 0.0 };
    count / (1.0 + (count - 1.0).max(0.0) * mean)
}

impl Telling for SpotCheck {
    fn message(&self) -> Message {
        let word = match (self.feet, self.is_biased(), self.differs()) {
            (true, _, _) => "feet",
            (false, true, _) => "bias",
            (false, false, true) => "off",
            (false, false, false) => "well",
        };
        let way = match self.mean_m {
            mean_m if mean_m.abs() < 0.5 => "level",
            mean_m if mean_m < 0.0 => "below",
            _ => "above",
        };
        Message::new("spots-told")
            .with("count", Arg::Count(self.count as i64))
            .text("way", way)
            .with("mean", Arg::Height(self.mean_m.abs(), 0))
            .with("off", Arg::Height(self.off_m, 0))
            .with("within", Arg::Height(self.mean_within_m(), 0))
            .text("worst", self.worst.0.clone())
            .text("side", if self.worst.1 < 0.0 { "below" } else { "above" })
            .with("far", Arg::Height(self.worst.1.abs(), 0))
            .text("agree", word)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::{Arg, Paper, Spot};
    use crate::ground::{HeightSpread, Heights, Lattice, Layout};

    fn flat(height_m: f32) -> Heights {
        let layout = Layout { lattice: Lattice::Geographic, columns: 3, rows: 3, west: 14.0, north: 46.0, step_east: 0.1, step_south: 0.1 };
        Heights::new(layout, HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, vec![height_m; 9]).unwrap()
    }

    fn spots(heights_m: &[f64]) -> Paper {
        let spot = |height_m: &f64| Spot { name: None, at: (45.95, 14.05), height_m: *height_m };
        Paper { spots: heights_m.iter().map(spot).collect(), ..Paper::default() }
    }

    #[test]
    fn spot_heights_tell_how_far_the_heights_are_off() {
        let check = spots(&[510.0, 502.0]).check(&flat(500.0)).unwrap();
        assert_eq!((check.count, check.mean_m, check.differs(), check.is_biased(), check.feet), (2, -6.0, false, false, false));
        assert!((check.off_m - 52f64.sqrt()).abs() < 1e-12);
        assert!((check.independent - 1.0).abs() < 1e-12, "both stand in one place");
        assert!(spots(&[530.0]).check(&flat(500.0)).unwrap().differs());
        assert!(spots(&[1640.0, 1660.0]).check(&flat(500.0)).unwrap().feet);
        assert!(spots(&[150.0]).check(&flat(492.0)).unwrap().feet);
        assert_eq!(Paper::default().check(&flat(500.0)), None);
        let away = Paper { spots: vec![Spot { name: None, at: (10.0, 10.0), height_m: 3.0 }], ..Paper::default() };
        assert_eq!(away.check(&flat(500.0)), None);
    }

    #[test]
    fn the_spot_that_is_farthest_off_is_named_and_so_is_one_with_two_heights() {
        let named = |name: Option<&str>, height_m: f64| Spot { name: name.map(Into::into), at: (45.95, 14.05), height_m };
        let paper = Paper { spots: vec![named(None, 490.0), named(Some("Peak"), 512.0), named(Some("peak"), 514.0)], ..Paper::default() };
        assert_eq!(paper.check(&flat(500.0)).unwrap().worst, ("peak".into(), -14.0));
        assert_eq!(paper.contradiction(), None, "2 m are rounding");
        let paper = Paper { spots: vec![named(None, 490.0), named(Some("Peak"), 512.0), named(None, 430.0)], ..Paper::default() };
        assert_eq!(paper.check(&flat(500.0)).unwrap().worst, ("45.9500, 14.0500".into(), 70.0));
        let told = paper.contradiction().unwrap();
        assert!(told.args.contains(&("spot", Arg::Text("45.9500, 14.0500".into()))), "{told:?}");
    }

    fn apart(count: usize, off_m: f64) -> super::SpotCheck {
        // 1.1 km from each other, more than three correlation lengths.
        let spot = |number: usize| Spot { name: None, at: (45.81 + 0.01 * number as f64, 14.05), height_m: 500.0 - off_m };
        Paper { spots: (0..count).map(spot).collect(), ..Paper::default() }.check(&flat(500.0)).unwrap()
    }

    /// By hand: a sigma of 5 m, so that one may be off by 3 x 5 + 3 = 18 m, the mean of nine by 3 x 5 / 3 + 3 = 8 m and a little
    /// more for the exp(-3.7) of their error that neighbours share.
    #[test]
    fn many_spot_heights_that_are_off_the_same_way_tell_a_bias() {
        assert!((apart(1, 17.0).mean_within_m() - 18.0).abs() < 1e-9);
        assert!((8.0..8.3).contains(&apart(9, 0.0).mean_within_m()), "{}", apart(9, 0.0).mean_within_m());
        for (count, off_m, biased, differs) in
            [(1, 17.0, false, false), (1, 19.0, false, true), (9, 7.0, false, false), (9, 9.0, true, false), (9, -17.0, true, true)]
        {
            let check = apart(count, off_m);
            assert_eq!((check.is_biased(), check.differs()), (biased, differs), "{count} {off_m} {check:?}");
        }
    }

    /// Quantiles of 1 - 1/400 of chi-square by SciPy 1.17.1 (`chi2.ppf(1 - 1/400, n)`): 9.1406 for 1, 25.4625 for 9; the root mean square
    /// may be 3.023 and 1.682 sigmas.
    #[test]
    fn the_limit_of_the_root_mean_square_is_that_of_chi_square() {
        for (count, sigmas) in [(1, 3.023), (9, 1.682)] {
            let check = |off_m: f64| super::SpotCheck {
                count,
                mean_m: 0.0,
                off_m,
                sigma_m: 100.0,
                independent: count as f64,
                feet: false,
                worst: (String::new(), 0.0),
            };
            assert!(!check(100.0 * (sigmas - 0.03)).differs() && check(100.0 * (sigmas + 0.03) + 3.0).differs(), "{count}");
        }
    }
}
