//! The part of the snapshot that tells a fix; units as in [`super::view`].

use serde::Serialize;

/// A fix on a line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FixView {
    /// When it was taken.
    pub at_unix_ms: i64,
    /// The line.
    pub line: String,
    /// The fix in sentences for the field: where (of several places how many), what fits, and what next before the car's place is kept.
    pub field: Vec<String>,
    /// Of these sentences the one that tells where.
    pub where_told: String,
    /// Of these sentences the one that tells what does not fit; none where nothing is off.
    pub misfit_told: Option<String>,
    /// What is to be minded before all else: what does not fit and what to read again, or what may have been misread beside the other
    /// cautions; all of `cautions` where no slip is told.
    pub minded_first: Vec<String>,
    /// Where one may stand, likeliest first.
    pub places: Vec<PlaceView>,
    /// Share of the probability in none of the places.
    pub elsewhere_share: f64,
    /// The bearings that were read.
    pub sightings: Vec<SightingView>,
    /// What each sighting of any kind gave to the fix, in the order in which they were told.
    pub accounts: Vec<AccountView>,
    /// The lines that it could have been, with their odds.
    pub lines: Vec<LineShareView>,
    /// Probability that no known slip explains the readings better than chance.
    pub no_slip_share: f64,
    /// Known slips that may explain them, likeliest first.
    pub slips: Vec<SlipView>,
    /// What must be told with it, one sentence each; first the slip that may explain a misfit, and where one would then stand.
    pub cautions: Vec<String>,
    /// What else is told of it: how far along the line each place is, the norths, each bearing, how far a fix is to be trusted.
    pub rest_told: Vec<String>,
    /// Declination at the likeliest place, east positive.
    pub declination_deg: f64,
    /// One sigma of it.
    pub declination_spread_deg: f64,
    /// Grid convergence there, east positive.
    pub convergence_deg: f64,
    /// Grid-magnetic angle there, east positive.
    pub grid_magnetic_deg: f64,
}

/// What one sighting gave to a fix.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AccountView {
    /// bearing, running, line-run, angle, side, seen, here, measured, distance, slope, landform, aspect, height or here-kind.
    pub what: String,
    /// What was observed minus what the sheet gives at the likeliest place: degrees for bearings and angles, metres for distances,
    /// heights and places; none for what has no measure.
    pub residual: Option<f64>,
    /// fits, doubtful or misfit at the likeliest place; none for what says nothing there.
    pub verdict: Option<String>,
    /// By how many metres the likeliest place would move without it; none when it is the only one.
    pub moves_m: Option<f64>,
    /// What was seen, with the odds of each, when it may be one of several; likeliest first.
    pub identity: Vec<IdentityView>,
    /// The same as a sentence.
    pub told: String,
}

/// What a bearing may have been read to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct IdentityView {
    /// The landmark.
    pub landmark: String,
    /// Its probability.
    pub share: f64,
    /// The same as text: "62 %".
    pub told: String,
}

/// A line that may be stood on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LineShareView {
    /// Its name.
    pub name: String,
    /// Its probability.
    pub share: f64,
    /// The same as text: "62 %".
    pub told: String,
}

/// A slip that may explain a misfit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SlipView {
    /// Which one: reversed, tens, hundreds, exchanged, dial-reversed, quadrant, gradians, mils, other-landmark, other-north, wrong-way, twice, point,
    /// deflected, pace-kind, lost-hundred, miles-kilometres, feet, other-side, other-point, other-way, marks-exchanged,
    /// bearings-exchanged, all-reversed, faced-other-way, landmarks-exchanged, other-line or misplaced (an independent place that was weighed in).
    pub kind: String,
    /// In which of the fix's sightings, from 1; none when all readings share it.
    pub sighting: Option<u32>,
    /// The other slips, by the same words, with which that sighting would say the same to within what it is worth: only reading again tells
    /// which it was. Commonest first.
    pub also: Vec<String>,
    /// The probability of all of them together.
    pub chance: f64,
    /// Whether the other sightings show it; else it is a caution, no finding.
    pub exposed: bool,
    /// What a tutor would say, and what to read again.
    pub told: String,
}

/// A stretch of the line where one may stand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlaceView {
    /// The line.
    pub line: String,
    /// Share of the probability.
    pub share: f64,
    /// Grid reference with the digits that the spread deserves, spaced.
    pub reference: String,
    /// Grid reference to the metre, without spaces.
    pub mgrs: String,
    /// Degrees north, WGS 84.
    pub lat_deg: f64,
    /// Degrees east, WGS 84.
    pub lon_deg: f64,
    /// Along the line from its first point.
    pub along_m: f64,
    /// Named point from which the next distance counts; empty for the line's first point.
    pub from: String,
    /// Along the line from that point.
    pub from_m: f64,
    /// Bearing on the sheet from that point to here.
    pub from_bearing_deg_grid: f64,
    /// Next named point in that direction.
    pub towards: Option<String>,
    /// One sigma along the line.
    pub spread_along_m: f64,
    /// Half-width at 95 % along the line: to the farther of the two limits.
    pub along_95_m: f64,
    /// Half-width of the 95 % limits across the line.
    pub across_95_m: f64,
    /// Where the 50 % limits begin along the line.
    pub low_50_m: f64,
    /// Where they end.
    pub high_50_m: f64,
    /// Where the 95 % limits begin along the line.
    pub low_95_m: f64,
    /// Where they end.
    pub high_95_m: f64,
    /// The place with its share and spread as a sentence.
    pub told: String,
}

/// A sighting as the fix sees it at the likeliest place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SightingView {
    /// The landmark.
    pub landmark: String,
    /// The bearing to it by the compass.
    pub bearing_deg_mag: f64,
    /// On the sheet.
    pub bearing_deg_grid: f64,
    /// From true north.
    pub bearing_deg_true: f64,
    /// The back bearing by the compass.
    pub back_bearing_deg_mag: f64,
    /// The back bearing on the sheet.
    pub back_bearing_deg_grid: f64,
    /// The bearing by the compass as text: "016° mag".
    pub bearing_told: String,
    /// One sigma of the bearing, everything included.
    pub spread_deg: f64,
    /// Reading minus the sheet's bearing at the likeliest place.
    pub residual_deg: f64,
    /// fits, doubtful or misfit, by the residual and its spread.
    pub verdict: String,
    /// To the landmark from the likeliest place.
    pub distance_m: f64,
    /// Angle between bearing and line at the likeliest place, 0 to 90.
    pub cut_deg: f64,
    /// Every crossing of the back bearing with the line.
    pub crossings: Vec<CrossingView>,
}

/// A crossing of a back bearing with the line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CrossingView {
    /// Grid reference to the metre, without spaces.
    pub mgrs: String,
    /// Degrees north, WGS 84.
    pub lat_deg: f64,
    /// Degrees east, WGS 84.
    pub lon_deg: f64,
    /// Along the line from its first point.
    pub along_m: f64,
    /// Named point from which the next distance counts; empty for the line's first point.
    pub from: String,
    /// Along the line from that point.
    pub from_m: f64,
    /// To the landmark.
    pub distance_m: f64,
    /// Angle between bearing and line, 0 to 90.
    pub cut_deg: f64,
    /// One sigma along the line by this bearing alone.
    pub spread_along_m: f64,
}

/// A fix in the open.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpenFixView {
    /// When it was taken.
    pub at_unix_ms: i64,
    /// The fix in sentences for the field: where (of several places how many), what fits, and what next before the car's place is kept.
    pub field: Vec<String>,
    /// Of these sentences the one that tells where.
    pub where_told: String,
    /// Of these sentences the one that tells what does not fit; none where nothing is off.
    pub misfit_told: Option<String>,
    /// What is to be minded before all else: what does not fit and what to read again, or what may have been misread beside the other
    /// cautions; all of `cautions` where no slip is told.
    pub minded_first: Vec<String>,
    /// ellipse: one place with its ellipse; or regions: the sightings leave an area of another shape, or several.
    pub shape: String,
    /// The one place, or the likeliest place of each region, likeliest first.
    pub places: Vec<OpenPlaceView>,
    /// Share of the probability left for standing far from all of it: a reading is plainly wrong.
    pub elsewhere_share: f64,
    /// What was observed, in the order in which it was told.
    pub sightings: Vec<OpenSightingView>,
    /// Chance that independent errors miss each other as much or more, by least squares; 1 where nothing is left over.
    pub chance: f64,
    /// One turn of all bearings that explains why they do not meet, when it is more than chance.
    pub shared_turn: Option<SharedTurnView>,
    /// Probability that no known slip explains the readings better than chance.
    pub no_slip_share: f64,
    /// Known slips that may explain them, likeliest first.
    pub slips: Vec<SlipView>,
    /// What must be told with it, one sentence each; first the slip that may explain a misfit, and where one would then stand.
    pub cautions: Vec<String>,
    /// What else is told of it: the norths, how far a fix is to be trusted.
    pub rest_told: Vec<String>,
    /// Declination at the likeliest place, east positive.
    pub declination_deg: f64,
    /// One sigma of it.
    pub declination_spread_deg: f64,
    /// Grid convergence there, east positive.
    pub convergence_deg: f64,
    /// Grid-magnetic angle there, east positive.
    pub grid_magnetic_deg: f64,
}

/// A place in the open with the area around it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpenPlaceView {
    /// The probability of its ellipse or region.
    pub share: f64,
    /// Grid reference with the digits that the spread deserves, spaced.
    pub reference: String,
    /// Grid reference to the metre, without spaces.
    pub mgrs: String,
    /// Degrees north, WGS 84.
    pub lat_deg: f64,
    /// Degrees east, WGS 84.
    pub lon_deg: f64,
    /// Greater half-axis of the 95 % ellipse; none for a region.
    pub major_95_m: Option<f64>,
    /// Smaller half-axis of it.
    pub minor_95_m: Option<f64>,
    /// Direction of the longer axis on the sheet, 0 to 180.
    pub along_deg_grid: f64,
    /// The greatest distance from the place to another of the 95 %.
    pub reach_95_m: f64,
    /// Area of the 95 %, square metres.
    pub area_95_m2: f64,
    /// The place with its share and spread as a sentence.
    pub told: String,
}

/// A sighting as a fix in the open sees it at the likeliest place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpenSightingView {
    /// bearing, angle, distance, seen, not-seen, slope, landform, aspect or height.
    pub what: String,
    /// What it is of, as the walker named it.
    pub of: String,
    /// What was read: degrees on the sheet for a bearing, degrees for an angle, metres for a distance; none for the rest.
    pub read: Option<f64>,
    /// What was read minus what the sheet gives there, in the same unit.
    pub residual: Option<f64>,
    /// One sigma of that, everything included, in the same unit.
    pub spread: Option<f64>,
    /// How well the ground there fits, 0 to 1 of where it fits best; none for what is measured.
    pub fits: Option<f64>,
    /// fits, doubtful or misfit, by the residual and its spread, or by how well it fits; none where that is not known.
    pub verdict: Option<String>,
    /// To the landmark, of an angle to the nearer one.
    pub distance_m: Option<f64>,
    /// The same as a sentence.
    pub told: String,
}

/// One turn common to all bearings of a fix in the open.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SharedTurnView {
    /// All bearings were read too much by this; negative for too little.
    pub turn_deg: f64,
    /// One sigma of it.
    pub spread_deg: f64,
    /// Sightings, from 1, each of which would explain it as well if it alone were read wrongly.
    pub rivals: Vec<u32>,
}
