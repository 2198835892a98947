//! Where lines meet: junctions, crossings, bridges and fords, found from the lines alone.

mod cluster;
mod course;
mod kind;
mod raster;

use crate::measure::Point;

use super::{Landmark, Line, Sheet};
use cluster::Meeting;
pub use kind::JunctionKind;

/// An end of a line nearer than this to another line meets it, metres: for lines that are drawn exactly.
pub(super) const LEAST_REACH_M: f64 = 2.0;
/// The same for lines drawn in the widest spread, metres.
const MOST_REACH_M: f64 = 30.0;
/// Words of lines that are water.
const WATER: [&str; 4] = ["creek", "river", "canal", "stream"];

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
/// Lines meet where they cross, one that crosses itself too, and where the end of one lies within 1.8 spreads of both from the other (2 to 30 m),
/// of two lines of a file that says by common points what meets within a metre.
/// Meetings of one line nearer to the first of them than a spread are one junction. Ways of which one is on a bridge or in a tunnel meet
/// only in a point that both have; elsewhere the bridge passes over the other, and of a tunnel nothing is seen; of a level that nobody says
/// to be either it is told that the ways cross on two levels. Nor does a fence or a wall
/// meet what runs on a bridge or in a tunnel there.
///
/// # Units
/// Metres in the plane of the lines.
///
/// # Accuracy
/// Crossings are those of the straight pieces, 1e-6 m; a place of several lines is the middle of theirs.
#[must_use]
pub fn junctions(lines: &[Line], landmarks: &[Landmark]) -> Vec<Junction> {
    let pairs = raster::pairs(lines);
    let meetings = cluster::joined(lines, &pairs.meetings).into_iter().map(|place| (kind::kind(lines, landmarks, &place), place));
    let passes = cluster::joined(lines, &pairs.passes).into_iter().map(|place| (JunctionKind::Over, place));
    let somehow = cluster::joined(lines, &pairs.somehow).into_iter().map(|place| (JunctionKind::Levels, place));
    let mut found: Vec<Junction> = meetings.chain(passes).chain(somehow).map(|(kind, place)| junction(lines, kind, place)).collect();
    let order = |junction: &Junction| junction.lines.first().copied().unwrap_or((usize::MAX, 0.0));
    found.sort_by(|a, b| order(a).0.cmp(&order(b).0).then(order(a).1.total_cmp(&order(b).1)));
    number(&mut found);
    found
}

impl Sheet {
    /// Where the sheet's lines meet; found when it is first asked.
    #[must_use]
    pub fn junctions(&self) -> &[Junction] {
        self.made_out.junctions.get_or_init(|| junctions(&self.lines, &self.landmarks))
    }
}

/// How near an end must come to another line to meet it.
pub(super) fn reach_m(a_spread_m: f64, b_spread_m: f64) -> f64 {
    a_spread_m.hypot(b_spread_m).clamp(LEAST_REACH_M, MOST_REACH_M)
}

/// Whether a line is a way on the ground: no water, fence, wire or line of the ground itself.
fn is_walked(line: &Line) -> bool {
    !is_water(line) && kind::is_way(line)
}

fn is_water(line: &Line) -> bool {
    WATER.contains(&line.kind.as_str())
}

fn junction(lines: &[Line], kind: JunctionKind, place: Meeting) -> Junction {
    let of = |index: &usize| lines.get(*index);
    let mut indices: Vec<usize> = place.lines.iter().map(|(index, _)| *index).collect();
    indices.dedup();
    Junction { name: name(indices.iter().filter_map(of)), at: place.at, lines: place.lines, kind }
}

/// At most this many lines are named.
const MOST_NAMED: usize = 3;

fn name<'a>(lines: impl Iterator<Item = &'a Line>) -> String {
    let names: Vec<&str> = lines.map(|line| line.name.as_str()).collect();
    if let [alone] = names.as_slice() {
        return format!("{alone} x {alone}");
    }
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
