//! Likelihoods along lines, reckoned once for a fix.

use super::asked::{Lay, SaidAt};
use super::{GroundSaid, HereKind};
use crate::fix::{Fits, GroundSighting, Misplaced, Table};
use crate::ground::HeightUnit;
use crate::measure::{Point, normal_density};
use crate::sheet::{Landmark, Line};

/// Share of distances that are plainly wrong, spread evenly over so many metres (common practice, no source).
const WRONG: (f64, f64) = (0.02, 10_000.0);
/// A table is so many times finer than what it holds is wide.
const FINER: f64 = 8.0;
/// The finest and the widest step of a table, metres.
const STEP_M: (f64, f64) = (1.0, 20.0);

/// A likelihood at equal steps along a line.
#[must_use]
pub fn along(line: &Line, step_m: f64, likelihood: impl Fn(Point) -> Option<f64>) -> Vec<Option<f64>> {
    let steps = (line.length_m() / step_m).ceil() as usize;
    (0..=steps).map(|step| likelihood(line.at(step as f64 * step_m).at)).collect()
}

/// What was said of the ground, along each of the lines; nothing when the ground is known along none of them.
///
/// # Accuracy
/// The ground is asked at half the distance between its posts, straight between. Where it is not known the mean of the rest stands.
#[must_use]
pub fn said_along(lay: &Lay<'_>, said: &GroundSaid, of: String, lines: &[&Line]) -> Option<GroundSighting> {
    let in_feet = said.in_feet().and_then(|feet| told_along(lay, &feet, of.clone(), lines));
    Some(GroundSighting { in_feet: in_feet.map(Box::new), ..told_along(lay, said, of, lines)? })
}

fn told_along(lay: &Lay<'_>, said: &GroundSaid, of: String, lines: &[&Line]) -> Option<GroundSighting> {
    let (asked, step_m): (SaidAt<'_>, f64) = (lay.asks(said), lay.step_m());
    let over = |reckon: &dyn Fn(Point) -> Option<f64>| lines.iter().map(|line| along(line, step_m, reckon)).collect();
    let tables = Table::of_chances(step_m, over(&|at| asked.likelihood(at)))?;
    let off = Table::of_chances(step_m, over(&|at| asked.off_m(at).map(|(off_m, _)| off_m)));
    let fits = match off.zip(Table::of_chances(step_m, over(&|at| asked.off_m(at).map(|(_, spread_m)| spread_m)))) {
        Some((off, spread)) => Fits::Metres { off, spread },
        None => Fits::Most(asked.most()),
    };
    Some(GroundSighting { what: said.word(), of, tables, fits, in_feet: None, misplaced: Vec::new() })
}

/// A distance to a landmark along each of the lines, the errors of both on the map in it.
#[must_use]
pub fn distance_along(landmark: &Landmark, distance_m: f64, spread_m: f64, lines: &[&Line]) -> GroundSighting {
    let of = |unit_m: f64| measured_along(landmark, distance_m * unit_m, spread_m * unit_m, lines);
    GroundSighting { in_feet: Some(Box::new(of(HeightUnit::Feet.metres()))), ..of(1.0) }
}

fn measured_along(landmark: &Landmark, distance_m: f64, spread_m: f64, lines: &[&Line]) -> GroundSighting {
    let whole_m = |line: &Line| spread_m.hypot(landmark.spread_m).hypot(line.spread_m);
    let off_m = |at: Point| distance_m - landmark.at.minus(at).length_m();
    let likelihood = |at: Point, whole_m: f64| (1.0 - WRONG.0) * normal_density(off_m(at), whole_m) + WRONG.0 / WRONG.1;
    of_metres("distance", landmark.name.clone(), lines, whole_m, likelihood, off_m)
}

/// An independent place along each of the lines, the line's own error on the map in it.
#[must_use]
pub fn witness_along(name: &str, place: Point, spread_m: f64, lines: &[&Line]) -> GroundSighting {
    let whole_m = |line: &Line| spread_m.hypot(line.spread_m);
    let likelihood = |at: Point, whole_m: f64| witness_likelihood(place.minus(at), whole_m);
    of_metres("witness", name.into(), lines, whole_m, likelihood, |at| place.minus(at).length_m())
}

/// A place that was told with a slip, along each of the lines, the line's own error on the map in it.
pub(in crate::fix) fn misplaced_along(slip: &Misplaced, lines: &[&Line]) -> Vec<Table> {
    // What has no place of its own is wide.
    let width_m = slip.reach_m().unwrap_or(f64::INFINITY);
    lines.iter().map(|line| told(line, width_m, |at| slip.density(at, line.spread_m))).collect()
}

/// Something measured in metres, with one sigma along each line.
fn of_metres(
    what: &'static str,
    of: String,
    lines: &[&Line],
    whole_m: impl Fn(&Line) -> f64,
    likelihood: impl Fn(Point, f64) -> f64,
    off_m: impl Fn(Point) -> f64,
) -> GroundSighting {
    let whole_m = |line: &&Line| whole_m(line);
    let over =
        |reckon: &dyn Fn(Point, f64) -> f64| lines.iter().map(|line| told(line, whole_m(line), |at| reckon(at, whole_m(line)))).collect();
    let fits = Fits::Metres { off: over(&|at, _| off_m(at)), spread: over(&|_, whole_m| whole_m) };
    GroundSighting { what, of, tables: over(&likelihood), fits, in_feet: None, misplaced: Vec::new() }
}

/// Density of an independent place so far from where one stands, per square metre; a plainly wrong one lies anywhere in a wide circle.
#[must_use]
pub fn witness_likelihood(off: Point, spread_m: f64) -> f64 {
    let fits = normal_density(off.east_m, spread_m) * normal_density(off.north_m, spread_m);
    (1.0 - WRONG.0) * fits + witness_tail()
}

fn witness_tail() -> f64 {
    WRONG.0 / (std::f64::consts::PI * WRONG.1 * WRONG.1)
}

/// What is taken from that where a place that is wrong is a slip of its own: all but what keeps the odds a number.
pub(in crate::fix) fn witness_tail_told() -> f64 {
    0.99 * witness_tail()
}

/// That something of a kind is here, along each of the lines; `places_m` are those on each.
///
/// Where `undrawn` is the share of such things that the sheet does not show, they may be anywhere on the lines.
pub(super) fn here_along(kind: HereKind, places_m: &[Vec<f64>], spread_m: f64, undrawn: f64, lines: &[&Line]) -> GroundSighting {
    let whole_m: f64 = lines.iter().map(|line| line.length_m()).sum();
    let count: usize = places_m.iter().map(Vec::len).sum();
    let anywhere = count as f64 * undrawn / (1.0 - undrawn) / whole_m;
    let table = |(line, alongs_m): (&&Line, &Vec<f64>)| {
        let step_m = (spread_m / FINER).clamp(STEP_M.0, STEP_M.1);
        let steps = (line.length_m() / step_m).ceil() as usize;
        let here = |at_m: f64| alongs_m.iter().map(|along_m| normal_density(at_m - along_m, spread_m)).sum::<f64>() + anywhere;
        Table { step_m, values: (0..=steps).map(|step| here(step as f64 * step_m)).collect() }
    };
    let fits = Fits::Most(normal_density(0.0, spread_m) + anywhere);
    let tables = lines.iter().zip(places_m).map(table).collect();
    GroundSighting { what: "here-kind", of: kind.word().into(), tables, fits, in_feet: None, misplaced: Vec::new() }
}

fn told(line: &Line, width_m: f64, reckon: impl Fn(Point) -> f64) -> Table {
    let step_m = (width_m / FINER).clamp(STEP_M.0, STEP_M.1);
    Table { step_m, values: along(line, step_m, |at| Some(reckon(at))).into_iter().flatten().collect() }
}
