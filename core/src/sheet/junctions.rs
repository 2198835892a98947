//! Where lines meet: junctions, crossings, bridges and fords, found from the lines alone.

mod cluster;
mod raster;

use crate::measure::Point;

use super::{Landmark, Line, Sheet};
use cluster::Meeting;

/// An end of a line nearer than this to another line meets it, metres: for lines that are drawn exactly.
const LEAST_REACH_M: f64 = 2.0;
/// The same for lines drawn in the widest spread, metres.
const MOST_REACH_M: f64 = 30.0;
/// A landmark that is a bridge or a ford, this near to where water and a way cross, is what one crosses by, metres.
const BY_WAY_OF_M: f64 = 30.0;
/// Words of lines that are water.
const WATER: [&str; 4] = ["creek", "river", "canal", "stream"];

/// What a junction is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JunctionKind {
    /// One line runs on into another.
    EndOn,
    /// A line ends on another, or three ends meet.
    T,
    /// Lines cross, or four and more ways lead away.
    X,
    /// A line meets water; the lines do not say whether by bridge, ford or culvert.
    Water,
    /// As stated by a bridge on the sheet.
    Bridge,
    /// As stated by a ford on the sheet.
    Ford,
}

impl JunctionKind {
    /// The word for it in records.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::EndOn | Self::T => "junction",
            Self::X => "crossroads",
            Self::Water => "stream",
            Self::Bridge => "bridge",
            Self::Ford => "ford",
        }
    }
}

/// A place where lines meet.
#[derive(Debug, Clone, PartialEq)]
pub struct Junction {
    /// The names of its lines: "Velm Road x Mill track"; the same lines meeting again get a number.
    pub name: String,
    /// Where, in the sheet's plane: the middle of the places on the lines.
    pub at: Point,
    /// The lines by their number on the sheet, with the metres along each; a line that comes by twice is there twice.
    pub lines: Vec<(usize, f64)>,
    /// What it is.
    pub kind: JunctionKind,
}

/// All junctions of lines, in the order of the first line and the distance along it.
///
/// Lines meet where they cross, and where the end of one lies within one spread of both from the other (2 to 30 m).
/// Meetings of one line nearer to the first of them than that are one junction.
///
/// # Units
/// Metres in the plane of the lines.
///
/// # Accuracy
/// Crossings are those of the straight pieces, 1e-6 m; a place of several lines is the middle of theirs.
#[must_use]
pub fn junctions(lines: &[Line], landmarks: &[Landmark]) -> Vec<Junction> {
    let meetings = raster::meetings(lines);
    let mut found: Vec<Junction> = cluster::joined(lines, &meetings).into_iter().map(|place| junction(lines, landmarks, place)).collect();
    let order = |junction: &Junction| junction.lines.first().copied().unwrap_or((usize::MAX, 0.0));
    found.sort_by(|a, b| order(a).0.cmp(&order(b).0).then(order(a).1.total_cmp(&order(b).1)));
    number(&mut found);
    found
}

impl Sheet {
    /// Where the sheet's lines meet.
    #[must_use]
    pub fn junctions(&self) -> Vec<Junction> {
        junctions(&self.lines, &self.landmarks)
    }
}

/// How near an end must come to another line to meet it.
pub(super) fn reach_m(a_spread_m: f64, b_spread_m: f64) -> f64 {
    a_spread_m.hypot(b_spread_m).clamp(LEAST_REACH_M, MOST_REACH_M)
}

fn is_water(line: &Line) -> bool {
    WATER.contains(&line.kind.as_str())
}

fn junction(lines: &[Line], landmarks: &[Landmark], place: Meeting) -> Junction {
    let of = |index: &usize| lines.get(*index);
    let mut indices: Vec<usize> = place.lines.iter().map(|(index, _)| *index).collect();
    indices.dedup();
    let water = indices.iter().filter_map(of).filter(|line| is_water(line)).count();
    let kind = if water > 0 && water < indices.len() { by_way_of(landmarks, place.at) } else { by_ways(lines, &place) };
    Junction { name: name(indices.iter().filter_map(of)), at: place.at, lines: place.lines, kind }
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

/// What a junction is by the number of ways that lead away from it.
fn by_ways(lines: &[Line], place: &Meeting) -> JunctionKind {
    let ways = |(index, along_m): &(usize, f64)| lines.get(*index).map_or(0, |line| ways_at(line, *along_m));
    match place.lines.iter().map(ways).sum::<usize>() {
        0..=2 => JunctionKind::EndOn,
        3 => JunctionKind::T,
        _ => JunctionKind::X,
    }
}

/// One way leads on from an end of a line, two from anywhere else on it.
fn ways_at(line: &Line, along_m: f64) -> usize {
    let reach_m = reach_m(line.spread_m, line.spread_m);
    let at_end = along_m <= reach_m || along_m >= line.length_m() - reach_m;
    let ring = line.at(0.0).at.minus(line.at(line.length_m()).at).length_m() <= LEAST_REACH_M;
    if at_end && !ring { 1 } else { 2 }
}

/// At most this many lines are named.
const MOST_NAMED: usize = 3;

fn name<'a>(lines: impl Iterator<Item = &'a Line>) -> String {
    let names: Vec<&str> = lines.map(|line| line.name.as_str()).collect();
    let shown = names.get(..MOST_NAMED.min(names.len())).unwrap_or_default().join(" x ");
    if names.len() > MOST_NAMED { format!("{shown} x …") } else { shown }
}

/// Gives the second and later junctions of one name their number.
fn number(junctions: &mut [Junction]) {
    let mut seen = std::collections::HashMap::new();
    for junction in junctions {
        let count = seen.entry(junction.name.clone()).or_insert(0_usize);
        *count += 1;
        if *count > 1 {
            junction.name = format!("{} {count}", junction.name);
        }
    }
}

#[cfg(test)]
mod tests;
