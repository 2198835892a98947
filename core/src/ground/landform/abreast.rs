//! Posts side by side, looked around from at once: the same steps lead from each to ground that lies side by side too.

use std::borrow::Cow;

/// Posts looked around from at once. So many that a compiler makes a loop over them, and that loop one over vectors.
pub(super) const ABREAST: usize = 64;

/// One number for each of them.
pub(super) type Abreast = [f32; ABREAST];

/// The values side by side from a place of a list on, unknown beyond its ends.
pub(super) fn abreast(values: &[f32], from: usize) -> Cow<'_, Abreast> {
    let inside = values.get(from..).and_then(|rest| rest.first_chunk());
    let one = |lane: usize| values.get(from.wrapping_add(lane)).copied().unwrap_or(f32::NAN);
    inside.map_or_else(|| Cow::Owned(std::array::from_fn(one)), Cow::Borrowed)
}

/// The higher of two, the first where the second is not known.
pub(super) fn higher(a: f32, b: f32) -> f32 {
    if b > a { b } else { a }
}

/// The lower of two, the first where the second is not known.
pub(super) fn lower(a: f32, b: f32) -> f32 {
    if b < a { b } else { a }
}
