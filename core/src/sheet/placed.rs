//! Where things of the sheet stand, by their names.

use super::{Sheet, same_name};
use crate::earth::{LatLon, Names};

impl Names for Sheet {
    /// The place of a landmark or of a named point on a line, with one sigma on each axis in metres; case is ignored.
    fn placed(&self, name: &str) -> Option<(LatLon, f64)> {
        let landmark = self.landmarks.iter().find(|landmark| same_name(&landmark.name, name));
        let on_line = || self.lines.iter().find_map(|line| Some((line.at(line.known(name)?.along_m).at, line.spread_m)));
        let (at, spread_m) = landmark.map(|landmark| (landmark.at, landmark.spread_m)).or_else(on_line)?;
        Some((self.frame.to_earth(at), spread_m))
    }
}
