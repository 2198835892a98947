//! Cuts and fills: where a road was dug through the ground or carried over it.

use super::footing::Steps;
use crate::earth::{GridError, LatLon, geodesic_between, geodesic_from};
use crate::ground::{Heights, Post};
use crate::measure::{Message, Telling, TrueBearing};

/// Farther apart than this posts do not show a road's cut, metres (our own choice: a cut is 20 m to 40 m wide).
const MOST_SPACING_M: f64 = 10.5;

/// Step along the line, metres.
const STEP_M: f64 = 5.0;

/// How far to each side the ground beside the road is looked at, metres; at least two posts.
const ASIDE_M: f64 = 20.0;

/// Least depth of a cut or height of a fill, metres (common practice, no source).
const LEAST_M: f64 = 2.0;

/// Longer runs are the lie of the land: a road up a valley, a road on a ridge, metres (our own choice).
const LONGEST_M: f64 = 500.0;

/// A run up to this long is one all the same where it is so deep, metres, and the line strays by less than this share of the ground beside
/// it: a deep cut through a long hill (our own choice).
const LONGEST_DEEP_M: f64 = 2000.0;
const DEEP_M: f64 = 6.0;
const STRAIGHT: f64 = 0.15;
/// The face goes on outwards while it is steeper than this, by steps of so many metres, so far (our own choice; earth stands 1 in 2). It ends within
/// the next step where that is still so many times steeper than the one beyond.
const FACE: f64 = 0.4;
const LEAST_RATIO: f64 = 2.0;
const FACE_STEP_M: f64 = 10.0;
const FACE_TO_M: f64 = 100.0;
/// A made road strays at most by this share of what the ground beside it strays, each from its straight run (our own choice).
const SMOOTHER: f64 = 0.5;
/// On open ground that is a plane but for what was made, a line need not keep straighter than it: the ground outside is looked at from the feet of the
/// faces to three times as far, at every so many places of the run, and strays from the plane by less than this share of the depth (our own choice).
const LEVEL_AT: [f64; 4] = [1.0, 1.5, 2.0, 3.0];
const LEVEL_EVERY: usize = 4;
const LEVEL_STRAY: f64 = 0.2;
const LEVEL_PLACES: f64 = 0.9;
/// The feet of wider faces stand so far from the line, metres. Natural gullies and ridges are as wide: a made one has a floor (or a crown) that rises
/// by less than this share of what an even face would, so many metres out, faces no flatter than earth stands, 1 in 2, and its ground outside is a
/// plane from the feet on to a closer share of the depth (our own choice).
const WIDE_FEET_M: [f64; 2] = [25.0, 30.0];
const FLOOR_M: f64 = 5.0;
const FLOOR: f64 = 0.35;
const STANDS: f64 = 0.5;
const WIDE_STRAY: f64 = 0.1;
/// That is asked where a run is so deep, of its depth where it is deepest, and half of it is (our own choice).
const DEEP_PART: f64 = 0.8;

/// What was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CutFill {
    /// The ground stands higher on both sides.
    Cut,
    /// The ground lies lower on both sides.
    Fill,
}

impl CutFill {
    /// The word for it in records.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Fill => "fill",
        }
    }
}

/// A cut or fill on a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutOrFill {
    /// Which.
    pub kind: CutFill,
    /// Where it begins, metres along the line.
    pub from_m: f64,
    /// Where it ends, metres along the line.
    pub to_m: f64,
    /// Where it is deepest or highest, metres along the line.
    pub most_at_m: f64,
    /// That place on the earth.
    pub at: LatLon,
    /// Its depth or height there against the nearer level of the two sides, metres.
    pub most_m: f64,
    /// How far to trust it, 0 to 1: a half when its depth is two and a half times the spread.
    pub strength: f64,
}

/// Why cuts and fills cannot be looked for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CutFillError {
    /// The posts stand too far apart.
    #[error("landform-posts-too-far")]
    TooCoarse,
    /// The heights' grid has no coordinates for a place of the line.
    #[error(transparent)]
    Grid(#[from] GridError),
}

impl Telling for CutFillError {
    fn message(&self) -> Message {
        match self {
            Self::TooCoarse => Message::new("landform-posts-too-far"),
            Self::Grid(error) => error.message(),
        }
    }
}

/// Heights along a line and beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Trace {
    /// Metres along the line.
    pub along_m: f64,
    /// The place.
    pub at: LatLon,
    /// Where the line goes there.
    pub bearing: TrueBearing,
    /// Height of the line itself, metres.
    pub line_m: f64,
    /// Height of the ground to its left, metres.
    pub left_m: f64,
    /// Height of the ground to its right, metres.
    pub right_m: f64,
}

impl Trace {
    /// How far both sides stand above the line, or lie below it (negative), metres; 0 when one is above and one below.
    fn both_sides_m(&self) -> f64 {
        let (left_m, right_m) = (self.left_m - self.line_m, self.right_m - self.line_m);
        if left_m * right_m <= 0.0 { 0.0 } else { left_m.signum() * left_m.abs().min(right_m.abs()) }
    }

    fn sides_m(&self) -> f64 {
        f64::midpoint(self.left_m, self.right_m)
    }
}

/// The cuts and fills along a line.
///
/// A run of the line with the ground at least 2 m higher (lower) on both sides, where the line itself keeps closer to a straight
/// run than the ground beside it, or where that ground is one plane up to the feet of the faces. A line through a valley or along a ridge is none: the
/// ground beside it keeps the same run and slopes on, or the run is longer than 500 m (2 km on a plane, and where it is deeper than 6 m and the line all
/// but straight). Faces may reach 30 m out on each side. A natural gully or dam as narrow as a road's on a plane passes for one: ask for lines that
/// people laid out.
///
/// # Units
/// Metres along the line, on the ellipsoid.
///
/// # Accuracy
/// Posts 10 m apart or closer are needed, and heights of the ground, not of trees. A line drawn more than half a road's width off
/// hides a cut or shows none.
///
/// # Errors
/// [`CutFillError`] when the posts stand too far apart or the grid has no coordinates for the line.
pub fn cuts_and_fills(heights: &Heights, line: &[LatLon]) -> Result<Vec<CutOrFill>, CutFillError> {
    let Some(first) = line.first() else { return Ok(Vec::new()) };
    let (east_m, south_m) = heights.layout().spacing_m(heights.layout().post_of(*first)?)?;
    if east_m.max(south_m) > MOST_SPACING_M {
        return Err(CutFillError::TooCoarse);
    }
    let aside_m = ASIDE_M.max(2.0 * east_m.max(south_m));
    let trace = trace(heights, line, aside_m)?;
    Ok(runs(&trace).into_iter().filter_map(|run| cut_or_fill(heights, &trace, run, aside_m)).collect())
}

/// Heights along and beside a line; places where one is not known are left out.
fn trace(heights: &Heights, line: &[LatLon], aside_m: f64) -> Result<Vec<Trace>, GridError> {
    let mut found = Vec::new();
    let mut before_m = 0.0;
    for ends in line.windows(2) {
        let [from, to] = ends else { continue };
        let (length_m, bearing, _) = geodesic_between(*from, *to);
        let steps = Steps::at(heights.layout(), *from)?;
        let start = heights.layout().post_of(*from)?;
        let count = (length_m / STEP_M).ceil().max(1.0) as usize;
        for step in 0..count {
            let along_m = length_m * step as f64 / count as f64;
            let post = steps.from(start, bearing, along_m);
            found.extend(beside(heights, &steps, post, bearing, aside_m).map(|(line_m, left_m, right_m)| Trace {
                along_m: before_m + along_m,
                at: geodesic_from(*from, bearing, along_m).0,
                bearing,
                line_m,
                left_m,
                right_m,
            }));
        }
        before_m += length_m;
    }
    Ok(found)
}

fn beside(heights: &Heights, steps: &Steps, post: Post, bearing: TrueBearing, aside_m: f64) -> Option<(f64, f64, f64)> {
    let side = |turn_deg: f64| heights.at_post_m(steps.from(post, TrueBearing::new(bearing.degrees() + turn_deg), aside_m));
    Some((heights.at_post_m(post)?, side(-90.0)?, side(90.0)?))
}

/// Runs of places with both sides higher, or both lower, by the least depth.
fn runs(trace: &[Trace]) -> Vec<std::ops::Range<usize>> {
    let sign = |one: &Trace| {
        let both_m = one.both_sides_m();
        i8::from(both_m >= LEAST_M) - i8::from(both_m <= -LEAST_M)
    };
    let mut found = Vec::new();
    let mut from = 0;
    for same in trace.chunk_by(|a, b| sign(a) == sign(b) && b.along_m - a.along_m < 2.0 * STEP_M) {
        if same.first().is_some_and(|one| sign(one) != 0) {
            found.push(from..from + same.len());
        }
        from += same.len();
    }
    found
}

/// The cut or fill of a run, when the line keeps straighter than the ground beside it.
fn cut_or_fill(heights: &Heights, trace: &[Trace], run: std::ops::Range<usize>, aside_m: f64) -> Option<CutOrFill> {
    let part = trace.get(run.clone())?;
    let (first, last) = (part.first()?, part.last()?);
    let wider = trace.get(run.start.saturating_sub(1)..(run.end + 1).min(trace.len()))?;
    let depths = part.iter().map(|one| (shoulders_m(heights, one, aside_m).unwrap_or(one.both_sides_m().abs()), one));
    let (most_m, most) = depths.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let (line_m, sides_m) = (stray_m(wider, |one| one.line_m), stray_m(wider, Trace::sides_m));
    let deep = most_m >= DEEP_M && sides_m >= DEEP_M / 2.0 && line_m <= STRAIGHT * sides_m;
    let on_level = stands_on_level(heights, part, aside_m);
    let longest_m = if deep || on_level { LONGEST_DEEP_M } else { LONGEST_M };
    if (line_m > SMOOTHER * sides_m && !on_level) || last.along_m - first.along_m > longest_m {
        return None;
    }
    Some(CutOrFill {
        kind: if most.both_sides_m() > 0.0 { CutFill::Cut } else { CutFill::Fill },
        from_m: first.along_m,
        to_m: last.along_m,
        most_at_m: most.along_m,
        at: most.at,
        most_m,
        strength: heights.spread().strength(most_m, ASIDE_M),
    })
}

/// Whether the ground beside a run is one plane up to the feet of its faces, at nine of ten places: there only people leave so narrow a dam or trench, or
/// a wider one with a floor and faces.
fn stands_on_level(heights: &Heights, part: &[Trace], aside_m: f64) -> bool {
    let strays_by = |one: &Trace, foot_m: f64, share: f64| {
        level_outside(heights, one, foot_m).filter(|outside| outside.stray_m <= share * (outside.level_m - one.line_m).abs())
    };
    let places: Vec<&Trace> = part.iter().step_by(LEVEL_EVERY).collect();
    let mostly = |places: &[&Trace], holds: &dyn Fn(&Trace) -> bool| {
        let held = places.iter().filter(|one| holds(one)).count();
        held as f64 >= LEVEL_PLACES * places.len() as f64
    };
    // Towards its ends faces are lower, and flatter where the feet stand as far out.
    let most_m = part.iter().map(|one| one.both_sides_m().abs()).fold(0.0, f64::max);
    let deep: Vec<&Trace> = places.iter().copied().filter(|one| one.both_sides_m().abs() >= DEEP_PART * most_m).collect();
    let is_whole =
        |one: &Trace, foot_m: f64| strays_by(one, foot_m, WIDE_STRAY).is_some_and(|outside| has_faces(heights, one, foot_m, &outside));
    let wide = |foot_m: f64| 2 * deep.len() >= places.len() && mostly(&deep, &|one| is_whole(one, foot_m));
    mostly(&places, &|one| strays_by(one, aside_m, LEVEL_STRAY).is_some()) || WIDE_FEET_M.into_iter().any(wide)
}

/// Whether the ground across a line has a floor and two faces that stand as earth does against the plane outside, up to feet so far out.
fn has_faces(heights: &Heights, one: &Trace, foot_m: f64, outside: &Outside) -> bool {
    let depth_m = outside.level_m - one.line_m;
    let (Ok(steps), Ok(post)) = (Steps::at(heights.layout(), one.at), heights.layout().post_of(one.at)) else { return false };
    let side = |turn_deg: f64| {
        let away = TrueBearing::new(one.bearing.degrees() + turn_deg);
        let tilt = outside.slope * turn_deg.signum();
        let risen_m =
            |out_m: f64| heights.at_post_m(steps.from(post, away, out_m)).map(|m| (m - one.line_m - tilt * out_m) * depth_m.signum());
        (0..=(foot_m / FLOOR_M) as usize).map(|step| risen_m(step as f64 * FLOOR_M)).collect::<Option<Vec<f64>>>()
    };
    let Some((left, right)) = side(-90.0).zip(side(90.0)) else { return false };
    let floor_m = |side: &[f64]| side.get(1).copied().unwrap_or(f64::INFINITY);
    let steepest =
        |side: &[f64]| side.windows(2).map(|pair| if let [low, high] = pair { high - low } else { 0.0 }).fold(0.0, f64::max) / FLOOR_M;
    let is_flat = f64::midpoint(floor_m(&left), floor_m(&right)) <= FLOOR * depth_m.abs() * FLOOR_M / foot_m;
    is_flat && steepest(&left).min(steepest(&right)) >= STANDS
}

/// The straight run across a line that fits the ground outside on both sides.
struct Outside {
    /// Its height at the line, metres.
    level_m: f64,
    /// Its rise to the right, metres in a metre.
    slope: f64,
    /// How far the ground strays from it at most, metres.
    stray_m: f64,
}

fn level_outside(heights: &Heights, one: &Trace, aside_m: f64) -> Option<Outside> {
    let (steps, post) = (Steps::at(heights.layout(), one.at).ok()?, heights.layout().post_of(one.at).ok()?);
    let right = TrueBearing::new(one.bearing.degrees() + 90.0);
    let mut across: Vec<(f64, f64)> = Vec::with_capacity(2 * LEVEL_AT.len());
    for out_m in LEVEL_AT.into_iter().flat_map(|times| [-times * aside_m, times * aside_m]) {
        across.push((out_m, heights.at_post_m(steps.from(post, right, out_m))?));
    }
    // The places lie alike on both sides: the fit's two numbers do not depend on each other.
    let mean_m = across.iter().map(|(_, height_m)| height_m).sum::<f64>() / across.len() as f64;
    let squares = across.iter().map(|(out_m, _)| out_m * out_m).sum::<f64>();
    let slope = across.iter().map(|(out_m, height_m)| out_m * height_m).sum::<f64>() / squares;
    let stray_m = across.iter().map(|(out_m, height_m)| (height_m - mean_m - slope * out_m).abs()).fold(0.0, f64::max);
    Some(Outside { level_m: mean_m, slope, stray_m })
}

/// How far the nearer level of the two shoulders stands above or below the line: each side is followed outwards over its face.
fn shoulders_m(heights: &Heights, most: &Trace, aside_m: f64) -> Option<f64> {
    let sign = most.both_sides_m().signum();
    let (steps, post) = (Steps::at(heights.layout(), most.at).ok()?, heights.layout().post_of(most.at).ok()?);
    let side = |turn_deg: f64, beside_m: f64| {
        let away = TrueBearing::new(most.bearing.degrees() + turn_deg);
        let mut level_m = (beside_m - most.line_m) * sign;
        let mut out_m = aside_m + FACE_STEP_M;
        let at_m = |out_m: f64| heights.at_post_m(steps.from(post, away, out_m)).map(|height_m| (height_m - most.line_m) * sign);
        while let Some(next_m) = at_m(out_m)
            && next_m - level_m >= FACE * FACE_STEP_M
            && out_m <= FACE_TO_M
        {
            (level_m, out_m) = (next_m, out_m + FACE_STEP_M);
        }
        match at_m(out_m).zip(at_m(out_m + FACE_STEP_M)) {
            Some((next_m, beyond_m)) if next_m > level_m && next_m - level_m >= LEAST_RATIO * (beyond_m - next_m) => next_m,
            Some(_) | None => level_m,
        }
    };
    Some(side(-90.0, most.left_m).min(side(90.0, most.right_m)))
}

/// How far heights stray at most from the straight run between the first and the last, metres.
fn stray_m(part: &[Trace], height: impl Fn(&Trace) -> f64) -> f64 {
    let (Some(first), Some(last)) = (part.first(), part.last()) else { return 0.0 };
    let length_m = (last.along_m - first.along_m).max(STEP_M);
    let straight_m = |one: &Trace| {
        let share = (one.along_m - first.along_m) / length_m;
        height(first) + share * (height(last) - height(first))
    };
    part.iter().map(|one| (height(one) - straight_m(one)).abs()).fold(0.0, f64::max)
}
