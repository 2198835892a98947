//! Sums in the drawing's own plane.

use super::{Area, Spot};

impl Spot {
    /// A place on the drawing, dp.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(super) fn plus(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }

    pub(super) fn minus(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }

    pub(super) fn times(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }

    /// The step turned a quarter clockwise as it is seen.
    pub(super) fn right(self) -> Self {
        Self::new(-self.y, self.x)
    }

    pub(super) fn length(self) -> f64 {
        self.x.hypot(self.y)
    }

    pub(super) fn distance(self, other: Self) -> f64 {
        self.minus(other).length()
    }

    /// The step at length 1; a step of no length points right.
    pub(super) fn unit(self) -> Self {
        let length = self.length();
        if length > 1e-9 { self.times(1.0 / length) } else { Self::new(1.0, 0.0) }
    }

    /// The place at a share of the way to another.
    pub(super) fn between(self, other: Self, share: f64) -> Self {
        self.plus(other.minus(self).times(share))
    }

    /// The step of a length at degrees clockwise from straight up.
    pub(super) fn polar(length: f64, degrees: f64) -> Self {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Self::new(length * sin, -length * cos)
    }
}

impl Area {
    /// An area by its upper left corner, width and height, dp.
    #[must_use]
    pub fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, width, height }
    }

    /// The area that reaches so far to each side of a place.
    pub(super) fn around(middle: Spot, half_width: f64, half_height: f64) -> Self {
        Self::new(middle.x - half_width, middle.y - half_height, 2.0 * half_width, 2.0 * half_height)
    }

    pub(super) fn right(&self) -> f64 {
        self.x + self.width
    }

    pub(super) fn bottom(&self) -> f64 {
        self.y + self.height
    }

    pub(super) fn middle(&self) -> Spot {
        Spot::new(self.x + self.width / 2.0, self.y + self.height / 2.0)
    }

    /// The area with every edge moved inwards.
    pub(super) fn inset(&self, by: f64) -> Self {
        Self::new(self.x + by, self.y + by, (self.width - 2.0 * by).max(0.0), (self.height - 2.0 * by).max(0.0))
    }

    pub(super) fn holds(&self, spot: Spot) -> bool {
        (self.x..=self.right()).contains(&spot.x) && (self.y..=self.bottom()).contains(&spot.y)
    }

    /// The place in the area that is nearest to another.
    pub(super) fn nearest(&self, spot: Spot) -> Spot {
        Spot::new(spot.x.clamp(self.x, self.right()), spot.y.clamp(self.y, self.bottom()))
    }

    pub(super) fn holds_area(&self, other: &Self) -> bool {
        self.holds(Spot::new(other.x, other.y)) && self.holds(Spot::new(other.right(), other.bottom()))
    }

    pub(super) fn meets(&self, other: &Self) -> bool {
        self.x < other.right() && other.x < self.right() && self.y < other.bottom() && other.y < self.bottom()
    }

    /// The area moved by the least step that brings it inside another, as far as it fits.
    pub(super) fn moved_into(self, frame: &Self) -> Self {
        let into = |low: f64, length: f64, from: f64, to: f64| low.min(to - length).max(from);
        let x = into(self.x, self.width, frame.x, frame.right());
        Self { x, y: into(self.y, self.height, frame.y, frame.bottom()), ..self }
    }

    /// The shares of the way from `a` to `b` between which it lies in the area (Liang and Barsky 1984).
    pub(super) fn clip(&self, a: Spot, b: Spot) -> Option<(f64, f64)> {
        let step = b.minus(a);
        let sides = [(-step.x, a.x - self.x), (step.x, self.right() - a.x), (-step.y, a.y - self.y), (step.y, self.bottom() - a.y)];
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (towards, room) in sides {
            if towards < 0.0 {
                from = from.max(room / towards);
            } else if towards > 0.0 {
                to = to.min(room / towards);
            } else if room < 0.0 {
                return None;
            }
        }
        (from < to).then_some((from, to))
    }
}

/// The path so far beside another that it runs beside it at a distance to its right; sharp corners are cut.
pub(super) fn beside(path: &[Spot], distance: f64) -> Vec<Spot> {
    let shifted: Vec<(Spot, Spot)> = path.windows(2).filter_map(|pair| shift(pair, distance)).collect();
    let mut moved: Vec<Spot> = shifted.first().map(|first| first.0).into_iter().collect();
    for pair in shifted.windows(2) {
        if let [before, after] = pair {
            corner(*before, *after, distance.abs(), &mut moved);
        }
    }
    moved.extend(shifted.last().map(|last| last.1));
    moved
}

fn shift(pair: &[Spot], distance: f64) -> Option<(Spot, Spot)> {
    let [a, b] = pair else { return None };
    let aside = b.minus(*a).unit().right().times(distance);
    (a.distance(*b) > 1e-6).then(|| (a.plus(aside), b.plus(aside)))
}

/// Where two shifted pieces meet; too far out, both their ends.
fn corner(before: (Spot, Spot), after: (Spot, Spot), distance: f64, moved: &mut Vec<Spot>) {
    let (u, v) = (before.1.minus(before.0), after.1.minus(after.0));
    let across = u.x * v.y - u.y * v.x;
    let gap = after.0.minus(before.0);
    let share = (gap.x * v.y - gap.y * v.x) / across;
    let met = before.0.plus(u.times(share));
    if share.is_finite() && met.distance(before.1) <= 2.5 * distance {
        moved.push(met);
    } else {
        moved.extend([before.1, after.0]);
    }
}

/// A path without what lies nearer than `cut` to its ends.
pub(super) fn shortened(path: &[Spot], cut: f64) -> Vec<Spot> {
    let once = without_start(path, cut);
    let turned: Vec<Spot> = once.into_iter().rev().collect();
    without_start(&turned, cut).into_iter().rev().collect()
}

fn without_start(path: &[Spot], cut: f64) -> Vec<Spot> {
    let mut left = cut;
    for (index, pair) in path.windows(2).enumerate() {
        let [a, b] = pair else { continue };
        let length = a.distance(*b);
        if length > left {
            let rest = path.get(index + 1..).unwrap_or_default();
            return std::iter::once(a.between(*b, left / length)).chain(rest.iter().copied()).collect();
        }
        left -= length;
    }
    Vec::new()
}

/// Places every `step` along a path from half a step on, each with the direction there.
pub(super) fn every(path: &[Spot], step: f64) -> Vec<(Spot, Spot)> {
    let mut found = Vec::new();
    let mut next = step / 2.0;
    for pair in path.windows(2) {
        let [a, b] = pair else { continue };
        let length = a.distance(*b);
        while next <= length {
            found.push((a.between(*b, next / length.max(1e-9)), b.minus(*a).unit()));
            next += step;
        }
        next -= length;
    }
    found
}
