//! One hill of odds on the ruler.

use super::{Ink, Item, Spot, Stroke};
use crate::fix::{Odds, Stretch};

/// A hill is never drawn lower than this, dp.
const LEAST_HEIGHT: f64 = 4.0;
/// Between two rungs, dp.
const RUNG_STEP: f64 = 6.0;
/// Between two dots outside the 95 % limits, dp.
const DOT_STEP: f64 = 9.0;

/// The odds per metre of a stretch at steps along the line.
pub(super) struct Hill<'a> {
    stretch: &'a Stretch,
    step_m: f64,
    /// Metres along the line and odds per metre, over the 95 % limits.
    tops: Vec<(f64, f64)>,
}

impl<'a> Hill<'a> {
    /// The hill with a point about every `step_m` metres.
    pub(super) fn new(odds: &Odds, stretch: &'a Stretch, step_m: f64) -> Self {
        let (low, high) = stretch.limits_95_m;
        let count = ((high - low) / step_m).ceil().clamp(2.0, 2000.0);
        let step = (high - low) / count;
        let top = |index: usize| {
            let along_m = low + step * index as f64;
            (along_m, mean_density(odds, (along_m - step / 2.0).max(low), (along_m + step / 2.0).min(high)))
        };
        Self { stretch, step_m, tops: (0..=count as usize).map(top).collect() }
    }

    /// Its greatest odds per metre.
    pub(super) fn peak(&self) -> f64 {
        self.tops.iter().map(|(_, density)| *density).fold(0.0, f64::max)
    }

    /// The hill drawn on a base line: outline and rungs to 95 %, the likelier half solid, dots beyond.
    pub(super) fn items(&self, x: &dyn Fn(f64) -> f64, base: f64, height_per_density: f64) -> Vec<Item> {
        let top = |(along_m, density): &(f64, f64)| Spot::new(x(*along_m), base - (density * height_per_density).max(LEAST_HEIGHT));
        let (low, high) = self.stretch.limits_50_m;
        let likelier: Vec<Spot> = self.tops.iter().filter(|(along_m, _)| (low..=high).contains(along_m)).map(top).collect();
        let outline: Vec<Spot> = self.tops.iter().map(top).collect();
        let stroke = || Stroke::plain(Ink::Stretch, 1.6);
        let mut items = self.dots(x, base);
        items.push(Item::shape(standing(&outline, base), None, Some(Ink::Paper)));
        items.extend(self.rungs(&outline, base));
        items.push(Item::shape(standing(&likelier, base), Some(stroke()), Some(Ink::Stretch)));
        items.push(Item::shape(standing(&outline, base), Some(stroke()), None));
        items
    }

    fn rungs(&self, outline: &[Spot], base: f64) -> Vec<Item> {
        let every = (RUNG_STEP / self.dp_a_top(outline)).round().max(1.0) as usize;
        let rung = |top: &Spot| Item::line(vec![*top, Spot::new(top.x, base)], Stroke::plain(Ink::Stretch, 1.8));
        outline.iter().step_by(every).map(rung).collect()
    }

    fn dp_a_top(&self, outline: &[Spot]) -> f64 {
        let (first, last) = (outline.first(), outline.last());
        let width = first.zip(last).map_or(0.0, |(first, last)| (last.x - first.x).abs());
        (width / outline.len().max(1) as f64).max(0.1)
    }

    fn dots(&self, x: &dyn Fn(f64) -> f64, base: f64) -> Vec<Item> {
        let (reach, limits) = (self.stretch.reach_m, self.stretch.limits_95_m);
        let step = DOT_STEP * self.step_m;
        let row = |from: f64, to: f64, sign: f64| {
            let count = ((to - from) / step).floor().clamp(0.0, 400.0) as usize;
            let start = if sign > 0.0 { from } else { to };
            (1..=count).map(move |index| start + sign * (index as f64 - 0.4) * step)
        };
        let all = row(limits.1, reach.1, 1.0).chain(row(reach.0, limits.0, -1.0));
        all.map(|along_m| Item::disc(Spot::new(x(along_m), base - 3.5), 1.6, Ink::Stretch)).collect()
    }
}

/// The shape under the tops, standing on the base line.
fn standing(tops: &[Spot], base: f64) -> Vec<Spot> {
    let foot = |spot: Option<&Spot>| spot.map(|spot| Spot::new(spot.x, base));
    foot(tops.first()).into_iter().chain(tops.iter().copied()).chain(foot(tops.last())).collect()
}

/// The mean odds per metre between two distances along the line, on a ring also below nothing and beyond its length.
fn mean_density(odds: &Odds, from_m: f64, to_m: f64) -> f64 {
    let rounds_m = (f64::midpoint(from_m, to_m) / odds.length_m()).floor() * odds.length_m();
    let entry = |along_m: f64| ((along_m - rounds_m) / odds.step_m).max(0.0) as usize;
    let last = odds.per_m.len().saturating_sub(1);
    let (first, last) = (entry(from_m).min(last), entry(to_m).min(last));
    let entries = odds.per_m.get(first..=last).unwrap_or_default();
    if entries.is_empty() { 0.0 } else { entries.iter().sum::<f64>() / entries.len() as f64 }
}
