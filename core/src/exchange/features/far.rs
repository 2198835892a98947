//! A record of a file that lies far from the sheet it is brought to.

use super::Features;
use super::shape::Pos;
use crate::earth::{LatLon, geodesic_between};
use crate::measure::{Arg, Message, Telling};
use crate::sheet::REACH_M;

/// A line or landmark of a file, farther from the middle of a sheet than a sheet reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct FarRecord {
    /// Its name, in the file or for want of one.
    pub name: String,
    /// Latitude and longitude of its first point that is so far off, degrees.
    pub at: (f64, f64),
    /// How far that is from the middle of the sheet, metres.
    pub distance_m: f64,
    /// Whether it would lie within reach with latitude and longitude exchanged.
    pub is_exchanged: bool,
}

impl Telling for FarRecord {
    fn message(&self) -> Message {
        Message::new("import-far")
            .text("name", self.name.clone())
            .text("place", format!("{:.4}, {:.4}", self.at.0, self.at.1))
            .with("distance", Arg::Metres(self.distance_m))
            .text("exchanged", if self.is_exchanged { "yes" } else { "no" })
    }
}

impl Features {
    /// The first line or landmark that lies farther from the middle of a sheet than a sheet reaches.
    #[must_use]
    pub fn far_from(&self, middle: LatLon) -> Option<FarRecord> {
        let away_m = |(lat, lon): Pos| LatLon::new(lat, lon).map_or(f64::INFINITY, |at| geodesic_between(middle, at).0);
        let of_lines = self
            .lines
            .iter()
            .flat_map(|line| [line.points.first(), line.points.last()].into_iter().flatten().map(move |at| (&line.name, *at)));
        let mut all = of_lines.chain(self.landmarks.iter().map(|mark| (&mark.name, mark.at)));
        let (name, at) = all.find(|(_, at)| away_m(*at) > REACH_M)?;
        let is_exchanged = away_m((at.1, at.0)) <= REACH_M;
        Some(FarRecord { name: name.clone(), at, distance_m: away_m(at), is_exchanged })
    }
}
