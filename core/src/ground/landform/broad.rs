//! The ground as broad as a walker means it: what a single post's error makes of it is evened out.

use super::islands::Top;
use super::mesh::Mesh;
use super::window::Surroundings;

/// The ground is taken as broad as this to each side, metres: a hill narrower than 100 m is none that a walker is told of (common
/// practice, no source).
pub(super) const HALF_M: f64 = 50.0;

/// Broad heights, and the highest and lowest of them around every post.
pub(super) struct Broad {
    values_m: Vec<f32>,
    around: Surroundings,
}

impl Broad {
    pub(super) fn new(mesh: &Mesh<'_>, around_m: f64) -> Self {
        let values_m = broad(mesh);
        let around = Surroundings::new(mesh, &values_m, around_m);
        Self { values_m, around }
    }

    /// Post by post.
    pub(super) fn values_m(&self) -> &[f32] {
        &self.values_m
    }

    /// How far a hill's top stands above its saddle or above the lowest ground around, whichever is less, metres.
    pub(super) fn above_m(&self, top: &Top) -> f64 {
        let base_m = top.saddle.map_or(f64::NEG_INFINITY, |saddle| self.at_m(saddle));
        self.at_m(top.top) - base_m.max(self.around.lowest_m(top.top))
    }

    /// How far the lowest of a depression lies below its outlet or below the highest ground around, whichever is less, metres.
    pub(super) fn below_m(&self, low: &Top) -> f64 {
        let base_m = low.saddle.map_or(f64::INFINITY, |saddle| self.at_m(saddle));
        base_m.min(self.around.highest_m(low.top)) - self.at_m(low.top)
    }

    /// The broad ground so many metres beyond a post, seen from another; that at the post itself where it is not known there.
    pub(super) fn beyond_m(&self, mesh: &Mesh<'_>, from: usize, to: usize, out_m: f64) -> f64 {
        let ((from_column, from_row), (column, row)) = (mesh.place(from), mesh.place(to));
        let times = out_m / mesh.apart_m(from, to).max(1.0);
        let beyond = |from: usize, to: usize, count: usize| {
            let place = to as f64 + (to as f64 - from as f64) * times;
            (place > -0.5 && place < count as f64 - 0.5).then(|| place.round() as usize)
        };
        let place = beyond(from_column, column, mesh.columns).zip(beyond(from_row, row, mesh.rows));
        let there_m = place.map_or(f64::NAN, |(column, row)| self.at_m(row * mesh.columns + column));
        if there_m.is_nan() { self.at_m(to) } else { there_m }
    }

    /// Of one post; NaN where there is none.
    pub(super) fn at_m(&self, post: usize) -> f64 {
        self.values_m.get(post).copied().map_or(f64::NAN, f64::from)
    }
}

/// The mean of the heights in the square that reaches 50 m to each side of every post; a void has none and counts in no other's.
fn broad(mesh: &Mesh<'_>) -> Vec<f32> {
    let known = |value: &f32| if value.is_nan() { (0.0, 0.0) } else { (f64::from(*value), 1.0) };
    let mut sums: Vec<(f64, f64)> = Vec::with_capacity(mesh.values_m().len());
    for (row, values) in mesh.values_m().chunks(mesh.columns).enumerate() {
        let list: Vec<(f64, f64)> = values.iter().map(known).collect();
        sums.extend(summed(&list, (HALF_M / mesh.spacing_m(row).0) as usize));
    }
    let mut found = vec![f32::NAN; sums.len()];
    let half = (HALF_M / mesh.spacing_m(mesh.rows / 2).1) as usize;
    for column in 0..mesh.columns {
        let list: Vec<(f64, f64)> = sums.iter().skip(column).step_by(mesh.columns).copied().collect();
        for (to, (sum_m, count)) in found.iter_mut().skip(column).step_by(mesh.columns).zip(summed(&list, half)) {
            *to = (sum_m / count) as f32;
        }
    }
    let voids = mesh.values_m().iter().zip(&mut found).filter(|(value, _)| value.is_nan());
    voids.for_each(|(_, broad)| *broad = f32::NAN);
    found
}

/// The sums of a list within `half` places of each place.
fn summed(list: &[(f64, f64)], half: usize) -> impl Iterator<Item = (f64, f64)> {
    let mut upto = Vec::with_capacity(list.len() + 1);
    upto.push((0.0, 0.0));
    let mut whole = (0.0, 0.0);
    for (sum, count) in list {
        whole = (whole.0 + sum, whole.1 + count);
        upto.push(whole);
    }
    let last = list.len();
    (0..last).map(move |at| {
        let of = |place: usize| upto.get(place).copied().unwrap_or(whole);
        let (from, to) = (of(at.saturating_sub(half)), of((at + half + 1).min(last)));
        (to.0 - from.0, to.1 - from.1)
    })
}
