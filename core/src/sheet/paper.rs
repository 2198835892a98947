//! What a paper map prints beside the map: scale, year, spot heights; and whom to name for what came from files.

use serde::{Deserialize, Serialize};

use crate::earth::{LatLon, zone_in};
use crate::ground::Heights;
use crate::measure::{Arg, Message, Telling};

/// What stands in a map's margin, its spot heights, and whom to name.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Paper {
    /// The number under the printed scale: 24000 for 1:24,000.
    #[serde(default)]
    pub scale: Option<f64>,
    /// The year in which the map was made or last brought up to date.
    #[serde(default)]
    pub year: Option<f64>,
    /// Zone and band, or zone, band and square letters, with which the references of the sheet begin, as they were told or typed
    /// when it was made: short ones are counted in that zone.
    #[serde(default)]
    pub beginning: Option<String>,
    /// Spot heights.
    #[serde(default)]
    pub spots: Vec<Spot>,
    /// Whose data is on the sheet, each once.
    #[serde(default)]
    pub credits: Vec<String>,
}

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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotCheck {
    /// Spot heights that lie on known ground.
    pub count: usize,
    /// Mean of height less spot height, metres.
    pub mean_m: f64,
    /// Root mean square of the same, metres.
    pub off_m: f64,
    /// One sigma of a height, metres.
    pub sigma_m: f64,
    /// Whether one of the two is in feet where the other is in metres.
    pub feet: bool,
}

/// Spreads of a height by which heights and spot heights may differ: more happens once in four hundred times.
const MOST_SIGMAS: f64 = 3.0;
/// Printed spot heights are rounded, and the spot is read off the map: metres that are forgiven. Common practice, no source.
const FORGIVEN_M: f64 = 3.0;
/// Feet in a metre (exact inverse of the international foot of 1959, 0.3048 m), and how far from it the ratio may lie.
const FEET: (f64, f64) = (1.0 / 0.3048, 0.15);

impl Paper {
    /// Position error of a map of this scale, one sigma per axis in metres; `None` without a scale.
    ///
    /// # References
    /// US National Map Accuracy Standards (1947): 90 % of well-defined points within 1/50 inch at 1:20,000 and smaller, within
    /// 1/30 inch at larger scales; 90 % of a plane normal lie within 2.146 sigma.
    #[must_use]
    pub fn spread_m(&self) -> Option<f64> {
        const INCH_M: f64 = 0.0254;
        const WITHIN: f64 = 2.146;
        let part = |scale: f64| if scale < 20_000.0 { 30.0 } else { 50.0 };
        self.scale.map(|scale| scale * INCH_M / part(scale) / WITHIN)
    }

    /// The zone in which short references of the sheet are counted, when it was told.
    #[must_use]
    pub fn zone(&self) -> Option<u8> {
        self.beginning.as_deref().and_then(zone_in)
    }

    /// Names somebody once.
    pub fn credit(&mut self, whom: &str) {
        let whom = whom.trim();
        if !whom.is_empty() && !self.credits.iter().any(|known| known == whom) {
            self.credits.push(whom.to_owned());
        }
    }

    /// The spot heights held against heights; `None` when no spot lies on known ground.
    #[must_use]
    pub fn check(&self, heights: &Heights) -> Option<SpotCheck> {
        let known = |spot: &Spot| Some((heights.at_m(LatLon::computed(spot.at.0, spot.at.1))?, spot.height_m));
        let pairs: Vec<(f64, f64)> = self.spots.iter().filter_map(known).collect();
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
            feet: (ratio / FEET.0 - 1.0).abs() < FEET.1 && off_m > MOST_SIGMAS * heights.spread().sigma_m,
        };
        (!pairs.is_empty()).then_some(check)
    }
}

impl SpotCheck {
    /// Whether they differ by more than such heights may be wrong.
    #[must_use]
    pub fn differs(&self) -> bool {
        self.off_m > MOST_SIGMAS * self.sigma_m + FORGIVEN_M
    }
}

impl Telling for SpotCheck {
    fn message(&self) -> Message {
        let word = match (self.feet, self.differs()) {
            (true, _) => "feet",
            (false, true) => "off",
            (false, false) => "well",
        };
        Message::new("spots-told")
            .with("count", Arg::Count(self.count as i64))
            .text("way", if self.mean_m < 0.0 { "below" } else { "above" })
            .with("mean", Arg::Number(self.mean_m.abs(), 0))
            .with("off", Arg::Number(self.off_m, 0))
            .text("agree", word)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::{Paper, Spot};
    use crate::ground::{HeightSpread, Heights, Lattice, Layout};

    fn flat(height_m: f32) -> Heights {
        let layout = Layout { lattice: Lattice::Geographic, columns: 3, rows: 3, west: 14.0, north: 46.0, step_east: 0.1, step_south: 0.1 };
        Heights::new(layout, HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, vec![height_m; 9]).unwrap()
    }

    fn spots(heights_m: &[f64]) -> Paper {
        let spot = |height_m: &f64| Spot { name: None, at: (45.95, 14.05), height_m: *height_m };
        Paper { spots: heights_m.iter().map(spot).collect(), ..Paper::default() }
    }

    /// By hand: 1/50 inch at 1:24,000 is 12.19 m, over 2.146 it is 5.68 m; 1/30 inch at 1:10,000 is 8.47 m and 3.95 m.
    #[test]
    fn the_printed_scale_gives_the_spread_of_the_map() {
        let spread_m = |scale: f64| Paper { scale: Some(scale), ..Paper::default() }.spread_m().unwrap();
        assert!((spread_m(24_000.0) - 5.68).abs() < 0.005 && (spread_m(10_000.0) - 3.95).abs() < 0.005);
        assert!((spread_m(50_000.0) - 11.84).abs() < 0.005);
        assert_eq!(Paper::default().spread_m(), None);
    }

    #[test]
    fn spot_heights_tell_how_far_the_heights_are_off() {
        let check = spots(&[510.0, 502.0]).check(&flat(500.0)).unwrap();
        assert_eq!((check.count, check.mean_m, check.differs(), check.feet), (2, -6.0, false, false));
        assert!((check.off_m - 52f64.sqrt()).abs() < 1e-12);
        assert!(spots(&[530.0]).check(&flat(500.0)).unwrap().differs());
        assert!(spots(&[1640.0, 1660.0]).check(&flat(500.0)).unwrap().feet);
        assert!(spots(&[150.0]).check(&flat(492.0)).unwrap().feet);
        assert_eq!(Paper::default().check(&flat(500.0)), None);
        let away = Paper { spots: vec![Spot { name: None, at: (10.0, 10.0), height_m: 3.0 }], ..Paper::default() };
        assert_eq!(away.check(&flat(500.0)), None);
    }
}
