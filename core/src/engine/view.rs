//! The snapshot: everything a shell shows, as plain immutable records.
//!
//! Units live in the names: `_m` metres, `_deg_mag`, `_deg_grid`, `_deg_true` bearings by their north,
//! `_95_m` half-widths at 95 %, `_spread_` one sigma, `share` 0 to 1, `_unix_ms` milliseconds since 1970 UTC.

use serde::Serialize;

/// Where in the job the trip is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// No sheet, or nothing done yet.
    Before,
    /// A sheet is carried; a fix may have been taken.
    BesideTheLine,
    /// The car's place is kept; legs are logged.
    OnFoot,
    /// The way back is begun.
    WayBack,
    /// The trip is closed.
    Afterwards,
}

/// Everything a shell shows, after one record.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Snapshot {
    /// Counts every change of the state since the engine was opened.
    pub revision: u64,
    /// Where in the job the trip is.
    pub stage: Stage,
    /// The sheet that is carried.
    pub sheet: Option<SheetView>,
    /// The walker's pace.
    pub pace: PaceView,
    /// What was found when the compass was checked, as a sentence.
    pub compass: Option<String>,
    /// The last fix, when it was taken on a line.
    pub fix: Option<FixView>,
    /// The last fix, when it was taken in the open.
    pub open_fix: Option<OpenFixView>,
    /// The kept place.
    pub car: Option<CarView>,
    /// The legs of the log.
    pub legs: Vec<LegView>,
    /// The reckoned place.
    pub here: Option<HereView>,
    /// The independent place held against the fix.
    pub check: Option<CheckView>,
    /// The reversed log; in the answer to `back`, and always once the way back is begun.
    pub way_back: Option<WayBackView>,
    /// What can be sighted, nearest to the likeliest place first; in the sheet's order before a fix.
    pub sights: Vec<SightView>,
    /// What to sight next, the best three at the most, the best first; empty when nothing would help much.
    pub next_sights: Vec<NextSightView>,
    /// How sure, how far home, how much light: three cells of ready texts.
    pub strip: StripView,
    /// What to mind in this place, one short sentence.
    pub caution: Option<String>,
    /// The light that is left, from the time of the last record on.
    pub light: Option<LightView>,
    /// What the next undo would strike, in words.
    pub undo: Option<String>,
    /// What is half typed; empty when nothing is.
    pub draft: String,
}

/// The sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetView {
    /// Its name.
    pub name: String,
    /// The grid printed on it.
    pub grid: String,
    /// Declination, convergence and what its printed diagram is worth, in sentences; empty while no time is known.
    pub norths: Vec<String>,
    /// Its heights and junctions, in sentences.
    pub ground: Vec<String>,
    /// Its lines.
    pub lines: Vec<LineView>,
    /// Names of its landmarks.
    pub landmarks: Vec<String>,
    /// What can be named on its lines: named points and junctions, in the order of the lines and along them.
    pub known_points: Vec<KnownPointView>,
}

/// A place on a line that can be named where one stands or counts from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KnownPointView {
    /// Its name; a junction that the sheet does not name has those of its lines ("Velm Road x Mill track").
    pub name: String,
    /// What it is: `named` where no lines meet, else `junction`, `crossroads`, `bridge`, `ford` or `stream`.
    pub kind: String,
    /// The line.
    pub line: String,
    /// Metres along the line from its first point.
    pub along_m: f64,
}

/// A line of the sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LineView {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: String,
    /// Its length.
    pub length_m: f64,
}

/// The pace.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PaceView {
    /// Double paces to 100 m.
    pub double_paces_per_100_m: f64,
    /// One sigma in per cent.
    pub spread_percent: f64,
    /// The pace with its spread as text: "62.5 double paces to 100 m, ± 3.7 (95 %)".
    pub told: String,
}

/// A fix on a line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FixView {
    /// When it was taken.
    pub at_unix_ms: i64,
    /// The line.
    pub line: String,
    /// The fix in three sentences for the field: where, what fits, what next.
    pub field: Vec<String>,
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
    /// Which one: reversed, tens, hundreds, exchanged, dial-reversed, quadrant, gradians, other-landmark, other-north, wrong-way,
    /// deflected, pace-kind, lost-hundred, miles-kilometres or other-side.
    pub kind: String,
    /// In which of the fix's sightings, from 1; none when all readings share it.
    pub sighting: Option<u32>,
    /// Its probability.
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
    /// What must be told with it, one sentence each.
    pub cautions: Vec<String>,
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
    /// fits, doubtful or misfit, by the residual and its spread; none for the ground.
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

/// The kept place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CarView {
    /// The walker's word for it.
    pub name: String,
    /// Where it is on a line; none when its fix was taken in the open.
    pub place: Option<PlaceView>,
    /// Where it is when its fix was taken in the open.
    pub open_place: Option<OpenPlaceView>,
    /// The line it stands on; none in the open.
    pub line: Option<String>,
    /// When the fix was taken.
    pub at_unix_ms: i64,
}

/// A leg of the log.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LegView {
    /// Its number, from 1.
    pub number: u32,
    /// When it was closed.
    pub at_unix_ms: i64,
    /// The bearing by the compass.
    pub bearing_deg_mag: f64,
    /// The bearing on the sheet.
    pub bearing_deg_grid: f64,
    /// Distance gained.
    pub distance_m: f64,
    /// The same in double paces.
    pub double_paces: f64,
    /// left or right, when a box was walked.
    pub detour_side: Option<String>,
    /// How far out.
    pub detour_m: f64,
    /// What was met at the end.
    pub met: Option<String>,
    /// The bearing by the compass as text: "052° mag".
    pub bearing_told: String,
    /// The double paces as text: "90 double paces".
    pub paces_told: String,
    /// Where it ends: grid reference to the metre, without spaces.
    pub end_mgrs: String,
    /// Degrees north, WGS 84.
    pub end_lat_deg: f64,
    /// Degrees east, WGS 84.
    pub end_lon_deg: f64,
    /// Greater half-axis of the 95 % ellipse of the end against the start.
    pub major_95_m: f64,
}

/// An independent place held against a fix.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CheckView {
    /// Which place of the fix it fits best, from 1.
    pub stretch: u32,
    /// From the fix to it.
    pub distance_m: f64,
    /// Bearing on the sheet from the fix to it.
    pub bearing_deg_grid: f64,
    /// Chi-square of two degrees of freedom.
    pub chi_square: f64,
    /// Chance of lying so far apart by the spreads alone.
    pub chance: f64,
    /// fits, doubtful or misfit.
    pub verdict: String,
    /// How it agrees with the fix, as a sentence.
    pub told: String,
    /// What would explain it where it does not fit well, likeliest first.
    pub slips: Vec<WitnessSlipView>,
}

/// A slip that would explain why a place does not fit the fix.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WitnessSlipView {
    /// exchanged, misread, swapped, datum, corner, stale or fix-wrong.
    pub kind: String,
    /// The reference as it would have been meant; empty when its figures are right.
    pub meant: String,
    /// Probability of it.
    pub chance: f64,
    /// The sentence to be read.
    pub told: String,
}

/// A landmark as one may sight it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SightView {
    /// Its name.
    pub landmark: String,
    /// What it is.
    pub kind: String,
    /// The bearing to it from the likeliest place by the compass; none before a fix.
    pub bearing_deg_mag: Option<f64>,
    /// How far it is from there.
    pub distance_m: Option<f64>,
    /// Whether the last fix holds a reading of it.
    pub sighted: bool,
    /// The chance that it is in sight from there by the heights of the sheet; none without heights, or where they cannot tell.
    pub in_sight: Option<f64>,
    /// The same as one line of text: "033° mag, 1.2 km, in sight", or its reading.
    pub told: String,
}

/// What to sight next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NextSightView {
    /// What to take: a `bearing` to the landmark, or the `line-run`.
    pub what: String,
    /// The landmark; empty for the run of the line.
    pub landmark: String,
    /// Metres of the lines that would then hold 95 %: the mean over all that may be read.
    pub leaves_m: f64,
    /// The same now.
    pub now_m: f64,
    /// The chance by the heights that the landmark is in sight.
    pub in_sight: Option<f64>,
    /// Whether it would tell the places of the fix apart.
    pub settles: bool,
    /// The gain in words: "leaves one place, 120 m of 480 m".
    pub told: String,
}

/// The strip that every place of a shell shows: three cells, each a value and a note. The light is told for the time asked, so
/// it is never out of date.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripView {
    /// "± 72 m", "2 places", "no fix".
    pub sure: String,
    /// Its age: "now", "4 min old".
    pub sure_note: String,
    /// Whether it is out of date: to be struck through.
    pub sure_is_old: bool,
    /// "782 m", "not set".
    pub home: String,
    /// "± 56 m", "mark the car".
    pub home_note: String,
    /// Whether the distance is out of date: to be struck through.
    pub home_is_old: bool,
    /// "4 h 15 min", "dark".
    pub light: String,
    /// "dark 19:22", "light 05:41" in the configured time zone; with heights "sun to 18:22, dark 19:22".
    pub light_note: String,
}

/// The light that is left.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LightView {
    /// The next sunset; none within a day where the sun does not set.
    pub sunset_unix_ms: Option<i64>,
    /// The next end of civil twilight; none within a day where it does not get dark.
    pub dark_unix_ms: Option<i64>,
    /// When the sun next goes behind the ground at the likeliest place, by the heights of the sheet; none without them, and
    /// where it is down or behind already.
    pub behind_ground_unix_ms: Option<i64>,
    /// In words: "the sun goes behind the ground 18:22", or that it is behind already; none without heights or a sun.
    pub behind_ground_told: Option<String>,
}

/// The reckoned place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HereView {
    /// Grid reference with the digits that the spread deserves, spaced.
    pub reference: String,
    /// Grid reference to the metre, without spaces.
    pub mgrs: String,
    /// Degrees north, WGS 84.
    pub lat_deg: f64,
    /// Degrees east, WGS 84.
    pub lon_deg: f64,
    /// Greater half-axis of the 95 % ellipse.
    pub major_95_m: f64,
    /// Smaller half-axis of the 95 % ellipse.
    pub minor_95_m: f64,
    /// Walked, detours included.
    pub walked_m: f64,
    /// To the car; 0 at the car.
    pub home_m: f64,
    /// Half-width of the 95 % limits of that distance.
    pub home_95_m: f64,
    /// The bearing home by the compass.
    pub home_bearing_deg_mag: Option<f64>,
    /// The bearing home on the sheet.
    pub home_bearing_deg_grid: Option<f64>,
    /// The bearing home by the compass as text: "232° mag".
    pub home_bearing_told: Option<String>,
    /// When the last leg was closed, out or back, or the fix taken.
    pub at_unix_ms: i64,
}

/// The way back by the reversed log.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WayBackView {
    /// How many of its legs are walked already.
    pub walked: u32,
    /// The legs in the order they are walked.
    pub legs: Vec<BackLegView>,
    /// To walk, detours included.
    pub walk_m: f64,
    /// How far the reversed bearings end from the start of the log: should be 0.
    pub closes_m: f64,
    /// Greater half-axis of the 95 % ellipse of the miss at the end.
    pub miss_major_95_m: f64,
    /// Smaller half-axis of it.
    pub miss_minor_95_m: f64,
    /// Half-width of the 95 % limits of the miss along the line on which the car stands; none when it stands on none.
    pub miss_along_95_m: Option<f64>,
}

/// One leg of the way back.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BackLegView {
    /// Number of the leg of the log that is walked back, from 1.
    pub of_leg: u32,
    /// The bearing to walk by the compass.
    pub bearing_deg_mag: f64,
    /// The same on the sheet.
    pub bearing_deg_grid: f64,
    /// Distance.
    pub metres: f64,
    /// The same in double paces.
    pub double_paces: f64,
    /// The bearing by the compass as text: "232° mag".
    pub bearing_told: String,
    /// The double paces as text: "90 double paces".
    pub paces_told: String,
    /// left or right as one faces now, when a box is to be walked.
    pub detour_side: Option<String>,
    /// How far out.
    pub detour_m: f64,
    /// What was met where this leg ends.
    pub meets: Option<String>,
    /// From the turning point to the end of this leg, detours left out.
    pub total_m: f64,
    /// The same in double paces.
    pub total_double_paces: f64,
    /// Where it ends: degrees north, WGS 84.
    pub end_lat_deg: f64,
    /// Degrees east, WGS 84.
    pub end_lon_deg: f64,
}
