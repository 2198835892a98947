//! A fix in the open told in the sheet's own terms.

use super::region::Region;
use super::seen::{Measured, OpenSeen};
use super::take::{OpenFix, OpenShape};
use crate::earth::{Compass, DeclinationBy, LatLon, Norths, digits_for_spread};
use crate::fix::{SlipPlace, Slips};
use crate::measure::{Ellipse, GridBearing, NamedBearing, NorthDiagram, Point};
use crate::sheet::Sheet;

/// A fix in the open in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenReport {
    /// The place, where one place is told; else the likeliest place of each region, likeliest first. Never empty.
    pub places: Vec<OpenPlace>,
    /// The norths at the first of them.
    pub diagram: NorthDiagram,
    /// What tells the declination.
    pub by: DeclinationBy,
    /// Each measurement.
    pub seen: Vec<OpenSeenReport>,
    /// Where one would stand with each of the slips that were found; nothing where that was not reckoned.
    pub slip_places: Vec<Option<SlipPlace>>,
}

/// A place in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenPlace {
    /// The probability of its ellipse or region.
    pub share: f64,
    /// On the earth.
    pub at: LatLon,
    /// The sheet's grid reference with the digits that the spread deserves.
    pub reference: String,
    /// The 95 % ellipse; nothing for a region, which need not look like one.
    pub ellipse_95: Option<Ellipse>,
    /// Direction of its longer axis on the sheet; 0 to 180.
    pub along_grid: GridBearing,
    /// The greatest distance from the place to another of the 95 %, metres.
    pub reach_m: f64,
    /// Area of the 95 %, square metres.
    pub area_95_m2: f64,
}

/// A measurement in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenSeenReport {
    /// What the fix saw in it.
    pub seen: OpenSeen,
    /// A bearing from the sheet's north; nothing for angles and distances.
    pub grid: Option<NamedBearing>,
}

impl OpenFix {
    /// The fix, and what would follow from each slip, in the terms of the sheet it was taken on.
    #[must_use]
    pub fn report(&self, slips: &Slips, sheet: &Sheet, norths: &Norths) -> OpenReport {
        let places = match self.shape {
            OpenShape::Ellipse => vec![self.one_place(sheet, norths)],
            OpenShape::Regions => self.regions.iter().map(|region| of_region(sheet, norths, region)).collect(),
        };
        let grid = |seen: &OpenSeen| (seen.measured == Measured::Bearing).then(|| NamedBearing::Grid(norths.to_grid(seen.read, self.at)));
        OpenReport {
            places,
            slip_places: slips.found.iter().map(|slip| SlipPlace::of(slip, sheet)).collect(),
            diagram: norths.diagram(self.at),
            by: norths.by(),
            seen: self.seen.iter().map(|seen| OpenSeenReport { grid: grid(seen), seen: seen.clone() }).collect(),
        }
    }

    fn one_place(&self, sheet: &Sheet, norths: &Norths) -> OpenPlace {
        let ellipse = self.ellipse_95();
        OpenPlace {
            share: self.holds,
            ellipse_95: Some(ellipse),
            area_95_m2: std::f64::consts::PI * ellipse.major_m * ellipse.minor_m,
            ..place(sheet, norths, self.at, ellipse.major_bearing_deg, ellipse.major_m)
        }
    }
}

fn of_region(sheet: &Sheet, norths: &Norths, region: &Region) -> OpenPlace {
    let along_deg = region.covariance.ellipse().major_bearing_deg;
    OpenPlace { share: region.share, area_95_m2: region.area_95_m2, ..place(sheet, norths, region.best, along_deg, region.reach_m) }
}

fn place(sheet: &Sheet, norths: &Norths, at: Point, along_deg: f64, reach_m: f64) -> OpenPlace {
    let on_earth = sheet.to_earth(at);
    let along = norths.to_grid(along_deg, at);
    OpenPlace {
        share: 0.0,
        at: on_earth,
        reference: sheet.reference(on_earth, digits_for_spread(reach_m)),
        ellipse_95: None,
        along_grid: GridBearing::new(along.degrees().rem_euclid(180.0)),
        reach_m,
        area_95_m2: 0.0,
    }
}
