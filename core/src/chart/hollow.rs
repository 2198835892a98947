//! Contours round lower ground: with ticks that point downhill, as paper maps have them.

use super::Spot;

/// Ticks stand about so far apart and are so long, dp (own choice).
const APART: f64 = 8.0;
const LONG: f64 = 3.2;
/// A ring has so many at the least.
const FEWEST: f64 = 4.0;
/// Ticks reach so far towards the middle of a small ring at the most.
const INWARDS: f64 = 0.6;

/// A ring with its ticks, as one path that goes out to the end of each and back; the lower ground lies to the right of the way.
pub(super) fn with_ticks(ring: &[Spot]) -> Vec<Spot> {
    let length: f64 = ring.windows(2).map(|pair| if let [a, b] = pair { b.minus(*a).length() } else { 0.0 }).sum();
    let count = (length / APART).round().max(FEWEST);
    let (step, long) = (length / count, LONG.min(INWARDS * length / std::f64::consts::TAU));
    let mut path = Vec::with_capacity(ring.len() + 3 * count as usize);
    let (mut walked, mut next) = (0.0, step / 2.0);
    for pair in ring.windows(2) {
        let [from, to] = pair else { continue };
        let piece = to.minus(*from).length();
        path.push(*from);
        while next <= walked + piece && piece > 0.0 {
            let foot = from.between(*to, (next - walked) / piece);
            path.extend([foot, foot.plus(to.minus(*from).times(long / piece).right()), foot]);
            next += step;
        }
        walked += piece;
    }
    path.extend(ring.last());
    path
}
