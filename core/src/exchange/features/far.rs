//! What of a file lies far from the sheet it is brought to, or from the rest of the file.

use super::Features;
use super::shape::{Pos, distance_m};
use crate::earth::{FAR_M, LatLon, geodesic_between};
use crate::measure::{Arg, Message, Telling};
use crate::sheet::{REACH_M, SheetDraft};

/// So many records are named beside the first.
const MOST_NAMED: usize = 4;

/// A line or landmark of a file that lies too far away for a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct FarRecord {
    /// Its name, in the file or for want of one.
    pub name: String,
    /// Latitude and longitude of the point that is so far off, degrees.
    pub at: (f64, f64),
    /// How far that is from the middle of the sheet, or from where most of the file lies, metres.
    pub distance_m: f64,
    /// Whether it and the others would lie within reach with latitude and longitude exchanged.
    pub is_exchanged: bool,
    /// Whether it is held against where most of the file lies, and no sheet.
    pub is_of_file: bool,
    /// The names of the others that lie so far off.
    pub others: Vec<String>,
}

impl Telling for FarRecord {
    fn message(&self) -> Message {
        let mut named = self.others.iter().take(MOST_NAMED).cloned().collect::<Vec<_>>().join(", ");
        if self.others.len() > MOST_NAMED {
            named.push_str(", …");
        }
        Message::new("import-far")
            .text("name", self.name.clone())
            .text("place", format!("{:.4}, {:.4}", self.at.0, self.at.1))
            .with("distance", Arg::Metres(self.distance_m))
            .text("from", if self.is_of_file { "file" } else { "sheet" })
            .with("more", Arg::Count(i64::try_from(self.others.len()).unwrap_or(i64::MAX)))
            .text("others", named)
            .text("exchanged", if self.is_exchanged { "yes" } else { "no" })
    }
}

impl FarRecord {
    /// Whether it alone lies farther off than a sheet reaches.
    #[must_use]
    pub fn is_beyond(&self) -> bool {
        self.distance_m > REACH_M
    }
}

/// What came in from a file, far from all that a sheet held before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FarFile {
    /// Metres from the nearest of the one to the nearest of the other.
    pub distance_m: f64,
}

impl Telling for FarFile {
    fn message(&self) -> Message {
        Message::new("import-far-off").with("distance", Arg::Metres(self.distance_m))
    }
}

impl Features {
    /// The lines and landmarks that lie farther than a sheet reaches from its middle, where no sheet is open from where most of the file
    /// lies; else the one that lies farthest from there. Without any place there is none.
    #[must_use]
    pub fn far_from(&self, sheet: Option<LatLon>) -> Option<FarRecord> {
        let middle = sheet.or_else(|| self.median())?;
        let away_m = |(lat, lon): Pos| LatLon::new(lat, lon).map_or(f64::INFINITY, |at| geodesic_between(middle, at).0);
        let from = (middle.lat_deg(), middle.lon_deg());
        // What is near by the plane is no farther on the earth than twice that.
        let is_far = |at: &Pos| distance_m(from, *at) > REACH_M / 2.0 && away_m(*at) > REACH_M;
        let mut far = self.places().filter_map(|(name, points)| Some((name, *points.iter().find(|at| is_far(at))?)));
        let farthest = || {
            let all = self.places().flat_map(|(name, points)| points.iter().map(move |at| (name, *at)));
            all.max_by(|a, b| distance_m(from, a.1).total_cmp(&distance_m(from, b.1)))
        };
        let first = far.next().or_else(farthest)?;
        let others: Vec<(&String, Pos)> = far.collect();
        let is_exchanged = std::iter::once(&first).chain(&others).all(|(_, at)| away_m(*at) > REACH_M && away_m((at.1, at.0)) <= REACH_M);
        Some(FarRecord {
            name: first.0.clone(),
            at: first.1,
            distance_m: away_m(first.1),
            is_exchanged,
            is_of_file: sheet.is_none(),
            others: others.into_iter().map(|(name, _)| name.clone()).collect(),
        })
    }

    /// How far these features lie from all that a sheet holds, where that is farther than [`FAR_M`].
    ///
    /// # Accuracy
    /// To the nearest points of the lines, not to what lies between two of them.
    #[must_use]
    pub fn far_off(&self, draft: &SheetDraft) -> Option<FarFile> {
        let on_lines = || draft.lines.iter().flat_map(|line| line.points.iter().copied());
        let of_sheet = || on_lines().chain(draft.landmarks.iter().map(|mark| mark.at));
        let of_file = || self.places().flat_map(|(_, points)| points.iter().copied());
        let first = of_sheet().next()?;
        let turned = |lon: f64| (lon - first.1 + 180.0).rem_euclid(360.0) - 180.0;
        let [mut south, mut west, mut north, mut east] = [first.0, 0.0, first.0, 0.0];
        for (lat, lon) in of_sheet() {
            (south, north) = (south.min(lat), north.max(lat));
            (west, east) = (west.min(turned(lon)), east.max(turned(lon)));
        }
        // The nearest place within the sheet's borders, so that not every place of the one is held against every one of the other.
        let inside = |(lat, lon): Pos| (lat.clamp(south, north), first.1 + turned(lon).clamp(west, east));
        let off_m = |at: &Pos| distance_m(*at, inside(*at));
        let nearest = |to: Pos, all: &mut dyn Iterator<Item = Pos>| all.min_by(|a, b| distance_m(to, *a).total_cmp(&distance_m(to, *b)));
        let of_new = of_file().min_by(|a, b| off_m(a).total_cmp(&off_m(b)))?;
        if off_m(&of_new) <= FAR_M {
            return None;
        }
        let of_old = nearest(of_new, &mut of_sheet())?;
        let of_new = nearest(of_old, &mut of_file())?;
        let place = |(lat, lon): Pos| LatLon::computed(lat, lon);
        let distance_m = geodesic_between(place(of_old), place(of_new)).0;
        (distance_m > FAR_M).then_some(FarFile { distance_m })
    }

    /// The name and the points of each line and landmark.
    fn places(&self) -> impl Iterator<Item = (&String, &[Pos])> {
        let of_lines = self.lines.iter().map(|line| (&line.name, line.points.as_slice()));
        of_lines.chain(self.landmarks.iter().map(|mark| (&mark.name, std::slice::from_ref(&mark.at))))
    }

    /// Where most of them lie: the median of the latitudes and of the longitudes of the first points.
    fn median(&self) -> Option<LatLon> {
        let firsts: Vec<Pos> = self.places().filter_map(|(_, points)| points.first().copied()).collect();
        let (_, first_lon) = *firsts.first()?;
        let middle = |mut values: Vec<f64>| {
            values.sort_by(f64::total_cmp);
            values.get(values.len() / 2).copied().unwrap_or_default()
        };
        let lat = middle(firsts.iter().map(|at| at.0).collect());
        let lon = middle(firsts.iter().map(|at| (at.1 - first_lon + 180.0).rem_euclid(360.0) - 180.0).collect());
        Some(LatLon::computed(lat, first_lon + lon))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::*;
    use crate::sheet::DraftLandmark;

    fn marks(places: &[Pos]) -> Features {
        let mark = |(number, at): (usize, &Pos)| DraftLandmark {
            name: format!("mark {number}"),
            kind: "mast".to_owned(),
            at: *at,
            spread_m: 5.0,
            height_m: None,
        };
        Features { landmarks: places.iter().enumerate().map(mark).collect(), ..Features::default() }
    }

    /// A degree of a meridian at 46 north is 111.1 km (GRS 80, from memory).
    #[test]
    fn what_lies_away_from_the_rest_is_named_whichever_comes_first() {
        let most = [(46.0, 13.0), (46.01, 13.01), (46.02, 13.0), (46.0, 13.02)];
        for turned in [0, 2, 4] {
            let mut places = most.to_vec();
            places.insert(turned, (13.0, 46.0));
            let far = marks(&places).far_from(None).unwrap();
            assert_eq!((far.name, far.is_exchanged, far.is_of_file), (format!("mark {turned}"), true, true));
        }
        let two = [most.as_slice(), &[(50.0, 13.0), (13.0, 46.0)]].concat();
        let far = marks(&two).far_from(None).unwrap();
        assert_eq!((far.name.as_str(), far.is_exchanged, far.others), ("mark 4", false, vec!["mark 5".to_owned()]));
        assert!(marks(&most).far_from(Some(LatLon::computed(46.0, 13.0))).is_some_and(|far| !far.is_beyond()));
        // Across 180 degrees all lies together.
        let across = [(-17.0, 179.9), (-17.0, -179.9), (-17.1, 179.95), (-20.0, -179.9)];
        let far = marks(&across).far_from(None).unwrap();
        assert!(far.name == "mark 3" && (320e3..345e3).contains(&far.distance_m), "{far:?}");
    }

    #[test]
    fn a_file_far_from_the_sheet_is_told_from_seven_kilometres_on() {
        let sheet = SheetDraft { landmarks: marks(&[(46.0, 13.0), (46.1, 13.2)]).landmarks, ..SheetDraft::default() };
        let off_m = |at: Pos| marks(&[(80.0, 13.0), at]).far_off(&sheet).map(|far| far.distance_m);
        assert_eq!([off_m((46.05, 13.1)), off_m((46.16, 13.2))], [None, None]);
        assert!(off_m((47.1, 13.2)).is_some_and(|metres| (metres - 111.1e3).abs() < 200.0), "{:?}", off_m((47.1, 13.2)));
        assert_eq!(marks(&[(46.0, 13.0)]).far_off(&SheetDraft::default()), None);
    }
}
