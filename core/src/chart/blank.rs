//! Where a chart shows ground of which no height is known: hatched, so that it does not pass for level.

use super::scene::Scene;
use super::{Ink, Item, Spot, Stroke};

/// The hatching runs up to the right, its lines so far apart, dp (own choice).
const APART: f64 = 10.0;
const WIDTH: f64 = 0.6;
/// It is looked at in steps of so many dp whether a height is known.
const STEP: f64 = 2.0;
/// Shorter dashes are left out, dp: a seam of rounding at the border of the heights.
const SHORTEST: f64 = 5.0;

/// Hatches what is not known of the window; whether there was any.
pub(super) fn hatch(scene: &mut Scene<'_>, is_known: impl Fn(Spot) -> bool) -> bool {
    let area = scene.view.area;
    let mut dashes = Vec::new();
    let lines = ((area.width + area.height) / (APART * std::f64::consts::SQRT_2)).ceil() as usize;
    for line in 0..=lines {
        // From the left edge, or from the lower one, up to the right.
        let sum = line as f64 * APART * std::f64::consts::SQRT_2;
        let from = if sum <= area.height { Spot::new(area.x, area.y + sum) } else { Spot::new(area.x + sum - area.height, area.bottom()) };
        let long = (area.right() - from.x).min(from.y - area.y);
        let at = |along: f64| Spot::new(from.x + along, from.y - along);
        let steps = (long / STEP).floor().max(0.0) as usize;
        let spots: Vec<(Spot, bool)> = (0..=steps).map(|i| at(i as f64 * STEP)).map(|spot| (spot, is_known(spot))).collect();
        for run in spots.chunk_by(|a, b| a.1 == b.1) {
            if let [(first, false), .., (last, false)] = run
                && last.minus(*first).length() >= SHORTEST
            {
                dashes.push(Item::line(vec![*first, *last], Stroke::plain(Ink::Divider, WIDTH)));
            }
        }
    }
    let any = !dashes.is_empty();
    scene.draw(dashes);
    any
}
