//! The records of `gatepost_core::engine`, declared again for the boundary.
//!
//! The declarations are remote types: a field or variant that is added, renamed or retyped in the core
//! no longer builds here, so the mirror cannot drift.

use gatepost_core::engine::{
    AccountView, AfterView, Answer, AnswerBackLeg, AnswerCompassLine, AnswerCutOrFill, AnswerDead, AnswerGroundGap, AnswerPhotoMark,
    AnswerPhotoPlace, AnswerPrinted, AnswerRise, AnswerSamples, AnswerSeenLandform, AnswerSeenLandmarks, AnswerStation, BackLegView,
    CarView, CheckView, ClosingView, CompassPairRecord, CompassReadingRecord, CompassRecord, CrossingView, DetourRecord, FixView, HereView,
    IdentityView, KnownPointView, LegRecord, LegView, LightView, LineShareView, LineView, NextSightView, OpenFixView, OpenPlaceView,
    OpenSightingView, PaceView, PhotoKnownPointRecord, PhotoLandmarkRecord, PhotoLineRecord, PhotoMarkRecord, PhotoRecord, PlaceView,
    PointsRecord, PrintedRecord, Record, Reply, SharedTurnView, SheetRecord, SheetView, SightView, SightingRecord, SightingView, SlipView,
    Snapshot, Stage, StripView, TapRecord, TurnRecord, TypedKnownPoint, TypedLandmark, TypedLine, TypedSpot, WayBackView, WitnessSlipView,
};

/// Where in the job the trip is.
#[uniffi::remote(Enum)]
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
#[uniffi::remote(Record)]
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

/// A fix in the open.
#[uniffi::remote(Record)]
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

/// One turn common to all bearings of a fix in the open.
#[uniffi::remote(Record)]
pub struct SharedTurnView {
    /// All bearings were read too much by this; negative for too little.
    pub turn_deg: f64,
    /// One sigma of it.
    pub spread_deg: f64,
    /// Sightings, from 1, each of which would explain it as well if it alone were read wrongly.
    pub rivals: Vec<u32>,
}

/// A sighting as a fix in the open sees it at the likeliest place.
#[uniffi::remote(Record)]
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

/// A place in the open with the area around it.
#[uniffi::remote(Record)]
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

/// The sheet.
#[uniffi::remote(Record)]
pub struct SheetView {
    /// Its name.
    pub name: String,
    /// The grid printed on it.
    pub grid: String,
    /// Declination, convergence and what its printed diagram is worth, in sentences; empty while no time is known.
    pub norths: Vec<String>,
    /// Its heights and what its paper says, in sentences.
    pub ground: Vec<String>,
    /// Its lines; of more than 24 those of the fix and the nearest to the likeliest place, the others answer to [`Record::Lines`].
    pub lines: Vec<LineView>,
    /// How many of its lines are not among them.
    pub lines_left: u32,
}

/// A place on a line that can be named where one stands or counts from.
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
pub struct LineView {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: String,
    /// Its length.
    pub length_m: f64,
}

/// The pace.
#[uniffi::remote(Record)]
pub struct PaceView {
    /// Double paces to 100 m.
    pub double_paces_per_100_m: f64,
    /// One sigma in per cent.
    pub spread_percent: f64,
    /// The pace with its spread as text: "62.5 double paces to 100 m, ± 3.7 (95 %)".
    pub told: String,
}

/// A fix on a line.
#[uniffi::remote(Record)]
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

/// A slip that may explain a misfit.
#[uniffi::remote(Record)]
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

/// A line that may be stood on.
#[uniffi::remote(Record)]
pub struct LineShareView {
    /// Its name.
    pub name: String,
    /// Its probability.
    pub share: f64,
    /// The same as text: "62 %".
    pub told: String,
}

/// What one sighting gave to a fix.
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
pub struct IdentityView {
    /// The landmark.
    pub landmark: String,
    /// Its probability.
    pub share: f64,
    /// The same as text: "62 %".
    pub told: String,
}

/// A stretch of the line where one may stand.
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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

/// The kept place.
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
pub struct AfterView {
    /// How the legs close on the car; none when the log was followed back.
    pub closing: Option<ClosingView>,
    /// What was logged, and how it closed or how far it was followed back: a sentence each.
    pub told: Vec<String>,
}

/// The closing error of a log: it is one if the walker is back at the car.
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
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

/// A command as it comes in. `at` is RFC 3339 with its zone.
#[uniffi::remote(Enum)]
pub enum Record {
    /// Takes a sheet in and opens a trip on it.
    Carry {
        /// When.
        at: Option<String>,
        /// `geojson` or `toml`.
        format: String,
        /// The whole text of the file.
        text: String,
    },
    /// Brings a file in: lines and landmarks onto the sheet, or heights under it.
    Import {
        /// When.
        at: Option<String>,
        /// The file's name, without its folders; it tells the corner of a `.hgt` tile.
        name: String,
        /// What is in it, in base 64 (RFC 4648).
        base64: String,
        /// The grid of heights whose file does not say it; `EPSG:4326` for degrees.
        grid: Option<String>,
        /// South, west, north and east border of what is wanted, degrees; everything when absent, of heights what lies within
        /// 2 km of the sheet.
        area_deg: Option<Vec<f64>>,
        /// Kinds of lines and landmarks that are wanted; all when absent.
        kinds: Option<Vec<String>>,
        /// Where heights come from: srtm, aster, third-arc-second or laser; by the file when absent. It gives their spread.
        source: Option<String>,
        /// What covers the ground there: open or forest; open when absent.
        cover: Option<String>,
        /// Whom to name for the data; kept with the sheet.
        credit: Option<String>,
    },
    /// Makes a sheet by hand, or adds to the one that is open: what is read off the paper map, as little at a time as one likes.
    Sheet(SheetRecord),
    /// Lays a photo of the paper map over its grid by marked crossings; taps on it become places, or lines and landmarks of a sheet.
    Photo(PhotoRecord),
    /// Sets the walker's pace.
    Pace {
        /// When.
        at: Option<String>,
        /// Double paces to 100 m.
        double_paces_per_100_m: Option<f64>,
        /// Single paces to 100 m.
        single_paces_per_100_m: Option<f64>,
        /// One sigma of that figure in per cent.
        spread_percent: Option<f64>,
    },
    /// Checks a compass; keeps what it reads too much when that is asked.
    Compass(CompassRecord),
    /// Takes a fix on a line, on one of several, or in the open.
    Fix {
        /// When.
        at: Option<String>,
        /// Which line; needed when the sheet has several.
        line: Option<String>,
        /// Instead of `line`: all lines that it may be.
        lines: Option<Vec<String>>,
        /// The walker's own odds for each of `lines`, any positive numbers; by their length when absent.
        line_odds: Option<Vec<f64>>,
        /// Whether one stands on no line at all: the place is sought in the plane, and no line is named.
        open: Option<bool>,
        /// sighting, baseplate, quick or phone.
        instrument: Option<String>,
        /// What was observed.
        sightings: Vec<SightingRecord>,
    },
    /// Holds an independent place against the last fix: typed from the map, or told by a receiver.
    Check {
        /// When.
        at: Option<String>,
        /// The place.
        place: String,
        /// One sigma per axis, metres; that of the reference's square when absent.
        spread_m: Option<f64>,
    },
    /// Keeps a place of the last fix as the place of the car; the log begins.
    Keep {
        /// When.
        at: Option<String>,
        /// Which place of the fix, from 1.
        stretch: Option<u32>,
        /// The walker's word for what stands there.
        name: Option<String>,
    },
    /// Logs a leg.
    Leg(LegRecord),
    /// Asks where one is.
    Where {
        /// When.
        at: Option<String>,
    },
    /// Asks for landmarks by their names: those with these words in them, as they are listed to be sighted.
    Sights {
        /// A part of the name, small letters or large, with accents or without; all when empty.
        named: String,
    },
    /// Asks for lines by their names: those with these words in them, as they are listed to be stood on.
    Lines {
        /// A part of the name, small letters or large, with accents or without; all when empty.
        named: String,
    },
    /// Asks for known points of lines, named ones and where lines meet, as they are listed to be counted from.
    Points(PointsRecord),
    /// Asks for the way back.
    Back {
        /// When.
        at: Option<String>,
    },
    /// Begins the way back by the reversed log.
    TurnRound {
        /// When.
        at: Option<String>,
    },
    /// Tells that the end of the next leg of the way back is reached.
    Reached {
        /// When.
        at: Option<String>,
    },
    /// Keeps what is half typed, so that it is there again after a kill; an empty text forgets it.
    Draft {
        /// What is typed, in the shell's own form.
        text: String,
    },
    /// Strikes the last entry.
    Undo {
        /// When.
        at: Option<String>,
    },
    /// Closes the trip.
    Close {
        /// When.
        at: Option<String>,
    },
    /// Draws a chart of the fix, or of the walk with the way back.
    Chart {
        /// `fix` or `walk`.
        of: String,
        /// day, night or high.
        theme: Option<String>,
    },
    /// Asks whether metal or a current is near: a phone's magnetometer at rest, in its axes x right, y to the top edge, z out of the screen.
    Attraction {
        /// When.
        at: Option<String>,
        /// The place; the trip's likeliest when absent.
        place: Option<String>,
        /// The magnetic field, three parts, microtesla.
        field_ut: Vec<f64>,
        /// The direction away from the ground, three parts in any unit.
        up: Option<Vec<f64>>,
        /// The direction to the ground, instead of `up`.
        down: Option<Vec<f64>>,
    },
    /// Holds a receiver's place beside the fix; nothing is written.
    Witness {
        /// When it is asked.
        at: Option<String>,
        /// Degrees north, WGS 84.
        lat_deg: f64,
        /// Degrees east, WGS 84.
        lon_deg: f64,
        /// The receiver's own claim: a radius that holds 68 %, metres.
        accuracy_m: f64,
        /// When the receiver saw it.
        seen_at: String,
    },
    /// Asks what should be seen from a place, by the heights of the sheet.
    Seen {
        /// When; the date tells the declination.
        at: Option<String>,
        /// The place; the trip's likeliest when absent.
        place: Option<String>,
        /// Height of the eye above the ground, metres; 1.7 when absent.
        eye_m: Option<f64>,
        /// Landmarks farther than this are left out, metres; 10 km when absent.
        within_m: Option<f64>,
        /// The north from which bearings are told: mag, grid or true; the compass's when absent.
        to: Option<String>,
    },
    /// Asks for the heights along the way from one place to another.
    Profile {
        /// From.
        from: String,
        /// To.
        to: String,
        /// From height to height, metres; as far as from post to post when absent.
        step_m: Option<f64>,
        /// Height of an eye above the ground at `from`, metres: what it cannot see of the way is told too.
        eye_m: Option<f64>,
    },
    /// Asks how the ground lies at a place.
    Ground {
        /// When; needed where bearings are told from another north than the true one: the date tells the declination.
        at: Option<String>,
        /// The place; the trip's likeliest when absent.
        place: Option<String>,
        /// The north from which bearings are told: mag, grid or true; true when absent.
        to: Option<String>,
    },
    /// Asks for the contours of the sheet's heights.
    Contours {
        /// From contour to contour, metres; 10 when absent.
        interval_m: Option<f64>,
        /// The same in feet; 40 when absent on a sheet whose grid is in feet.
        interval_ft: Option<f64>,
        /// Whether they are drawn over the sheet as SVG too.
        svg: Option<bool>,
        /// day, night or high, for the drawing.
        theme: Option<String>,
    },
    /// Asks for the three norths at a place.
    Norths {
        /// The place.
        place: String,
        /// The date.
        date: String,
        /// Metres above the ellipsoid.
        height_m: Option<f64>,
        /// The grid; the UTM or UPS grid of the place when absent.
        grid: Option<String>,
        /// What the margin of a map prints, to be held against the model.
        printed: Option<PrintedRecord>,
    },
    /// Asks for the light that is left at a place from an instant on; over the heights of the sheet where they reach.
    Light {
        /// When.
        at: Option<String>,
        /// The place.
        place: String,
        /// Metres above the sea, for the sun's refraction.
        height_m: Option<f64>,
        /// Pressure of the air there, hectopascal; the standard atmosphere's when absent.
        pressure_hpa: Option<f64>,
        /// Its temperature, degrees Celsius; the standard atmosphere's when absent.
        temperature_c: Option<f64>,
    },
    /// Asks for the mean of several readings of one bearing.
    Mean {
        /// The readings, each with its north.
        bearings: Vec<String>,
    },
    /// Asks for a place in other terms. Here as in the questions for norths and ways the open sheet completes a short reference.
    Place {
        /// The place.
        place: String,
        /// Zone and square letters that complete a short reference.
        beginning: Option<String>,
        /// Digits of the grid reference: 2, 4, 6, 8 or 10.
        digits: Option<u8>,
        /// The grid; the UTM or UPS grid of the place when absent.
        grid: Option<String>,
    },
    /// Asks for distance and bearings from one place to another on the ellipsoid.
    Between {
        /// From.
        from: String,
        /// To.
        to: String,
        /// The grid; the UTM or UPS grid of the first place when absent.
        grid: Option<String>,
        /// The date of the magnetic bearing; none is told when absent.
        date: Option<String>,
    },
    /// Turns a bearing from one north to another.
    Turn(TurnRecord),
    /// Reckons legs in the plane of the grid, without a sheet.
    Reckon {
        /// The legs.
        legs: Vec<LegRecord>,
        /// Double paces to 100 m.
        double_paces_per_100_m: Option<f64>,
        /// Declination, degrees, east positive.
        declination_deg: f64,
        /// Grid convergence, degrees, east positive.
        convergence_deg: f64,
        /// Each leg's own bearing error, one sigma in degrees.
        leg_bearing_spread_deg: f64,
        /// Each leg's own distance error, one sigma in per cent.
        leg_distance_spread_percent: f64,
        /// The bearing error that all legs share, one sigma in degrees.
        shared_bearing_spread_deg: f64,
        /// The distance error that all legs share, one sigma in per cent.
        shared_distance_spread_percent: f64,
    },
}

/// A photo of a paper map in [`super::Record::Photo`]. Pixels count to the right and down from the upper left corner.
#[uniffi::remote(Record)]
pub struct PhotoRecord {
    /// When; needed when lines or landmarks are given.
    pub at: Option<String>,
    /// The name of a new sheet; the open one is added to when absent.
    pub name: Option<String>,
    /// Zone and square letters that complete short references.
    pub beginning: Option<String>,
    /// The grid printed on the map; that of the sheet that is added to, else the UTM or UPS grid of the first mark, when absent.
    pub grid: Option<String>,
    /// The number under the printed scale: 24000 for 1:24,000. It gives the map's own error.
    pub scale: Option<f64>,
    /// The year in which the map was made or last brought up to date.
    pub printed_year: Option<f64>,
    /// affine (a scan, or from square above) or projective (aslant); by the number of marks when absent.
    pub kind: Option<String>,
    /// One sigma of a mark along each axis, pixels; 3 when absent.
    pub mark_spread_px: Option<f64>,
    /// Grid crossings that were marked.
    pub marks: Vec<PhotoMarkRecord>,
    /// Lines, tapped point by point.
    pub lines: Vec<PhotoLineRecord>,
    /// Named points on lines.
    pub known_points: Vec<PhotoKnownPointRecord>,
    /// Landmarks.
    pub landmarks: Vec<PhotoLandmarkRecord>,
    /// Places that are only asked for.
    pub taps: Vec<TapRecord>,
}

/// A landmark on the photo.
#[uniffi::remote(Record)]
pub struct PhotoLandmarkRecord {
    /// Its name.
    pub name: String,
    /// What it is: summit, mast, church.
    pub kind: Option<String>,
    /// Where.
    pub tap: TapRecord,
    /// Height of its top above the ground, metres.
    pub height_m: Option<f64>,
}

/// A named point of a line on the photo.
#[uniffi::remote(Record)]
pub struct PhotoKnownPointRecord {
    /// Its name.
    pub name: String,
    /// The line it lies on.
    pub on: String,
    /// Where.
    pub tap: TapRecord,
}

/// A line on the photo.
#[uniffi::remote(Record)]
pub struct PhotoLineRecord {
    /// Its name.
    pub name: String,
    /// road, track, path, creek, ridge or fence; a track when absent.
    pub kind: Option<String>,
    /// Its points, in the line's direction.
    pub taps: Vec<TapRecord>,
}

/// A spot of the photo.
#[uniffi::remote(Record)]
pub struct TapRecord {
    /// Pixels from the left edge.
    pub x_px: f64,
    /// Pixels from the upper edge.
    pub y_px: f64,
}

/// A marked grid crossing.
#[uniffi::remote(Record)]
pub struct PhotoMarkRecord {
    /// Pixels from the left edge.
    pub x_px: f64,
    /// Pixels from the upper edge.
    pub y_px: f64,
    /// Its grid reference: the square whose south-western corner it is, or coordinates.
    pub crossing: String,
}

/// A sheet by hand in [`super::Record::Sheet`].
#[uniffi::remote(Record)]
pub struct SheetRecord {
    /// When.
    pub at: Option<String>,
    /// The name of a new sheet; the open one is added to when absent.
    pub name: Option<String>,
    /// Zone and square letters that complete short references; those near the sheet when absent.
    pub beginning: Option<String>,
    /// The grid printed on the map; the UTM or UPS grid of the place when absent.
    pub grid: Option<String>,
    /// The number under the printed scale: 24000 for 1:24,000. It gives the map's own error.
    pub scale: Option<f64>,
    /// The year in which the map was made or last brought up to date.
    pub printed_year: Option<f64>,
    /// One sigma per axis of anything drawn on the map, metres; by its scale when absent.
    pub position_spread_m: Option<f64>,
    /// The north diagram in the margin.
    pub norths: Option<PrintedRecord>,
    /// Lines.
    pub lines: Vec<TypedLine>,
    /// Named points on lines.
    pub known_points: Vec<TypedKnownPoint>,
    /// Landmarks.
    pub landmarks: Vec<TypedLandmark>,
    /// Spot heights; they tell how far the heights of the sheet may be trusted.
    pub spots: Vec<TypedSpot>,
    /// Names of lines, known points and landmarks that were typed wrongly and are taken off first.
    pub strike: Vec<String>,
}

/// A spot height; it tells how far the heights of the sheet may be trusted.
#[uniffi::remote(Record)]
pub struct TypedSpot {
    /// Its grid reference, or the name of a landmark or known point of the sheet.
    pub at: String,
    /// Metres above the sea. This or the next.
    pub height_m: Option<f64>,
    /// Feet above the sea.
    pub height_ft: Option<f64>,
}

/// A landmark.
#[uniffi::remote(Record)]
pub struct TypedLandmark {
    /// Its name.
    pub name: String,
    /// What it is: summit, mast, church.
    pub kind: Option<String>,
    /// Its grid reference.
    pub at: String,
    /// One sigma per axis of its place, metres, beside that of its square.
    pub spread_m: Option<f64>,
    /// Height of its top above the ground, metres.
    pub height_m: Option<f64>,
}

/// A named point of a line.
#[uniffi::remote(Record)]
pub struct TypedKnownPoint {
    /// Its name.
    pub name: String,
    /// The line it lies on.
    pub on: String,
    /// Its grid reference.
    pub at: String,
    /// What it is; nothing asks for it yet.
    pub kind: Option<String>,
}

/// A line typed point by point.
#[uniffi::remote(Record)]
pub struct TypedLine {
    /// Its name.
    pub name: String,
    /// road, track, path, creek, ridge or fence; a track when absent.
    pub kind: Option<String>,
    /// Grid references of its points, in the line's direction.
    pub points: Vec<String>,
    /// One sigma per axis of the points, metres, beside that of their squares.
    pub spread_m: Option<f64>,
}

/// A bearing to be turned in `Turn`, and the diagram through which it is: what is typed of it counts before what the
/// place and the date tell. What does not lie between the two norths may be left out.
#[uniffi::remote(Record)]
pub struct TurnRecord {
    /// The bearing with its north.
    pub bearing: String,
    /// mag, grid or true.
    pub to: String,
    /// How the answer is written: deg, mil, gon or quadrant.
    pub unit: Option<String>,
    /// One sigma of the bearing as it was read, degrees.
    pub spread_deg: Option<f64>,
    /// Declination, degrees, east positive.
    pub declination_deg: Option<f64>,
    /// One sigma of it, degrees.
    pub declination_spread_deg: Option<f64>,
    /// Grid convergence, degrees, east positive.
    pub convergence_deg: Option<f64>,
    /// One sigma of it, degrees.
    pub convergence_spread_deg: Option<f64>,
    /// A place: its grid tells the convergence, with a date the magnetic model the declination.
    pub place: Option<String>,
    /// The date of the diagram.
    pub date: Option<String>,
    /// The grid whose north is meant there; the sheet's, else that of the zone, when absent.
    pub grid: Option<String>,
}

/// A check of a compass in [`Record::Compass`].
#[uniffi::remote(Record)]
pub struct CompassRecord {
    /// When.
    pub at: Option<String>,
    /// Where; the trip's likeliest place when absent.
    pub place: Option<String>,
    /// sighting, baseplate, quick or phone.
    pub instrument: Option<String>,
    /// One sigma of a reading, degrees; the instrument's own when absent.
    pub reading_spread_deg: Option<f64>,
    /// Readings whose true answer is known.
    pub readings: Vec<CompassReadingRecord>,
    /// Lines read from both their ends.
    pub pairs: Vec<CompassPairRecord>,
    /// Whether the error is kept and taken off from now on.
    pub keep: Option<bool>,
    /// The grid from whose north known bearings with grid are counted; the sheet's, else that of the place's zone, when absent.
    pub grid: Option<String>,
}

/// A reading whose answer is known: by a bearing, by a point sighted, or by the sun. One of the three is given.
#[uniffi::remote(Record)]
pub struct CompassReadingRecord {
    /// Where it was read, when there are pairs too.
    pub station: Option<String>,
    /// What the compass said: "214 mag".
    pub read: String,
    /// The bearing by the map: "207.5 grid".
    pub known: Option<String>,
    /// From this place, the check's own when absent,
    pub from: Option<String>,
    /// to this one.
    pub to: Option<String>,
    /// The sun was sighted at this time.
    pub sun_at: Option<String>,
    /// One sigma of the known bearing, degrees.
    pub spread_deg: Option<f64>,
    /// One sigma of the time when the sun was sighted, seconds; half a minute when absent.
    pub time_spread_s: Option<f64>,
}

/// A line read from both its ends.
#[uniffi::remote(Record)]
pub struct CompassPairRecord {
    /// The station of the fore bearing.
    pub from: String,
    /// The station of the back bearing.
    pub to: String,
    /// Read at the first: "044 40 mag".
    pub fore: String,
    /// Read at the second: "225 20 mag".
    pub back: String,
}

/// A printed north diagram in a [`Record::Norths`]; angles east positive.
#[uniffi::remote(Record)]
pub struct PrintedRecord {
    /// Declination, degrees. This or the next.
    pub declination_deg: Option<f64>,
    /// Grid-magnetic angle, degrees.
    pub grid_magnetic_deg: Option<f64>,
    /// The year it is printed for.
    pub year: f64,
    /// Change, minutes of arc a year.
    pub annual_change_min: Option<f64>,
}

/// A sighting in a [`Record::Fix`], told apart by `what`; a bearing when that is absent.
#[uniffi::remote(Enum)]
pub enum SightingRecord {
    /// A bearing to a landmark, to one of several, or to a feature that is only roughly placed. One of the three is given.
    Bearing {
        /// The landmark's name on the sheet.
        landmark: Option<String>,
        /// Names of all landmarks that it may be.
        one_of: Option<Vec<String>>,
        /// Roughly where the feature lies.
        place: Option<String>,
        /// One sigma per axis of that place, metres.
        spread_m: Option<f64>,
        /// The bearing with its north: "214 mag".
        bearing: String,
        /// One sigma of the reading, degrees.
        spread_deg: Option<f64>,
    },
    /// A running fix: two bearings to one landmark with a run between.
    Running {
        /// The landmark's name.
        landmark: String,
        /// The first bearing.
        first: String,
        /// The second one, read here.
        second: String,
        /// Length of the run, metres.
        run_m: f64,
        /// One sigma of that in per cent; 3 when absent.
        run_spread_percent: Option<f64>,
        /// The bearing of a straight run; along the line when absent,
        run: Option<String>,
        /// towards this known point of the line.
        towards: Option<String>,
        /// One sigma of each reading, degrees.
        spread_deg: Option<f64>,
    },
    /// The bearing of the line itself here, either way.
    LineRun {
        /// The bearing with its north.
        bearing: String,
        /// One sigma, degrees.
        spread_deg: Option<f64>,
    },
    /// The angle between two landmarks, for which no north is needed.
    Angle {
        /// The left landmark.
        left: String,
        /// The right one.
        right: String,
        /// Degrees clockwise from left to right.
        angle_deg: f64,
        /// One sigma, degrees; that of two readings when absent.
        spread_deg: Option<f64>,
    },
    /// On which side a landmark stands for one who faces along the line.
    Side {
        /// The landmark.
        landmark: String,
        /// left, right, ahead or behind.
        side: String,
        /// The known point of the line that is faced; either way when absent.
        towards: Option<String>,
    },
    /// A landmark is seen.
    Seen {
        /// The landmark.
        landmark: String,
    },
    /// A landmark was looked for and is not seen.
    NotSeen {
        /// The landmark.
        landmark: String,
    },
    /// A bend, junction, bridge or crossing is here: one that the sheet names, or any of its kind. One of the two is given.
    Here {
        /// The known point.
        known: Option<String>,
        /// bend, junction, crossroads, bridge, ford or stream (crossed in any way).
        kind: Option<String>,
        /// One sigma of standing at it, metres; 15 when absent.
        spread_m: Option<f64>,
    },
    /// The trip meter from a known point.
    Trip {
        /// The known point.
        from: String,
        /// What it shows since then, metres.
        distance_m: f64,
        /// Step of its display, metres; 100 when absent.
        step_m: Option<f64>,
        /// Whether it shows a figure until the next one is full, as digital ones mostly do, or (false) the nearest one; either is weighed when absent.
        cuts_off: Option<bool>,
        /// One sigma of its scale in per cent; 2 when absent.
        scale_percent: Option<f64>,
        /// The known point that was driven towards; either way when absent.
        towards: Option<String>,
    },
    /// Paces along the line from a known point.
    Paces {
        /// The known point.
        from: String,
        /// How many.
        paces: f64,
        /// single or double.
        pace_kind: Option<String>,
        /// The known point that was walked towards; either way when absent.
        towards: Option<String>,
    },
    /// An independent place, weighed in on the walker's word: a receiver's, or a reference that another one read.
    Witness {
        /// The place.
        place: String,
        /// One sigma per axis, metres; that of the reference's square, at least 10, when absent.
        spread_m: Option<f64>,
    },
    /// The distance to a landmark.
    Distance {
        /// The landmark.
        landmark: String,
        /// Metres.
        distance_m: f64,
        /// One sigma, metres; a quarter of the distance, as by eye, when absent.
        spread_m: Option<f64>,
    },
    /// What the ground does towards a bearing, by the heights of the sheet.
    Slope {
        /// rises, falls or level.
        ground: String,
        /// The bearing with its north.
        towards: String,
        /// How steeply, degrees up or down; not said when absent.
        slope_deg: Option<f64>,
        /// One sigma of that, degrees; 4 when absent.
        spread_deg: Option<f64>,
        /// Over how many metres; 100 when absent.
        over_m: Option<f64>,
    },
    /// A landform by the heights of the sheet: at a bearing and a rough distance, or underfoot when neither is given.
    Landform {
        /// hill (knob), saddle, ridge, spur, valley, draw, depression or cliff.
        kind: String,
        /// The bearing to it with its north.
        bearing: Option<String>,
        /// One sigma of that, degrees; 10 when absent.
        spread_deg: Option<f64>,
        /// How far it is, metres; 300 within a factor of 3 when absent.
        distance_m: Option<f64>,
        /// The factor by which the distance may be wrong either way, one sigma; 1.5 when absent.
        distance_factor: Option<f64>,
    },
    /// Where the slope underfoot falls to, by the heights of the sheet.
    Aspect {
        /// The bearing that it falls towards, with its north.
        falls: String,
        /// One sigma, degrees; 20 when absent.
        spread_deg: Option<f64>,
    },
    /// An altimeter, by the heights of the sheet.
    Height {
        /// What it reads, metres above the sea.
        read_m: f64,
        /// One sigma of a reading, metres; 30 when absent, 5 when it was set since.
        spread_m: Option<f64>,
        /// Where it was set: a known point, a landmark or a place.
        set_at: Option<String>,
        /// What it was set to there, metres; the height of that place on the sheet when absent.
        set_m: Option<f64>,
        /// Hours since it was set.
        hours_since_set: Option<f64>,
        /// One sigma of its drift, metres an hour; 5 when absent.
        drift_m_per_hour: Option<f64>,
    },
}

/// What is asked in a [`Record::Points`].
#[uniffi::remote(Record)]
pub struct PointsRecord {
    /// A part of the name, small letters or large, with accents or without; all when empty.
    pub named: String,
    /// Only of these lines; of all when none is named.
    pub lines: Vec<String>,
    /// A known point: the others of the lines that it lies on.
    pub from: Option<String>,
}

/// A leg in a [`Record::Leg`] or [`Record::Reckon`].
#[uniffi::remote(Record)]
pub struct LegRecord {
    /// When it was closed; needed in the log, idle in a question.
    pub at: Option<String>,
    /// The bearing with its north: "063 mag".
    pub bearing: String,
    /// How many paces.
    pub paces: Option<f64>,
    /// single or double.
    pub pace_kind: Option<String>,
    /// How many metres.
    pub metres: Option<f64>,
    /// The box walked round something.
    pub detour: Option<DetourRecord>,
    /// What was met at the end.
    pub met: Option<String>,
}

/// A detour in a [`LegRecord`].
#[uniffi::remote(Record)]
pub struct DetourRecord {
    /// left or right.
    pub side: String,
    /// How many paces out, of the leg's kind unless `pace_kind` says another.
    pub paces: Option<f64>,
    /// single or double.
    pub pace_kind: Option<String>,
    /// How many metres out.
    pub metres: Option<f64>,
}

/// The answer to a question, with the unit in each name.
#[uniffi::remote(Enum)]
pub enum Answer {
    /// To `norths`.
    Norths {
        lat_deg: f64,
        lon_deg: f64,
        declination_deg: f64,
        declination_spread_deg: f64,
        inclination_deg: Option<f64>,
        horizontal_nt: Option<f64>,
        total_nt: Option<f64>,
        north_nt: Option<f64>,
        east_nt: Option<f64>,
        down_nt: Option<f64>,
        inclination_spread_deg: Option<f64>,
        horizontal_spread_nt: Option<f64>,
        total_spread_nt: Option<f64>,
        declination_change_deg_per_year: Option<f64>,
        model: Option<String>,
        convergence_deg: f64,
        grid_magnetic_deg: f64,
        grid_name: String,
        printed: Option<AnswerPrinted>,
    },
    /// To `light`: what is left from the time asked on, then the day's. Each height of the sun by itself, `day` or `night` where it
    /// stays above or below it all day. `touches`: the sun only touches the horizon then, as near as the air's bend differs. `ground` is
    /// the horizon that the heights of the sheet raise: a time is the latest or earliest where they end nearer (`known`) than ground
    /// that could hide the sun (`enough`). `ground_gaps`: when the ground hides the sun of that day between its rise and its set, or, where
    /// it stays up, at any time of it; `ground_gaps_to_come`: the same from the time asked on until it sets, or for a day.
    Light {
        sunset_unix_ms: Option<i64>,
        sunset_95_s: Option<f64>,
        dark_unix_ms: Option<i64>,
        dawn_unix_ms: Option<i64>,
        touches_unix_ms: Option<i64>,
        is_down: bool,
        is_dark: bool,
        azimuth_deg_true: f64,
        elevation_deg: f64,
        sunrise_unix_ms: Option<i64>,
        day_sunset_unix_ms: Option<i64>,
        touches_before_noon_unix_ms: Option<i64>,
        touches_after_noon_unix_ms: Option<i64>,
        civil_dawn_unix_ms: Option<i64>,
        civil_dusk_unix_ms: Option<i64>,
        nautical_dawn_unix_ms: Option<i64>,
        nautical_dusk_unix_ms: Option<i64>,
        polar: Option<String>,
        civil_polar: Option<String>,
        nautical_polar: Option<String>,
        behind_ground_unix_ms: Option<i64>,
        behind_ground_95_s: Option<f64>,
        behind_ground_is_latest: Option<bool>,
        ground_horizon_deg: Option<f64>,
        ground_known_to_m: Option<f64>,
        ground_enough_to_m: Option<f64>,
        ground_sunrise_unix_ms: Option<i64>,
        ground_sunrise_is_earliest: Option<bool>,
        ground_sunset_unix_ms: Option<i64>,
        ground_sunset_is_latest: Option<bool>,
        ground_gaps: Vec<AnswerGroundGap>,
        ground_gaps_to_come: Vec<AnswerGroundGap>,
    },
    /// To `mean`: one reading's spread, the mean's and its half-width at 95 %, the greatest deviation and which reading (from 1)
    /// it is, and readings that were left out because they point the other way.
    Mean {
        bearing_deg: f64,
        north: String,
        spread_deg: f64,
        mean_spread_deg: f64,
        half_95_deg: f64,
        count: u32,
        widest_deg: f64,
        widest: u32,
        reversed: Vec<u32>,
    },
    /// To `compass`: what it reads too much, one sigma and half-width at 95 %; one reading's spread; stations and lines.
    Compass {
        error_deg: Option<f64>,
        error_spread_deg: Option<f64>,
        error_95_deg: Option<f64>,
        reading_spread_deg: f64,
        count: u32,
        stations: Vec<AnswerStation>,
        lines: Vec<AnswerCompassLine>,
    },
    /// To `place`.
    Place {
        lat_deg: f64,
        lon_deg: f64,
        mgrs: String,
        grid_name: String,
        easting_m: f64,
        northing_m: f64,
        convergence_deg: f64,
        scale: f64,
        scale_factor: f64,
        square_m: f64,
        utm: String,
        dm: String,
        dms: String,
        own: String,
        accuracy_m: Option<f64>,
    },
    /// To `between`.
    Between {
        distance_m: f64,
        distance_spread_m: f64,
        bearing_spread_deg: f64,
        bearing_deg_true: f64,
        arrival_deg_true: f64,
        back_deg_true: f64,
        bearing_deg_grid: f64,
        bearing_deg_mag: Option<f64>,
        grid_name: String,
    },
    /// To `attraction`: what was felt, what the model has, one sigma of their differences; the heading also as a ready text, and as
    /// whole degrees to be typed.
    Attraction {
        strength_nt: f64,
        dip_deg: f64,
        heading_deg_mag: Option<f64>,
        heading_told: Option<String>,
        heading_figures: Option<String>,
        caution_told: Option<String>,
        model_strength_nt: f64,
        model_dip_deg: f64,
        strength_spread_nt: f64,
        dip_spread_deg: f64,
        chi_square: f64,
        attracted_share: f64,
        verdict: String,
    },
    /// To `witness`: the place with ready texts, and how it lies to the fix when there is one.
    Witness {
        mgrs: String,
        place: String,
        spread_m: f64,
        age_s: f64,
        stale: bool,
        distance_m: Option<f64>,
        chance: Option<f64>,
        verdict: Option<String>,
        reference: String,
        spread_told: String,
        age_told: String,
    },
    /// To `import` of lines and landmarks: how many of each came in, how many records of the file were left out, and whom to name.
    ImportedFeatures { lines: u32, landmarks: u32, known_points: u32, already: u32, left_out: u32, credit: Option<String> },
    /// To `import` of heights: posts that came in, the distance from post to post, one sigma of a height and how far errors stay alike,
    /// and the share of the file that lies outside of the sheet and 2 km around it, or of the area that was named, and was left out.
    ImportedHeights {
        columns: u32,
        rows: u32,
        spacing_east_m: f64,
        spacing_south_m: f64,
        spread_m: f64,
        correlation_m: f64,
        left_out_share: f64,
        credit: Option<String>,
    },
    /// To `photo`: how it is laid (`affine`, `projective`), one sigma of a mark and of a tap in the middle, by how much each mark
    /// misses, and the places that were tapped.
    Photo { kind: String, spread_px: f64, spread_m: f64, marks: Vec<AnswerPhotoMark>, places: Vec<AnswerPhotoPlace> },
    /// To `seen`: the place, its landmarks and the landforms near; and in words what of the ground near is only counted or cannot be told.
    Seen { mgrs: String, landmarks: AnswerSeenLandmarks, landforms: Vec<AnswerSeenLandform>, untold: Vec<String> },
    /// To `sights`: 24 at the most beside those that were read, and how many more there are.
    Sights { sights: Vec<SightView>, left: u32 },
    /// To `lines`: 24 at the most, and how many more there are.
    Lines { lines: Vec<LineView>, left: u32 },
    /// To `points`: 24 at the most, and how many more there are.
    Points { points: Vec<KnownPointView>, left: u32 },
    /// To `profile`: heights along the way, the sums of rises and falls from one to the next, how much of each errors of the heights alone make
    /// of level ground, and the steepest step (up positive) with its half-width at 95 %, null where such errors may make it; with an eye the
    /// stretches that it does not see, those that it may not see by the spread of the heights, and those of which that cannot be told: beyond a
    /// gap what known ground does not hide.
    Profile {
        length_m: f64,
        climb_m: f64,
        descent_m: f64,
        errors_m: f64,
        steepest_deg: Option<f64>,
        steepest_half_width_deg: Option<f64>,
        steepest_from_m: Option<f64>,
        samples: AnswerSamples,
        dead: Vec<AnswerDead>,
        perhaps_dead: Vec<AnswerDead>,
        untold: Vec<AnswerDead>,
    },
    /// To `ground`: the height there, the slope and where it falls to, the rise in eight directions, and cuts and fills of lines near; none of
    /// those are told where posts stand more than 10 m apart.
    Ground {
        mgrs: String,
        height_m: f64,
        height_spread_m: f64,
        slope_deg: Option<f64>,
        slope_spread_deg: Option<f64>,
        falls_to_deg_true: Option<f64>,
        falls_to_spread_deg: Option<f64>,
        rises: Vec<AnswerRise>,
        cuts_and_fills: Vec<AnswerCutOrFill>,
    },
    /// To `contours`: lines with `height_m`, `index` and `depression`, which marks a ring round lower ground (and `height_ft` on a grid in feet), as GeoJSON; the drawing when it was asked for.
    Contours { geojson: String, count: u32, interval_m: f64, svg: Option<String> },
    /// To `turn`: `spread_deg` is that of the bearing told, one sigma; without one of the bearing as read that of the turning alone. It and
    /// those of the angles are null where they are not known.
    Turn {
        bearing_deg: f64,
        spread_deg: Option<f64>,
        north: String,
        back_deg: f64,
        grid_magnetic_deg: Option<f64>,
        declination_deg: Option<f64>,
        declination_spread_deg: Option<f64>,
        convergence_deg: Option<f64>,
        told: String,
    },
    /// To `reckon`.
    Reckon {
        east_m: f64,
        north_m: f64,
        direct_m: f64,
        direct_bearing_deg_grid: f64,
        home_bearing_deg_grid: f64,
        walked_m: f64,
        axis_major_m: f64,
        axis_minor_m: f64,
        back: Vec<AnswerBackLeg>,
        closes_m: f64,
    },
    /// To `chart`: the drawing as SVG.
    Chart { svg: String },
}

/// A tapped place in [`Answer::Photo`]; easting and northing in the grid's own unit, one sigma along the worse axis, and whether it
/// lies outside the marks.
#[uniffi::remote(Record)]
pub struct AnswerPhotoPlace {
    pub name: String,
    pub lat_deg: f64,
    pub lon_deg: f64,
    pub mgrs: String,
    pub easting: f64,
    pub northing: f64,
    pub spread_m: f64,
    pub outside: bool,
}

/// By how much a mark misses in [`Answer::Photo`]: pixels, and metres on the ground from the fitted crossing to the mark.
#[uniffi::remote(Record)]
pub struct AnswerPhotoMark {
    pub off_px: f64,
    pub off_east_m: f64,
    pub off_north_m: f64,
}

/// Ground on the way in [`Answer::Profile`] that an eye at its beginning does not see.
#[uniffi::remote(Record)]
pub struct AnswerDead {
    pub from_m: f64,
    pub to_m: f64,
}

/// A cut or fill of a line.
#[uniffi::remote(Record)]
pub struct AnswerCutOrFill {
    /// The line.
    pub line: String,
    /// cut or fill.
    pub kind: String,
    /// Where it begins, metres along the line.
    pub from_m: f64,
    /// Where it ends, metres along the line.
    pub to_m: f64,
    /// Where it is deepest or highest, metres along the line.
    pub most_at_m: f64,
    /// That place.
    pub mgrs: String,
    /// Its depth or height there, metres.
    pub most_m: f64,
    /// How far to trust it, 0 to 1.
    pub strength: f64,
}

/// How the ground rises towards a bearing in [`Answer::Ground`]; negative where it falls.
#[uniffi::remote(Record)]
pub struct AnswerRise {
    pub bearing_deg_true: f64,
    pub distance_m: f64,
    pub rise_m: f64,
    pub rise_spread_m: f64,
}

// The heights of a profile and the landmarks that should be seen are one byte buffer each; the layouts stand at the types. They only go out.
uniffi::custom_type!(AnswerSamples, Vec<u8>, {
    remote,
    lower: |samples| samples.bytes(),
    try_lift: |_bytes| Err(uniffi::deps::anyhow::anyhow!("answers only go out")),
});
uniffi::custom_type!(AnswerSeenLandmarks, Vec<u8>, {
    remote,
    lower: |landmarks| landmarks.bytes(),
    try_lift: |_bytes| Err(uniffi::deps::anyhow::anyhow!("answers only go out")),
});

/// A landform in [`Answer::Seen`]; its strength from 0 to 1; and in words.
#[uniffi::remote(Record)]
pub struct AnswerSeenLandform {
    pub kind: String,
    pub bearing_deg_mag: f64,
    pub distance_m: f64,
    pub relief_m: f64,
    pub strength: f64,
    pub told: String,
}

/// A station in [`Answer::Compass`]: `clean`, `attracted` or `not-to-be-told`. Both numbers are absent where
/// several explanations tell different ones; the share is that of the odds by which the station is turned.
#[uniffi::remote(Record)]
pub struct AnswerStation {
    pub station: String,
    pub attraction_deg: Option<f64>,
    pub spread_deg: Option<f64>,
    pub attracted_share: f64,
    pub verdict: String,
}

/// A line in [`Answer::Compass`], attraction taken off; no bearing where it cannot be told.
#[uniffi::remote(Record)]
pub struct AnswerCompassLine {
    pub from: String,
    pub to: String,
    pub closure_deg: f64,
    pub bearing_deg_mag: Option<f64>,
    pub spread_deg: f64,
}

/// A printed diagram brought to the date in [`Answer::Norths`]: printed minus model is `differs_deg`, on a day on which the model holds; each
/// spread is one sigma, `differs_spread_deg` that of both; old above 20 years.
#[uniffi::remote(Record)]
pub struct AnswerPrinted {
    pub age_years: f64,
    pub declination_deg: f64,
    pub declination_spread_deg: Option<f64>,
    pub grid_magnetic_deg: f64,
    pub differs_deg: Option<f64>,
    pub differs_spread_deg: Option<f64>,
    pub old: bool,
}

/// A time in [`Answer::Light`] during which the ground hides the sun. Without its beginning it began before the span, without its end
/// it goes on beyond. Where heights end nearer than ground that could hide the sun, the beginning is the latest and the end the earliest.
#[uniffi::remote(Record)]
pub struct AnswerGroundGap {
    pub from_unix_ms: Option<i64>,
    pub from_is_latest: Option<bool>,
    pub to_unix_ms: Option<i64>,
    pub to_is_earliest: Option<bool>,
}

/// A leg of the way back in [`Answer::Reckon`].
#[uniffi::remote(Record)]
pub struct AnswerBackLeg {
    pub bearing_deg_grid: f64,
    pub bearing_deg_mag: f64,
    pub metres: f64,
    pub detour_side: Option<String>,
}

/// The answer to a record that was taken.
#[uniffi::remote(Record)]
pub struct Reply {
    /// What a person is told, sentence by sentence.
    pub said: Vec<String>,
    /// Everything a shell shows.
    pub snapshot: Snapshot,
    /// The answer to a question.
    pub answer: Option<Answer>,
}
