//! The highest and the lowest ground around every post.

use std::collections::VecDeque;

use super::mesh::Mesh;

/// The highest value within `half` places of each place of a list. NaN counts as lowest of all.
///
/// # References
/// The monotone queue, a common method: no source.
fn highest_along(list: &[f32], half: usize, mut tell: impl FnMut(usize, f32)) {
    let mut open: VecDeque<(usize, f32)> = VecDeque::new();
    let mut next = list.iter().map(|value| if value.is_nan() { f32::NEG_INFINITY } else { *value }).enumerate();
    for at in 0..list.len() {
        let wanted = if at == 0 { half + 1 } else { 1 };
        for (place, value) in next.by_ref().take(wanted) {
            while open.back().is_some_and(|(_, last)| *last <= value) {
                open.pop_back();
            }
            open.push_back((place, value));
        }
        while open.front().is_some_and(|(place, _)| place + half < at) {
            open.pop_front();
        }
        tell(at, open.front().map_or(f32::NEG_INFINITY, |(_, value)| *value));
    }
}

/// The highest value in the square that reaches `around_m` to each side of every post.
fn highest(mesh: &Mesh<'_>, values: &[f32], around_m: f64) -> Vec<f32> {
    let mut found = vec![0.0; values.len()];
    for (row, (list, out)) in values.chunks(mesh.columns).zip(found.chunks_mut(mesh.columns)).enumerate() {
        let half = (around_m / mesh.spacing_m(row).0) as usize;
        highest_along(list, half, |at, value| set(out, at, value));
    }
    let half = (around_m / mesh.spacing_m(mesh.rows / 2).1) as usize;
    let mut list = vec![0.0; mesh.rows];
    for column in 0..mesh.columns {
        list.iter_mut().zip(found.iter().skip(column).step_by(mesh.columns)).for_each(|(to, from)| *to = *from);
        highest_along(&list, half, |row, value| set(&mut found, row * mesh.columns + column, value));
    }
    found
}

fn set(list: &mut [f32], at: usize, value: f32) {
    if let Some(place) = list.get_mut(at) {
        *place = value;
    }
}

/// The highest and the lowest height in the square that reaches `around_m` to each side of every post.
pub(super) struct Surroundings {
    highest_m: Vec<f32>,
    lowest_negated_m: Vec<f32>,
}

impl Surroundings {
    /// Of values that stand at the posts of a mesh.
    pub(super) fn new(mesh: &Mesh<'_>, values_m: &[f32], around_m: f64) -> Self {
        let negated: Vec<f32> = values_m.iter().map(|value| -value).collect();
        Self { highest_m: highest(mesh, values_m, around_m), lowest_negated_m: highest(mesh, &negated, around_m) }
    }

    pub(super) fn highest_m(&self, post: usize) -> f64 {
        self.highest_m.get(post).copied().map_or(f64::NAN, f64::from)
    }

    pub(super) fn lowest_m(&self, post: usize) -> f64 {
        self.lowest_negated_m.get(post).copied().map_or(f64::NAN, |value| -f64::from(value))
    }
}
