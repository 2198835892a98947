//! A fix told in the sheet's own terms: references, distances along the line, bearings by all norths.

use super::{Crossing, Fix, Sighted, Slip, Slips, Stretch, ThenPlace};
use crate::earth::{Compass, DeclinationBy, LatLon, Norths, digits_for_spread};
use crate::measure::{GridBearing, LINE_95, MagneticBearing, NorthDiagram, Point, TrueBearing};
use crate::sheet::{Along, Line, Sheet};

/// Digits of the references of crossings and limits: squares of 10 m.
const DIGITS: u8 = 8;

/// A fix in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct FixReport {
    /// One for each stretch, likeliest first; never empty.
    pub places: Vec<PlaceReport>,
    /// The norths at the likeliest place.
    pub diagram: NorthDiagram,
    /// What tells the declination.
    pub by: DeclinationBy,
    /// One for each sighting.
    pub sighted: Vec<SightedReport>,
    /// Where one would stand with each of the slips that were found; nothing where that was not reckoned.
    pub slip_places: Vec<Option<SlipPlace>>,
}

/// Where one would stand if a slip was made, in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct SlipPlace {
    /// The sheet's grid reference.
    pub reference: String,
    /// The name of the line; empty in the open.
    pub line: String,
    /// How far from there the 95 % limits reach, metres.
    pub reach_95_m: f64,
}

impl SlipPlace {
    /// The place that follows from a slip, where that was reckoned.
    #[must_use]
    pub fn of(slip: &Slip, sheet: &Sheet) -> Option<Self> {
        let (at, line, reach_95_m) = match &slip.then.as_ref()?.place {
            ThenPlace::OnLine { line, stretch } => (stretch.best.at, line.clone(), stretch.half_width_95_m()),
            ThenPlace::InTheOpen(region) => (region.best, String::new(), region.reach_m),
        };
        Some(Self { reference: sheet.reference(sheet.to_earth(at), digits_for_spread(reach_95_m)), line, reach_95_m })
    }
}

/// A place on a line in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceReport {
    /// The stretch it is the likeliest place of.
    pub stretch: Stretch,
    /// The name of the line.
    pub line: String,
    /// On the earth.
    pub at: LatLon,
    /// The sheet's grid reference with the digits that the spread deserves.
    pub reference: String,
    /// Distance along the line from the nearest named point.
    pub along: Along,
    /// Bearing on the sheet from that named point.
    pub along_grid: GridBearing,
    /// Half-width of the 95 % limits across the line, metres.
    pub across_95_m: f64,
    /// The two ends of the 95 % limits along the line, on the earth.
    pub ends_95: (LatLon, LatLon),
    /// The same as the sheet's grid references.
    pub ends_95_references: (String, String),
}

/// A sighting in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct SightedReport {
    /// What the fix saw in it.
    pub sighted: Sighted,
    /// The reading from the compass's north, at the likeliest place.
    pub magnetic: MagneticBearing,
    /// From the sheet's north.
    pub grid: GridBearing,
    /// From true north.
    pub r#true: TrueBearing,
    /// Every crossing: on the earth, along the line.
    pub crossings: Vec<CrossingReport>,
}

/// A crossing in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct CrossingReport {
    /// The crossing.
    pub crossing: Crossing,
    /// On the earth.
    pub at: LatLon,
    /// The sheet's grid reference.
    pub reference: String,
    /// Along the line from the nearest named point.
    pub along: Along,
}

impl Fix {
    /// The fix, and what would follow from each slip, in the terms of the sheet it was taken on.
    #[must_use]
    pub fn report(&self, slips: &Slips, sheet: &Sheet, lines: &[&Line], norths: &Norths) -> FixReport {
        let line_of = |stretch: &Stretch| lines.get(stretch.line).copied();
        let best_line = self.best().and_then(line_of);
        let place = |stretch: &Stretch| line_of(stretch).map(|line| PlaceReport::new(sheet, line, norths, stretch));
        let best = self.stretches.first().map_or(Point::default(), |stretch| stretch.best.at);
        FixReport {
            places: self.stretches.iter().filter_map(place).collect(),
            slip_places: slips.found.iter().map(|slip| SlipPlace::of(slip, sheet)).collect(),
            diagram: norths.diagram(best),
            by: norths.by(),
            sighted: self
                .sighted
                .iter()
                .filter_map(|sighted| best_line.map(|line| sighted_report(sheet, line, norths, sighted, best)))
                .collect(),
        }
    }
}

impl PlaceReport {
    fn new(sheet: &Sheet, line: &Line, norths: &Norths, stretch: &Stretch) -> Self {
        let along = line.along_from_known(stretch.best.along_m);
        let at = sheet.to_earth(stretch.best.at);
        let (low_m, high_m) = stretch.limits_95_m;
        let ends_95 = (sheet.to_earth(line.at(low_m).at), sheet.to_earth(line.at(high_m).at));
        Self {
            stretch: *stretch,
            at,
            reference: sheet.reference(at, digits_for_spread(stretch.half_width_95_m())),
            along_grid: norths.to_grid(along.plane_deg, stretch.best.at),
            along,
            across_95_m: LINE_95 * line.spread_m,
            line: line.name.clone(),
            ends_95_references: (sheet.reference(ends_95.0, DIGITS), sheet.reference(ends_95.1, DIGITS)),
            ends_95,
        }
    }
}

fn sighted_report(sheet: &Sheet, line: &Line, norths: &Norths, sighted: &Sighted, best: Point) -> SightedReport {
    let magnetic = norths.to_magnetic(sighted.plane_deg, best);
    let diagram = norths.diagram(best);
    let r#true = norths.to_true(sighted.plane_deg, best);
    let crossings = sighted.crossings.iter().map(|crossing| {
        let at = sheet.to_earth(crossing.place.at);
        let along = line.along_from_known(crossing.place.along_m);
        CrossingReport { crossing: *crossing, at, reference: sheet.reference(at, DIGITS), along }
    });
    SightedReport { sighted: sighted.clone(), magnetic, grid: diagram.true_to_grid(r#true), r#true, crossings: crossings.collect() }
}
