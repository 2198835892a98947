//! What a paper map prints beside the map: scale, year, spot heights; and whom to name for what came from files.

use serde::{Deserialize, Serialize};

use super::Spot;
use crate::earth::zone_in;

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
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::Paper;

    /// By hand: 1/50 inch at 1:24,000 is 12.19 m, over 2.146 it is 5.68 m; 1/30 inch at 1:10,000 is 8.47 m and 3.95 m.
    #[test]
    fn the_printed_scale_gives_the_spread_of_the_map() {
        let spread_m = |scale: f64| Paper { scale: Some(scale), ..Paper::default() }.spread_m().unwrap();
        assert!((spread_m(24_000.0) - 5.68).abs() < 0.005 && (spread_m(10_000.0) - 3.95).abs() < 0.005);
        assert!((spread_m(50_000.0) - 11.84).abs() < 0.005);
        assert_eq!(Paper::default().spread_m(), None);
    }
}
