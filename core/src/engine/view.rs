//! The snapshot: everything a shell shows, as plain immutable records.
//!
//! Units live in the names: `_m` metres, `_deg_mag`, `_deg_grid`, `_deg_true` bearings by their north,
//! `_95_m` half-widths at 95 %, `_spread_` one sigma, `share` 0 to 1, `_unix_ms` milliseconds since 1970 UTC.

use serde::Serialize;

use super::view_fix::{FixView, OpenFixView, OpenPlaceView, PlaceView};

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
    /// What the trip comes to, once it is closed and holds a leg.
    pub after: Option<AfterView>,
    /// What can be sighted, nearest to the likeliest place first; in the sheet's order before a fix. Beside those that were read 24 at the
    /// most; the others answer to [`Record::Sights`].
    pub sights: Vec<SightView>,
    /// How many landmarks of the sheet are not among them.
    pub sights_left: u32,
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
    /// Its heights and what its paper says, in sentences.
    pub ground: Vec<String>,
    /// Its lines; of more than 24 those of the fix and the nearest to the likeliest place, the others answer to `lines`.
    pub lines: Vec<LineView>,
    /// How many of its lines are not among them.
    pub lines_left: u32,
}

/// A place on a line that can be named where one stands or counts from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KnownPointView {
    /// Its name; a junction that the sheet does not name has those of its lines ("Velm Road x Mill track").
    pub name: String,
    /// What it is: `named` where no lines meet, else `junction`, `crossroads`, `bridge`, `ford`, `stream`, `confluence`, `fence-corner`,
    /// `fence`, `ridge` or `wire` (a fence, a ridge or a wire overhead meets another line), or `levels` (ways cross on two levels, and nobody
    /// says by what).
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
    /// The leg as a sentence, as it was logged, with the way round, what was met and the spread of its end.
    pub told: String,
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
    /// exchanged, misread, swapped, datum, corner, stale, fix-wrong, slip-of-fix, off-line or other-line.
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
    /// Metres of the lines that would then hold 95 %, or in the open the width of a circle of that area: the mean over all that may be
    /// read.
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
    /// What the first cell tells: "Sure, 95 %" over a half-width that holds so much, else "Sure".
    pub sure_label: String,
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
    /// "dark 19:22", "light 05:41" in the configured time zone; with heights "sun to 14:32, again 15:44, dark 19:22".
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
    /// Whether that is the latest: the heights end nearer than ground that could hide the sun.
    pub behind_ground_is_latest: Option<bool>,
    /// When it comes out again before it sets; none where it does not, or is not hidden before.
    pub comes_again_unix_ms: Option<i64>,
    /// In words: "the sun goes behind the ground 14:32 and comes out again 15:44" (or "by 14:32"), or that it is behind already; none
    /// without heights or a sun.
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
    /// Half-width of the 95 % limits of that distance; at the car the greater half-axis of the walk's own 95 % ellipse.
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
    /// How many legs, and how far, in a sentence.
    pub head_told: String,
    /// How far it may miss at its end, in a sentence.
    pub miss_told: String,
    /// What to do at its end, and how far to look, in a sentence.
    pub end_told: String,
    /// What to mind on it, in a sentence.
    pub caution_told: String,
}

/// What a closed trip comes to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AfterView {
    /// How the legs close on the car; none when the log was followed back.
    pub closing: Option<ClosingView>,
    /// What was logged, and how it closed or how far it was followed back: a sentence each.
    pub told: Vec<String>,
}

/// The closing error of a log: it is one if the walker is back at the car.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClosingView {
    /// From where the legs lead to the car.
    pub off_m: f64,
    /// The length of the legs divided by that: one in so many; none where nothing is left over.
    pub one_in: Option<f64>,
    /// Greater half-axis of the 95 % ellipse of what the legs' spreads leave.
    pub expected_95_m: f64,
    /// fits, doubtful or misfit, by the chance that the spreads leave so much.
    pub verdict: String,
    /// The closing error as text: "48 m".
    pub off_told: String,
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
    /// The leg in a sentence: its number, bearing, paces, the way round, and what ends it.
    pub told: String,
    /// What it leads to, beside the bearing and the paces that stand on their own: "To old fence: 156 m on 172.5° grid."
    pub goal_told: String,
}
