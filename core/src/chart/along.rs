//! Names written along a line: a road's beside it, a creek's in slanted letters.

use super::label::Board;
use super::lettering::{ASCENT, text_width};
use super::{Anchor, Area, Ink, Item, Spot};

/// Places tried for a name are so far apart along the line, dp, and not more than so many.
const STEP: (f64, f64) = (12.0, 60.0);
/// A name is not written where the line leaves the straight by more than this, dp.
const MOST_BEND: f64 = 6.0;
/// A name covers no more remembered places of lines than this.
const MOST_CROSSED: usize = 4;
/// Between the line and the letters, dp.
const OFF: f64 = 4.5;

/// A name to be written along a line.
#[derive(Debug, Clone, Copy)]
pub(super) struct AlongName<'a> {
    pub(super) text: &'a str,
    pub(super) ink: Ink,
    pub(super) italic: bool,
    pub(super) size: f64,
}

/// One way to write it: the middle of its base line, its slope and the squares that it covers.
struct Written {
    at: Spot,
    slope_deg: f64,
    covers: Vec<Area>,
}

/// Writes a name along the straightest, emptiest part of a path, or leaves it out.
pub(super) fn write_along(board: &mut Board, path: &[Spot], name: &AlongName<'_>) -> Option<Item> {
    let width = text_width(name.text, name.size, false);
    let ways = chords(path, width).into_iter().flat_map(|(a, b)| [true, false].map(|above| written(a, b, above, width, name.size)));
    let free = ways.filter(|way| way.covers.iter().all(|square| board.is_free(square)));
    let crossed = |way: &Written| way.covers.iter().map(|square| board.crossed(square)).sum::<usize>();
    let clear = free.map(|way| (crossed(&way), way)).filter(|(crossed, _)| *crossed <= MOST_CROSSED);
    let cost = |(crossed, way): &(usize, Written)| *crossed as f64 + way.slope_deg.abs() / 30.0;
    let best = clear.min_by(|a, b| cost(a).total_cmp(&cost(b)))?.1;
    best.covers.iter().for_each(|square| board.take(*square));
    Some(Item::Text {
        at: best.at,
        anchor: Anchor::Middle,
        size: name.size,
        ink: name.ink,
        halo: true,
        italic: name.italic,
        bold: false,
        rotation_deg: best.slope_deg,
        text: name.text.to_owned(),
    })
}

fn written(a: Spot, b: Spot, above: bool, width: f64, size: f64) -> Written {
    let (left, right) = if a.x <= b.x { (a, b) } else { (b, a) };
    let way = right.minus(left).unit();
    let down = way.right();
    let base = if above { down.times(-OFF) } else { down.times(OFF + ASCENT * size) };
    let at = left.between(right, 0.5).plus(base);
    let body = at.plus(down.times(-size / 3.0));
    let count = (width / size).ceil().max(1.0);
    let place = |index: f64| body.plus(way.times(((index + 0.5) / count - 0.5) * width));
    let covers = (0..count as usize).map(|index| Area::around(place(index as f64), size * 0.45, size * 0.45)).collect();
    Written { at, slope_deg: way.y.atan2(way.x).to_degrees(), covers }
}

/// Pieces of the path that are straight enough over a length, as their two ends.
fn chords(path: &[Spot], length: f64) -> Vec<(Spot, Spot)> {
    let way = measured(path);
    let whole = way.last().map_or(0.0, |(along, _)| *along);
    let step = STEP.0.max(whole / STEP.1);
    let count = ((whole - length) / step).floor();
    if count.is_nan() || count < 0.0 {
        return Vec::new();
    }
    (0..=count as usize).filter_map(|index| chord(&way, index as f64 * step, length)).collect()
}

/// Each point of a path with its distance from the first.
fn measured(path: &[Spot]) -> Vec<(f64, Spot)> {
    let mut along = 0.0;
    let mut before = path.first().copied();
    let mut step = |spot: &Spot| {
        along += before.map_or(0.0, |before| before.distance(*spot));
        before = Some(*spot);
        (along, *spot)
    };
    path.iter().map(&mut step).collect()
}

fn chord(way: &[(f64, Spot)], from: f64, length: f64) -> Option<(Spot, Spot)> {
    let (a, b) = (spot_at(way, from)?, spot_at(way, from + length)?);
    let across = b.minus(a).unit().right();
    let off = |spot: &Spot| {
        let step = spot.minus(a);
        (step.x * across.x + step.y * across.y).abs()
    };
    let between = way.iter().filter(|(along, _)| *along > from && *along < from + length);
    let straight = between.map(|(_, spot)| off(spot)).fold(0.0, f64::max) <= MOST_BEND;
    (straight && a.distance(b) > 0.9 * length).then_some((a, b))
}

fn spot_at(way: &[(f64, Spot)], along: f64) -> Option<Spot> {
    let index = way.partition_point(|(reached, _)| *reached < along).max(1);
    let ((from, a), (to, b)) = (way.get(index - 1)?, way.get(index)?);
    Some(a.between(*b, (along - from) / (to - from).max(1e-9)))
}
