//! What a junction is, by the kinds of its lines and the ways that lead away from it.

use super::cluster::Meeting;
use super::{is_walked, is_water, reach_m};
use crate::measure::Point;
use crate::sheet::{Landmark, Line};

/// What a junction is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JunctionKind {
    /// One way runs on into another under another name or kind, or has two names: nothing leads away there.
    EndOn,
    /// A way ends on another, or three ends meet.
    T,
    /// Ways cross, or four and more lead away.
    X,
    /// One way passes over another by a bridge.
    Over,
    /// Ways cross on two levels; nobody says by what.
    Levels,
    /// A line meets water; the lines do not say whether by bridge, ford or culvert.
    Water,
    /// As stated by a bridge on the sheet.
    Bridge,
    /// As stated by a ford on the sheet.
    Ford,
    /// Waters run together.
    Confluence,
    /// Fences or walls meet.
    Corner,
    /// A fence or wall meets something else: a gate, a stile, or none.
    Fence,
    /// A line of the ground, a ridge or a cliff, meets another line.
    Ridge,
    /// A wire overhead meets another line.
    Wire,
}

impl JunctionKind {
    /// The word for it in records.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::EndOn => "named",
            Self::T => "junction",
            Self::X => "crossroads",
            Self::Water => "stream",
            Self::Bridge | Self::Over => "bridge",
            Self::Ford => "ford",
            Self::Levels => "levels",
            Self::Confluence => "confluence",
            Self::Corner => "fence-corner",
            Self::Fence => "fence",
            Self::Ridge => "ridge",
            Self::Wire => "wire",
        }
    }
}

/// A landmark that is a bridge or a ford, this near to where water and a way cross, is what one crosses by, metres.
const BY_WAY_OF_M: f64 = 30.0;
const FENCES: [&str; 3] = ["fence", "wall", "hedge"];
const GROUND: [&str; 3] = ["ridge", "cliff", "spur"];
const RUNNING: [&str; 3] = ["creek", "river", "stream"];
const WIRES: [&str; 2] = ["power line", "cableway"];
/// So far from a junction two ways must have parted to be two, metres, as long as they are so long.
const ARM_M: f64 = 60.0;

fn is_in(line: &Line, words: &[&str]) -> bool {
    words.contains(&line.kind.as_str())
}

/// Whether a line is no fence, no wire and no line of the ground itself.
pub(super) fn is_way(line: &Line) -> bool {
    !(is_in(line, &FENCES) || is_in(line, &GROUND) || is_in(line, &WIRES))
}

impl Line {
    /// Whether people laid it out over the ground: a road, track, path, railway or canal, or a kind that nobody knows better.
    #[must_use]
    pub fn is_laid_out(&self) -> bool {
        is_way(self) && !is_in(self, &RUNNING)
    }
}

/// Whether a line is a wire overhead.
pub(super) fn is_wire(line: &Line) -> bool {
    is_in(line, &WIRES)
}

pub(super) fn kind(lines: &[Line], landmarks: &[Landmark], place: &Meeting) -> JunctionKind {
    let visits: Vec<(&Line, f64)> = place.lines.iter().filter_map(|(index, along_m)| Some((lines.get(*index)?, *along_m))).collect();
    let any = |is: &dyn Fn(&Line) -> bool| visits.iter().any(|(line, _)| is(line));
    let (fence, ground) = (|line: &Line| is_in(line, &FENCES), |line: &Line| is_in(line, &GROUND));
    let walked: Vec<(&Line, f64)> = visits.iter().copied().filter(|(line, _)| is_walked(line)).collect();
    if any(&is_water) && !walked.is_empty() {
        return by_way_of(landmarks, place.at);
    }
    // Two names of one way that run on together are no junction; what else is there may be.
    let by_ways = (walked.len() > 1).then(|| by_ways(&walked)).filter(|kind| *kind != JunctionKind::EndOn || walked.len() == visits.len());
    if let Some(kind) = by_ways {
        return kind;
    }
    if visits.iter().all(|(line, _)| is_water(line)) {
        return JunctionKind::Confluence;
    }
    if visits.iter().all(|(line, _)| fence(line)) {
        return JunctionKind::Corner;
    }
    if any(&fence) {
        return JunctionKind::Fence;
    }
    if any(&ground) { JunctionKind::Ridge } else { JunctionKind::Wire }
}

/// How water is crossed: by the nearest bridge or ford of the sheet, if one is there.
fn by_way_of(landmarks: &[Landmark], at: Point) -> JunctionKind {
    let known = |mark: &Landmark| match mark.kind.as_str() {
        "bridge" => Some(JunctionKind::Bridge),
        "ford" => Some(JunctionKind::Ford),
        _ => None,
    };
    let distance_m = |mark: &Landmark| mark.at.minus(at).length_m();
    let near = landmarks.iter().filter_map(|mark| known(mark).map(|kind| (distance_m(mark), kind)));
    let nearest = near.filter(|(distance, _)| *distance <= BY_WAY_OF_M).min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map_or(JunctionKind::Water, |(_, kind)| kind)
}

/// What a junction is by the number of ways that lead away from it. Lines that run on together are one way.
fn by_ways(visits: &[(&Line, f64)]) -> JunctionKind {
    let mut ways: Vec<Way<'_>> = Vec::new();
    for way in visits.iter().flat_map(|(line, along_m)| leading_away(line, *along_m)) {
        if !ways.iter().any(|known| known.runs_with(&way)) {
            ways.push(way);
        }
    }
    match ways.len() {
        0..=2 => JunctionKind::EndOn,
        3 => JunctionKind::T,
        _ => JunctionKind::X,
    }
}

/// A line from a junction onwards, one way of the two.
struct Way<'a> {
    line: &'a Line,
    from_m: f64,
    /// Metres along the line to where it is looked at, negative towards its first point.
    arm_m: f64,
}

impl Way<'_> {
    fn at(&self, arm_m: f64) -> Point {
        let along_m = self.from_m + arm_m.copysign(self.arm_m);
        self.line.at(along_m).at
    }

    /// Whether both still lie on each other as far as the shorter is looked at.
    fn runs_with(&self, other: &Self) -> bool {
        let arm_m = self.arm_m.abs().min(other.arm_m.abs());
        let reach_m = reach_m(self.line.spread_m, other.line.spread_m);
        let on = |way: &Self, point: Point| {
            let (one, two) = (way.from_m, way.from_m + (arm_m + reach_m).copysign(way.arm_m));
            let steps = ((arm_m + reach_m) / (reach_m / 2.0)).ceil();
            let near = |step: usize| way.line.at(one + (two - one) * step as f64 / steps).at.minus(point).length_m() <= reach_m;
            (0..=steps as usize).any(near)
        };
        on(other, self.at(arm_m)) && on(self, other.at(arm_m))
    }
}

/// One way leads on from an end of a line, two from anywhere else on it.
fn leading_away(line: &Line, along_m: f64) -> Vec<Way<'_>> {
    let (reach_m, ring) = (reach_m(line.spread_m, line.spread_m), line.is_ring());
    let arm = |left_m: f64, sign: f64| {
        let arm_m = if ring { ARM_M.min(line.length_m() / 4.0) } else { ARM_M.min(left_m) };
        (ring || left_m > reach_m).then(|| Way { line, from_m: along_m, arm_m: arm_m.copysign(sign) })
    };
    [arm(along_m, -1.0), arm(line.length_m() - along_m, 1.0)].into_iter().flatten().collect()
}
